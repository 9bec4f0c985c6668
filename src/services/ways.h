// SPDX-License-Identifier: GPL-3.0-or-later
//
// Ways: how long a cable is between two places of a site (handbook 10). Cables follow the
// containment drawn on the plan and, along walls, the line under the ceiling (a wall's foot counts
// as its top where it is lower); from storey to storey they go by risers alone: containment that
// climbs. Where two of these meet or cross in plan, within kJoinM, a cable passes from one to the
// other and climbs what lies between their heights.
//
// A place takes to the nearest point of any of them that lies on its storey (of the chosen
// containment, where the link names its route): straight in plan, then up or down: the drop.
// Two places that are nearer to each other than both to the ways are joined directly. Storeys without
// any way on them are crossed square to the axes of the site.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "design/design.h"

namespace belvedere::services {

inline constexpr double kJoinM = 0.3;

struct Way {
  double length_m = 0;    // drops and all, without slack
  double drop_m = 0;      // of it, off the ways at both ends
  double contained_m = 0; // of it, in containment
  double climb_m = 0;     // of it, from height to height on the way
  std::vector<design::ContainmentId> along;  // containment that it follows, in order
  std::vector<Vec3> path; // from the first place to the second, site
  bool open = false;      // no way was there: square to the axes
};

// The ways of one site, made once.
class Ways {
 public:
  explicit Ways(const design::Design& design);
  ~Ways();
  // The shortest way; nothing where no riser joins the storeys, or the named containment does not
  // join up. `route`: only along these, empty: any. Exact on the graph of all ways cut where they
  // meet and where the places take to them.
  std::optional<Way> between(Vec3 from, Vec3 to, std::span<const design::AnyId> route = {}) const;

 private:
  struct Parts;
  std::unique_ptr<const Parts> parts_;
};

}  // namespace belvedere::services
