// SPDX-License-Identifier: GPL-3.0-or-later
//
// A house with every kind of joint, and segments aimed exactly at them.
#pragma once

#include <functional>
#include <numbers>
#include <random>
#include <vector>

#include "make_design.h"
#include "scene/ray_caster.h"

namespace belvedere::scene {

using Random = std::mt19937;
inline double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

// Two storeys of an L, 3 m high, slabs of 0.2 m, a stair well, roof; outer walls of 0.3 m round the
// outline, one inner wall from face to face, a door and two windows; upstairs a ring wall of 60
// segments. Site coordinates; floors at 0 and 3.2 m.
inline const Ring kOutline{{0, 0}, {10, 0}, {10, 4}, {6, 4}, {6, 8}, {0, 8}};
inline constexpr double kHalf = 0.15;

inline design::Design house() {
  design::Design design = oneStorey(kOutline);
  Ring path{{kHalf, kHalf}, {10 - kHalf, kHalf}, {10 - kHalf, 4 - kHalf}, {6 - kHalf, 4 - kHalf},
            {6 - kHalf, 8 - kHalf}, {kHalf, 8 - kHalf}, {kHalf, kHalf}};
  design::Wall outer = wall("outer", path, 2 * kHalf);
  outer.openings = {opening("door", 2, 1, 0, 2.1), opening("window", 5, 2, 0.9, 2.0)};
  design::Wall inner = wall("inner", {{4, 2 * kHalf}, {4, 8 - 2 * kHalf}}, 0.1);
  storey(design).walls = {outer, inner};
  design::Storey upper = storey(design);
  upper.id.text = "S1";
  upper.floor_m = 3.2;
  upper.voids = {rectangle(1, 1, 3, 2)};
  upper.roof_m = 0.2;
  Ring circle;
  for (int i = 0; i <= 60; ++i) {
    const double a = 2 * std::numbers::pi * (i % 60) / 60;
    circle.push_back({3 + 1.5 * std::cos(a), 5 + 1.5 * std::sin(a)});
  }
  upper.walls = {outer, wall("ring", circle, 0.1)};
  design.site.buildings[0].storeys.push_back(upper);
  return design;
}

struct Aim {
  Vec3 from, through;
};
// The segment from `from` through `through`, as far again beyond it.
inline Segment beyond(const Aim& aim, double times = 2) {
  return {aim.from, aim.from + (aim.through - aim.from) * times};
}

struct Joint {
  const char* name;
  std::function<Aim(Random&)> aim;  // from one side; all that lies beyond is another room
};

inline Vec3 inRoom(Random& random) {  // the ground floor's eastern part
  return {between(random, 4.1, 5.6), between(random, 0.4, 3.6), between(random, 0.05, 2.95)};
}

inline std::vector<Joint> joints() {
  return {
      {"outer corner, across its mitre",
       [](Random& r) {
         const double t = between(r, 0, 1.999) * kHalf;
         return Aim{{between(r, 6, 9.6), between(r, 0.4, 3.6), between(r, 0.05, 2.95)},
                    {10 - 2 * kHalf + t, 2 * kHalf - t, between(r, 0.05, 2.95)}};
       }},
      {"outer corner, its inner edge",
       [](Random& r) {
         return Aim{{between(r, 6, 9.6), between(r, 0.4, 3.6), between(r, 0.05, 2.95)},
                    {10 - 2 * kHalf, 2 * kHalf, between(r, 0.05, 2.95)}};
       }},
      {"inward corner of the L",
       [](Random& r) {
         const double t = between(r, 0.001, 1) * 2 * kHalf;
         return Aim{inRoom(r), {6 - t, 4 - t, between(r, 0.05, 2.95)}};
       }},
      {"wall on the floor slab",
       [](Random& r) {
         return Aim{inRoom(r), {between(r, 4.1, 9.7), between(r, 0, 2 * kHalf), 0}};
       }},
      {"wall under the slab above",
       [](Random& r) {
         return Aim{inRoom(r), {between(r, 4.1, 9.7), between(r, 0, 2 * kHalf), 3}};
       }},
      {"slab's edge flush with the wall's face",
       [](Random& r) {
         return Aim{{between(r, 4.1, 5.6), between(r, 0.4, 3.6), between(r, 0.05, 2.9)},
                    {between(r, 4.1, 9.7), 0.001, between(r, 0, 1) < 0.5 ? 3.0 : 3.2}};
       }},
      {"window's jamb beside its sill",
       [](Random& r) {
         const double x = kHalf + (between(r, 0, 1) < 0.5 ? 5 : 7);
         return Aim{inRoom(r), {x, between(r, 0.01, 2 * kHalf), between(r, 0, 0.89)}};
       }},
      {"window's jamb beside its head",
       [](Random& r) {
         const double x = kHalf + (between(r, 0, 1) < 0.5 ? 5 : 7);
         return Aim{inRoom(r), {x, between(r, 0.01, 2 * kHalf), between(r, 2.05, 3)}};
       }},
      {"window's jamb, in the plane of its seam",
       [](Random& r) {
         const double x = kHalf + (between(r, 0, 1) < 0.5 ? 5 : 7);
         const bool sill = between(r, 0, 1) < 0.5;
         return Aim{{x, between(r, 1, 3), sill ? between(r, 0.05, 0.8) : between(r, 2.1, 2.9)},
                    {x, kHalf, sill ? between(r, 0.05, 0.8) : between(r, 2.1, 2.9)}};
       }},
      {"outer corner, in the plane of its mitre",
       [](Random& r) {
         const double t = between(r, 0.5, 3);
         return Aim{{10 - 2 * kHalf - t, 2 * kHalf + t, between(r, 0.05, 2.95)},
                    {10 - kHalf, kHalf, between(r, 0.05, 2.95)}};
       }},
      {"corners of the ring wall, in the planes of its seams",
       [](Random& r) {
         const double a = 2 * std::numbers::pi * double(r() % 60) / 60;
         const Vec2 out{std::cos(a), std::sin(a)};
         return Aim{{3, 5, 3.3 + between(r, 0, 2)},
                    withZ(Vec2{3, 5} + out * 1.5, 3.3 + between(r, 0, 2))};
       }},
      {"slab's inner seams, in their planes",
       [](Random& r) {
         static const auto pieces = convexPieces({kOutline, {rectangle(1, 1, 3, 2)}});
         for (;;) {
           const Ring& piece = pieces[r() % pieces.size()];
           const std::size_t i = r() % piece.size();
           const Vec2 along = piece[(i + 1) % piece.size()] - piece[i];
           const double share = between(r, 0.1, 0.9);
           const Vec2 p = piece[i] + along * share, q = piece[i] + along * (share * 0.99);
           if (distanceToOutline(kOutline, p) < 0.4 || distanceToOutline(kOutline, q) < 0.4 ||
               distanceToOutline(rectangle(1, 1, 3, 2), p) < 0.1 ||
               distanceToOutline(rectangle(1, 1, 3, 2), q) < 0.1)
             continue;
           return Aim{withZ(q, 2.0), withZ(p, 3.1)};
         }
       }},
      {"slab's inner seams, from below",
       [](Random& r) {
         static const auto pieces = convexPieces({kOutline, {rectangle(1, 1, 3, 2)}});
         for (;;) {
           const Ring& piece = pieces[r() % pieces.size()];
           const std::size_t i = r() % piece.size();
           const Vec2 p =
               piece[i] + (piece[(i + 1) % piece.size()] - piece[i]) * between(r, 0.01, 0.99);
           if (distanceToOutline(kOutline, p) < 0.4 ||
               distanceToOutline(rectangle(1, 1, 3, 2), p) < 0.05)
             continue;
           const Vec3 from{p.x + between(r, -0.1, 0.1), p.y + between(r, -0.1, 0.1), 2.0};
           if (from.x < 0.4 || from.y < 0.4) continue;
           return Aim{from, withZ(p, 3.0 + 0.2 * between(r, 0, 1))};
         }
       }},
      {"end of the inner wall at the outer wall's face",
       [](Random& r) {
         const double z = between(r, 0.05, 2.95);
         const double face = between(r, 0, 1) < 0.5 ? 2 * kHalf : 8 - 2 * kHalf;
         return Aim{{between(r, 1, 3.9), face, z}, {4, face, z}};
       }},
      {"under the inner wall, along the floor",
       [](Random& r) {
         return Aim{{between(r, 1, 3.9), between(r, 1, 7), 0}, {4, between(r, 1, 7), 0}};
       }},
      {"over the inner wall, along the ceiling",
       [](Random& r) {
         return Aim{{between(r, 1, 3.9), between(r, 1, 7), 3}, {4, between(r, 1, 7), 3}};
       }},
      {"corners of the ring wall",
       [](Random& r) {
         const double a = 2 * std::numbers::pi * double(r() % 60) / 60;
         const Vec2 out{std::cos(a), std::sin(a)};
         return Aim{{3 + between(r, -0.5, 0.5), 5 + between(r, -0.5, 0.5), 3.3 + between(r, 0, 2)},
                    withZ(Vec2{3, 5} + out * between(r, 1.4501, 1.5499), 3.3 + between(r, 0, 2))};
       }},
  };
}

}  // namespace belvedere::scene
