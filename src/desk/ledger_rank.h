// SPDX-License-Identifier: GPL-3.0-or-later
//
// How a row of the ledger fares, for the list and for the row itself.
#pragma once

#include "desk/evaluator.h"
#include "proof/part_loss.h"

namespace belvedere::desk {

// 0 met, 1 undecided or not known, 2 not met. What may fall by itself counts with others, as a demand.
inline int rank(const design::Design& design, const LedgerRow& row) {
  if (proof::mayFall(design, row.proof)) return 0;
  if (row.known == Known::preview) return row.proof.share.low >= row.proof.asked ? 0 : 2;
  if (row.known == Known::nothing) return 1;
  return badness(row.proof.verdict);
}

}  // namespace belvedere::desk
