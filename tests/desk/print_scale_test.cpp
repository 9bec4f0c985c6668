// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans on paper are to scale: measured in the PDF as another program renders it.
#include <QComboBox>
#include <QFile>
#include <QImage>
#include <QImageReader>
#include <QProcess>
#include <QPushButton>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <cmath>
#include <filesystem>

#include "desk/export_dialog.h"
#include "desk_test_tools.h"

namespace belvedere::desk {
namespace {

constexpr double kPxPerMm = 20;                 // of the rendered page: a twentieth of a millimetre
constexpr double kDpi = kPxPerMm * 25.4;

// The page as poppler renders it.
QImage rendered(const QString& pdf) {
  QProcess render;
  render.start("pdftoppm", {"-r", QString::number(kDpi), "-gray", "-singlefile", pdf,
                            pdf.chopped(4)});
  if (!render.waitForFinished(60'000) || render.exitCode() != 0) return {};
  return QImage(pdf.chopped(4) + ".pgm").convertToFormat(QImage::Format_Grayscale8);
}

bool inked(const QImage& page, int x, int y) { return page.constScanLine(y)[x] < 120; }

// A slab of 40 by 20 m with one wall across it.
design::Design slab() {
  return design::readDesignText(R"({"format": "belvedere.design", "version": 1, "title": "Slab",
    "site": {"buildings": [{"id": "B", "storeys": [{"id": "S", "floor_m": 0, "height_m": 3,
      "outline": [[0, 0], [40, 0], [40, 20], [0, 20]],
      "walls": [{"id": "W", "path": [[0, 10], [40, 10]], "thickness_m": 0.2}]}]}]}})",
                                {})
      .design;
}

}  // namespace

class PrintScaleTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  void init() {
    QImageReader::setAllocationLimit(1024);  // MB: A1 at a twentieth of a millimetre
    if (QStandardPaths::findExecutable("pdftoppm").isEmpty()) QSKIP("needs poppler-utils");
  }

  // Property: a slab of 40 m is 80 mm wide at 1:500 and so on, within a tenth of a millimetre, on
  // each paper; the page has the paper's size.
  void lengthsOnPaperAreThoseOfTheScale_data() {
    QTest::addColumn<int>("paper");
    QTest::addColumn<double>("scale");
    QTest::addColumn<double>("width_mm");
    QTest::newRow("A4, 1:500") << 0 << 500.0 << 297.0;
    QTest::newRow("A3, 1:200") << 1 << 200.0 << 420.0;
    QTest::newRow("A2, 1:200") << 2 << 200.0 << 594.0;
    QTest::newRow("A1, 1:100") << 3 << 100.0 << 841.0;
  }
  void lengthsOnPaperAreThoseOfTheScale() {
    QFETCH(int, paper);
    QFETCH(double, scale);
    QFETCH(double, width_mm);
    QTemporaryDir folder;
    auto window = windowWith("");
    window->workspace().start(slab());
    window->command("file.export")->trigger();
    auto* dialog = window->findChild<ExportDialog*>();
    QVERIFY(dialog->isVisible());
    dialog->findChild<QComboBox*>("export.paper")->setCurrentIndex(paper);
    auto* scales = dialog->findChild<QComboBox*>("export.scale");
    scales->setCurrentIndex(scales->findData(scale));
    const QString pdf = folder.filePath("plan.pdf");
    QSignalSpy done(dialog, &ExportDialog::done);
    dialog->writeTo(pdf.toStdString());
    QVERIFY(done.wait(60'000));
    QVERIFY(done.front().front().toBool());
    const QImage page = rendered(pdf);
    QVERIFY(!page.isNull());
    QVERIFY2(std::abs(page.width() / kPxPerMm - width_mm) < 0.4,
             qPrintable(QString::number(page.width() / kPxPerMm)));
    const double slab_mm = 40'000 / scale;
    const double measured = betweenUprights(page, slab_mm);
    QVERIFY2(std::abs(measured - slab_mm) < 0.1, qPrintable(QString::number(measured)));
  }

  // Property: the whole brief stands on the paper, what is kept and paid too: the same whether the
  // window has proven it or the sheet's own maker does.
  void theWholeBriefStandsOnPaper() {
    QTemporaryDir folder;
    auto window = windowWith("shop/design.json");
    window->command("file.export")->trigger();
    auto* dialog = window->findChild<ExportDialog*>();
    QSignalSpy done(dialog, &ExportDialog::done);
    const auto write = [&](const char* name) {
      dialog->writeTo(folder.filePath(name).toStdString());
      const bool in_time = done.wait(60'000);
      QFile file(folder.filePath(name));
      return in_time && file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll())
                                                       : QString();
    };
    const QString by_itself = write("early.svg");
    QVERIFY(waitForProof(*window));
    const QString by_window = write("late.svg");
    QVERIFY(!window->evaluator().now()->demands.empty());
    const QString asked = "met: 21 days";
    QVERIFY(by_itself.contains(asked));
    QVERIFY(by_window.contains(asked));
  }

  // Property: work can be stopped; then there is no file.
  void stoppedThereIsNoFile() {
    QTemporaryDir folder;
    auto window = windowWith("ferry_terminal/design.json");
    window->command("file.export")->trigger();
    auto* dialog = window->findChild<ExportDialog*>();
    QSignalSpy done(dialog, &ExportDialog::done);
    const std::filesystem::path path = folder.filePath("plan.svg").toStdString();
    dialog->writeTo(path);
    QVERIFY(dialog->isWorking());
    QTest::mouseClick(dialog->findChild<QPushButton*>("export.stop"), Qt::LeftButton);
    QVERIFY(done.wait(20'000));
    QVERIFY(!done.front().front().toBool());
    QVERIFY(!std::filesystem::exists(path));
  }

 private:
  // Between the middles of two upright lines of at least 5 mm, of all such pairs the one that is
  // nearest to what is wanted: the slab's west and east edges.
  static double betweenUprights(const QImage& page, double wanted_mm) {
    constexpr int kRows = static_cast<int>(5 * kPxPerMm);
    double best = 0;
    for (int top = 0; top + kRows < page.height(); top += kRows / 2) {
      std::vector<double> middles;
      for (int x = 0, run = 0; x <= page.width(); ++x) {
        bool upright = x < page.width();
        for (int y = top; upright && y < top + kRows; ++y) upright = inked(page, x, y);
        if (upright) {
          ++run;
          continue;
        }
        if (run > 0 && run < kPxPerMm) middles.push_back(x - 0.5 * run);
        run = 0;
      }
      for (const double left : middles)
        for (const double right : middles) {
          const double mm = (right - left) / kPxPerMm;
          if (std::abs(mm - wanted_mm) < std::abs(best - wanted_mm)) best = mm;
        }
    }
    return best;
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::PrintScaleTest)
#include "print_scale_test.moc"
