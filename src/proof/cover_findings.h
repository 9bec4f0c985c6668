// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the cover of a housing (dome, bubble) does to a lamp beneath it: findings about mirror places
// that light/side_effects.h computes, with the least turn that keeps them out of the picture.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"

namespace belvedere::proof {

// Code cover_veil: of every model with a lamp in use beneath its cover, once.
std::vector<Finding> coverVeils(const design::Design& design);

// The turn of one imager, by whole degrees of pan or of tilt (down is positive), within its model's
// limits, after which it sees none of these lamps (by name) mirrored in its cover. Lamps that it
// carries turn with it. Nothing where there is none up to kMostCoverTurnDeg.
struct CoverTurn {
  double pan_deg = 0, tilt_deg = 0;  // one of them is 0
};
std::optional<CoverTurn> leastTurnFromCover(const design::Design& design,
                                            const design::PosedImager& view,
                                            const std::vector<light::Lamp>& lamps,
                                            const Progress& progress);
inline constexpr int kMostCoverTurnDeg = 60;

// The turns of one design, each looked for once: what burns in its housing and where it looks decide, not the
// situation nor which lamp is asked about.
class CoverTurns {
 public:
  const std::optional<CoverTurn>& of(const design::Design& design, const design::PosedImager& view,
                                     const std::vector<light::Lamp>& lamps, const Progress& progress);

 private:
  std::map<std::vector<std::string>, std::optional<CoverTurn>> found_;
};

// Code lamp_in_cover: of the lamps given (those that burn), as the imagers given see them.
std::vector<Finding> mirroredInCovers(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::vector<light::Lamp>& lamps,
                                      const std::vector<design::PosedImager>& seen_by,
                                      CoverTurns& turns, const Progress& progress);

}  // namespace belvedere::proof
