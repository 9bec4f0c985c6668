// SPDX-License-Identifier: GPL-3.0-or-later
//
// The whole brief proven: coverage by `proof`, the rest by `services`.
#pragma once

#include <filesystem>

#include "base/progress.h"
#include "proof/prove.h"
#include "proof/rules.h"
#include "requirements/requirements.h"

namespace belvedere::requirements {

// Throws as proof::prove does. Services are sized only where the brief asks for anything of them.
Answer prove(const design::Design& design, const std::filesystem::path& folder,
             const proof::ProveOptions& options, const Progress& progress);

// The same with services sized whatever the brief asks. Without `coverage` no share is proven, only
// who sees its rules: then answer.proof and answer.demands are empty.
Answer size(const design::Design& design, const std::filesystem::path& folder, bool coverage,
            const proof::ProveOptions& options, const Progress& progress);

// Is every verdict `met`, of coverage and of demands, and no finding a shortfall?
// Rows that may fall by themselves are left to their demand.
bool allMet(const design::Design& design, const Answer& answer);

// "C3.1 sees 45.2 % of it well enough where 95 % is asked for: too_coarse 54 %"; briefly: with the
// reason that takes most alone.
std::string viewText(const proof::RuleView& view, double share_asked, bool briefly);

// Which imagers see the rules of the brief (of those `only`, empty: all) well enough to run them.
std::vector<services::RuleDemand> ruleDemands(const design::Design& design,
                                              const std::filesystem::path& folder,
                                              const proof::ProveOptions& options,
                                              const Progress& progress);
// Which imagers serve which requirement, by a proof with spots; without them, none.
std::vector<services::ServedBy> servedBy(const proof::Proof& proof);

}  // namespace belvedere::requirements
