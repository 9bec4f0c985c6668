// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/placing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "design/resolve.h"
#include "geometry/polygon.h"
#include "scene/presence.h"
#include "scene/scene.h"

namespace belvedere::proof {
namespace {

// A lens may be let into a face, and rounding may put it there: so deep is inside.
constexpr double kInsideM = 0.02;
// A fixing point farther than this from what it hangs on is somewhere else.
constexpr double kOffMountingM = 0.5;
// So far beside the site, or as far as the site is wide, a camera belongs to no site.
constexpr double kFarM = 50;
// An outline farther out than this many times the usual distance from the middle (1 km at least) is
// written in another unit: a thousand lies between metres and millimetres.
constexpr double kFarTimes = 100, kNearM = 10;

// ---- what there is, in plan -------------------------------------------------------------------

struct Outlined {
  std::string id, what;
  Box2 box;
  double low_m = 0, high_m = 0;
};

Box2 boxOf(const std::vector<Vec2>& points) {
  Box2 box;
  for (const Vec2 p : points) box.add(p);
  return box;
}

std::vector<Outlined> outlinedOf(const design::Design& design) {
  std::vector<Outlined> all;
  const auto add = [&](const std::string& id, const char* what, const std::vector<Vec2>& points,
                       double low_m, double high_m) {
    if (!points.empty()) all.push_back({id, what, boxOf(points), low_m, high_m});
  };
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      const double low_m = storey.floor_m, high_m = storey.floor_m + storey.height_m;
      add(storey.id.text, "storey", scene::onSite(building, storey.outline), low_m, high_m);
      for (const design::Wall& wall : storey.walls)
        add(wall.id.text, "wall", scene::onSite(building, wall.path), low_m, high_m);
    }
  const auto floorOf = [&](const design::StoreyId& id) {
    const design::Storey* storey = design::findStorey(design, id);
    return storey ? storey->floor_m : 0.0;
  };
  for (const design::Solid& solid : design.site.solids) {
    const double floor_m = floorOf(solid.storey);
    add(solid.id.text, "solid", solid.outline, floor_m + solid.base_m, floor_m + solid.top_m);
  }
  for (const design::Zone& zone : design.site.zones) {
    const double floor_m = floorOf(zone.storey);
    add(zone.id.text, "zone", zone.outline, floor_m, floor_m);
  }
  for (const design::Mounting& line : design.site.mounting) {
    const double floor_m = floorOf(line.storey);
    add(line.id.text, "mounting line", line.path, floor_m, floor_m + line.heights_m[1]);
  }
  return all;
}

double middleOf(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// Outlines far from all others, by magnitude; what is left of `all` is the site.
void farOutlines(std::vector<Outlined>& all, std::vector<Finding>& out) {
  if (all.size() < 3) return;  // no telling which of two is where it should be
  std::vector<double> x, y;
  for (const Outlined& one : all) {
    x.push_back(0.5 * (one.box.low.x + one.box.high.x));
    y.push_back(0.5 * (one.box.low.y + one.box.high.y));
  }
  const Vec2 middle{middleOf(x), middleOf(y)};
  std::vector<double> far;
  for (const Outlined& one : all)
    far.push_back(std::max(norm(one.box.low - middle), norm(one.box.high - middle)));
  const double limit_m = kFarTimes * std::max(kNearM, middleOf(far));
  std::vector<Outlined> near;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (far[i] <= limit_m) {
      near.push_back(all[i]);
      continue;
    }
    out.push_back({"outline_far_from_site", Severity::caution, {all[i].id}, {},
                   Quantity{far[i], "m"},
                   fmt::format("the {} {} reaches {:.0f} m from the middle of the site, a hundred "
                               "times as far as most of it does; coordinates are metres.",
                               all[i].what, all[i].id, far[i]), "2"});
  }
  all = std::move(near);
}

// ---- cameras ------------------------------------------------------------------------------------

void farLenses(const design::Design& design, const std::vector<Outlined>& site,
               std::vector<Finding>& out) {
  if (site.empty()) return;
  Box2 box;
  double low_m = site.front().low_m, high_m = site.front().high_m;
  for (const Outlined& one : site) {
    box.add(one.box.low);
    box.add(one.box.high);
    low_m = std::min(low_m, one.low_m);
    high_m = std::max(high_m, one.high_m);
  }
  const double limit_m = std::max(kFarM, norm(box.high - box.low));
  for (const design::Housing& housing : design.housings) {
    if (housing.life == design::Life::removed) continue;
    const Vec3 at = housing.mount.fixing_m;
    const auto beyond = [](double value, double low, double high) {
      return std::max({low - value, value - high, 0.0});
    };
    const double far_m = std::max({beyond(at.x, box.low.x, box.high.x),
                                   beyond(at.y, box.low.y, box.high.y),
                                   beyond(at.z, low_m, high_m)});
    // Ground that is not drawn may lie anywhere below: terrain is not looked at here.
    if (far_m <= limit_m || (design.site.terrain && far_m < kFarTimes * kNearM)) continue;
    const Vec3 in_mm = at * 0.001;
    const bool millimetres = box.low.x <= in_mm.x && in_mm.x <= box.high.x && box.low.y <= in_mm.y &&
                             in_mm.y <= box.high.y && low_m <= in_mm.z && in_mm.z <= high_m;
    out.push_back({"lens_far_from_site", Severity::caution, {housing.id.text}, {},
                   Quantity{far_m, "m"},
                   fmt::format("{} is fixed at ({:g}, {:g}, {:g}), {:.0f} m beside everything that "
                               "is drawn; fixing_m is metres on the site{}.", housing.id.text, at.x,
                               at.y, at.z, far_m,
                               millimetres ? fmt::format(": millimetres? Then write ({:g}, {:g}, {:g})",
                                                         in_mm.x, in_mm.y, in_mm.z)
                                           : std::string()), "2"});
  }
}

double toPath(Vec2 p, const std::vector<Vec2>& path) {
  double least = path.empty() ? 0 : norm(path.front() - p);
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Vec2 d = path[i] - path[i - 1];
    const double t = dot(d, d) > 0 ? std::clamp(dot(p - path[i - 1], d) / dot(d, d), 0.0, 1.0) : 0;
    least = std::min(least, norm(path[i - 1] + d * t - p));
  }
  return least;
}

// How far a fixing point is off what the mount says it hangs on; nothing where that has no place of
// its own (a mesh).
std::optional<double> offMounting(const design::Design& design, const design::Mount& mount) {
  const Vec3 at = mount.fixing_m;
  const auto beyond = [](double value, double low, double high) {
    return std::max({low - value, value - high, 0.0});
  };
  for (const design::Mounting& line : design.site.mounting) {
    if (line.id.text != mount.on.text) continue;
    const design::Storey* storey = design::findStorey(design, line.storey);
    const double floor_m = storey ? storey->floor_m : 0;
    return std::hypot(toPath(at.xy(), line.path),
                      beyond(at.z - floor_m, line.heights_m[0], line.heights_m[1]));
  }
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.id.text == mount.on.text)
        return beyond(at.z, storey.floor_m - storey.slab_m,
                      storey.floor_m + storey.height_m + storey.roof_m);
      for (const design::Wall& wall : storey.walls)
        if (wall.id.text == mount.on.text) {
          // In the wall's own order: onSite turns outlines anticlockwise.
          std::vector<Vec2> path;
          for (const Vec2 p : wall.path) path.push_back(scene::onSite(building, {p}).front());
          return std::max(0.0, toPath(at.xy(), path) - 0.5 * wall.thickness_m);
        }
    }
  for (const design::Solid& solid : design.site.solids) {
    if (solid.id.text != mount.on.text || solid.outline.size() < 3) continue;
    std::vector<Vec2> edge = solid.outline;
    edge.push_back(edge.front());
    const bool over = contains(Region{{anticlockwise(solid.outline), {}}}, at.xy());
    return over ? 0 : toPath(at.xy(), edge);
  }
  return {};
}

void offMountings(const design::Design& design, std::vector<Finding>& out) {
  for (const design::Housing& housing : design.housings) {
    if (housing.life == design::Life::removed || housing.mount.on.text.empty()) continue;
    const std::optional<double> off_m = offMounting(design, housing.mount);
    if (!off_m || *off_m <= kOffMountingM) continue;
    const Vec3 at = housing.mount.fixing_m;
    out.push_back({"fixing_off_mounting", Severity::caution,
                   {housing.id.text, housing.mount.on.text}, Quantity{kOffMountingM, "m"},
                   Quantity{*off_m, "m"},
                   fmt::format("{} is said to hang on {}, and its fixing point ({:g}, {:g}, {:g}) "
                               "is {:.2f} m away from that.", housing.id.text,
                               housing.mount.on.text, at.x, at.y, at.z, *off_m), "2"});
  }
}

// How deep a point is inside a convex body; at most 0 outside.
double depthIn(const scene::Scene& scene, const scene::Body& body, const Vec3& p) {
  double depth = 1e300;
  for (std::uint32_t i = 0; i < body.plane_count; ++i) {
    const scene::Plane& plane = scene.planes[body.first_plane + i];
    depth = std::min(depth, plane.offset - dot(plane.normal, p));
    if (depth <= kInsideM) return depth;
  }
  return body.plane_count == 0 ? 0 : depth;
}

void lensesInside(const design::Design& design, const std::filesystem::path& folder,
                  std::vector<Finding>& out) {
  const std::vector<design::PosedImager> views =
      design::posedImagers(design, design::JudgedOn::captured);
  std::vector<std::string> said;
  std::vector<design::Situation> done;
  for (const design::Situation& situation : design::situationsOf(design)) {
    if (std::any_of(done.begin(), done.end(), [&](const design::Situation& other) {
          return scene::sameSolids(design, other, situation);
        }))
      continue;
    done.push_back(situation);
    const scene::Scene scene = scene::buildScene(design, situation, folder);
    // A large site has thousands of each: bodies by their boxes along x.
    std::vector<std::uint32_t> order(scene.bodies.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
      return scene.bodies[a].box.low.x < scene.bodies[b].box.low.x;
    });
    double widest = 0;
    for (const scene::Body& body : scene.bodies)
      widest = std::max(widest, body.box.high.x - body.box.low.x);
    for (const design::PosedImager& view : views) {
      if (std::find(said.begin(), said.end(), view.imager) != said.end()) continue;
      const Vec3 p = view.lens_m;
      auto i = std::lower_bound(order.begin(), order.end(), p.x - widest,
                                [&](std::uint32_t body, double x) {
                                  return scene.bodies[body].box.low.x < x;
                                });
      for (; i != order.end() && scene.bodies[*i].box.low.x <= p.x; ++i) {
        const scene::Body& body = scene.bodies[*i];
        const bool near = p.x <= body.box.high.x && p.y >= body.box.low.y &&
                          p.y <= body.box.high.y && p.z >= body.box.low.z && p.z <= body.box.high.z;
        if (!near || depthIn(scene, body, p) <= kInsideM) continue;
        const std::string& id = scene.sources[body.source].id;
        said.push_back(view.imager);
        out.push_back({"lens_inside_solid", Severity::caution,
                       {view.imager, id, situation.id.text}, {}, {},
                       fmt::format("{}: its lens, at ({:.2f}, {:.2f}, {:.2f}) on the site, is "
                                   "inside {}{}.", view.imager, p.x, p.y, p.z,
                                   design::findStorey(design, {id}) ? "the slab of " : "", id),
                       "2"});
        break;
      }
    }
  }
}

// The storey that something of the site belongs to, by its id; null for what belongs to none.
const design::Storey* storeyWith(const design::Design& design, const std::string& id) {
  for (const design::Mounting& line : design.site.mounting)
    if (line.id.text == id) return design::findStorey(design, line.storey);
  for (const design::Solid& solid : design.site.solids)
    if (solid.id.text == id) return design::findStorey(design, solid.storey);
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.id.text == id) return &storey;
      for (const design::Wall& wall : storey.walls)
        if (wall.id.text == id) return &storey;
    }
  return nullptr;
}

}  // namespace

std::optional<double> floorUnder(const design::Design& design, const design::Housing& housing) {
  if (const design::Storey* named = design::findStorey(design, housing.storey))
    return named->floor_m;
  if (!housing.mount.on.text.empty())
    if (const design::Storey* its = storeyWith(design, housing.mount.on.text)) return its->floor_m;
  const Vec3 at = housing.mount.fixing_m;
  std::array<std::optional<double>, 2> highest;  // anywhere; around the fixing point
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.floor_m > at.z) continue;
      const bool around = storey.outline.size() >= 3 &&
                          contains(Region{{scene::onSite(building, storey.outline), {}}}, at.xy());
      for (std::size_t k = 0; k < (around ? 2u : 1u); ++k)
        highest[k] = std::max(highest[k].value_or(storey.floor_m), storey.floor_m);
    }
  return highest[1] ? highest[1] : highest[0];
}

std::vector<Finding> placingFindings(const design::Design& design,
                                     const std::filesystem::path& folder) {
  std::vector<Finding> out;
  std::vector<Outlined> site = outlinedOf(design);
  farOutlines(site, out);
  farLenses(design, site, out);
  offMountings(design, out);
  lensesInside(design, folder, out);
  return out;
}

}  // namespace belvedere::proof
