// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a print shows; print_view_events.cpp takes the hands.
#include "desk/print_view.h"

#include <QEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "desk/colours.h"
#include "edit/lengths.h"

namespace belvedere::desk {
namespace {

constexpr int kBorder = 5, kCaption = 22, kCorner = 14;
constexpr double kCaptionPt = 9;

bool sameView(const design::PosedImager& a, const design::PosedImager& b) {
  return a.lens_m == b.lens_m && a.imager_from_site == b.imager_from_site &&
         a.pixels == b.pixels && a.hfov_deg == b.hfov_deg && a.vfov_deg == b.vfov_deg &&
         a.masks_px == b.masks_px && a.frame_low_px == b.frame_low_px &&
         a.frame_high_px == b.frame_high_px;
}

}  // namespace

QSize PrintView::sizeFor(const design::PosedImager& view, int width) {
  const int across = width - 2 * kBorder;
  const double shape = static_cast<double>(view.pixels[1]) / std::max(view.pixels[0], 1);
  return {width, static_cast<int>(std::lround(across * shape)) + kBorder + kCaption};
}

PrintView::PrintView(SheetView& sheet, edit::ImagerRef imager)
    : QWidget(&sheet), sheet_(sheet), imager_(std::move(imager)) {
  setObjectName("print." + QString::fromStdString(name()));
  setAccessibleName(tr("Print of %1").arg(QString::fromStdString(name())));
  setMouseTracking(true);
  setFocusPolicy(Qt::TabFocus);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setCursor(Qt::CrossCursor);
  connect(&maker_, &PictureMaker::made, this, [this] {
    setAccessibleName(tr("Print of %1").arg(caption()));
    update();
    Q_EMIT madeAnew();
  });
}

void PrintView::pinAt(Vec2 site_m) {
  pinned_at_m_ = site_m;
  follow();
}

void PrintView::follow() {
  const Vec2 px = sheet_.pxAt(pinned_at_m_);
  move(static_cast<int>(std::lround(px.x)), static_cast<int>(std::lround(px.y)));
}

void PrintView::keepWithin(const QRect& sheet) {
  if (posed_ && (width() > sheet.width() || height() > sheet.height())) {
    const double share = std::min(1.0 * sheet.width() / width(), 1.0 * sheet.height() / height());
    resize(sizeFor(*posed_, std::max(kLeastWide, static_cast<int>(share * width()))));
  }
  const QPoint at(std::clamp(x(), 0, std::max(0, sheet.width() - width())),
                  std::clamp(y(), 0, std::max(0, sheet.height() - height())));
  if (at != pos()) pinAt(sheet_.siteAt({1.0 * at.x(), 1.0 * at.y()}));
}

void PrintView::setAim(std::size_t aim) {
  if (imager_.aim == aim) return;
  imager_.aim = aim;
  take();
}

QRect PrintView::pictureArea() const {
  return {kBorder, kBorder, width() - 2 * kBorder, height() - kBorder - kCaption};
}
QRect PrintView::cornerArea() const {
  return {width() - kCorner, height() - kCorner, kCorner, kCorner};
}
QRect PrintView::captionArea() const {
  return {kBorder + 1, height() - kCaption, awayArea().left() - kBorder - 4, kCaption};
}
QFont PrintView::captionFont() const {
  QFont small = font();
  small.setPointSizeF(kCaptionPt);
  return small;
}
QRect PrintView::awayArea() const {
  const int wide = fontMetrics().horizontalAdvance(tr("put away")) + 8;
  return {width() - kCorner - wide, height() - kCaption, wide, kCaption};
}

// ---- what it shows ------------------------------------------------------------------------------

void PrintView::take() {
  const design::Design& design = sheet_.workspace().design();
  const auto posed = edit::posedOf(design, imager_, design::JudgedOn::captured);
  const auto place = sheet_.evaluator().now()->place;
  if (!posed || !place) return;
  const Workspace& workspace = sheet_.workspace();
  const bool same_light = !lit_ || workspace.isDragging() ||
                          (lit_version_ == workspace.version() &&
                           lit_situation_ == workspace.situation());
  const bool same = posed_ && sameView(*posed_, *posed) && place == place_ && same_light &&
                    dark_ == systemIsDark(palette());
  const bool shape = !posed_ || posed_->pixels != posed->pixels;
  posed_ = posed;
  recorded_ = edit::posedOf(design, imager_, design::JudgedOn::recorded);
  tilt_deg_ = edit::partsOf(design, imager_)->aim->tilt_deg;
  place_ = place;
  dark_ = systemIsDark(palette());
  if (shape) resize(sizeFor(*posed_, std::max(width(), kLeastWide)));
  if (!same) wish();
  update();
}

void PrintView::wish() {
  if (!posed_ || !place_) return;
  PictureWish wish;
  wish.place = place_;
  wish.view = picture::viewOf(*posed_);
  const QSize size = pictureArea().size() * devicePixelRatioF();
  wish.options.size = {std::max(size.width(), 8), std::max(size.height(), 8)};
  wish.options.tones = tonesOf(inksOf(palette()));
  if (figure_m_) {
    const Vec2 towards = posed_->lens_m.xy() - figure_m_->xy();
    wish.options.figures = {{*figure_m_, person_m_,
                             radToDeg(std::atan2(towards.x, towards.y))}};
  }
  // A hand that aims is followed by coarse pictures; what is fine comes when it rests.
  Workspace& workspace = sheet_.workspace();
  if (workspace.isDragging()) {
    wish.steps = {8, 4, 2};
  } else if (lit_) {
    wish.photo = PhotoWish{workspace.shareDesign(), workspace.folder(),
                           workspace.shownSituation(), *posed_};
    lit_version_ = workspace.version();
    lit_situation_ = workspace.situation();
  }
  maker_.wish(std::move(wish));
}

void PrintView::setLit(bool lit) {
  if (lit_ == lit) return;
  lit_ = lit;
  wish();
}

Vec2 PrintView::placeIn(QPointF at) const {
  const QRect area = pictureArea();
  const auto made = maker_.now();
  const double wide = made ? made->image.width() : area.width();
  const double high = made ? made->image.height() : area.height();
  return {(at.x() - area.left()) * wide / std::max(area.width(), 1),
          (at.y() - area.top()) * high / std::max(area.height(), 1)};
}

std::optional<picture::Spot> PrintView::spotAt(QPoint at) const {
  const auto made = maker_.now();
  if (!made || !pictureArea().contains(at)) return std::nullopt;
  return spotIn(*made, placeIn(QPointF(at)));
}

void PrintView::pointAt(std::optional<Vec3> site_m) {
  if (pointed_at_m_ == site_m) return;
  pointed_at_m_ = site_m;
  person_px_ = site_m ? personPx(*site_m) : std::nullopt;
  update();
}

void PrintView::setFigure(std::optional<Vec3> feet_m, double height_m) {
  if (figure_m_ == feet_m && person_m_ == height_m) return;
  figure_m_ = feet_m;
  person_m_ = height_m;
  wish();
}

std::optional<double> PrintView::personPx(Vec3 feet_m) const {
  if (!recorded_) return std::nullopt;
  const picture::View view = picture::viewOf(*recorded_);
  const auto feet = picture::placeOf(view, view.pixels, feet_m);
  const auto head = picture::placeOf(view, view.pixels, feet_m + Vec3{0, 0, person_m_});
  if (!feet || !head) return std::nullopt;
  const Vec2 span = *head - *feet;
  return norm(Vec2{span.x * recorded_->scale_x, span.y * recorded_->scale_y});
}

QString PrintView::caption() const {
  if (!says_.isEmpty()) return says_;
  const QString who = QString::fromStdString(name());
  const QString tilt = QString::fromStdString(edit::angleText(tilt_deg_));
  const auto made = maker_.now();
  const QString taken =
      made && made->lit ? QString::fromStdString(made->taken) : QString();
  const QString px =
      person_px_ ? tr("%1 px").arg(static_cast<int>(std::lround(*person_px_))) : QString();
  const QString person = person_px_ ? tr("person: %1").arg(px) : QString();
  // The fullest that there is room for: each part whole or not at all.
  const QFontMetrics metrics(captionFont());
  QString words;
  for (QStringList parts : {QStringList{who, tilt, taken, person}, QStringList{who, taken, person},
                            QStringList{who, tilt, person}, QStringList{who, person},
                            QStringList{person}, QStringList{px}}) {
    parts.removeAll(QString());
    if (parts.empty()) break;  // there is no person: the last that was tried is the least
    words = parts.join(QStringLiteral("   "));
    if (metrics.horizontalAdvance(words) <= captionArea().width()) break;
  }
  return words;
}

void PrintView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const drawing::Inks inks = inksOf(palette());
  painter.fillRect(rect(), colourOf(inks.paper));
  const QRect area = pictureArea();
  const auto made = maker_.now();
  if (made) {
    painter.setRenderHint(QPainter::SmoothPixmapTransform, made->step == 1);
    painter.drawImage(area, made->image);
  } else {
    painter.setPen(colourOf(inks.quiet));
    painter.drawText(area, Qt::AlignCenter, tr("being drawn"));
  }
  if (pointed_at_m_ && posed_) {
    const picture::View view = picture::viewOf(*posed_);
    const auto at =
        picture::placeOf(view, {area.width(), area.height()}, *pointed_at_m_);
    if (at && at->x >= 0 && at->y >= 0 && at->x <= area.width() && at->y <= area.height()) {
      painter.setRenderHint(QPainter::Antialiasing);
      painter.setPen(QPen(colourOf(inks.accent), 1.4));
      const QPointF c(area.left() + at->x, area.top() + at->y);
      painter.drawEllipse(c, 4, 4);
      painter.drawLine(c + QPointF(-8, 0), c + QPointF(-4, 0));
      painter.drawLine(c + QPointF(4, 0), c + QPointF(8, 0));
      painter.setRenderHint(QPainter::Antialiasing, false);
    }
  }
  painter.setPen(colourOf(inks.ink));
  painter.setFont(captionFont());
  const QRect line = captionArea();
  painter.drawText(line, Qt::AlignVCenter | Qt::AlignLeft,
                   painter.fontMetrics().elidedText(caption(), Qt::ElideRight, line.width()));
  painter.setPen(colourOf(inks.quiet));
  painter.drawText(awayArea(), Qt::AlignCenter, tr("put away"));
  for (int i = 1; i <= 2; ++i)
    painter.drawLine(width() - 3 - 4 * i, height() - 4, width() - 4, height() - 3 - 4 * i);
  const bool selected = sheet_.workspace().selectedImager() == name();
  painter.setPen(QPen(colourOf(selected ? inks.accent : inks.ink), hasFocus() ? 2 : 1));
  painter.drawRect(rect().adjusted(0, 0, -1, -1));
}

void PrintView::resizeEvent(QResizeEvent*) { wish(); }

void PrintView::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) take();
  QWidget::changeEvent(event);
}

}  // namespace belvedere::desk
