// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why not, and what would: who comes nearest to serving a spot (or a requirement's worst spot),
// what fails and by how much, the least single change that would serve it, found by asking the
// judge; and what may change before a requirement falls.
#pragma once

#include <filesystem>

#include "base/progress.h"
#include "proof/judge.h"
#include "proof/proof.h"
#include "proof/prove.h"

namespace belvedere::proof {

// What makes a degree, a metre and a millimetre of focal length comparable: the effort of each,
// in the same unit (one degree of aim = 1 by default). Said with every answer, and can be set.
struct Effort {
  double per_aim_deg = 1;
  double per_zoom_percent = 0.2;    // of the focal length
  double per_height_m = 20;
  double per_place_m = 40;          // along the mounting line
  double another_model = 100;
};

enum class ChangeKind { pan, tilt, zoom, height, place, model };
const char* word(ChangeKind kind);

struct Change {
  ChangeKind kind = ChangeKind::pan;
  std::string imager;               // or the housing's id for height, place and model
  double from = 0, to = 0;          // degrees, hfov degrees, metres
  std::string unit;
  std::string model;                // of kind model
  double effort = 0;
  std::string sentence;             // "turn C1.2 from 40.0 to 43.2 deg (3.2 to the right)"
  // What it does to the whole brief, when asked: requirements that would fall.
  std::vector<std::string> loses;
};

struct SpotExplanation {
  design::RequirementId requirement;
  design::SituationId situation;
  Vec2 at;
  bool inside = false;              // of the requirement's judged area
  Answer nearest;
  std::string imager;
  std::vector<Answer> all;          // every imager's, best first
  std::vector<std::string> all_imagers;
  std::string hidden_by;            // id of what hides it, when hidden
  std::vector<Change> changes;      // that serve this spot, least effort first
};
SpotExplanation explainSpot(const design::Design& design, const std::filesystem::path& folder,
                            const design::Requirement& requirement,
                            const design::Situation& situation, Vec2 at, const Effort& effort,
                            const Progress& progress);

// How far a solid may grow upwards, its top above its storey's floor, before a requirement that is
// met now falls in some situation: held at `may_reach_m`, fallen just above (within 1 %).
struct MayGrow {
  std::string solid;
  double top_m = 0;                 // now
  std::optional<double> may_reach_m;  // nothing: nothing falls up to `tried_m`
  double tried_m = 0;
  std::string falls;                // requirement that falls first
  std::string situation;
};
std::vector<MayGrow> whatMayChange(const design::Design& design, const std::filesystem::path& folder,
                                   const ProveOptions& options, const Progress& progress);

}  // namespace belvedere::proof
