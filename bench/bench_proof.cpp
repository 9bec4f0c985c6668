// SPDX-License-Identifier: GPL-3.0-or-later
//
// Proof by boxes and shafts against raw rays: the time to a guaranteed share of a storey of 40
// rooms, all tests included, over the time that Embree's 8-wide occlusion takes for one ray to
// each cell of the lattice of the final cell (direction set-up and reading the answer timed too).
// Both on one thread, interleaved, medians. Then the proof on two threads over one.
#include <embree3/rtcore.h>
#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <random>

#include "../tests/proof/made_up.h"
#include "proof/prove.h"

using namespace belvedere;
using namespace belvedere::proof;

namespace {

constexpr int kColumns = 8, kRows = 5;
constexpr double kRoomM = 5, kWallM = 0.1, kHeightM = 3.2;

void box(scene::Scene& scene, double x0, double y0, double x1, double y1, double z0, double z1) {
  scene::addPrism(scene, rectangle(x0, y0, x1, y1), {z0, z0, z0, z0}, {z1, z1, z1, z1}, 0);
}

// Rooms with a door in every inner wall, and `boxes` pieces of furniture a room, up to `tallest`.
scene::Scene building(int boxes, double largest, double tallest, unsigned seed) {
  scene::Scene scene;
  scene.sources.push_back({"building", 0, 0});
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0, 1);
  const auto wall = [&](bool along_x, double at, double from, double to, bool door) {
    const double half = kWallM / 2;
    const auto piece = [&](double a, double b, double z0, double z1) {
      if (along_x) box(scene, a, at - half, b, at + half, z0, z1);
      else box(scene, at - half, a, at + half, b, z0, z1);
    };
    if (!door) {
      piece(from - half, to + half, -0.001, kHeightM + 0.001);
      return;
    }
    const double d = from + 1.0 + 2.0 * unit(random);
    piece(from - half, d, -0.001, kHeightM + 0.001);
    piece(d + 0.9, to + half, -0.001, kHeightM + 0.001);
    piece(d - 0.001, d + 0.901, 2.1, kHeightM + 0.001);
  };
  for (int i = 0; i <= kColumns; ++i)
    for (int j = 0; j < kRows; ++j)
      wall(false, i * kRoomM, j * kRoomM, (j + 1) * kRoomM, i > 0 && i < kColumns);
  for (int j = 0; j <= kRows; ++j)
    for (int i = 0; i < kColumns; ++i)
      wall(true, j * kRoomM, i * kRoomM, (i + 1) * kRoomM, j > 0 && j < kRows);
  box(scene, -0.2, -0.2, kColumns * kRoomM + 0.2, kRows * kRoomM + 0.2, -0.2, 0);
  box(scene, -0.2, -0.2, kColumns * kRoomM + 0.2, kRows * kRoomM + 0.2, kHeightM, kHeightM + 0.2);
  for (int i = 0; i < kColumns; ++i)
    for (int j = 0; j < kRows; ++j)
      for (int b = 0; b < boxes; ++b) {
        const double sx = largest * (0.3 + 0.7 * unit(random)), sy = largest * (0.3 + 0.7 * unit(random));
        const double x = i * kRoomM + 0.2 + (kRoomM - 0.4 - sx) * unit(random);
        const double y = j * kRoomM + 0.2 + (kRoomM - 0.4 - sy) * unit(random);
        box(scene, x, y, x + sx, y + sy, 0, tallest * (0.4 + 0.6 * unit(random)));
      }
  return scene;
}

double seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// Processor time of this process: what a busy machine does besides does not count.
double cpuSeconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

struct Spent {
  double wall_s = 0, cpu_s = 0;
};

double median(std::vector<double> v) {
  std::sort(v.begin(), v.end());
  return v[v.size() / 2];
}

struct Raw {
  RTCDevice device = rtcNewDevice(nullptr);
  RTCScene scene = rtcNewScene(device);
  std::size_t triangles = 0;

  explicit Raw(const scene::Scene& bodies) {
    std::vector<Vec3> vertices;
    std::vector<unsigned> indices;
    // Bodies here are axis-aligned boxes: twelve triangles each.
    constexpr unsigned kBox[36] = {0, 1, 3, 0, 3, 2, 4, 6, 7, 4, 7, 5, 0, 4, 5, 0, 5, 1,
                                   2, 3, 7, 2, 7, 6, 0, 2, 6, 0, 6, 4, 1, 5, 7, 1, 7, 3};
    for (const scene::Body& b : bodies.bodies) {
      const auto first = static_cast<unsigned>(vertices.size());
      for (unsigned i = 0; i < 8; ++i)
        vertices.push_back({i & 1 ? b.box.high.x : b.box.low.x, i & 2 ? b.box.high.y : b.box.low.y,
                            i & 4 ? b.box.high.z : b.box.low.z});
      for (const unsigned k : kBox) indices.push_back(first + k);
    }
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* v = static_cast<float*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 12, vertices.size()));
    for (const Vec3& p : vertices) {
      *v++ = static_cast<float>(p.x);
      *v++ = static_cast<float>(p.y);
      *v++ = static_cast<float>(p.z);
    }
    auto* t = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 12, indices.size() / 3));
    std::copy(indices.begin(), indices.end(), t);
    triangles = indices.size() / 3;
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
    rtcCommitScene(scene);
  }
  ~Raw() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }

  // One occlusion ray from each room's lens to each cell of the lattice, 4 x 2 tiles of rays.
  std::size_t rays(const std::vector<design::PosedImager>& views, double cell, double height) {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    alignas(32) int valid[8] = {-1, -1, -1, -1, -1, -1, -1, -1};
    const int n = static_cast<int>(std::lround(kRoomM / cell));
    std::size_t passed = 0;
    for (std::size_t room = 0; room < views.size(); ++room) {
      const Vec3 lens = views[room].lens_m;
      const double x0 = static_cast<double>(room % kColumns) * kRoomM;
      const double y0 = static_cast<double>(room / kColumns) * kRoomM;
      for (int j = 0; j + 1 < n; j += 2)
        for (int i = 0; i + 3 < n; i += 4) {
          RTCRay8 ray;
          for (int r = 0; r < 8; ++r) {
            ray.org_x[r] = static_cast<float>(lens.x);
            ray.org_y[r] = static_cast<float>(lens.y);
            ray.org_z[r] = static_cast<float>(lens.z);
            ray.dir_x[r] = static_cast<float>(x0 + (i + r % 4 + 0.5) * cell - lens.x);
            ray.dir_y[r] = static_cast<float>(y0 + (j + r / 4 + 0.5) * cell - lens.y);
            ray.dir_z[r] = static_cast<float>(height - lens.z);
            ray.tnear[r] = 0;
            ray.tfar[r] = 1;
            ray.mask[r] = 0xffffffffu;
            ray.flags[r] = 0;
            ray.time[r] = 0;
          }
          rtcOccluded8(valid, scene, &context, &ray);
          for (int r = 0; r < 8; ++r) passed += ray.tfar[r] > 0;
        }
    }
    return passed;
  }
};

// k: the lenses' (1: rectilinear).
void run(const char* name, scene::Scene bodies, double finest, double width, double k = 1) {
  std::vector<design::PosedImager> views;
  for (int j = 0; j < kRows; ++j)
    for (int i = 0; i < kColumns; ++i) {
      const std::string imager = fmt::format("C{}", j * kColumns + i + 1);
      views.push_back(posed(imager.c_str(), {i * kRoomM + 0.15, j * kRoomM + 0.15, 3.0}, 45, 35, 0,
                            {2592, 1944}, 100, k));
    }
  auto place = std::make_shared<Place>();
  Raw raw(bodies);
  place->scene = std::move(bodies);
  const double build_start = seconds();
  place->tree = scene::buildTree(place->scene);
  const double build_s = seconds() - build_start;
  std::vector<std::unique_ptr<MadeUp>> rooms;
  for (int j = 0; j < kRows; ++j)
    for (int i = 0; i < kColumns; ++i) {
      const double x = i * kRoomM + kWallM / 2, y = j * kRoomM + kWallM / 2;
      rooms.push_back(ask({{rectangle(x, y, x + kRoomM - kWallM, y + kRoomM - kWallM), {}}}, 1.45, 1.85,
                          62.5, views));
      rooms.back()->question.place = place;
    }
  ProveOptions options;
  options.finest_m = finest;
  options.width = width;
  const auto prove = [&](int threads, Bounds& share, std::size_t& boxes) {
    tbb::task_arena arena(threads);
    share = {};
    boxes = 0;
    const double start = seconds(), cpu_start = cpuSeconds();
    // Rooms side by side, as prove() has its requirements.
    std::vector<ShareProof> proofs(rooms.size());
    arena.execute([&] {
      tbb::parallel_for(std::size_t{0}, rooms.size(), [&](std::size_t i) {
        proofs[i] = proveShare(rooms[i]->question, 0.5, options, {});
      });
    });
    for (const ShareProof& p : proofs) {
      share.low += p.share.low / 40;
      share.high += p.share.high / 40;
      boxes += p.boxes;
    }
    return Spent{seconds() - start, cpuSeconds() - cpu_start};
  };
  std::vector<double> one, one_wall, two_wall, rays;
  Bounds share, share_two;
  std::size_t boxes = 0, passed = 0;
  for (int i = 0; i < 9; ++i) {
    const double start = cpuSeconds();
    passed = raw.rays(views, finest, 1.65);
    rays.push_back(cpuSeconds() - start);
    const Spent spent = prove(1, share, boxes);
    one.push_back(spent.cpu_s);
    one_wall.push_back(spent.wall_s);
    two_wall.push_back(prove(2, share_two, boxes).wall_s);
  }
  const auto cells = static_cast<double>(40) * std::pow(std::floor(kRoomM / finest), 2);
  fmt::print("{}: {} bodies, {} triangles, tree {:.1f} ms\n", name, place->scene.bodies.size(),
             raw.triangles, 1e3 * build_s);
  fmt::print("  proof: {:.3f} to {:.3f} % (width {:.3f} point), {} boxes, cell {} m\n",
             100 * share.low, 100 * share.high, 100 * (share.high - share.low), boxes, finest);
  fmt::print("  proof {:.2f} ms of processor time on one thread; raw 8-wide {:.2f} ms for {:.0f} cells, "
             "{} pass\n", 1e3 * median(one), 1e3 * median(rays), cells, passed);
  // By the clock, the best of each: means little while the machine does other work.
  const auto least = [](const std::vector<double>& v) { return *std::min_element(v.begin(), v.end()); };
  fmt::print("  by the clock {:.2f} ms on one thread, {:.2f} on two (x{:.2f}); same bounds: {}\n",
             1e3 * least(one_wall), 1e3 * least(two_wall), least(one_wall) / least(two_wall),
             share.low == share_two.low && share.high == share_two.high);
  fmt::print("  ratio proof / raw: {:.2f}\n", median(one) / median(rays));
}

}  // namespace

int main(int argc, char**) {
  run("ordinary building", building(30, 1.2, 1.4, 1), 0.04, 0.001);
  run("ordinary building, finer", building(30, 1.2, 1.4, 1), 0.02, 0.001);
  run("ordinary building, stereographic lenses", building(30, 1.2, 1.4, 1), 0.04, 0.001, 0.5);
  if (argc > 1) run("cluttered building", building(1060, 0.12, 2.2, 2), 0.02, 0.015);
}
