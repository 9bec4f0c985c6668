// SPDX-License-Identifier: GPL-3.0-or-later
//
// From a wall's centre line and openings to convex prisms. For build.cpp and footprints.cpp.
//
// Each segment of the path is a strip of the wall's thickness. At a corner both strips cover the
// corner: each runs on to the outer face of the other, so that the corner is mitred outside and
// the two overlap over the whole of it; a short neighbour (a drawn curve) or an opening near the
// corner stops a strip there. Openings cut strips into jambs of full height and pieces under sills
// and over heads, which reach a millimetre into the jambs. A stretch without openings stays whole.
#pragma once

#include <optional>
#include <vector>

#include "design/design.h"
#include "geometry/polygon.h"

namespace belvedere::scene {

struct WallPiece {
  Ring outline;                  // convex, anticlockwise, site
  double bottom_m = 0, top_m = 0;  // above the storey's floor
  const design::Opening* filling = nullptr;  // whose pane this is; null: the wall itself
};

inline constexpr double kPaneThicknessM = 0.02;

// Pieces of the wall and panes of its filled openings. Heights include what reaches into the slabs
// below and above (scene.h).
std::vector<WallPiece> wallPieces(const design::Building& building, const design::Storey& storey,
                                  const design::Wall& wall);

}  // namespace belvedere::scene
