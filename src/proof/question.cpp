// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <string_view>
#include <unordered_map>

#include "base/check.h"
#include "base/units.h"
#include "design/task_table.h"
#include "light/relit.h"
#include "proof/judge.h"
#include "proof/judged_region.h"
#include "proof/question.h"
#include "scene/presence.h"

namespace belvedere::proof {

std::shared_ptr<const Place> makePlace(const design::Design& design,
                                       const design::Situation& situation,
                                       const std::filesystem::path& folder) {
  auto place = std::make_shared<Place>();
  place->scene = scene::buildScene(design, situation, folder);
  place->tree = scene::buildTree(place->scene);
  place->folder = folder;
  return place;
}

namespace {

// What a withheld zone has to reckon with beyond the present aim.
std::optional<Remote> remoteOf(const design::Design& design, const design::PosedImager& view) {
  if (!view.remote) return {};
  const design::Housing* housing = design::findHousing(design, view.housing);
  BELVEDERE_CHECK(housing != nullptr, "a view belongs to a housing");
  const design::Model* model = design::findModel(design, housing->model);
  BELVEDERE_CHECK(model != nullptr, "a housing has a model");
  const design::ModelImager* imager = design::findImager(*model, view.slot);
  BELVEDERE_CHECK(imager != nullptr, "a view has an imager of the model");
  Remote remote;
  remote.mount = housing->mount;
  if (!housing->mount.model.empty()) remote.mount_model = design::findModel(design, housing->mount.model);
  remote.imager = imager;
  remote.lens_moves_m = 2 * norm(imager->offset_m.xy());  // it swings about the housing's axis
  remote.lenses = {view.lens, view.lens};
  if (const auto zoom = design::zoomOf(*imager)) {
    const optics::RadialLens &wide = zoom->wide, &tele = zoom->tele;
    remote.lenses = {wide, tele};
    // Between the ends F and k are linear. F + k^2 r^2 / F, the scale along the radius r, is convex
    // in both together: densest at an end. The angle of r shrinks as F or k grows, and r / sin,
    // the scale across, has no top inside a range of angles: densest at an end too, unless k falls
    // as F grows; then the corners of the range of both bound it.
    if (tele.k < wide.k) {
      remote.lenses.push_back(optics::RadialLens{tele.f_px, wide.k, tele.centre_px});
      remote.lenses.push_back(optics::RadialLens{wide.f_px, tele.k, wide.centre_px});
    }
  }
  const double width = view.pixels[0], height = view.pixels[1];
  for (const optics::Lens& lens : remote.lenses)
    for (const Vec2 corner : {Vec2{0, 0}, Vec2{width, 0}, Vec2{0, height}, Vec2{width, height}}) {
      const auto ray = optics::unproject(lens, corner);
      const double half = ray ? std::atan2(std::hypot(ray->x, ray->y), ray->z) : kPi;
      remote.half_diagonal_deg = std::max(remote.half_diagonal_deg, radToDeg(half));
    }
  return remote;
}

}  // namespace

Region judgedRegion(const design::Design& design, const design::Zone& zone,
                    const design::Situation& situation, const scene::Scene& scene) {
  if (!zone.surface.empty() && !scene::Presence(design, situation).holds(zone.surface.text)) return {};
  Region region{{zone.outline, {}}};
  // Holes may overlap, and reach past the outline.
  if (!zone.holes.empty()) region = differenceOf(region, unionOf(zone.holes));
  if (scene::onFloor(zone))
    return differenceOf(region, scene::standingFootprints(design, zone.storey, situation, &scene,
                                                          bounds(zone.outline)));
  return unionOf(region, {});
}

void replaceViews(Question& question, std::vector<design::PosedImager> views,
                  const design::Design* changed) {
  question.views = std::move(views);
  question.imagers.clear();
  question.imager_of.clear();
  std::unordered_map<std::string_view, int> known;
  for (const design::PosedImager& v : question.views) {
    const auto [at, is_new] = known.try_emplace(v.imager, static_cast<int>(question.imagers.size()));
    if (is_new) question.imagers.push_back(v.imager);
    question.imager_of.push_back(at->second);
  }
  question.conditions.clear();
  if (!question.lighting) return;
  if (changed && question.lighting->light.light.stated)
    question.lighting = std::make_shared<const Lighting>(
        Lighting{light::relit(question.lighting->light, *changed), question.lighting->targets});
  for (const design::PosedImager& v : question.views) {
    question.conditions.push_back(conditionsOf(v, *question.lighting, question.requirement->target.kind));
    if (auto& light = question.conditions.back().light) light->number = question.conditions.size() - 1;
  }
}

namespace {

// `lighting`: null for a zone that withholds.
Question questionIn(const design::Design& design, const design::Requirement& requirement,
                    const design::Situation& situation, std::shared_ptr<const Place> place,
                    std::shared_ptr<const Lighting> lighting, const QuestionOptions& options) {
  const design::Zone* zone = design::findZone(design, requirement.zone);
  BELVEDERE_CHECK(zone != nullptr, "a requirement that is judged has a zone");
  const bool withhold = requirement.kind == design::RequirementKind::withhold;
  Question q;
  q.requirement = &requirement;
  q.situation = situation;
  q.place = std::move(place);
  q.needed_px_per_m = design::neededDensity(design, requirement);
  const design::Range band = design::bandOf(requirement.target);
  q.low_m = zone->base_m + band[0];
  q.high_m = zone->base_m + band[1];
  q.height_share = withhold ? 1 : design::heightShare(design, requirement);
  q.imagers_needed = withhold ? 1 : requirement.imagers;
  if (!withhold) q.facings = requirement.facings;
  q.every_facing = requirement.facing_rule == design::FacingRule::each && q.facings.size() > 1;
  q.region = judgedRegion(design, *zone, situation, q.place->scene);
  q.region_m2 = area(q.region);
  q.floor = scene::floorOf(design, *zone, &q.place->scene);
  q.blocking = withhold ? scene::Blocking::withhold : scene::Blocking::see;
  std::vector<design::PosedImager> views =
      design::posedImagers(design, withhold ? design::JudgedOn::captured : requirement.judged_on);
  std::erase_if(views, [&](const design::PosedImager& v) {
    return std::find(options.without.begin(), options.without.end(), v.housing) !=
           options.without.end();
  });
  q.lighting = std::move(lighting);
  replaceViews(q, std::move(views));
  if (withhold)
    for (design::PosedImager& v : q.views) {
      // A margin makes promises of what is seen safer; what lies in it is in the picture all the same.
      v.frame_low_px = {0, 0};
      v.frame_high_px = {static_cast<double>(v.pixels[0]), static_cast<double>(v.pixels[1])};
      q.remote.push_back(remoteOf(design, v));
    }
  return q;
}

}  // namespace

Question makeQuestion(const design::Design& design, const design::Requirement& requirement,
                      const design::Situation& situation, std::shared_ptr<const Place> place,
                      const QuestionOptions& options) {
  std::shared_ptr<const Lighting> lighting;
  if (requirement.kind != design::RequirementKind::withhold)
    lighting = makeLighting(design, situation, *place, place->folder);
  return questionIn(design, requirement, situation, std::move(place), std::move(lighting), options);
}

Question makeQuestion(const design::Design& design, const design::Requirement& requirement,
                      const design::Situation& situation, std::shared_ptr<const Place> place,
                      std::shared_ptr<const Lighting> lighting) {
  return questionIn(design, requirement, situation, std::move(place), std::move(lighting), {});
}

int sampledHeights(const design::Target& target) {
  const design::Range band = design::bandOf(target);
  if (band[1] <= band[0]) return 1;
  switch (target.kind) {
    case design::TargetKind::face:
    case design::TargetKind::face_child:
    case design::TargetKind::face_seated:
    case design::TargetKind::plate: return 3;
    case design::TargetKind::floor: return 2;
    case design::TargetKind::person:
    case design::TargetKind::custom: return 5;
  }
  return 5;
}

}  // namespace belvedere::proof
