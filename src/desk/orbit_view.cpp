// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/orbit_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

#include "desk/colours.h"
#include "desk/outline_handles.h"
#include "drawing/plan_shapes.h"
#include "edit/object.h"

namespace belvedere::desk {
namespace {

constexpr double kDegPerPx = 0.4, kKeyDeg = 5, kWheelFactor = 0.85;
constexpr int kKeyPx = 40, kClickPx = 3;
constexpr double kBearingDeg = 330, kElevationDeg = 40, kFieldDeg = 35;  // at first
constexpr double kCutM = 0.02;          // below the underside of what lies over the storey
constexpr double kVolumeM = 30;
constexpr std::size_t kMostVolumes = 48;
constexpr double kPickPx = 9;

}  // namespace

OrbitView::OrbitView(SheetView& sheet, QWidget* parent)
    : QWidget(parent, Qt::Window), sheet_(sheet) {
  setObjectName("orbit");
  setWindowTitle(tr("From outside"));
  setAccessibleName(tr("The building from outside"));
  setAccessibleDescription(tr("Arrows go round it, plus and minus go nearer and farther."));
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setMinimumSize(240, 180);
  resize(860, 600);
  Workspace& workspace = sheet_.workspace();
  connect(&workspace, &Workspace::designChanged, this, &OrbitView::wish);
  connect(&workspace, &Workspace::selectionChanged, this, &OrbitView::wish);
  connect(&workspace, &Workspace::viewChanged, this, [this] {
    framed_ = false;
    wish();
  });
  connect(&sheet_.evaluator(), &Evaluator::evaluated, this, [this] {
    const auto made = maker_.now();
    if (!made || made->scene->place != sheet_.evaluator().now()->place) wish();
  });
  connect(&maker_, &PictureMaker::made, this, [this] {
    drawn_volume_of_ = volume_of_;
    update();
  });
}

void OrbitView::showAll() {
  Box3 box;
  const Workspace& workspace = sheet_.workspace();
  const design::Storey* storey = workspace.shownStorey();
  const double floor_m = storey ? storey->floor_m : 0;
  const double high_m = floor_m + (storey ? storey->height_m : 3);
  for (const edit::ObjectLine& line : edit::objectsOf(workspace.design(), workspace.storey())) {
    if (line.extent.empty()) continue;
    box.add(withZ(line.extent.low, floor_m));
    box.add(withZ(line.extent.high, high_m));
  }
  if (box.empty()) return;
  eye_ = picture::framing(box, kBearingDeg, kElevationDeg, kFieldDeg, {width(), height()});
  framed_ = true;
  wish();
}

void OrbitView::setEye(const picture::OrbitEye& eye) {
  eye_ = eye;
  framed_ = true;
  wish();
}

void OrbitView::wish() {
  if (!isVisible()) return;
  if (!framed_) {
    framed_ = true;
    showAll();
    return;
  }
  PictureWish wish;
  wish.place = sheet_.evaluator().now()->place;
  const double dpr = devicePixelRatioF();
  const picture::Size size{std::max(8, static_cast<int>(width() * dpr)),
                           std::max(8, static_cast<int>(height() * dpr))};
  wish.view = picture::viewOf(eye_, size);
  wish.options.size = size;
  wish.options.tones = tonesOf(inksOf(palette()));
  wish.steps = down_ ? std::vector<int>{4} : std::vector<int>{4, 2, 1};
  wish.volume_range_m = kVolumeM;
  volume_of_.clear();
  const Workspace& workspace = sheet_.workspace();
  if (const design::Storey* storey = workspace.shownStorey()) {
    wish.options.cut_m = storey->floor_m + storey->height_m - kCutM;
    const std::string selected = workspace.selectedImager();
    for (const design::PosedImager& imager : sheet_.sheet().imagers) {
      const design::Housing* housing = design::findHousing(workspace.design(), imager.housing);
      if (!housing || !drawing::drawnOn(workspace.design(), *housing, *storey)) continue;
      if (wish.volumes.size() >= kMostVolumes && imager.imager != selected) continue;
      wish.volumes.push_back(picture::viewOf(imager));
      volume_of_.push_back(imager.imager);
    }
  }
  for (const edit::ObjectRef& ref : workspace.selection()) wish.tinted.push_back(ref.id);
  maker_.wish(std::move(wish));
}

void OrbitView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const drawing::Inks inks = inksOf(palette());
  const auto made = maker_.now();
  if (!made) {
    painter.fillRect(rect(), colourOf(inks.paper));
    painter.setPen(colourOf(inks.quiet));
    painter.drawText(rect(), Qt::AlignCenter, tr("being drawn"));
    return;
  }
  painter.setRenderHint(QPainter::SmoothPixmapTransform, made->step == 1);
  painter.drawImage(rect(), made->image);
  painter.setRenderHint(QPainter::Antialiasing);
  const double sx = static_cast<double>(width()) / made->image.width();
  const double sy = static_cast<double>(height()) / made->image.height();
  const std::string selected = sheet_.workspace().selectedImager();
  for (const bool of_selected : {false, true})
    for (std::size_t i = 0; i < made->volumes.size() && i < drawn_volume_of_.size(); ++i) {
      const bool is = drawn_volume_of_[i] == selected;
      if (is != of_selected) continue;
      for (const picture::LineStretch& stretch : made->volumes[i]) {
        QPainterPath path;
        for (std::size_t k = 0; k < stretch.places.size(); ++k) {
          const QPointF p(stretch.places[k].x * sx, stretch.places[k].y * sy);
          k == 0 ? path.moveTo(p) : path.lineTo(p);
        }
        QPen pen(colourOf(is ? inks.accent : inks.quiet), is ? 1.6 : 0.8);
        if (stretch.hidden) pen.setDashPattern({3, 4});
        painter.setPen(pen);
        painter.drawPath(path);
      }
    }
  QFont font = this->font();
  font.setPointSizeF(9);
  painter.setFont(font);
  const picture::Size size{width(), height()};
  std::string named;  // each housing once
  for (const design::PosedImager& imager : sheet_.sheet().imagers) {
    if (std::find(drawn_volume_of_.begin(), drawn_volume_of_.end(), imager.imager) ==
        drawn_volume_of_.end())
      continue;
    const auto at = picture::placeOf(made->view, size, imager.lens_m);
    if (!at) continue;
    const bool is = imager.imager == selected;
    painter.setPen(Qt::NoPen);
    painter.setBrush(colourOf(is ? inks.accent : inks.ink));
    painter.drawEllipse(QPointF(at->x, at->y), 2.5, 2.5);
    painter.setBrush(Qt::NoBrush);
    if (imager.housing.text == named) continue;
    named = imager.housing.text;
    painter.setPen(colourOf(inks.ink));
    painter.drawText(QPointF(at->x + 7, at->y - 5), QString::fromStdString(named));
  }
}

void OrbitView::resizeEvent(QResizeEvent*) { wish(); }

// ---- hands --------------------------------------------------------------------------------------

std::optional<picture::Spot> OrbitView::spotAt(QPointF at) const {
  const auto made = maker_.now();
  if (!made) return std::nullopt;
  return spotIn(*made, {at.x() * made->image.width() / std::max(width(), 1),
                        at.y() * made->image.height() / std::max(height(), 1)});
}

void OrbitView::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton && event->button() != Qt::MiddleButton) return;
  down_ = true;
  moved_ = false;
  pans_ = event->button() == Qt::MiddleButton || event->modifiers().testFlag(Qt::ShiftModifier);
  from_ = last_ = event->position();
}

void OrbitView::mouseMoveEvent(QMouseEvent* event) {
  if (!down_) return;
  const QPointF way = event->position() - last_;
  if (!moved_ && (event->position() - from_).manhattanLength() < kClickPx) return;
  moved_ = true;
  last_ = event->position();
  if (pans_) {
    setEye(picture::panned(eye_, {way.x(), way.y()}, height()));
  } else {
    // The building turns with the hand.
    setEye(picture::orbited(eye_, way.x() * kDegPerPx, way.y() * kDegPerPx));
  }
}

void OrbitView::mouseReleaseEvent(QMouseEvent* event) {
  if (!down_) return;
  down_ = false;
  if (moved_) {
    wish();  // now fine
  } else if (event->button() == Qt::LeftButton) {
    selectAt(event->position());
  }
}

// A lens near the pointer, else what is seen there.
void OrbitView::selectAt(QPointF at) {
  Workspace& workspace = sheet_.workspace();
  const auto made = maker_.now();
  if (!made) return;
  for (const design::PosedImager& imager : sheet_.sheet().imagers) {
    const auto place = picture::placeOf(made->view, {width(), height()}, imager.lens_m);
    if (place && norm(*place - Vec2{at.x(), at.y()}) <= kPickPx &&
        std::find(drawn_volume_of_.begin(), drawn_volume_of_.end(), imager.imager) !=
            drawn_volume_of_.end()) {
      workspace.select({{edit::ObjectKind::housing, imager.housing.text, imager.slot}});
      return;
    }
  }
  const auto spot = spotAt(at);
  if (!spot || spot->source.empty()) {
    workspace.select({});
    return;
  }
  for (const edit::ObjectLine& line : edit::objectsOf(workspace.design(), {}))
    if (line.ref.id == spot->source && line.ref.slot == 0 &&
        line.ref.kind != edit::ObjectKind::storey) {
      workspace.select({line.ref});
      return;
    }
  workspace.select({});
}

void OrbitView::mouseDoubleClickEvent(QMouseEvent* event) {
  const auto spot = spotAt(event->position());
  if (!spot) return;
  picture::OrbitEye next = eye_;
  next.target_m = spot->at_m;
  setEye(next);
}

void OrbitView::wheelEvent(QWheelEvent* event) {
  const double notches = event->angleDelta().y() / 120.0;
  if (notches == 0) return;
  const auto spot = spotAt(event->position());
  setEye(picture::dollied(eye_, std::pow(kWheelFactor, notches),
                          spot ? spot->at_m : eye_.target_m));
  event->accept();
}

void OrbitView::keyPressEvent(QKeyEvent* event) {
  const bool pan = event->modifiers().testFlag(Qt::ShiftModifier);
  const auto go = [&](int x, int y) {
    setEye(pan ? picture::panned(eye_, Vec2{-1.0 * x, -1.0 * y} * kKeyPx, height())
               : picture::orbited(eye_, x * kKeyDeg, -y * kKeyDeg));
  };
  switch (event->key()) {
    case Qt::Key_Left: return go(-1, 0);
    case Qt::Key_Right: return go(1, 0);
    case Qt::Key_Up: return go(0, -1);
    case Qt::Key_Down: return go(0, 1);
    case Qt::Key_Plus: return setEye(picture::dollied(eye_, kWheelFactor, eye_.target_m));
    case Qt::Key_Minus: return setEye(picture::dollied(eye_, 1 / kWheelFactor, eye_.target_m));
    case Qt::Key_Home: return showAll();
    case Qt::Key_Escape: close(); return;
    default: QWidget::keyPressEvent(event);
  }
}

void OrbitView::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) wish();
  QWidget::changeEvent(event);
}

}  // namespace belvedere::desk
