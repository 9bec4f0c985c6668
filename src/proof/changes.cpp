// SPDX-License-Identifier: GPL-3.0-or-later
//
// The search for the least single change: one housing is varied, kind by kind and step by step, and
// the judge is asked each time.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/check.h"
#include "base/problem.h"
#include "base/units.h"
#include "proof/limits.h"
#include "proof/trial.h"

namespace belvedere::proof {
namespace {

constexpr std::size_t kImagersTried = 4;  // those nearest to serving

// The least of a row of ever greater variations that serves, made finer by halving; nothing when
// none does. `vary(amount)`: the housing varied by that much.
template <class Vary>
std::optional<double> least(Trial& trial, double step, double most, double finest, Vary vary) {
  double fails = 0;
  for (int i = 1; fails < most - 1e-9; ++i) {
    const double amount = std::min(i * step, most);
    if (!trial.serves(vary(amount))) {
      fails = amount;
      continue;
    }
    double serves = amount;
    while (serves - fails > finest * 0.5) {
      const double middle = 0.5 * (fails + serves);
      (trial.serves(vary(middle)) ? serves : fails) = middle;
    }
    // Up to what can be set; the rounded figure must serve as well.
    for (int more = 0; more < 4; ++more) {
      const double set = std::ceil(serves / finest - 1e-6 + more) * finest;
      if (set <= most + 1e-9 && trial.serves(vary(set))) return set;
    }
    return amount;
  }
  return {};
}

void tryAim(Trial& trial, const design::Housing& housing, Change change, const Effort& effort,
            std::map<ChangeKind, Change>& best) {
  constexpr int kDirections = 16;
  constexpr double kStepDeg = 1, kFarthestDeg = 90, kFinestDeg = 0.1;
  const auto vary = [&](double pan, double tilt) {
    design::Housing varied = housing;
    design::Aim& aim = imagerOf(varied, change.slot)->aims[change.aim];
    aim.pan_deg = wrap360(aim.pan_deg + pan);
    aim.tilt_deg += tilt;
    if (std::fabs(aim.tilt_deg) > 90) return design::Housing{};  // resolves to nothing
    return varied;
  };
  double farthest = kFarthestDeg;
  const auto found = best.find(ChangeKind::aim);
  if (found != best.end()) farthest = std::min(farthest, found->second.effort / effort.per_aim_deg);
  for (int d = 0; d < kDirections; ++d) {
    const double angle = 2 * kPi * d / kDirections;
    double px = std::sin(angle), py = std::cos(angle);
    if (std::fabs(px) < 1e-12) px = 0;
    if (std::fabs(py) < 1e-12) py = 0;
    const auto amount = least(trial, kStepDeg, farthest, kFinestDeg,
                              [&](double a) { return vary(a * px, a * py); });
    if (!amount) continue;
    farthest = std::min(farthest, *amount);
    // As it can be set: tenths of a degree each way, if that still serves.
    const double pan = std::round(*amount * px * 10) / 10, tilt = std::round(*amount * py * 10) / 10;
    const bool rounded = trial.serves(vary(pan, tilt));
    change.pan_deg = rounded ? pan : *amount * px;
    change.tilt_deg = rounded ? tilt : *amount * py;
    change.effort = effort.per_aim_deg * std::hypot(change.pan_deg, change.tilt_deg);
    const design::Housing varied = vary(change.pan_deg, change.tilt_deg);
    const design::Aim& aim = varied.imagers[static_cast<std::size_t>(
        std::find_if(varied.imagers.begin(), varied.imagers.end(),
                     [&](const auto& i) { return i.slot == change.slot; }) - varied.imagers.begin())]
                                 .aims[change.aim];
    const int decimals = rounded ? 1 : 3;
    std::string turn, nod;
    if (change.pan_deg != 0)
      turn = fmt::format("turn {:.{}f} deg to the {} (pan {:.{}f})", std::fabs(change.pan_deg),
                         decimals, change.pan_deg > 0 ? "right" : "left", aim.pan_deg, decimals);
    if (change.tilt_deg != 0)
      nod = fmt::format("tilt {:.{}f} deg {} (tilt {:.{}f})", std::fabs(change.tilt_deg), decimals,
                        change.tilt_deg > 0 ? "down" : "up", aim.tilt_deg, decimals);
    change.sentence = fmt::format("{}: {}{}{}", trial.name, turn,
                                  !turn.empty() && !nod.empty() ? " and " : "", nod);
    keepLeast(best, change);
  }
}

void tryZoom(Trial& trial, const design::Housing& housing, Change change, const Effort& effort,
             std::map<ChangeKind, Change>& best) {
  const design::Model* model = design::findModel(trial.alone, housing.model);
  const design::ModelImager* imager = model ? design::findImager(*model, change.slot) : nullptr;
  if (!imager) return;
  const auto& data = imager->lens;
  const bool by_focal = data.focal_mm.size() > 1;
  const auto& ends = by_focal ? data.focal_mm : data.hfov_deg;
  if (ends.size() < 2) return;
  const double least_end = std::min(ends[0], ends[1]), most_end = std::max(ends[0], ends[1]);
  design::Housing start = housing;
  const design::Aim& aim = imagerOf(start, change.slot)->aims[change.aim];
  trial.alone.housings.front() = housing;
  double now = by_focal ? aim.focal_mm.value_or(0) : aim.hfov_deg.value_or(0);
  if (now <= 0) {
    // Given the other way: take the field of view as resolved.
    if (!aim.hfov_deg && !aim.focal_mm) now = ends[0];
    if (by_focal && aim.hfov_deg) {
      for (const auto& v : design::posedImagers(trial.alone, design::JudgedOn::captured))
        if (v.slot == change.slot && v.aim == change.aim && v.focal_mm) now = *v.focal_mm;
    }
    if (now <= 0) return;
  }
  const double finest = by_focal ? 0.01 : 0.1;
  for (const double side : {1.0, -1.0}) {
    const double room = side > 0 ? most_end - now : now - least_end;
    if (room <= 0) continue;
    const auto vary = [&](double amount) {
      design::Housing varied = housing;
      design::Aim& set = imagerOf(varied, change.slot)->aims[change.aim];
      const double value = std::clamp(now + side * amount, least_end, most_end);
      set.focal_mm.reset();
      set.hfov_deg.reset();
      (by_focal ? set.focal_mm : set.hfov_deg) = value;
      return varied;
    };
    const auto amount = least(trial, room / 60, room, finest, vary);
    if (!amount) continue;
    const double to = std::clamp(now + side * *amount, least_end, most_end);
    change.by = to / now;
    change.effort = effort.per_zoom_percent * 100 * std::fabs(std::log(to / now));
    change.sentence = by_focal ? fmt::format("{}: zoom from {:.2f} to {:.2f} mm", trial.name, now, to)
                               : fmt::format("{}: zoom from {:.1f} to {:.1f} deg across", trial.name,
                                             now, to);
    keepLeast(best, change);
  }
}

void tryMoves(const design::Design& design, Trial& trial, const design::Housing& housing,
              Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  const auto vary = [&](const Vec3& fixing) {
    design::Housing varied = housing;
    varied.mount.fixing_m = fixing;
    return varied;
  };
  const Vec3 now = housing.mount.fixing_m;
  const design::Mounting* line = nullptr;
  for (const design::Mounting& m : design.site.mounting)
    if (m.id.text == housing.mount.on.text) line = &m;
  double floor_m = 0, low = 0.5, high = 1e9;
  if (line) {
    if (const design::Storey* storey = design::findStorey(design, line->storey)) floor_m = storey->floor_m;
    low = line->heights_m[0];
    high = line->heights_m[1];
  } else {
    for (const design::Building& b : design.site.buildings)
      for (const design::Storey& s : b.storeys)
        if (now.z >= s.floor_m - 1e-9 && now.z <= s.floor_m + s.height_m + 1e-9) {
          floor_m = s.floor_m;
          high = s.height_m;
        }
    high = std::min(high, now.z - floor_m + 3);
  }
  change.slot = trial.slot;
  for (const double side : {1.0, -1.0}) {
    const double room = side > 0 ? floor_m + high - now.z : now.z - floor_m - low;
    if (room <= 0) continue;
    const auto amount = least(trial, 0.05, room, 0.01, [&](double a) {
      return vary({now.x, now.y, now.z + side * a});
    });
    if (!amount) continue;
    change.kind = ChangeKind::height;
    change.by = side * *amount;
    change.to_fixing_m = {now.x, now.y, now.z + change.by};
    change.effort = effort.per_height_m * *amount;
    change.sentence = fmt::format("{}: fix it {:.2f} m {}, at {:.2f} m above the floor",
                                  change.housing.text, *amount, side > 0 ? "higher" : "lower",
                                  change.to_fixing_m.z - floor_m);
    keepLeast(best, change);
  }
  if (!line || line->path.size() < 2) return;
  // Along the mounting line, from the place on it that is nearest to the fixing point.
  std::vector<double> reach{0};
  for (std::size_t i = 1; i < line->path.size(); ++i)
    reach.push_back(reach.back() + norm(line->path[i] - line->path[i - 1]));
  const auto placeAt = [&](double s) {
    std::size_t i = 1;
    while (i + 1 < reach.size() && s > reach[i]) ++i;
    const double t = (s - reach[i - 1]) / std::max(1e-12, reach[i] - reach[i - 1]);
    return line->path[i - 1] + (line->path[i] - line->path[i - 1]) * t;
  };
  double here = 0, nearest = 1e300;
  for (int i = 0; i <= 1000; ++i) {
    const double s = reach.back() * i / 1000;
    const double off = norm(placeAt(s) - now.xy());
    if (off < nearest) {
      nearest = off;
      here = s;
    }
  }
  const auto excluded = [&](double s) {
    return std::any_of(line->excluded.begin(), line->excluded.end(),
                       [&](const design::Range& r) { return s >= r[0] && s <= r[1]; });
  };
  for (const double side : {1.0, -1.0}) {
    const double room = side > 0 ? reach.back() - here : here;
    const auto amount = least(trial, 0.1, room, 0.01, [&](double a) {
      const double s = here + side * a;
      if (excluded(s)) return design::Housing{};  // resolves to nothing: does not serve
      return vary(withZ(placeAt(s), now.z));
    });
    if (!amount) continue;
    change.kind = ChangeKind::place;
    change.by = *amount;
    change.to_fixing_m = withZ(placeAt(here + side * *amount), now.z);
    change.effort = effort.per_place_m * *amount;
    change.sentence = fmt::format("{}: move it {:.2f} m along {}, to ({:.2f}, {:.2f})",
                                  change.housing.text, *amount, line->id.text, change.to_fixing_m.x,
                                  change.to_fixing_m.y);
    keepLeast(best, change);
  }
}

void tryModels(const design::Design& design, Trial& trial, const design::Housing& housing,
               Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  const auto consider = [&](const design::Model& model) {
    if (model.kind != design::ModelKind::housing || model.id == housing.model) return;
    // Every imager of the housing must find its slot.
    for (const design::HousingImager& i : housing.imagers)
      if (!design::findImager(model, i.slot)) return;
    design::Housing varied = housing;
    varied.model = model.id;
    for (design::HousingImager& i : varied.imagers) {
      const auto& lens = design::findImager(model, i.slot)->lens;
      for (design::Aim& aim : i.aims) {
        aim.focal_mm.reset();
        if (lens.hfov_deg.size() < 2) aim.hfov_deg.reset();
        else if (aim.hfov_deg)
          aim.hfov_deg = std::clamp(*aim.hfov_deg, std::min(lens.hfov_deg[0], lens.hfov_deg[1]),
                                    std::max(lens.hfov_deg[0], lens.hfov_deg[1]));
        else aim.hfov_deg = lens.hfov_deg[0];
      }
    }
    if (!trial.serves(varied)) return;
    change.kind = ChangeKind::model;
    change.model = model.id;
    change.slot = trial.slot;
    change.effort = effort.another_model;
    change.sentence = fmt::format("{}: take a {} instead of a {}", change.housing.text, model.id.text,
                                  housing.model.text);
    keepLeast(best, change);
  };
  for (const design::Model& m : design.catalogue.models) consider(m);
  for (const design::Model& m : design.library) consider(m);
}

}  // namespace

std::vector<Change> changesFor(const design::Design& design, const Question& q,
                               const SpotExplanation& spot, const Effort& effort,
                               const Progress& progress) {
  std::map<ChangeKind, Change> best;
  if (spot.nearest.reason == Reason::served) return {};
  std::size_t tried = 0;
  for (std::size_t i = 0; i < spot.all.size() && tried < kImagersTried; ++i) {
    if (spot.all[i].reason == Reason::served || spot.all[i].view < 0) continue;
    progress.throwIfCancelled();
    ++tried;
    const design::PosedImager& view = q.views[static_cast<std::size_t>(spot.all[i].view)];
    const design::Housing* housing = design::findHousing(design, view.housing);
    BELVEDERE_CHECK(housing != nullptr, "a view belongs to a housing");
    Trial trial;
    trial.alone.catalogue = design.catalogue;
    trial.alone.library = design.library;
    trial.alone.services = design.services;
    trial.alone.housings = {*housing};
    trial.question = q;
    for (const design::PosedImager& other : q.views)
      if (other.housing != view.housing) trial.others.push_back(other);
    trial.slot = view.slot;
    trial.name = view.name;
    trial.at = spot.at;
    trial.lighting = q.lighting;
    const design::Model* model = design::findModel(design, housing->model);
    trial.lamps_move = q.lighting && q.lighting->light.light.stated && model && !model->lamps.empty();
    Change change;
    change.housing = view.housing;
    change.slot = view.slot;
    change.aim = view.aim;
    change.imager = view.imager;
    design::Housing copy = *housing;
    const design::HousingImager* imager = imagerOf(copy, view.slot);
    const bool locked = imager && imager->locked;
    change.kind = ChangeKind::aim;
    if (!locked) tryAim(trial, *housing, change, effort, best);
    change.kind = ChangeKind::zoom;
    if (!locked) tryZoom(trial, *housing, change, effort, best);
    tryMoves(design, trial, *housing, change, effort, best);
    tryModels(design, trial, *housing, change, effort, best);
    if (spot.all[i].reason == Reason::too_dark)
      tryLight(design, trial, *housing, view, change, effort, best);
    if (spot.all[i].reason == Reason::unsharp) {
      tryFocus(trial, *housing, view, change, effort, best);
      tryStopDown(trial, *housing, view, change, effort, best);
    }
  }
  std::vector<Change> changes;
  for (auto& [kind, change] : best) changes.push_back(std::move(change));
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.effort < b.effort; });
  return changes;
}

}  // namespace belvedere::proof
