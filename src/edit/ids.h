// SPDX-License-Identifier: GPL-3.0-or-later
//
// Free ids, many at a time.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "design/design.h"

namespace belvedere::edit {

class FreeIds {
 public:
  explicit FreeIds(const design::Design& design);
  // The first free id of a prefix; from then on it is taken.
  std::string next(std::string_view prefix);
  // The first free id with the letters of another: "W3" after "W2", "door1" after "door".
  std::string nextLike(const std::string& id);

 private:
  std::unordered_set<std::string> taken_;
  std::unordered_map<std::string, int> last_;  // number given of each prefix
};

}  // namespace belvedere::edit
