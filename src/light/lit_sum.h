// SPDX-License-Identifier: GPL-3.0-or-later
//
// What litOver holds while it works, shared by lit_over.cpp (the order of asking), lit_steps.cpp (bounds by heights) and
// lit_cut.cpp (where to cut).
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "light/light_bounds.h"
#include "light/lit.h"

namespace belvedere::light {

// Sums in double lose a little more with each light.
inline bool surelyLit(const Interval& sum) { return sum.low * (1 - kLightGuard) >= 1; }
inline bool surelyDark(const Interval& sum) { return sum.high * (1 + kLightGuard) < 1; }

// Of a light's part with nothing between, what passes.
Interval passing(const Interval& open, const Interval& passes);

// One light of the sum.
struct LitPart {
  Vec3 from;
  scene::Band band = scene::Band::light;
  std::size_t index = 0;         // luminaires, then lamps
  std::size_t number = 0;        // of its shade, which imagers share: luminaires, lamps, lamps that moved
  const Shade* shade = nullptr;  // null: not asked
};

// A sum whose slopes are known: what it may be over some corners, seen from the middle of their slab.
struct LitLinear {
  double value = 0;
  std::array<Interval, 3> slope{};  // per metre
  std::vector<Slopes> grazing;  // lights that graze the plane in the slab
  void add(const Slopes& slopes, double times);
  Interval over(const Vec3& middle, std::span<const Vec3> corners) const;
  Vec3 steepest() const;  // about which way it grows at the middle, and how much a metre
};

// Heights between which no light enters or leaves a shadow: what all lights come to there.
struct LitStep {
  Interval heights_m, sum;
  std::vector<Interval> passes;  // of each light that varies
  // Where that was asked: the same by slopes, and what those come to whose slopes are not known.
  LitLinear linear{};
  Interval rest{};
};

// All steps of a slab.
struct LitSteps {
  std::vector<Interval> steady;     // of each light that was asked for: what passes at all these heights
  std::vector<std::size_t> varies;  // lights of which more passes at some heights than at others
  std::vector<LitStep> all;
};

// A step that is not known, and the slab that it was looked at in.
struct LitUnknown {
  Vec3 middle;  // of the slab
  LitStep step;
};

// A column between two heights.
struct LitSlab {
  scene::Prism prism;
  Normals normals;
  Vec3 middle;  // of its hull
};

// Over a slab, of each light: its part with nothing between.
struct LitOpen {
  std::vector<Interval> open;
  std::vector<Cast> casts;  // of luminaires
};

// Heights still to be asked about, and what is known of a slab that holds them.
struct LitPending {
  Interval heights_m;
  std::shared_ptr<const LitOpen> larger;  // null: nothing
};

// What a look at a slab says.
struct LitLook {
  Lit lit = Lit::some;
  // Where that is `some` and all heights were asked for:
  std::optional<LitCut> cut{};         // along a shadow's edge
  std::vector<LitUnknown> unknown{};
  std::shared_ptr<const LitOpen> lights{};
  bool thinner = false;                // thinner slabs may say more
};

// What comes to the points of a column, light by light, as shares of what is needed.
class LitSum {
 public:
  LitSum(const ImagerLight& imager, const Solids& solids, const scene::Prism& column, Shades& shades);
  // As litOver.
  Lit over(const Interval& heights_m, bool whole, std::optional<LitCut>* cut);

 private:
  const ImagerLight& imager_;
  const Solids& solids_;
  const scene::Prism& column_;
  Shades& shades_;
  double ambient_ = 0, side_m_ = 0;
  bool level_ = true;           // the lower face
  Normals normals_;             // in plan, at all heights
  std::vector<LitPart> parts_;  // once looked at, the brightest first
  const Shade* back_ = nullptr; // on infrared's way back to the lens

  // ---- lit_over.cpp
  LitLook look(const LitPending& slab, bool whole);
  LitOpen brightestFirst(const LitSlab& slab);
  void ask(LitPart& part);
  bool comesBack(const LitPart& part) const;
  Interval passesOver(const LitPart& part, const Interval& heights_m) const;
  Interval passesAt(const LitPart& part, double height_m) const;
  LitSlab slabOver(const Interval& heights_m) const;
  // A light's part over a slab, with nothing between.
  Interval openOver(const LitPart& part, const LitSlab& slab, Cast& cast) const;
  scene::Prism prismOver(const Interval& heights_m) const;
  Vec3 middleOf(const Interval& heights_m) const;

  // ---- lit_steps.cpp
  std::optional<Slopes> slopesOver(const LitPart& part, const LitSlab& slab, const Cast& cast) const;
  Vec3 normalAt(const Vec3& at_m) const;
  // Of the parts, the first `asked` of which have been asked for; the rest come to rest_high at most.
  LitSteps stepsOver(const Interval& heights_m, const LitOpen& lights, std::size_t asked, double rest_high) const;
  // Nearer bounds of those steps that are not known.
  void bySlopes(LitSteps& steps, const LitSlab& slab, const LitOpen& lights, double rest_high) const;

  // ---- lit_cut.cpp
  std::optional<LitCut> shadowCut(const LitSteps& steps, const std::vector<Interval>& open) const;
  std::optional<LitCut> edgeAcross(const Shade& shade, const Interval& heights_m, double at_m) const;
  // Beside the line along which light ends, as far as all that is unknown settles by its slopes.
  //   worth  the least share of the column that must be settled
  std::optional<LitCut> contourCut(const std::vector<const LitUnknown*>& unknown, double worth) const;
};

}  // namespace belvedere::light
