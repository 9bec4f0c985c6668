// SPDX-License-Identifier: GPL-3.0-or-later
//
// The least turn of an imager that takes something of its lamps out of its picture: what a finding
// proposes. Of an imager with several aims one aim is turned.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"

namespace belvedere::proof {

// By whole degrees of pan or of tilt (down is positive): one of them is 0.
struct LeastTurn {
  double pan_deg = 0, tilt_deg = 0;
};
inline constexpr int kMostTurnDeg = 60;

// Does a view see it? Asked of the view as it is turned, with the lamps of its housing that burn, as they
// then stand (those that an imager carries turn with it); `alone` is a design of that housing by itself.
using Sees = std::function<bool(const design::Design& alone, const design::PosedImager& view,
                                const std::vector<light::Lamp>& own)>;

// The least turn within the model's limits after which `sees` says no; nothing where there is none up to
// kMostTurnDeg, and for an imager that is locked.
//   lamps  those that burn, of any housing
std::optional<LeastTurn> leastTurn(const design::Design& design, const design::PosedImager& view,
                                   const std::vector<light::Lamp>& lamps, const Sees& sees,
                                   const Progress& progress);

// The turns of one design, each looked for once. Key: what is asked about and in what; the view's own
// aim and the lamps that burn are added to it.
class LeastTurns {
 public:
  const std::optional<LeastTurn>& of(std::string what, const design::Design& design,
                                     const design::PosedImager& view,
                                     const std::vector<light::Lamp>& lamps, const Sees& sees,
                                     const Progress& progress);

 private:
  std::map<std::vector<std::string>, std::optional<LeastTurn>> found_;
};

// "turned 7 deg to the left it does not", "with aim 2 tilted 3 deg farther down it does not"; where there is no
// such turn, that, and `else_do` instead.
std::string turnSentence(const std::optional<LeastTurn>& turn, const design::PosedImager& view,
                         const std::string& else_do);

}  // namespace belvedere::proof
