// SPDX-License-Identifier: GPL-3.0-or-later
//
// optics: from a direction to a place in the picture and back, and how dense the picture is
// there. Knows lenses and streams; knows nothing of sites, files or cameras on walls.
//
// Imager frame: x right, y down, z forward; pixel (0,0) is the outer edge of the top-left corner,
// so the picture spans [0,W] x [0,H]. Angles in radians inside, degrees where the name says so.
//
// To add a lens model: a struct here, an alternative of `Lens`, and the compiler names every
// visit that lacks it; then its bounds in lens_bounds.cpp, its words in docs/format.md, a typed
// test and a published check in tests/outside.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <variant>

#include "geometry/vec.h"

namespace belvedere::optics {

// The family of handbook 3: r = (F/k) tan(k theta) for k > 0, F theta for k = 0,
// (F/|k|) sin(|k| theta) for k < 0. k = 1 rectilinear, 1/2 stereographic, 0 equidistant,
// -1/2 equisolid, -1 orthographic. |k| below kEquidistantBelow counts as 0.
struct RadialLens {
  double f_px = 0;  // > 0, pixels per radian near the axis
  double k = 1;     // -1 to 1
  Vec2 centre_px;   // principal point
  bool operator==(const RadialLens&) const = default;
};
inline constexpr double kEquidistantBelow = 1e-9;

// Brown-Conrady, coefficients in the order k1 k2 p1 p2 k3, on x/z and y/z. Valid up to the angle
// at which the radial polynomial turns back (largestAngleRad).
struct BrownConradyLens {
  Vec2 f_px, centre_px;
  std::array<double, 5> coefficients{};
  double largest_angle_rad = 0;  // filled by makeBrownConrady
  bool operator==(const BrownConradyLens&) const = default;
};
BrownConradyLens makeBrownConrady(Vec2 f_px, Vec2 centre_px, std::array<double, 5> coefficients);

// Kannala-Brandt: r = theta + k1 theta^3 + k2 theta^5 + k3 theta^7 + k4 theta^9.
struct KannalaBrandtLens {
  Vec2 f_px, centre_px;
  std::array<double, 4> coefficients{};
  double largest_angle_rad = 0;  // filled by makeKannalaBrandt
  bool operator==(const KannalaBrandtLens&) const = default;
};
KannalaBrandtLens makeKannalaBrandt(Vec2 f_px, Vec2 centre_px, std::array<double, 4> coefficients);

using Lens = std::variant<RadialLens, BrownConradyLens, KannalaBrandtLens>;

// Largest angle from the axis that the model maps, radians: just under pi/2 for k = 1,
// at most pi.
double largestAngleRad(const Lens& lens);
// How far under the angle at which a radius grows without bound a model stops. Wider cuts off
// picture at a million focal lengths, narrower loses digits there; nobody looks so far out.
inline constexpr double kPoleGapRad = 1e-6;

// Where a direction (imager frame, length between 1e-100 and 1e100) lands in the picture plane,
// pixels; it may lie outside the picture. Nothing beyond largestAngleRad, nor straight behind:
// a normal answer. Within kProjectErrorPx of the exact value out to 20000 px.
std::optional<Vec2> project(const Lens& lens, const Vec3& dir_in_imager);
inline constexpr double kProjectErrorPx = 1e-9;

// The same for many directions at once, and several times as fast: out_px[i] is project of dirs[i],
// to the last bit, or two NaNs where that is nothing. Both spans have the same size.
void projectMany(const Lens& lens, std::span<const Vec3> dirs_in_imager, std::span<Vec2> out_px);

// The unit direction that lands at a place in the picture plane; the exact inverse of project
// (round trip within kProjectErrorPx). Nothing for a radius that no angle reaches.
std::optional<Vec3> unproject(const Lens& lens, const Vec2& p_px);

// The derivative of project at a *point* p (imager frame, metres): rows are the gradients of the
// picture's x and y, in pixels per metre.
struct Projected {
  Vec2 at_px;
  std::array<Vec3, 2> px_per_m;
};
std::optional<Projected> projectWithJacobian(const Lens& lens, const Vec3& p_in_imager);

}  // namespace belvedere::optics
