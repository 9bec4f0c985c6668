// SPDX-License-Identifier: GPL-3.0-or-later
//
// What if it fails: of every part, which requirements fall, for how long cards bridge it, worst first
// (handbook 15).
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "proof/part_loss.h"
#include "requirements/requirements.h"
#include "services/losses.h"

namespace belvedere::requirements {

// A requirement that stands as designed and no longer when the part has failed.
struct Fall {
  enum class What { coverage, rule, recordings } what = What::coverage;
  design::RequirementId requirement;
  design::SituationId situation;        // of coverage
  proof::Verdict before = proof::Verdict::met, after = proof::Verdict::not_met;
  std::optional<proof::Bounds> share_before, share_after;  // of coverage
  std::optional<services::Spread> bridged_hours;  // of coverage: cards go on recording all that falls
};
const char* word(Fall::What what);      // "coverage", "rule", "recordings"

struct Failure {
  services::Loss loss;
  std::vector<Fall> falls;              // in the order of the brief
  int requirements = 0, bridged = 0;    // that fall; of them those that cards bridge wholly
};

// Of every part that services knows (services/losses.h): most requirements that no card bridges
// first, then most requirements, then most cameras that are cut off; equals in the order of the parts.
//   answer  of this very design, with sizes; its proof kept who settles what
//           (ProveOptions::keep_settled)
struct Failures {
  std::vector<Failure> ranked;
};
Failures failuresOf(const design::Design& design, const std::filesystem::path& folder,
                    const Answer& answer, const proof::ProveOptions& options,
                    const Progress& progress);

// What a loss takes, for a proof.
proof::PartLoss partLossOf(const services::Loss& loss);

}  // namespace belvedere::requirements
