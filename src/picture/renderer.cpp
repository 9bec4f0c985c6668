// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/renderer.h"

#include <tbb/blocked_range2d.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/check.h"
#include "picture/work.h"

namespace belvedere::picture {
namespace {

constexpr double kOnFloorM = 1e-3;  // a surface within this of a stated height takes the grid
constexpr double kLevelNormal = 0.9999;

}  // namespace

Renderer::Work::Work(const Subject& s, View from, Options o)
    : subject(&s), options(std::move(o)), paint(options.tones) {
  for (std::size_t i = 0; i < 2; ++i)
    size[i] = options.size[i] > 0 ? options.size[i] : from.pixels[i];
  BELVEDERE_CHECK(size[0] > 0 && size[1] > 0 && from.pixels[0] > 0 && from.pixels[1] > 0,
                  "a picture has pixels");
  if (!options.figures.empty()) {
    figures = figureScene(options.figures);
    figure_caster = std::make_unique<scene::RayCaster>(figures);
    figure_subject = std::make_unique<Subject>(*figure_caster);
  }
  palette.reserve(s.surfaces().size() + figureSurfaces());
  for (const Surface& surface : s.surfaces()) {
    std::uint32_t argb = argbOf(paint.face(surface.normal));
    if (surface.normal.z > kLevelNormal)
      for (const double floor : options.grid_m)
        if (std::abs(surface.offset - floor) < kOnFloorM)
          argb = (argb & 0xffffff) | kTakesGrid << 24;
    if (s.scene().sources[surface.source].light > 0) argb = (argb & 0xffffff) | kSeenThrough << 24;
    palette.push_back(argb);
  }
  if (figure_subject)
    for (const Surface& surface : figure_subject->surfaces())
      palette.push_back(argbOf(paint.figure(surface.normal)));
  const std::size_t pixels = static_cast<std::size_t>(size[0]) * static_cast<std::size_t>(size[1]);
  picture.width = size[0];
  picture.height = size[1];
  picture.argb.resize(pixels);
  picture.distance_m.resize(pixels);
  picture.surface.resize(pixels);
  picture.body.resize(pixels);
  base.resize(pixels);
  begin(std::move(from));
}

void Renderer::Work::begin(View from) {
  view = std::move(from);
  grid = std::make_unique<RayGrid>(view, size);
  traced.assign(static_cast<std::size_t>(grid->across()) * static_cast<std::size_t>(grid->down()),
                kUntraced);
  picture.step = 0;
}

Surface Renderer::Work::surfaceOf(std::uint32_t index) const {
  const auto own = subject->surfaces();
  return index < own.size() ? own[index] : figure_subject->surfaces()[index - own.size()];
}
std::uint32_t Renderer::Work::figureSurfaces() const {
  return figure_subject ? static_cast<std::uint32_t>(figure_subject->surfaces().size()) : 0;
}
bool Renderer::Work::maskedAt(Vec2 place) const {
  const Vec2 at_px = lensPlace(view, size, place);
  return std::any_of(view.masks_px.begin(), view.masks_px.end(),
                     [&](const Ring& mask) { return contains(mask, at_px); });
}

Renderer::Renderer(const Subject& subject, View view, Options options)
    : work_(std::make_unique<Work>(subject, std::move(view), std::move(options))) {}
Renderer::~Renderer() = default;
Renderer::Renderer(Renderer&&) noexcept = default;
Renderer& Renderer::operator=(Renderer&&) noexcept = default;

const Picture& Renderer::picture() const { return work_->picture; }
const View& Renderer::view() const { return work_->view; }
const Options& Renderer::options() const { return work_->options; }
void Renderer::look(View view) { work_->begin(std::move(view)); }
Surface Renderer::surface(std::uint32_t index) const {
  BELVEDERE_CHECK(index < work_->palette.size(), "a surface of this picture");
  return work_->surfaceOf(index);
}

const Picture& Renderer::pass(int step, const Progress& progress) {
  BELVEDERE_CHECK(step > 0 && step <= kTile && (step & (step - 1)) == 0,
                  "a step is 1, 2, 4, 8 or 16 pixels");
  Work& work = *work_;
  if (work.picture.step != 0 && work.picture.step <= step) return work.picture;
  const tbb::blocked_range2d<int> tiles(0, work.grid->down(), 1, 0, work.grid->across(), 8);
  const auto each = [&](const auto& body) {
    tbb::parallel_for(tiles, [&](const auto& range) {
      for (int y = range.rows().begin(); y < range.rows().end(); ++y)
        for (int x = range.cols().begin(); x < range.cols().end(); ++x) {
          progress.throwIfCancelled();
          body(x, y);
        }
    });
  };
  progress.throwIfCancelled();
  each([&](int x, int y) { work.traceTile(x, y, step); });
  if (step == 1) {
    if (work.options.contact_shade) work.shadeContacts(progress);
    if (work.options.contact_shade || work.options.lines || work.options.smooth)
      each([&](int x, int y) { work.finishTile(x, y); });
  }
  if (work.options.judged_frame) work.drawFrame();
  work.picture.step = step;
  return work.picture;
}

Picture render(const Subject& subject, const View& view, const Options& options,
               const Progress& progress) {
  return Renderer(subject, view, options).pass(1, progress);
}

std::optional<Spot> spotAt(const Renderer& renderer, Vec2 place) {
  const Renderer::Work& work = *renderer.work_;
  if (!(place.x >= 0 && place.y >= 0 && place.x <= work.size[0] && place.y <= work.size[1]))
    return std::nullopt;
  const auto ray = rayOf(work.view, work.size, place);
  if (!ray || (work.options.masks && work.maskedAt(place))) return std::nullopt;
  scene::RayPacket rays;
  rays.x.fill(static_cast<float>(ray->x));
  rays.y.fill(static_cast<float>(ray->y));
  rays.z.fill(static_cast<float>(ray->z));
  rays.traced[0] = -1;
  work.setRange(rays);
  Seen16 seen;
  work.see(rays, seen, 0);
  if (seen.surface[0] == kSkySurface) return std::nullopt;
  Spot spot;
  spot.body = seen.body[0];
  spot.normal = {0, 0, 1};
  spot.distance_m = static_cast<double>(seen.distance_m[0]);
  // In doubles, where the ray does not graze.
  const auto meet = [&](const Vec3& normal, double offset) {
    const double along = dot(normal, *ray);
    if (std::abs(along) > 1e-9)
      spot.distance_m = (offset - dot(normal, work.view.eye_m)) / along;
  };
  const scene::Scene& scene = work.subject->scene();
  const auto bodies = static_cast<std::int32_t>(scene.bodies.size());
  if (seen.surface[0] < kNoSurface) {
    const Surface surface = work.surfaceOf(seen.surface[0]);
    spot.normal = surface.normal;
    meet(surface.normal, surface.offset);
  } else if (seen.surface[0] == kPlainSurface) {
    meet({0, 0, 1}, *work.options.ground_m);
  } else if (work.options.cut_m && spot.distance_m > 2 * static_cast<double>(kNearM)) {
    meet({0, 0, 1}, *work.options.cut_m);
  }
  if (spot.body >= bodies) {
    const auto figure_body = static_cast<std::size_t>(spot.body - bodies);
    spot.figure = static_cast<int>(work.figures.bodies[figure_body].source);
    spot.body = kSky;
  } else if (spot.body >= 0) {
    spot.source = scene.sources[scene.bodies[static_cast<std::size_t>(spot.body)].source].id;
  }
  spot.at_m = work.view.eye_m + *ray * spot.distance_m;
  return spot;
}

}  // namespace belvedere::picture
