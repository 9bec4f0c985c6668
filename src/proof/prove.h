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
  bool keep_settled = false;   // who settles what, for what is asked after a loss (part_loss.h)
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
  std::shared_ptr<Settled> settled;  // where options.keep_settled
};
ShareProof proveShare(const Question& question, double asked, const ProveOptions& options,
                      const Progress& progress);

// The cells that a proof found served, each with the imagers that settled it: while all of these are
// there it stays served, whoever else is lost. Cells that are served nowhere stay so with any loss.
struct Settled {
  struct Cell {
    Ring ring;                        // convex, site
    std::vector<int> by;              // imagers, of Question::imagers
    std::vector<std::uint32_t> views; // of the question's, that are not known to serve nowhere in it
  };
  std::vector<Cell> cells;
  double total_m2 = 0, not_served_m2 = 0;
  // The question that the cells are of, with the imagers that are near enough to serve; of the very
  // design that was proven, which must still be there.
  std::shared_ptr<const Question> question;
};
// Is what was asked still met when imagers are lost, by the settled cells and, of those that a lost
// one settled, by asking whom is left? Ends as soon as it is known; undecided where it cannot be told
// so. `lost`: per imager of its question.
Verdict verdictWithout(const Settled& settled, const std::vector<bool>& lost, double asked,
                       const ProveOptions& options, const Progress& progress);

}  // namespace belvedere::proof
