// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions built without a file, for tests of the judge and the proof.
#pragma once

#include <memory>
#include <random>

#include "base/units.h"
#include "proof/judge.h"
#include "proof/range.h"

namespace belvedere::proof {

struct MadeUp {
  design::Requirement requirement;
  Question question;
};

inline Ring rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

// A rectilinear (or other) imager of W x H at a point.
inline design::PosedImager posed(const char* name, Vec3 lens, double pan, double tilt, double roll,
                                 std::array<int, 2> pixels, double hfov_deg, double k = 1) {
  design::PosedImager view;
  view.housing = {name};
  view.imager = std::string(name) + ".1";
  view.name = view.imager;
  view.lens_m = lens;
  view.imager_from_site = design::imagerFromSite(pan, tilt, roll);
  view.pixels = pixels;
  const double half = degToRad(hfov_deg / 2), width = pixels[0] * 0.5;
  const double f = k > 0 ? width * k / std::tan(k * half)
                   : k < 0 ? width * -k / std::sin(-k * half) : width / half;
  view.lens = optics::RadialLens{f, k, {pixels[0] * 0.5, pixels[1] * 0.5}};
  view.hfov_deg = hfov_deg;
  view.frame_low_px = {0, 0};
  view.frame_high_px = {double(pixels[0]), double(pixels[1])};
  return view;
}

// An open level floor (z = 0) unless bodies are given.
inline std::unique_ptr<MadeUp> ask(Region region, double low_m, double high_m, double px_per_m,
                                   std::vector<design::PosedImager> views,
                                   scene::Scene bodies = {}) {
  auto made = std::make_unique<MadeUp>();
  made->requirement.id = {"R1"};
  made->requirement.target.kind = design::TargetKind::custom;
  made->requirement.target.band_m = design::Range{low_m, high_m};
  Question& q = made->question;
  q.requirement = &made->requirement;
  q.situation.id = {"day"};
  auto place = std::make_shared<Place>();
  place->scene = std::move(bodies);
  place->tree = scene::buildTree(place->scene);
  q.place = place;
  q.needed_px_per_m = px_per_m;
  q.low_m = low_m;
  q.high_m = high_m;
  q.region = std::move(region);
  q.region_m2 = area(q.region);
  replaceViews(q, std::move(views));
  return made;
}

// A scene of standing boxes and hanging beams in [0, 10] x [0, 10], turned any way.
inline scene::Scene clutter(std::mt19937& random, int count) {
  std::uniform_real_distribution<double> unit(0, 1);
  scene::Scene scene;
  scene.sources.push_back({"clutter", 0, 0});
  for (int i = 0; i < count; ++i) {
    const Vec2 centre{10 * unit(random), 10 * unit(random)};
    const double turn = kPi * unit(random), a = 0.1 + 0.9 * unit(random), b = 0.05 + 0.3 * unit(random);
    const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * a, v = Vec2{-std::sin(turn), std::cos(turn)} * b;
    const Ring outline{centre - u - v, centre + u - v, centre + u + v, centre - u + v};
    const bool hangs = unit(random) < 0.3;
    const double bottom = hangs ? 1.2 + unit(random) : 0, top = hangs ? 3.5 : 0.3 + 1.7 * unit(random);
    scene::addPrism(scene, outline, {bottom, bottom, bottom, bottom}, {top, top, top, top}, 0);
  }
  return scene;
}

// A flat luminaire that hangs straight down.
inline light::Luminaire hanging(const Vec3& at_m, double candela) {
  return {"L", at_m, light::luminaireFromSite(0, 90, light::Planes::c),
          std::make_shared<const light::Photometry>(light::flatSource(candela)), 1};
}

// Dusk, a few lamps and luminaires about the place, and views that are focused somewhere: light and sharpness judged.
inline void dusk(Question& q, std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  auto lighting = std::make_shared<Lighting>();
  lighting->light.light.stated = true;
  lighting->light.light.ambient_lux = unit(random);
  const bool mono = unit(random) < 0.7;
  for (int i = 0; i < 3; ++i) {
    light::Lamp lamp;
    lamp.at_m = i == 0 ? q.views[0].lens_m + Vec3{0.05, 0, 0}
                       : Vec3{10 * unit(random), 10 * unit(random), 1 + 3 * unit(random)};
    lamp.axis = i == 0 ? q.views[0].imager_from_site.row[2]
                       : normalized(Vec3{unit(random) - 0.5, unit(random) - 0.5, -0.3 * unit(random)});
    lamp.half_beam_rad = 0.2 + 0.6 * unit(random);
    lamp.range_m = 3 + 9 * unit(random);
    lamp.wave_nm = unit(random) < 0.7 ? 850 : 550;
    lighting->light.lamps.push_back(lamp);
    lighting->light.burns.push_back(unit(random) < 0.8);
  }
  for (int i = 0; i < 3; ++i)
    lighting->light.light.luminaires.push_back(
        hanging({10 * unit(random), 10 * unit(random), 2 + 2 * unit(random)}, 30 * unit(random)));
  for (design::PosedImager& view : q.views) {
    view.least_light = design::LeastLight{2 * unit(random), 1.6, 0.04, {}, {}};
    view.f_number = 1.6;
    view.focus = optics::Focus{0.004 + 0.02 * unit(random), 1.6, 3e-6};
    view.focused_at_m = 2 + 8 * unit(random);
    lighting->light.states.push_back({view.imager, view.housing, view.slot, 0,
                                mono ? light::Mode::mono : light::Mode::colour, mono});
  }
  q.lighting = lighting;
  replaceViews(q, q.views);
}

}  // namespace belvedere::proof
