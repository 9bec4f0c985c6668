// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings of several situations, each said for the first in which it is so.
#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/finding.h"

namespace belvedere::proof {

class Sayer {
 public:
  // Says it once of these ids; of an imager with several aims once of each `view`, by name.
  void say(Finding finding, const std::string& view = {}) {
    if (said_.insert(keyOf(finding.code, finding.about, view)).second) out.push_back(std::move(finding));
  }
  bool said(const std::string& code, const std::vector<std::string>& about, const std::string& view = {}) const {
    return said_.contains(keyOf(code, about, view));
  }
  std::vector<Finding> out;

 private:
  static std::string keyOf(std::string key, const std::vector<std::string>& about, const std::string& view) {
    for (const std::string& id : about) key += "\n" + id;
    return key + "\n" + view;
  }
  std::set<std::string> said_;
};

}  // namespace belvedere::proof
