// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/picture_page.h"

#include <QBuffer>
#include <QByteArray>
#include <QFont>
#include <QFontMetricsF>
#include <QImage>
#include <QImageWriter>
#include <QPainter>
#include <QPainterPath>
#include <QSaveFile>

#include <algorithm>
#include <system_error>

#include "drawing/inks.h"
#include "drawing/sheet.h"

namespace belvedere::drawing {
namespace {

QImage imageOn(picture::Developed& of) {
  return QImage(reinterpret_cast<uchar*>(of.argb.data()), of.width, of.height,
                of.width * static_cast<qsizetype>(sizeof(std::uint32_t)), QImage::Format_RGB32);
}
QImage imageOf(const picture::Developed& of) {
  return QImage(reinterpret_cast<const uchar*>(of.argb.data()), of.width, of.height,
                of.width * static_cast<qsizetype>(sizeof(std::uint32_t)), QImage::Format_RGB32);
}

// Of 0 to 100, to zlib's third of nine: a fifth of the time of the usual sixth, files about as large.
constexpr int kCompression = 34;

QColor colourOf(Rgb c) { return QColor(c.red, c.green, c.blue); }
QString words(const std::string& text) { return QString::fromStdString(text); }

QFont fontOf(double pixels, bool bold = false) {
  QFont font;
  font.setPixelSize(static_cast<int>(pixels));
  font.setBold(bold);
  return font;
}

void drawStretch(QPainter& painter, const picture::LineStretch& stretch, double wide) {
  QPolygonF line;
  for (const Vec2& p : stretch.places) line << QPointF(p.x, p.y);
  const auto stroke = [&](QColor colour, double width) {
    QPen pen(colour, width);
    pen.setJoinStyle(Qt::RoundJoin);
    if (stretch.hidden) pen.setDashPattern({4, 4});
    painter.setPen(pen);
    painter.drawPolyline(line);
  };
  stroke(QColor(0, 0, 0, stretch.hidden ? 60 : 130), 2.2 * wide);
  stroke(QColor(255, 255, 255, stretch.hidden ? 120 : 245), wide);
}

}  // namespace

void drawOver(picture::Developed& of, const Overlay& overlay) {
  ensureGui();
  QImage image = imageOn(of);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  const double unit = std::max(1.0, of.height / 700.0);
  for (const picture::LineStretch& stretch : overlay.lines)
    drawStretch(painter, stretch, 1.6 * unit);
  const QFont font = fontOf(19 * unit);
  const QFontMetricsF metrics(font);
  for (const Overlay::Label& label : overlay.labels) {
    const QString text = words(label.text);
    const double wide = metrics.horizontalAdvance(text);
    QPainterPath path;
    path.addText(QPointF(label.at.x - 0.5 * wide, label.at.y + 0.35 * metrics.ascent()), font,
                 text);
    painter.setPen(
        QPen(QColor(0, 0, 0, 170), 3.5 * unit, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPath(path);
    painter.fillPath(path, Qt::white);
  }
}

picture::Developed paintPage(const PicturePage& page) {
  ensureGui();
  constexpr int kMargin = 48, kGap = 28;
  const QFont title = fontOf(34, true), subtitle = fontOf(20), caption = fontOf(18),
              heading = fontOf(22, true);
  const QFontMetricsF title_size(title), subtitle_size(subtitle), caption_size(caption),
      heading_size(heading);
  const auto captionHigh = [&](const std::string& text) {
    return text.empty() ? 0.0
                        : caption_size.lineSpacing() *
                              static_cast<double>(std::count(text.begin(), text.end(), '\n') + 1);
  };
  int wide = 0;
  double high = kMargin;
  if (!page.title.empty()) high += title_size.lineSpacing();
  if (!page.subtitle.empty()) high += subtitle_size.lineSpacing();
  high += kGap;
  std::vector<double> row_high;
  for (const PageRow& row : page.rows) {
    int row_wide = -kGap;
    double pictures = 0, captions = 0;
    for (const PagePicture& one : row.pictures) {
      const QRectF needs =
          caption_size.boundingRect(QRectF(0, 0, 1e5, 1e5), Qt::AlignLeft, words(one.caption));
      row_wide += std::max(one.picture.width, static_cast<int>(needs.width()) + 1) + kGap;
      pictures = std::max(pictures, static_cast<double>(one.picture.height));
      captions = std::max(captions, captionHigh(one.caption));
    }
    wide = std::max(wide, row_wide);
    row_high.push_back((row.heading.empty() ? 0 : heading_size.lineSpacing() + 8) + pictures + 8 +
                       captions + kGap);
    high += row_high.back();
  }
  for (const auto& [text, metrics] :
       {std::pair{page.title, title_size}, {page.subtitle, subtitle_size}})
    wide = std::max(wide, static_cast<int>(metrics.horizontalAdvance(words(text))) + 1);
  for (const PageRow& row : page.rows)
    wide = std::max(wide, static_cast<int>(heading_size.horizontalAdvance(words(row.heading))) + 1);
  wide = std::max(wide, 900);  // the foot's lines are broken
  const QRectF foot =
      caption_size.boundingRect(QRectF(0, 0, wide, 1e5), Qt::TextWordWrap, words(page.foot));
  high += foot.height() + kMargin;

  const Inks inks = Inks::light();
  picture::Developed made;
  made.width = wide + 2 * kMargin;
  made.height = static_cast<int>(high);
  made.argb.resize(static_cast<std::size_t>(made.width) * static_cast<std::size_t>(made.height));
  QImage image = imageOn(made);
  image.fill(colourOf(inks.paper));
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  double y = kMargin;
  const auto write = [&](const QFont& font, const QFontMetricsF& metrics, const std::string& text,
                         QColor colour) {
    if (text.empty()) return;
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(QPointF(kMargin, y + metrics.ascent()), words(text));
    y += metrics.lineSpacing();
  };
  write(title, title_size, page.title, colourOf(inks.ink));
  write(subtitle, subtitle_size, page.subtitle, colourOf(inks.quiet));
  y += kGap;
  for (std::size_t i = 0; i < page.rows.size(); ++i) {
    const PageRow& row = page.rows[i];
    const double row_top = y;
    if (!row.heading.empty()) {
      write(heading, heading_size, row.heading, colourOf(inks.ink));
      y += 8;
    }
    double x = kMargin, pictures = 0;
    for (const PagePicture& one : row.pictures)
      pictures = std::max(pictures, static_cast<double>(one.picture.height));
    for (const PagePicture& one : row.pictures) {
      painter.drawImage(QPointF(x, y), imageOf(one.picture));
      painter.setFont(caption);
      painter.setPen(colourOf(inks.ink));
      const QRectF needs =
          caption_size.boundingRect(QRectF(0, 0, 1e5, 1e5), Qt::AlignLeft, words(one.caption));
      painter.drawText(QRectF(x, y + one.picture.height + 8, needs.width() + 4, needs.height() + 4),
                       Qt::AlignLeft, words(one.caption));
      x += std::max(one.picture.width, static_cast<int>(needs.width()) + 1) + kGap;
    }
    y = row_top + row_high[i];
  }
  painter.setFont(caption);
  painter.setPen(colourOf(inks.quiet));
  painter.drawText(QRectF(kMargin, y, wide, foot.height() + 4), Qt::TextWordWrap, words(page.foot));
  return made;
}

void writePng(const picture::Developed& picture, const PngTexts& texts,
              const std::filesystem::path& path, const Progress& progress) {
  ensureGui();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QImageWriter writer(&buffer, "png");
  writer.setCompression(kCompression);
  // An image that may be written to takes texts without copying its pixels, which nobody changes here.
  QImage image = imageOn(const_cast<picture::Developed&>(picture));
  for (const auto& [key, text] : texts) image.setText(words(key), words(text));
  const bool written = writer.write(image);
  progress.throwIfCancelled();
  if (!written) throw std::system_error(std::make_error_code(std::errc::io_error), path.string());
  QSaveFile file(words(path.string()));
  if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size() || !file.commit())
    throw std::system_error(std::make_error_code(std::errc::io_error),
                            path.string() + ": " + file.errorString().toStdString());
}

}  // namespace belvedere::drawing
