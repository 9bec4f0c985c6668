// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands on a storey, as shapes in plan (site metres): walls with their openings cut, the
// slab, solids, housings. How a situation changes them is honoured. Nothing here is a proof's
// business: the judge has the scene's own bodies.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"
#include "geometry/polygon.h"

namespace belvedere::drawing {

// Above a floor, what begins higher is drawn dashed, as overhead; what ends lower is drawn as
// looked down upon. Common drawing practice cuts a plan about breast-high.
inline constexpr double kCutM = 1.2;

enum class Look {
  cut,       // walls and columns through the cut: solid ink
  low,       // looked down upon: an outline over a light fill
  overhead,  // above the cut: a dashed outline
};
struct PlanShape {
  std::string id, title;
  Look look = Look::cut;
  Region area;
};
struct OpeningShape {
  std::string id;
  Vec2 from, to;          // ends on the wall's centre line
  double thickness_m = 0; // of the wall
  bool filled = false;    // a leaf or a pane in this situation
  bool door = false;      // reaches down to the floor
};
// Which way a ramp or stair rises.
struct RiseArrow {
  Vec2 from, to;
};
struct PlanShapes {
  Region slab;                      // outline less voids
  std::vector<Region> voids;        // each void
  std::vector<PlanShape> walls;     // openings taken out
  std::vector<OpeningShape> openings;
  std::vector<PlanShape> solids;
  std::vector<RiseArrow> rises;
};
PlanShapes planShapes(const design::Design& design, const design::Storey& storey,
                      const design::Situation& situation);

// A wall's body in plan before openings are taken out: its path with its thickness, mitred.
Region wallBody(const std::vector<Vec2>& path, double thickness_m);

// Whether a solid, zone or opening stands in a situation: named present there, or named present
// nowhere; and not absent there.
bool standsIn(const design::Design& design, const std::string& id,
              const design::Situation& situation);
// Whether a housing is drawn on a storey: it says so, or it says none and hangs at its height.
bool drawnOn(const design::Design& design, const design::Housing& housing,
             const design::Storey& storey);

}  // namespace belvedere::drawing
