// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bounding-volume tree over a scene's bodies, in doubles: what sightlines and shafts descend.
// Built once per scene; the same scene gives the same tree.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/scene.h"

namespace belvedere::scene {

struct TreeNode {
  Box3 box;
  std::uint32_t first = 0;  // of a leaf: into order; of an inner node: its left child (right: + 1)
  std::uint32_t count = 0;  // bodies of a leaf, 0 for an inner node
};
struct BodyTree {
  std::vector<TreeNode> nodes;       // nodes[0] is the root; empty for an empty scene
  std::vector<std::uint32_t> order;  // body indices, leaf by leaf
};
BodyTree buildTree(const Scene& scene);

// Bands of light; infrared_behind_clear is infrared, taken by what lets all light through alone:
// what is lost of a lamp's light on the way back to a lens along a sightline that is not hidden.
enum class Band { light, infrared, infrared_behind_clear };
inline double shareOf(const Source& source, Band band) {
  if (band == Band::light) return source.light;
  return band == Band::infrared || source.light >= 1 ? source.infrared : 1;
}

// Which bodies count as blocking. `see` errs against us: what lets only a share of the light
// through (foliage) blocks. `withhold` errs the other way: only what lets nothing through blocks.
enum class Blocking { see, withhold };
inline bool blocks(const Source& source, Blocking blocking) {
  return blocking == Blocking::see ? source.light < 1 : source.light <= 0;
}

}  // namespace belvedere::scene
