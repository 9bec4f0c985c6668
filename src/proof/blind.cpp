// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/blind.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>

#include "base/units.h"
#include "proof/blind_floor.h"

namespace belvedere::proof {
namespace {

// How closely curved edges of frames are followed.
constexpr double kOutlineErrorM = 1e-3;

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
    if (contains(seen, foot)) return std::nullopt;
    // Within a hole of what is seen, as below a ring, the rest of the floor need not be looked at.
    std::size_t owner = 0;
    const Ring* hole = nullptr;
    for (std::size_t i = 0; i < seen.size(); ++i)
      for (const Ring& ring : seen[i].holes)
        if (contains(ring, foot) && (!hole || area({ring, {}}) < area({*hole, {}}))) {
          owner = i;
          hole = &ring;
        }
    Region rest;
    const Box2 around = hole ? bounds(*hole) : Box2{};
    for (std::size_t i = 0; i < seen.size(); ++i) {
      const Box2 own = bounds(seen[i].outer);
      const bool outside = own.low.x > around.high.x || own.high.x < around.low.x ||
                           own.low.y > around.high.y || own.high.y < around.low.y;
      if (!hole || (i != owner && !outside)) rest.push_back(seen[i]);
    }
    if (hole) unseen = intersectionOf(floor, {{*hole, {}}});
    if (!rest.empty()) unseen = differenceOf(unseen, rest);
  }
  // A foot on the outline may touch two parts.
  const Polygon* holding = nullptr;
  for (const Polygon& polygon : unseen)
    if (contains(polygon, foot) && (!holding || area(polygon) > area(*holding))) holding = &polygon;
  if (!holding) return std::nullopt;
  return Region{*holding};
}

// The views of one housing, and the storey under it.
struct Standing {
  const design::Housing* housing = nullptr;
  Views views;
  const design::Storey* storey = nullptr;
};

// Slot 0 with all views; then each imager's slot with its own, unless there is only one.
std::vector<std::pair<int, Views>> groupsOf(const Views& all) {
  std::vector<std::pair<int, Views>> groups{{0, all}};
  for (const design::PosedImager& view : all) {
    auto group = std::find_if(groups.begin() + 1, groups.end(),
                              [&](const auto& g) { return g.first == view.slot; });
    if (group == groups.end()) group = groups.insert(group, {view.slot, {}});
    group->second.push_back(view);
  }
  if (groups.size() == 2) groups.pop_back();  // the imager is the housing
  return groups;
}

std::vector<BlindZone> zonesOf(const Standing& standing, const FloorUnder& floor,
                               const design::Situation& situation,
                               const std::vector<double>& target_heights_m, BlindOf of) {
  std::vector<BlindZone> zones;
  for (const auto& [slot, views] : groupsOf(standing.views)) {
    if (slot != 0 && of == BlindOf::housings) break;
    const auto foot = footOn(floor.region, middleOf(views).xy(), headingOf(views));
    if (!foot) continue;
    for (const double height_m : target_heights_m) {
      BlindZone zone;
      zone.housing = standing.housing->id;
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

}  // namespace

std::vector<BlindZone> blindZones(const design::Design& design,
                                  const std::vector<const design::Housing*>& housings,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m, BlindOf of,
                                  const Progress& progress) {
  const std::vector<Slab> slabs = slabsOf(design);
  std::vector<Standing> all;
  std::map<const design::Storey*, FloorUnder> floors;
  for (const design::Housing* housing : housings) {
    Views views = design::posedImagersOf(design, *housing, design::JudgedOn::captured);
    if (views.empty()) continue;
    const design::Storey* storey = storeyUnder(slabs, middleOf(views));
    if (storey && !floors.contains(storey)) {
      progress.throwIfCancelled();
      floors.emplace(storey, floorOf(design, situation, *storey));
    }
    all.push_back({housing, std::move(views), storey});
  }
  std::vector<std::vector<BlindZone>> found(all.size());
  tbb::parallel_for(std::size_t{0}, all.size(), [&](std::size_t i) {
    progress.throwIfCancelled();
    const Standing& standing = all[i];
    found[i] = zonesOf(standing,
                       standing.storey ? floors.at(standing.storey)
                                       : openGround(design, situation, slabs,
                                                    middleOf(standing.views).xy()),
                       situation, target_heights_m, of);
  });
  std::vector<BlindZone> zones;
  for (std::vector<BlindZone>& of_one : found)
    std::move(of_one.begin(), of_one.end(), std::back_inserter(zones));
  return zones;
}

std::vector<BlindZone> blindZones(const design::Design& design, const design::Housing& housing,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m) {
  return blindZones(design, {&housing}, situation, target_heights_m, BlindOf::each_imager_too,
                    Progress{});
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
