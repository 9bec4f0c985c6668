// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QDropEvent>
#include <QFile>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPainter>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTimer>

#include <cmath>

#include "base/units.h"
#include "desk/new_design.h"
#include "desk_test_tools.h"
#include "design/read.h"
#include "drawing/sheet_parts.h"
#include "edit/underlay.h"

namespace belvedere::desk {

// Common practice, no source: from a picture of a plan to the first proven requirement in at most
// 25 actions of hand. A click, a drag, a key and a typed text with Enter are one each.
class GuidedStartTest : public QObject {
  Q_OBJECT

  std::unique_ptr<MainWindow> window_;
  int actions_ = 0;
  SheetView& sheet() { return window_->sheet(); }
  const design::Design& design() { return window_->workspace().design(); }

  void key(Qt::Key key, Qt::KeyboardModifiers keys = {}) {
    ++actions_;
    QTest::keyClick(&sheet(), key, keys);
  }
  void click(Vec2 at) {
    ++actions_;
    const QPoint px = pointOn(sheet(), at);
    QTest::mouseMove(&sheet(), px);
    QTest::mouseClick(&sheet(), Qt::LeftButton, {}, px);
  }
  void drag(Vec2 from, Vec2 to) {
    ++actions_;
    dragOn(&sheet(), pointOn(sheet(), from), pointOn(sheet(), to));
  }
  // Into whatever has the keys.
  void type(const QString& text) {
    ++actions_;
    QWidget* focus = QApplication::focusWidget();
    QVERIFY(focus);
    QTest::keyClicks(focus, text);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
  }
  void drop(const QString& path) {
    ++actions_;
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(path)});
    const QPoint at = sheet().rect().center();
    QDragEnterEvent enter(at, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(&sheet(), &enter);
    QVERIFY(enter.isAccepted());
    QDropEvent drop(at, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(&sheet(), &drop);
  }
  // A hall of 12 x 8 m at 50 pixels a metre.
  static void drawPlan(const QString& path) {
    QImage plan(800, 600, QImage::Format_RGB32);
    plan.fill(Qt::white);
    QPainter painter(&plan);
    painter.setPen(QPen(Qt::black, 6));
    painter.drawRect(100, 100, 600, 400);
    painter.end();
    QVERIFY(plan.save(path));
  }
  Vec2 onPicture(double x, double y) {
    return edit::pictureFrame(design().site.underlays.at(0), 800, 600).siteOf({x, y});
  }

 private Q_SLOTS:
  // Property: an empty sheet from the first page has models to put up, and says in the ledger what to
  // do next; those of a catalogue file are taken once, in one step; a file that is none takes nothing.
  void anEmptySheetHasModelsAndTakesMore() {
    auto window = windowWith("");
    auto* empty = window->findChild<QPushButton*>("first.empty");
    QVERIFY(empty && empty->isVisible());
    QTest::mouseClick(empty, Qt::LeftButton);
    QVERIFY(!empty->isVisible());
    Workspace& workspace = window->workspace();
    const std::size_t before = workspace.design().catalogue.models.size();
    QVERIFY(before > 0);
    QVERIFY(window->findChild<QLabel*>("empty_brief"));
    const std::filesystem::path catalogue =
        std::filesystem::path(BELVEDERE_SOURCE_DIR) / "catalogues" / "tarnwick.json";
    const std::size_t all = design::readCatalogue(catalogue).size();
    takeModels(*window, catalogue);
    QCOMPARE(workspace.design().catalogue.models.size(), before + all);
    takeModels(*window, catalogue);
    QCOMPARE(workspace.design().catalogue.models.size(), before + all);
    workspace.undo();
    QCOMPARE(workspace.design().catalogue.models.size(), before);
    QVERIFY(!workspace.canUndo());
    QTimer::singleShot(300, [] {
      if (QWidget* dialog = QApplication::activeModalWidget()) dialog->close();
    });
    takeModels(*window, examplePath("shop/design.json"));
    QCOMPARE(workspace.design().catalogue.models.size(), before);
    workspace.open(examplePath("shop/design.json"));
    QVERIFY(!window->findChild<QLabel*>("empty_brief"));
  }

  void fromAPictureToTheFirstProvenRequirement() {
    QTemporaryDir folder;
    const QString picture = folder.filePath("hall.png");
    drawPlan(picture);
    window_ = windowWith("");
    window_->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(window_.get()));
    sheet().setFocus();

    // On the first page, as it stands there.
    const auto whole = [&] {
      const Box2 shown = sheet().shownM();
      const Vec2 low = onPicture(0, 600), high = onPicture(800, 0);
      return shown.low.x < low.x && shown.low.y < low.y && shown.high.x > high.x &&
             shown.high.y > high.y && shown.high.x - shown.low.x < 3 * (high.x - low.x);
    };
    drop(picture);
    QVERIFY(!design().catalogue.models.empty());
    QCOMPARE(design().site.underlays.size(), std::size_t{1});
    QVERIFY(whole());
    window_->command("view.all")->trigger();
    QVERIFY(whole());
    const Vec2 left = onPicture(100, 500), right = onPicture(700, 500);
    click(left);
    click(right);
    type("12");
    QCOMPARE(design().site.underlays[0].pins.size(), std::size_t{2});
    QVERIFY(std::abs(norm(onPicture(700, 500) - onPicture(100, 500)) - 12) < 0.1);
    QTest::qWait(5);
    QVERIFY(whole());

    key(Qt::Key_B);
    drag(onPicture(100, 500), onPicture(700, 100));
    QCOMPARE(design().site.buildings.size(), std::size_t{1});
    const std::vector<Vec2>& outline = design().site.buildings[0].storeys[0].outline;
    QVERIFY(std::abs(norm(outline[1] - outline[0]) - 12) < 0.1);
    QVERIFY(std::abs(norm(outline[2] - outline[1]) - 8) < 0.1);
    QTest::qWait(5);

    key(Qt::Key_Z);
    drag(onPicture(250, 400), onPicture(450, 250));
    type("desk");
    QCOMPARE(design().site.zones.size(), std::size_t{1});
    QCOMPARE(design().site.zones[0].title, std::string("desk"));
    QCOMPARE(design().brief.size(), std::size_t{1});

    key(Qt::Key_H);
    click(onPicture(350, 480));
    QCOMPARE(design().housings.size(), std::size_t{1});
    key(Qt::Key_V);
    QTest::qWait(5);
    // Towards the zone, by the knob of the only imager.
    const design::Housing& housing = design().housings[0];
    std::optional<Vec2> knob;
    for (const drawing::Dial& dial : sheet().dials())
      for (const drawing::Knob& each : drawing::knobsOf(dial))
        knob = each.at / sheet().mmPerPx();
    QVERIFY(knob);
    const double before_deg = housing.imagers[0].aims[0].pan_deg;
    const Vec2 middle = sheet().pxAt(housing.mount.fixing_m.xy());
    const double to_deg = degToRad(before_deg + 20);
    ++actions_;
    dragOn(&sheet(), {qRound(knob->x), qRound(knob->y)},
           {qRound(middle.x + 60 * std::sin(to_deg)), qRound(middle.y - 60 * std::cos(to_deg))});
    QVERIFY(std::abs(wrap180(design().housings[0].imagers[0].aims[0].pan_deg - before_deg)) > 10);

    QVERIFY(waitForProof(*window_));
    const auto now = window_->evaluator().now();
    QVERIFY(!now->rows.empty());
    for (const LedgerRow& row : now->rows)
      QVERIFY(row.proof.verdict == proof::Verdict::met ||
              row.proof.verdict == proof::Verdict::not_met);
    QVERIFY2(actions_ <= 25, qPrintable(QString::number(actions_)));
    qInfo("%d actions", actions_);

    // Saved elsewhere, the picture goes along, and the file opens again.
    QTemporaryDir home;
    const std::filesystem::path path =
        std::filesystem::path(home.path().toStdString()) / "hall.json";
    window_->workspace().save(path);
    QVERIFY(QFile::exists(home.filePath("hall.png")));
    const design::DesignFile file = design::readDesign(path);
    QVERIFY(file.design.site.underlays == design().site.underlays);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::GuidedStartTest)
#include "guided_start_test.moc"
