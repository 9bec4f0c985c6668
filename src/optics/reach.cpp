// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/reach.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/units.h"
#include "optics/density.h"

namespace belvedere::optics {
namespace {

constexpr double kQuarter = kPi / 2;

// The depressions of the picture's upper and lower edge at the middle column, radians.
struct Edges {
  double upper, lower;
};
Edges edgesOf(const Lookout& lookout) {
  const double x = 0.5 * lookout.pixels[0], tilt = degToRad(lookout.tilt_deg);
  const auto below = [&](double y, double beyond) {
    const auto dir = unproject(lookout.lens, {x, y});
    return dir ? std::atan2(dir->y, dir->z) : beyond;  // the picture's circle ends inside the frame
  };
  const double largest = largestAngleRad(lookout.lens);
  return {tilt + below(0, -largest), tilt + below(lookout.pixels[1], largest)};
}

std::optional<SeenStretch> stretch(Edges edges, double drop_m) {
  if (drop_m < 0) return stretch({-edges.lower, -edges.upper}, -drop_m);
  if (edges.lower <= 0 || edges.upper >= kQuarter) {
    const bool on_horizon = drop_m == 0 && edges.lower == 0;
    if (!on_horizon) return std::nullopt;
  }
  SeenStretch seen;
  if (drop_m == 0) return edges.upper <= 0 ? std::optional(seen) : std::nullopt;
  if (edges.lower < kQuarter) seen.from_m = drop_m / std::tan(edges.lower);
  if (edges.upper > 0) seen.to_m = drop_m / std::tan(edges.upper);
  return seen;
}

Mat3 rotationOf(const Lookout& lookout) {
  const double t = degToRad(lookout.tilt_deg);
  return {{Vec3{1, 0, 0}, Vec3{0, -std::sin(t), -std::cos(t)}, Vec3{0, std::cos(t), -std::sin(t)}}};
}

}  // namespace

std::optional<SeenStretch> inFrame(const Lookout& lookout, double target_height_m) {
  return stretch(edgesOf(lookout), lookout.height_m - target_height_m);
}

std::optional<SeenStretch> inFrame(const Lookout& lookout, std::array<double, 2> band_m) {
  // A height's depression changes evenly from one end of the band to the other: the ends decide.
  const auto low = inFrame(lookout, band_m[0]), high = inFrame(lookout, band_m[1]);
  if (!low || !high) return std::nullopt;
  SeenStretch both{std::max(low->from_m, high->from_m), low->to_m};
  if (high->to_m && (!both.to_m || *high->to_m < *both.to_m)) both.to_m = high->to_m;
  if (both.to_m && *both.to_m < both.from_m) return std::nullopt;
  return both;
}

std::optional<SeenStretch> denseInFrame(const Lookout& lookout, std::array<double, 2> band_m,
                                        double px_per_m) {
  const auto frame = inFrame(lookout, band_m);
  if (!frame) return std::nullopt;
  const Mat3 rotation = rotationOf(lookout);
  const auto dense = [&](double distance_m) {
    for (int i = 0; i < kBandSteps; ++i) {
      const double height = band_m[0] + (band_m[1] - band_m[0]) * i / (kBandSteps - 1);
      const auto density =
          densityAt(lookout.lens, rotation, {0, 0, lookout.height_m}, {0, distance_m, height});
      if (!density || density->across_px_per_m < px_per_m) return false;
    }
    return true;
  };
  // Far enough out nothing is dense any more.
  double far = frame->to_m.value_or(std::max(1.0, 2 * frame->from_m));
  if (!frame->to_m)
    while (dense(far) && far < 1e9) far *= 2;
  // Steps that grow with the distance find the farthest dense place, bisection its ends.
  constexpr int kSteps = 2000;
  const double near = frame->from_m, first = std::max(near, 1e-3 * std::min(1.0, far));
  std::vector<double> steps{near};
  for (int i = 0; i <= kSteps; ++i)
    steps.push_back(first * std::pow(std::max(1.0, far / first), static_cast<double>(i) / kSteps));
  steps.back() = far;
  std::size_t last = steps.size();
  while (last > 0 && !dense(steps[last - 1])) --last;
  if (last == 0) return std::nullopt;
  --last;
  std::size_t start = last;
  while (start > 0 && dense(steps[start - 1])) --start;
  const auto edge = [&](double yes, double no) {
    while (std::abs(yes - no) > 0.1 * kStretchErrorM) {
      const double mid = 0.5 * (yes + no);
      if (mid == yes || mid == no) break;
      (dense(mid) ? yes : no) = mid;
    }
    return yes;
  };
  SeenStretch found;
  found.from_m = start == 0 ? steps[0] : edge(steps[start], steps[start - 1]);
  found.to_m = last + 1 == steps.size() ? steps[last] : edge(steps[last], steps[last + 1]);
  return found;
}

std::optional<double> axisToFloorM(const Lookout& lookout) {
  if (!(lookout.tilt_deg > 0)) return std::nullopt;
  return lookout.height_m / std::sin(degToRad(lookout.tilt_deg));
}

}  // namespace belvedere::optics
