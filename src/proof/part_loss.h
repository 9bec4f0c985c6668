// SPDX-License-Identifier: GPL-3.0-or-later
//
// Requirements after a part has failed: the question without the imagers that the failure takes, and
// without the lamps that go dark with their housings. What a failure takes is known as plain values,
// from whoever knows the cables (requirements/).
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "proof/prove.h"

namespace belvedere::proof {

// What the failure of a part takes.
struct PartLoss {
  std::string part;                        // its id, or a name
  std::vector<design::HousingId> dark;     // housings that give no picture; their lamps are out too
  std::vector<std::string> unrecorded, unviewed, cut;  // imagers ("C1.2") that reach no recorder, no
                                           // viewer, nobody: lost to what is judged as recorded, as
                                           // viewed, as captured
  struct LampOut {
    design::HousingId housing;
    int slot = 1;
  };
  std::optional<LampOut> lamp;
};

// prove (prove.h), and for every after_loss of the brief that names a device a row after its loss, as
// `devices` says what it takes. Of a device that is not in it there is no row.
Proof proveWithLosses(const design::Design& design, const std::filesystem::path& folder,
                      const ProveOptions& options, std::span<const PartLoss> devices,
                      const Progress& progress);

// Whether a row after a loss may fall by itself: every after_loss of its requirement that names the
// part names zones_lost_max too, so that it counts with others (requirements/demands.h).
bool mayFall(const design::Design& design, const RequirementProof& row);
// Whether a requirement asks how many zones fall with a part.
bool countsZones(const design::Design& design, const design::AfterLoss& loss, const std::string& part);

// After the loss, of the situation's question as the design stands. Equals the question of
// the design with the dark housings removed, the lamp off, and the lost imagers not there.
Question questionAfter(const design::Design& design, const Question& whole, const PartLoss& loss);

// The imagers that a loss takes from a requirement judged so; those of dark housings among them or
// not.
const std::vector<std::string>& lostImagers(const PartLoss& loss, design::JudgedOn judged_on);

// Of one row of a proof after one loss.
struct ShareAfter {
  std::size_t row = 0;    // in Proof::requirements
  std::size_t loss = 0;
  std::optional<Bounds> share;  // null where the verdict is shown to stay met without it
  Verdict verdict = Verdict::undecided;
};

// Lamps farther from a zone than this many times their range are not asked about: there they give
// less than a quarter of what they are rated for.
inline constexpr double kLampReach = 2;

// Of every row of kind see that is not short as the design stands, after every loss that may change
// its verdict; in the order of rows, then of losses. What is not returned keeps its verdict: proven
// so, but for lamps beyond kLampReach. Losing an imager only ever takes from a share. A share that is
// returned is that of the design with the part deleted, to the digit.
//   proof  of this very design, which kept who settles what (ProveOptions::keep_settled)
std::vector<ShareAfter> sharesAfter(const design::Design& design, const Proof& proof,
                                    std::span<const PartLoss> losses, const ProveOptions& options,
                                    const Progress& progress);

// Lamps ("C1 lamp 2") that burn in a situation.
std::vector<std::string> burningLamps(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::filesystem::path& folder);

// The design with a loss's dark housings removed and its lamp off.
design::Design withoutPart(const design::Design& design, const PartLoss& loss);

}  // namespace belvedere::proof
