// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/size.h"

namespace belvedere::services {

Sizes sizesOf(const design::Design& design, const Seen& seen, const Progress& progress) {
  Sizes sizes;
  sizes.rates = streamRates(design);
  sizes.encoders = encoderLoads(design, sizes.rates);
  sizes.uneven = unevenSettings(design);
  sizes.network = networkOf(design, sizes.rates);
  sizes.power = powerOf(design, sizes.network);
  sizes.recording = recordingOf(design, sizes.rates, seen.served);
  sizes.rules = assignRules(design, seen.rules, progress);
  sizes.rule_times = ruleTimes(design);
  sizes.surroundings = surroundingsOfAll(design);
  sizes.bill = billOf(design, sizes.network);
  sizes.money = moneyChecks(design, sizes.bill);
  sizes.energy = energyOf(design, sizes.power);
  return sizes;
}

}  // namespace belvedere::services
