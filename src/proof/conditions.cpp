// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/conditions.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>

#include "design/task_table.h"
#include "optics/density.h"
#include "proof/judge.h"
#include "scene/sightline.h"

namespace belvedere::proof {
namespace {

// Weighs lamps as their ranges state them, and light in lux as nothing.
const light::NeededLight kByLampsAlone{1e12, light::Unknown::nothing, 1, 1, 1, 1, false, false};

constexpr int kAcross = 12;  // points over a zone's longer side: a stretch is a matter of metres

// Whether a point shows, dense enough, on a picture on which the target is judged.
bool serves(const design::PosedImager& view, const FocusTarget& target, const Vec3& at_m) {
  const auto on = [&](const design::JudgedPicture& picture) {
    const auto density = optics::densityAt(view.lens, view.imager_from_site, view.lens_m, at_m,
                                           {picture.scale_x, picture.scale_y});
    if (!density) return false;
    double px_per_m = density->across_px_per_m;
    if (picture.px_per_rad)
      px_per_m = std::min(px_per_m, optics::unrolledDensity(*picture.px_per_rad,
                                                            norm((at_m - view.lens_m).xy())));
    const Vec2 p = density->at_px;
    return px_per_m >= target.needed_px_per_m && p.x >= picture.frame_low_px.x &&
           p.x <= picture.frame_high_px.x && p.y >= picture.frame_low_px.y &&
           p.y <= picture.frame_high_px.y;
  };
  if (view.pictures.empty())  // made by hand
    return on({target.judged_on, view.frame_low_px, view.frame_high_px, view.scale_x, view.scale_y,
               view.px_per_rad});
  return std::any_of(view.pictures.begin(), view.pictures.end(),
                     [&](const design::JudgedPicture& picture) {
                       return picture.judged_on == target.judged_on && on(picture);
                     });
}

// Least and greatest distance along the view's axis of the points of a target that it could serve.
void reach(const design::PosedImager& view, const FocusTarget& target, std::optional<double>& near_m,
           std::optional<double>& far_m) {
  const Box2 box = bounds(target.zone);
  if (box.empty()) return;
  const Vec2 size = box.high - box.low;
  const double step_m = std::max({size.x, size.y, 1e-6}) / kAcross;
  const Vec3& forward = view.imager_from_site.row[2];
  for (double y = box.low.y + 0.5 * std::min(step_m, size.y); y <= box.high.y; y += step_m)
    for (double x = box.low.x + 0.5 * std::min(step_m, size.x); x <= box.high.x; x += step_m) {
      if (!contains(target.zone, {x, y})) continue;
      for (const double height_m : {target.low_m, target.high_m}) {
        const Vec3 at{x, y, target.floor.at({x, y}) + height_m};
        if (!serves(view, target, at)) continue;
        const double depth_m = dot(forward, at - view.lens_m);
        near_m = std::min(near_m.value_or(depth_m), depth_m);
        far_m = std::max(far_m.value_or(depth_m), depth_m);
      }
    }
}

}  // namespace

bool judgedByLampsAlone(const design::PosedImager& view, const light::Lighting& lighting) {
  const light::ImagerState* state = light::findState(lighting, view.imager);
  if (!state || state->mode != light::Mode::mono) return false;
  for (std::size_t i = 0; i < lighting.lamps.size(); ++i)
    if (lighting.burns[i] || lighting.lamps[i].housing == view.housing) return true;
  return false;
}

bool seesByInfrared(const design::PosedImager& view, const Lighting& lighting) {
  const light::ImagerState* state = light::findState(lighting.light, view.imager);
  if (!lighting.light.light.stated || !state || state->mode != light::Mode::mono) return false;
  for (std::size_t i = 0; i < lighting.light.lamps.size(); ++i)
    if (lighting.light.burns[i] && lighting.light.lamps[i].infrared()) return true;
  return false;
}

std::vector<FocusTarget> focusTargets(const design::Design& design, const scene::Scene& scene) {
  std::vector<FocusTarget> targets;
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see) continue;
    const design::Zone* zone = design::findZone(design, r.zone);
    if (zone == nullptr || zone->outline.size() < 3) continue;
    const design::Range band = design::bandOf(r.target);
    targets.push_back({{{zone->outline, zone->holes}},
                       scene::floorOf(design, *zone, &scene),
                       zone->base_m + band[0],
                       zone->base_m + band[1],
                       design::neededDensity(design, r),
                       r.judged_on});
  }
  return targets;
}

std::optional<FocusChoice> focusChoice(const design::PosedImager& view,
                                       const std::vector<FocusTarget>& targets, bool infrared) {
  if (!view.focus) return {};
  FocusChoice choice;
  const double hyperfocal_m = optics::hyperfocalM(*view.focus);
  if (view.focused_at_m) {
    choice.at_m = *view.focused_at_m;
    choice.stated = true;
  } else {
    choice.at_m = hyperfocal_m;
    if (hyperfocal_m > kShortHyperfocalM) {
      for (const FocusTarget& target : targets)
        reach(view, target, choice.for_near_m, choice.for_far_m);
      if (choice.for_near_m)
        choice.at_m = optics::bestFocusM(std::max(*choice.for_near_m, 2 * view.focus->focal_m),
                                         *choice.for_far_m);
    }
  }
  if (choice.at_m <= view.focus->focal_m) return {};  // nothing is sharp that near
  choice.sharp = optics::sharpStretch(*view.focus, choice.at_m,
                                      infrared ? view.infrared_shift_m.value_or(0) : 0);
  return choice;
}

std::shared_ptr<const Lighting> makeLighting(const design::Design& design,
                                             const design::Situation& situation, const Place& place,
                                             const std::filesystem::path& folder) {
  auto out = std::make_shared<Lighting>();
  if (!situation.lights.empty())
    out->light = light::lightingOf(design, situation, folder, {&place.scene, &place.tree});
  out->targets = focusTargets(design, place.scene);
  return out;
}

Conditions conditionsOf(const design::PosedImager& view, const Lighting& lighting,
                        design::TargetKind target) {
  Conditions conditions;
  if (const auto focus = focusChoice(view, lighting.targets, seesByInfrared(view, lighting)))
    conditions.sharp = focus->sharp;
  if (!lighting.light.light.stated) return conditions;
  light::ImagerLight found = light::imagerLight(view, lighting.light, target);
  if (!found.needed.lux) {
    if (!judgedByLampsAlone(view, lighting.light)) return conditions;
    found.needed = kByLampsAlone;
    found.needed.f_number = std::sqrt(view.stoppedDown());  // ranges hold for a lens that is wide open
    conditions.by_lamps_alone = true;
  }
  conditions.light = std::move(found);
  return conditions;
}

namespace {

// Tells one distribution of light from another (FNV-1a over its figures).
double hashOf(const light::Photometry& photometry) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const std::vector<double>* figures :
       {&photometry.across_deg, &photometry.along_deg, &photometry.candela})
    for (const double figure : *figures)
      hash = (hash ^ std::bit_cast<std::uint64_t>(figure)) * 0x100000001b3u;
  return static_cast<double>(hash >> 11);  // as many bits as a double holds
}

}  // namespace

std::vector<double> keyOf(const Conditions& conditions) {
  std::vector<double> key;
  std::map<const light::Photometry*, double> hashes;
  const auto add = [&](std::initializer_list<double> values) {
    key.insert(key.end(), values.begin(), values.end());
  };
  const auto addPoint = [&](const Vec3& p) { add({p.x, p.y, p.z}); };
  if (conditions.sharp)
    add({conditions.sharp->near_m, conditions.sharp->far_m.value_or(-1)});
  if (!conditions.light) return key;
  const light::ImagerLight& light = *conditions.light;
  add({*light.needed.lux, light::lampWeight(light.needed), light.light->ambient_lux,
       light.mode == light::Mode::mono ? 1.0 : 0.0, light.level ? 1.0 : 0.0,
       light.coated_glass ? 1.0 : 0.0});
  for (const light::Luminaire& luminaire : light.light->luminaires) {
    addPoint(luminaire.at_m);
    addPoint(luminaire.luminaire_from_site.row[2]);
    addPoint(luminaire.luminaire_from_site.row[0]);
    const auto [hash, is_new] = hashes.try_emplace(luminaire.photometry.get(), 0.0);
    if (is_new && luminaire.photometry) hash->second = hashOf(*luminaire.photometry);
    add({luminaire.factor, hash->second});
  }
  for (std::size_t i = 0; i < light.lamps->size(); ++i) {
    const light::Lamp& lamp = (*light.lamps)[i];
    if (!light.burns[i]) continue;
    addPoint(lamp.at_m);
    addPoint(lamp.axis);
    add({lamp.half_beam_rad, lamp.range_m, lamp.wave_nm});
  }
  return key;
}

}  // namespace belvedere::proof
