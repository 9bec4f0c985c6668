// SPDX-License-Identifier: GPL-3.0-or-later
//
// The vertical section along an imager's axis, to be folded down onto the plan beside it. Points
// are (along, z): metres in plan from the foot below the lens along the axis's bearing (negative
// behind it), and site z. What is seen where is the judge's answer, never one of this file.
// Its drags: edgeThrough and bodyFollows (aim_drag.h) at siteOf(section, point); withLensHeight.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "design/resolve.h"
#include "geometry/polygon.h"
#include "proof/judge.h"

namespace belvedere::edit {

// A ray from the lens within the section, to where something stops it.
struct SectionRay {
  double down_deg = 0;     // below the horizontal, towards the axis's bearing; above 90: backwards
  Vec2 end;                // where it is stopped, or leaves the section
  std::string stopped_by;  // id of the body; empty: nothing
};
struct SectionBody {
  std::string id;    // of the wall, opening, storey (its slab), solid or terrain
  double light = 0;  // share of visible light that passes
  Ring outline;      // of a convex piece; anticlockwise
  std::vector<Vec2> line;  // two points, of a triangle of a mesh; then the outline is empty
};
struct SectionLine {
  Vec2 from, to;
};
struct Section {
  Vec2 foot;                 // site
  double bearing_deg = 0;    // of the axis; of an axis straight down or up: of the picture's top
  double from_m = 0, to_m = 0;  // how far the section runs, along
  double lens_z_m = 0;
  SectionRay axis;
  std::optional<SectionRay> upper, lower;  // where the plane of the section leaves the frame: with
                                           // no roll, top and bottom of the picture's middle column
  std::vector<SectionLine> floor;          // slabs and ramps under the lens, left to right
  SectionLine band_low, band_high;         // the target's band over the question's floor
  std::vector<SectionBody> bodies;         // in the scene's order
  // Of the target's band, hidden or not: from the foot to where it comes into the frame. Absent
  // where it is in the frame at the foot; without end within the section: to to_m.
  std::optional<design::Range> blind_m;
  bool blind_ends = true;                  // false: it goes on past to_m
  // The end of the stretch that follows, in frame and dense enough; absent where there is none.
  std::optional<double> far_m;
  bool far_ends = true;                    // false: it goes on past to_m
};

// `view`: index into the question's views. Storeys and ramps are the design's.
Section sectionOf(const design::Design& design, const proof::Question& question, std::size_t view,
                  double from_m, double to_m);
// For an imager by itself, no requirement chosen: a question about a target's band above a floor.
proof::Question sectionQuestion(std::shared_ptr<const proof::Place> place,
                                const design::PosedImager& view, design::Range band_m,
                                double needed_px_per_m, const scene::Floor& floor);

// A point of the section on the site, and the other way round (what is off the plane is dropped
// onto it).
Vec3 siteOf(const Section& section, Vec2 along_z);
Vec2 inSection(const Section& section, const Vec3& site);

}  // namespace belvedere::edit
