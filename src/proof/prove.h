// SPDX-License-Identifier: GPL-3.0-or-later
//
// From a design to its proof (handbook 5): cells of each zone are judged whole, split only where
// they are undecided and only while the verdict, or the width asked for, hangs on it.
#pragma once

#include <filesystem>

#include "base/progress.h"
#include "proof/judge.h"
#include "proof/proof.h"
#include "proof/spots.h"

namespace belvedere::proof {

struct ProveOptions {
  double width = 0.002;        // stop when the bounds are this near and the verdict stands
  double finest_m = 0.01;      // smallest cell (smaller in small zones); what is undecided then stays so
  std::size_t boxes_most = 20'000'000;  // per requirement and situation
  int threads = 0;             // 0: as many as the machine has
  bool spots = true;           // reasons, contributions and worst spots too
  bool blind_zones = true;
  std::vector<design::RequirementId> only;  // empty: all
};

// Everything: every requirement in every situation, losses, blind zones, rings, findings.
// `folder`: where attachments lie. Throws InputError, Cancelled.
Proof prove(const design::Design& design, const std::filesystem::path& folder,
            const ProveOptions& options, const Progress& progress);

// The options with cells as fine as the question's zone needs: a doormat needs finer ones than a
// hall for the same width of its bounds.
ProveOptions sizedFor(const Question& question, ProveOptions options);

// The share of one question (kind see). The kernel of the above.
struct ShareProof {
  Bounds share;
  Verdict verdict = Verdict::undecided;
  double finest_m = 0;
  std::size_t boxes = 0;
};
ShareProof proveShare(const Question& question, double asked, const ProveOptions& options,
                      const Progress& progress);

}  // namespace belvedere::proof
