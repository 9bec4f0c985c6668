// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/live_section.h"

#include <algorithm>
#include <cmath>

#include "design/task_table.h"
#include "design/words.h"
#include "edit/aim.h"
#include "edit/mount_drag.h"
#include "scene/presence.h"

namespace belvedere::desk {
namespace {

constexpr double kLeastM = 4, kMostM = 60, kBehindM = 8;

const design::Requirement* askedOf(const design::Design& design,
                                   const design::RequirementId& selected,
                                   const design::StoreyId& storey,
                                   const design::Situation& situation) {
  const scene::Presence presence(design, situation);
  const design::Requirement* first = nullptr;
  for (const design::Requirement& requirement : design.brief) {
    if (requirement.kind != design::RequirementKind::see) continue;
    const design::Zone* zone = design::findZone(design, requirement.zone);
    if (!zone || !presence.holds(zone->id.text)) continue;
    if (requirement.id == selected) return &requirement;
    if (!first && zone->storey == storey) first = &requirement;
  }
  return first;
}

// As far ahead as something stands, within reason.
double reachOf(const scene::BodyTree& tree, const design::PosedImager& view) {
  Vec2 ahead = view.imager_from_site.row[2].xy();
  if (tree.nodes.empty() || norm(ahead) < 1e-9) return kLeastM;
  const Box3& all = tree.nodes.front().box;
  ahead = ahead / norm(ahead);
  double reach = kMostM;
  const Vec2 foot = view.lens_m.xy();
  if (ahead.x > 1e-9) reach = std::min(reach, (all.high.x - foot.x) / ahead.x);
  if (ahead.x < -1e-9) reach = std::min(reach, (all.low.x - foot.x) / ahead.x);
  if (ahead.y > 1e-9) reach = std::min(reach, (all.high.y - foot.y) / ahead.y);
  if (ahead.y < -1e-9) reach = std::min(reach, (all.low.y - foot.y) / ahead.y);
  return std::max(reach, kLeastM);
}

// As far as anything stands from a lens, whichever way, within reason.
double farthestOf(const scene::BodyTree& tree, const design::PosedImager& view) {
  if (tree.nodes.empty()) return kLeastM;
  const Box3& all = tree.nodes.front().box;
  const Vec2 foot = view.lens_m.xy();
  double far = 0;
  for (const double x : {all.low.x, all.high.x})
    for (const double y : {all.low.y, all.high.y}) far = std::max(far, norm(Vec2{x, y} - foot));
  return std::clamp(far, kLeastM, kMostM);
}

std::optional<edit::ImagerRef> refOf(const std::string& imager, std::size_t aim) {
  const std::size_t dot_at = imager.rfind('.');
  if (dot_at == std::string::npos) return std::nullopt;
  return edit::ImagerRef{design::HousingId{imager.substr(0, dot_at)},
                         std::atoi(imager.c_str() + dot_at + 1), aim};
}

// One aim of an imager, and for what it is looked at.
struct LookedAt {
  edit::ImagerRef imager;
  const design::Requirement* requirement = nullptr;
  edit::OutlinePlane plane;
  design::PosedImager view;
};
std::optional<LookedAt> lookedAt(const design::Design& design, const std::string& imager, std::size_t aim,
                                 const design::RequirementId& selected, const design::StoreyId& storey,
                                 const design::Situation& situation) {
  const auto ref = refOf(imager, aim);
  if (!ref) return std::nullopt;
  const design::Requirement* requirement = askedOf(design, selected, storey, situation);
  edit::OutlinePlane plane = outlinePlane(design, requirement, storey);
  auto view = edit::posedOf(design, *ref, plane.judged_on);
  if (!view) return std::nullopt;
  return LookedAt{*ref, requirement, std::move(plane), std::move(*view)};
}

}  // namespace

edit::OutlinePlane outlinePlane(const design::Design& design,
                                const design::Requirement* requirement,
                                const design::StoreyId& storey_id) {
  edit::OutlinePlane plane;
  plane.band_m = design::bandOf(requirement ? requirement->target : design::Target{});
  if (requirement) plane.judged_on = requirement->judged_on;
  if (const design::Zone* zone =
          requirement ? design::findZone(design, requirement->zone) : nullptr) {
    plane.floor = scene::floorOf(design, *zone);
  } else if (const design::Storey* storey = design::findStorey(design, storey_id)) {
    plane.floor.z0 = storey->floor_m;
  }
  return plane;
}

std::optional<LiveSection> liveSection(LiveLooks& looks, const std::string& imager,
                                       std::size_t aim, const design::RequirementId& selected,
                                       const design::StoreyId& storey,
                                       const design::Situation& situation) {
  const design::Design& design = looks.design();
  const auto at = lookedAt(design, imager, aim, selected, storey, situation);
  const auto parts = at ? edit::partsOf(design, at->imager) : std::nullopt;
  if (!parts) return std::nullopt;
  const auto place = looks.placeOf(situation)->place();
  const proof::Question question =
      edit::sectionQuestion(place, at->view, at->plane.band_m,
                            at->requirement ? design::neededDensity(design, *at->requirement) : 0,
                            at->plane.floor);
  const design::Target target = at->requirement ? at->requirement->target : design::Target{};
  return LiveSection{imager,
                     edit::sectionOf(design, question, 0, -kBehindM,
                                     reachOf(place->tree, at->view)),
                     at->plane.band_m,
                     std::string(design::word(target.kind)),
                     parts->aim->tilt_deg,
                     edit::lensHeight(design, at->imager.housing)};
}

std::optional<drawing::ImagerOutline> frameOutline(LiveLooks& looks, const std::string& imager,
                                                   std::size_t aim,
                                                   const design::RequirementId& selected,
                                                   const design::StoreyId& storey,
                                                   const design::Situation& situation) {
  const auto at = lookedAt(looks.design(), imager, aim, selected, storey, situation);
  if (!at) return std::nullopt;
  const double far_m = farthestOf(looks.placeOf(situation)->place()->tree, at->view);
  return drawing::ImagerOutline{imager,
                                at->requirement ? at->requirement->id : design::RequirementId{},
                                edit::inFrame(at->view, at->plane, far_m), true, aim};
}

}  // namespace belvedere::desk
