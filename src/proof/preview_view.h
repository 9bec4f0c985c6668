// SPDX-License-Identifier: GPL-3.0-or-later
//
// One imager's answers at a batch of points: the kernel of a preview.
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <span>
#include <vector>

#include "base/any_width.h"
#include "proof/judge.h"
#include "scene/ray_caster.h"

namespace belvedere::proof {

// How far an imager came at a point, as one number: greater is better, as in better() of judge.h.
// The first test that it fails (or that it serves) in the upper four bits; below them, where it
// serves or is too coarse, how dense its picture is, lowest over the heights judged: the upper bits
// of the density's square as a float, good to kDensityError of it.
using Came = std::uint32_t;
inline constexpr int kRankBits = 4;
inline constexpr double kDensityError = 1e-6;
constexpr Came cameTo(Reason reason, float px_per_m_squared = 0) {
  const auto rank = static_cast<Came>(reason == Reason::served ? kReasonCount : static_cast<int>(reason));
  return (rank << (32 - kRankBits)) | (std::bit_cast<Came>(px_per_m_squared) >> (kRankBits - 1));
}
inline constexpr Came kServedFrom = cameTo(Reason::served);  // and above
constexpr Reason reasonOf(Came came) {
  return came >= kServedFrom ? Reason::served : static_cast<Reason>(came >> (32 - kRankBits));
}
inline float pxPerM(Came came) {
  return std::sqrt(std::bit_cast<float>((came << kRankBits) >> 1));
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
  light::Solids solids;           // what throws shadows of lights
  // Answers that are kept of a point: one for each facing where each must be served, else one.
  std::size_t kinds() const { return every_facing ? facings.size() : 1; }
};
PreviewTests testsOf(const Question& question);

// Points on the floor that lie together, a coordinate at a time, and the sphere around them and
// their heights.
struct PreviewPatch {
  std::span<const double> x, y, z;
  Vec3 middle;
  double radius_m = 0;
};

// The cone that holds a view's frame: half its angle, radians; pi where it is not known.
double frameConeRad(const design::PosedImager& view);

struct PatchAnswer {
  std::vector<Came> came;  // kinds() blocks, one of each point; empty: all out of frame
  std::size_t rays = 0;
};
// Answers of one view, merged into what another view of the same imager answered: at each point the
// better.
void askView(const PreviewTests& tests, const design::PosedImager& view,
             const Conditions& conditions, double cone_rad, const PreviewPatch& patch,
             const scene::RayCaster& caster, PatchAnswer& answer);

}  // namespace belvedere::proof
