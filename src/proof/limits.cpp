// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/limits.h"

#include "design/check.h"

namespace belvedere::proof {

bool withinLimits(const design::Design& design, const design::Housing& housing) {
  design::Design alone;
  for (const design::ModelId& id : {housing.model, housing.mount.model})
    if (const design::Model* model = design::findModel(design, id))
      alone.catalogue.models.push_back(*model);
  if (!design::findModel(alone, housing.model)) return false;
  alone.housings.push_back(housing);
  design::ReadLog log;
  design::checkHousings(alone, log);
  return log.clean();
}

}  // namespace belvedere::proof
