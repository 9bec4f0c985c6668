// SPDX-License-Identifier: GPL-3.0-or-later
//
// One run that sizes everything: the parts of this room in the order in which they need each other.
#pragma once

#include <optional>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"
#include "services/analytics.h"
#include "services/bill.h"
#include "services/network.h"
#include "services/power.h"
#include "services/recording.h"
#include "services/streams.h"
#include "services/surroundings.h"

namespace belvedere::services {

// What a proof has found, as plain values.
struct Seen {
  std::vector<ServedBy> served;       // empty: not proven
  std::vector<RuleDemand> rules;      // one for each requirement of kind rule
};

struct Sizes {
  std::vector<StreamRate> rates;
  std::vector<EncoderLoad> encoders;
  std::vector<UnevenSettings> uneven;
  Network network;
  Power power;
  RecordingSizes recording;
  RulePlan rules;
  std::vector<RuleTime> rule_times;
  SurroundingsCheck surroundings;
  Bill bill;
  std::vector<MoneyCheck> money;
  Energy energy;
};

// Throws Cancelled.
Sizes sizesOf(const design::Design& design, const Seen& seen, const Progress& progress = {});

}  // namespace belvedere::services
