// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about what burning lamps do besides lighting a zone, each with the geometry that causes it and
// the least turn that ends it: values of light/side_effects.h in words.
#pragma once

#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"
#include "light/side_effects.h"
#include "proof/least_turn.h"
#include "proof/sayer.h"

namespace belvedere::proof {

// In one situation, of lamps that burn (all of them infrared, or none), as these views see them, which are
// captured and of one or several aims of each imager.
struct SideEffects {
  const design::Design& design;
  const design::Situation& situation;
  const light::Solids& solids;
  std::vector<light::Lamp> lamps;
  std::vector<design::PosedImager> seen_by;
  Sayer& sayer;
  LeastTurns& turns;
  const Progress& progress;
  std::string lamps_in{};  // " in its aim 2", of lamps that swing with an imager

  void sayAll() const;   // lamp_in_frame, lamp_near_surface, lamp_mirrored, lamp_in_cover, lamp_behind_glass
  void inFrame() const;  // lamp_in_frame alone

  void nearSurfaces() const;
  void mirrored() const;
  void throughGlass() const;
  // Of the view's own housing, or of the others.
  std::vector<light::Lamp> lampsOf(const design::PosedImager& view, bool own) const;
  std::string turnFor(const char* what, const design::PosedImager& view, const Sees& sees,
                      const char* else_do) const;
};

}  // namespace belvedere::proof
