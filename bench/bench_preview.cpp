// SPDX-License-Identifier: GPL-3.0-or-later
//
// Previews against raw rays, on designs that scripts/make_large_site.py writes:
//
//   bench_preview FOLDER [ROUNDS]      FOLDER holds design.json
//
// (a) Every room of the first storey previewed: projection, frame test, density and bookkeeping
//     included, over Embree's 8-wide occlusion on the identical segments (those that the preview
//     traces), in a scene of the same triangles with the same flags; direction set-up and reading
//     the answer are timed too. With one imager in a corner of each room, which has nearly all of
//     it in its frame, and with the design's own heads of several imagers.
// (b) One imager moved: its room and its storey previewed again, and proven again.
// One thread and processor time unless said otherwise, turn about, medians.
#include <embree3/rtcore.h>
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <functional>

#include "base/units.h"
#include "design/read.h"
#include "optics/density.h"
#include "proof/preview.h"
#include "proof/prove.h"
#include "scene/bodies.h"

using namespace belvedere;
using namespace belvedere::proof;

namespace {

constexpr double kRoomM = 5, kWallM = 0.1;  // of make_large_site.py

double cpuMs() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
}
double wallMs() {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch())
      .count();
}
double median(std::vector<double> v) {
  std::sort(v.begin(), v.end());
  return v[v.size() / 2];
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

  // One lens to many targets.
  std::size_t passing(const Vec3& lens, const std::vector<Vec3>& targets) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    alignas(32) int valid[8];
    alignas(32) RTCRay8 ray;
    std::size_t passed = 0;
    const Vec3 from = lens - origin;
    for (std::size_t at = 0; at < targets.size(); at += 8) {
      for (std::size_t k = 0; k < 8; ++k) {
        const Vec3& to = targets[std::min(at + k, targets.size() - 1)];
        valid[k] = at + k < targets.size() ? -1 : 0;
        ray.org_x[k] = static_cast<float>(from.x);
        ray.org_y[k] = static_cast<float>(from.y);
        ray.org_z[k] = static_cast<float>(from.z);
        ray.dir_x[k] = static_cast<float>(to.x - lens.x);
        ray.dir_y[k] = static_cast<float>(to.y - lens.y);
        ray.dir_z[k] = static_cast<float>(to.z - lens.z);
        ray.tnear[k] = 0;
        ray.tfar[k] = 1;
        ray.time[k] = 0;
        ray.mask[k] = 0xffffffffu;
        ray.flags[k] = 0;
      }
      rtcOccluded8(valid, scene, &context, &ray);
      for (std::size_t k = 0; k < 8; ++k) passed += valid[k] != 0 && ray.tfar[k] > 0 ? 1 : 0;
    }
    return passed;
  }
};

struct Fan {
  Vec3 lens;
  std::vector<Vec3> targets;
};

// The segments that a preview of the question traces for some of its views: heights by turns, each
// at the points that still have enough of them; neighbours together, in squares of 4 x 4 points.
// `all`: at all points that pass frame and density, as whoever does not look at the answers must.
std::vector<Fan> segmentsOf(const Question& q, const std::vector<std::size_t>& of_views,
                            const SpotMap& map, const scene::RayCaster& caster, bool all) {
  const int heights = sampledHeights(q.requirement->target);
  std::vector<Vec2> spots;
  constexpr int kPatch = 32, kTile = 4;
  std::vector<std::size_t> patch_ends;
  for (int pr = 0; pr < map.rows; pr += kPatch)
    for (int pc = 0; pc < map.columns; pc += kPatch) {
      for (int tr = pr; tr < std::min(pr + kPatch, map.rows); tr += kTile)
        for (int tc = pc; tc < std::min(pc + kPatch, map.columns); tc += kTile)
          for (int r = tr; r < std::min(tr + kTile, map.rows); ++r)
            for (int c = tc; c < std::min(tc + kTile, map.columns); ++c)
              if (map.at(c, r).inside) spots.push_back(map.centre(c, r));
      patch_ends.push_back(spots.size());
    }
  std::vector<Fan> fans;
  for (const std::size_t v : of_views) {
    const design::PosedImager& view = q.views[v];
    fans.push_back({view.lens_m, {}});
    std::size_t first = 0;
    for (const std::size_t end : patch_ends) {
      std::vector<Vec2> left;
      const auto target = [&](Vec2 p, int h) {
        return withZ(p, q.floor.at(p) + q.low_m + (q.high_m - q.low_m) * h / (heights - 1));
      };
      for (std::size_t i = first; i < end; ++i) {
        bool passes = true;
        for (int h = 0; h < heights && passes; ++h) {
          const auto d = optics::densityAt(view.lens, view.imager_from_site, view.lens_m,
                                           target(spots[i], h), {view.scale_x, view.scale_y});
          passes = d && d->at_px.x >= view.frame_low_px.x && d->at_px.x <= view.frame_high_px.x &&
                d->at_px.y >= view.frame_low_px.y && d->at_px.y <= view.frame_high_px.y &&
                d->across_px_per_m >= q.needed_px_per_m;
        }
        if (passes) left.push_back(spots[i]);
      }
      first = end;
      for (int h = 0; h < heights && !left.empty(); ++h) {
        std::vector<Vec3> targets;
        for (const Vec2 p : left) targets.push_back(target(p, h));
        std::vector<std::uint8_t> hidden(targets.size());
        caster.hiddenFrom(view.lens_m, targets, q.blocking, scene::Band::light, hidden);
        fans.back().targets.insert(fans.back().targets.end(), targets.begin(), targets.end());
        std::size_t n = 0;
        for (std::size_t i = 0; i < left.size(); ++i)
          if (all || !hidden[i]) left[n++] = left[i];
        left.resize(n);
      }
    }
  }
  return fans;
}

struct Site {
  design::Design design;
  std::shared_ptr<const PreviewPlace> place;
  Question storey;  // the first requirement's

  explicit Site(const std::filesystem::path& folder) {
    design = design::readDesign(folder / "design.json").design;
    const design::Situation situation = design::situationsOf(design).front();
    double start = cpuMs();
    const auto built = makePlace(design, situation, folder);
    fmt::print("place {:.0f} ms", cpuMs() - start);
    start = cpuMs();
    place = std::make_shared<PreviewPlace>(built);
    fmt::print(", rays made ready {:.0f} ms\n", cpuMs() - start);
    storey = makeQuestion(design, design.brief.front(), situation, built);
  }
  // The question of a room of the first storey alone, clear of its walls.
  Question room(int column, int row) const {
    Question q = storey;
    const double x = column * kRoomM + kWallM, y = row * kRoomM + kWallM;
    const double size = kRoomM - 2 * kWallM;
    q.region = intersectionOf(storey.region,
                              {{Ring{{x, y}, {x + size, y}, {x + size, y + size}, {x, y + size}}, {}}});
    q.region_m2 = area(q.region);
    return q;
  }
};

design::PosedImager cornerView(int column, int row) {
  design::PosedImager view;
  view.imager = view.name = fmt::format("corner {} {}", column, row);
  view.lens_m = {column * kRoomM + 0.15, row * kRoomM + 0.15, 3.0};
  view.imager_from_site = design::imagerFromSite(45, 35, 0);
  view.pixels = {2592, 1944};
  view.lens = optics::RadialLens{1296 / std::tan(degToRad(50)), 1, {1296, 972}};
  view.frame_high_px = {2592, 1944};
  return view;
}

// (a): rooms and their views, looked at from two aims by turns so that every imager has moved.
void rates(const Site& site, const Raw& raw, bool corner, double spacing_m, int rounds) {
  struct Room {
    std::array<Question, 2> q;
    std::array<std::vector<Fan>, 2> fans, all_fans;
    std::unique_ptr<Previewer> previewer;
  };
  std::vector<Room> rooms;
  std::size_t points = 0, asks = 0, traced = 0, segments = 0, all_segments = 0;
  const PreviewOptions options{0, spacing_m};
  for (int row = 0; row < 5; ++row)
    for (int column = 0; column < 8; ++column) {
      Room room;
      const Question of_room = site.room(column, row);
      for (std::size_t aim = 0; aim < 2; ++aim) {
        Question& q = room.q[aim] = of_room;
        std::vector<design::PosedImager> views;
        if (corner) {
          q.needed_px_per_m = 62.5;
          views.push_back(cornerView(column, row));
        } else {
          const Vec3 middle{(column + 0.5) * kRoomM, (row + 0.5) * kRoomM, 3};
          for (const design::PosedImager& v : site.storey.views)
            if (norm(v.lens_m - middle) < kRoomM / 2) views.push_back(v);
        }
        const Mat3 turned = transposed(design::imagerFromSite(aim ? 0.5 : 0, 0, 0)) *
                            design::imagerFromSite(0, 0, 0);
        for (design::PosedImager& v : views) v.imager_from_site = v.imager_from_site * turned;
        replaceViews(q, views);
      }
      if (room.q[0].views.empty()) continue;
      room.previewer = std::make_unique<Previewer>(site.place);
      for (const std::size_t aim : {1, 0}) {
        const Preview look = room.previewer->look(room.q[aim], options, {});
        std::vector<std::size_t> all(room.q[aim].views.size());
        for (std::size_t v = 0; v < all.size(); ++v) all[v] = v;
        room.fans[aim] = segmentsOf(room.q[aim], all, look.map, site.place->caster(), false);
        room.all_fans[aim] = segmentsOf(room.q[aim], all, look.map, site.place->caster(), true);
        points += look.points;
        asks += look.points * all.size();
        traced += look.rays;
        for (const Fan& fan : room.fans[aim]) segments += fan.targets.size();
        for (const Fan& fan : room.all_fans[aim]) all_segments += fan.targets.size();
      }
      rooms.push_back(std::move(room));
    }
  tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  std::vector<double> raw_ms, all_ms, caster_ms, preview_ms, fresh_ms;
  std::vector<std::uint8_t> hidden;
  for (int round = 0; round < rounds; ++round) {
    for (const std::size_t aim : {1, 0}) {
      double start = cpuMs();
      for (const Room& room : rooms)
        for (const Fan& fan : room.fans[aim]) raw.passing(fan.lens, fan.targets);
      raw_ms.push_back(cpuMs() - start);
      start = cpuMs();
      for (const Room& room : rooms)
        for (const Fan& fan : room.all_fans[aim]) raw.passing(fan.lens, fan.targets);
      all_ms.push_back(cpuMs() - start);
      start = cpuMs();
      for (Room& room : rooms) room.previewer->look(room.q[aim], options, {});
      preview_ms.push_back(cpuMs() - start);
      start = cpuMs();
      for (const Room& room : rooms)
        for (const Fan& fan : room.fans[aim]) {
          hidden.resize(fan.targets.size());
          site.place->caster().hiddenFrom(fan.lens, fan.targets, scene::Blocking::see,
                                          scene::Band::light, hidden);
        }
      caster_ms.push_back(cpuMs() - start);
      start = cpuMs();
      for (Room& room : rooms) Previewer(site.place).look(room.q[aim], options, {});
      fresh_ms.push_back(cpuMs() - start);
    }
  }
  const double n = static_cast<double>(segments) / 2;
  fmt::print("{}: {} rooms, lattice {} m, {} points, {} asked of imagers, {} segments (preview "
             "traced {})\n",
             corner ? "one imager in a corner" : "heads of several imagers", rooms.size(), spacing_m,
             points / 2, asks / 2, segments / 2, traced / 2);
  const auto rate = [&](const std::vector<double>& ms) { return n / median(ms) / 1e3; };
  fmt::print("  raw 8-wide {:.2f} ms ({:.1f} M/s); our rays alone {:.2f} ms; preview {:.2f} ms ({:.1f} "
             "M/s); first look {:.2f} ms\n",
             median(raw_ms), rate(raw_ms), median(caster_ms), median(preview_ms), rate(preview_ms),
             median(fresh_ms));
  fmt::print("  ratio preview / raw: {:.2f}; our rays alone {:.2f}; first look, lattice made too: "
             "{:.2f}\n",
             median(raw_ms) / median(preview_ms), median(raw_ms) / median(caster_ms),
             median(raw_ms) / median(fresh_ms));
  fmt::print("  raw over all {} segments that pass frame and density, hidden at another height or "
             "not: {:.2f} ms, ratio {:.2f}\n",
             all_segments / 2, median(all_ms), median(all_ms) / median(preview_ms));
}

// (b): the imager of the housing nearest to the middle of the storey turned by degrees.
void drag(const Site& site, const Raw& raw, int rounds) {
  const design::JudgedOn judged_on = site.storey.requirement->judged_on;
  const Vec3 middle{3.5 * kRoomM, 2.5 * kRoomM, 3};
  const auto nearest = std::min_element(
      site.storey.views.begin(), site.storey.views.end(), [&](const auto& a, const auto& b) {
        return norm(a.lens_m - middle) < norm(b.lens_m - middle);
      });
  design::Housing housing = *design::findHousing(site.design, nearest->housing);
  const auto first = static_cast<std::size_t>(
      std::find_if(site.storey.views.begin(), site.storey.views.end(),
                   [&](const auto& v) { return v.housing == housing.id; }) - site.storey.views.begin());
  const int column = static_cast<int>(nearest->lens_m.x / kRoomM), row = static_cast<int>(nearest->lens_m.y / kRoomM);
  std::vector<design::PosedImager> views = site.storey.views;
  const auto move = [&](Question& q) {
    housing.imagers.front().aims.front().pan_deg += 1;
    const auto posed = design::posedImagersOf(site.design, housing, judged_on);
    std::copy(posed.begin(), posed.end(), views.begin() + static_cast<std::ptrdiff_t>(first));
    replaceViews(q, views);
  };
  const auto run = [&](const char* what, Question q, double spacing_m, double budget_ms) {
    Previewer previewer(site.place);
    const PreviewOptions options{budget_ms, spacing_m};
    double start = wallMs();
    Preview look = previewer.look(q, options, {});
    fmt::print("{}: lattice {} m, {} points; first look {:.1f} ms wall, {} rays, share {:.3f}\n", what,
               spacing_m, look.points, wallMs() - start, look.rays, look.share);
    std::vector<double> two_ms, one_ms, raw_ms, proof_ms, budget_look_ms, budget_m;
    ProveOptions prove;
    for (int round = 0; round < rounds; ++round) {
      start = wallMs();
      move(q);
      look = previewer.look(q, options, {});
      two_ms.push_back(wallMs() - start);
      {
        tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
        start = cpuMs();
        move(q);
        look = previewer.look(q, options, {});
        one_ms.push_back(cpuMs() - start);
        const auto fans = segmentsOf(q, {first}, look.map, site.place->caster(), false);
        start = cpuMs();
        for (const Fan& fan : fans) raw.passing(fan.lens, fan.targets);
        raw_ms.push_back(cpuMs() - start);
        if (round % 3 == 0) {
          start = cpuMs();
          proveShare(q, q.requirement->share, prove, {});
          proof_ms.push_back(cpuMs() - start);
        }
      }
    }
    fmt::print("  one imager moved: {:.2f} ms wall on all threads; one thread {:.2f} ms, {} rays, raw "
               "8-wide {:.2f} ms, ratio {:.1f}; proven again {:.0f} ms, {:.0f} of the preview\n",
               median(two_ms), median(one_ms), look.rays, median(raw_ms), median(one_ms) / median(raw_ms),
               median(proof_ms), median(proof_ms) / median(one_ms));
    Previewer timed(site.place);
    timed.look(q, {100, {}}, {});
    for (int round = 0; round < 3 * rounds; ++round) {
      move(q);
      look = timed.look(q, {budget_ms, {}}, {});
      budget_look_ms.push_back(look.used_ms);
      budget_m.push_back(look.spacing_m);
    }
    fmt::print("  given {} ms while dragging: used {:.1f} (median; worst {:.1f}), lattice {} m\n", budget_ms,
               median(budget_look_ms), *std::max_element(budget_look_ms.begin(), budget_look_ms.end()),
               median(budget_m));
  };
  run("its room", site.room(column, row), 0.05, 16);
  run("its storey", site.storey, 0.1, 100);
}

}  // namespace

int main(int argument_count, char** arguments) {
  if (argument_count < 2) {
    fmt::print(stderr, "bench_preview FOLDER [ROUNDS]\n");
    return 2;
  }
  const int rounds = argument_count > 2 ? std::atoi(arguments[2]) : 9;
  const Site site{arguments[1]};
  const Raw raw(site.place->place()->scene);
  fmt::print("{}: {} bodies, {} triangles, {} views; one thread, processor time, median of {} rounds, "
             "turn about\n",
             arguments[1], site.place->place()->scene.bodies.size(), raw.triangles,
             site.storey.views.size(), rounds);
  rates(site, raw, true, 0.05, rounds);
  rates(site, raw, false, 0.05, rounds);
  drag(site, raw, rounds);
  return 0;
}
