// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands in a situation, and where a storey's floor is. For those who build scenes.
#pragma once

#include <set>
#include <string>

#include "design/design.h"
#include "geometry/polygon.h"

namespace belvedere::scene {

// What is named in any situation's `present` holds only in situations that name it; what this
// situation names as `absent` is taken away.
class Presence {
 public:
  Presence(const design::Design& design, const design::Situation& situation);
  bool holds(const std::string& id) const {
    return !absent_.contains(id) && (!named_.contains(id) || present_.contains(id));
  }

 private:
  std::set<std::string> named_, present_, absent_;
};

// Is it the storey's floor that the zone is about (handbook 19)?
bool onFloor(const design::Zone& zone);

// Site z from which a solid's heights count.
double floorUnder(const design::Design& design, const design::Solid& solid);

// An outline in building coordinates, on the site, anticlockwise.
Ring onSite(const design::Building& building, const Ring& outline);

// The outline of a storey's slab less its voids, on the site.
Region slabOf(const design::Building& building, const design::Storey& storey);

// Height of a solid's top above the floor it counts from: top_m + rise * along(p), a plane.
struct Top {
  double low_m = 0;    // where along() is 0
  Vec2 from, gradient; // top(p) = low_m + gradient . (p - from)
  double at(Vec2 p) const { return low_m + dot(gradient, p - from); }
};
Top topOf(const design::Solid& solid);

}  // namespace belvedere::scene
