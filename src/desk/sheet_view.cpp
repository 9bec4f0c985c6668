// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet's view; sheet_view_events.cpp takes the pointer and keys, sheet_view_paint.cpp paints.
#include "desk/sheet_view.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "desk/colours.h"
#include "desk/pointer_tool.h"
#include "edit/object.h"

namespace belvedere::desk {
namespace {

constexpr double kLeastPxPerM = 0.02, kMostPxPerM = 20'000;
constexpr double kRoomPx = 36;          // around what is shown whole
constexpr int kSettleMs = 70, kRestMs = 250;
constexpr int kJoinMs = 8;  // a look at what a hand moved is mostly done by then
constexpr double kSnapPx = 10;
constexpr double kEmptyM = 12;          // half of what an empty sheet shows
// Where a whole site is shown, a dial is about as large as what hangs there, and too small to name.
constexpr double kDialM = 1.6, kLeastDialMm = 0.9, kNamedFromMm = 2.2;

bool isSelected(const Workspace& workspace, const design::HousingId& id) {
  return std::any_of(workspace.selection().begin(), workspace.selection().end(),
                     [&](const edit::ObjectRef& ref) {
                       return ref.kind == edit::ObjectKind::housing && ref.id == id.text;
                     });
}

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
  ghosts_due_.setSingleShot(true);
  live_due_.setSingleShot(true);
  live_due_.setTimerType(Qt::PreciseTimer);
  live_due_.setInterval(kJoinMs);
  connect(&live_due_, &QTimer::timeout, this, qOverload<>(&SheetView::update));
  connect(&ghosts_due_, &QTimer::timeout, this, &SheetView::shapeGhosts);
  connect(&settle_, &QTimer::timeout, this, &SheetView::refresh);
  connect(&workspace_, &Workspace::opened, this, [this] {
    fitted_ = false;
    foot_px_ = 0;
    setTool(nullptr);
  });
  connect(&workspace_, &Workspace::designChanged, this, &SheetView::takeDesign);
  connect(&workspace_, &Workspace::viewChanged, this, [this] {
    takeDesign();
    if (!fitted_) showAll();
  });
  connect(&workspace_, &Workspace::selectionChanged, this, [this] {
    sheet_.selected_imager = workspace_.selectedImager();
    sheet_.selected_aim = workspace_.selectedAim();
    dials_.reset();
    above_stale_ = true;  // words keep off the large dial, and it is live
    refreshLive();
  });
  connect(&workspace_, &Workspace::requirementChanged, this, [this] {
    sheet_.selected_requirement = workspace_.requirement();
    takeNight();
    refresh();
  });
  connect(&workspace_, &Workspace::draggingChanged, this, [this] {
    if (workspace_.isDragging() || moving_.empty()) return;
    moving_.clear();
    above_stale_ = true;
    refreshLive();
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
  level == Level::below ? refresh() : refreshWords();
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
  fitted_foot_px_ = std::max(furniture_.roomPx(), foot_px_);
  const double foot_px = fitted_foot_px_;
  const double y = std::max(height() - 2 * kRoomPx - foot_px, 40.0) / std::max(size.y, 0.5);
  px_per_m_ = std::clamp(std::min(x, y), kLeastPxPerM, kMostPxPerM);
  centre_m_ = (site_m.low + site_m.high) * 0.5 - Vec2{0, 0.5 * foot_px / px_per_m_};
  viewChanged();
}

void SheetView::showAll() {
  Box2 box;
  for (const edit::ObjectLine& line : edit::objectsOf(workspace_.design(), workspace_.storey()))
    if (!line.extent.empty()) {
      box.add(line.extent.low);
      box.add(line.extent.high);
    }
  for (const Laid& laid : overlays_)
    if (const Box2 extent = laid.overlay->extentM(); !extent.empty()) {
      box.add(extent.low);
      box.add(extent.high);
    }
  if (box.empty()) box = {{-kEmptyM, -kEmptyM}, {kEmptyM, kEmptyM}};
  fitted_ = false;
  showBox(box);
}

void SheetView::showObject(const edit::ObjectRef& ref) {
  for (const edit::ObjectLine& line : edit::objectsOf(workspace_.design(), {}))
    if (line.ref == ref) {
      if (line.extent.empty()) return;  // it has no place
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

void SheetView::setShowsFurniture(bool on) {
  furniture_.setShown(on);
  foot_px_ = 0;
  if (!fitted_) showAll();
  refreshLive();
}

// ---- what is drawn ------------------------------------------------------------------------------

bool SheetView::dark() const { return systemIsDark(palette()); }

void SheetView::takeDesign() {
  const bool others_alike = sheet_.design->site == workspace_.design().site &&
                            sheet_.storey == workspace_.storey() &&
                            sheet_.situation == workspace_.situation();
  const bool kept = others_alike && sheet_.design->brief == workspace_.design().brief &&
                    sheet_.design->housings.size() == workspace_.design().housings.size();
  const drawing::SharedDesign kept_before =
      std::exchange(sheet_.design, drawing::SharedDesign(workspace_.shareDesign()));
  const design::Design& before = *kept_before;
  sheet_.storey = workspace_.storey();
  sheet_.situation = workspace_.situation();
  sheet_.selected_requirement = workspace_.requirement();
  sheet_.selected_imager = workspace_.selectedImager();
  sheet_.selected_aim = workspace_.selectedAim();
  poseImagers(before);
  takeNight();
  dials_.reset();
  if (!others_alike) {
    shapes_.clear();
    snap_set_.reset();
  }
  if (workspace_.isDragging() && kept) {
    // What the kept pictures show stands still, but for a dial that is not selected and moves.
    for (std::size_t i = 0; i < before.housings.size(); ++i)
      if (const design::Housing& now = sheet_.design->housings[i];
          now != before.housings[i] && !isSelected(workspace_, now.id) &&
          std::find(moving_.begin(), moving_.end(), now.id) == moving_.end()) {
        moving_.push_back(now.id);
        above_stale_ = true;
      }
    refreshLive();
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
  const bool was_here = shown_maps_ == before->maps;
  if (here != was_here || evaluation_->maps != before->maps || evaluation_->areas != before->areas) {
    shown_maps_ = here ? evaluation_->maps : nullptr;
    sheet_.maps = here ? drawing::SharedMaps(evaluation_->maps) : drawing::SharedMaps();
    wash_stale_ = true;
  }
  takeNight();
  if (workspace_.isDragging()) {
    if (evaluation_->look == before->look) return;  // rows of the ledger alone
    sheet_.outlines = here ? evaluation_->outlines : std::vector<drawing::ImagerOutline>{};
    sheet_.blind_zones.clear();
    update();
    return;
  }
  sheet_.outlines = here ? evaluation_->outlines : std::vector<drawing::ImagerOutline>{};
  sheet_.blind_zones = blind_zones_ ? evaluation_->blind_zones : std::vector<proof::BlindZone>{};
  sheet_.proof.requirements.clear();
  for (const LedgerRow& row : evaluation_->rows)
    if (row.known == Known::proven && row.version == evaluation_->version)
      sheet_.proof.requirements.push_back(row.proof);
  above_stale_ = true;
  update();
}

// The light as far as it is known of what is shown. While a hand drags, what it made wrong stays away.
void SheetView::takeNight() {
  if (workspace_.isDragging() && !sheet_.night) return;
  const std::shared_ptr<const Night>& known = evaluation_->night;
  const bool holds = known && known->plan &&
                     holdsFor(*known, sheet_.design, sheet_.storey, workspace_.shownSituation(),
                              sheet_.selected_requirement);
  const auto plan = holds ? known->plan : nullptr;
  if (plan == sheet_.night) return;
  sheet_.night = plan;
  wash_stale_ = above_stale_ = true;  // the wash: densities' lines come or go
  refreshLive();
}

// Poses again the imagers of housings that changed; all where anything else could matter.
void SheetView::poseImagers(const design::Design& before) {
  const design::Design& now = *sheet_.design;
  const bool same_models =
      before.housings.size() == now.housings.size() && before.catalogue == now.catalogue &&
      before.library.size() == now.library.size();
  if (!same_models) {
    sheet_.imagers = design::posedImagers(now, design::JudgedOn::captured);
    return;
  }
  std::vector<design::PosedImager> imagers;
  auto old = sheet_.imagers.begin();
  for (std::size_t i = 0; i < now.housings.size(); ++i) {
    const auto first = old;  // they stand housing by housing, in the order of the file
    while (old != sheet_.imagers.end() && old->housing == before.housings[i].id) ++old;
    if (before.housings[i] == now.housings[i]) {
      imagers.insert(imagers.end(), std::make_move_iterator(first), std::make_move_iterator(old));
    } else if (now.housings[i].life != design::Life::removed) {
      auto fresh = design::posedImagersOf(now, now.housings[i], design::JudgedOn::captured);
      imagers.insert(imagers.end(), std::make_move_iterator(fresh.begin()),
                     std::make_move_iterator(fresh.end()));
    }
  }
  sheet_.imagers = std::move(imagers);
}

// Whether it moves with a hand: then it is painted anew with each frame.
bool SheetView::isLive(const drawing::Dial& dial) const {
  return isSelected(workspace_, dial.housing->id) ||
         std::find(moving_.begin(), moving_.end(), dial.housing->id) != moving_.end();
}

const std::vector<drawing::Dial>& SheetView::dials() const {
  if (dials_ && dials_->centre_m == centre_m_ && dials_->px_per_m == px_per_m_ &&
      dials_->size == size())
    return dials_->dials;
  dials_ = KnownDials{centre_m_, px_per_m_, size(), {}};
  if (!workspace_.shownStorey()) return dials_->dials;
  const drawing::ToPaper to_paper = toPaper();
  dials_->dials = drawing::dialsOf(sheet_, to_paper);
  const design::Housing* selected = workspace_.selectedHousing();
  const double radius_mm = std::clamp(kDialM * to_paper.mm_per_m, kLeastDialMm,
                                      drawing::kDialRadiusMm);
  for (drawing::Dial& dial : dials_->dials) {
    const bool large = selected && dial.housing->id == selected->id;
    dial.radius_mm = large ? kSelectedDialMm : radius_mm;
    dial.named = large || radius_mm >= kNamedFromMm;
  }
  return dials_->dials;
}

void SheetView::refreshLive() {
  if (!workspace_.isDragging()) return update();
  if (!live_due_.isActive()) live_due_.start();
}

void SheetView::refreshWords() {
  above_stale_ = true;
  refreshLive();
}

void SheetView::refresh() {
  below_stale_ = wash_stale_ = above_stale_ = true;
  update();
}

}  // namespace belvedere::desk
