// SPDX-License-Identifier: GPL-3.0-or-later
//
// The vertical section along an imager's axis, asked of the judge in the looking thread, so that it
// is live while a hand moves.
#pragma once

#include <optional>
#include <string>

#include "desk/live_looks.h"
#include "edit/outline_grips.h"
#include "edit/section.h"

namespace belvedere::desk {

struct LiveSection {
  std::string imager;
  edit::Section section;
  design::Range band_m{0, 0};   // the target's, above its floor
  std::string target;           // "person"
  double tilt_deg = 0;
  double lens_height_m = 0;     // above the floor under the housing
};

// For the selected requirement, else the first of the storey's, else a person on its floor.
std::optional<LiveSection> liveSection(LiveLooks& looks, const std::string& imager,
                                       std::size_t aim, const design::RequirementId& requirement,
                                       const design::StoreyId& storey,
                                       const design::Situation& situation);

// Where the outline of an imager lies that is about a requirement, or about none (null): then about a
// person on the storey's floor.
edit::OutlinePlane outlinePlane(const design::Design& design,
                                const design::Requirement* requirement,
                                const design::StoreyId& storey);
// What an imager that serves nothing has in its frame, for the requirement that its section is of.
std::optional<drawing::ImagerOutline> frameOutline(LiveLooks& looks, const std::string& imager,
                                                   std::size_t aim,
                                                   const design::RequirementId& requirement,
                                                   const design::StoreyId& storey,
                                                   const design::Situation& situation);

}  // namespace belvedere::desk
