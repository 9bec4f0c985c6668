// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pictures against raw rays:
//
//   bench_picture FOLDER [ROUNDS]      FOLDER holds design.json (scripts/make_large_site.py)
//
// Pictures of 1280 x 720 of what corners of rooms and an eye outside see: identity, distance and
// flat shading, every ray made anew from the lens, over Embree's 16-wide intersection of the same
// rays (4 x 4 pixels a packet) in a scene of the same triangles with the same flags, rays' set-up
// and reading the answer timed too. Through a pinhole, a fisheye and a lens with five coefficients.
// Then what lines, smoothing and shade by contact add; and a photograph by night beside the flat picture: four
// luminaires and a lamp, exposed, out of focus, with its noise. One thread, processor time, turn about, medians.
#include <embree3/rtcore.h>
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <algorithm>
#include <cmath>
#include <ctime>

#include "base/units.h"
#include "design/read.h"
#include "picture/coats.h"
#include "picture/develop.h"
#include "picture/orbit.h"
#include "picture/photo.h"
#include "picture/renderer.h"
#include "picture/sensor.h"
#include "scene/bodies.h"

using namespace belvedere;
using namespace belvedere::picture;

namespace {

constexpr Size kSize{1280, 720};
constexpr std::size_t kLanes = 16;

double cpuMs() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
}
double median(std::vector<double> v) {
  std::sort(v.begin(), v.end());
  return v[v.size() / 2];
}

struct Rays {
  Vec3 eye;
  std::vector<float> x, y, z;  // by packets
};
Rays raysOf(const View& view) {
  Rays rays{view.eye_m, {}, {}, {}};
  for (int y = 0; y < kSize[1]; y += 4)
    for (int x = 0; x < kSize[0]; x += 4)
      for (int i = 0; i < 16; ++i) {
        const Vec2 place{x + i % 4 + 0.5, y + i / 4 + 0.5};
        const Vec3 d = rayOf(view, kSize, place).value_or(Vec3{0, 0, 1});
        rays.x.push_back(static_cast<float>(d.x));
        rays.y.push_back(static_cast<float>(d.y));
        rays.z.push_back(static_cast<float>(d.z));
      }
  return rays;
}

// The same triangles and flags as the ray caster's scene.
struct Raw {
  RTCDevice device = rtcNewDevice(nullptr);
  RTCScene scene = rtcNewScene(device);
  Vec3 origin;
  std::size_t triangles = 0;

  explicit Raw(const scene::Scene& bodies) {
    Box3 box;
    for (const scene::Body& b : bodies.bodies) box.add(b.box);
    origin = (box.low + box.high) * 0.5;
    std::vector<unsigned> indices;
    for (const scene::Body& b : bodies.bodies) {
      if (b.triangle())
        for (unsigned k = 0; k < 3; ++k) indices.push_back(b.first_vertex + k);
      for (std::uint32_t p = b.first_plane; p < b.first_plane + b.plane_count; ++p) {
        const auto ring = scene::faceOf(bodies, b, bodies.planes[p], 1.5e-6);
        for (std::size_t i = 1; i + 1 < ring.size(); ++i)
          indices.insert(indices.end(), {ring[0], ring[i], ring[i + 1]});
      }
    }
    triangles = indices.size() / 3;
    rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST | RTC_SCENE_FLAG_CONTEXT_FILTER_FUNCTION);
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* v = static_cast<float*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 12, bodies.vertices.size()));
    for (const Vec3& p : bodies.vertices) {
      const Vec3 d = p - origin;
      *v++ = static_cast<float>(d.x);
      *v++ = static_cast<float>(d.y);
      *v++ = static_cast<float>(d.z);
    }
    auto* t = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 12, triangles));
    std::copy(indices.begin(), indices.end(), t);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
    rtcCommitScene(scene);
  }
  ~Raw() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }
  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  double sumOfHits(const Rays& rays) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    alignas(64) int valid[kLanes];
    alignas(64) RTCRayHit16 rh;
    std::fill(valid, valid + kLanes, -1);
    const Vec3 from = rays.eye - origin;
    float sum = 0;
    for (std::size_t at = 0; at < rays.x.size(); at += kLanes) {
      for (std::size_t k = 0; k < kLanes; ++k) {
        rh.ray.org_x[k] = static_cast<float>(from.x);
        rh.ray.org_y[k] = static_cast<float>(from.y);
        rh.ray.org_z[k] = static_cast<float>(from.z);
        rh.ray.dir_x[k] = rays.x[at + k];
        rh.ray.dir_y[k] = rays.y[at + k];
        rh.ray.dir_z[k] = rays.z[at + k];
        rh.ray.tnear[k] = 1e-3f;
        rh.ray.tfar[k] = INFINITY;
        rh.ray.time[k] = 0;
        rh.ray.mask[k] = 0xffffffffu;
        rh.ray.flags[k] = 0;
        rh.hit.geomID[k] = RTC_INVALID_GEOMETRY_ID;
      }
      rtcIntersect16(valid, scene, &context, &rh);
      for (std::size_t k = 0; k < kLanes; ++k)
        sum += rh.hit.geomID[k] == RTC_INVALID_GEOMETRY_ID ? 0 : rh.ray.tfar[k];
    }
    return static_cast<double>(sum);
  }
};

View lookFrom(Vec3 eye, double pan_deg, double tilt_deg, const optics::Lens& lens) {
  View view{eye, design::imagerFromSite(pan_deg, tilt_deg, 0), lens, kSize, {}, {}, {}};
  view.frame_high_px = {1280, 720};
  return view;
}

}  // namespace

int main(int argument_count, char** arguments) {
  if (argument_count < 2) {
    fmt::print(stderr, "bench_picture FOLDER [ROUNDS]\n");
    return 2;
  }
  const std::filesystem::path folder = arguments[1];
  const int rounds = argument_count > 2 ? std::atoi(arguments[2]) : 9;
  const design::Design design = design::readDesign(folder / "design.json").design;
  const scene::Scene scene =
      scene::buildScene(design, design::situationsOf(design).front(), folder);
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const Raw raw(scene);
  fmt::print("{}: {} bodies, {} triangles; {} x {}; one thread, processor time, median of {} "
             "rounds, turn about\n",
             arguments[1], scene.bodies.size(), raw.triangles, kSize[0], kSize[1], rounds);
  tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);

  const Vec2 middle{640, 360};
  const double f = 640 / std::tan(degToRad(45));
  const std::array<std::pair<const char*, optics::Lens>, 3> lenses{{
      {"pinhole, 90 degrees", optics::RadialLens{f, 1, middle}},
      {"fisheye, equidistant, 180 degrees across",
       optics::RadialLens{640 / (0.5 * kPi), 0, middle}},
      {"five coefficients",
       optics::makeBrownConrady({f, f}, middle, {-0.22, 0.05, 0.0008, -0.0006, -0.004})},
  }};
  const auto time = [&](const char* what, const std::vector<View>& views) {
    std::vector<Rays> rays;
    for (const View& view : views) rays.push_back(raysOf(view));
    Options flat;
    flat.lines = flat.smooth = flat.contact_shade = false;
    Options lines = flat;
    lines.lines = lines.smooth = true;
    Options all = lines;
    all.contact_shade = true;
    std::vector<Renderer> renderers;
    for (const Options* options : {&flat, &lines, &all})
      renderers.emplace_back(subject, views.front(), *options);
    std::vector<double> raw_ms;
    std::array<std::vector<double>, 3> our_ms;
    double sum = 0;
    for (int round = 0; round < rounds; ++round) {
      double start = cpuMs();
      for (const Rays& r : rays) sum += raw.sumOfHits(r);
      raw_ms.push_back(cpuMs() - start);
      for (std::size_t o = 0; o < renderers.size(); ++o) {
        start = cpuMs();
        for (const View& view : views) {
          renderers[o].look(view);
          renderers[o].pass(1, {});
        }
        our_ms[o].push_back(cpuMs() - start);
      }
    }
    const double n = static_cast<double>(views.size()), r = median(raw_ms) / n;
    fmt::print("{}: raw 16-wide {:.1f} ms a picture ({:.0f} M/s, mean hit {:.1f} m); flat picture "
               "{:.1f} ms, ratio {:.2f}; with smooth lines {:.1f} ms; with shade by contact too "
               "{:.1f} ms\n",
               what, r, 1280 * 720 / r / 1e3, sum / n / rounds / (1280 * 720),
               median(our_ms[0]) / n, median(our_ms[0]) / n / r, median(our_ms[1]) / n,
               median(our_ms[2]) / n);
  };
  const std::vector<Coat> coats = coatsOf(design, scene);
  const auto timeByNight = [&](const char* what, const std::vector<View>& views) {
    const auto photometry = std::make_shared<light::Photometry>(light::flatSource(200));
    Options flat;
    flat.lines = flat.smooth = flat.contact_shade = false;
    Renderer renderer(subject, views.front(), flat);
    std::vector<double> flat_ms, night_ms;
    for (int round = 0; round < rounds; ++round) {
      double start = cpuMs();
      for (const View& view : views) {
        renderer.look(view);
        renderer.pass(1, {});
      }
      flat_ms.push_back(cpuMs() - start);
      start = cpuMs();
      for (const View& view : views) {
        std::vector<light::Luminaire> luminaires;
        for (const Vec2 away : {Vec2{1, 1}, {3, 1}, {1, 3}, {3, 3}})
          luminaires.push_back({"lamp", withZ(view.eye_m.xy() + away, view.eye_m.z),
                                light::luminaireFromSite(0, 90), photometry, 1});
        light::Lamp lamp;
        lamp.at_m = view.eye_m + Vec3{0.05, 0, 0};
        lamp.axis = view.view_from_site.row[2];
        lamp.half_beam_rad = degToRad(40);
        lamp.range_m = 20;
        PhotoOptions options;
        options.lighting = plausibleLighting(0.1);
        for (const light::Luminaire& luminaire : luminaires)
          options.lights.push_back({luminaire.at_m, scene::Band::light, &luminaire, nullptr, 0});
        options.lights.push_back({lamp.at_m, scene::Band::infrared, nullptr, &lamp, 0.1});
        options.mono = true;
        options.aperture_m = 0.0012;
        Sensor sensor;
        sensor.needed_lux = 0.1;
        sensor.mono = true;
        Photo photo = photograph(subject, coats, view, options, {});
        const Exposed exposed = exposeFor(photo, sensor);
        addNoise(photo, sensor);
        develop(photo, exposed.exposure);
      }
      night_ms.push_back(cpuMs() - start);
    }
    const double n = static_cast<double>(views.size());
    fmt::print("{}, by night: {:.0f} ms a picture, ratio to the flat one {:.1f}\n", what,
               median(night_ms) / n, median(night_ms) / median(flat_ms));
  };
  Box3 box;
  for (const scene::Body& body : scene.bodies) box.add(body.box);
  constexpr double kRoomM = 5;  // of make_large_site.py
  for (const auto& [name, lens] : lenses) {
    std::vector<View> corners;
    for (int room = 0; room < 5; ++room)
      corners.push_back(lookFrom({room * kRoomM + 0.4, room % 3 * kRoomM + 0.4, 3}, 45, 35, lens));
    time(name, corners);
    if (name == lenses.front().first) timeByNight(name, corners);
  }
  time("from outside", {viewOf(framing(box, 30, 35, 35, kSize), kSize)});
  return 0;
}
