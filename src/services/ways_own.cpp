// SPDX-License-Identifier: GPL-3.0-or-later
//
// A way of its own that a link states, place by place; and a found way so stated.
#include <array>

#include "services/ways_parts.h"

namespace belvedere::services {

namespace {

using Parts = Ways::Parts;

constexpr double kBesideSine = 0.1;  // about 6 degrees: still in the direction of containment

// The stretch of a-b, in shares of it, that a piece of containment lies beside: within kJoinM and in
// its direction. The distance to a straight piece is convex along a straight line, so it is one stretch.
std::optional<std::array<double, 2>> besideOf(const Parts::Piece& piece, Vec3 a, Vec3 b) {
  const Vec3 along = b - a, other = piece.b - piece.a;
  if (norm(cross(along, other)) > kBesideSine * norm(along) * norm(other)) return {};
  const auto away = [&](double t) {
    const Vec3 p = a + along * t;
    const double s = std::clamp(dot(p - piece.a, other) / dot(other, other), 0.0, 1.0);
    return norm(p - piece.at(s));
  };
  double low = 0, high = 1;  // of least distance
  for (int i = 0; i < 100; ++i) {
    const double left = low + (high - low) / 3, right = high - (high - low) / 3;
    if (away(left) <= away(right)) high = right;
    else low = left;
  }
  const double nearest = (low + high) / 2;
  if (away(nearest) > kJoinM) return {};
  const auto edge = [&](double in, double out) {
    if (away(out) <= kJoinM) return out;
    for (int i = 0; i < 100; ++i) (away((in + out) / 2) <= kJoinM ? in : out) = (in + out) / 2;
    return in;
  };
  return std::array{edge(nearest, 0), edge(nearest, 1)};
}

// What of a straight stretch runs in containment, and in which.
void contain(const Parts& parts, Vec3 a, Vec3 b, Way& way) {
  struct Stretch {
    std::array<double, 2> share;
    const design::ContainmentId* id;
  };
  std::vector<Stretch> stretches;
  for (const Parts::Piece& piece : parts.pieces)
    if (piece.containment && norm(piece.b - piece.a) > Parts::kPointM)
      if (const auto share = besideOf(piece, a, b)) stretches.push_back({*share, &piece.containment->id});
  std::ranges::stable_sort(stretches, {}, [](const Stretch& s) { return s.share; });
  double done = 0;
  for (const Stretch& s : stretches) {
    const double from = std::max(done, s.share[0]);
    if ((s.share[1] - from) * norm(b - a) <= Parts::kPointM) continue;
    way.contained_m += (s.share[1] - from) * norm(b - a);
    if (way.along.empty() || way.along.back() != *s.id) way.along.push_back(*s.id);
    done = s.share[1];
  }
}

// From a place that the cable joins to its way, or back.
void drop(Vec3 a, Vec3 b, bool upright_first, Way& way) {
  way.drop_m += Parts::apart(a, b);
  way.length_m += Parts::apart(a, b);
  if (norm(a - b) <= Parts::kPointM) return;
  if (upright_first) return Parts::addLeg(way, a, b);
  if (norm((a - b).xy()) > Parts::kPointM && std::abs(a.z - b.z) > Parts::kPointM)
    way.path.push_back(withZ(b.xy(), a.z));
  way.path.push_back(b);
}

void append(const Way& part, Way& way) {
  way.length_m += part.length_m;
  way.drop_m += part.drop_m;
  way.contained_m += part.contained_m;
  way.climb_m += part.climb_m;
  for (const design::ContainmentId& id : part.along)
    if (way.along.empty() || way.along.back() != id) way.along.push_back(id);
  way.path.insert(way.path.end(), part.path.begin() + 1, part.path.end());
}

}  // namespace

std::optional<Way> Ways::through(Vec3 from, std::span<const Vec3> path, Vec3 to,
                                 std::optional<Parted>* parted) const {
  Way way;
  way.path.push_back(from);
  for (std::size_t k = 0; k <= path.size(); ++k) {
    const Vec3 a = k == 0 ? from : path[k - 1], b = k == path.size() ? to : path[k];
    const auto here = parts_->storeysOf(a.xy(), a.z, a.z), there = parts_->storeysOf(b.xy(), b.z, b.z);
    if (!here.empty() && !there.empty() && !Parts::share(here, there)) {
      const std::optional<Way> part = between(a, b, {}, parted);
      if (!part) return {};
      append(*part, way);
    } else if (k == 0 || k == path.size()) {
      drop(a, b, k == 0, way);
    } else if (norm(b - a) > Parts::kPointM) {
      way.length_m += norm(b - a);
      way.climb_m += std::abs(b.z - a.z);
      contain(*parts_, a, b, way);
      way.path.push_back(b);
    }
  }
  return way;
}

std::vector<Vec3> bendsOf(const Way& way) {
  if (way.path.size() < 2) return {};
  const auto upright = [](Vec3 a, Vec3 b) { return norm((a - b).xy()) <= Parts::kPointM; };
  std::vector<Vec3> bends;
  for (const Vec3 p : way.path) {
    if (bends.empty() && upright(p, way.path.front())) continue;  // a drop
    if (!bends.empty() && norm(p - bends.back()) <= Parts::kPointM) continue;
    if (bends.size() > 1) {  // straight on
      const Vec3 before = bends[bends.size() - 2], last = bends.back();
      if (norm(last - before) + norm(p - last) <= norm(p - before) + Parts::kPointM) bends.pop_back();
    }
    bends.push_back(p);
  }
  while (!bends.empty() && upright(bends.back(), way.path.back())) bends.pop_back();
  // Straight across from one to the other: half way, so that there is a place at least.
  if (bends.empty()) bends.push_back((way.path.front() + way.path.back()) * 0.5);
  return bends;
}

}  // namespace belvedere::services
