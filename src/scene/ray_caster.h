// SPDX-License-Identifier: GPL-3.0-or-later
//
// Many sightlines at once, in single precision: for previews, pictures and ordering a proof's work.
// What decides is sightline.h and shaft.h; whoever shows an answer of this one says that it is a
// preview.
//
// Embree traces packets of sixteen neighbours in the order given, so keep segments that run
// together (one lens, targets tile by tile: three to four times as fast as in random order).
// Coordinates go in as doubles and are traced about the scene's own middle, in robust mode, from
// both sides. A hit near a triangle's edge (kEdgeShare) or near an end of its segment (kEndShare,
// kEndM) is judged by hides() of sightline.h on the body that was hit: targets on a wall's face, a
// lens just off a wall and grazing lines along seams are answered as the proof answers them.
// Not promised: that a line aimed exactly at an edge where two bodies only touch is stopped; that a
// segment with both ends inside one body is hidden (it crosses no surface).
// The same segments give the same answers whatever the number of threads.
//
// For pictures, nearest() tells what sixteen rays from one eye hit first.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>

#include "scene/body_tree.h"
#include "scene/sightline.h"

namespace belvedere::scene {

inline constexpr double kEdgeShare = 1e-4;  // of a triangle's height over that edge
inline constexpr double kEndShare = 1e-5;   // of a segment's length
inline constexpr double kEndM = 1e-4;

struct Segment {
  Vec3 from, to;
};

// Sixteen rays from one eye. Neighbours in the picture are several times as fast as strangers.
inline constexpr std::size_t kPacketRays = 16;
struct alignas(64) RayPacket {
  std::array<float, kPacketRays> x{}, y{}, z{};         // unit directions, site
  std::array<float, kPacketRays> near_m{}, far_m{};     // hits count between these
  std::array<std::int32_t, kPacketRays> traced{};       // -1: yes, 0: no
};
inline constexpr std::uint32_t kNoTriangle = 0xffffffffu;
struct alignas(64) HitPacket {
  std::array<float, kPacketRays> distance_m;            // far_m where nothing is hit
  std::array<std::uint32_t, kPacketRays> triangle;      // kNoTriangle there, and where not traced
  // 1 where the ray leaves a body: it began inside it, or on its surface.
  std::array<std::int32_t, kPacketRays> leaves;
};
// What a triangle belongs to.
struct TriangleOrigin {
  std::uint32_t body = 0;
  std::uint32_t plane = 0;  // index into the scene's planes; kNoPlane for a body that is a triangle
};
inline constexpr std::uint32_t kNoPlane = 0xffffffffu;

// Which bodies a ray stops at: all, or those that let no light through. To see through windows and
// foliage, ask for `opaque`, then for `all` up to there, again and again from just behind each hit.
enum class StopsAt { all, opaque };

class RayCaster {
 public:
  // Keeps a reference: the scene outlives its caster. An empty scene hides nothing.
  explicit RayCaster(const Scene& scene);
  ~RayCaster();
  RayCaster(RayCaster&&) noexcept;
  RayCaster& operator=(RayCaster&&) noexcept;

  // hidden[i] is set to 1 when a body blocks segment i, else to 0; sizes are equal. What lets a
  // share of the band through blocks or not as `blocking` says (body_tree.h). A segment of no
  // length is never hidden; one with a coordinate that is not finite always is.
  void hidden(std::span<const Segment> segments, Blocking blocking, Band band,
              std::span<std::uint8_t> hidden) const;
  // The same for the segments from one lens to many targets.
  void hiddenFrom(const Vec3& lens, std::span<const Vec3> targets, Blocking blocking, Band band,
                  std::span<std::uint8_t> hidden) const;

  // What each ray hits first. Distances are right to the rounding of single precision at the size
  // of the scene, over the sine of the angle at which the face is met.
  void nearest(const Vec3& eye, const RayPacket& rays, StopsAt stops, HitPacket& hits) const;
  std::uint32_t triangleCount() const;
  TriangleOrigin triangle(std::uint32_t index) const;

  const Scene& scene() const;

 private:
  struct Traced;
  std::unique_ptr<Traced> traced_;
};

}  // namespace belvedere::scene
