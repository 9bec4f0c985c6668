// SPDX-License-Identifier: GPL-3.0-or-later
//
// Occlusion in plan against CGAL's exact visibility polygons: with walls to the ceiling, a target
// at one height and an imager that has no frame to speak of, the share that is seen is the area of
// the visibility polygon over that of the free floor.
#include <CGAL/Arr_naive_point_location.h>
#include <CGAL/Arr_segment_traits_2.h>
#include <CGAL/Arrangement_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_2.h>
#include <CGAL/Triangular_expansion_visibility_2.h>
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "../proof/made_up.h"
#include "proof/prove.h"

namespace belvedere::proof {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Arrangement = CGAL::Arrangement_2<CGAL::Arr_segment_traits_2<Kernel>>;
using Visibility = CGAL::Triangular_expansion_visibility_2<Arrangement>;

constexpr double kWide = 12, kDeep = 9;

struct Plan {
  std::vector<Ring> inner;  // walls and columns, apart from one another and from the room's walls
  Vec2 eye;
};

bool apart(const Ring& a, const Ring& b) { return intersectionOf({{a, {}}}, {{b, {}}}).empty(); }

// A rectangular room with walls (long and thin), columns and odd polygons in it.
Plan randomPlan(std::mt19937& random) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Plan plan;
  const int wanted = std::uniform_int_distribution<int>(1, 14)(random);
  for (int tries = 0; tries < 200 && static_cast<int>(plan.inner.size()) < wanted; ++tries) {
    const Vec2 centre{between(0, kWide), between(0, kDeep)};
    std::vector<Vec2> points;
    const double shape = between(0, 1), turn = between(0, 2 * kPi);
    const double along = shape < 0.6 ? between(0.4, 2.5) : between(0.1, 0.6);
    const double across = shape < 0.6 ? between(0.02, 0.15) : between(0.1, 0.6);
    const int corners = shape < 0.8 ? 4 : std::uniform_int_distribution<int>(3, 8)(random);
    for (int i = 0; i < corners; ++i) {
      const double angle = corners == 4 ? kPi / 2 * i + kPi / 4 : 2 * kPi * i / corners;
      const Vec2 p{along * std::cos(angle), across * std::sin(angle)};
      points.push_back(centre + Vec2{p.x * std::cos(turn) - p.y * std::sin(turn),
                                     p.x * std::sin(turn) + p.y * std::cos(turn)});
    }
    const Ring ring = convexHull(points);
    const Ring roomy = grownConvex(ring, 0.01);
    bool free = true;
    for (const Vec2 p : roomy) free = free && p.x > 0 && p.y > 0 && p.x < kWide && p.y < kDeep;
    for (const Ring& other : plan.inner) free = free && apart(roomy, other);
    if (free) plan.inner.push_back(ring);
  }
  bool free = false;
  while (!free) {
    plan.eye = {between(0.05, kWide - 0.05), between(0.05, kDeep - 0.05)};
    free = true;
    for (const Ring& ring : plan.inner) free = free && !contains(grownConvex(ring, 0.01), plan.eye);
  }
  return plan;
}

double exactVisibleM2(const Plan& plan) {
  Arrangement arrangement;
  const auto insert = [&](const Ring& ring) {
    std::vector<Kernel::Segment_2> edges;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
      edges.emplace_back(Kernel::Point_2(a.x, a.y), Kernel::Point_2(b.x, b.y));
    }
    CGAL::insert_non_intersecting_curves(arrangement, edges.begin(), edges.end());
  };
  insert(rectangle(0, 0, kWide, kDeep));
  for (const Ring& ring : plan.inner) insert(ring);
  const Kernel::Point_2 eye(plan.eye.x, plan.eye.y);
  const CGAL::Arr_naive_point_location<Arrangement> location(arrangement);
  const auto found = location.locate(eye);
  const auto* face = boost::get<Arrangement::Face_const_handle>(&found);
  if (!face) throw std::runtime_error("the eye lies on an edge");
  Arrangement seen;
  const Visibility visibility(arrangement);
  const auto in = visibility.compute_visibility(eye, *face, seen);
  CGAL::Polygon_2<Kernel> outline;
  auto edge = in->outer_ccb();
  const auto first = edge;
  do {
    outline.push_back(edge->source()->point());
  } while (++edge != first);
  return CGAL::to_double(outline.area());
}

// Published: CGAL 5.5, 2D Visibility Computation (triangular expansion after Bungiu et al., 2014),
// with exact predicates and constructions. On a hundred random plans the exact visible area lies
// inside our bounds, every time, and these are near each other.
TEST(OccludedInPlan, ExactVisibleAreaLiesInsideTheBounds) {
  double widest = 0, widest_m2 = 0, least = 1, most = 0;
  for (unsigned seed = 0; seed < 100; ++seed) {
    std::mt19937 random(seed);
    const Plan plan = randomPlan(random);
    scene::Scene bodies;
    bodies.sources.push_back({"inner", 0, 0});
    Polygon free{rectangle(0, 0, kWide, kDeep), {}};
    for (const Ring& ring : plan.inner) {
      scene::addPrism(bodies, ring, std::vector<double>(ring.size(), 0.0),
                      std::vector<double>(ring.size(), 3.0), 0);
      free.holes.push_back(ring);
    }
    // Straight down, all that is in front of it and level with it in the picture, and no density.
    design::PosedImager all = posed("C1", withZ(plan.eye, 2.5), 0, 90, 0, {4000, 4000}, 180, 0);
    auto made = ask({free}, 1.2, 1.2, 1e-9, {all}, std::move(bodies));
    const double exact_m2 = exactVisibleM2(plan), free_m2 = made->question.region_m2;
    const ShareProof proof = proveShare(made->question, 0.5, {}, {});
    EXPECT_LE(proof.share.low * free_m2, exact_m2 + 1e-9) << "seed " << seed;
    EXPECT_GE(proof.share.high * free_m2, exact_m2 - 1e-9) << "seed " << seed;
    EXPECT_LE(proof.share.high - proof.share.low, 0.01) << "seed " << seed;
    widest = std::max(widest, proof.share.high - proof.share.low);
    widest_m2 = std::max(widest_m2, (proof.share.high - proof.share.low) * free_m2);
    least = std::min(least, exact_m2 / free_m2);
    most = std::max(most, exact_m2 / free_m2);
  }
  std::cout << "100 plans, seen " << 100 * least << " to " << 100 * most
            << " %; widest bounds " << 100 * widest << " points, " << widest_m2 << " m2\n";
  EXPECT_LT(least, 0.4);  // plans that hide much are among them
}

}  // namespace
}  // namespace belvedere::proof
