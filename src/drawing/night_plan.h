// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a plan shows of a storey's light: illuminance as lines, lamps, imagers' states, luminaires.
// Values, computed once (a second or so on a large site, beside a window) and then painted often.
// Knows no painter.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"
#include "design/resolve.h"
#include "geometry/polygon.h"
#include "light/lighting.h"

namespace belvedere::drawing {

enum class LightOf {
  lux,    // ambient light and luminaires, lx
  lamps,  // lamps of cameras, as a share of what is enough by their stated range
};
struct LightLine {
  LightOf of = LightOf::lux;
  double level = 0;
  std::vector<Vec2> points;  // site
};
struct LuminaireMark {
  std::string id;
  Vec2 at;  // site
};

struct NightPlan {
  // The plane on which light is counted: level on the floor for a target of kind floor, else upright
  // and turned to the camera whose picture it is brightest for, at the middle of the target's band.
  bool level = false;
  double height_m = 0;                     // of that plane above the floor
  double least_lux = 0, most_lux = 0;      // where anything was asked; equal: nothing to draw
  std::vector<LightLine> lines;            // greater levels first
  std::vector<light::Lamp> lamps;          // all in use in the design
  std::vector<bool> burns;                 // per lamp
  std::vector<light::ImagerState> states;
  std::vector<LuminaireMark> luminaires;   // those of the storey

  const light::ImagerState* stateOf(const std::string& imager) const;
  // "0.11 to 6.2 lx upright to the camera, 1 m up": on a plane that is turned to it
  std::string lightWords() const;
  std::string planeWords() const;  // the same without figures: "lx upright to the camera, 1 m up"
};

struct NightOptions {
  const design::Requirement* shown = nullptr;  // whose target says which plane counts
  Box2 within;       // site; empty: all of the storey
  double cell_m = 0.25;
};
inline constexpr std::size_t kLightSpotsMost = 60'000;

// Nothing where there is no light to draw: the situation names none, or daylight does for all
// imagers and no luminaire or lamp burns.
//   views   of the design, captured
//   throws  Cancelled
std::optional<NightPlan> nightPlan(const design::Design& design, const design::Storey& storey,
                                   const design::Situation& situation,
                                   const light::Lighting& lighting, const light::Solids& solids,
                                   const std::vector<design::PosedImager>& views,
                                   const NightOptions& options, const Progress& progress);

// Levels between two illuminances: 0.3 1 3 10 30 ...; 1 1.5 2 3 5 7 10 where that gives fewer than
// three. None where both are the same within kLevelLight.
std::vector<double> lightLevels(double low_lux, double high_lux);
inline constexpr double kLevelLight = 1.03;

}  // namespace belvedere::drawing
