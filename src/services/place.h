// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where things hang: the storey of a place, and what has to be stood there.
#pragma once

#include <optional>

#include "design/design.h"

namespace belvedere::services {

// The storey on which a place lies: by the named id where there is one, else the one whose outline
// and height hold it (uppermost floor below it), else null.
const design::Storey* storeyAt(const design::Design& design, const design::StoreyId& named, Vec3 at);

// What a housing has to stand: its own, else its storey's; nothing where neither says.
std::optional<design::Surroundings> surroundingsOf(const design::Design& design,
                                                   const design::Housing& housing);

// The warmest air where a housing or device stands, 20 C where nothing is said.
double warmestAt(const design::Design& design, const design::AnyId& id, Vec3 at);

}  // namespace belvedere::services
