// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet's view and events; sheet_view_paint.cpp paints.
#include "desk/sheet_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

#include "desk/colours.h"
#include "desk/pointer_tool.h"
#include "edit/object.h"

namespace belvedere::desk {
namespace {

constexpr double kLeastPxPerM = 0.02, kMostPxPerM = 20'000;
constexpr double kRoomPx = 36;          // around what is shown whole
constexpr int kSettleMs = 70, kRestMs = 250;
constexpr double kSnapPx = 10;
constexpr double kWheelStep = 1.2;      // zoom of one notch
constexpr double kEmptyM = 12;          // half of what an empty sheet shows

}  // namespace

SheetView::SheetView(Workspace& workspace, Evaluator& evaluator, QWidget* parent)
    : QWidget(parent), workspace_(workspace), evaluator_(evaluator), evaluation_(evaluator.now()) {
  setFocusPolicy(Qt::StrongFocus);
  setMouseTracking(true);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setMinimumSize(240, 180);
  setAccessibleName(tr("Plan"));
  setAccessibleDescription(tr("The plan as drawing board. Everything on it is also listed in the "
                              "table of objects."));
  settle_.setSingleShot(true);
  settle_.setInterval(kSettleMs);
  rest_.setSingleShot(true);
  rest_.setInterval(kRestMs);
  connect(&settle_, &QTimer::timeout, this, &SheetView::refresh);
  connect(&workspace_, &Workspace::opened, this, [this] {
    fitted_ = false;
    setTool(nullptr);
  });
  connect(&workspace_, &Workspace::designChanged, this, &SheetView::takeDesign);
  connect(&workspace_, &Workspace::viewChanged, this, [this] {
    takeDesign();
    if (!fitted_) showAll();
  });
  connect(&workspace_, &Workspace::selectionChanged, this, [this] {
    sheet_.selected_imager = workspace_.selectedImager();
    above_stale_ = true;  // words keep off the large dial
    refreshLive();
  });
  connect(&workspace_, &Workspace::requirementChanged, this, [this] {
    sheet_.selected_requirement = workspace_.requirement();
    refresh();
  });
  connect(&evaluator_, &Evaluator::evaluated, this, &SheetView::takeEvaluation);
  setTool(nullptr);
  takeDesign();
}

SheetView::~SheetView() = default;

void SheetView::setTool(std::unique_ptr<Tool> tool) {
  if (tool_) tool_->cancel();
  tool_ = tool ? std::move(tool) : std::make_unique<PointerTool>(*this);
  setCursor(tool_->cursor());
  Q_EMIT toolChanged();
  refreshLive();
}

void SheetView::addOverlay(Overlay* overlay, Level level) {
  overlays_.push_back({overlay, level});
  level == Level::below ? refresh() : refreshLive();
}

void SheetView::removeOverlay(Overlay* overlay) {
  std::erase_if(overlays_, [&](const Laid& laid) { return laid.overlay == overlay; });
  if (taken_by_ == overlay) taken_by_ = nullptr;
  refresh();
}

// ---- the view -----------------------------------------------------------------------------------

double SheetView::mmPerPx() const { return 25.4 / logicalDpiX(); }

Vec2 SheetView::siteAt(Vec2 px) const {
  return {centre_m_.x + (px.x - 0.5 * width()) / px_per_m_,
          centre_m_.y - (px.y - 0.5 * height()) / px_per_m_};
}

Vec2 SheetView::pxAt(Vec2 site_m) const {
  return {0.5 * width() + (site_m.x - centre_m_.x) * px_per_m_,
          0.5 * height() - (site_m.y - centre_m_.y) * px_per_m_};
}

Box2 SheetView::shownM() const {
  Box2 box;
  box.add(siteAt({0, 0}));
  box.add(siteAt({static_cast<double>(width()), static_cast<double>(height())}));
  return box;
}

drawing::ToPaper SheetView::toPaper() const {
  const double mm = mmPerPx();
  return {centre_m_, {0.5 * width() * mm, 0.5 * height() * mm}, px_per_m_ * mm};
}

drawing::Layout SheetView::layout() const {
  drawing::Layout layout;
  const double mm = mmPerPx();
  layout.plan = {{0, 0}, {width() * mm, height() * mm}};
  layout.frame = layout.plan;
  layout.to_paper = toPaper();
  layout.scale = 1000 / layout.to_paper.mm_per_m;
  return layout;
}

void SheetView::viewChanged() {
  settle_.start();
  Q_EMIT viewMoved();
  update();
}

void SheetView::zoomAt(Vec2 px, double factor) {
  const Vec2 held = siteAt(px);
  px_per_m_ = std::clamp(px_per_m_ * factor, kLeastPxPerM, kMostPxPerM);
  const Vec2 now = siteAt(px);
  centre_m_ = centre_m_ + (held - now);
  fitted_ = true;
  viewChanged();
}

void SheetView::panBy(Vec2 px) {
  centre_m_ = centre_m_ + Vec2{-px.x / px_per_m_, px.y / px_per_m_};
  fitted_ = true;
  viewChanged();
}

void SheetView::showBox(const Box2& site_m) {
  if (site_m.empty()) return;
  const Vec2 size = site_m.high - site_m.low;
  const double x = std::max(width() - 2 * kRoomPx, 40.0) / std::max(size.x, 0.5);
  const double y = std::max(height() - 2 * kRoomPx, 40.0) / std::max(size.y, 0.5);
  px_per_m_ = std::clamp(std::min(x, y), kLeastPxPerM, kMostPxPerM);
  centre_m_ = (site_m.low + site_m.high) * 0.5;
  viewChanged();
}

void SheetView::showAll() {
  Box2 box;
  for (const edit::ObjectLine& line : edit::objectsOf(workspace_.design(), workspace_.storey()))
    if (!line.extent.empty()) {
      box.add(line.extent.low);
      box.add(line.extent.high);
    }
  if (box.empty()) box = {{-kEmptyM, -kEmptyM}, {kEmptyM, kEmptyM}};
  fitted_ = false;
  showBox(box);
}

void SheetView::showObject(const edit::ObjectRef& ref) {
  for (const edit::ObjectLine& line : edit::objectsOf(workspace_.design(), {}))
    if (line.ref == ref) {
      if (!line.storey.empty()) workspace_.setStorey(line.storey);
      const Box2 shown = shownM();
      const bool inside = line.at_m.x > shown.low.x && line.at_m.x < shown.high.x &&
                          line.at_m.y > shown.low.y && line.at_m.y < shown.high.y;
      if (!inside) {
        centre_m_ = line.at_m;
        fitted_ = true;
        viewChanged();
      }
      return;
    }
}

// ---- snapping -----------------------------------------------------------------------------------

edit::Snap SheetView::snap(const Pointer& pointer, std::optional<Vec2> start,
                           const edit::Selection& except) const {
  if (!snap_set_)
    snap_set_ = edit::snapSetOf(workspace_.design(), workspace_.storey(), workspace_.situation());
  edit::SnapAsk ask;
  // One key switches it off, or on where it is off, while it is held.
  ask.on = snapping_ != pointer.keys.testFlag(Qt::AltModifier);
  ask.within_m = metres(kSnapPx);
  ask.grid_m = grid_m_;
  ask.start = start;
  ask.except = except;
  return edit::snapped(*snap_set_, pointer.at_m, ask);
}

void SheetView::setSnapping(bool on) { snapping_ = on; }
void SheetView::setGridM(double grid_m) {
  grid_m_ = grid_m;
  refresh();
}
void SheetView::setShowsBlindZones(bool on) {
  blind_zones_ = on;
  refresh();
}
void SheetView::setShowsGhosts(bool on) {
  ghosts_ = on;
  refresh();
}

// ---- what is drawn ------------------------------------------------------------------------------

bool SheetView::dark() const { return systemIsDark(palette()); }

void SheetView::takeDesign() {
  const bool others_alike = sheet_.design.site == workspace_.design().site &&
                            sheet_.storey == workspace_.storey() &&
                            sheet_.situation == workspace_.situation();
  const bool kept = others_alike && sheet_.design.brief == workspace_.design().brief &&
                    sheet_.design.housings.size() == workspace_.design().housings.size();
  sheet_.design = workspace_.design();
  sheet_.storey = workspace_.storey();
  sheet_.situation = workspace_.situation();
  sheet_.selected_requirement = workspace_.requirement();
  sheet_.selected_imager = workspace_.selectedImager();
  sheet_.imagers = design::posedImagers(sheet_.design, design::JudgedOn::captured);
  if (!others_alike) {
    shapes_.clear();
    snap_set_.reset();
  }
  if (workspace_.isDragging() && kept) {
    refreshLive();  // what the kept pictures show stands still
  } else {
    snap_set_.reset();
    refresh();
  }
}

void SheetView::takeEvaluation() {
  const auto before = evaluation_;
  evaluation_ = evaluator_.now();
  const bool here = evaluation_->storey == workspace_.storey() &&
                    evaluation_->situation == workspace_.situation();
  sheet_.maps = here ? evaluation_->maps : std::vector<drawing::ZoneMap>{};
  sheet_.outlines = here ? evaluation_->outlines : std::vector<drawing::ImagerOutline>{};
  sheet_.blind_zones = blind_zones_ && !workspace_.isDragging() ? evaluation_->blind_zones
                                                                : std::vector<proof::BlindZone>{};
  sheet_.proof.requirements.clear();
  for (const LedgerRow& row : evaluation_->rows)
    if (row.known == Known::proven && row.version == evaluation_->version)
      sheet_.proof.requirements.push_back(row.proof);
  wash_stale_ = true;
  if (!workspace_.isDragging()) above_stale_ = true;
  update();
}

std::vector<drawing::Dial> SheetView::dials() const {
  if (!workspace_.shownStorey()) return {};
  std::vector<drawing::Dial> dials = drawing::dialsOf(sheet_, toPaper());
  const design::Housing* selected = workspace_.selectedHousing();
  for (drawing::Dial& dial : dials)
    if (selected && dial.housing->id == selected->id) dial.radius_mm = kSelectedDialMm;
  return dials;
}

void SheetView::refresh() {
  below_stale_ = wash_stale_ = above_stale_ = true;
  update();
}

// ---- events -------------------------------------------------------------------------------------

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

void SheetView::resizeEvent(QResizeEvent*) {
  if (!fitted_) showAll();
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
