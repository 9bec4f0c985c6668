// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>

#include <algorithm>
#include <cmath>

#include "desk_test_tools.h"
#include "edit/measure.h"
#include "edit/shapes.h"

namespace belvedere::desk {

// Drawn through mouse and keys, as a person does.
class DrawTest : public QObject {
  Q_OBJECT

  std::unique_ptr<MainWindow> window_;
  Workspace& workspace() { return window_->workspace(); }
  SheetView& sheet() { return window_->sheet(); }
  const design::Design& design() { return workspace().design(); }
  const design::Storey& storey() { return *workspace().shownStorey(); }

  void click(Vec2 at, Qt::KeyboardModifiers keys = Qt::AltModifier) {  // Alt: as it is, no snap
    const QPoint px = pointOn(sheet(), at);
    QMouseEvent move(QEvent::MouseMove, px, sheet().mapToGlobal(px), Qt::NoButton, Qt::NoButton,
                     keys);
    QCoreApplication::sendEvent(&sheet(), &move);
    QTest::mouseClick(&sheet(), Qt::LeftButton, keys, px);
  }
  void hover(Vec2 at, Qt::KeyboardModifiers keys = Qt::AltModifier) {
    const QPoint px = pointOn(sheet(), at);
    QMouseEvent move(QEvent::MouseMove, px, sheet().mapToGlobal(px), Qt::NoButton, Qt::NoButton,
                     keys);
    QCoreApplication::sendEvent(&sheet(), &move);
  }
  QLineEdit* line() { return window_->findChild<QLineEdit*>("typed_line"); }
  QString error() { return window_->findChild<QLabel*>("tool_error")->text(); }
  // On the sheet: the first letter opens the line, the rest goes into it.
  void type(const QString& text) {
    QTest::keyClicks(&sheet(), text.left(1));
    QVERIFY(line()->isVisible());
    QTest::keyClicks(line(), text.mid(1));
    QTest::keyClick(line(), Qt::Key_Return);
    QVERIFY2(!line()->isVisible(), qPrintable(error()));
  }
  void key(Qt::Key key, Qt::KeyboardModifiers keys = {}) {
    sheet().setFocus();
    QTest::keyClick(&sheet(), key, keys);
  }
  static bool near(const std::vector<Vec2>& found, const std::vector<Vec2>& meant) {
    if (found.size() != meant.size()) return false;
    for (std::size_t i = 0; i < found.size(); ++i)
      if (norm(found[i] - meant[i]) > 0.001) return false;
    return true;
  }
  // A bare floor of 20 x 12 m, all of it shown.
  void bareFloor() {
    edit::Added added =
        edit::withBuilding({}, {{0, 0}, {20, 0}, {20, 12}, {0, 12}}, 0, 3);
    workspace().start(std::move(added.design));
    sheet().showAll();
    QTest::qWait(5);
  }

 private Q_SLOTS:
  void init() {
    window_ = windowWith("");
    window_->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(window_.get()));
    bareFloor();
    sheet().setFocus();
  }
  void cleanup() { window_.reset(); }

  // Property: a wall of typed places and lengths is exactly what was typed; one step of undo.
  void aWallIsWhatWasTyped() {
    const std::string before = workspace().text();
    key(Qt::Key_W);
    type("2;2");
    type("@5<90");
    hover({7, 9}, Qt::ShiftModifier | Qt::AltModifier);
    type("3 + 50 cm");
    key(Qt::Key_Return);
    QCOMPARE(storey().walls.size(), std::size_t{1});
    QVERIFY(near(storey().walls[0].path, {{2, 2}, {7, 2}, {7, 5.5}}));
    QCOMPARE(workspace().selection().front().id, storey().walls[0].id.text);
    window_->command("edit.undo")->trigger();
    QCOMPARE(QString::fromStdString(workspace().text()), QString::fromStdString(before));
  }

  // Property: clicks are places to a pixel, Backspace takes one back, C closes the ring, and the
  // field's thickness is the wall's.
  void aWallIsClickedAndClosed() {
    key(Qt::Key_W);
    auto* thickness = window_->findChild<QLineEdit*>("tool.wall_thickness");
    QVERIFY(thickness && thickness->isVisible());
    thickness->setFocus();
    thickness->selectAll();
    QTest::keyClicks(thickness, "12 cm");
    QTest::keyClick(thickness, Qt::Key_Return);
    QVERIFY(sheet().hasFocus());
    click({3, 3});
    click({9, 3});
    click({15, 11});
    key(Qt::Key_Backspace);
    click({9, 8});
    click({3, 8});
    key(Qt::Key_C);
    QCOMPARE(storey().walls.size(), std::size_t{1});
    const design::Wall& wall = storey().walls[0];
    QCOMPARE(wall.thickness_m, 0.12);
    QCOMPARE(wall.path.size(), std::size_t{5});
    QVERIFY(wall.path.front() == wall.path.back());
    QVERIFY(norm(wall.path[2] - Vec2{9, 8}) < sheet().metres(1));
  }

  // Property: with Shift, right angles, whatever the hand does.
  void shiftKeepsRightAngles() {
    key(Qt::Key_W);
    type("2;2");
    click({9, 2.7}, Qt::ShiftModifier | Qt::AltModifier);
    click({9.5, 8}, Qt::ShiftModifier | Qt::AltModifier);
    key(Qt::Key_Return);
    const std::vector<Vec2>& path = storey().walls.at(0).path;
    QVERIFY(std::abs(path[1].y - 2) < 1e-9);
    QVERIFY(std::abs(path[2].x - path[1].x) < 1e-9);
  }

  // Property: nothing is applied of what could not be: it is said, in the line; Escape gives up.
  void errorsAreSaidAndNothingIsApplied() {
    const std::string before = workspace().text();
    key(Qt::Key_Z);
    click({2, 2});
    click({8, 8});
    click({8, 2});
    click({2, 8});  // a bow tie
    QVERIFY(!error().isEmpty());
    key(Qt::Key_Return);
    QVERIFY(!error().isEmpty());
    QCOMPARE(QString::fromStdString(workspace().text()), QString::fromStdString(before));
    key(Qt::Key_Escape);
    QVERIFY(error().isEmpty());
    key(Qt::Key_W);
    type("2;2");
    QTest::keyClicks(&sheet(), "5");
    QTest::keyClicks(line(), " furlongs");
    QTest::keyClick(line(), Qt::Key_Return);
    QVERIFY(!error().isEmpty());
    QVERIFY(line()->isVisible());
    QTest::keyClick(line(), Qt::Key_Escape);
    QVERIFY(!line()->isVisible());
    QVERIFY(error().isEmpty());
    QCOMPARE(QString::fromStdString(workspace().text()), QString::fromStdString(before));
  }

  // Property: a door is where the wall was clicked, as wide as typed.
  void aDoorGoesIntoAWall() {
    workspace().apply("wall", edit::withWall(design(), workspace().storey(), {{2, 6}, {14, 6}}, 0.2,
                                             std::nullopt).design);
    key(Qt::Key_D);
    hover({8, 6.1});
    type("1.2");
    click({8, 6.1});
    const design::Wall& wall = storey().walls[0];
    QCOMPARE(wall.openings.size(), std::size_t{1});
    QCOMPARE(wall.openings[0].width_m, 1.2);
    QCOMPARE(wall.openings[0].sill_m, 0.0);
    QVERIFY(std::abs(wall.openings[0].from_m - 5.4) < sheet().metres(1));
    click({18, 1});  // no wall there
    QVERIFY(!error().isEmpty());
    QCOMPARE(storey().walls[0].openings.size(), std::size_t{1});
    key(Qt::Key_N);
    click({12, 6});
    QCOMPARE(storey().walls[0].openings.size(), std::size_t{2});
    QVERIFY(storey().walls[0].openings[1].sill_m > 0);
  }

  // Property: a rectangle is dragged, or its size typed; kind and heights are the fields'.
  void anObstacleIsARectangle() {
    key(Qt::Key_O);
    auto* kind = window_->findChild<QComboBox*>("tool.solid_kind");
    QVERIFY(kind);
    kind->setCurrentIndex(kind->findData(QString::number(static_cast<int>(
        design::SolidKind::counter))));
    Q_EMIT kind->activated(kind->currentIndex());
    dragOn(&sheet(), pointOn(sheet(), {4, 4}), pointOn(sheet(), {6, 5}), Qt::AltModifier);
    QCOMPARE(design().site.solids.size(), std::size_t{1});
    QCOMPARE(design().site.solids[0].kind, design::SolidKind::counter);
    QCOMPARE(design().site.solids[0].outline.size(), std::size_t{4});
    QVERIFY(norm(design().site.solids[0].outline[2] - Vec2{6, 5}) < sheet().metres(1.5));
    type("10;3");
    type("2 x 1.5");
    QCOMPARE(design().site.solids.size(), std::size_t{2});
    QVERIFY(near(design().site.solids[1].outline, {{10, 3}, {12, 3}, {12, 4.5}, {10, 4.5}}));
  }

  // Property: the zone and its requirement come in one flow and are one step of undo.
  void aZoneBringsItsRequirement() {
    const std::string before = workspace().text();
    key(Qt::Key_Z);
    type("4;4");
    type("6 x 5");
    auto* title = window_->findChild<QLineEdit*>("tool.zone_title");
    QVERIFY(title && title->isVisible());
    QVERIFY(title->hasFocus());
    QTest::keyClicks(title, "entrance");
    auto* task = window_->findChild<QComboBox*>("tool.zone_task");
    task->setFocus();
    QTest::keyClicks(task, "identify");
    Q_EMIT task->activated(task->currentIndex());
    QTest::keyClick(task, Qt::Key_Return);
    QCOMPARE(design().site.zones.size(), std::size_t{1});
    QCOMPARE(design().site.zones[0].title, std::string("entrance"));
    QVERIFY(near(design().site.zones[0].outline, {{4, 4}, {10, 4}, {10, 9}, {4, 9}}));
    QCOMPARE(design().brief.size(), std::size_t{1});
    QCOMPARE(design().brief[0].task, std::string("identify"));
    QCOMPARE(design().brief[0].zone.text, design().site.zones[0].id.text);
    QVERIFY(workspace().requirement() == design().brief[0].id);
    QVERIFY(sheet().hasFocus());
    window_->command("edit.undo")->trigger();
    QCOMPARE(QString::fromStdString(workspace().text()), QString::fromStdString(before));
  }

  // Property: mounting lines, trays, buildings and storeys are what was typed.
  void linesAndStoreys() {
    key(Qt::Key_L);
    type("1;1");
    type("@4;0");
    key(Qt::Key_Return);
    QVERIFY(near(design().site.mounting.at(0).path, {{1, 1}, {5, 1}}));
    QCOMPARE(design().site.mounting[0].heights_m, (design::Range{2.5, 2.8}));
    key(Qt::Key_T);
    type("1;11");
    type("@10;0");
    key(Qt::Key_Return);
    QCOMPARE(design().site.containment.at(0).path.size(), std::size_t{2});
    QCOMPARE(design().site.containment[0].path[1].x, 11.0);
    QCOMPARE(design().site.containment[0].path[1].z, 2.8);
    key(Qt::Key_B);
    type("30;0");
    type("8 x 6");
    QCOMPARE(design().site.buildings.size(), std::size_t{2});
    QVERIFY(near(design().site.buildings[1].storeys[0].outline, {{30, 0}, {38, 0}, {38, 6}, {30, 6}}));
    window_->command("draw.storey_above")->trigger();
    QCOMPARE(design().site.buildings[1].storeys.size(), std::size_t{2});
    QVERIFY(workspace().storey() == design().site.buildings[1].storeys[1].id);
  }

  // Property: a housing near a mounting line hangs on it, at its greatest height.
  void aHousingTakesHoldOfALine() {
    workspace().open(examplePath("shop/design.json"));
    sheet().showAll();
    design::Design next = design();
    next.housings.clear();
    edit::Added line = edit::withMounting(design(), workspace().storey(), "ceiling",
                                          {{1, 1}, {4, 1}}, {2.2, 2.6});
    workspace().apply("line", line.design);
    const std::size_t before = design().housings.size();
    key(Qt::Key_H);
    click({2, 1 + sheet().metres(5)});
    QCOMPARE(design().housings.size(), before + 1);
    const design::Housing& housing = design().housings.back();
    QCOMPARE(housing.mount.on.text, line.ref.id);
    QVERIFY(std::abs(housing.mount.fixing_m.y - 1) < 1e-9);
    QVERIFY(std::abs(housing.mount.fixing_m.z - workspace().shownStorey()->floor_m - 2.6) < 1e-9);
    QCOMPARE(workspace().selection().front().id, housing.id.text);
  }

  // Property: measuring says distance, bearing and area, and changes nothing.
  void measuringSaysAndChangesNothing() {
    const quint64 version = workspace().version();
    key(Qt::Key_M);
    type("1;1");
    type("@3;0");
    type("@0;4");
    QVERIFY2(sheet().tool().hint().contains("4.00 m"), qPrintable(sheet().tool().hint()));
    QVERIFY(sheet().tool().hint().contains("6.00 m²"));
    QVERIFY(sheet().tool().hint().contains("7.00 m"));
    key(Qt::Key_Return);
    QCOMPARE(workspace().version(), version);
  }

  // Property: letters are the tools' keys on the sheet alone.
  void lettersAreKeysOnTheSheetAlone() {
    key(Qt::Key_W);
    auto* thickness = window_->findChild<QLineEdit*>("tool.wall_thickness");
    thickness->setFocus();
    QTest::keyClicks(thickness, "z");
    QCOMPARE(sheet().tool().name(), QString("Wall"));
    key(Qt::Key_Escape);
    key(Qt::Key_Escape);
    QCOMPARE(sheet().tool().name(), QString("Pointer"));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::DrawTest)
#include "draw_test.moc"
