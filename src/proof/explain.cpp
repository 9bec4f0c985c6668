// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/explain.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/check.h"
#include "base/units.h"
#include "proof/part_loss.h"

namespace belvedere::proof {

const char* word(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::aim: return "aim";
    case ChangeKind::zoom: return "zoom";
    case ChangeKind::height: return "height";
    case ChangeKind::place: return "place";
    case ChangeKind::model: return "model";
    case ChangeKind::follow: return "follow";
    case ChangeKind::turn_lamp: return "turn_lamp";
    case ChangeKind::add_lamp: return "add_lamp";
    case ChangeKind::mode: return "mode";
    case ChangeKind::exposure: return "exposure";
    case ChangeKind::open_up: return "open_up";
    case ChangeKind::focus: return "focus";
    case ChangeKind::stop_down: return "stop_down";
  }
  return "";
}

SpotExplanation explainSpot(const design::Design&, const Question& q, Vec2 at) {
  SpotExplanation spot;
  spot.requirement = q.requirement->id;
  spot.situation = q.situation.id;
  spot.at = at;
  spot.inside = contains(q.region, at);
  std::vector<Answer> all;
  spot.nearest = answerAt(q, at, kSpotHeights, &all);
  const auto nameOf = [&](const Answer& answer) {
    return answer.view >= 0 ? q.views[static_cast<std::size_t>(answer.view)].name : std::string();
  };
  if (spot.nearest.view >= 0)
    spot.imager = q.views[static_cast<std::size_t>(spot.nearest.view)].imager;
  spot.name = nameOf(spot.nearest);
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return better(all[a], all[b]); });
  for (const std::size_t i : order) {
    spot.all.push_back(all[i]);
    spot.all_imagers.push_back(q.imagers[i]);
    spot.all_names.push_back(all[i].view >= 0 ? nameOf(all[i]) : q.imagers[i]);
  }
  if (spot.nearest.hidden_by)
    spot.hidden_by =
        q.place->scene.sources[q.place->scene.bodies[*spot.nearest.hidden_by].source].id;
  return spot;
}

namespace {
design::HousingImager* imagerOf(design::Housing& housing, int slot) {
  for (design::HousingImager& i : housing.imagers)
    if (i.slot == slot) return &i;
  return nullptr;
}
}  // namespace

design::Design withChange(const design::Design& design, const Change& change) {
  design::Design changed = design;
  if (change.lamp) changed.catalogue.models.push_back(*change.lamp);
  if (change.as) {
    const auto at = std::find_if(changed.housings.begin(), changed.housings.end(),
                                 [&](const design::Housing& h) { return h.id == change.as->id; });
    if (at != changed.housings.end()) *at = *change.as;
    else changed.housings.push_back(*change.as);
    return changed;
  }
  for (design::Housing& housing : changed.housings) {
    if (housing.id != change.housing) continue;
    if (change.kind == ChangeKind::height || change.kind == ChangeKind::place)
      housing.mount.fixing_m = change.to_fixing_m;
    if (change.kind == ChangeKind::model) {
      const design::Model* model = design::findModel(design, change.model);
      BELVEDERE_CHECK(model != nullptr, "a change names a model of the catalogue");
      housing.model = change.model;
      for (design::HousingImager& i : housing.imagers) {
        const design::ModelImager* imager = design::findImager(*model, i.slot);
        BELVEDERE_CHECK(imager != nullptr, "another model has the slots of the first");
        const auto& hfov = imager->lens.hfov_deg;
        for (design::Aim& aim : i.aims) {
          aim.focal_mm.reset();
          if (hfov.size() < 2) aim.hfov_deg.reset();
          else if (aim.hfov_deg)
            aim.hfov_deg = std::clamp(*aim.hfov_deg, std::min(hfov[0], hfov[1]), std::max(hfov[0], hfov[1]));
          else aim.hfov_deg = hfov[0];
        }
      }
    }
    design::HousingImager* imager = imagerOf(housing, change.slot);
    if (!imager || change.aim >= imager->aims.size()) continue;
    design::Aim& aim = imager->aims[change.aim];
    if (change.kind == ChangeKind::aim) {
      aim.pan_deg = wrap360(aim.pan_deg + change.pan_deg);
      aim.tilt_deg += change.tilt_deg;
    }
    if (change.kind == ChangeKind::zoom) {
      const design::Model* model = design::findModel(design, housing.model);
      const design::ModelImager* data = model ? design::findImager(*model, change.slot) : nullptr;
      BELVEDERE_CHECK(data != nullptr, "an imager has its data in the model");
      const bool by_focal = data->lens.focal_mm.size() > 1;
      double now = by_focal ? aim.focal_mm.value_or(0) : aim.hfov_deg.value_or(0);
      if (now <= 0) now = by_focal ? data->lens.focal_mm[0] : data->lens.hfov_deg[0];
      if (by_focal && aim.hfov_deg)
        for (const auto& v : design::posedImagers(design, design::JudgedOn::captured))
          if (v.housing == housing.id && v.slot == change.slot && v.aim == change.aim && v.focal_mm)
            now = *v.focal_mm;
      aim.hfov_deg.reset();
      aim.focal_mm.reset();
      (by_focal ? aim.focal_mm : aim.hfov_deg) = now * change.by;
    }
  }
  return changed;
}

void weighChange(const design::Design& design, const std::filesystem::path& folder, Change& change,
                 const Progress& progress) {
  ProveOptions verdicts;
  verdicts.width = 1;  // the verdict alone
  verdicts.spots = false;
  verdicts.blind_zones = false;
  const Proof before = prove(design, folder, verdicts, partOf(progress, 0.0, 0.5));
  const Proof after =
      prove(withChange(design, change), folder, verdicts, partOf(progress, 0.5, 1.0));
  change.loses.clear();
  for (std::size_t i = 0; i < before.requirements.size() && i < after.requirements.size(); ++i)
    if (before.requirements[i].verdict == Verdict::met &&
        after.requirements[i].verdict != Verdict::met && !mayFall(design, after.requirements[i]))
      change.loses.push_back(fmt::format("{} ({})", before.requirements[i].requirement.text,
                                         before.requirements[i].situation.text));
  change.loses_known = true;
}

void proveWithChange(const design::Design& design, const design::Requirement& requirement,
                     const design::Situation& situation, std::shared_ptr<const Place> place,
                     Change& change, const Progress& progress) {
  const design::Design changed = withChange(design, change);
  const Question q = makeQuestion(changed, requirement, situation, std::move(place));
  ProveOptions options;
  options.boxes_most = kShareBoxes;
  change.share = proveShare(q, requirement.share, sizedFor(q, options), progress).share;
}

}  // namespace belvedere::proof
