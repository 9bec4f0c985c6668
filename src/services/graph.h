// SPDX-License-Identifier: GPL-3.0-or-later
//
// The graph of what carries data: housings and devices joined by links that are no power cables;
// and who takes which stream over it. For network.cpp and losses.cpp.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "design/design.h"
#include "services/network.h"

namespace belvedere::services {

// What is taken out of it; -1 and null: nothing.
struct Without {
  int link = -1;
  const std::vector<bool>* nodes = nullptr;
  bool node(int n) const { return nodes && (*nodes)[static_cast<std::size_t>(n)]; }
};

struct Graph {
  std::unordered_map<std::string, int> index;
  std::vector<const design::Model*> models;
  std::vector<bool> housing;
  struct End {
    int to;
    int link;
  };
  std::vector<std::vector<End>> ends;

  // A part that passes on what comes in.
  bool passes(int node) const {
    const design::Model* m = models[static_cast<std::size_t>(node)];
    return m && (m->kind == design::ModelKind::switch_ || m->kind == design::ModelKind::injector);
  }
  // Fewest links from a node to all others: the link taken into each; -1: not reached, -2: the root.
  std::vector<int> tree(int root, const Without& without = {}) const;
};
inline constexpr int kNotReached = -1;

// Housings that stay first, then devices, each in the order of the file.
Graph graphOf(const design::Design& design, const std::vector<Cable>& cables);

// One taker of one stream.
struct Flow {
  const StreamRate* rate;
  int source, sink;
  bool multicast, recorded;  // recorded: by a recorder; else shown on a screen
};
std::vector<Flow> flowsOf(const design::Design& design, const std::vector<StreamRate>& rates,
                          const Graph& graph);

}  // namespace belvedere::services
