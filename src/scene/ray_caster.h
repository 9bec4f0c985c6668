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
#pragma once

#include <cstdint>
#include <memory>
#include <span>

#include "scene/body_tree.h"
#include "scene/sightline.h"

namespace belvedere::scene {

inline constexpr double kEdgeShare = 1e-4;  // of a triangle's height over that edge
inline constexpr double kEndShare = 1e-5;   // of a segment's length
inline constexpr double kEndM = 1e-4;

enum class Band { light, infrared };

struct Segment {
  Vec3 from, to;
};

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

 private:
  struct Traced;
  std::unique_ptr<Traced> traced_;
};

}  // namespace belvedere::scene
