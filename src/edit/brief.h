// SPDX-License-Identifier: GPL-3.0-or-later
//
// The brief: requirements and the situations that they must hold in.
#pragma once

#include <string>

#include "design/design.h"

namespace belvedere::edit {

// The requirement of that id as given. Throws InputError where what comes out could not be read
// back (see shapes.h); a design without it stays as it is.
design::Design withRequirementAs(const design::Design& design,
                                 const design::Requirement& requirement);

// Another situation, last. Where the design names none, day and night, which it stood for, are
// written down first.
struct AddedSituation {
  design::Design design;
  design::SituationId id;
};
AddedSituation withSituation(const design::Design& design, const std::string& title);
design::Design withSituationTitle(const design::Design& design, const design::SituationId& id,
                                  const std::string& title);

}  // namespace belvedere::edit
