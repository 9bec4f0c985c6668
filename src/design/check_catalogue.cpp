// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "design/check.h"
#include "design/resolve.h"

namespace belvedere::design {
namespace {

// [wide, tele]: fields of view shrink, focal lengths grow.
void checkEnds(const std::vector<double>& ends, bool grows, const std::string& where,
               ReadLog& log) {
  if (ends.size() > 2)
    log.finding("lens_incomplete", where,
                fmt::format("{} values; a lens has one, or two: [wide, tele]", ends.size()));
  else if (ends.size() == 2 && (grows ? ends[0] > ends[1] : ends[0] < ends[1]))
    log.finding("range_reversed", where, "the wide end stands before the tele end",
                grows ? "the shorter focal length first" : "the wider field first");
}

void checkLens(const ModelImager& imager, const std::string& where, ReadLog& log) {
  const std::string at = where + "/lens";
  checkEnds(imager.lens.focal_mm, true, at + "/focal_mm", log);
  checkEnds(imager.lens.hfov_deg, false, at + "/hfov_deg", log);
  checkEnds(imager.lens.vfov_deg, false, at + "/vfov_deg", log);
  checkEnds(imager.lens.dfov_deg, false, at + "/dfov_deg", log);
  if (imager.lens.f_number.size() > 2)
    log.finding("lens_incomplete", at + "/f_number",
                "a lens has one aperture, or two: [wide, tele]");
  if (!log.usable(at) || !log.usable(where + "/pixels") || !log.usable(where + "/pitch_um")) return;
  try {
    lensAt(imager, {});
  } catch (const InputError& error) {
    for (const Problem& p : error.problems()) log.finding(p.code, at, p.what, p.hint);
  }
}

template <class T>
void checkSlots(const std::vector<T>& items, const std::string& where, ReadLog& log) {
  std::set<int> seen;
  for (std::size_t i = 0; i < items.size(); ++i)
    if (!seen.insert(items[i].slot).second)
      log.finding("duplicate_slot", fmt::format("{}/{}", where, i),
                  fmt::format("slot {} is there already", items[i].slot),
                  "number the slots of a housing from 1");
}

void checkShared(const Model& model, const Shared& shared, const std::string& at, ReadLog& log) {
  const bool of_lamps = shared.what == "lamps";
  const auto known = [&](int slot) {
    const auto same = [&](const auto& item) { return item.slot == slot; };
    return std::ranges::any_of(model.imagers, same) ||
           (of_lamps && std::ranges::any_of(model.lamps, same));
  };
  const auto checkSlot = [&](int slot, const std::string& where) {
    if (!known(slot))
      log.finding("unknown_slot", where, fmt::format("the model has no slot {}", slot));
  };
  for (std::size_t i = 0; i < shared.slots.size(); ++i)
    checkSlot(shared.slots[i], fmt::format("{}/slots/{}", at, i));
  for (std::size_t i = 0; i < shared.sets.size(); ++i)
    for (std::size_t k = 0; k < shared.sets[i].size(); ++k)
      checkSlot(shared.sets[i][k], fmt::format("{}/sets/{}/{}", at, i, k));
  if (shared.rule == "one_of_sets" && shared.sets.empty())
    log.finding("shared_incomplete", at, "one_of_sets names its sets", "add \"sets\"",
                {at + "/sets"});
  if ((shared.rule == "apart_deg" || shared.rule == "at_most_n" || shared.rule == "sum_at_most") &&
      !shared.value)
    log.finding("shared_incomplete", at, fmt::format("{} has a value", shared.rule),
                "add \"value\"", {at + "/value"});
}

void checkModel(const Model& model, const std::string& at, ReadLog& log) {
  checkSlots(model.imagers, at + "/imagers", log);
  checkSlots(model.lamps, at + "/lamps", log);
  for (std::size_t i = 0; i < model.lamps.size(); ++i)
    if (const auto slot = model.lamps[i].carried_by; slot && !findImager(model, *slot))
      log.finding("unknown_slot", fmt::format("{}/lamps/{}/carried_by", at, i),
                  fmt::format("the model has no imager {}", *slot));
  if (model.kind == ModelKind::housing && model.imagers.empty())
    log.finding("model_incomplete", at, "a housing has one imager or more", "add \"imagers\"",
                {at + "/kind", at + "/imagers"});
  if (model.kind != ModelKind::housing && !model.imagers.empty())
    log.finding("model_incomplete", at + "/imagers",
                fmt::format("a {} has no imagers", word(model.kind)), "its kind may be wrong",
                {at + "/kind"});
  for (std::size_t i = 0; i < model.imagers.size(); ++i) {
    const ModelImager& imager = model.imagers[i];
    const std::string where = fmt::format("{}/imagers/{}", at, i);
    checkLens(imager, where, log);
    checkRange(imager.pan_deg, where + "/pan_deg", log);
    checkRange(imager.tilt_deg, where + "/tilt_deg", log);
    checkRange(imager.roll_deg, where + "/roll_deg", log);
  }
  for (std::size_t i = 0; i < model.imagers.size() && model.cover_radius_mm; ++i)
    if (const double off_mm = 1000 * norm(model.imagers[i].offset_m); off_mm >= *model.cover_radius_mm)
      log.finding("lens_outside_cover", fmt::format("{}/imagers/{}/offset_m", at, i),
                  fmt::format("the lens is {:.0f} mm off the housing's origin, and the cover about it has a "
                              "radius of {:g} mm", off_mm, *model.cover_radius_mm),
                  "a larger cover_radius_mm, or none", {at + "/cover_radius_mm"});
  for (std::size_t i = 0; i < model.shared.size(); ++i)
    checkShared(model, model.shared[i], fmt::format("{}/shared/{}", at, i), log);
  if (model.ratings && model.ratings->temperature_c)
    checkRange(*model.ratings->temperature_c, at + "/ratings/temperature_c", log);
  if (model.heights_m) checkRange(*model.heights_m, at + "/heights_m", log);
  if (model.power)
    for (std::size_t i = 0; i < model.power->feeds.size(); ++i) {
      const Feed& feed = model.power->feeds[i];
      if (feed.least_v && feed.most_v)
        checkRange({*feed.least_v, *feed.most_v}, fmt::format("{}/power/feeds/{}", at, i), log);
    }
}

}  // namespace

void checkModels(std::span<const Model> models, const std::string& where, ReadLog& log) {
  for (std::size_t i = 0; i < models.size(); ++i)
    checkModel(models[i], fmt::format("{}/{}", where, i), log);
}

}  // namespace belvedere::design
