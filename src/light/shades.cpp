// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/shades.h"

#include <algorithm>

namespace belvedere::light {
namespace {

Shade::Body bodyOver(const Solids& solids, const Shade& shade, std::uint32_t umbra, const Vec3& from,
                     scene::Band band, const scene::Prism& column) {
  const scene::Scene& scene = *solids.scene;
  const scene::Umbra& one = shade.umbras->all[umbra];
  const scene::HiddenHeights hidden = scene::hiddenHeights(scene, *shade.umbras, one, from, column);
  const std::uint32_t source = scene.bodies[one.body].source;
  return {umbra, source, shareOf(scene.sources[source], band), hidden.perhaps, hidden.surely};
}

// Adds a body that hides some of the column. False where nothing more need be asked.
bool add(const Shade::Body& body, double tall_m, Shade& shade) {
  if (body.perhaps.low > body.perhaps.high) return true;
  shade.dark = body.share <= 0 && body.surely.low <= 0 && body.surely.high >= tall_m;
  if (shade.dark) shade.bodies.clear();
  else shade.bodies.push_back(body);
  return !shade.dark;
}

std::shared_ptr<const Shade> gather(const Solids& solids, const Vec3& from, scene::Band band,
                                    const scene::Prism& column, double tall_m) {
  auto shade = std::make_shared<Shade>();
  if (!solids.scene) return shade;
  thread_local std::vector<std::uint32_t> bodies;
  scene::bodiesIn(*solids.scene, *solids.tree, scene::makeShaft(from, column), band, bodies);
  if (bodies.empty()) return shade;
  std::sort(bodies.begin(), bodies.end(), [&](std::uint32_t a, std::uint32_t b) {
    const std::uint32_t x = solids.scene->bodies[a].source, y = solids.scene->bodies[b].source;
    return x != y ? x < y : a < b;
  });
  auto umbras = std::make_shared<scene::Umbras>();
  for (const std::uint32_t index : bodies)
    scene::addUmbra(*solids.scene, index, from, *umbras);
  shade->umbras = std::move(umbras);
  for (std::uint32_t i = 0; i < shade->umbras->all.size(); ++i)
    if (!add(bodyOver(solids, *shade, i, from, band, column), tall_m, *shade)) break;
  return shade;
}

std::shared_ptr<const Shade> partOf(const std::shared_ptr<const Shade>& larger, const Solids& solids,
                                    const Vec3& from, scene::Band band, const scene::Prism& column,
                                    double tall_m) {
  if (larger->dark || larger->bodies.empty()) return larger;
  auto shade = std::make_shared<Shade>();
  shade->umbras = larger->umbras;
  shade->bodies.reserve(larger->bodies.size());
  for (const Shade::Body& body : larger->bodies)
    if (!add(bodyOver(solids, *shade, body.umbra, from, band, column), tall_m, *shade)) break;
  return shade;
}

// Each thing takes its share once, of however many bodies it is made.
template <class Perhaps, class Surely>
Interval passing(const std::vector<Shade::Body>& bodies, Perhaps perhaps, Surely surely) {
  Interval passes(1);
  for (std::size_t i = 0; i < bodies.size();) {
    bool some = false, all = false;
    const std::size_t first = i;
    for (; i < bodies.size() && bodies[i].source == bodies[first].source; ++i) {
      some = some || perhaps(bodies[i]);
      all = all || surely(bodies[i]);
    }
    if (some) passes.low *= bodies[first].share;
    if (all) passes.high *= bodies[first].share;
    if (passes.high <= 0) return 0;
  }
  return passes;
}

}  // namespace

Interval Shade::at(double height_m) const {
  if (dark) return 0;
  return passing(bodies, [&](const Body& b) { return b.perhaps.has(height_m); },
                 [&](const Body& b) { return b.surely.has(height_m); });
}

Interval Shade::over(const Interval& heights_m) const {
  if (dark) return 0;
  return passing(bodies,
                 [&](const Body& b) {
                   return b.perhaps.low <= heights_m.high && b.perhaps.high >= heights_m.low;
                 },
                 [&](const Body& b) {
                   return b.surely.low <= heights_m.low && b.surely.high >= heights_m.high;
                 });
}

Shades Shades::partOf(const Shades& larger) {
  Shades part;
  part.of_light_ = larger.of_light_;
  part.dim_ = larger.dim_;
  for (Kept& kept : part.of_light_) kept.own = false;
  return part;
}

bool Shades::isDark(std::size_t light) const {
  return light < of_light_.size() && of_light_[light].shade && of_light_[light].shade->dark;
}

Interval Shades::dimHeights(std::size_t imager) const {
  const auto found = std::ranges::find(dim_, imager, &Dim::imager);
  return found != dim_.end() ? found->heights_m : Interval{-1e300, 1e300};
}

void Shades::setDimHeights(std::size_t imager, const Interval& heights_m) {
  const auto found = std::ranges::find(dim_, imager, &Dim::imager);
  if (found != dim_.end()) found->heights_m = heights_m;
  else dim_.push_back({imager, heights_m});
}

const Shade& Shades::of(std::size_t light, const Solids& solids, const Vec3& from, scene::Band band,
                        const scene::Prism& column) {
  if (of_light_.size() <= light) of_light_.resize(light + 1);
  Kept& kept = of_light_[light];
  if (kept.own) return *kept.shade;
  const double tall_m = column.corner[column.sides].z - column.corner[0].z;
  kept.shade = kept.shade ? light::partOf(kept.shade, solids, from, band, column, tall_m)
                          : gather(solids, from, band, column, tall_m);
  kept.own = true;
  return *kept.shade;
}

}  // namespace belvedere::light
