// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where the ring of a housing looks: bearings at which a direction so far below the horizon lies in
// an imager's frame.
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "proof/blind.h"

namespace belvedere::proof {
namespace {

constexpr int kScanned = 1440;            // bearings, evenly round
constexpr double kFoundDeg = 1e-9;        // how closely an arc's end is found
constexpr double kTurnDeg = 360;

using Arcs = std::vector<std::array<double, 2>>;  // sorted, apart, within [0, 360]

Vec3 towards(const design::PosedImager& view, double bearing_deg, double depression_deg) {
  const double b = degToRad(bearing_deg), down = degToRad(depression_deg);
  const double level = std::cos(down);
  return view.imager_from_site * Vec3{level * std::sin(b), level * std::cos(b), -std::sin(down)};
}
bool framed(const design::PosedImager& view, Vec2 at_px) {  // no for NaN
  return at_px.x >= view.frame_low_px.x && at_px.x <= view.frame_high_px.x &&
         at_px.y >= view.frame_low_px.y && at_px.y <= view.frame_high_px.y;
}
bool looks(const design::PosedImager& view, double bearing_deg, double depression_deg) {
  const auto at_px = optics::project(view.lens, towards(view, bearing_deg, depression_deg));
  return at_px && framed(view, *at_px);
}

// Bearings to ask at: evenly round, and across the frame, so that a narrow one is not passed over.
std::vector<double> bearingsOf(const design::PosedImager& view) {
  constexpr int kAcross = 24;
  std::vector<double> bearings;
  for (int i = 0; i <= kScanned; ++i) bearings.push_back(kTurnDeg * i / kScanned);
  const Mat3 site_from_imager = transposed(view.imager_from_site);
  const Vec2 low = view.frame_low_px, size = view.frame_high_px - view.frame_low_px;
  for (int row = 0; row <= kAcross; ++row)
    for (int column = 0; column <= kAcross; ++column) {
      const Vec2 px{low.x + size.x * column / kAcross, low.y + size.y * row / kAcross};
      const auto direction = optics::unproject(view.lens, px);
      if (!direction) continue;
      const Vec3 site = site_from_imager * *direction;
      bearings.push_back(wrap360(radToDeg(std::atan2(site.x, site.y))));
    }
  std::sort(bearings.begin(), bearings.end());
  return bearings;
}

Arcs arcsOf(const design::PosedImager& view, const std::vector<double>& bearings,
            double depression_deg) {
  std::vector<Vec3> directions;
  for (const double bearing_deg : bearings)
    directions.push_back(towards(view, bearing_deg, depression_deg));
  std::vector<Vec2> at_px(directions.size());
  optics::projectMany(view.lens, directions, at_px);
  const auto end = [&](double outside, double inside) {
    while (std::fabs(inside - outside) > kFoundDeg) {
      const double middle = 0.5 * (inside + outside);
      (looks(view, middle, depression_deg) ? inside : outside) = middle;
    }
    return inside;
  };
  Arcs arcs;
  bool open = false;
  for (std::size_t i = 0; i < bearings.size(); ++i) {
    const bool inside = framed(view, at_px[i]);
    if (inside && !open) {
      const double from = i == 0 ? bearings[i] : end(bearings[i - 1], bearings[i]);
      arcs.push_back({from, from});
    } else if (!inside && open) {
      arcs.back()[1] = end(bearings[i], bearings[i - 1]);
    }
    open = inside;
  }
  if (open) arcs.back()[1] = kTurnDeg;
  return arcs;
}

Arcs merged(Arcs arcs) {
  std::sort(arcs.begin(), arcs.end());
  Arcs apart;
  for (const auto& arc : arcs) {
    if (apart.empty() || arc[0] > apart.back()[1] + kLeastArcDeg) apart.push_back(arc);
    else apart.back()[1] = std::max(apart.back()[1], arc[1]);
  }
  return apart;
}

// The two that meet at north made one, from above 180 on; slivers dropped.
Arcs acrossNorth(Arcs arcs) {
  std::erase_if(arcs, [](const auto& arc) { return arc[1] - arc[0] < kLeastArcDeg; });
  if (arcs.size() > 1 && arcs.front()[0] <= 0 && arcs.back()[1] >= kTurnDeg) {
    arcs.back()[1] = arcs.front()[1];
    arcs.erase(arcs.begin());
  }
  return arcs;
}

// Where at least / fewer than `count` imagers look.
Arcs where(const std::vector<Arcs>& imagers, int count, bool at_least) {
  std::vector<std::array<double, 2>> changes;  // bearing, +1 or -1
  for (const Arcs& arcs : imagers)
    for (const auto& arc : arcs) {
      changes.push_back({arc[0], 1});
      changes.push_back({arc[1], -1});
    }
  std::sort(changes.begin(), changes.end());
  Arcs found;
  double since = 0;
  int looking = 0;
  const auto upTo = [&](double bearing) {
    if ((looking >= count) == at_least && bearing > since) {
      if (!found.empty() && found.back()[1] == since) found.back()[1] = bearing;
      else found.push_back({since, bearing});
    }
    since = bearing;
  };
  for (const auto& [bearing, change] : changes) {
    upTo(bearing);
    looking += static_cast<int>(change);
  }
  upTo(kTurnDeg);
  return acrossNorth(found);
}

}  // namespace

std::vector<RingAt> ringOf(const design::Design& design, const design::Housing& housing,
                           const std::vector<double>& depressions_deg) {
  const auto views = design::posedImagersOf(design, housing, design::JudgedOn::captured);
  std::vector<std::vector<double>> bearings;
  for (const design::PosedImager& view : views) bearings.push_back(bearingsOf(view));
  std::vector<RingAt> rings;
  for (const double depression_deg : depressions_deg) {
    std::vector<std::string> names;
    std::vector<Arcs> imagers;  // an imager with several aims looks wherever one of them does
    for (std::size_t i = 0; i < views.size(); ++i) {
      const design::PosedImager& view = views[i];
      if (names.empty() || names.back() != view.imager) {
        names.push_back(view.imager);
        imagers.emplace_back();
      }
      const Arcs arcs = arcsOf(view, bearings[i], depression_deg);
      imagers.back().insert(imagers.back().end(), arcs.begin(), arcs.end());
    }
    RingAt ring;
    ring.housing = housing.id;
    ring.depression_deg = depression_deg;
    for (std::size_t i = 0; i < imagers.size(); ++i) {
      imagers[i] = merged(std::move(imagers[i]));
      for (const auto& arc : acrossNorth(imagers[i]))
        ring.arcs.push_back({names[i], arc[0], arc[1]});
    }
    ring.gaps_deg = where(imagers, 1, false);
    ring.overlaps_deg = where(imagers, 2, true);
    rings.push_back(std::move(ring));
  }
  return rings;
}

}  // namespace belvedere::proof
