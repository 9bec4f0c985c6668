// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a requirement comes to over the year, by the hours that its situations state.
#pragma once

#include <optional>

#include "design/design.h"
#include "proof/proof.h"

namespace belvedere::proof {

struct OverYear {
  double hours = 0;      // of all its situations
  double met_hours = 0;  // of those in which it is met
  Bounds share;          // served, each situation weighing by its hours
};
// Nothing where the requirement (kind see) holds in one situation only, or one does not say how long it
// lasts. Rows of the design as it stands.
std::optional<OverYear> overYear(const design::Design& design, const Proof& proof,
                                 const design::RequirementId& requirement);

}  // namespace belvedere::proof
