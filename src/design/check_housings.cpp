// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/units.h"
#include "design/check.h"
#include "design/resolve.h"

namespace belvedere::design {
namespace {

// What rounding of an aim to two digits after the point can do, and turning it between frames.
constexpr double kAimSlackDeg = 0.01;

std::string degrees(double deg) { return printNumber(std::round(deg * 100) / 100) + " deg"; }

bool angleWithin(double deg, const Range& limits) {
  if (limits[1] - limits[0] >= 360 - kAimSlackDeg) return true;
  const double past = wrap360(deg - limits[0] + kAimSlackDeg);
  return past <= limits[1] - limits[0] + 2 * kAimSlackDeg;
}

struct HousingCheck {
  const Design& design;
  const Housing& housing;
  const Model& model;
  std::string at;
  std::string model_at;  // pointer of the model's imagers
  ReadLog& log;

  void outsideLimits(const std::string& where, std::string_view what, double found_deg,
                     const Range& limits) const {
    const std::string mount = at + "/mount";
    log.finding(
        "aim_outside_limits", where,
        fmt::format("the {} in the housing's frame is {}, outside {} to {} of the model \"{}\"",
                    what, degrees(found_deg), printNumber(limits[0]), degrees(limits[1]),
                    shown(model.id.text)),
        "turn the imager, or the housing by mount/base_bearing_deg and base_tilt_deg",
        {mount + "/base_bearing_deg", mount + "/base_tilt_deg"});
  }

  void checkAim(const ModelImager& imager, const Aim& aim, const std::string& where) const {
    const PanTilt in_housing = housingFromSite(housing.mount, {aim.pan_deg, aim.tilt_deg});
    const bool along_axis = std::abs(std::abs(in_housing.tilt_deg) - 90) < kAimSlackDeg;
    if (!along_axis && !angleWithin(in_housing.pan_deg, imager.pan_deg))
      outsideLimits(where, "pan", in_housing.pan_deg, imager.pan_deg);
    if (in_housing.tilt_deg < imager.tilt_deg[0] - kAimSlackDeg ||
        in_housing.tilt_deg > imager.tilt_deg[1] + kAimSlackDeg)
      outsideLimits(where, "tilt", in_housing.tilt_deg, imager.tilt_deg);
    // On a base that leans, the roll that keeps a picture upright follows from the mount.
    if (housing.mount.base_tilt_deg == 0 && !angleWithin(aim.roll_deg, imager.roll_deg))
      outsideLimits(where, "roll", aim.roll_deg, imager.roll_deg);
    checkZoom(imager, aim, where);
  }

  void checkZoom(const ModelImager& imager, const Aim& aim, const std::string& where) const {
    if (aim.hfov_deg && aim.focal_mm)
      return log.finding("zoom_twice", where, "the aim states a field of view and a focal length",
                         "give one of hfov_deg and focal_mm");
    if (!aim.hfov_deg && !aim.focal_mm) return;
    try {
      lensAt(imager, {});
    } catch (const InputError&) {
      return;  // said of the model
    }
    if (!zoomOf(imager)) {  // a fixed lens: a stated zoom repeats its own
      const std::vector<double>& own = aim.hfov_deg ? imager.lens.hfov_deg : imager.lens.focal_mm;
      const double stated = aim.hfov_deg.value_or(aim.focal_mm.value_or(0));
      if (own.empty())
        log.finding("zoom_out_of_range", where, "a fixed lens has no zoom",
                    "leave hfov_deg and focal_mm out", {model_at});
      else if (std::abs(stated - own[0]) > 1e-6 * own[0])
        log.finding("zoom_out_of_range", where,
                    fmt::format("the {0} is {1}, and the model \"{2}\" has a fixed lens with {3}",
                                aim.hfov_deg ? "hfov_deg" : "focal_mm", printNumber(stated),
                                shown(model.id.text), printNumber(own[0])),
                    fmt::format("leave {} out, or take a model that can zoom",
                                aim.hfov_deg ? "hfov_deg" : "focal_mm"),
                    {model_at});
      return;
    }
    try {
      lensAt(imager, aim);
    } catch (const InputError& error) {
      for (const Problem& p : error.problems())
        log.finding(p.code, where, p.what, p.hint, {model_at});
    }
  }

  void checkImagers() const {
    std::set<int> seen;
    for (std::size_t i = 0; i < housing.imagers.size(); ++i) {
      const HousingImager& imager = housing.imagers[i];
      const std::string where = fmt::format("{}/imagers/{}", at, i);
      if (!seen.insert(imager.slot).second)
        log.finding("duplicate_slot", where, fmt::format("slot {} is there already", imager.slot));
      const ModelImager* of_model = findImager(model, imager.slot);
      if (!of_model) {
        log.finding("unknown_slot", where,
                    fmt::format("the model \"{}\" has no imager {}", shown(model.id.text),
                                imager.slot),
                    fmt::format("its imagers are {}", slotsOfModel()), {model_at});
        continue;
      }
      if (imager.aims.empty())
        log.finding("no_aim", where + "/aims", "the imager has no aim", "give one, or several");
      double time = 0;
      for (std::size_t a = 0; a < imager.aims.size(); ++a) {
        time += imager.aims[a].time_share;
        checkAim(*of_model, imager.aims[a], fmt::format("{}/aims/{}", where, a));
      }
      if (imager.aims.size() > 1 && time > 1 + 1e-6)
        log.finding("time_shares", where + "/aims",
                    fmt::format("the time shares add up to {}", printNumber(time)),
                    "give each aim its time_share; together at most 1");
      if (2 * imager.margin_px >= std::min(of_model->pixels[0], of_model->pixels[1]))
        log.finding("margin_too_wide", where + "/margin_px",
                    "the margins leave nothing of the picture", "", {model_at});
    }
  }

  std::string slotsOfModel() const {
    std::vector<int> slots;
    for (const ModelImager& imager : model.imagers) slots.push_back(imager.slot);
    return fmt::format("{}", fmt::join(slots, ", "));
  }

  // Imagers that slide along one ring keep apart; judged where each has one aim.
  void checkRings() const {
    for (const Shared& shared : model.shared) {
      if (shared.rule != "apart_deg" || !shared.value) continue;
      struct OnRing {
        std::size_t index;
        double pan_deg;
      };
      std::vector<OnRing> on_ring;
      std::set<int> seen;
      for (std::size_t i = 0; i < housing.imagers.size(); ++i) {
        const HousingImager& imager = housing.imagers[i];
        const bool shares = shared.slots.empty() ||
                            std::ranges::find(shared.slots, imager.slot) != shared.slots.end();
        if (!shares || imager.aims.size() != 1 || !seen.insert(imager.slot).second) continue;
        const PanTilt aim = housingFromSite(housing.mount,
                                            {imager.aims[0].pan_deg, imager.aims[0].tilt_deg});
        if (std::abs(std::abs(aim.tilt_deg) - 90) < kAimSlackDeg) continue;  // no bearing
        for (const OnRing& other : on_ring) {
          const double apart_deg = std::abs(wrap180(aim.pan_deg - other.pan_deg));
          if (apart_deg < *shared.value - kAimSlackDeg)
            log.finding("ring_too_close", fmt::format("{}/imagers/{}", at, i),
                        fmt::format("imagers {} and {} are {} apart on their ring, {} at least",
                                    housing.imagers[other.index].slot, imager.slot,
                                    degrees(apart_deg), degrees(*shared.value)),
                        "turn one of them",
                        {fmt::format("{}/imagers/{}", at, other.index), at + "/mount"});
        }
        on_ring.push_back({i, aim.pan_deg});
      }
    }
  }

  void checkLamps() const {
    std::set<int> seen;
    for (std::size_t i = 0; i < housing.lamps.size(); ++i) {
      const HousingLamp& lamp = housing.lamps[i];
      const std::string where = fmt::format("{}/lamps/{}", at, i);
      if (!seen.insert(lamp.slot).second)
        log.finding("duplicate_slot", where, fmt::format("slot {} is there already", lamp.slot));
      if (std::ranges::none_of(model.lamps,
                               [&](const ModelLamp& m) { return m.slot == lamp.slot; }))
        log.finding(
            "unknown_slot", where,
            fmt::format("the model \"{}\" has no lamp {}", shown(model.id.text), lamp.slot));
      if (lamp.follows && *lamp.follows != 0 && !findImager(model, *lamp.follows))
        log.finding("unknown_slot", where + "/follows",
                    fmt::format("the model \"{}\" has no imager {}", shown(model.id.text),
                                *lamp.follows),
                    "", {model_at});
    }
  }

  // The margins come off a crop's own edges.
  void checkCropMargin(const Stream& stream, const std::string& where) const {
    const auto& [x0, y0, x1, y1] = *stream.region;
    for (std::size_t i = 0; i < housing.imagers.size(); ++i) {
      const HousingImager& imager = housing.imagers[i];
      const ModelImager* of_model = findImager(model, imager.slot);
      if (!of_model || std::ranges::find(stream.from, imager.slot) == stream.from.end()) continue;
      const double width = of_model->pixels[0], height = of_model->pixels[1];
      if (2 * imager.margin_px >= std::min(width, height)) continue;  // said of the imager
      if (x0 * width + imager.margin_px < x1 * width - imager.margin_px &&
          y0 * height + imager.margin_px < y1 * height - imager.margin_px)
        continue;
      log.finding("margin_too_wide", where,
                  fmt::format("the margins of imager {} leave nothing of the crop", imager.slot),
                  "make the region larger, or the imager's margin_px smaller",
                  {fmt::format("{}/imagers/{}/margin_px", at, i), model_at});
    }
  }

  void checkStreams() const {
    std::set<int> in_use;
    for (const HousingImager& imager : housing.imagers) in_use.insert(imager.slot);
    for (std::size_t i = 0; i < housing.streams.size(); ++i) {
      const Stream& stream = housing.streams[i];
      const std::string where = fmt::format("{}/streams/{}", at, i);
      for (std::size_t k = 0; k < stream.from.size(); ++k)
        if (!in_use.contains(stream.from[k]))
          log.finding("unknown_slot", fmt::format("{}/from/{}", where, k),
                      fmt::format("the housing has no imager {} in use", stream.from[k]), "",
                      {at + "/imagers"});
      const bool several = stream.view == StreamView::stitched;
      if (stream.from.empty() || (!several && stream.from.size() > 1))
        log.finding("stream_incomplete", where + "/from",
                    fmt::format("a view that is {} comes from {}", word(stream.view),
                                several ? "one imager or more" : "one imager"),
                    "", {where + "/view"});
      if (stream.view == StreamView::crop && !stream.region)
        log.finding("stream_incomplete", where, "a crop states its region", "add \"region\"",
                    {where + "/region", where + "/view"});
      if (stream.region && ((*stream.region)[0] >= (*stream.region)[2] ||
                            (*stream.region)[1] >= (*stream.region)[3]))
        log.finding("range_reversed", where + "/region", "the region has no area",
                    "x0 y0 x1 y1 with x0 below x1 and y0 below y1");
      else if (stream.view == StreamView::crop && stream.region)
        checkCropMargin(stream, where + "/region");
    }
  }
};

}  // namespace

void checkHousings(const Design& design, ReadLog& log) {
  for (std::size_t i = 0; i < design.housings.size(); ++i) {
    const Housing& housing = design.housings[i];
    const std::string at = fmt::format("/housings/{}", i);
    const auto otherKind = [&](const ModelId& id, ModelKind kind, const std::string& where) {
      const Model* model = id.empty() ? nullptr : findModel(design, id);
      if (!model || model->kind == kind) return;
      log.finding("model_of_other_kind", where,
                  fmt::format("the model \"{}\" is a {}, here stands a {}", shown(id.text),
                              word(model->kind), word(kind)),
                  "choose a model of that kind");
    };
    const Model* model = housing.model.empty() ? nullptr : findModel(design, housing.model);
    const bool lamp = model && model->kind == ModelKind::lamp;  // one that stands alone
    if (!lamp) otherKind(housing.model, ModelKind::housing, at + "/model");
    otherKind(housing.mount.model, ModelKind::mount, at + "/mount/model");
    if (housing.surroundings && housing.surroundings->temperature_c)
      checkRange(*housing.surroundings->temperature_c, at + "/surroundings/temperature_c", log);
    if (!model || !(lamp || model->kind == ModelKind::housing)) continue;
    const Model* const own = design.catalogue.models.data();
    const bool is_own = std::ranges::any_of(design.catalogue.models,
                                            [&](const Model& m) { return &m == model; });
    const std::string model_at =
        is_own ? fmt::format("/catalogue/models/{}/imagers", model - own) : "/catalogue/files";
    const HousingCheck check{design, housing, *model, at, model_at, log};
    check.checkImagers();
    check.checkRings();
    check.checkLamps();
    check.checkStreams();
  }
}

}  // namespace belvedere::design
