// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/migrate.h"

namespace belvedere::design {

std::span<const MigrationStep> designSteps() { return {}; }

bool migrate(Json& root, int from, int to, std::span<const MigrationStep> steps) {
  std::vector<const MigrationStep*> path;
  for (int version = from; version < to; ++version) {
    const MigrationStep* found = nullptr;
    for (const MigrationStep& step : steps)
      if (step.from == version) found = &step;
    if (!found) return false;
    path.push_back(found);
  }
  for (const MigrationStep* step : path) step->apply(root);
  if (Json* version = root.find("version")) *version = Json(static_cast<double>(to));
  return true;
}

}  // namespace belvedere::design
