// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/prints.h"

#include <QResizeEvent>

#include <algorithm>
#include <cmath>
#include <utility>

#include "desk/outline_handles.h"
#include "desk/shown_units.h"
#include "edit/lengths.h"

namespace belvedere::desk {
namespace {

constexpr int kWidthPx = 264, kRoomPx = 14;
constexpr double kFarCosts = 6, kWallStepPx = 16;
constexpr double kUsualPx2 = 264 * 220;     // of a print
constexpr double kSmallerWhereShare = 0.6;  // of what the larger print covers

}  // namespace

Prints::Prints(SheetView& sheet, SectionOverlay& section)
    : QObject(&sheet), sheet_(sheet), section_(section) {
  sheet_.addOverlay(this, Level::above);
  sheet_.installEventFilter(this);
  Workspace& workspace = sheet_.workspace();
  connect(&workspace, &Workspace::selectionChanged, this, &Prints::takeSelection);
  connect(&workspace, &Workspace::designChanged, this, &Prints::takeDesign);
  connect(&workspace, &Workspace::opened, this, [this] {
    mark_.reset();
    while (!prints_.empty()) drop(prints_.begin()->first);
  });
  connect(&workspace, &Workspace::draggingChanged, this, [this] {
    if (!sheet_.workspace().isDragging()) takeDesign();
  });
  connect(&sheet_.evaluator(), &Evaluator::evaluated, this, &Prints::takeEvaluation);
  connect(&sheet_, &SheetView::painted, this, [this] {
    if (!std::exchange(waits_for_frame_, false)) return;
    for (const auto& [name, print] : prints_) print->take();
  });
  connect(&sheet_, &SheetView::viewMoved, this, [this] {
    for (const auto& [name, print] : prints_) print->follow();
  });
  connect(&sheet_, &SheetView::pointed, this, [this](Vec2 at) {
    const design::Storey* storey = sheet_.workspace().shownStorey();
    if (!storey) return;
    for (const auto& [name, print] : prints_) print->pointAt(withZ(at, storey->floor_m));
  });
}

bool Prints::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &sheet_ && event->type() == QEvent::Resize) {
    // Once the sheet has its new view: prints follow that, and must not end up beside it.
    const QRect before({0, 0}, static_cast<QResizeEvent*>(event)->oldSize());
    for (const auto& [name, print] : prints_)
      if (print->isVisible() && print->geometry().intersects(before)) to_be_kept_in_.insert(name);
    QMetaObject::invokeMethod(this, &Prints::keepIn, Qt::QueuedConnection);
  }
  return QObject::eventFilter(watched, event);
}

void Prints::keepIn() {
  for (const std::string& name : std::exchange(to_be_kept_in_, {}))
    if (PrintView* print = printOf(name)) print->keepWithin(sheet_.rect());
  sheet_.refreshWords();
}

PrintView* Prints::printOf(const std::string& imager) const {
  const auto found = prints_.find(imager);
  return found == prints_.end() ? nullptr : found->second;
}

void Prints::setShowsSelected(bool shows) {
  shows_selected_ = shows;
  put_away_.clear();
  takeSelection();
}

void Prints::setLit(bool lit) {
  lit_ = lit;
  for (const auto& [name, print] : prints_) print->setLit(lit);
}

void Prints::togglePinned() {
  PrintView* print = printOf(sheet_.workspace().selectedImager());
  if (!print) {
    put_away_.clear();
    takeSelection();
    print = printOf(sheet_.workspace().selectedImager());
  }
  if (!print) return;
  print->setPinned(!print->isPinned());
  sheet_.workspace().tell(
      print->isPinned() ? tr("The print of %1 stays.").arg(QString::fromStdString(print->name()))
                        : tr("The print of %1 goes when something else is selected.")
                              .arg(QString::fromStdString(print->name())));
}

void Prints::drop(const std::string& imager) {
  const auto found = prints_.find(imager);
  if (found == prints_.end()) return;
  found->second->hide();
  found->second->deleteLater();
  prints_.erase(found);
  sheet_.refreshWords();
}

void Prints::takeSelection() {
  const auto imager = selectedRef(sheet_.workspace());
  const std::string name = imager ? edit::nameOf(*imager) : std::string();
  if (name != put_away_) put_away_.clear();
  std::vector<std::string> gone;
  for (const auto& [other, print] : prints_)
    if (other != name && !print->isPinned()) gone.push_back(other);
  if (!shows_selected_ && printOf(name) && !printOf(name)->isPinned()) gone.push_back(name);
  for (const std::string& other : gone) drop(other);
  if (PrintView* print = printOf(name)) print->setAim(imager->aim);
  for (const auto& [other, print] : prints_) print->update();
  to_be_placed_.clear();
  if (!imager || !shows_selected_ || printOf(name) || name == put_away_) return;
  if (!edit::posedOf(sheet_.workspace().design(), *imager, design::JudgedOn::captured)) return;
  auto* print = new PrintView(sheet_, *imager);
  print->setLit(lit_);
  prints_[name] = print;
  connect(print, &PrintView::marked, this, [this](Vec3 at) { setMark(at); });
  connect(print, &PrintView::hovered, this, [this, print](std::optional<Vec3> at) {
    print->pointAt(std::nullopt);
    hovered_ = at;
    for (const auto& [other, its] : prints_)
      if (its != print) its->pointAt(at);
    sheet_.refreshLive();
  });
  connect(print, &PrintView::moved, this, [this] { sheet_.refreshWords(); });
  connect(print, &PrintView::putAway, this, [this, name] {
    if (sheet_.workspace().selectedImager() == name) put_away_ = name;
    drop(name);
    hovered_.reset();
    sheet_.setFocus();
  });
  to_be_placed_ = name;
  takeEvaluation();
}

// While a hand drags, prints wait for the plan's own frame.
void Prints::takeDesign() {
  if (sheet_.workspace().isDragging()) return;
  std::vector<std::string> gone;
  for (const auto& [name, print] : prints_) {
    if (edit::posedOf(sheet_.workspace().design(), print->imager(), design::JudgedOn::captured)) {
      print->take();
    } else {
      gone.push_back(name);
    }
  }
  for (const std::string& name : gone) drop(name);
}

void Prints::takeEvaluation() {
  if (sheet_.workspace().isDragging()) {
    waits_for_frame_ = sheet_.evaluator().now()->version == sheet_.workspace().version();
    return;
  }
  for (const auto& [name, print] : prints_) print->take();
  if (to_be_placed_.empty()) return;
  PrintView* print = printOf(to_be_placed_);
  const auto now = sheet_.evaluator().now();
  if (!print || !now->place || !now->section || now->section->imager != to_be_placed_) return;
  to_be_placed_.clear();
  place(*print);
  print->show();
  sheet_.refreshWords();
}

// Beside the axis or at the sheet's edge: where it covers least of what one works at.
void Prints::place(PrintView& print) {
  const auto posed = edit::posedOf(sheet_.workspace().design(), print.imager(),
                                   design::JudgedOn::captured);
  if (!posed) return;
  // Smaller where that covers less.
  const int width = std::clamp(sheet_.width() / 3, 160, kWidthPx);
  std::optional<Placed> best;
  for (const int wide : {width, std::max(160, 3 * width / 4)}) {
    const Placed found = placeFor(print, *posed, PrintView::sizeFor(*posed, wide));
    if (!best || found.covers < kSmallerWhereShare * best->covers) best = found;
  }
  print.resize(best->size);
  print.pinAt(sheet_.siteAt(best->at_px));
}

Prints::Placed Prints::placeFor(const PrintView& print, const design::PosedImager& view,
                                QSize size) const {
  const double w = size.width(), h = size.height();
  const Vec2 lens = sheet_.pxAt(view.lens_m.xy());
  Vec2 ahead = view.imager_from_site.row[2].xy();
  ahead = norm(ahead) > 1e-6 ? Vec2{ahead.x, -ahead.y} / norm(ahead) : Vec2{0, -1};
  const Vec2 right = sheet_.width() > 2 * (w + kRoomPx) ? Vec2{sheet_.width() - w - kRoomPx, 0}
                                                        : Vec2{kRoomPx, 0};
  const double foot = sheet_.furniture().isShown() ? sheet_.furniture().area().height() : 0;
  const double far_x = right.x, far_y = std::max(sheet_.height() - h - kRoomPx - foot, 0.0);
  std::vector<Vec2> places{{kRoomPx, kRoomPx},
                           {far_x, kRoomPx},
                           {kRoomPx, far_y},
                           {far_x, far_y},
                           {kRoomPx, 0.5 * far_y},
                           {far_x, 0.5 * far_y},
                           {0.5 * far_x, kRoomPx},
                           {0.5 * far_x, far_y}};
  for (const double along : {60.0, 160.0, 260.0})
    for (const double side : {-1.0, 1.0}) {
      const Vec2 middle = lens + ahead * along + perpLeft(ahead) * (side * (0.5 * w + 70));
      places.push_back(
          {std::clamp(middle.x - 0.5 * w, 1.0 * kRoomPx, std::max(far_x, 1.0 * kRoomPx)),
           std::clamp(middle.y - 0.5 * h, 1.0 * kRoomPx, std::max(far_y, 1.0 * kRoomPx))});
    }
  const Ring quad = section_.coveredPx();
  // Along the walls, px.
  std::vector<Vec2> walls;
  const design::Design& design = sheet_.workspace().design();
  const design::Storey* storey = sheet_.workspace().shownStorey();
  const design::Building* building =
      storey ? design::findBuildingOf(design, storey->id) : nullptr;
  for (const design::Wall& wall : building ? storey->walls : std::vector<design::Wall>{})
    for (std::size_t i = 0; i + 1 < wall.path.size(); ++i) {
      const Vec2 a = sheet_.pxAt(design::siteFromBuilding(*building, wall.path[i]));
      const Vec2 b = sheet_.pxAt(design::siteFromBuilding(*building, wall.path[i + 1]));
      const int steps = 1 + static_cast<int>(norm(b - a) / kWallStepPx);
      for (int k = 0; k < steps; ++k) walls.push_back(a + (b - a) * (1.0 * k / steps));
    }
  const auto covers = [&](Vec2 at) {
    double covered = 0;
    for (const Vec2 wall : walls)
      if (wall.x >= at.x && wall.x <= at.x + w && wall.y >= at.y && wall.y <= at.y + h)
        covered += 1;
    for (int i = 0; i <= 8; ++i)
      for (int k = 0; k <= 6; ++k) {
        const Vec2 px = at + Vec2{w * i / 8.0, h * k / 6.0};
        const Vec2 site = sheet_.siteAt(px);
        if (!quad.empty() && belvedere::contains(quad, px)) covered += 4;
        for (const drawing::ImagerOutline& outline : sheet_.sheet().outlines)
          if (belvedere::contains(outline.served, site)) covered += 3;
        for (const design::Zone& zone : sheet_.workspace().design().site.zones)
          if (zone.storey == sheet_.workspace().storey() &&
              belvedere::contains(zone.outline, site))
            covered += 1;
        for (const drawing::Dial& dial : sheet_.dials())
          if (norm(dial.at / sheet_.mmPerPx() - px) < 50) covered += 12;
        for (const auto& [name, other] : prints_)
          if (other != &print && other->isVisible() &&
              other->geometry().contains(static_cast<int>(px.x), static_cast<int>(px.y)))
            covered += 8;
      }
    // Near by, where that costs nothing else.
    return covered * w * h / kUsualPx2 +
           std::min(0.02 * norm(at + Vec2{0.5 * w, 0.5 * h} - lens), kFarCosts);
  };
  Vec2 best = places.front();
  double least = 1e300;
  for (const Vec2 at : places)
    if (const double covered = covers(at); covered < least) {
      least = covered;
      best = at;
    }
  return {best, size, least};
}

void Prints::setMark(std::optional<Vec3> site_m) {
  mark_ = site_m;
  for (const auto& [name, print] : prints_) print->setFigure(site_m, figure_m_);
  if (site_m) {
    const design::Storey* storey = sheet_.workspace().shownStorey();
    const double height_m = site_m->z - (storey ? storey->floor_m : 0);
    sheet_.workspace().tell(
        tr("Marked %1, %2 above the floor.")
            .arg(QString::fromStdString(edit::placeText(site_m->xy(), shownUnits())),
                 QString::fromStdString(edit::lengthText(height_m, shownUnits()))));
  }
  sheet_.refreshLive();
}

void Prints::setFigureM(double height_m) {
  figure_m_ = height_m;
  for (const auto& [name, print] : prints_) print->setFigure(mark_, figure_m_);
}

std::vector<Ring> Prints::covers(const drawing::ToPaper&) const {
  std::vector<Ring> rings;
  const double mm = sheet_.mmPerPx();
  for (const auto& [name, print] : prints_) {
    if (!print->isVisible()) continue;
    const QRect box = print->geometry();
    const double right = box.x() + box.width(), bottom = box.y() + box.height();
    rings.push_back({Vec2{1.0 * box.x(), 1.0 * box.y()} * mm, Vec2{right, 1.0 * box.y()} * mm,
                     Vec2{right, bottom} * mm, Vec2{1.0 * box.x(), bottom} * mm});
  }
  return rings;
}

void Prints::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                   const drawing::Inks& inks) {
  const double mm = sheet_.mmPerPx();
  for (const auto& [name, print] : prints_) {
    if (!print->isVisible()) continue;
    for (const drawing::Dial& dial : sheet_.dials()) {
      if (dial.housing->id != print->imager().housing) continue;
      Vec2 from = dial.at;
      for (const drawing::Knob& knob : drawing::knobsOf(dial))
        if (knob.imager == name) from = knob.at;
      const QRect box = print->geometry();
      const Vec2 to{std::clamp(from.x, box.left() * mm, box.right() * mm),
                    std::clamp(from.y, box.top() * mm, box.bottom() * mm)};
      canvas.line(from, to, {inks.quiet, 0.13});
    }
  }
  if (mark_) {
    const Vec2 at = to_paper(mark_->xy());
    const drawing::Stroke cross{inks.accent, 0.3};
    canvas.line(at - Vec2{2, 2}, at + Vec2{2, 2}, cross);
    canvas.line(at - Vec2{2, -2}, at + Vec2{2, -2}, cross);
  }
  if (hovered_) canvas.ring(to_paper(hovered_->xy()), 1.2, {inks.accent, 0.3});
}

}  // namespace belvedere::desk
