// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sheet.h"

#include <QBuffer>
#include <QByteArray>
#include <QGuiApplication>
#include <QImage>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QSaveFile>
#include <QSvgGenerator>

#include <cmath>
#include <memory>
#include <system_error>

#include "drawing/page_files.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kMmPerInch = 25.4;

void save(const QByteArray& bytes, const std::filesystem::path& path) {
  QSaveFile file(QString::fromStdString(path.string()));
  const bool done = file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() &&
                    file.commit();
  if (!done)
    throw std::system_error(std::make_error_code(std::errc::io_error),
                            path.string() + ": " + file.errorString().toStdString());
}

Page pageOf(const Sheet& sheet, double width_mm, double height_mm) {
  return {sheet.design->title, "Plan drawn by Belvedere", width_mm, height_mm,
          [&sheet, width_mm, height_mm](QPainter& painter) {
            paintSheet(painter, sheet, width_mm, height_mm);
          }};
}

}  // namespace

void ensureGui() {
  if (QGuiApplication::instance()) return;
  if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  static int count = 1;
  static char name[] = "belvedere";
  static char* words[] = {name, nullptr};
  // What Qt remarks about the desktop that is not there is nobody's business here.
  const QtMessageHandler before =
      qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {});
  static const auto application = std::make_unique<QGuiApplication>(count, words);
  qInstallMessageHandler(before);
}

std::string said(const char* english) {
  return QCoreApplication::translate("sheet", english).toStdString();
}

void writeSvg(const Page& page, const std::filesystem::path& path) {
  ensureGui();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QSvgGenerator generator;
  generator.setOutputDevice(&buffer);
  generator.setTitle(QString::fromStdString(page.title));
  generator.setDescription(QString::fromStdString(page.about));
  // Size in hundredths of a millimetre at as many to the inch: "420mm" in the file.
  constexpr int kPerMm = 100;
  generator.setResolution(static_cast<int>(kMmPerInch * kPerMm));
  generator.setSize(QSize(static_cast<int>(page.width_mm * kPerMm),
                          static_cast<int>(page.height_mm * kPerMm)));
  generator.setViewBox(QRectF(0, 0, page.width_mm, page.height_mm));
  QPainter painter(&generator);
  page.paint(painter);
  painter.end();
  save(bytes, path);
}

void writePng(const Page& page, const std::filesystem::path& path, double dpi) {
  ensureGui();
  const double per_mm = dpi / kMmPerInch;
  QImage image(static_cast<int>(std::lround(page.width_mm * per_mm)),
               static_cast<int>(std::lround(page.height_mm * per_mm)), QImage::Format_RGB32);
  image.fill(Qt::white);
  image.setDotsPerMeterX(static_cast<int>(std::lround(per_mm * 1000)));
  image.setDotsPerMeterY(static_cast<int>(std::lround(per_mm * 1000)));
  QPainter painter(&image);
  painter.scale(per_mm, per_mm);
  page.paint(painter);
  painter.end();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  if (!image.save(&buffer, "PNG"))
    throw std::system_error(std::make_error_code(std::errc::io_error), path.string());
  save(bytes, path);
}

void writePdf(const Page& page, const std::filesystem::path& path) {
  ensureGui();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer(&buffer);
    writer.setTitle(QString::fromStdString(page.title));
    writer.setCreator(QStringLiteral("Belvedere"));
    constexpr int kPerMm = 100;
    writer.setResolution(static_cast<int>(kMmPerInch * kPerMm));
    writer.setPageLayout({QPageSize(QSizeF(std::min(page.width_mm, page.height_mm),
                                           std::max(page.width_mm, page.height_mm)),
                                    QPageSize::Millimeter),
                          page.width_mm > page.height_mm ? QPageLayout::Landscape
                                                         : QPageLayout::Portrait,
                          QMarginsF()});
    QPainter painter(&writer);
    painter.scale(kPerMm, kPerMm);
    page.paint(painter);
  }
  save(bytes, path);
}

void writeSvg(const Sheet& sheet, const std::filesystem::path& path, double width_mm,
              double height_mm) {
  writeSvg(pageOf(sheet, width_mm, height_mm), path);
}
void writePng(const Sheet& sheet, const std::filesystem::path& path, double dpi, double width_mm,
              double height_mm) {
  writePng(pageOf(sheet, width_mm, height_mm), path, dpi);
}
void writePdf(const Sheet& sheet, const std::filesystem::path& path, double width_mm,
              double height_mm) {
  writePdf(pageOf(sheet, width_mm, height_mm), path);
}

}  // namespace belvedere::drawing
