// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/body_tree.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace belvedere::scene {
namespace {

constexpr std::uint32_t kLeafBodies = 4;
constexpr std::size_t kBins = 16;
constexpr int kDeepest = 48;  // below, halves: whoever descends keeps a stack of 128

double coordinate(const Vec3& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

double halfSurface(const Box3& b) {
  if (b.empty()) return 0;
  const Vec3 d = b.high - b.low;
  return d.x * d.y + d.y * d.z + d.z * d.x;
}

struct Builder {
  const Scene& scene;
  BodyTree& tree;
  std::vector<Vec3> centre;

  Box3 boxOf(std::uint32_t first, std::uint32_t count) const {
    Box3 box;
    for (std::uint32_t i = first; i < first + count; ++i) box.add(scene.bodies[tree.order[i]].box);
    return box;
  }

  // Where to part [first, first + count): by surface area over bins of the widest axis, at the
  // middle when bins do not help.
  std::uint32_t part(std::uint32_t first, std::uint32_t count, int depth) {
    Box3 centres;
    for (std::uint32_t i = first; i < first + count; ++i) centres.add(centre[tree.order[i]]);
    const Vec3 extent = centres.high - centres.low;
    const int axis = extent.x >= extent.y && extent.x >= extent.z ? 0 : extent.y >= extent.z ? 1 : 2;
    const double low = coordinate(centres.low, axis), wide = coordinate(extent, axis);
    const auto begin = tree.order.begin() + first;
    const auto end = begin + count;
    if (wide > 0 && depth < kDeepest) {
      const auto binOf = [&](std::uint32_t body) {
        const double x = (coordinate(centre[body], axis) - low) / wide;
        return std::min(kBins - 1, static_cast<std::size_t>(x * kBins));
      };
      std::array<Box3, kBins> boxes;
      std::array<std::uint32_t, kBins> counts{};
      for (auto it = begin; it != end; ++it) {
        const std::size_t bin = binOf(*it);
        boxes[bin].add(scene.bodies[*it].box);
        ++counts[bin];
      }
      std::array<double, kBins> right_cost{};
      Box3 right;
      std::uint32_t right_count = 0;
      for (std::size_t b = kBins - 1; b > 0; --b) {
        right.add(boxes[b]);
        right_count += counts[b];
        right_cost[b] = halfSurface(right) * right_count;
      }
      Box3 left;
      std::uint32_t left_count = 0;
      double best = 1e300;
      std::size_t best_bin = 0;
      for (std::size_t b = 1; b < kBins; ++b) {
        left.add(boxes[b - 1]);
        left_count += counts[b - 1];
        if (left_count == 0 || left_count == count) continue;
        const double cost = halfSurface(left) * left_count + right_cost[b];
        if (cost < best) {
          best = cost;
          best_bin = b;
        }
      }
      if (best_bin > 0) {
        const auto middle = std::stable_partition(
            begin, end, [&](std::uint32_t body) { return binOf(body) < best_bin; });
        return static_cast<std::uint32_t>(middle - begin);
      }
    }
    return count / 2;
  }

  void build(std::uint32_t node, std::uint32_t first, std::uint32_t count, int depth) {
    tree.nodes[node].box = boxOf(first, count);
    if (count <= kLeafBodies) {
      tree.nodes[node].first = first;
      tree.nodes[node].count = count;
      return;
    }
    const std::uint32_t left_count = part(first, count, depth);
    const auto children = static_cast<std::uint32_t>(tree.nodes.size());
    tree.nodes.resize(tree.nodes.size() + 2);
    tree.nodes[node].first = children;
    build(children, first, left_count, depth + 1);
    build(children + 1, first + left_count, count - left_count, depth + 1);
  }
};

}  // namespace

BodyTree buildTree(const Scene& scene) {
  BodyTree tree;
  if (scene.bodies.empty()) return tree;
  tree.order.resize(scene.bodies.size());
  std::iota(tree.order.begin(), tree.order.end(), 0u);
  Builder builder{scene, tree, {}};
  builder.centre.reserve(scene.bodies.size());
  for (const Body& b : scene.bodies) builder.centre.push_back((b.box.low + b.box.high) * 0.5);
  tree.nodes.reserve(scene.bodies.size());
  tree.nodes.resize(1);
  builder.build(0, 0, static_cast<std::uint32_t>(scene.bodies.size()), 0);
  return tree;
}

}  // namespace belvedere::scene
