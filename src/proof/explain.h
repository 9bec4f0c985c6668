// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why not, and what would: who comes nearest to serving a spot (or a requirement's worst spot),
// what fails and by how much, the least single change that would serve it, found by asking the
// judge; and what may change before a requirement falls.
#pragma once

#include <array>
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
  double per_zoom_percent = 0.2;    // of the focal length (of the field of view where none is stated)
  double per_height_m = 20;
  double per_place_m = 40;          // along the mounting line
  double another_model = 100;
  double per_setting = 5;           // mode, exposure, focus, aperture, whom a lamp follows
  double another_lamp = 60;
};

enum class ChangeKind {
  aim, zoom, height, place, model,
  // where it is too dark
  follow,    // a lamp of the housing follows another imager, or the group
  turn_lamp, // one that stands alone
  add_lamp,
  mode, exposure, open_up,
  // where it is unsharp
  focus, stop_down
};
const char* word(ChangeKind kind);

struct Change {
  ChangeKind kind = ChangeKind::aim;
  design::HousingId housing;
  int slot = 0;                     // imager, of kinds aim and zoom
  std::size_t aim = 0;              // index of the aim that changes
  double pan_deg = 0, tilt_deg = 0; // by how much, of kind aim (tilt: positive is down)
  double by = 0;                    // zoom: factor on the focal length, or on the field of view
                                    // where the model states no focal lengths; else metres
  Vec3 to_fixing_m;                 // of kinds height and place
  design::ModelId model;            // of kind model
  // Of the kinds of light and sharpness: the housing as it then is, or the one that is added, with a
  // model of its own where the catalogue has none that suffices.
  std::optional<design::Housing> as;
  std::optional<design::Model> lamp;
  std::string imager;               // that would serve, "C1.2"
  double effort = 0;
  std::string sentence;             // "turn C1.2 3.2 deg to the right, to a pan of 43.2 deg"
  std::vector<std::string> loses;   // requirements that are met now and would fall, "R2 (day)"
  bool loses_known = false;
  std::optional<Bounds> share;      // of the spot's requirement with the change, where asked for
};
// The design with the change made.
design::Design withChange(const design::Design& design, const Change& change);

struct SpotExplanation {
  design::RequirementId requirement;
  design::SituationId situation;
  Vec2 at;
  bool inside = false;              // of the requirement's judged area
  Answer nearest;
  std::string imager;
  std::string name;                 // of the nearest view: "C1.2 aim 3" where the imager has several aims
  std::vector<Answer> all;          // every imager's, best first
  std::vector<std::string> all_imagers, all_names;
  std::string hidden_by;            // id of what hides it, when hidden
  std::vector<Change> changes;      // that serve this spot, least effort first
};
// A band is judged whole (handbook 19); a spot that is asked about by name is judged so finely that
// what slips between two heights is smaller than a hand.
inline constexpr int kSpotHeights = 65;
// The spot as it is, without changes (fast: for many spots ask one question).
SpotExplanation explainSpot(const design::Design& design, const Question& question, Vec2 at);
// The changes that would serve it, each kind's least, least effort first. Empty where it is served.
// Least in this sense: aims are tried a degree at a time in sixteen directions, zooms by a sixtieth
// of what is left, heights by 0.05 m, places by 0.1 m, and the first that serves is then brought to
// 0.1 deg, 0.1 deg of field (0.01 mm), 0.01 m. What serves only between two steps may be missed.
// Every change is within the model's limits, and serves the spot at each of kSpotHeights heights.
std::vector<Change> changesFor(const design::Design& design, const Question& question,
                               const SpotExplanation& spot, const Effort& effort,
                               const Progress& progress);
// Where it is too dark: whom the lamps of the housing follow, lamps that stand alone turned to the spot, a lamp
// added where the housing hangs (of the catalogue, else the least range of kLampRangesM that
// suffices), the imager's mode, a longer exposure and a wider
// aperture where its lens is stopped down. Where it is unsharp: the focus set to the spot.
// Every change is asked of the judge as the others are; what imagers meet of light is taken to stay.
inline constexpr std::array<double, 10> kLampRangesM{5, 10, 15, 20, 30, 40, 60, 80, 100, 150};
// Fills `loses` of a change: every requirement is proven with it (verdicts only).
void weighChange(const design::Design& design, const std::filesystem::path& folder, Change& change,
                 const Progress& progress);
// Fills `share` of a change: the zone of the requirement in the situation is proven with it, as
// narrow as kShareBoxes boxes make it (about a second), so that the same call says the same.
inline constexpr std::size_t kShareBoxes = 40'000;
void proveWithChange(const design::Design& design, const design::Requirement& requirement,
                     const design::Situation& situation, std::shared_ptr<const Place> place,
                     Change& change, const Progress& progress);

// How far a solid may grow before a requirement that is met now is no longer proven met in some
// situation: upwards (how high stock may be stacked) and outwards on all sides (how far a rack may
// spread). Held at the figure, fallen within 1 % above it, or within a millimetre.
struct MayGrow {
  std::string solid;
  double top_m = 0;                      // now, above its storey's floor
  std::optional<double> may_reach_m;     // nothing: nothing falls up to tried_top_m
  double tried_top_m = 0;                // its storey's height, or twice its own where higher
  std::string top_falls;                 // the requirement that falls first
  std::string top_falls_in;              // and the situation
  std::optional<double> may_widen_m;     // nothing: nothing falls up to tried_wide_m
  double tried_wide_m = 0;
  std::string wide_falls, wide_falls_in;
};
std::vector<MayGrow> whatMayChange(const design::Design& design, const std::filesystem::path& folder,
                                   const ProveOptions& options, const Progress& progress);

}  // namespace belvedere::proof
