// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QSpinBox>
#include <QStandardPaths>

#include <algorithm>
#include <cmath>

#include "desk_test_tools.h"
#include "edit/handles.h"
#include "edit/shapes.h"

namespace belvedere::desk {

// Editing by commands, keys and numbers.
class EditingTest : public QObject {
  Q_OBJECT

  std::unique_ptr<MainWindow> window_;
  Workspace& workspace() { return window_->workspace(); }
  SheetView& sheet() { return window_->sheet(); }
  const design::Design& design() { return workspace().design(); }
  const std::vector<design::Solid>& solids() { return design().site.solids; }
  void run(const QString& command) { window_->command(command)->trigger(); }
  QLineEdit* line() { return window_->findChild<QLineEdit*>("typed_line"); }
  void key(Qt::Key key, Qt::KeyboardModifiers keys = {}) {
    sheet().setFocus();
    QTest::keyClick(&sheet(), key, keys);
  }
  void type(const QString& text) {
    QTest::keyClicks(&sheet(), text.left(1));
    QVERIFY(line()->isVisible());
    QTest::keyClicks(line(), text.mid(1));
    QTest::keyClick(line(), Qt::Key_Return);
  }
  void hover(Vec2 at) {
    const QPoint px = pointOn(sheet(), at);
    QMouseEvent move(QEvent::MouseMove, px, sheet().mapToGlobal(px), Qt::NoButton, Qt::NoButton,
                     Qt::NoModifier);
    QCoreApplication::sendEvent(&sheet(), &move);
  }
  void into(const QString& field, const QString& text) {
    auto* edit = window_->findChild<QLineEdit*>(field);
    QVERIFY2(edit && edit->isVisible(), qPrintable(field));
    edit->setFocus();
    edit->selectAll();
    QTest::keyClicks(edit, text);
    QTest::keyClick(edit, Qt::Key_Return);
  }

 private Q_SLOTS:
  void init() {
    window_ = windowWith("");
    window_->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(window_.get()));
    edit::Added floor = edit::withBuilding({}, {{0, 0}, {20, 0}, {20, 12}, {0, 12}}, 0, 3);
    const design::StoreyId storey{floor.ref.id};
    edit::Added box = edit::withSolid(floor.design, storey, design::SolidKind::stock,
                                      {{2, 2}, {4, 2}, {4, 3}, {2, 3}}, 0, 1);
    edit::Added wall = edit::withWall(box.design, storey, {{8, 2}, {12, 2}, {12, 6}}, 0.2, {});
    workspace().start(std::move(wall.design));
    sheet().showAll();
    workspace().select({box.ref});
    sheet().setFocus();
    QTest::qWait(5);
  }
  void cleanup() { window_.reset(); }

  // Property: a typed vector moves the selection by it, exactly.
  void aTypedVectorMoves() {
    type("@1;0.5");
    QCOMPARE(solids()[0].outline[0], (Vec2{3, 2.5}));
    run("edit.move_by");
    type("@2<90");
    QCOMPARE(solids()[0].outline[0], (Vec2{5, 2.5}));
    QCoreApplication::processEvents();
    QCOMPARE(sheet().tool().name(), QString("Pointer"));
  }

  // Property: a quarter turn typed is a quarter turn about the middle.
  void aTypedAngleTurns() {
    run("edit.turn");
    type("90");
    std::vector<Vec2> outline = solids()[0].outline;
    const auto has = [&](Vec2 p) {
      return std::any_of(outline.begin(), outline.end(),
                         [&](Vec2 q) { return norm(p - q) < 1e-6; });
    };
    QVERIFY(has({2.5, 1.5}) && has({3.5, 1.5}) && has({3.5, 3.5}) && has({2.5, 3.5}));
  }

  // Property: two places mirror.
  void twoPlacesMirror() {
    run("edit.mirror");
    type("5;0");
    type("5;10");
    double most = 0, least = 99;
    for (const Vec2 p : solids()[0].outline) most = std::max(most, p.x), least = std::min(least, p.x);
    QVERIFY(std::abs(least - 6) < 1e-9 && std::abs(most - 8) < 1e-9);
  }

  // Property: rows and columns stand at their pitches; what cannot be is said and nothing happens.
  void rowsAndColumns() {
    run("edit.array");
    auto* dialog = window_->findChild<QDialog*>("array");
    QVERIFY(dialog);
    dialog->findChild<QSpinBox*>("array.columns")->setValue(3);
    dialog->findChild<QSpinBox*>("array.rows")->setValue(2);
    auto* pitch = dialog->findChild<QLineEdit*>("array.column_pitch");
    pitch->setText("nonsense");
    dialog->accept();
    QVERIFY(!dialog->findChild<QLabel*>("array.error")->text().isEmpty());
    QCOMPARE(solids().size(), std::size_t{1});
    pitch->setText("2.5");
    dialog->findChild<QLineEdit*>("array.row_pitch")->setText("300 cm");
    dialog->accept();
    QCOMPARE(solids().size(), std::size_t{6});
    QCOMPARE(workspace().selection().size(), std::size_t{5});
    QVERIFY(std::any_of(solids().begin(), solids().end(), [](const design::Solid& solid) {
      return norm(solid.outline[0] - Vec2{7, 5}) < 1e-9;
    }));
  }

  // Property: copies along a line stand at its pitch.
  void alongALine() {
    run("edit.copy_along");
    into("tool.pitch", "3");
    type("2;2");
    type("@9.5;0");
    key(Qt::Key_Return);
    QCOMPARE(solids().size(), std::size_t{4});
    QVERIFY(norm(solids()[3].outline[0] - Vec2{11, 2}) < 1e-9);
  }

  // Property: cut and pasted in place is as it was but for its id; pasted on the storey above it is
  // there.
  void cutAndPaste() {
    const std::vector<Vec2> outline = solids()[0].outline;
    run("edit.cut");
    QVERIFY(solids().empty());
    run("edit.paste_in_place");
    QCOMPARE(solids().size(), std::size_t{1});
    QVERIFY(solids()[0].outline == outline);
    run("edit.copy");
    run("draw.storey_above");
    run("edit.paste");
    QCOMPARE(solids().size(), std::size_t{2});
    QVERIFY(solids()[1].storey == workspace().storey());
    QVERIFY(solids()[1].outline == outline);
    run("view.storey_down");
    QVERIFY(workspace().storey() == solids()[0].storey);
  }

  // Property: Del erases; what is selected with it by kind, all or the rest.
  void selectionsAndErasing() {
    run("edit.duplicate");
    QCOMPARE(solids().size(), std::size_t{2});
    run("edit.select_kind");
    QCOMPARE(workspace().selection().size(), std::size_t{2});
    run("edit.select_inverse");
    QCOMPARE(workspace().selection().size(), std::size_t{1});
    QCOMPARE(workspace().selection()[0].kind, edit::ObjectKind::wall);
    run("edit.select_all");
    QCOMPARE(workspace().selection().size(), std::size_t{3});
    run("edit.delete");
    QVERIFY(solids().empty());
    QVERIFY(workspace().shownStorey()->walls.empty());
    run("edit.undo");
    QCOMPARE(solids().size(), std::size_t{2});
  }

  // Property: a corner under the pointer goes with Del, an edge's length is typed, an edge pulled
  // has a new corner.
  void cornersAndEdges() {
    const edit::ObjectRef wall{edit::ObjectKind::wall, workspace().shownStorey()->walls[0].id.text, 0};
    workspace().select({wall});
    hover({10, 2});  // the middle of the first edge
    QVERIFY(sheet().tool().asks().contains("edge"));
    type("5");
    const auto path = [&] { return workspace().shownStorey()->walls[0].path; };
    QVERIFY(norm(path()[1] - Vec2{13, 2}) < 1e-9);
    QVERIFY(norm(path()[2] - Vec2{13, 6}) < 1e-9);
    dragOn(&sheet(), pointOn(sheet(), {10.5, 2}), pointOn(sheet(), {10.5, 4.3}), Qt::AltModifier);
    QCOMPARE(path().size(), std::size_t{4});
    const Vec2 corner = path()[1];
    hover({1, 10});
    hover(corner);
    run("edit.delete");
    QCOMPARE(path().size(), std::size_t{3});
    QVERIFY(norm(path()[1] - Vec2{13, 2}) < 1e-9);
    // By keys alone: the first handle, a place for it.
    run("edit.next_handle");
    type("7;2");
    QVERIFY(norm(path()[0] - Vec2{7, 2}) < 1e-9);
  }

  // Property: numbers of what is selected are typed with units, for many alike at once; what cannot
  // be is refused and the field shows what is.
  void numbersAreTyped() {
    run("edit.duplicate");
    run("edit.select_kind");
    into("field.top_m", "150 cm");
    QCOMPARE(solids()[0].top_m, 1.5);
    QCOMPARE(solids()[1].top_m, 1.5);
    into("field.top_m", "-4");
    QCOMPARE(solids()[0].top_m, 1.5);
    workspace().select({{edit::ObjectKind::wall, workspace().shownStorey()->walls[0].id.text, 0}});
    into("field.thickness_m", "11.5 cm");
    QCOMPARE(workspace().shownStorey()->walls[0].thickness_m, 0.115);
    into("field.height_m", "2.2");
    QCOMPARE(workspace().shownStorey()->walls[0].height_m.value_or(0), 2.2);
    workspace().select({{edit::ObjectKind::storey, workspace().storey().text, 0}});
    into("field.title", "Ground");
    QCOMPARE(workspace().shownStorey()->title, std::string("Ground"));
    into("field.height_m", "3.4");
    QCOMPARE(workspace().shownStorey()->height_m, 3.4);
  }

  // Property: a requirement is edited at the brief, added and erased; each is one step.
  void requirementsAreEdited() {
    workspace().open(examplePath("shop/design.json"));
    const design::RequirementId id = design().brief.front().id;
    const std::size_t count = design().brief.size();
    const auto now = [&] { return *design::findRequirement(design(), id); };
    workspace().selectRequirement(id);
    workspace().setStage(Stage::brief);
    QTest::qWait(5);
    into("requirement.share", "88");
    QCOMPARE(now().share, 0.88);
    into("requirement.px_per_m", "180");
    QCOMPARE(now().px_per_m.value_or(0), 180.0);
    auto* task = window_->findChild<QComboBox*>("requirement.task");
    task->setCurrentIndex(0);
    Q_EMIT task->activated(0);
    QVERIFY(!now().px_per_m && !now().task.empty());
    into("requirement.facings", "90; 270");
    QCOMPARE(now().facings.size(), std::size_t{2});
    into("requirement.share", "nonsense");
    QCOMPARE(now().share, 0.88);
    run("brief.add_requirement");
    QCOMPARE(design().brief.size(), count + 1);
    QVERIFY(workspace().requirement() == design().brief.back().id);
    run("brief.erase_requirement");
    QCOMPARE(design().brief.size(), count);
    while (workspace().canUndo()) workspace().undo();
    QVERIFY(workspace().isSaved());
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::EditingTest)
#include "editing_test.moc"
