// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/live_looks.h"

#include <algorithm>

#include "design/resolve.h"
#include "drawing/spot_areas.h"
#include "scene/presence.h"

namespace belvedere::desk {
namespace {

using design::Design;
using design::Requirement;
using design::Situation;

// Whether a scene of one is a scene of the other.
bool sameStanding(const Design& a, const Design& b) {
  return a.site.buildings == b.site.buildings && a.site.solids == b.site.solids &&
         a.site.terrain == b.site.terrain && a.site.materials == b.site.materials &&
         a.situations == b.situations;
}

// The one housing in which two designs differ as far as imagers' views go; -1: none; -2: more.
constexpr long kNone = -1, kMore = -2;
long changedHousing(const Design& a, const Design& b) {
  if (a.housings.size() != b.housings.size() || a.catalogue != b.catalogue ||
      a.library.size() != b.library.size() || a.services.screens != b.services.screens)
    return kMore;
  long changed = kNone;
  for (std::size_t i = 0; i < a.housings.size(); ++i) {
    if (a.housings[i] == b.housings[i]) continue;
    if (changed != kNone || a.housings[i].id != b.housings[i].id) return kMore;
    changed = static_cast<long>(i);
  }
  return changed;
}

// Whether imagers that are free to choose their focus (proof/conditions.h) choose the same.
bool sameFocusTargets(const Design& a, const Design& b) {
  return a.site.zones == b.site.zones &&
         std::equal(a.brief.begin(), a.brief.end(), b.brief.begin(), b.brief.end(),
                    [](const Requirement& p, const Requirement& q) {
                      return p.kind == q.kind && p.zone == q.zone && p.target == q.target &&
                             p.task == q.task && p.px_per_m == q.px_per_m &&
                             p.judged_on == q.judged_on;
                    });
}

// Whether the question, but for its views, stays as it is.
bool sameAsked(const Design& a, const Design& b, const Requirement& was, const Requirement& is,
               const proof::Question& question) {
  if (was != is || a.task_table != b.task_table || a.site.zones.size() != b.site.zones.size() ||
      a.site.lights != b.site.lights)
    return false;
  const bool focused = std::any_of(question.conditions.begin(), question.conditions.end(),
                                   [](const proof::Conditions& c) { return c.sharp.has_value(); });
  if (focused && !sameFocusTargets(a, b)) return false;
  const design::Zone *p = design::findZone(a, was.zone), *q = design::findZone(b, is.zone);
  return p && q && *p == *q;
}

}  // namespace

void LiveLooks::clear() {
  lookers_.clear();
  places_.clear();
  design_ = nullptr;
}

void LiveLooks::setDesign(std::shared_ptr<const Design> design,
                          const std::filesystem::path& folder) {
  if (design_ == design && folder_ == folder) return;
  if (!design_ || folder != folder_ || !sameStanding(*design_, *design)) {
    lookers_.clear();
    places_.clear();
  }
  design_ = std::move(design);
  folder_ = folder;
  lookers_.remove_if([&](const Looker& looker) {
    return design::findRequirement(*design_, looker.requirement.id) == nullptr;
  });
}

std::shared_ptr<const proof::PreviewPlace> LiveLooks::placeOf(const Situation& situation) {
  for (const KnownPlace& known : places_)
    if (known.situation == situation || scene::sameSolids(*design_, known.situation, situation))
      return known.place;
  places_.push_back({situation, std::make_shared<proof::PreviewPlace>(
                                    proof::makePlace(*design_, situation, folder_))});
  return places_.back().place;
}

bool LiveLooks::bringUpToDate(Looker& looker) {
  if (looker.design == design_) return true;
  const Requirement* now = design::findRequirement(*design_, looker.requirement.id);
  if (!now || !sameAsked(*looker.design, *design_, looker.requirement, *now, looker.question)) return false;
  const long changed = changedHousing(*looker.design, *design_);
  if (changed == kMore) return false;
  if (changed >= 0) {
    const design::Housing& housing = design_->housings[static_cast<std::size_t>(changed)];
    std::vector<design::PosedImager> fresh;
    if (housing.life != design::Life::removed)
      fresh = design::posedImagersOf(*design_, housing, looker.requirement.judged_on);
    std::vector<design::PosedImager> views = looker.question.views;
    const auto first = std::find_if(views.begin(), views.end(), [&](const auto& view) {
      return view.housing == housing.id;
    });
    if (first == views.end() && !fresh.empty()) return false;  // its place in the order is unknown
    const auto at = first - views.begin();
    std::erase_if(views, [&](const auto& view) { return view.housing == housing.id; });
    if (!looker.imager.empty())
      std::erase_if(fresh, [&](const auto& view) {
        return view.imager != looker.imager || view.aim != looker.aim;
      });
    views.insert(views.begin() + at, fresh.begin(), fresh.end());
    proof::replaceViews(looker.question, std::move(views), design_.get());
  }
  looker.design = design_;
  return true;
}

LiveLooks::Looker* LiveLooks::lookerOf(const Requirement& requirement, const Situation& situation,
                                       const std::string& imager, std::size_t aim) {
  if (requirement.kind != design::RequirementKind::see ||
      !scene::Presence(*design_, situation).holds(requirement.zone.text))
    return nullptr;
  const auto found = std::find_if(lookers_.begin(), lookers_.end(), [&](const Looker& looker) {
    return looker.requirement.id == requirement.id && looker.situation == situation.id &&
           looker.imager == imager && looker.aim == aim;
  });
  if (found != lookers_.end() && bringUpToDate(*found)) return &*found;
  const auto place = placeOf(situation);
  // A new question keeps the old lattice where it asks the same of other imagers.
  proof::Previewer previewer =
      found != lookers_.end() ? std::move(found->previewer) : proof::Previewer(place);
  if (found != lookers_.end()) lookers_.erase(found);
  lookers_.push_back({requirement, situation.id, imager, aim, design_, {}, std::move(previewer)});
  Looker& looker = lookers_.back();
  looker.question = proof::makeQuestion(*design_, looker.requirement, situation, place->place());
  if (!imager.empty()) {
    std::vector<design::PosedImager> views = looker.question.views;
    std::erase_if(views, [&](const auto& view) {
      return view.imager != imager || view.aim != aim;
    });
    proof::replaceViews(looker.question, std::move(views));
    looker.question.imagers_needed = 1;
  }
  return &looker;
}

const proof::Question* LiveLooks::questionOf(const Requirement& requirement,
                                             const Situation& situation) {
  const Looker* looker = lookerOf(requirement, situation, {});
  return looker ? &looker->question : nullptr;
}

std::optional<proof::Preview> LiveLooks::look(const Requirement& requirement,
                                              const Situation& situation, double budget_ms,
                                              const Progress& progress) {
  Looker* looker = lookerOf(requirement, situation, {});
  if (!looker || looker->question.region.empty()) return std::nullopt;
  return looker->previewer.look(looker->question, {budget_ms, {}}, progress);
}

std::optional<LiveLooks::Outline> LiveLooks::outlineOf(const Requirement& requirement,
                                                       const Situation& situation,
                                                       const std::string& imager,
                                                       std::size_t aim, double budget_ms,
                                                       const Progress& progress) {
  Looker* looker = lookerOf(requirement, situation, imager, aim);
  if (!looker || looker->question.region.empty() || looker->question.views.empty())
    return std::nullopt;
  const proof::Preview preview =
      looker->previewer.look(looker->question, {budget_ms, {}}, progress);
  return Outline{{imager, requirement.id,
                  drawing::servedArea({preview.map, looker->question.region}), false, aim},
                 preview.spacing_m};
}

}  // namespace belvedere::desk
