// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the drawing tools' fields hold: kept from one use to the next while the program runs. The
// values at the start are common practice, no source.
#pragma once

#include <optional>
#include <string>

#include "desk/draw_tool.h"
#include "desk/shown_units.h"
#include "edit/shapes.h"

namespace belvedere::desk {

struct OpeningValues {
  double width_m, sill_m, head_m;
};
struct DrawValues {
  double wall_thickness_m = 0.2, storey_height_m = 3.0;
  OpeningValues door{0.9, 0, 2.1}, window{1.2, 0.9, 2.1};
  design::SolidKind solid = design::SolidKind::stock;
  double solid_base_m = 0, solid_top_m = 2.0;
  std::string mounting_on = "ceiling";
  double mounting_least_m = 2.5, mounting_most_m = 2.8, tray_height_m = 2.8;
  std::string model;                       // of the next housing; empty: the catalogue's first
  std::optional<double> housing_height_m;  // of its fixing; absent: as the line allows
  std::string zone_title, zone_task;       // an empty task: nothing must be seen yet
  design::TargetKind zone_target = design::TargetKind::person;
  bool zone_asks = true;                   // false: drawn without a requirement
  double pitch_m = 2;
  bool turning = true;
};
inline DrawValues& drawValues() {
  static DrawValues values;
  return values;
}

// A field over a length that must be positive, or not negative.
inline ToolField lengthField(const QString& object, const QString& label, double& value_m,
                             bool zero_allowed = false) {
  return {object, label,
          [&value_m] { return words(edit::lengthText(value_m, shownUnits())); },
          [&value_m, zero_allowed, label](const QString& text) {
            const double typed_m = edit::lengthFrom(text.toStdString(), shownUnits());
            if (typed_m < 0 || (typed_m == 0 && !zero_allowed))
              refuse(QObject::tr("%1 is more than nothing").arg(label));
            value_m = typed_m;
          },
          {}};
}

}  // namespace belvedere::desk
