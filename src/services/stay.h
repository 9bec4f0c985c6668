// SPDX-License-Identifier: GPL-3.0-or-later
//
// The housings that services are for: those that the design does not remove.
#pragma once

#include <vector>

#include "design/design.h"

namespace belvedere::services {

inline std::vector<const design::Housing*> stayingHousings(const design::Design& design) {
  std::vector<const design::Housing*> stay;
  for (const design::Housing& housing : design.housings)
    if (housing.life != design::Life::removed) stay.push_back(&housing);
  return stay;
}

}  // namespace belvedere::services
