// SPDX-License-Identifier: GPL-3.0-or-later
//
// What hands do to a print.
#include <QKeyEvent>
#include <QMouseEvent>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "desk/print_view.h"
#include "desk/room_sentences.h"
#include "edit/aim_drag.h"

namespace belvedere::desk {
namespace {

constexpr int kClickPx = 3;
constexpr double kTurnDeg = 1;

}  // namespace

void PrintView::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return;
  setFocus(Qt::MouseFocusReason);
  from_ = event->position();
  from_pos_ = pos();
  from_size_ = size();
  const QPoint at = event->position().toPoint();
  if (cornerArea().contains(at)) {
    doing_ = Doing::enlarge;
  } else if (awayArea().contains(at)) {
    Q_EMIT putAway();
    return;
  } else if (pictureArea().contains(at)) {
    doing_ = Doing::press;
    before_ = sheet_.workspace().shareDesign();
    if (posed_) view_then_ = picture::viewOf(*posed_);
    size_then_ = {pictureArea().width(), pictureArea().height()};
  } else {
    doing_ = Doing::move;
  }
  raise();
}

void PrintView::mouseMoveEvent(QMouseEvent* event) {
  const QPointF at = event->position();
  const QPointF way = at - from_;
  switch (doing_) {
    case Doing::nothing: {
      const auto spot = spotAt(at.toPoint());
      person_px_ = spot ? personPx(spot->at_m) : std::nullopt;
      setCursor(cornerArea().contains(at.toPoint())    ? Qt::SizeFDiagCursor
                : awayArea().contains(at.toPoint())    ? Qt::PointingHandCursor
                : pictureArea().contains(at.toPoint()) ? Qt::CrossCursor
                                                       : Qt::SizeAllCursor);
      Q_EMIT hovered(spot ? std::optional(spot->at_m) : std::nullopt);
      update();
      return;
    }
    case Doing::press:
      if (std::abs(way.x()) + std::abs(way.y()) < kClickPx) return;
      doing_ = Doing::aim;
      sheet_.workspace().setDragging(true);
      aim(at);
      return;
    case Doing::aim: aim(at); return;
    case Doing::move:
      from_pos_ = pos() + way.toPoint();
      pinAt(sheet_.siteAt({static_cast<double>(from_pos_.x()),
                           static_cast<double>(from_pos_.y())}));
      pinned_ = true;
      Q_EMIT moved();
      return;
    case Doing::enlarge:
      if (posed_)
        resize(sizeFor(*posed_, std::clamp(from_size_.width() + static_cast<int>(way.x()),
                                           kLeastWide, kMostWide)));
      pinned_ = true;
      Q_EMIT moved();
      return;
  }
}

void PrintView::aim(QPointF to) {
  const QRect area = pictureArea();
  const auto px = [&](QPointF at) {
    return picture::lensPlace(view_then_, size_then_,
                              {at.x() - area.left(), at.y() - area.top()});
  };
  Workspace& workspace = sheet_.workspace();
  try {
    edit::Aimed aimed = edit::pictureFollows(*before_, imager_, px(from_), px(to));
    says_ = aimed.at_stop ? roomSentence(aimed.stop) : QString();
    workspace.apply(tr("Aim %1").arg(QString::fromStdString(name())), std::move(aimed.design),
                    "picture " + name());
  } catch (const InputError& error) {
    says_ = QString::fromStdString(error.problems().front().what);
  }
  update();
}

void PrintView::mouseReleaseEvent(QMouseEvent* event) {
  const Doing done = doing_;
  doing_ = Doing::nothing;
  before_.reset();
  says_.clear();
  if (done == Doing::press) {
    if (const auto spot = spotAt(event->position().toPoint())) Q_EMIT marked(spot->at_m);
  } else if (done == Doing::aim) {
    sheet_.workspace().setDragging(false);
    wish();  // now fine
  } else if (done == Doing::enlarge) {
    wish();
  }
  update();
}

// Delete puts the print away before it is a shortcut of the window.
bool PrintView::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Delete) {
    event->accept();
    return true;
  }
  return QWidget::event(event);
}

void PrintView::keyPressEvent(QKeyEvent* event) {
  Workspace& workspace = sheet_.workspace();
  const auto turn = [&](double pan_deg, double tilt_deg) {
    const auto parts = edit::partsOf(workspace.design(), imager_);
    if (!parts) return;
    design::Aim aim = *parts->aim;
    aim.pan_deg += pan_deg;
    aim.tilt_deg += tilt_deg;
    edit::Aimed aimed = edit::withAim(workspace.design(), imager_, aim);
    if (aimed.at_stop) workspace.tell(QString::fromStdString(aimed.stop));
    workspace.apply(tr("Aim %1").arg(QString::fromStdString(name())), std::move(aimed.design),
                    "picture by keys " + name());
  };
  const auto enlarge = [&](double factor) {
    if (!posed_) return;
    resize(sizeFor(*posed_, std::clamp(static_cast<int>(std::lround(width() * factor)), kLeastWide,
                                       kMostWide)));
    pinned_ = true;
    wish();
    Q_EMIT moved();
  };
  switch (event->key()) {
    case Qt::Key_Left: return turn(-kTurnDeg, 0);
    case Qt::Key_Right: return turn(kTurnDeg, 0);
    case Qt::Key_Up: return turn(0, -kTurnDeg);
    case Qt::Key_Down: return turn(0, kTurnDeg);
    case Qt::Key_Plus: return enlarge(1.25);
    case Qt::Key_Minus: return enlarge(0.8);
    case Qt::Key_Delete: Q_EMIT putAway(); return;
    case Qt::Key_Escape: sheet_.setFocus(); return;
    default: QWidget::keyPressEvent(event);
  }
}

void PrintView::leaveEvent(QEvent*) {
  person_px_.reset();
  Q_EMIT hovered(std::nullopt);
  update();
}

void PrintView::focusInEvent(QFocusEvent* event) {
  raise();
  QWidget::focusInEvent(event);
}

}  // namespace belvedere::desk
