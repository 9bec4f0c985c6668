// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages of photographs: faces, plates and charts of a requirement, a housing unrolled, who stands at a
// mark.
#include <QImageReader>
#include <QInputDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRegularExpression>
#include <QTimer>

#include <cmath>
#include <filesystem>

#include "base/units.h"
#include "desk/page_window.h"
#include "desk/picture_maker.h"
#include "desk/print_view.h"
#include "desk_test_tools.h"
#include "drawing/requirement_page.h"
#include "picture/unroll.h"

namespace belvedere::desk {
namespace {

constexpr int kLongMs = 180'000;

PageWindow* pageOf(MainWindow& window) { return window.findChild<PageWindow*>("page"); }
bool waitForPage(MainWindow& window) {
  return QTest::qWaitFor([&] { return pageOf(window) && pageOf(window)->page(); }, kLongMs);
}

struct Shooting {
  std::shared_ptr<const LitScene> lit;
  std::filesystem::path folder;
  explicit Shooting(const Workspace& workspace)
      : lit(litScene(workspace.shareDesign(), workspace.shownSituation(), workspace.folder())),
        folder(workspace.folder()) {}
  picture::PhotoOptions options() const {
    picture::PhotoOptions of;
    of.lighting = lit->studio.lighting();
    return of;
  }
};

}  // namespace

class PagesTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the page of the selected requirement is the one that the drawing room makes, pixel for pixel,
  // by the light of the shown situation; it follows the design and is saved as it is.
  void facesPlatesAndCharts() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    auto* hint = window->findChild<QLabel*>("hint");
    window->command("brief.pictures")->trigger();
    QVERIFY(!pageOf(*window));
    QVERIFY2(hint->text().contains("Select a requirement"), qPrintable(hint->text()));
    workspace.selectRequirement({"R1"});
    window->command("brief.pictures")->trigger();
    QVERIFY(waitForPage(*window));
    const Progress progress;
    const auto expected = [&] {
      const Shooting shooting(workspace);
      const design::Design& design = shooting.lit->studio.design();
      return drawing::paintPage(drawing::requirementPage(
          {shooting.lit->studio, shooting.folder,
           [&](const design::PosedImager&) { return shooting.options(); }, progress},
          *design::findRequirement(design, {"R1"})));
    };
    picture::Developed page = expected();
    QCOMPARE(pageOf(*window)->page()->width, page.width);
    QVERIFY(pageOf(*window)->page()->argb == page.argb);
    const auto path = std::filesystem::temp_directory_path() / "belvedere_pages_test.png";
    std::filesystem::remove(path);
    pageOf(*window)->writeTo(path);
    QImageReader reader(QString::fromStdString(path.string()));
    const QImage image = reader.read();
    QCOMPARE(image.width(), page.width);
    QCOMPARE(image.height(), page.height);
    for (int y = 0; y < page.height; ++y)
      for (int x = 0; x < page.width; ++x)
        if (image.pixel(x, y) != page.argb[static_cast<std::size_t>(y) * static_cast<std::size_t>(page.width) +
                                           static_cast<std::size_t>(x)])
          QFAIL(qPrintable(QString("the file has another pixel at %1, %2").arg(x).arg(y)));
    QCOMPARE(image.text("Requirement"), QString("R1"));
    std::filesystem::remove(path);
    // Turned away, it is another page.
    workspace.apply("Turn", edit::withPan(workspace.design(), {{"C1"}, 1, 0}, 300).design);
    QVERIFY(!pageOf(*window)->page());
    QVERIFY(waitForPage(*window));
    QVERIFY(pageOf(*window)->page()->argb != page.argb);
    page = expected();
    QVERIFY(pageOf(*window)->page()->argb == page.argb);
  }

  // Property: a housing unrolled is the picture room's, follows the design, and goes with what it is of.
  void aHousingUnrolled() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    workspace.select({{edit::ObjectKind::housing, "C2", 0}});
    window->command("aim.unrolled")->trigger();
    QVERIFY(waitForPage(*window));
    const Progress progress;
    const Shooting shooting(workspace);
    const std::vector<design::PosedImager> imagers =
        design::posedImagers(workspace.design(), design::JudgedOn::captured);
    const auto ring = picture::ringOf({"C2"}, imagers);
    const picture::Developed expected = picture::shootUnrolled(
        shooting.lit->studio, picture::panoramaOf(ring), ring,
        [&](const design::PosedImager&) { return shooting.options(); }, {}, progress);
    QVERIFY(expected.width > 500);
    QVERIFY(pageOf(*window)->page()->argb == expected.argb);
    workspace.apply("Turn", edit::withPan(workspace.design(), {{"C2"}, 1, 0}, 250).design);
    QVERIFY(!pageOf(*window)->page());  // what is shown is of the design before
    QVERIFY(pageOf(*window)->state().contains("being photographed"));
    workspace.open(examplePath("winter_yard/design.json"));
    QVERIFY(QTest::qWaitFor([&] { return pageOf(*window) == nullptr; }, 60'000));
  }

  // Property: a ring begins after its widest gap, so that who looks side by side stands side by side; the
  // page of prints keeps that order.
  void aRingBeginsAfterItsWidestGap() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    // The first head, its slots in no order: gaps of 180, 100 and 50, and of 30 degrees over north.
    constexpr double kPan_deg[] = {300, 20, 200, 350};
    design::Design turned = workspace.design();
    for (std::size_t i = 0; i < 4; ++i)
      turned.housings[0].imagers[i].aims[0].pan_deg = kPan_deg[i];
    workspace.apply("Turn", std::move(turned));
    const std::vector<design::PosedImager> imagers =
        design::posedImagers(workspace.design(), design::JudgedOn::captured);
    for (const design::Housing& housing : workspace.design().housings) {
      const auto ring = picture::ringOf(housing.id, imagers);
      QCOMPARE(ring.size(), housing.imagers.size());
      const auto bearing = [&](std::size_t i) {
        const Vec3& ahead = ring[i % ring.size()]->imager_from_site.row[2];
        return radToDeg(std::atan2(ahead.x, ahead.y));
      };
      const double around = wrap360(bearing(ring.size()) - bearing(ring.size() - 1));
      for (std::size_t i = 0; i + 1 < ring.size(); ++i)
        QVERIFY(wrap360(bearing(i + 1) - bearing(i)) <= around + 1e-6);
    }
    workspace.select({{edit::ObjectKind::housing, "C1", 0}});
    window->command("aim.all_prints")->trigger();
    const auto* page = window->findChild<QWidget*>("housing_prints");
    QVERIFY2(page->accessibleName().contains("C1.3, C1.1, C1.4, C1.2"), qPrintable(page->accessibleName()));
  }

  // Property: who stands at a mark is as tall as was asked for: in the picture as many pixels more, as
  // the caption counts them.
  void whoStandsAtAMarkIsAsTallAsAsked() {
    auto window = windowWith("shop/design.json");
    window->workspace().select({{edit::ObjectKind::housing, "C1", 1}});
    PrintView* print = nullptr;
    QVERIFY(QTest::qWaitFor(
        [&] { return (print = window->findChild<PrintView*>()) != nullptr && print->picture(); }, kLongMs));
    const auto tall = [&](const QString& typed) {
      QTimer::singleShot(200, [typed] {
        auto* dialog = qobject_cast<QInputDialog*>(QApplication::activeModalWidget());
        if (!dialog) return;
        dialog->setTextValue(typed);
        dialog->accept();
      });
      window->command("aim.figure")->trigger();
      const QRect area = print->pictureArea();
      QTest::mouseMove(print, area.center() + QPoint(0, area.height() / 5));
      QTest::mouseMove(print, area.center() + QPoint(1, area.height() / 5));
      const QRegularExpressionMatch px = QRegularExpression("(\\d+) px").match(print->caption());
      return px.hasMatch() ? px.captured(1).toInt() : 0;
    };
    const int adult = tall("1.8 m"), child = tall("90 cm");
    QVERIFY(child > 0);
    // By perspective not quite half: a camera above sees the nearer part larger.
    QVERIFY2(adult > 1.5 * child && adult < 2.6 * child, qPrintable(QString("%1, %2").arg(adult).arg(child)));
    QVERIFY2(window->findChild<QLabel*>("hint")->text().contains("0.90 m"),
             qPrintable(window->findChild<QLabel*>("hint")->text()));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::PagesTest)
#include "pages_test.moc"
