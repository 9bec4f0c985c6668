// SPDX-License-Identifier: GPL-3.0-or-later
//
// What falls when a part fails, as text and as the key `failures` of belvedere.size.
#pragma once

#include <string>

#include "cli/answer.h"
#include "requirements/failures.h"

namespace belvedere::cli {

std::string failuresText(const design::Design& design, const requirements::Answer& answer,
                         const requirements::Failures& failures);
Json failuresJson(const requirements::Failures& failures);

}  // namespace belvedere::cli
