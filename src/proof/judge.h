// SPDX-License-Identifier: GPL-3.0-or-later
//
// The judge: one definition of "is this spot served by this imager, and if not, what fails first
// and by how much", at a point and over a box. Proof, spots, explanation and drawings all ask it.
//
// A Question is one requirement in one situation with everything that answering needs: built once,
// immutable, shared by threads.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "proof/conditions.h"
#include "proof/proof.h"
#include "scene/body_tree.h"
#include "scene/scene.h"
#include "scene/shadow.h"

namespace belvedere::proof {

// A scene with its tree, shared by all questions of situations with the same solids.
struct Place {
  scene::Scene scene;
  scene::BodyTree tree;
  std::filesystem::path folder;  // of the design: attachments lie beside it
};
std::shared_ptr<const Place> makePlace(const design::Design& design,
                                       const design::Situation& situation,
                                       const std::filesystem::path& folder);

// How far an imager can be turned and zoomed from afar (withhold).
struct Remote {
  // The wide and the tele end of its zoom (the same for a fixed lens), and what else it takes so
  // that no zoom between is denser, or shows more, than one of these.
  std::vector<optics::Lens> lenses;
  double half_diagonal_deg = 0;            // of the picture, at the widest zoom
  design::Mount mount;
  const design::Model* mount_model = nullptr;   // null: none. Both of the design, which stays
  const design::ModelImager* imager = nullptr;  // limits in the housing's frame, offset
  double lens_moves_m = 0;                 // at most, from where the present aim has it
};

struct Question {
  const design::Requirement* requirement = nullptr;
  design::Situation situation;
  std::shared_ptr<const Place> place;
  std::vector<design::PosedImager> views;  // those that could matter; views of one imager adjoin
  std::vector<int> imager_of;              // per view: index into imagers
  std::vector<std::string> imagers;        // names, in the order of the file
  std::vector<std::optional<Remote>> remote;  // per view, of a question of kind withhold
  double needed_px_per_m = 0;
  double low_m = 0, high_m = 0;            // the target's band above the floor
  double height_share = 1;                 // of the band that must be served
  int imagers_needed = 1;
  std::vector<design::Facing> facings;     // empty: any
  bool every_facing = false;               // each of them must be served
  Region region;                           // judged area on the site
  double region_m2 = 0;
  scene::Floor floor;
  scene::Blocking blocking = scene::Blocking::see;
  std::shared_ptr<const Lighting> lighting;  // null (withhold): neither light nor sharpness is judged
  std::vector<Conditions> conditions;      // per view
  light::Solids solids() const { return {&place->scene, &place->tree}; }
};

// What design a proof is about, and under which options imagers are looked at.
struct QuestionOptions {
  std::vector<design::HousingId> without;  // housings taken away (after_loss)
};

// The question of a requirement of kind see or withhold in a situation. `place` may be shared.
Question makeQuestion(const design::Design& design, const design::Requirement& requirement,
                      const design::Situation& situation, std::shared_ptr<const Place> place,
                      const QuestionOptions& options = {});
// The same with views of the caller's (an imager turned, zoomed, moved: explain, sweeps). `changed`:
// the design that they are of, where lamps may have moved with them.
void replaceViews(Question& question, std::vector<design::PosedImager> views,
                  const design::Design* changed = nullptr);

// Answer of one imager's view at one spot.
struct Answer {
  Reason reason = Reason::out_of_frame;   // served, or the first test that fails
  Measure measure;                        // of the failing test; of density when served
  double height_m = 0;                    // above the floor, where the measure was taken
  double px_per_m = 0;                    // density, lowest over the band's judged heights
  int view = -1;
  std::optional<std::uint32_t> hidden_by; // body, when hidden
};
// `spot`: plan position on the site. Heights: both ends of the band and evenly between
// (handbook 19), `heights` of them in all (a band of no height has one). `facing`: index into the
// question's facings, or kBestFacing for the one that this view serves best.
inline constexpr int kBestFacing = -1;
Answer answerOf(const Question& question, std::size_t view, Vec2 spot, int heights,
                int facing = kBestFacing);
// Better: served before failing, failing in a later test before an earlier one, then more margin.
bool better(const Answer& a, const Answer& b);

// Answer of the requirement at a spot: of the imager nearest to serving it (of the n-th best when
// n imagers are asked for; where every facing is asked for, of the facing that fares worst); and
// every imager's best answer, in the order of Question::imagers, when `all` is given.
Answer answerAt(const Question& question, Vec2 spot, int heights, std::vector<Answer>* all = nullptr);

// Heights sampled by default for a target (face 3, person 5, plate 3, floor 2).
int sampledHeights(const design::Target& target);

// ---- over boxes -------------------------------------------------------------------------------
enum class Over : std::uint8_t { none, mixed, all };  // served nowhere, not known, everywhere

// A convex cell of the floor, which with the question's floor and band makes a prism (sheared
// where the floor slopes), and the box (any turn in plan) around it.
struct Cell {
  Ring corners;                  // site, anticlockwise, at most scene::kOutlineMost
  Vec2 centre, half_x, half_y;   // the box: centre + a half_x + b half_y, |a|, |b| <= 1
};
Cell boxCell(Vec2 centre, Vec2 half_x, Vec2 half_y);

// What a part of a judged cell need not ask again.
struct ViewState {
  std::uint32_t view = 0;
  bool clear = false;                                        // nothing in the shaft
  std::shared_ptr<const std::vector<std::uint32_t>> bodies;  // that may meet it; null: not asked
  std::shared_ptr<const scene::Shadows> shadows;  // where told, `bodies` counts these instead
};
// Lines along which an undecided cell is best cut: on one side of them the verdict is known, or
// nearly so. Places p with dot(normal, p) <= at[0], between, and beyond at[1].
struct Cut {
  Vec2 normal;
  std::array<double, 2> at{};
};
// Judges a cell for one view and facing (facing < 0: none is asked for). `slabs`: into how many
// slabs the band may be cut (a power of two). Updates `state`; may propose a cut where mixed.
Over judgeCell(const Question& question, const Cell& cell, ViewState& state, int facing, int slabs,
               std::optional<Cut>& cut);

}  // namespace belvedere::proof
