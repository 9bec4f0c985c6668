// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a housing hangs: along its mounting line, onto a line or a wall's face within reach, free
// where there is none. Aims stay what they are on the site, as far as limits allow.
#pragma once

#include <optional>
#include <string>

#include "edit/aim.h"
#include "scene/scene.h"

namespace belvedere::edit {

// A place where a housing can be fixed.
struct Fixing {
  design::AnyId on;                   // mounting line or wall; empty: in free air
  Vec2 at_m;                          // site
  double along_m = 0;                 // from the start of the line's or wall's path
  std::optional<design::Range> z_m;   // site heights that it allows, least and most
  std::optional<double> outward_deg;  // of a wall's face: bearing away from it
  double away_m = 0;                  // from the point that was asked for
};
// The place nearest to a point within reach: on a mounting line of the storey before a wall's face;
// excluded stretches and openings left out. Storey empty: any.
std::optional<Fixing> nearestFixing(const design::Design& design, const design::StoreyId& storey,
                                    Vec2 at, double reach_m);
// The place nearest to a point on a mounting line, however far. Nothing for a line that is not
// there, or wholly excluded.
std::optional<Fixing> onMounting(const design::Design& design, const design::MountingId& mounting,
                                 Vec2 at);

// A housing dragged to a point on the plan: onto what is within reach, else along the line that it
// hangs on, else free. Its height stays, within what the line or wall allows. Onto a face that it
// did not hang on, a bracket that reaches out turns its base away from the wall.
Aimed dragHousing(const design::Design& design, const design::HousingId& housing, Vec2 to,
                  double reach_m);

// Typed numbers. Heights: of the middle of the lenses above the floor of the housing's storey (that
// of its mounting line, its own, or the one under it; open ground: site z), within what its
// mounting line allows.
double lensHeight(const design::Design& design, const design::HousingId& housing);
Aimed withLensHeight(const design::Design& design, const design::HousingId& housing,
                     double height_m);
// Site z of the floor that heights of a housing count from.
double floorUnderHousing(const design::Design& design, const design::Housing& housing);
// The fixing point itself; `on` stays if the point is on it (within a centimetre), else it is free.
Aimed withFixing(const design::Design& design, const design::HousingId& housing,
                 const Vec3& fixing_m);

}  // namespace belvedere::edit
