// SPDX-License-Identifier: GPL-3.0-or-later
//
// Ways: how long a cable is between two places of a site (handbook 10). Cables follow the
// containment drawn on the plan and, along walls, the line under the ceiling (a wall's foot counts
// as its top where it is lower); from storey to storey they go by risers alone: containment that
// climbs. Where two of these that share a storey meet or cross in plan, within kJoinM, a cable passes
// from one to the other and climbs what lies between their heights; containment of different storeys
// joins where it meets in space, within kJoinM.
//
// A place takes to the nearest point of any of them that lies on its storey: straight in plan, then up
// or down: the drop. A stated route is followed containment by containment in the order stated: from
// the first place to the first, from each to the next where they meet, from the last to the other
// place. Two that do not meet and share a storey are bridged by the shortest way on that storey between
// their nearest points.
// Two places that are nearer to each other than both to the ways are joined directly. Storeys without
// any way on them are crossed square to the axes of the site.
//
// A link may state a way of its own, as a line of places, which wins over a route: it goes straight
// from one to the next, and takes to them at its ends as to containment. From storey to storey it, too,
// goes by risers alone.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "design/design.h"

namespace belvedere::services {

inline constexpr double kJoinM = 0.3;

// Two that do not join: containment by id; empty: the place at that end.
struct Parted {
  std::string one, other;
  double apart_m = 0;     // straight
  double bridge_m = 0;    // of a route that is bridged: what the cable takes
  bool open = false;      // the bridge crosses the floor, off all walls and containment
};

struct Way {
  double length_m = 0;    // drops and all, without slack
  double drop_m = 0;      // of it, off the ways at both ends
  double contained_m = 0; // of it, in containment
  double climb_m = 0;     // of it, from height to height on the way
  std::vector<design::ContainmentId> along;  // containment that it follows, in order
  std::vector<Vec3> path; // from the first place to the second, site
  bool open = false;      // no way was there: square to the axes
  std::vector<Parted> bridged;  // of a stated route, in order
};
// The places by which a link would state this way as its own: where it bends, but for its drops.
std::vector<Vec3> bendsOf(const Way& way);

// The ways of one site, made once.
class Ways {
 public:
  explicit Ways(const design::Design& design);
  ~Ways();
  // The shortest way; nothing where no riser joins the storeys, or a stated route cannot be followed.
  // Exact on the graph of all ways cut where they meet and where the places take to them. `parted`:
  // where there is none, what does not join (of no route, the widest gap on the way of least gaps
  // over containment), where containment is there to name; one id twice: it names no containment.
  std::optional<Way> between(Vec3 from, Vec3 to, std::span<const design::AnyId> route = {},
                             std::optional<Parted>* parted = nullptr) const;
  // The way of its own that a link states: `path` has a place at least. Where two in a row, or an end
  // and the first or last, lie on storeys and on none in common, the shortest by risers between them;
  // nothing where none joins them. What of it runs beside containment, within kJoinM and in its
  // direction, counts as contained.
  std::optional<Way> through(Vec3 from, std::span<const Vec3> path, Vec3 to,
                             std::optional<Parted>* parted = nullptr) const;

  struct Parts;  // ways_parts.h

 private:
  std::unique_ptr<const Parts> parts_;
};

}  // namespace belvedere::services
