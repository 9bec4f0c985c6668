// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "base/units.h"
#include "proof/proof.h"

namespace belvedere::proof {

const char* word(Reason reason) {
  switch (reason) {
    case Reason::served: return "served";
    case Reason::out_of_frame: return "out_of_frame";
    case Reason::too_coarse: return "too_coarse";
    case Reason::hidden: return "hidden";
    case Reason::too_steep: return "too_steep";
    case Reason::turned_away: return "turned_away";
    case Reason::unsharp: return "unsharp";
    case Reason::too_dark: return "too_dark";
    case Reason::masked: return "masked";
  }
  return "";
}

const char* word(Verdict verdict) {
  switch (verdict) {
    case Verdict::met: return "met";
    case Verdict::not_met: return "not_met";
    case Verdict::undecided: return "undecided";
  }
  return "";
}

Vec2 SpotMap::centre(int column, int row) const {
  const double turn = degToRad(turn_deg);
  const double x = (column + 0.5) * cell_m, y = (row + 0.5) * cell_m;
  return {origin.x + std::cos(turn) * x + std::sin(turn) * y,
          origin.y - std::sin(turn) * x + std::cos(turn) * y};
}

}  // namespace belvedere::proof
