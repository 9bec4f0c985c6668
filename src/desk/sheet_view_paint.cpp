// SPDX-License-Identifier: GPL-3.0-or-later
#include <QElapsedTimer>
#include <QPainter>
#include <QPixmapCache>

#include <algorithm>
#include <cmath>
#include <utility>

#include "desk/colours.h"
#include "desk/sheet_view.h"
#include "desk/shown_units.h"
#include "drawing/night_words.h"
#include "drawing/plan_shapes.h"

namespace belvedere::desk {
namespace {

bool shows(const Box2& plan, const drawing::Dial& dial) {
  const double r = 3 * dial.radius_mm + 20;  // and its name
  return dial.at.x > plan.low.x - r && dial.at.x < plan.high.x + r && dial.at.y > plan.low.y - r &&
         dial.at.y < plan.high.y + r;
}

constexpr int kWashEdgePx = 40;     // around zones, for the figures of their lines
constexpr double kStopsMm = 2.4;    // of a selected dial, outside its ring
constexpr int kGhostsMs = 8;        // for other storeys' shapes at a time
constexpr int kGhostsApartMs = 12;
constexpr double kQuickMs = 12; // a kept picture that is painted this fast follows the view at once

// Words keep off what lies on the sheet, however it is turned: in boxes across it.
void keepOff(const std::vector<Ring>& rings, drawing::Taken& taken) {
  constexpr double kStripMm = 2;
  for (const Ring& ring : rings) {
    Box2 whole;
    for (const Vec2 p : ring) whole.add(p);
    for (double y = whole.low.y; y < whole.high.y; y += kStripMm) {
      Box2 box;
      for (const Vec2 p : clipHalfPlane(clipHalfPlane(ring, {0, -1}, -y), {0, 1},
                                        std::min(y + kStripMm, whole.high.y)))
        box.add(p);
      if (!box.empty()) taken.add(box);
    }
  }
}

}  // namespace

void SheetView::paintInMm(QPainter& painter,
                          const std::function<void(drawing::Canvas&)>& paint) const {
  painter.save();
  painter.scale(1 / mmPerPx(), 1 / mmPerPx());
  {
    drawing::Canvas canvas(painter);
    paint(canvas);
  }
  painter.restore();
}

const drawing::PlanShapes* SheetView::knownShapes(const design::StoreyId& storey) const {
  for (const KnownShapes& known : shapes_)
    if (known.storey == storey) return &known.shapes;
  return nullptr;
}

const drawing::PlanShapes& SheetView::shapesOf(const design::Storey& storey) {
  if (const drawing::PlanShapes* known = knownShapes(storey.id)) return *known;
  shapes_.push_back(
      {storey.id, drawing::planShapes(sheet_.design, storey, workspace_.shownSituation())});
  return shapes_.back().shapes;
}

// The other storeys' shapes, a few at a time: a site of a hundred storeys must not hold up the
// window.
void SheetView::shapeGhosts() {
  QElapsedTimer timer;
  timer.start();
  for (const design::Building& building : sheet_.design->site.buildings)
    for (const design::Storey& other : building.storeys) {
      if (knownShapes(other.id)) continue;
      if (timer.elapsed() > kGhostsMs) {
        ghosts_due_.start(kGhostsApartMs);
        return;
      }
      shapesOf(other);
    }
  below_stale_ = true;
  update();
}

void SheetView::paintBelow(QPainter& painter) {
  painter.fillRect(rect(), colourOf(sheet_.inks.paper));
  const drawing::ToPaper to_paper = toPaper();
  paintInMm(painter, [&](drawing::Canvas& canvas) {
    if (gridM() > 0) {
      const Box2 shown = shownM();
      // Lines nearer than a few pixels are a grey: every tenth then.
      double step = gridM();
      while (step * pxPerM() < 8) step *= 10;
      const drawing::Stroke thin{sheet_.inks.rules, 0.1};
      for (double x = std::ceil(shown.low.x / step) * step; x <= shown.high.x; x += step)
        canvas.line(to_paper({x, shown.low.y}), to_paper({x, shown.high.y}), thin);
      for (double y = std::ceil(shown.low.y / step) * step; y <= shown.high.y; y += step)
        canvas.line(to_paper({shown.low.x, y}), to_paper({shown.high.x, y}), thin);
    }
    for (const Laid& laid : overlays_)
      if (laid.level == Level::below) laid.overlay->paint(canvas, to_paper, sheet_.inks);
    const design::Storey* storey = workspace_.shownStorey();
    if (!storey) return;
    QElapsedTimer ghosts;
    ghosts.start();
    if (showsGhosts())
      for (const design::Building& building : sheet_.design->site.buildings)
        for (const design::Storey& other : building.storeys) {
          if (other.id == storey->id) continue;
          const drawing::PlanShapes* shapes = knownShapes(other.id);
          if (!shapes && ghosts.elapsed() < kGhostsMs) shapes = &shapesOf(other);
          if (!shapes) {
            if (!ghosts_due_.isActive()) ghosts_due_.start(0);
            continue;
          }
          canvas.outline(to_paper(shapes->slab), {sheet_.inks.rules, 0.18});
          for (const drawing::PlanShape& wall : shapes->walls)
            if (wall.look == drawing::Look::cut)
              canvas.outline(to_paper(wall.area), {sheet_.inks.rules, 0.13});
        }
    drawing::paintGround(canvas, sheet_, to_paper, shapesOf(*storey));
  });
}

void SheetView::keepWash() {
  const QSize size = this->size() * devicePixelRatioF();
  const bool anew = wash_.size() != size;
  if (anew) wash_ = QImage(size, QImage::Format_ARGB32_Premultiplied);
  wash_.setDevicePixelRatio(1);
  wash_shows_ = {};
  const drawing::ToPaper to_paper = toPaper();
  Box2 box;
  for (const drawing::ZoneMap& map : sheet_.maps)
    for (const Polygon& polygon : to_paper(map.judged))
      for (const Vec2 p : polygon.outer) box.add(p / mmPerPx() * devicePixelRatioF());
  const QRect was = wash_box_;
  wash_box_ = {};
  const double edge = kWashEdgePx * devicePixelRatioF();
  if (!box.empty())
    wash_box_ = QRectF(QPointF(box.low.x - edge, box.low.y - edge),
                       QPointF(box.high.x + edge, box.high.y + edge))
                    .intersected(QRectF(wash_.rect()))
                    .toAlignedRect();
  if (anew) {
    wash_.fill(Qt::transparent);
  } else {  // what was and what will be
    QPainter clear(&wash_);
    clear.setCompositionMode(QPainter::CompositionMode_Source);
    clear.fillRect(was.united(wash_box_), Qt::transparent);
  }
  const auto& areas = evaluation_->areas;
  if (!sheet_.maps.empty() && !areas) {
    const double mm_per_px = mmPerPx() / devicePixelRatioF();
    hatches_.setPaper(size, mm_per_px, sheet_.inks);
    for (const drawing::ZoneMap& map : sheet_.maps)
      drawing::paintLiveWash(wash_, sheet_.inks, to_paper, mm_per_px, map, hatches_, wash_shows_);
  }
  wash_.setDevicePixelRatio(devicePixelRatioF());
  if (sheet_.maps.empty() || !areas) return;
  drawing::Taken taken;
  QPainter painter(&wash_);
  const double ratio = devicePixelRatioF();
  painter.setClipRect(QRectF(wash_box_.x() / ratio, wash_box_.y() / ratio, wash_box_.width() / ratio,
                             wash_box_.height() / ratio));
  paintInMm(painter, [&](drawing::Canvas& canvas) {
    for (std::size_t i = 0; i < sheet_.maps.size(); ++i)
      drawing::paintZone(canvas, sheet_, to_paper, sheet_.maps[i], (*areas)[i], taken,
                         wash_shows_);
  });
}

// Where there is any.
void SheetView::drawWash(QPainter& painter) const {
  if (wash_box_.isEmpty()) return;
  const double ratio = devicePixelRatioF();
  painter.drawImage(QRectF(wash_box_.x() / ratio, wash_box_.y() / ratio, wash_box_.width() / ratio,
                           wash_box_.height() / ratio),
                    wash_, wash_box_);
}

void SheetView::keepOffAll(const drawing::ToPaper& to_paper, drawing::Taken& taken) const {
  for (const Laid& laid : overlays_) keepOff(laid.overlay->covers(to_paper), taken);
  if (!furniture_.area().isEmpty())
    taken.add({{0, furniture_.area().top() * mmPerPx()}, {width() * mmPerPx(), height() * mmPerPx()}});
  for (const drawing::Dial& dial : dials())  // its stops stand outside its ring
    if (isLive(dial)) {
      const double reach_mm =
          std::max(dial.radius_mm + kStopsMm, drawing::dialReachMm(sheet_, dial));
      const Vec2 reach{reach_mm, reach_mm};
      taken.add({dial.at - reach, dial.at + reach});
    }
}

void SheetView::paintAbove(QPainter& painter) {
  const design::Storey* storey = workspace_.shownStorey();
  written_ = drawing::Taken();
  above_shows_ = {};
  if (!storey) return;
  const drawing::Layout on = layout();
  drawing::Occurs occurs;
  drawing::Taken taken;
  paintInMm(painter, [&](drawing::Canvas& canvas) {
    const drawing::PlanShapes& shapes = shapesOf(*storey);
    drawing::keepClear(sheet_, on, shapes, dials(), taken);
    keepOffAll(on.to_paper, taken);
    drawing::paintZoneOutlines(canvas, sheet_, on.to_paper);
    drawing::paintNight(canvas, sheet_, on, taken, occurs);
    drawing::paintShapes(canvas, sheet_, on.to_paper, shapes, occurs);
    drawing::paintBlind(canvas, sheet_, on, false, taken, occurs);
    drawing::paintZoneNames(canvas, sheet_, on, taken);
    drawing::paintWorst(canvas, sheet_, on, taken, occurs);
    drawing::paintBlind(canvas, sheet_, on, true, taken, occurs);
    for (const drawing::Dial& dial : dials())
      if (!isLive(dial) && shows(on.plan, dial))
        drawing::paintDial(canvas, sheet_, dial, taken, occurs);
  });
  written_ = std::move(taken);
  above_shows_ = std::move(occurs);
}

// What one sees of the shown requirements; nothing once it is as fine as it will be.
QString SheetView::stateOfWash() const {
  const Evaluation& known = *evaluation_;
  const design::Requirement* asked =
      design::findRequirement(sheet_.design, sheet_.selected_requirement);
  if (asked && asked->kind == design::RequirementKind::see) {
    const std::vector<design::Situation> all = design::situationsOf(sheet_.design, *asked);
    const design::Situation here = workspace_.shownSituation();
    if (std::none_of(all.begin(), all.end(), [&](const auto& s) { return s.id == here.id; }))
      return tr("%1 is not asked for in this situation: %2")
          .arg(QString::fromStdString(asked->id.text),
               QString::fromStdString(here.title.empty() ? here.id.text : here.title));
  }
  if (sheet_.maps.empty() || known.spacing_m <= 0) return {};
  const bool moving = workspace_.isDragging() || known.version != workspace_.version();
  if (!moving && !known.finer_comes) return {};
  const QString spacing = QString::fromStdString(edit::lengthText(known.spacing_m, shownUnits()));
  return moving ? tr("preview, spots %1 apart").arg(spacing)
                : tr("preview, spots %1 apart; finer ones are coming").arg(spacing);
}

void SheetView::paintLive(QPainter& painter) {
  const drawing::ToPaper to_paper = toPaper();
  paintInMm(painter, [&](drawing::Canvas& canvas) {
    drawing::Occurs occurs = drawing::together(wash_shows_, above_shows_);
    if (occurs.lux_lines && sheet_.night) occurs.lux_words = drawing::lightWords(*sheet_.night, sheet_.unit);
    for (const drawing::ImagerOutline& outline : sheet_.outlines) {
      const drawing::Dash dash =
          outline.frame_only ? drawing::Dash::dashed : drawing::Dash::none;
      canvas.outline(to_paper(outline.served),
                     {sheet_.inks.accent, outline.frame_only ? 0.35 : 0.45, dash});
      (outline.frame_only ? occurs.selected_frame : occurs.selected_outline) |=
          !outline.served.empty();
    }
    const auto overlays = [&](Level level) {
      for (const Laid& laid : overlays_)
        if (laid.level == level) laid.overlay->paint(canvas, to_paper, sheet_.inks);
    };
    overlays(Level::folded);
    drawing::Taken taken(&written_);
    for (const Laid& laid : overlays_) keepOff(laid.overlay->covers(to_paper), taken);
    for (const drawing::Dial& dial : dials())
      if (isLive(dial)) drawing::paintDial(canvas, sheet_, dial, taken, occurs);
    painter.save();
    painter.resetTransform();
    painter.setFont(font());  // the canvas leaves its own, which is for millimetres
    furniture_.paint(painter, sheet_, size(), mmPerPx(), to_paper.mm_per_m, occurs, stateOfWash());
    painter.restore();
    overlays(Level::above);
    tool_->paint(canvas, to_paper, sheet_.inks);
  });
  if (hasFocus()) {  // where the keys go
    painter.setPen(QPen(colourOf(sheet_.inks.accent), 1));
    painter.drawRect(rect().adjusted(0, 0, -1, -1));
  }
}

template <class Paint>
void SheetView::keep(QPixmap& pixmap, Paint paint) {
  const QSize size = this->size() * devicePixelRatioF();
  if (pixmap.size() != size) pixmap = QPixmap(size);
  pixmap.setDevicePixelRatio(devicePixelRatioF());
  pixmap.fill(Qt::transparent);
  QPainter painter(&pixmap);
  paint(painter);
}

void SheetView::paintEvent(QPaintEvent*) {
  QElapsedTimer timer;
  timer.start();
  live_due_.stop();
  sheet_.inks = inksOf(palette());
  sheet_.unit = shownUnit();
  const bool moved = kept_px_per_m_ != px_per_m_ || kept_centre_m_ != centre_m_;
  if (moved && !(below_stale_ && above_stale_) && last_kept_ms_ < kQuickMs)
    below_stale_ = wash_stale_ = above_stale_ = true;
  if (below_stale_ || above_stale_) {
    kept_px_per_m_ = px_per_m_;
    kept_centre_m_ = centre_m_;
    if (moved) below_stale_ = above_stale_ = wash_stale_ = true;
  }
  const bool all_anew = below_stale_ && above_stale_;
  if (below_stale_) keep(below_, [&](QPainter& p) { paintBelow(p); });
  if (wash_stale_ && !(moved && kept_px_per_m_ != px_per_m_))
    keepWash();
  if (above_stale_) keep(above_, [&](QPainter& p) { paintAbove(p); });
  below_stale_ = wash_stale_ = above_stale_ = false;
  if (all_anew) last_kept_ms_ = static_cast<double>(timer.nsecsElapsed()) * 1e-6;

  QPainter painter(this);
  if (kept_px_per_m_ == px_per_m_ && kept_centre_m_ == centre_m_) {
    painter.setCompositionMode(QPainter::CompositionMode_Source);  // opaque: copied, not blended
    painter.drawPixmap(0, 0, below_);
    painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
    drawWash(painter);
    painter.drawPixmap(0, 0, above_);
  } else {  // until the view settles
    painter.fillRect(rect(), colourOf(sheet_.inks.paper));
    const double factor = px_per_m_ / kept_px_per_m_;
    const Vec2 at = pxAt(kept_centre_m_);
    const QRectF to(at.x - 0.5 * width() * factor, at.y - 0.5 * height() * factor,
                    width() * factor, height() * factor);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawPixmap(to, below_, QRectF(below_.rect()));
    painter.drawImage(to, wash_, QRectF(wash_.rect()));
    painter.drawPixmap(to, above_, QRectF(above_.rect()));
  }
  paintLive(painter);
  last_paint_ms_ = static_cast<double>(timer.nsecsElapsed()) * 1e-6;
  evaluator_.painted();
  const int foot_px = std::exchange(foot_px_, furniture_.area().height());
  const bool lies_on_plan = !fitted_ && foot_px_ > fitted_foot_px_;
  if (foot_px != foot_px_ || (lies_on_plan && workspace_.selection().empty() && !handIsBusy())) {
    QMetaObject::invokeMethod(this, &SheetView::takeFoot, Qt::QueuedConnection);
  }
  Q_EMIT painted();
}

}  // namespace belvedere::desk
