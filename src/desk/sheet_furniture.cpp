// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheet_furniture.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

#include "desk/colours.h"

namespace belvedere::desk {
namespace {

constexpr int kRoomPx = 74;              // three rows of a legend, as a rule
constexpr int kStatePx = 6;               // around words of the state
constexpr double kMarginMm = 4, kBarMm = 40, kNorthMm = 7.5;
constexpr double kLeastHighMm = 14;      // of scale bar and north
// Beside the bar where there is room, else above it.
constexpr double kLegendFromMm = 66, kBesideFromMm = 150, kLegendLeastMm = 90;

}  // namespace

int SheetFurniture::roomPx() const { return shown_ ? kRoomPx : 0; }

void SheetFurniture::paint(QPainter& painter, const drawing::Sheet& sheet, QSize size,
                           double mm_per_px, double mm_per_m, const drawing::Occurs& occurs,
                           const QString& state) {
  if (size.isEmpty()) return;
  if (!state.isEmpty()) {
    const QFontMetrics metrics = painter.fontMetrics();
    const QRect box(size.width() - metrics.horizontalAdvance(state) - 3 * kStatePx,
                    size.height() - (shown_ ? area_.height() : 0) - metrics.height() - 2 * kStatePx,
                    metrics.horizontalAdvance(state) + 2 * kStatePx,
                    metrics.height() + kStatePx);
    painter.fillRect(box, colourOf(sheet.inks.paper));
    painter.setPen(colourOf(sheet.inks.accent));
    painter.drawText(box, Qt::AlignCenter, state);
  }
  if (!shown_) return;
  const double ratio = painter.device()->devicePixelRatioF();
  const auto& place = sheet.design->site.place;
  Shown now{size,     mm_per_px, mm_per_m, ratio, place ? place->north_deg : 0,
            sheet.unit.m, sheet.inks.paper, occurs};
  if (now != kept_for_ || kept_.isNull()) {
    const double w = size.width() * mm_per_px, h = size.height() * mm_per_px;
    // The legend first, to know its height; then all of it onto paper of its own.
    QPixmap whole(size * ratio);
    whole.setDevicePixelRatio(ratio);
    whole.fill(Qt::transparent);
    double high_mm = kLeastHighMm;
    {
      QPainter own(&whole);
      own.scale(1 / mm_per_px, 1 / mm_per_px);
      drawing::Canvas canvas(own);
      const bool beside = w - kLegendFromMm - kMarginMm >= kBesideFromMm;
      const double foot_mm = beside ? 1.5 : kLeastHighMm;
      if (w - 2 * kMarginMm >= kLegendLeastMm) {
        const double rows_mm = drawing::paintLegendRows(
            canvas, sheet.inks,
            {{beside ? kLegendFromMm : kMarginMm, 0}, {w - kMarginMm, h - foot_mm}}, occurs, sheet.unit);
        if (rows_mm > 0) high_mm = std::max(high_mm, 1.5 + rows_mm + foot_mm);
      }
      drawing::paintNorth(canvas, sheet, {kMarginMm + 3, h - 5}, kNorthMm);
      drawing::paintScaleBar(canvas, sheet.inks, {kMarginMm + 11, h - 8}, mm_per_m, kBarMm,
                             sheet.unit);
    }
    const int high = std::min(size.height(), static_cast<int>(std::ceil(high_mm / mm_per_px)));
    area_ = {0, size.height() - high, size.width(), high};
    kept_ = QPixmap(area_.size() * ratio);
    kept_.setDevicePixelRatio(ratio);
    kept_.fill(Qt::transparent);
    QPainter own(&kept_);
    QColor paper = colourOf(sheet.inks.paper);
    paper.setAlpha(225);
    own.fillRect(QRect({0, 0}, area_.size()), paper);
    own.fillRect(QRect(0, 0, area_.width(), 1), colourOf(sheet.inks.rules));
    own.drawPixmap(0, -area_.y(), whole);
    kept_for_ = std::move(now);
  }
  painter.drawPixmap(area_.topLeft(), kept_);
}

}  // namespace belvedere::desk
