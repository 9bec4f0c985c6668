// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/night_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/contours.h"
#include "drawing/night_words.h"
#include "drawing/plan_shapes.h"
#include "drawing/sheet_parts.h"
#include "optics/lens.h"

namespace belvedere::drawing {
namespace {

constexpr double kLeastLux = 0.01;    // below that nobody draws a line
constexpr double kLeastShare = 0.02;  // of a lamp: no shadow is asked for below
constexpr double kJump = 2.5;         // from one point to the next: a shadow's edge, not a slope
constexpr double kSmooth = 0.15;      // lattice units
constexpr std::array<double, 4> kLampLevels{0.3, 1, 3, 10};

struct Spots {
  LatticeSize size;
  Vec2 origin;
  double cell_m = 1;
  std::vector<std::uint8_t> known;
  std::vector<double> lux, lamps;
  Vec2 site(Vec2 lattice) const { return origin + lattice * cell_m; }
};

// Points on the slab and in nothing that stands on it.
void markKnown(const PlanShapes& shapes, Spots& spots) {
  const auto mark = [&](const Region& region, std::uint8_t as) {
    const Box2 box = bounds(region);
    if (box.empty()) return;
    const auto index = [&](double at, double from, int count) {
      return static_cast<int>(std::clamp((at - from) / spots.cell_m, 0.0, static_cast<double>(count - 1)));
    };
    for (int row = index(box.low.y, spots.origin.y, spots.size.rows);
         row <= index(box.high.y, spots.origin.y, spots.size.rows); ++row)
      for (int column = index(box.low.x, spots.origin.x, spots.size.columns);
           column <= index(box.high.x, spots.origin.x, spots.size.columns); ++column) {
        auto& known = spots.known[spots.size.index(column, row)];
        if (known != as &&
            contains(region, spots.site({static_cast<double>(column), static_cast<double>(row)})))
          known = as;
      }
  };
  mark(shapes.slab, 1);
  for (const auto* list : {&shapes.walls, &shapes.solids})
    for (const PlanShape& shape : *list)
      if (shape.look != Look::overhead) mark(shape.area, 0);
}

bool shows(const design::PosedImager& view, const Vec3& at_m) {
  const auto px = optics::project(view.lens, view.imager_from_site * (at_m - view.lens_m));
  return px && px->x >= 0 && px->y >= 0 && px->x <= view.pixels[0] && px->y <= view.pixels[1];
}

struct Asked {
  const light::Lighting& lighting;
  const light::Solids& solids;
  const std::vector<design::PosedImager>& views;
  const NightPlan& plan;

  bool mono(const design::PosedImager& view) const {
    const light::ImagerState* state = light::findState(lighting, view.imager);
    return state && state->mode == light::Mode::mono;
  }

  // Illuminance for whom it is brightest; nothing where no picture shows the place.
  bool at(const Vec3& at_m, double& lux, double& lamps) const {
    std::vector<Vec3> normals;
    bool in_mono = false, in_colour = false;
    for (const design::PosedImager& view : views) {
      if (!shows(view, at_m)) continue;
      (mono(view) ? in_mono : in_colour) = true;
      normals.push_back(light::facingInPlan(at_m, view.lens_m));
    }
    if (plan.level) normals = {light::kUp};
    if (normals.empty()) return false;
    std::vector<double> sums(normals.size(), lighting.light.ambient_lux);
    for (const light::Luminaire& luminaire : lighting.light.luminaires) {
      std::optional<double> passes;
      for (std::size_t i = 0; i < normals.size(); ++i) {
        const double open = light::illuminanceFrom(luminaire, at_m, normals[i]);
        if (open <= 0) continue;
        if (!passes) passes = solids.passes(luminaire.at_m, at_m, scene::Band::light);
        sums[i] += open * *passes;
      }
    }
    lux = *std::max_element(sums.begin(), sums.end());
    lamps = 0;
    for (std::size_t i = 0; i < lighting.lamps.size(); ++i) {
      const light::Lamp& lamp = lighting.lamps[i];
      if (!lighting.burns[i] || !(lamp.infrared() ? in_mono : in_mono || in_colour)) continue;
      const double open = light::shareFrom(lamp, at_m);
      if (open >= kLeastShare) lamps += open * solids.passes(lamp.at_m, at_m, lamp.band());
    }
    return true;
  }
};

Spots spotsOf(const design::Design& design, const design::Storey& storey,
              const design::Situation& situation, const Asked& asked, const NightOptions& options,
              const Progress& progress) {
  Spots spots;
  const PlanShapes shapes = planShapes(design, storey, situation);
  Box2 box = bounds(shapes.slab);
  if (!options.within.empty() && !box.empty())
    box = {{std::max(box.low.x, options.within.low.x), std::max(box.low.y, options.within.low.y)},
           {std::min(box.high.x, options.within.high.x), std::min(box.high.y, options.within.high.y)}};
  if (box.empty() || box.low.y >= box.high.y) return spots;
  const Vec2 extent = box.high - box.low;
  spots.cell_m = std::max(options.cell_m,
                          std::sqrt(extent.x * extent.y / static_cast<double>(kLightSpotsMost)));
  spots.origin = box.low;
  spots.size = {static_cast<int>(extent.x / spots.cell_m) + 2,
                static_cast<int>(extent.y / spots.cell_m) + 2};
  spots.known.assign(spots.size.count(), 0);
  spots.lux.assign(spots.size.count(), kLeastLux);
  spots.lamps.assign(spots.size.count(), kLeastShare);
  markKnown(shapes, spots);
  for (int row = 0; row < spots.size.rows; ++row) {
    progress.throwIfCancelled();
    for (int column = 0; column < spots.size.columns; ++column) {
      const std::size_t i = spots.size.index(column, row);
      if (!spots.known[i]) continue;
      double lux = 0, lamps = 0;
      const Vec2 at = spots.site({static_cast<double>(column), static_cast<double>(row)});
      spots.known[i] = asked.at(withZ(at, storey.floor_m + asked.plan.height_m), lux, lamps);
      if (!spots.known[i]) continue;
      spots.lux[i] = lux;
      spots.lamps[i] = std::max(lamps, kLeastShare);
    }
  }
  return spots;
}

void addLines(const Spots& spots, const std::vector<double>& values, LightOf of,
              const std::vector<double>& levels, std::vector<LightLine>& out) {
  std::vector<std::uint8_t> usable(values.size(), 0);
  for (int row = 0; row + 1 < spots.size.rows; ++row)
    for (int column = 0; column + 1 < spots.size.columns; ++column) {
      const std::size_t a = spots.size.index(column, row), b = a + 1,
                        d = spots.size.index(column, row + 1), c = d + 1;
      const auto [low, high] = std::minmax({values[a], values[b], values[c], values[d]});
      usable[a] = spots.known[a] && spots.known[b] && spots.known[c] && spots.known[d] &&
                  high <= kJump * low;
    }
  for (std::size_t i = levels.size(); i-- > 0;)
    for (Line& line : traceLines(spots.size, values, usable, levels[i], kSmooth)) {
      if (line.closed && !line.points.empty()) line.points.push_back(line.points.front());
      for (Vec2& p : line.points) p = spots.site(p);
      out.push_back({of, levels[i], std::move(line.points)});
    }
}

}  // namespace

const light::ImagerState* NightPlan::stateOf(const std::string& imager) const {
  for (const light::ImagerState& state : states)
    if (state.imager == imager) return &state;
  return nullptr;
}

std::string NightPlan::lightWords() const { return drawing::lightWords(*this, {}); }

std::string NightPlan::planeWords() const { return drawing::planeWords(*this, {}); }

std::string lightWords(const NightPlan& night, const LengthUnit& unit) {
  const std::string most = fmt::format("{:.2g}", night.most_lux);
  const std::string lux =
      night.most_lux > night.least_lux * kLevelLight
          ? fmt::format(fmt::runtime(said("{} to {}")), fmt::format("{:.2g}", night.least_lux), most)
          : most;
  return lux + " " + planeWords(night, unit);
}

std::string planeWords(const NightPlan& night, const LengthUnit& unit) {
  return night.level ? said("lx level, on the floor")
                     : fmt::format(fmt::runtime(said("lx upright to the camera, {} {} up")),
                                   fmt::format("{:.3g}", night.height_m / unit.m), unit.name);
}

std::vector<double> lightLevels(double low_lux, double high_lux) {
  std::vector<double> levels;
  if (!(low_lux > 0) || high_lux <= low_lux * kLevelLight) return levels;
  constexpr std::array<double, 2> kCoarse{1, 3};
  constexpr std::array<double, 6> kFine{1, 1.5, 2, 3, 5, 7};
  constexpr std::size_t kFew = 3;
  const auto take = [&](auto steps) {
    levels.clear();
    for (int decade = static_cast<int>(std::floor(std::log10(low_lux)));
         std::pow(10, decade) <= high_lux; ++decade)
      for (const double step : steps) {
        // A power of ten below one is written as a quotient: 3 / 10 is 0.3, 3 * 0.1 is not.
        const double level = decade < 0 ? step / std::pow(10, -decade) : step * std::pow(10, decade);
        if (level > low_lux && level < high_lux) levels.push_back(level);
      }
  };
  take(kCoarse);
  if (levels.size() < kFew) take(kFine);
  return levels;
}

std::optional<NightPlan> nightPlan(const design::Design& design, const design::Storey& storey,
                                   const design::Situation& situation,
                                   const light::Lighting& lighting, const light::Solids& solids,
                                   const std::vector<design::PosedImager>& views,
                                   const NightOptions& options, const Progress& progress) {
  const bool burns = std::find(lighting.burns.begin(), lighting.burns.end(), true) !=
                     lighting.burns.end();
  const bool mono = std::any_of(lighting.states.begin(), lighting.states.end(), [](const auto& state) {
    return state.mode == light::Mode::mono;
  });
  if (!lighting.light.stated || !(burns || mono || !lighting.light.luminaires.empty())) return {};
  NightPlan plan;
  plan.lamps = lighting.lamps;
  plan.burns = lighting.burns;
  plan.states = lighting.states;
  if (options.shown) {
    const design::Range band = design::bandOf(options.shown->target);
    plan.level = options.shown->target.kind == design::TargetKind::floor;
    plan.height_m = plan.level ? 0 : 0.5 * (band[0] + band[1]);
  } else {
    plan.level = true;
  }
  for (const light::Luminaire& luminaire : lighting.light.luminaires)
    if (luminaire.at_m.z >= storey.floor_m && luminaire.at_m.z <= storey.floor_m + storey.height_m)
      plan.luminaires.push_back({luminaire.id, luminaire.at_m.xy()});

  const Spots spots = spotsOf(design, storey, situation, {lighting, solids, views, plan}, options,
                              progress);
  std::vector<double> known;
  for (std::size_t i = 0; i < spots.known.size(); ++i)
    if (spots.known[i]) known.push_back(spots.lux[i]);
  std::vector<double> lux = spots.lux;
  for (double& value : lux) value = std::max(value, kLeastLux);
  if (known.empty()) return plan;
  std::sort(known.begin(), known.end());
  plan.least_lux = known.front();
  plan.most_lux = known.back();
  addLines(spots, lux, LightOf::lux, lightLevels(std::max(plan.least_lux, kLeastLux), plan.most_lux),
           plan.lines);
  if (burns)
    addLines(spots, spots.lamps, LightOf::lamps, {kLampLevels.begin(), kLampLevels.end()}, plan.lines);
  return plan;
}

}  // namespace belvedere::drawing
