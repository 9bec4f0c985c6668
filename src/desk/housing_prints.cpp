// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/housing_prints.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>

#include <algorithm>
#include <cmath>

#include "desk/colours.h"
#include "desk/save_file.h"
#include "edit/aim.h"
#include "edit/lengths.h"
#include "picture/unroll.h"

namespace belvedere::desk {
namespace {

constexpr int kRoom = 14, kCaption = 24, kTitle = 34, kPictureWide = 640, kFoot = 40;

QString text(const std::string& words) { return QString::fromStdString(words); }

}  // namespace

HousingPrints::HousingPrints(SheetView& sheet, design::HousingId housing, bool lit, QWidget* parent)
    : QWidget(parent, Qt::Window), sheet_(sheet), housing_(std::move(housing)), lit_(lit) {
  setAttribute(Qt::WA_DeleteOnClose);
  setObjectName("housing_prints");
  setWindowTitle(tr("Prints of %1").arg(text(housing_.text)));
  resize(900, 640);
  auto* button = new QPushButton(tr("&Save as PNG ..."), this);
  button->setObjectName("save_page");
  auto* row = new QHBoxLayout;
  row->addStretch();
  row->addWidget(button);
  auto* column = new QVBoxLayout(this);
  column->addStretch();
  column->addLayout(row);
  connect(button, &QPushButton::clicked, this, &HousingPrints::save);
  connect(&maker_, &PictureMaker::made, this, [this] {
    const auto made = maker_.now();
    if (at_ >= prints_.size()) return;
    prints_[at_].image = made->image;
    prints_[at_].whole = made->last;
    update();
    if (made->last) {
      ++at_;
      next();
    }
  });
  connect(&sheet_.evaluator(), &Evaluator::evaluated, this, [this] {
    if (sheet_.evaluator().now()->place != place_) take();
  });
  connect(&sheet_.workspace(), &Workspace::designChanged, this, &HousingPrints::take);
  connect(&sheet_.workspace(), &Workspace::draggingChanged, this, &HousingPrints::take);
  connect(&sheet_.workspace(), &Workspace::viewChanged, this, &HousingPrints::take);
  take();
}

void HousingPrints::take() {
  if (sheet_.workspace().isDragging()) return;
  const design::Design& design = sheet_.workspace().design();
  const design::Housing* housing = design::findHousing(design, housing_);
  if (!housing) {
    close();
    return;
  }
  const std::vector<design::PosedImager> imagers =
      design::posedImagers(design, design::JudgedOn::captured);
  std::vector<Print> prints;
  for (const design::PosedImager* posed : picture::ringOf(housing_, imagers)) {
    const auto parts = edit::partsOf(design, {housing_, posed->slot, posed->aim});
    if (!parts) continue;
    const QString name = parts->written->aims.size() > 1
                             ? tr("%1, stored aim %2").arg(text(posed->imager)).arg(posed->aim + 1)
                             : text(posed->imager);
    Print print{name, parts->aim->tilt_deg, *posed, picture::viewOf(*posed), {}, false};
    const auto known = std::find_if(prints_.begin(), prints_.end(), [&](const Print& p) {
      return p.imager == print.imager;
    });
    if (known != prints_.end()) print.image = known->image;
    prints.push_back(std::move(print));
  }
  prints_ = std::move(prints);
  at_ = 0;
  next();
  QStringList names;
  for (const Print& print : prints_) names.push_back(print.imager);
  setAccessibleName(tr("Prints in the order of the ring: %1").arg(names.join(", ")));
  update();
}

void HousingPrints::next() {
  place_ = sheet_.evaluator().now()->place;
  if (at_ >= prints_.size() || !place_) return;
  PictureWish wish;
  wish.place = place_;
  wish.view = prints_[at_].view;
  const double shape = static_cast<double>(wish.view.pixels[1]) / std::max(wish.view.pixels[0], 1);
  wish.options.size = {kPictureWide,
                       std::max(8, static_cast<int>(std::lround(kPictureWide * shape)))};
  wish.options.tones = tonesOf(inksOf(palette()));
  wish.steps = {4, 1};
  const Workspace& workspace = sheet_.workspace();
  if (lit_)
    wish.photo = PhotoWish{workspace.shareDesign(), workspace.folder(),
                           workspace.shownSituation(), prints_[at_].posed};
  maker_.wish(std::move(wish));
}

bool HousingPrints::isWhole() const {
  return std::all_of(prints_.begin(), prints_.end(), [](const Print& p) { return p.whole; });
}

void HousingPrints::paintPage(QPainter& painter, QSize size) const {
  const drawing::Inks inks = inksOf(palette());
  painter.fillRect(QRect(QPoint(0, 0), size), colourOf(inks.paper));
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  QFont font = this->font();
  font.setPointSizeF(14);
  painter.setFont(font);
  painter.setPen(colourOf(inks.ink));
  const design::Design& design = sheet_.workspace().design();
  painter.drawText(
      QRect(kRoom, 0, size.width() - 2 * kRoom, kTitle), Qt::AlignLeft | Qt::AlignVCenter,
      text(housing_.text) + (design.title.empty() ? QString() : "   " + text(design.title)));
  if (prints_.empty()) return;
  // As many columns as make the pictures largest.
  const int count = static_cast<int>(prints_.size());
  double tallest = 0;
  for (const Print& print : prints_)
    tallest = std::max(tallest, static_cast<double>(print.view.pixels[1]) /
                                    std::max(print.view.pixels[0], 1));
  int columns = 1;
  double best = 0;
  for (int c = 1; c <= count; ++c) {
    const int rows = (count + c - 1) / c;
    const double wide = (size.width() - kRoom * (c + 1.0)) / c;
    const double by_height =
        ((size.height() - kTitle - kFoot - kRoom * (rows + 0.0)) / rows - kCaption) / tallest;
    if (std::min(wide, by_height) > best) {
      best = std::min(wide, by_height);
      columns = c;
    }
  }
  font.setPointSizeF(9);
  painter.setFont(font);
  const int wide = static_cast<int>(best), cell = static_cast<int>(best * tallest) + kCaption;
  for (int i = 0; i < count; ++i) {
    const Print& print = prints_[static_cast<std::size_t>(i)];
    const int x = kRoom + (i % columns) * (wide + kRoom);
    const int y = kTitle + (i / columns) * (cell + kRoom);
    const int high = static_cast<int>(std::lround(wide * static_cast<double>(print.view.pixels[1]) /
                                                  std::max(print.view.pixels[0], 1)));
    const QRect area(x, y, wide, high);
    if (!print.image.isNull()) painter.drawImage(area, print.image);
    painter.setPen(colourOf(inks.rules));
    painter.drawRect(area);
    painter.setPen(colourOf(inks.ink));
    painter.drawText(QRect(x, y + high + 2, wide, kCaption - 4), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("%1   tilt %2   field %3")
                         .arg(print.imager, text(edit::angleText(print.tilt_deg)),
                              text(edit::angleText(std::round(print.posed.hfov_deg * 10) / 10))));
  }
}

QImage HousingPrints::page(int width) const {
  const int height = width * this->height() / std::max(this->width(), 1);
  QImage image(width, height, QImage::Format_RGB32);
  const double factor = static_cast<double>(width) / std::max(this->width(), 1);
  QPainter painter(&image);
  painter.scale(factor, factor);
  paintPage(painter, size());
  return image;
}

void HousingPrints::save() {
  const std::filesystem::path folder = sheet_.workspace().path().parent_path();
  const std::filesystem::path path = askWhereToWrite(
      this, tr("Save the prints"), folder / ("prints-" + housing_.text + ".png"), tr("Pictures (*.png)"));
  if (path.empty()) return;
  const QString written = text(path.string());
  if (page(2 * width()).save(written, "PNG")) sheet_.workspace().tell(tr("Written: %1").arg(written));
  else sheet_.workspace().complain(tr("%1 could not be written: choose another folder.").arg(written));
}

void HousingPrints::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  paintPage(painter, size());
}
void HousingPrints::resizeEvent(QResizeEvent*) { update(); }
void HousingPrints::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) take();
  QWidget::changeEvent(event);
}

}  // namespace belvedere::desk
