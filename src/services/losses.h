// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is lost when a part fails: which cameras give no picture, whose pictures reach no recorder or
// no screen, and for how long their cards bridge it (handbook 15). Which requirements fall by that is
// for a proof to say (requirements/failures.h).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "services/size.h"

namespace belvedere::services {

enum class PartKind { housing, lamp, switch_, injector, supply, link, recorder, disk };
const char* word(PartKind kind);

struct Loss {
  PartKind kind = PartKind::housing;
  std::string part;                       // "C1", "C1 lamp 2", "S1", "k3"; of a disk, its recorder
  design::HousingId housing;              // of a housing or lamp
  int lamp_slot = 0;
  std::vector<design::HousingId> dark;    // give no picture: failed, or without power
  // Imagers ("C1.2"), those of dark housings among them, none of whose recorders, viewers, or takers
  // of either kind can be reached. One that nobody takes counts as taken by every switch.
  std::vector<std::string> unrecorded, unviewed, cut;
  std::vector<design::HousingId> carried; // fed by another of their supplies instead
  // Recorder or disk: recordings that were kept there and are lost with it.
  std::vector<design::AnyId> recordings;
  bool spared = false;                    // a disk whose loss its level bears

  bool harmless() const {
    return dark.empty() && unrecorded.empty() && unviewed.empty() && cut.empty() &&
           recordings.empty() && kind != PartKind::lamp;
  }
};

// Of every housing, its lamps, every switch, injector, supply and recorder, a disk of each recorder,
// and every link; in that order, each in the order of the file. One failure at a time.
std::vector<Loss> lossesOf(const design::Design& design, const Sizes& sizes);

// The imagers that a loss takes from a requirement that is judged so.
const std::vector<std::string>& lostFor(const Loss& loss, design::JudgedOn judged_on);

// How long the cards of imagers' housings go on recording what reaches no recorder: the shortest of
// them. Nothing where one of the imagers is dark or has no card.
std::optional<Spread> bridgedHours(const Loss& loss, const std::vector<std::string>& imagers,
                                   const RecordingSizes& recording);

}  // namespace belvedere::services
