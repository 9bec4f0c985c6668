// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/ray_caster.h"

#include <embree3/rtcore.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "base/any_width.h"
#include "base/check.h"
#include "scene/bodies.h"

namespace belvedere::scene {
namespace {

constexpr std::size_t kLanes = 16;
constexpr std::size_t kGrain = 2048;  // segments a task takes at a time
constexpr float kMostLengthM = 1e15f;
constexpr float kNeighbours = 0.9f;  // cosine between the first and the last of sixteen rays of a picture
constexpr float kPlainEnd = 0.02f;  // hits farther than this from both ends need no closer look
// Corners of a face that an imported body has not quite in its plane.
constexpr double kOnFaceM = 1.5e-6;

// Bits of a geometry's mask: which of the four questions its bodies block.
unsigned maskBit(Blocking blocking, Band band) {
  return 1u << ((band == Band::light ? 0 : 2) + (blocking == Blocking::see ? 0 : 1));
}
unsigned maskOf(const Source& source) {
  unsigned mask = 0;
  if (source.light < 1) mask |= maskBit(Blocking::see, Band::light);
  if (source.light <= 0) mask |= maskBit(Blocking::withhold, Band::light);
  if (source.infrared < 1) mask |= maskBit(Blocking::see, Band::infrared);
  if (source.infrared <= 0) mask |= maskBit(Blocking::withhold, Band::infrared);
  return mask;
}

// Bodies of one mask, triangulated.
struct Group {
  std::vector<std::array<float, 3>> points;
  std::vector<std::array<unsigned, 3>> triangles;
  std::vector<TriangleOrigin> origin_of;  // of each triangle
  std::uint32_t first = 0;                // index of the first among all groups' triangles
};

// The segments of a call: any, or a fan from one lens. operator[] gives one in doubles.
struct AnySegments {
  static constexpr bool kFan = false;
  const Segment* segments;
  Segment operator[](std::size_t i) const { return segments[i]; }
};
struct Fan {
  static constexpr bool kFan = true;
  Vec3 lens;
  const Vec3* targets;
  Segment operator[](std::size_t i) const { return {lens, targets[i]}; }
};

struct Packet : RTCIntersectContext {
  const Scene* scene = nullptr;
  double rounding_m = 0;  // of a coordinate in single precision
  bool long_ones = false;  // ends of every lane's segment make less than kPlainEnd of it
  const AnySegments* any = nullptr;
  const Fan* fan = nullptr;
  std::size_t first = 0;  // segment of lane 0
  Segment segment(unsigned lane) const { return any ? (*any)[first + lane] : (*fan)[first + lane]; }
};

// Whether any hit of a packet is near an edge of its triangle or an end of its segment.
BELVEDERE_ANY_WIDTH
int closeCalls(const int* valid, const float* u, const float* v, const float* t, unsigned n,
               float plain_end) {
  int close = 0;
  for (unsigned i = 0; i < n; ++i) {
    const float edge = static_cast<float>(kEdgeShare);
    const bool plain = (u[i] > edge) & (v[i] > edge) & (1 - u[i] - v[i] > edge) &
                       (t[i] > plain_end) & (t[i] < 1 - plain_end);
    close |= plain ? 0 : valid[i];
  }
  return close;
}

// Directions of a whole packet from one lens; sum: of their parts' sizes.
BELVEDERE_ANY_WIDTH
void aim(const Vec3& lens, const Vec3* __restrict targets, float* __restrict x,
         float* __restrict y, float* __restrict z, float* __restrict sum) {
  for (std::size_t k = 0; k < kLanes; ++k) {
    x[k] = static_cast<float>(targets[k].x - lens.x);
    y[k] = static_cast<float>(targets[k].y - lens.y);
    z[k] = static_cast<float>(targets[k].z - lens.z);
    sum[k] = std::abs(x[k]) + std::abs(y[k]) + std::abs(z[k]);
  }
}

// Lets a hit stand where it is well inside triangle and segment; elsewhere asks the body itself.
void judgeHits(const RTCFilterFunctionNArguments* args) {
  const auto& packet = *static_cast<const Packet*>(args->context);
  const auto& group = *static_cast<const Group*>(args->geometryUserPtr);
  const unsigned n = args->N;
  const float plain_end = packet.long_ones ? kPlainEnd : 2;
  if (closeCalls(args->valid, &RTCHitN_u(args->hit, n, 0), &RTCHitN_v(args->hit, n, 0),
                 &RTCRayN_tfar(args->ray, n, 0), n, plain_end) == 0) [[likely]]
    return;
  for (unsigned i = 0; i < n; ++i) {
    if (args->valid[i] == 0) continue;
    const float u = RTCHitN_u(args->hit, n, i), v = RTCHitN_v(args->hit, n, i);
    const float hit_t = RTCRayN_tfar(args->ray, n, i);
    const bool inside = std::min(std::min(u, v), 1 - u - v) > static_cast<float>(kEdgeShare);
    if (inside && hit_t > plain_end && hit_t < 1 - plain_end) [[likely]]
      continue;
    const unsigned lane = RTCRayN_id(args->ray, n, i);
    const double t = static_cast<double>(hit_t);
    const auto [from, to] = packet.segment(lane);
    const double length = norm(to - from);
    const double end = kEndShare + (kEndM + packet.rounding_m) / length;
    if (inside && t > end && t < 1 - end) continue;
    const Body& body = packet.scene->bodies[group.origin_of[RTCHitN_primID(args->hit, n, i)].body];
    if (!hides(*packet.scene, body, from, to)) args->valid[i] = 0;
  }
}

// Rays from one place made ready for nearest().
BELVEDERE_ANY_WIDTH
void setOut(std::array<float, 3> from, const RayPacket& __restrict rays, unsigned mask,
            RTCRayHit16& __restrict out) {
  const auto all = [](auto& lanes, auto value) {
    for (std::size_t k = 0; k < kLanes; ++k) lanes[k] = value;
  };
  const auto copy = [](float* __restrict lanes, const std::array<float, kLanes>& of) {
    for (std::size_t k = 0; k < kLanes; ++k) lanes[k] = of[k];
  };
  all(out.ray.org_x, from[0]);
  all(out.ray.org_y, from[1]);
  all(out.ray.org_z, from[2]);
  copy(out.ray.tnear, rays.near_m);
  copy(out.ray.dir_x, rays.x);
  copy(out.ray.dir_y, rays.y);
  copy(out.ray.dir_z, rays.z);
  all(out.ray.time, 0.0f);
  copy(out.ray.tfar, rays.far_m);
  all(out.ray.mask, mask);
  all(out.ray.flags, 0u);
  all(out.hit.geomID, RTC_INVALID_GEOMETRY_ID);
  all(out.hit.Ng_x, 0.0f);
  all(out.hit.Ng_y, 0.0f);
  all(out.hit.Ng_z, 0.0f);
}

RTCDevice device() {
  static const RTCDevice one = rtcNewDevice(nullptr);
  BELVEDERE_CHECK(one != nullptr, "the ray tracing library starts");
  return one;
}

bool finite(const Vec3& p) {
  return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z);
}

}  // namespace

struct RayCaster::Traced {
  const Scene& scene;
  Vec3 origin;
  double rounding_m = 0;
  std::array<Group, 16> groups;  // by mask
  std::array<std::uint32_t, 16> first_of_geometry{};
  std::uint32_t triangle_count = 0;
  RTCScene rtc = nullptr;

  explicit Traced(const Scene& s) : scene(s) {}
  ~Traced() {
    if (rtc) rtcReleaseScene(rtc);
  }
  Traced(const Traced&) = delete;
  Traced& operator=(const Traced&) = delete;

  std::array<float, 3> local(const Vec3& p) const {
    const Vec3 d = p - origin;
    return {static_cast<float>(d.x), static_cast<float>(d.y), static_cast<float>(d.z)};
  }

  void triangulate() {
    Box3 box;
    for (const Body& body : scene.bodies) box.add(body.box);
    if (box.empty()) return;
    origin = (box.low + box.high) * 0.5;
    rounding_m = 0.5 * norm(box.high - box.low) * 2.4e-7;  // two units in the last place
    for (std::uint32_t b = 0; b < scene.bodies.size(); ++b) {
      const Body& body = scene.bodies[b];
      Group& group = groups[maskOf(scene.sources[body.source])];
      const auto first = static_cast<unsigned>(group.points.size());
      for (std::uint32_t v = 0; v < body.vertex_count; ++v)
        group.points.push_back(local(scene.vertices[body.first_vertex + v]));
      const auto add = [&](unsigned i, unsigned j, unsigned k, std::uint32_t plane) {
        group.triangles.push_back({first + i, first + j, first + k});
        group.origin_of.push_back({b, plane});
      };
      if (body.triangle()) {
        add(0, 1, 2, kNoPlane);
        continue;
      }
      for (std::uint32_t p = body.first_plane; p < body.first_plane + body.plane_count; ++p) {
        const auto ring = faceOf(scene, body, scene.planes[p], kOnFaceM);
        for (std::size_t i = 1; i + 1 < ring.size(); ++i)
          add(ring[0] - body.first_vertex, ring[i] - body.first_vertex,
              ring[i + 1] - body.first_vertex, p);
      }
    }
  }

  void commit() {
    rtc = rtcNewScene(device());
    rtcSetSceneFlags(rtc, RTC_SCENE_FLAG_ROBUST | RTC_SCENE_FLAG_CONTEXT_FILTER_FUNCTION);
    for (unsigned mask = 1; mask < groups.size(); ++mask) {
      Group& group = groups[mask];
      group.first = triangle_count;
      triangle_count += static_cast<std::uint32_t>(group.triangles.size());
      if (group.triangles.empty()) continue;
      const RTCGeometry geometry = rtcNewGeometry(device(), RTC_GEOMETRY_TYPE_TRIANGLE);
      group.points.push_back({0, 0, 0});  // Embree reads 16 bytes at the last point
      rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                 group.points.data(), 0, 12, group.points.size() - 1);
      rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                 group.triangles.data(), 0, 12, group.triangles.size());
      rtcSetGeometryMask(geometry, mask);
      rtcSetGeometryUserData(geometry, &group);
      rtcCommitGeometry(geometry);
      first_of_geometry[rtcAttachGeometry(rtc, geometry)] = group.first;
      rtcReleaseGeometry(geometry);
    }
    rtcCommitScene(rtc);
  }

  void nearest(const Vec3& eye, const RayPacket& rays, unsigned mask, HitPacket& hits) const {
    alignas(64) RTCRayHit16 rh;
    setOut(local(eye), rays, mask, rh);
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    // Strangers are faster one by one.
    constexpr std::size_t kEnd = kLanes - 1;
    const float together =
        rays.x[0] * rays.x[kEnd] + rays.y[0] * rays.y[kEnd] + rays.z[0] * rays.z[kEnd];
    context.flags = together > kNeighbours ? RTC_INTERSECT_CONTEXT_FLAG_COHERENT
                                        : RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT;
    if (rtc) rtcIntersect16(rays.traced.data(), rtc, &context, &rh);
    for (std::size_t k = 0; k < kLanes; ++k) {
      hits.distance_m[k] = rh.ray.tfar[k];
      const float along = rh.hit.Ng_x[k] * rays.x[k] + rh.hit.Ng_y[k] * rays.y[k] +
                          rh.hit.Ng_z[k] * rays.z[k];
      hits.leaves[k] = along > 0 ? 1 : 0;
    }
    for (std::size_t k = 0; k < kLanes; ++k)
      hits.triangle[k] = rh.hit.geomID[k] == RTC_INVALID_GEOMETRY_ID
                             ? kNoTriangle
                             : first_of_geometry[rh.hit.geomID[k]] + rh.hit.primID[k];
  }

  template <class Segments>
  void trace(std::size_t begin, std::size_t end, unsigned mask, const Segments& segments,
             std::uint8_t* hidden) const {
    Packet packet;
    rtcInitIntersectContext(&packet);
    packet.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    packet.filter = judgeHits;
    packet.scene = &scene;
    packet.rounding_m = rounding_m;
    if constexpr (Segments::kFan) packet.fan = &segments;
    else packet.any = &segments;
    alignas(64) RTCRay16 ray;
    alignas(64) std::array<int, kLanes> valid;
    alignas(64) std::array<float, kLanes> sums;
    for (std::size_t k = 0; k < kLanes; ++k) {
      ray.mask[k] = mask;
      ray.id[k] = static_cast<unsigned>(k);
      ray.time[k] = 0;
      ray.flags[k] = 0;
      ray.tnear[k] = 0;
    }
    const auto start = [&](std::size_t k, const Vec3& from) {
      const std::array<float, 3> o = local(from);
      ray.org_x[k] = o[0];
      ray.org_y[k] = o[1];
      ray.org_z[k] = o[2];
    };
    if constexpr (Segments::kFan)
      for (std::size_t k = 0; k < kLanes; ++k) start(k, segments.lens);
    for (std::size_t at = begin; at < end; at += kLanes) {
      const std::size_t count = std::min(kLanes, end - at);
      packet.first = at;
      // What lies just past the target may in truth lie just before it.
      for (std::size_t k = 0; k < kLanes; ++k) ray.tfar[k] = static_cast<float>(1 + kEndShare);
      bool aimed = false;
      if constexpr (Segments::kFan)
        if (count == kLanes) {
          aim(segments.lens, segments.targets + at, ray.dir_x, ray.dir_y, ray.dir_z, sums.data());
          aimed = true;
        }
      for (std::size_t k = 0; k < kLanes && !aimed; ++k) {
        const Segment s = segments[at + (k < count ? k : 0)];
        if constexpr (!Segments::kFan) start(k, s.from);
        ray.dir_x[k] = static_cast<float>(s.to.x - s.from.x);
        ray.dir_y[k] = static_cast<float>(s.to.y - s.from.y);
        ray.dir_z[k] = static_cast<float>(s.to.z - s.from.z);
        sums[k] = std::abs(ray.dir_x[k]) + std::abs(ray.dir_y[k]) + std::abs(ray.dir_z[k]);
      }
      bool all_usual = count == kLanes;
      float least = kMostLengthM;
      for (std::size_t k = 0; k < kLanes; ++k) {
        const float sum = sums[k];
        const bool usual = (sum > 0) & (sum < kMostLengthM) & (k < count);
        valid[k] = usual ? -1 : 0;
        all_usual = all_usual & usual;
        least = std::min(least, sum);
      }
      // A sum of three parts is at most twice a length.
      packet.long_ones = kPlainEnd * least > 2 * (kEndM + rounding_m) + 2 * kEndShare * least;
      rtcOccluded16(valid.data(), rtc, &packet, &ray);
      for (std::size_t k = 0; k < count; ++k) hidden[at + k] = ray.tfar[k] < 0 ? 1 : 0;
      if (all_usual) [[likely]]
        continue;
      for (std::size_t k = 0; k < count; ++k)
        if (valid[k] == 0) {
          const Segment s = segments[at + k];
          hidden[at + k] = finite(s.from) && finite(s.to) ? 0 : 1;
        }
    }
  }

  template <class Segments>
  void traceAll(std::size_t n, unsigned mask, const Segments& segments,
                std::uint8_t* hidden) const {
    if (!rtc) {
      std::fill(hidden, hidden + n, std::uint8_t{0});
      return;
    }
    if (n <= kGrain) {  // not worth sharing out
      trace(0, n, mask, segments, hidden);
      return;
    }
    // Packets begin at multiples of the grain, however the work is shared out.
    const std::size_t blocks = (n + kGrain - 1) / kGrain;
    tbb::parallel_for(std::size_t{0}, blocks, [&](std::size_t block) {
      trace(block * kGrain, std::min(n, (block + 1) * kGrain), mask, segments, hidden);
    });
  }
};

RayCaster::RayCaster(const Scene& scene) : traced_(std::make_unique<Traced>(scene)) {
  if (scene.bodies.empty()) return;
  traced_->triangulate();
  traced_->commit();
}
RayCaster::~RayCaster() = default;
RayCaster::RayCaster(RayCaster&&) noexcept = default;
RayCaster& RayCaster::operator=(RayCaster&&) noexcept = default;

void RayCaster::hidden(std::span<const Segment> segments, Blocking blocking, Band band,
                       std::span<std::uint8_t> hidden) const {
  BELVEDERE_CHECK(segments.size() == hidden.size(), "an answer for each segment");
  traced_->traceAll(segments.size(), maskBit(blocking, band),
                    AnySegments{segments.data()}, hidden.data());
}

void RayCaster::hiddenFrom(const Vec3& lens, std::span<const Vec3> targets, Blocking blocking,
                           Band band, std::span<std::uint8_t> hidden) const {
  BELVEDERE_CHECK(targets.size() == hidden.size(), "an answer for each target");
  traced_->traceAll(targets.size(), maskBit(blocking, band),
                    Fan{lens, targets.data()}, hidden.data());
}

void RayCaster::nearest(const Vec3& eye, const RayPacket& rays, StopsAt stops,
                        HitPacket& hits) const {
  traced_->nearest(eye, rays,
                   stops == StopsAt::all ? ~0u : maskBit(Blocking::withhold, Band::light), hits);
}
std::uint32_t RayCaster::triangleCount() const { return traced_->triangle_count; }
TriangleOrigin RayCaster::triangle(std::uint32_t index) const {
  for (std::size_t mask = 1; mask < traced_->groups.size(); ++mask)
    if (const Group& group = traced_->groups[mask]; index - group.first < group.origin_of.size())
      return group.origin_of[index - group.first];
  BELVEDERE_CHECK(false, "a triangle of this scene");
}
const Scene& RayCaster::scene() const { return traced_->scene; }

}  // namespace belvedere::scene
