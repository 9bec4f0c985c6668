// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/mount_drag.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "proof/blind_floor.h"

namespace belvedere::edit {
namespace {

constexpr double kOnItM = 0.01;  // nearer than this to a line or face is on it

// The stretches of a length that are left when others are taken out.
std::vector<design::Range> left(double length, std::vector<design::Range> out) {
  std::sort(out.begin(), out.end());
  std::vector<design::Range> kept;
  double from = 0;
  for (const design::Range& gap : out) {
    if (gap[0] > from) kept.push_back({from, std::min(gap[0], length)});
    from = std::max(from, gap[1]);
    if (from >= length) break;
  }
  if (from < length) kept.push_back({from, length});
  return kept;
}
double lengthOf(const std::vector<Vec2>& path) {
  double length = 0;
  for (std::size_t i = 1; i < path.size(); ++i) length += norm(path[i] - path[i - 1]);
  return length;
}

// The place on a path nearest to a point, within stretches of its length.
struct OnPath {
  Vec2 at, direction;  // direction: unit, of the path there
  double along_m = 0, away_m = 0;
};
std::optional<OnPath> nearestOn(const std::vector<Vec2>& path,
                                const std::vector<design::Range>& stretches, Vec2 p) {
  std::optional<OnPath> best;
  double done = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Vec2 a = path[i - 1], span = path[i] - path[i - 1];
    const double length = norm(span);
    if (length < 1e-12) continue;
    const Vec2 direction = span / length;
    for (const design::Range& stretch : stretches) {
      const double low = std::max(stretch[0] - done, 0.0);
      const double high = std::min(stretch[1] - done, length);
      if (low > high) continue;
      const double s = std::clamp(dot(direction, p - a), low, high);
      const Vec2 at = a + direction * s;
      const double away = norm(p - at);
      if (!best || away < best->away_m) best = OnPath{at, direction, done + s, away};
    }
    done += length;
  }
  return best;
}

design::Housing* housingIn(design::Design& design, const design::HousingId& id) {
  for (design::Housing& housing : design.housings)
    if (housing.id == id) return &housing;
  return nullptr;
}
const design::Mounting* mountingOf(const design::Design& design, const std::string& id) {
  for (const design::Mounting& mounting : design.site.mounting)
    if (mounting.id.text == id) return &mounting;
  return nullptr;
}
double floorOf(const design::Design& design, const design::StoreyId& id) {
  const design::Storey* storey = design::findStorey(design, id);
  return storey ? storey->floor_m : 0;
}

std::optional<Fixing> onLine(const design::Design& design, const design::Mounting& line, Vec2 at) {
  const auto found = nearestOn(line.path, left(lengthOf(line.path), line.excluded), at);
  if (!found) return {};
  const double floor = floorOf(design, line.storey);
  Fixing fixing;
  fixing.on.text = line.id.text;
  fixing.at_m = found->at;
  fixing.along_m = found->along_m;
  fixing.z_m = design::Range{floor + line.heights_m[0], floor + line.heights_m[1]};
  fixing.away_m = found->away_m;
  return fixing;
}

std::optional<Fixing> onWall(const design::Building& building, const design::Storey& storey,
                             const design::Wall& wall, Vec2 at) {
  std::vector<Vec2> path;
  for (const Vec2 p : wall.path) path.push_back(design::siteFromBuilding(building, p));
  std::vector<design::Range> openings;
  for (const design::Opening& opening : wall.openings)
    openings.push_back({opening.from_m, opening.from_m + opening.width_m});
  const auto found = nearestOn(path, left(lengthOf(path), openings), at);
  if (!found) return {};
  // The face on the point's side.
  const Vec2 leftwards = perpLeft(found->direction);
  const Vec2 outward = dot(leftwards, at - found->at) >= 0 ? leftwards : -leftwards;
  Fixing fixing;
  fixing.on.text = wall.id.text;
  fixing.at_m = found->at + outward * (0.5 * wall.thickness_m);
  fixing.along_m = found->along_m;
  const double foot = storey.floor_m + wall.base_m;
  fixing.z_m =
      design::Range{foot, storey.floor_m + wall.height_m.value_or(storey.height_m)};
  fixing.outward_deg = wrap360(radToDeg(std::atan2(outward.x, outward.y)));
  fixing.away_m = norm(at - fixing.at_m);
  return fixing;
}

template <class Visit>
void eachWall(const design::Design& design, const design::StoreyId& storey, Visit visit) {
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& s : building.storeys)
      if (storey.empty() || s.id == storey)
        for (const design::Wall& wall : s.walls) visit(building, s, wall);
}

// On what a mount says it hangs, the place nearest to a point; nothing for anything but a mounting
// line or a wall.
std::optional<Fixing> onOwn(const design::Design& design, const design::Mount& mount, Vec2 at) {
  if (mount.on.empty()) return {};
  if (const design::Mounting* line = mountingOf(design, mount.on.text))
    return onLine(design, *line, at);
  std::optional<Fixing> found;
  eachWall(design, {}, [&](const auto& building, const auto& storey, const auto& wall) {
    if (wall.id.text == mount.on.text) found = onWall(building, storey, wall, at);
  });
  return found;
}

design::StoreyId storeyOf(const design::Design& design, const design::Housing& housing) {
  if (const design::Mounting* line = mountingOf(design, housing.mount.on.text))
    if (!line->storey.empty()) return line->storey;
  if (!housing.storey.empty()) return housing.storey;
  design::StoreyId of_wall;
  eachWall(design, {}, [&](const auto&, const auto& storey, const auto& wall) {
    if (!housing.mount.on.empty() && wall.id.text == housing.mount.on.text) of_wall = storey.id;
  });
  if (!of_wall.empty()) return of_wall;
  const auto slabs = proof::slabsOf(design);
  const design::Storey* under = proof::storeyUnder(slabs, housing.mount.fixing_m);
  return under ? under->id : design::StoreyId{};
}

void say(Aimed& result, const std::string& sentence) {
  result.at_stop = true;
  if (!result.stop.empty()) result.stop += "; ";
  result.stop += sentence;
}
Aimed notThere(const design::Design& design, const design::HousingId& id) {
  return {design, true, fmt::format("there is no {}", id.text)};
}

// A height held to what a fixing allows.
double heldHeight(Aimed& result, const design::HousingId& id, const std::optional<Fixing>& fixing,
                  double z_m) {
  if (!fixing || !fixing->z_m) return z_m;
  const double held = std::clamp(z_m, (*fixing->z_m)[0], (*fixing->z_m)[1]);
  if (std::abs(held - z_m) > 1e-9)
    say(result, fmt::format("{} hangs no {} on {}", id.text, held < z_m ? "higher" : "lower",
                            fixing->on.text));
  return held;
}

}  // namespace

std::optional<Fixing> onMounting(const design::Design& design, const design::MountingId& mounting,
                                 Vec2 at) {
  const design::Mounting* line = mountingOf(design, mounting.text);
  return line ? onLine(design, *line, at) : std::nullopt;
}

std::optional<Fixing> nearestFixing(const design::Design& design, const design::StoreyId& storey,
                                    Vec2 at, double reach_m) {
  std::optional<Fixing> best;
  const auto consider = [&](std::optional<Fixing> found) {
    if (found && found->away_m <= reach_m && (!best || found->away_m < best->away_m))
      best = std::move(found);
  };
  for (const design::Mounting& line : design.site.mounting)
    if (storey.empty() || line.storey.empty() || line.storey == storey)
      consider(onLine(design, line, at));
  if (best) return best;
  eachWall(design, storey, [&](const auto& building, const auto& s, const auto& wall) {
    consider(onWall(building, s, wall, at));
  });
  return best;
}

Aimed dragHousing(const design::Design& design, const design::HousingId& id, Vec2 to,
                  double reach_m) {
  Aimed result{design, false, {}};
  design::Housing* housing = housingIn(result.design, id);
  if (!housing) return notThere(design, id);
  design::Mount& mount = housing->mount;
  std::optional<Fixing> fixing = nearestFixing(design, storeyOf(design, *housing), to, reach_m);
  if (!fixing && mountingOf(design, mount.on.text)) {
    fixing = onOwn(design, mount, to);
    if (fixing) say(result, fmt::format("{} is held on {}", id.text, mount.on.text));
  }
  if (!fixing) {
    if (!design::findStorey(design, {mount.on.text})) mount.on = {};  // on a ceiling it slides
    mount.fixing_m = withZ(to, mount.fixing_m.z);
    return result;
  }
  const std::optional<Fixing> before = onOwn(design, mount, mount.fixing_m.xy());
  const bool same_face =
      before && before->away_m < kOnItM && before->on == fixing->on && before->outward_deg &&
      fixing->outward_deg && std::abs(wrap180(*before->outward_deg - *fixing->outward_deg)) < 1e-6;
  mount.on = fixing->on;
  mount.fixing_m = withZ(fixing->at_m, heldHeight(result, id, fixing, mount.fixing_m.z));
  const design::Model* bracket =
      mount.model.empty() ? nullptr : design::findModel(design, mount.model);
  if (!fixing->outward_deg || same_face || !bracket || bracket->reach_m <= 0) return result;
  Aimed turned = withBaseBearing(result.design, id, *fixing->outward_deg, Aims::stay);
  if (turned.at_stop) say(result, turned.stop);
  result.design = std::move(turned.design);
  return result;
}

double floorUnderHousing(const design::Design& design, const design::Housing& housing) {
  return floorOf(design, storeyOf(design, housing));
}

namespace {
double lensZ(const design::Design& design, const design::Housing& housing) {
  double sum = 0;
  int count = 0;
  for (const design::HousingImager& imager : housing.imagers)
    if (const auto view =
            posedOf(design, {housing.id, imager.slot, 0}, design::JudgedOn::captured)) {
      sum += view->lens_m.z;
      ++count;
    }
  return count > 0 ? sum / count : housing.mount.fixing_m.z;
}
}  // namespace

double lensHeight(const design::Design& design, const design::HousingId& id) {
  const design::Housing* housing = design::findHousing(design, id);
  return housing ? lensZ(design, *housing) - floorUnderHousing(design, *housing) : 0;
}

Aimed withLensHeight(const design::Design& design, const design::HousingId& id, double height_m) {
  Aimed result{design, false, {}};
  design::Housing* housing = housingIn(result.design, id);
  if (!housing) return notThere(design, id);
  Vec3& fixing = housing->mount.fixing_m;
  const double lens_z = floorUnderHousing(design, *housing) + height_m;
  const double z = fixing.z + lens_z - lensZ(design, *housing);
  fixing.z = heldHeight(result, id, onOwn(design, housing->mount, fixing.xy()), z);
  return result;
}

Aimed withFixing(const design::Design& design, const design::HousingId& id, const Vec3& fixing_m) {
  Aimed result{design, false, {}};
  design::Housing* housing = housingIn(result.design, id);
  if (!housing) return notThere(design, id);
  design::Mount& mount = housing->mount;
  const std::optional<Fixing> own = onOwn(design, mount, fixing_m.xy());
  mount.fixing_m = fixing_m;
  if (own && own->away_m > kOnItM) mount.on = {};
  else mount.fixing_m.z = heldHeight(result, id, own, fixing_m.z);
  return result;
}

}  // namespace belvedere::edit
