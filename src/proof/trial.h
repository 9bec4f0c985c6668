// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the searches for a single change share: a housing that is varied and asked about one spot. For
// changes.cpp and light_changes.cpp alone.
#pragma once

#include <map>
#include <vector>

#include "proof/explain.h"

namespace belvedere::proof {

// One housing by itself, to be varied and asked about one spot.
struct Trial {
  design::Design alone;             // the housing and the models, nothing else
  Question question;                // the spot's question, views replaced at each try
  std::vector<design::PosedImager> others;  // views of the housings that stay as they are
  std::shared_ptr<const Lighting> lighting; // of the design as it stands
  bool lamps_move = false;          // the housing has lamps, and light is judged
  int slot = 0;
  std::string name;                 // of the view that fails: "C1.2 aim 3" where there are several
  Vec2 at;

  // Is the spot served with this housing, and this imager among those that serve it? Within the
  // limits of its model. `beside`: a lamp's housing, added or changed too.
  bool serves(const design::Housing& varied, const design::Housing* beside = nullptr);

 private:
  // Most tries fail at an end of the band already.
  bool endsServed(std::size_t view) const;
};

design::HousingImager* imagerOf(design::Housing& housing, int slot);
void keepLeast(std::map<ChangeKind, Change>& best, Change change);

// Of light and of sharpness (explain.h says which). `view`: of the imager that fails, `reason` why.
void tryLight(const design::Design& design, Trial& trial, const design::Housing& housing,
              const design::PosedImager& view, Change change, const Effort& effort,
              std::map<ChangeKind, Change>& best);
void tryFocus(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
              Change change, const Effort& effort, std::map<ChangeKind, Change>& best);
void tryStopDown(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
                 Change change, const Effort& effort, std::map<ChangeKind, Change>& best);

}  // namespace belvedere::proof
