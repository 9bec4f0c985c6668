// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/studio.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

#include "geometry/polygon.h"
#include "optics/lens.h"
#include "optics/sharpness.h"
#include "scene/presence.h"

namespace belvedere::picture {
namespace {

constexpr double kLevelNormal = 0.7;  // steeper than that nobody stands
constexpr double kOverFloorM = 0.01;  // of zones' outlines, so that the floor does not hide them

constexpr int kMeterPx = 320;         // width of the picture by which an imager exposes
// Lenses that blur less between these are sharp.
constexpr double kBlurFromM = 1, kFarM = 1e6, kBlurPx = 1;

}  // namespace

Studio::Studio(const design::Design& design, const design::Situation& situation,
               const std::filesystem::path& folder)
    : design_(design),
      situation_(situation),
      scene_(scene::buildScene(design, situation, folder)),
      caster_(std::make_unique<scene::RayCaster>(scene_)),
      subject_(std::make_unique<Subject>(*caster_)),
      coats_(coatsOf(design, scene_)),
      tree_(scene::buildTree(scene_)),
      lighting_(light::lightingOf(design, situation, folder, {&scene_, &tree_})),
      focus_targets_(proof::focusTargets(design, scene_)) {}

std::vector<double> Studio::floorsM() const {
  std::vector<double> floors;
  for (const design::Building& building : design_.site.buildings)
    for (const design::Storey& storey : building.storeys) floors.push_back(storey.floor_m);
  return floors;
}

Lighting Studio::lighting(const SunAt& sun) const {
  const std::optional<double> ambient =
      lighting_.light.stated ? std::optional(lighting_.light.ambient_lux) : std::nullopt;
  return plausibleLighting(ambient, sun.bearing_deg, sun.elevation_deg);
}

Settings Studio::settingsOf(const design::PosedImager& imager) const {
  Settings settings;
  if (lighting_.light.stated) takeLight(imager, settings);
  const bool infrared =
      std::any_of(settings.lights.begin(), settings.lights.end(),
                  [](const PointLight& light) { return light.band == scene::Band::infrared; });
  if (const auto choice = proof::focusChoice(imager, focus_targets_, infrared)) {
    const optics::Focus& focus = *imager.focus;
    const double shift_m = infrared ? imager.infrared_shift_m.value_or(0) : 0;
    if (optics::blurM(focus, choice->at_m, kBlurFromM, shift_m) > kBlurPx * focus.circle_m ||
        optics::blurM(focus, choice->at_m, kFarM, shift_m) > kBlurPx * focus.circle_m) {
      settings.aperture_m = 0.5 * focus.focal_m / focus.f_number;
      settings.focus_m = optics::infraredFocusM(focus, choice->at_m, shift_m);
    }
    if (!choice->stated)
      settings.notes.push_back(
          fmt::format("focused at {:.2f} m, which the design does not state", choice->at_m));
  }
  return settings;
}

void Studio::takeLight(const design::PosedImager& imager, Settings& settings) const {
  light::ImagerLight by = light::imagerLight(imager, lighting_, design::TargetKind::face);
  settings.mono = by.mode == light::Mode::mono;
  Sensor sensor;
  sensor.mono = settings.mono;
  if (!by.needed.lux) {
    by.needed.lux = kAssumedNeededLux * imager.stoppedDown();
    by.needed.stated_f_number = 1.6;
    by.needed.f_number = 1.6 * std::sqrt(imager.stoppedDown());
    by.needed.exposure_s = by.needed.stated_exposure_s = imager.exposure_s.value_or(0.04);
    settings.notes.push_back(
        "its data sheet does not say how much light it needs, with F-number and exposure time: 0.1 "
        "lx taken");
  } else if (imager.least_light) {
    const auto orElse = [](const std::optional<double>& stated, double taken) {
      return stated.value_or(0) > 0 ? *stated : taken;
    };
    sensor.contrast = orElse(imager.least_light->contrast, sensor.contrast);
    sensor.reflectance = orElse(imager.least_light->reflectance, sensor.reflectance);
  }
  sensor.needed_lux = *by.needed.lux;
  if (by.needed.exposure_s > 0) sensor.exposure_s = by.needed.exposure_s;
  settings.lights = pointLights(by);
  settings.sensor = sensor;
}

Shot Studio::shoot(const design::PosedImager& imager, PhotoOptions options,
                   const Progress& progress, Keep keep) const {
  const View view = viewOf(imager);
  const Settings settings = settingsOf(imager);
  options.lights = settings.lights;
  options.mono = settings.mono;
  options.aperture_m = 0;
  PhotoOptions meter = options;
  meter.size = {kMeterPx, static_cast<int>(std::clamp(
                              static_cast<double>(kMeterPx) * view.pixels[1] / view.pixels[0], 1.0,
                              4.0 * kMeterPx))};
  meter.part_at = {0, 0};
  meter.part = {0, 0};
  meter.boards.clear();
  Shot shot;
  {
    const Photo metered = photograph(view, meter, partOf(progress, 0, 0.08));
    if (settings.sensor)
      shot.exposed = exposeFor(metered, *settings.sensor);
    else
      shot.exposed.exposure = exposureOf(metered);
  }
  if (!settings.sensor)  // nobody says how dark it is: as long as it may, or as is usual
    shot.exposed.exposure_s =
        std::min(shot.exposed.exposure_s, imager.exposure_s.value_or(shot.exposed.exposure_s));
  options.aperture_m = settings.aperture_m;
  options.focus_m = settings.focus_m;
  options.exposure_s = shot.exposed.exposure_s;
  std::optional<Sensor> sensor = settings.sensor;
  if (sensor) {
    // A shorter exposure gathers less light, which the noise feels.
    sensor->needed_lux *= sensor->exposure_s / shot.exposed.exposure_s;
    sensor->pixels_over_captured =
        std::min(1.0, static_cast<double>(wholeOf(view, options)[0]) / view.pixels[0]);
  }
  const Size size = sizeOf(view, options);
  shot.photo.width = shot.picture.width = size[0];
  shot.photo.height = shot.picture.height = size[1];
  const std::size_t pixels = static_cast<std::size_t>(size[0]) * static_cast<std::size_t>(size[1]);
  if (keep == Keep::light) {
    shot.photo.light.resize(pixels);
    shot.photo.surface.resize(pixels);
  } else {
    shot.picture.argb.resize(pixels);
  }
  if (keep == Keep::distances) shot.photo.distance_m.resize(pixels);
  photographRows(*subject_, coats_, view, options, partOf(progress, 0.08, 1),
                 [&](const PhotoRow& row) {
                   const std::size_t to = shot.photo.at(0, row.y);
                   if (sensor) addNoise(row, *sensor);
                   if (keep == Keep::light) {
                     std::copy(row.light.begin(), row.light.end(), &shot.photo.light[to]);
                     std::copy(row.surface.begin(), row.surface.end(), &shot.photo.surface[to]);
                     return;
                   }
                   develop(row.light, row.surface, shot.exposed.exposure, Tones{},
                           &shot.picture.argb[to]);
                   if (keep == Keep::distances)
                     std::copy(row.distance_m.begin(), row.distance_m.end(),
                               &shot.photo.distance_m[to]);
                 });
  return shot;
}

double Studio::standsOnM(Vec2 at_m, double under_m) const {
  scene::RayPacket rays;
  rays.z[0] = -1;
  rays.traced[0] = -1;
  rays.far_m.fill(1e6f);
  scene::HitPacket hit;
  for (int step = 0; step < 64; ++step) {
    caster_->nearest({at_m.x, at_m.y, under_m}, rays, scene::StopsAt::opaque, hit);
    if (hit.triangle[0] == scene::kNoTriangle) return 0;
    const Surface& surface = subject_->surfaces()[subject_->triangles()[hit.triangle[0]].surface];
    if (std::abs(surface.normal.z) > kLevelNormal && hit.leaves[0] == 0)
      return (surface.offset - dot(surface.normal.xy(), at_m)) / surface.normal.z;
    rays.near_m[0] = hit.distance_m[0] * 1.000002f + 1e-4f;
  }
  return 0;
}

Photo Studio::photograph(const View& view, const PhotoOptions& options,
                         const Progress& progress) const {
  return picture::photograph(*subject_, coats_, view, options, progress);
}

std::vector<Studio::ZoneMark> Studio::zoneMarks() const {
  std::vector<ZoneMark> marks;
  const scene::Presence presence(design_, situation_);
  for (const design::Zone& zone : design_.site.zones) {
    if (!presence.holds(zone.id.text) || zone.outline.empty()) continue;
    const scene::Floor floor = scene::floorOf(design_, zone, &scene_);
    ZoneMark mark;
    mark.name = zone.title.empty() ? zone.id.text : zone.title;
    Vec2 sum;
    const auto at = [&](Vec2 p) { return Vec3{p.x, p.y, floor.at(p) + kOverFloorM}; };
    for (const Vec2& p : zone.outline) {
      mark.outline.push_back(at(p));
      sum = sum + p;
    }
    mark.outline.push_back(at(zone.outline.front()));
    mark.middle_m = at(sum / static_cast<double>(zone.outline.size()));
    marks.push_back(std::move(mark));
  }
  return marks;
}

std::optional<Framing> framingOf(const design::Stream& stream, Size captured) {
  using design::StreamView;
  if (stream.view == StreamView::unrolled || stream.view == StreamView::stitched)
    return std::nullopt;
  Framing framing;
  const Size size = stream.size_px[0] > 0 && stream.size_px[1] > 0 ? stream.size_px : captured;
  const std::array<double, 4> region = stream.view == StreamView::crop && stream.region
                                           ? *stream.region
                                           : std::array<double, 4>{0, 0, 1, 1};
  const double wide = region[2] - region[0], high = region[3] - region[1];
  framing.size = {static_cast<int>(std::lround(size[0] / wide)),
                  static_cast<int>(std::lround(size[1] / high))};
  framing.part_at = {region[0] * framing.size[0], region[1] * framing.size[1]};
  framing.part = size;
  return framing;
}

std::optional<Framing> framingOf(const View& view, Vec2 scale, const Vec3& middle_m,
                                 std::span<const Vec3> points_m, int most_px) {
  Framing framing;
  framing.size = {std::max(1, static_cast<int>(std::lround(view.pixels[0] * scale.x))),
                  std::max(1, static_cast<int>(std::lround(view.pixels[1] * scale.y)))};
  const auto middle = placeOf(view, framing.size, middle_m);
  if (!middle) return std::nullopt;
  Box2 box;
  box.add(*middle);
  for (const Vec3& point : points_m)
    if (const auto px = optics::project(view.lens, view.view_from_site * (point - view.eye_m)))
      box.add(picturePlace(view, framing.size, *px));
  // low, number of pixels
  const auto along = [&](double low, double high, double at, int whole) {
    low = std::clamp(std::floor(std::max(low, at - 0.5 * most_px)), 0.0, whole - 1.0);
    high = std::clamp(std::ceil(std::min(high, low + most_px)), low + 1, static_cast<double>(whole));
    return std::pair{low, static_cast<int>(high - low)};
  };
  std::tie(framing.part_at.x, framing.part[0]) =
      along(box.low.x, box.high.x, middle->x, framing.size[0]);
  std::tie(framing.part_at.y, framing.part[1]) =
      along(box.low.y, box.high.y, middle->y, framing.size[1]);
  return framing;
}

Developed enlarged(const Developed& picture, int factor) {
  Developed made;
  made.width = picture.width * factor;
  made.height = picture.height * factor;
  made.argb.resize(picture.argb.size() * static_cast<std::size_t>(factor * factor));
  for (int y = 0; y < made.height; ++y)
    for (int x = 0; x < made.width; ++x)
      made.argb[static_cast<std::size_t>(y) * static_cast<std::size_t>(made.width) +
                static_cast<std::size_t>(x)] =
          picture
              .argb[static_cast<std::size_t>(y / factor) * static_cast<std::size_t>(picture.width) +
                    static_cast<std::size_t>(x / factor)];
  return made;
}

Picture depthOf(Photo photo, Size whole, Vec2 part_at) {
  Picture picture;
  picture.width = whole[0];
  picture.height = whole[1];
  picture.step = 1;
  if (Size{photo.width, photo.height} == whole && part_at == Vec2{}) {
    picture.distance_m = std::move(photo.distance_m);
    return picture;
  }
  picture.distance_m.assign(static_cast<std::size_t>(whole[0]) * static_cast<std::size_t>(whole[1]),
                            std::numeric_limits<float>::infinity());
  const int x0 = static_cast<int>(std::lround(part_at.x)),
            y0 = static_cast<int>(std::lround(part_at.y));
  for (int y = 0; y < photo.height; ++y)
    for (int x = 0; x < photo.width; ++x)
      if (x + x0 < whole[0] && y + y0 < whole[1])
        picture.distance_m[picture.at(x + x0, y + y0)] = photo.distance_m[photo.at(x, y)];
  return picture;
}

}  // namespace belvedere::picture
