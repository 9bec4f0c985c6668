// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/over_year.h"

#include <algorithm>

namespace belvedere::proof {

std::optional<OverYear> overYear(const design::Design& design, const Proof& proof,
                                 const design::RequirementId& requirement) {
  OverYear out;
  int rows = 0;
  for (const RequirementProof& row : proof.requirements) {
    if (row.requirement != requirement || !row.without.empty()) continue;
    if (row.kind != design::RequirementKind::see) return {};
    const auto situation =
        std::find_if(design.situations.begin(), design.situations.end(),
                     [&](const design::Situation& s) { return s.id == row.situation; });
    if (situation == design.situations.end() || !situation->hours_per_year) return {};
    const double hours = *situation->hours_per_year;
    ++rows;
    out.hours += hours;
    if (row.verdict == Verdict::met) out.met_hours += hours;
    out.share.low += hours * row.share.low;
    out.share.high += hours * row.share.high;
  }
  if (rows < 2 || !(out.hours > 0)) return {};
  out.share.low /= out.hours;
  out.share.high /= out.hours;
  return out;
}

}  // namespace belvedere::proof
