// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lines of an object on the plan, site metres: for picking, snapping and for whoever shows what
// is selected. How a sheet looks is the drawing's business; this is geometry alone.
#pragma once

#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

struct Trace {
  std::vector<Ring> rings;                // closed outlines: the outer first, then holes or voids
  std::vector<std::vector<Vec2>> lines;   // open ones: a wall's centre line, a mounting line
  std::vector<Vec2> points;               // fixing point, lamp, pin, pole
  double half_width_m = 0;                // of what runs along `lines`: half a wall's thickness
};

// Nothing but empty lists for an object that does not exist or has no place. A building gives the
// outlines of its storeys, a housing its fixing point and its origin (of a slot: its lens), a solid
// from a file its place. `storey`: only as far as it is shown there; empty: all of it.
Trace traceOf(const design::Design& design, const ObjectRef& ref,
              const design::StoreyId& storey = {});
// Of all its points, a wall's thickness included.
Box2 extentOf(const Trace& trace);

// Both faces of a line of a thickness, mitred at its bends (bends sharper than 150 degrees are cut
// square): left of its direction, then right. A line that ends where it begins gives rings whose
// first point is repeated.
std::vector<std::vector<Vec2>> facesOf(const std::vector<Vec2>& path, double thickness_m);

// Place and direction (a unit vector) on a line, `from_m` from its start along it; beyond an end,
// the end. The line has a length.
struct OnLine {
  Vec2 at, along;
};
OnLine onLine(const std::vector<Vec2>& path, double from_m);
// Where on a line the nearest point to `p` lies, m from its start, and how far it is.
struct NearLine {
  double from_m = 0, distance_m = 0;
  Vec2 at;
};
NearLine nearLine(const std::vector<Vec2>& path, Vec2 p);
// The part of a line between two distances from its start, with the bends between.
std::vector<Vec2> partOf(const std::vector<Vec2>& path, double from_m, double to_m);

// Building coordinates of a place on the site (the other way: design::siteFromBuilding).
Vec2 buildingFromSite(const design::Building& building, Vec2 p_in_site);

// Whether something at a height (site z) that names no storey is shown on a storey: the storey's
// floor is its building's highest at or below it.
bool onStoreyByHeight(const design::Design& design, double z_m, const design::StoreyId& storey);
// Whether an object is shown on a storey: it names it, is part of it, or names none and lies at its
// height. Of an empty storey: always.
bool shownOn(const design::Design& design, const ObjectRef& ref, const design::StoreyId& storey);

}  // namespace belvedere::edit
