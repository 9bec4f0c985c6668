// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a sheet of paper has at its foot, for the sheet in the window: scale bar, north, and a legend
// of what is drawn at that moment and of nothing else; over it, at the right, what state of the
// wash one sees while it is not yet as fine as it will be. It keeps to the foot of the view, however
// the plan is moved; nothing of it takes the pointer.
#pragma once

#include <QPixmap>
#include <QRect>
#include <QString>

#include "drawing/sheet_parts.h"

class QPainter;

namespace belvedere::desk {

class SheetFurniture {
 public:
  bool isShown() const { return shown_; }
  void setShown(bool shown) { shown_ = shown; }
  // Room that a plan shown whole leaves at the foot, px.
  int roomPx() const;
  // Where it lies on the sheet since it was painted last; empty when it is not shown.
  QRect area() const { return shown_ ? area_ : QRect(); }

  // `size`: the sheet's, px; `mm_per_px` of it. `state`: of the wash; empty: nothing to say.
  void paint(QPainter& painter, const drawing::Sheet& sheet, QSize size, double mm_per_px,
             double mm_per_m, const drawing::Occurs& occurs, const QString& state);

 private:
  // All that the kept picture depends on.
  struct Shown {
    QSize size;
    double mm_per_px = 0, mm_per_m = 0, ratio = 0, north_deg = 0, unit_m = 1;
    drawing::Rgb paper;
    drawing::Occurs occurs;
    bool operator==(const Shown&) const = default;
  };
  bool shown_ = true;
  QRect area_;
  Shown kept_for_;
  QPixmap kept_;
};

}  // namespace belvedere::desk
