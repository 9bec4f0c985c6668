// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/blind.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/units.h"
#include "proof/blind_floor.h"

namespace belvedere::proof {
namespace {

// How closely curved edges of frames are followed.
constexpr double kOutlineErrorM = 1e-3;
// Between frames that share an edge rounding leaves slits: nobody stands in one, and the blind zone
// does not leak through.
constexpr double kSlitM = 1e-6;

using Views = std::vector<design::PosedImager>;

Vec3 middleOf(const Views& views) {
  Vec3 sum;
  for (const design::PosedImager& view : views) sum = sum + view.lens_m;
  return sum / static_cast<double>(views.size());
}

// Where the views look together, in plan; of a whole ring next to nothing.
Vec2 headingOf(const Views& views) {
  Vec2 sum;
  for (const design::PosedImager& view : views) sum = sum + view.imager_from_site.row[2].xy();
  return norm(sum) > 1e-6 ? sum : Vec2{};
}

// What no view shows of a floor on the plane z, connected with the foot. Nothing: the foot is seen.
std::optional<Region> unseenAround(const Views& views, double z_m, const Region& floor, Vec2 foot) {
  const Box2 box = bounds(floor);
  const Region within{{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}, {}}};
  Region seen;
  for (const design::PosedImager& view : views) {
    const Region frame = frameOnPlane(view, z_m, within, kOutlineErrorM);
    if (!frame.empty()) seen = seen.empty() ? frame : unionOf(seen, frame);
  }
  Region unseen = floor;
  if (!seen.empty()) {
    seen = grown(seen, kSlitM);
    if (contains(seen, foot)) return std::nullopt;
    unseen = differenceOf(floor, seen);
  }
  // A foot on the outline may touch two parts.
  const Polygon* holding = nullptr;
  for (const Polygon& polygon : unseen)
    if (contains(polygon, foot) && (!holding || area(polygon) > area(*holding))) holding = &polygon;
  if (!holding) return std::nullopt;
  return Region{*holding};
}

}  // namespace

std::vector<BlindZone> blindZones(const design::Design& design, const design::Housing& housing,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m) {
  const Views all = design::posedImagersOf(design, housing, design::JudgedOn::captured);
  if (all.empty()) return {};
  std::vector<std::pair<int, Views>> groups{{0, all}};
  for (const design::PosedImager& view : all) {
    auto group = std::find_if(groups.begin() + 1, groups.end(),
                              [&](const auto& g) { return g.first == view.slot; });
    if (group == groups.end()) group = groups.insert(group, {view.slot, {}});
    group->second.push_back(view);
  }
  if (groups.size() == 2) groups.pop_back();  // its only imager is the housing

  const FloorUnder floor = floorUnder(design, situation, middleOf(all));
  std::vector<BlindZone> zones;
  for (const auto& [slot, views] : groups) {
    const auto foot = footOn(floor.region, middleOf(views).xy(), headingOf(views));
    if (!foot) continue;
    for (const double height_m : target_heights_m) {
      BlindZone zone;
      zone.housing = housing.id;
      zone.slot = slot;
      zone.situation = situation.id;
      zone.target_height_m = height_m;
      const auto unseen = unseenAround(views, floor.z_m + height_m, floor.region, *foot);
      zone.foot_is_seen = !unseen;
      if (unseen) zone.outline = *unseen;
      zone.area_m2 = area(zone.outline);
      zones.push_back(std::move(zone));
    }
  }
  return zones;
}

std::vector<BlindAt> blindCurve(const design::Design& design, const design::Housing& housing,
                                double target_height_m, const std::vector<double>& lens_heights_m,
                                double radius_m) {
  Views views = design::posedImagersOf(design, housing, design::JudgedOn::captured);
  if (views.empty()) return {};
  const Vec3 middle = middleOf(views);
  // Around the origin, where digits are finest.
  for (design::PosedImager& view : views) view.lens_m = view.lens_m - middle;
  const Region floor{{disc({}, radius_m), {}}};
  std::vector<BlindAt> curve;
  for (const double height_m : lens_heights_m) {
    const auto unseen = unseenAround(views, target_height_m - height_m, floor, {});
    curve.push_back({height_m, unseen ? area(*unseen) : 0});
  }
  return curve;
}

double nearestM(double lens_height_m, double target_height_m, double tilt_deg, double vfov_deg) {
  // A target above the lens is the same seen upside down.
  const bool above = target_height_m > lens_height_m;
  const double steepest_deg = (above ? -tilt_deg : tilt_deg) + 0.5 * vfov_deg;
  if (steepest_deg >= 90) return 0;
  if (steepest_deg <= 0) return std::numeric_limits<double>::infinity();
  return std::fabs(lens_height_m - target_height_m) / std::tan(degToRad(steepest_deg));
}

std::optional<double> farthestM(double lens_height_m, double target_height_m, double tilt_deg,
                                double vfov_deg) {
  const bool above = target_height_m > lens_height_m;
  const double flattest_deg = (above ? -tilt_deg : tilt_deg) - 0.5 * vfov_deg;
  if (flattest_deg <= 0) return std::nullopt;
  if (flattest_deg >= 90) return 0;
  return std::fabs(lens_height_m - target_height_m) / std::tan(degToRad(flattest_deg));
}

}  // namespace belvedere::proof
