// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "design/task_table.h"
#include "proof/judge.h"

namespace belvedere::proof {

std::shared_ptr<const Place> makePlace(const design::Design& design,
                                       const design::Situation& situation,
                                       const std::filesystem::path& folder) {
  auto place = std::make_shared<Place>();
  place->scene = scene::buildScene(design, situation, folder);
  place->tree = scene::buildTree(place->scene);
  return place;
}

namespace {

// The zone as it is judged: less what stands on the floor, unless the zone is not the floor
// (handbook 19).
Region judgedRegion(const design::Design& design, const design::Zone& zone,
                    const design::Situation& situation) {
  Region region{{zone.outline, zone.holes}};
  const bool on_floor = (zone.use.empty() || zone.use == "floor") && zone.surface.empty();
  if (on_floor)
    return differenceOf(region, scene::standingFootprints(design, zone.storey, situation));
  return unionOf(region, {});
}

// What a withheld zone has to reckon with beyond the present aim.
std::optional<Remote> remoteOf(const design::Design& design, const design::PosedImager& view) {
  if (!view.remote) return {};
  const design::Housing* housing = design::findHousing(design, view.housing);
  BELVEDERE_CHECK(housing != nullptr, "a view belongs to a housing");
  const design::Model* model = design::findModel(design, housing->model);
  BELVEDERE_CHECK(model != nullptr, "a housing has a model");
  const design::ModelImager* imager = design::findImager(*model, view.slot);
  BELVEDERE_CHECK(imager != nullptr, "a view has an imager of the model");
  Remote remote{view.lens, 0, imager->pan_deg, imager->tilt_deg, housing->mount,
                2 * norm(imager->offset_m)};
  double widest_deg = 0;
  const auto consider = [&](const design::Aim& aim) {
    const optics::Lens lens = design::lensAt(*imager, aim);
    const auto ray = optics::unproject(lens, {0, 0});
    const double half = ray ? std::atan2(std::hypot(ray->x, ray->y), ray->z) : kPi;
    if (radToDeg(half) > widest_deg) widest_deg = radToDeg(half);
    const auto* radial = std::get_if<optics::RadialLens>(&lens);
    const auto* longest = std::get_if<optics::RadialLens>(&remote.tele);
    if (radial && longest && radial->f_px > longest->f_px) remote.tele = lens;
  };
  design::Aim aim;
  const auto& lens = imager->lens;
  if (lens.focal_mm.size() > 1) {
    for (const double focal : lens.focal_mm) {
      aim.focal_mm = focal;
      consider(aim);
    }
  } else if (lens.hfov_deg.size() > 1) {
    for (const double hfov : lens.hfov_deg) {
      aim.hfov_deg = hfov;
      consider(aim);
    }
  } else {
    consider(aim);
  }
  remote.half_diagonal_deg = widest_deg;
  return remote;
}

}  // namespace

void replaceViews(Question& question, std::vector<design::PosedImager> views) {
  question.views = std::move(views);
  question.imagers.clear();
  question.imager_of.clear();
  for (const design::PosedImager& v : question.views) {
    auto at = std::find(question.imagers.begin(), question.imagers.end(), v.imager);
    if (at == question.imagers.end()) at = question.imagers.insert(at, v.imager);
    question.imager_of.push_back(static_cast<int>(at - question.imagers.begin()));
  }
}

Question makeQuestion(const design::Design& design, const design::Requirement& requirement,
                      const design::Situation& situation, std::shared_ptr<const Place> place,
                      const QuestionOptions& options) {
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
  q.region = judgedRegion(design, *zone, situation);
  q.region_m2 = area(q.region);
  q.floor = scene::floorOf(design, *zone);
  q.blocking = withhold ? scene::Blocking::withhold : scene::Blocking::see;
  std::vector<design::PosedImager> views =
      design::posedImagers(design, withhold ? design::JudgedOn::captured : requirement.judged_on);
  std::erase_if(views, [&](const design::PosedImager& v) {
    return std::find(options.without.begin(), options.without.end(), v.housing) !=
           options.without.end();
  });
  replaceViews(q, std::move(views));
  if (withhold)
    for (const design::PosedImager& v : q.views) q.remote.push_back(remoteOf(design, v));
  return q;
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
