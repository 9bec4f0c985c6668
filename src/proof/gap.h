// SPDX-License-Identifier: GPL-3.0-or-later
//
// Gaps: the patches of a zone that are not served, each as long as its two places that are farthest
// apart. Somebody can cross no straight stretch of so much, unserved, that stays in one patch.
#pragma once

#include "proof/judge.h"
#include "proof/proof.h"
#include "proof/prove.h"

namespace belvedere::proof {

// The longest gap of a question's zone, between proven bounds: from below by cells that are served
// nowhere and hang together, from above by these with all that is not decided. Cells are cut only where
// a gap longer than `most_m` may lie, until the verdict stands; met: none is longer.
struct GapProof {
  Bounds extent_m;
  Verdict verdict = Verdict::undecided;
  std::size_t pieces = 0;          // judged
};
GapProof proveGap(const Question& question, double most_m, const ProveOptions& options,
                  const Progress& progress);

// ---- pieces of a zone, as proveShare judges them (prove_share.cpp)
struct Piece {
  Ring ring;                       // convex, site
  std::vector<ViewState> views{};
  std::shared_ptr<light::Shades> shades{};  // of what it was cut from; null: of nothing
  int depth = 0;
};
std::vector<Piece> piecesOf(const Question& question);
// Served everywhere in it, or nowhere; or mixed, with the parts that it is cut into and that cover it;
// none where it is as small as `finest_m` squared.
struct JudgedPiece {
  Over over = Over::mixed;
  std::vector<Piece> parts;
};
JudgedPiece judgePiece(const Question& question, Piece piece, double finest_m);

}  // namespace belvedere::proof
