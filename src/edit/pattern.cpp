// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/pattern.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>

#include "base/problem.h"
#include "base/units.h"
#include "edit/aim.h"
#include "edit/erase.h"

namespace belvedere::edit {
namespace {

design::Housing* housingIn(design::Design& design, const design::HousingId& id) {
  for (design::Housing& housing : design.housings)
    if (housing.id == id) return &housing;
  return nullptr;
}
design::HousingImager* imagerIn(design::Housing& housing, int slot) {
  for (design::HousingImager& imager : housing.imagers)
    if (imager.slot == slot) return &imager;
  return nullptr;
}
std::string nameOf(const design::Housing& housing, int slot) {
  return edit::nameOf({housing.id, slot, 0});
}

// All aims of a housing brought within its model's limits and rings.
void settle(design::Design& design, const design::HousingId& id, std::vector<std::string>& says) {
  std::vector<std::pair<ImagerRef, design::Aim>> aims;
  for (const design::HousingImager& imager : design::findHousing(design, id)->imagers)
    for (std::size_t i = 0; i < imager.aims.size(); ++i)
      aims.push_back({{id, imager.slot, i}, imager.aims[i]});
  Aimed aimed = withAims(design, aims);
  design = std::move(aimed.design);
  if (aimed.at_stop) says.push_back(aimed.stop);
}

std::optional<optics::Zoom> zoomOfImager(const design::ModelImager& imager) {
  try {
    return design::zoomOf(imager);
  } catch (const InputError&) {
    return {};
  }
}

// A zoom stated in a way that the imager takes, as near as can be to a field of view.
void zoomTo(const design::ModelImager& imager, std::optional<double> hfov_deg, design::Aim& aim) {
  aim.hfov_deg.reset();
  aim.focal_mm.reset();
  if (hfov_deg && zoomOfImager(imager)) aim.hfov_deg = std::round(*hfov_deg * 1e4) / 1e4;
}

std::optional<double> hfovOf(const design::Design& design, const ImagerRef& ref) {
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  return view ? std::optional(view->hfov_deg) : std::nullopt;
}

// ---- swapping -----------------------------------------------------------------------------------

// The pixels that a stream can have at most.
std::array<double, 2> mostPixels(const design::Model& model, const design::Stream& stream) {
  double width = 0, height = 0;
  for (const int slot : stream.from)
    if (const design::ModelImager* imager = design::findImager(model, slot)) {
      width = stream.view == design::StreamView::stitched ? width + imager->pixels[0]
                                                          : double(imager->pixels[0]);
      height = std::max(height, double(imager->pixels[1]));
    }
  if (stream.view == design::StreamView::crop && stream.region) {
    width *= (*stream.region)[2] - (*stream.region)[0];
    height *= (*stream.region)[3] - (*stream.region)[1];
  }
  return {width, height};
}

void shrinkStreams(design::Housing& housing, const design::Model& model,
                   std::vector<std::string>& says) {
  for (design::Stream& stream : housing.streams) {
    if (stream.view == design::StreamView::unrolled) continue;  // has pixels of its own
    const auto [width, height] = mostPixels(model, stream);
    const double share = std::min({1.0, width / stream.size_px[0], height / stream.size_px[1]});
    if (share >= 1) continue;
    const auto even = [&](int px) {  // video has even sizes
      return std::max(16, 2 * static_cast<int>(std::floor(px * share / 2 + 1e-9)));
    };
    const std::array<int, 2> before = stream.size_px;
    stream.size_px = {even(before[0]), even(before[1])};
    says.push_back(fmt::format("stream {} shrinks from {} x {} to {} x {}", stream.id.text,
                               before[0], before[1], stream.size_px[0], stream.size_px[1]));
  }
}

void swapOne(design::Design& design, design::HousingId id, const design::Model& model,
             std::vector<std::string>& says) {
  // Fields of view as they are, before the model goes.
  std::map<int, std::vector<std::optional<double>>> hfov_deg;  // by slot and aim
  std::set<int> gone;
  for (const design::HousingImager& imager : design::findHousing(design, id)->imagers) {
    for (std::size_t i = 0; i < imager.aims.size(); ++i)
      hfov_deg[imager.slot].push_back(hfovOf(design, {id, imager.slot, i}));
    if (design::findImager(model, imager.slot)) continue;
    gone.insert(imager.slot);
    const std::string name = edit::nameOf({id, imager.slot, 0});
    says.push_back(fmt::format("{} goes: {} has no such imager", name, model.id.text));
    for (design::Evidence& evidence : design.evidence)
      if (evidence.of.text == name) evidence.of.text = id.text;
  }
  Erased erased = erasedSlots(design, id, gone);
  design = std::move(erased.design);
  std::ranges::move(erased.also, std::back_inserter(says));

  design::Housing& housing = *housingIn(design, id);
  housing.model = model.id;
  for (design::HousingImager& imager : housing.imagers) {
    const std::string name = nameOf(housing, imager.slot);
    const design::ModelImager* data = design::findImager(model, imager.slot);
    const auto zoom = zoomOfImager(*data);
    for (std::size_t i = 0; i < imager.aims.size(); ++i) {
      design::Aim& aim = imager.aims[i];
      const bool stated = aim.hfov_deg || aim.focal_mm;
      if (!stated && !zoom) continue;
      if (zoom && aim.hfov_deg) continue;
      if (zoom && aim.focal_mm && data->lens.focal_mm.size() == 2) continue;
      zoomTo(*data, hfov_deg[imager.slot][i], aim);
      if (stated && !zoom) says.push_back(fmt::format("{} has a fixed lens now", name));
    }
    const double most_margin = 0.5 * std::min(data->pixels[0], data->pixels[1]);
    if (imager.margin_px >= most_margin) {
      imager.margin_px = std::floor(most_margin / 2);
      says.push_back(fmt::format("the margin of {} shrinks to {:.0f} px", name, imager.margin_px));
    }
  }
  for (const design::ModelImager& imager : model.imagers)
    if (!imagerIn(housing, imager.slot))
      says.push_back(fmt::format("{} is not in use: it has no aim yet",
                                 nameOf(housing, imager.slot)));

  if (!housing.fed_by.empty() && model.power &&
      std::ranges::find(model.power->feeds, housing.fed_by, &design::Feed::kind) ==
          model.power->feeds.end()) {
    says.push_back(fmt::format("{} is no longer said to be fed by {}: {} takes none", housing.id.text,
                               housing.fed_by, model.id.text));
    housing.fed_by.clear();
  }
  if (const design::Model* mount = housing.mount.model.empty()
                                       ? nullptr
                                       : design::findModel(design, housing.mount.model);
      mount && !mount->takes.empty() &&
      std::ranges::find(mount->takes, model.id) == mount->takes.end())
    says.push_back(fmt::format("the mount {} of {} is not made for {}", mount->id.text,
                               housing.id.text, model.id.text));

  std::erase_if(housing.lamps, [&](const design::HousingLamp& lamp) {
    const bool there = std::ranges::any_of(
        model.lamps, [&](const design::ModelLamp& of_model) { return of_model.slot == lamp.slot; });
    if (!there)
      says.push_back(fmt::format("lamp {} of {} goes", lamp.slot, housing.id.text));
    return !there;
  });
  shrinkStreams(housing, model, says);
  settle(design, id, says);
}

}  // namespace

Changed copyPattern(const design::Design& design, const design::HousingId& from,
                    const std::vector<design::HousingId>& to) {
  Changed changed{design, {}};
  const design::Housing* source = design::findHousing(design, from);
  if (!source) {
    changed.says.push_back(fmt::format("there is no {}", from.text));
    return changed;
  }
  for (const design::HousingId& id : to) {
    design::Housing* target = housingIn(changed.design, id);
    const design::Model* model =
        target ? design::findModel(changed.design, target->model) : nullptr;
    if (!model || id == from) {
      if (!model) changed.says.push_back(fmt::format("there is no {}", id.text));
      continue;
    }
    std::set<int> given;
    for (const design::HousingImager& imager : source->imagers) {
      const design::ModelImager* data = design::findImager(*model, imager.slot);
      if (!data) {
        changed.says.push_back(fmt::format("{} has no imager {}: its aim is left out", id.text,
                                           imager.slot));
        continue;
      }
      given.insert(imager.slot);
      std::vector<design::Aim> aims = imager.aims;
      for (std::size_t i = 0; i < aims.size(); ++i) {
        design::Aim& aim = aims[i];
        const bool stated = aim.hfov_deg || aim.focal_mm;
        const auto at = design::siteFromHousing(
            target->mount,
            design::housingFromSite(source->mount, {aim.pan_deg, aim.tilt_deg}));
        const design::Aim kept = aim;
        aim.pan_deg = wrap360(at.pan_deg);
        aim.tilt_deg = at.tilt_deg;
        const bool same = target->model == source->model;
        if (!same) zoomTo(*data, hfovOf(design, {from, imager.slot, i}), aim);
        if (!same && stated && !zoomOfImager(*data))
          changed.says.push_back(
              fmt::format("{} has a fixed lens", nameOf(*target, imager.slot)));
        aim.roll_deg = kept.roll_deg;
      }
      if (design::HousingImager* there = imagerIn(*target, imager.slot)) {
        there->aims = aims;
      } else {
        design::HousingImager added;
        added.slot = imager.slot;
        added.aims = aims;
        const auto place = std::ranges::find_if(target->imagers, [&](const auto& other) {
          return other.slot > imager.slot;
        });
        target->imagers.insert(place, added);
        changed.says.push_back(fmt::format("{} is in use now", nameOf(*target, imager.slot)));
      }
    }
    for (const design::HousingImager& imager : target->imagers)
      if (!given.contains(imager.slot))
        changed.says.push_back(
            fmt::format("{} stays: {} has no imager {} in use", nameOf(*target, imager.slot),
                        from.text, imager.slot));
    settle(changed.design, id, changed.says);
  }
  return changed;
}

Changed swapModel(const design::Design& design, const design::HousingId& housing,
                  const design::ModelId& to) {
  Changed changed{design, {}};
  const design::Model* model = design::findModel(design, to);
  if (!model || model->kind != design::ModelKind::housing || !design::findHousing(design, housing))
    changed.says.push_back(fmt::format("{} cannot be a {}", housing.text, to.text));
  else if (design::findHousing(design, housing)->model != to)
    swapOne(changed.design, housing, *model, changed.says);
  return changed;
}

Changed swapModel(const design::Design& design, const design::ModelId& from,
                  const design::ModelId& to) {
  Changed changed{design, {}};
  for (const design::Housing& housing : design.housings) {
    if (housing.model != from || housing.life == design::Life::removed) continue;
    Changed next = swapModel(changed.design, housing.id, to);
    changed.design = std::move(next.design);
    std::ranges::move(next.says, std::back_inserter(changed.says));
  }
  return changed;
}

design::Design withLife(const design::Design& design,
                        const std::vector<design::HousingId>& housings, design::Life life) {
  design::Design changed = design;
  for (const design::HousingId& id : housings)
    if (design::Housing* housing = housingIn(changed, id)) housing->life = life;
  return changed;
}

design::Design withLamp(const design::Design& design, const design::HousingId& housing,
                        const design::HousingLamp& lamp) {
  design::Design changed = design;
  design::Housing* of = housingIn(changed, housing);
  const design::Model* model = of ? design::findModel(changed, of->model) : nullptr;
  const auto isIt = [&](const auto& other) { return other.slot == lamp.slot; };
  if (!model || std::none_of(model->lamps.begin(), model->lamps.end(), isIt)) return changed;
  if (of->lamps.empty())  // all of the model's, as a group
    for (const design::ModelLamp& own : model->lamps) of->lamps.push_back({own.slot, {}});
  const auto set = std::find_if(of->lamps.begin(), of->lamps.end(), isIt);
  if (set == of->lamps.end()) of->lamps.push_back(lamp);
  else *set = lamp;
  return changed;
}

}  // namespace belvedere::edit
