// SPDX-License-Identifier: GPL-3.0-or-later
//
// What hands do to the sheet: the pointer goes to the view, then to what lies on it, then to the tool.
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <cmath>
#include <utility>

#include "desk/pointer_tool.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {
namespace {

constexpr double kWheelStep = 1.2;      // zoom of one notch
constexpr int kAwaitMs = 200;           // a look at what has just changed is mostly there long before

}  // namespace

Pointer SheetView::pointerOf(const QMouseEvent& event, bool doubled) const {
  const Vec2 px{event.position().x(), event.position().y()};
  return {siteAt(px), px, event.button(), event.modifiers(), doubled};
}

void SheetView::mousePressEvent(QMouseEvent* event) {
  const Pointer pointer = pointerOf(*event);
  rest_.stop();
  if (event->button() == Qt::MiddleButton || (space_ && event->button() == Qt::LeftButton)) {
    panning_ = true;
    pan_from_px_ = pointer.at_px;
    setCursor(Qt::ClosedHandCursor);
    return;
  }
  // A tool that draws draws over everything.
  const bool picks = dynamic_cast<PointerTool*>(tool_.get()) != nullptr;
  // Outlines and sections are taken hold of as they are, not as they were before the last change.
  if (picks && !sheet_.selected_imager.empty()) evaluator_.awaitLook(kAwaitMs);
  for (auto laid = overlays_.rbegin(); picks && laid != overlays_.rend(); ++laid)
    if (laid->overlay->press(pointer)) {
      taken_by_ = laid->overlay;
      return;
    }
  tool_->press(pointer);
}

void SheetView::mouseMoveEvent(QMouseEvent* event) {
  const Pointer pointer = pointerOf(*event);
  if (panning_) {
    panBy(pointer.at_px - pan_from_px_);
    pan_from_px_ = pointer.at_px;
    return;
  }
  if (taken_by_) {
    taken_by_->move(pointer);
    return;
  }
  tool_->move(pointer);
  if (event->buttons() == Qt::NoButton) {
    updateCursor(pointer);
    const Vec2 at_m = pointer.at_m;
    rest_.disconnect();
    connect(&rest_, &QTimer::timeout, this, [this, at_m] { Q_EMIT rested(at_m); });
    rest_.start();
  }
  Q_EMIT pointed(pointer.at_m);
}

void SheetView::updateCursor(const Pointer& pointer) {
  const bool picks = dynamic_cast<PointerTool*>(tool_.get()) != nullptr;
  for (auto laid = overlays_.rbegin(); picks && laid != overlays_.rend(); ++laid)
    if (const auto shape = laid->overlay->cursorAt(pointer)) {
      setCursor(*shape);
      return;
    }
  setCursor(tool_->cursor());
}

void SheetView::mouseReleaseEvent(QMouseEvent* event) {
  const Pointer pointer = pointerOf(*event);
  if (panning_) {
    panning_ = false;
    setCursor(space_ ? Qt::OpenHandCursor : tool_->cursor());
    return;
  }
  if (taken_by_) {
    Overlay* const overlay = taken_by_;
    taken_by_ = nullptr;
    overlay->release(pointer);
    return;
  }
  tool_->release(pointer);
}

void SheetView::mouseDoubleClickEvent(QMouseEvent* event) { tool_->press(pointerOf(*event, true)); }

void SheetView::wheelEvent(QWheelEvent* event) {
  const double notches = event->angleDelta().y() / 120.0;
  if (notches != 0)
    zoomAt({event->position().x(), event->position().y()}, std::pow(kWheelStep, notches));
  event->accept();
}

void SheetView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
    space_ = true;
    setCursor(Qt::OpenHandCursor);
    return;
  }
  if (event->key() == Qt::Key_Escape) {
    if (tool_->cancel()) return;
    if (!dynamic_cast<PointerTool*>(tool_.get())) {
      setTool(nullptr);
      return;
    }
    workspace_.select({});
    return;
  }
  if (tool_->key(*event)) return;
  constexpr double kStepPx = 60;
  const bool bare = event->modifiers() == Qt::NoModifier;
  switch (event->key()) {
    case Qt::Key_Left: if (bare) return panBy({kStepPx, 0}); break;
    case Qt::Key_Right: if (bare) return panBy({-kStepPx, 0}); break;
    case Qt::Key_Up: if (bare) return panBy({0, kStepPx}); break;
    case Qt::Key_Down: if (bare) return panBy({0, -kStepPx}); break;
    case Qt::Key_Plus: return zoomAt({0.5 * width(), 0.5 * height()}, kWheelStep);
    case Qt::Key_Minus: return zoomAt({0.5 * width(), 0.5 * height()}, 1 / kWheelStep);
    default: break;
  }
  QWidget::keyPressEvent(event);
}

void SheetView::keyReleaseEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
    space_ = false;
    setCursor(tool_->cursor());
  }
  QWidget::keyReleaseEvent(event);
}

void SheetView::leaveEvent(QEvent*) {
  rest_.stop();
  tool_->leave();
}

// The view must not jump under a hand that presses, drags or draws.
bool SheetView::handIsBusy() const {
  return workspace_.isDragging() || QGuiApplication::mouseButtons() != Qt::NoButton ||
         !dynamic_cast<PointerTool*>(tool_.get());
}

// A plan shown whole stands above its legend; but what a hand has taken stays where it is. Only what
// grew counts, so that this comes to rest.
void SheetView::takeFoot() {
  const bool resized = std::exchange(resized_, false);
  if (!fitted_ && foot_px_ > fitted_foot_px_ && (resized || workspace_.selection().empty()) &&
      !handIsBusy())
    showAll();
  Q_EMIT footChanged();
}

// What gets wider beside the sheet leaves the plan where it is on the screen.
void SheetView::resizeEvent(QResizeEvent* event) {
  const QPoint corner = mapTo(window(), QPoint());
  const QPointF middle = QRectF(corner, size()).center();
  const bool beside = window_px_ == window()->size() && event->oldSize().isValid();
  if (!fitted_ && !(beside && handIsBusy())) {
    resized_ = true;
    showAll();
  } else if (beside) {
    const QPointF by = middle - QRectF(corner_px_, event->oldSize()).center();
    centre_m_ = centre_m_ + Vec2{by.x() / px_per_m_, -by.y() / px_per_m_};
    viewChanged();
  }
  corner_px_ = corner;
  window_px_ = window()->size();
  refresh();
}

void SheetView::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) refresh();
  QWidget::changeEvent(event);
}

// Keys that a focused sheet wants before they are shortcuts elsewhere.
bool SheetView::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Space) {
    event->accept();
    return true;
  }
  return QWidget::event(event);
}

}  // namespace belvedere::desk
