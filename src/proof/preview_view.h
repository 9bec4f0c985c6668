// SPDX-License-Identifier: GPL-3.0-or-later
//
// One imager's answers at a batch of points: the kernel of a preview.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "proof/judge.h"
#include "scene/ray_caster.h"

namespace belvedere::proof {

// How far a point came: the first test that it fails, or kServedRank; more is better, as in
// better() of judge.h.
using Rank = std::uint8_t;
inline constexpr Rank kServedRank = kReasonCount;
inline Reason reasonOf(Rank rank) {
  return rank == kServedRank ? Reason::served : static_cast<Reason>(rank);
}

// What all views are asked of a question, made ready.
struct PreviewTests {
  std::vector<double> heights_m;  // above the floor, as answerOf samples them; at most 8
  int heights_needed = 1;         // of them
  double needed_px_per_m = 0;
  struct Facing {
    Vec2 to;                      // unit, in which the target looks
    double yaw_cos = 0;
    double elevation_sin = 0, elevation_cos = 0;
  };
  std::vector<Facing> facings;
  bool every_facing = false;
  scene::Blocking blocking = scene::Blocking::see;
  // Ranks that are kept of a point: one for each facing where each must be served, else one.
  std::size_t kinds() const { return every_facing ? facings.size() : 1; }
};
PreviewTests testsOf(const Question& question);

// Points on the floor that lie together, and the sphere around them and their heights.
struct PreviewPatch {
  std::span<const Vec3> at_floor;
  Vec3 middle;
  double radius_m = 0;
};

// The cone that holds a view's frame: half its angle, radians; pi where it is not known.
double frameConeRad(const design::PosedImager& view);

struct PatchAnswer {
  std::vector<Rank> ranks;        // kinds() blocks, a rank for each point; empty: all out of frame
  std::vector<float> px_per_m;    // lowest over the heights judged, where a point is served or too
                                  // coarse, else 0
  std::size_t rays = 0;
};
// Answers of one view, merged into what another view of the same imager answered (point by point
// the better rank, then the denser).
void askView(const PreviewTests& tests, const design::PosedImager& view, double cone_rad,
             const PreviewPatch& patch, const scene::RayCaster& caster, PatchAnswer& answer);

}  // namespace belvedere::proof
