// SPDX-License-Identifier: GPL-3.0-or-later
//
// Alternatives of a design, changed by hand. The design itself is one of them, the base; the others
// are held as changes to it (design/alternatives.h). Going over to another one turns that around.
#pragma once

#include <string>

#include "design/design.h"

namespace belvedere::edit {

// `base` with what `present` changes of it as a new alternative; the alternatives are `present`'s.
// Throws InputError (alternative_unsaid) with all that no alternative can say: objects that came or
// went.
design::Design keptAsAlternative(const design::Design& base, const design::Design& present,
                                 const std::string& name);

// The design as the alternative has it; the other alternatives stay what they are. What was the
// base is an alternative by the name of `base_name`, in the other one's place; empty: it goes.
// Throws InputError as above, or when the alternative cannot be made any more; unknown_id.
design::Design goneOverTo(const design::Design& design, const design::AnyId& alternative,
                          const std::string& base_name);

design::Design withoutAlternative(const design::Design& design, const design::AnyId& alternative);

}  // namespace belvedere::edit
