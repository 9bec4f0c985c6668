// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/trial.h"

#include <algorithm>
#include <iterator>

#include "base/problem.h"
#include "proof/limits.h"

namespace belvedere::proof {

bool Trial::serves(const design::Housing& varied, const design::Housing* beside) {
  alone.housings.assign(1, varied);
  if (beside) alone.housings.push_back(*beside);
  std::vector<design::PosedImager> views;
  try {
    views = design::posedImagers(alone, question.requirement->judged_on);
  } catch (const InputError&) {
    return false;
  }
  const design::Design* changed = lamps_move || beside ? &alone : nullptr;
  question.lighting = lighting;
  replaceViews(question, std::move(views), changed);
  bool by_imager = false;
  for (std::size_t v = 0; v < question.views.size() && !by_imager; ++v)
    by_imager = question.views[v].slot == slot && endsServed(v) &&
                answerOf(question, v, at, kSpotHeights).reason == Reason::served;
  if (!by_imager || !withinLimits(alone, varied)) return false;
  if (question.imagers_needed == 1 && !question.every_facing) return true;
  // Others are needed too: also those of the housing itself, which may serve no longer.
  std::vector<design::PosedImager> all = others;
  std::move(question.views.begin(), question.views.end(), std::back_inserter(all));
  replaceViews(question, std::move(all));
  return answerAt(question, at, kSpotHeights).reason == Reason::served;
}

bool Trial::endsServed(std::size_t view) const {
  return question.height_share < 1 || answerOf(question, view, at, 2).reason == Reason::served;
}

design::HousingImager* imagerOf(design::Housing& housing, int slot) {
  for (design::HousingImager& i : housing.imagers)
    if (i.slot == slot) return &i;
  return nullptr;
}

void keepLeast(std::map<ChangeKind, Change>& best, Change change) {
  const auto at = best.find(change.kind);
  if (at == best.end() || change.effort < at->second.effort - 1e-12)
    best.insert_or_assign(change.kind, std::move(change));
}

}  // namespace belvedere::proof
