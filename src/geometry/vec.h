// SPDX-License-Identifier: GPL-3.0-or-later
//
// geometry: vectors, frames, intervals, polygons. Plain values and free functions, doubles.
//
// Site frame (handbook 2): metres, right-handed, x east on the drawing, y north, z up.
// Imager frame: x right, y down, z forward. A rotation named a_from_b takes b's coordinates to a's.
#pragma once

#include <array>
#include <cmath>

namespace belvedere {

struct Vec2 {
  double x = 0, y = 0;
  bool operator==(const Vec2&) const = default;
};
constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec2 operator-(Vec2 a) { return {-a.x, -a.y}; }
constexpr Vec2 operator*(Vec2 a, double s) { return {a.x * s, a.y * s}; }
constexpr Vec2 operator*(double s, Vec2 a) { return {a.x * s, a.y * s}; }
constexpr Vec2 operator/(Vec2 a, double s) { return {a.x / s, a.y / s}; }
constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
// z of the cross product: positive when b lies to the left of a.
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
inline double norm(Vec2 a) { return std::sqrt(dot(a, a)); }
// The vector turned a quarter to the left.
constexpr Vec2 perpLeft(Vec2 a) { return {-a.y, a.x}; }

struct Vec3 {
  double x = 0, y = 0, z = 0;
  bool operator==(const Vec3&) const = default;
  constexpr Vec2 xy() const { return {x, y}; }
};
constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(Vec3 a, double s) { return {a.x * s, a.y * s, a.z * s}; }
constexpr Vec3 operator*(double s, Vec3 a) { return a * s; }
constexpr Vec3 operator/(Vec3 a, double s) { return {a.x / s, a.y / s, a.z / s}; }
constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(Vec3 a) { return std::sqrt(dot(a, a)); }
inline Vec3 normalized(Vec3 a) { return a / norm(a); }
constexpr Vec3 withZ(Vec2 a, double z) { return {a.x, a.y, z}; }

// Row-major 3x3; rows are the target frame's axes in source coordinates when it is a rotation.
struct Mat3 {
  std::array<Vec3, 3> row{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};
  bool operator==(const Mat3&) const = default;
};
constexpr Vec3 operator*(const Mat3& m, Vec3 v) {
  return {dot(m.row[0], v), dot(m.row[1], v), dot(m.row[2], v)};
}
constexpr Mat3 transposed(const Mat3& m) {
  return {{Vec3{m.row[0].x, m.row[1].x, m.row[2].x}, Vec3{m.row[0].y, m.row[1].y, m.row[2].y},
           Vec3{m.row[0].z, m.row[1].z, m.row[2].z}}};
}
constexpr Mat3 operator*(const Mat3& a, const Mat3& b) {
  const Mat3 t = transposed(b);
  Mat3 r;
  for (std::size_t i = 0; i < 3; ++i)
    r.row[i] = {dot(a.row[i], t.row[0]), dot(a.row[i], t.row[1]), dot(a.row[i], t.row[2])};
  return r;
}

// Axis-aligned box in 3-D; empty until something is added.
struct Box3 {
  Vec3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  bool operator==(const Box3&) const = default;
  constexpr bool empty() const { return low.x > high.x; }
  constexpr void add(Vec3 p) {
    low = {p.x < low.x ? p.x : low.x, p.y < low.y ? p.y : low.y, p.z < low.z ? p.z : low.z};
    high = {p.x > high.x ? p.x : high.x, p.y > high.y ? p.y : high.y, p.z > high.z ? p.z : high.z};
  }
  constexpr void add(const Box3& b) {
    if (b.empty()) return;
    add(b.low);
    add(b.high);
  }
};

}  // namespace belvedere
