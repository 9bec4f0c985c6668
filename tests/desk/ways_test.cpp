// SPDX-License-Identifier: GPL-3.0-or-later
//
// A cable's own way, drawn and bent on the plan; and what the tables of services say beside it.
#include <QAction>
#include <QLabel>
#include <QPushButton>
#include <QTableView>

#include <algorithm>
#include <cmath>

#include "desk/resources.h"
#include "desk/ts_translator.h"
#include "desk/way_tool.h"
#include "services_test_tools.h"
#include "edit/handles.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

QTableView* tableIn(MainWindow& window) { return window.findChild<QTableView*>("services.table"); }

// The row whose first cell ends so (an open circle may stand before it).
int rowOf(MainWindow& window, const QString& first) {
  const QAbstractItemModel* model = tableIn(window)->model();
  for (int row = 0; row < model->rowCount(); ++row)
    if (model->index(row, 0).data().toString().endsWith(first)) return row;
  return -1;
}
int columnOf(MainWindow& window, const QString& heading) {
  const QAbstractItemModel* model = tableIn(window)->model();
  for (int column = 0; column < model->columnCount(); ++column)
    if (model->headerData(column, Qt::Horizontal).toString() == heading) return column;
  return -1;
}
QString lengthSaid(MainWindow& window, const std::string& link) {
  return tableIn(window)->model()->index(rowOf(window, QString::fromStdString(link)), 4).data().toString();
}

}  // namespace

class WaysTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the way that was found for a cable is pulled by hand and so becomes its own; its length
  // in the table follows while it is dragged; undo says what it takes back.
  void aFoundWayIsPulled() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    QTest::qWait(50);
    const design::AnyId link = workspace.design().services.links.front().id;
    const QString id = QString::fromStdString(link.text);
    QTableView* table = tableIn(*window);
    table->setCurrentIndex(table->model()->index(rowOf(*window, id), 4));
    QCOMPARE(selectedCable(workspace), link);
    const QString before = table->currentIndex().data().toString();
    const std::vector<Vec3> bends =
        services::bendsOf(*pageOf(*window)->maker().now()->sizes.network.cables.front().way);
    SheetView& sheet = window->sheet();
    sheet.showAll();
    const QPoint from = pointOn(sheet, bends.front().xy());
    dragOn(&sheet, from, from + QPoint(60, 50), Qt::ControlModifier);
    QVERIFY(!workspace.design().services.links.front().path.empty());
    QCOMPARE(workspace.undoName(), "Bend the way of " + id);
    QVERIFY(waitForSizes(*window));
    QTest::qWait(50);
    const services::Cable& cable = pageOf(*window)->maker().now()->sizes.network.cables.front();
    QVERIFY(cable.drawn);
    QCOMPARE(table->currentIndex().data().toString(), QString::number(cable.length_m, 'f', 1));
    QVERIFY(table->currentIndex().data().toString() != before);
    workspace.undo();
    QVERIFY(workspace.design().services.links.front().path.empty());
  }

  // Property: while a hand drags a bend, before it lets go, the table follows.
  void theLengthFollowsTheHand() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    const design::AnyId link = workspace.design().services.links.front().id;
    workspace.select({{edit::ObjectKind::link, link.text, 0}});
    QTest::qWait(50);
    QCOMPARE(tableIn(*window)->currentIndex().row(), rowOf(*window, QString::fromStdString(link.text)));
    window->command("draw.bend_way")->trigger();
    QVERIFY(!workspace.design().services.links.front().path.empty());
    QVERIFY(waitForSizes(*window));
    workspace.setDragging(true);
    const edit::ObjectRef ref{edit::ObjectKind::link, link.text, 0};
    const edit::Handle handle = edit::handlesOf(workspace.design(), ref).front();
    workspace.apply("pull", edit::withHandleAt(workspace.design(), ref, handle, handle.at_m + Vec2{3, 4}),
                    "pull");
    QVERIFY(waitForSizes(*window));
    QTest::qWait(50);
    const services::Cable& cable = pageOf(*window)->maker().now()->sizes.network.cables.front();
    QCOMPARE(lengthSaid(*window, link.text), QString::number(cable.length_m, 'f', 1));
    workspace.setDragging(false);
    window->command("draw.find_way")->trigger();
    QVERIFY(workspace.design().services.links.front().path.empty());
  }

  // Property: a way is drawn by clicks and keys with the tool, and stepped, moved and taken out by keys.
  void aWayIsDrawnAndBentByKeys() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    const design::AnyId link = workspace.design().services.links.front().id;
    SheetView& sheet = window->sheet();
    sheet.showAll();
    workspace.select({{edit::ObjectKind::link, link.text, 0}});
    window->command("draw.way")->trigger();
    QVERIFY(dynamic_cast<WayTool*>(&sheet.tool()));
    QTest::mouseClick(&sheet, Qt::LeftButton, Qt::ControlModifier, pointOn(sheet, {6, 6}));
    QTest::mouseClick(&sheet, Qt::LeftButton, Qt::ControlModifier, pointOn(sheet, {10, 7}));
    QTest::keyClick(&sheet, Qt::Key_Return);
    QCOMPARE(workspace.design().services.links.front().path.size(), std::size_t{2});
    QCOMPARE(workspace.undoName(), "Draw the way of " + QString::fromStdString(link.text));
    QTRY_VERIFY(!dynamic_cast<WayTool*>(&sheet.tool()));
    const Vec3 first = workspace.design().services.links.front().path.front();
    window->command("edit.next_handle")->trigger();
    QTest::keyClick(&sheet, Qt::Key_Right, Qt::ShiftModifier | Qt::ControlModifier);
    QVERIFY(workspace.design().services.links.front().path.front().x > first.x);
    window->command("edit.delete")->trigger();
    QCOMPARE(workspace.design().services.links.front().path.size(), std::size_t{1});
  }

  // Property: without a chosen cable nothing is drawn, and the window says what to do; a way to a storey
  // that no riser joins is a shortfall that says so.
  void whatCannotBeDrawnIsSaid() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    workspace.select({});
    QVERIFY(!window->findChild<QPushButton*>("services.draw_way")->isEnabled());
    QSignalSpy told(&workspace, &Workspace::told);
    window->command("draw.bend_way")->trigger();
    window->command("draw.find_way")->trigger();
    QCOMPARE(told.count(), 2);
    QVERIFY2(told.at(0).at(0).toString().contains("Choose a cable first"),
             qPrintable(told.at(0).at(0).toString()));
    QVERIFY(!workspace.canUndo());
    SheetView& sheet = window->sheet();
    sheet.showAll();
    window->command("draw.way")->trigger();
    QTest::mouseClick(&sheet, Qt::LeftButton, Qt::ControlModifier, pointOn(sheet, {6, 6}));
    QTest::keyClick(&sheet, Qt::Key_Return);
    QVERIFY(!workspace.canUndo());
  }

  // Property: what a cable carries stands with its load, stream by stream, and adds up to it.
  void aLoadLeadsToItsStreams() {
    auto window = windowWith("winter_yard/design.json");
    window->workspace().setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    const int column = columnOf(*window, "Mbit/s");
    int loaded = 0;
    for (const services::Cable& cable : pageOf(*window)->maker().now()->sizes.network.cables) {
      const int row = rowOf(*window, QString::fromStdString(cable.link.text));
      const QString source =
          tableIn(*window)->model()->index(row, column).data(Qt::AccessibleDescriptionRole).toString();
      double sum = 0;
      std::size_t named = 0;  // the first 24, and how many more
      for (const services::Carried& of : cable.carries) {
        QVERIFY2(++named > 24 || source.contains(QString::fromStdString(of.stream.text) + " " +
                                 QString::number(of.mbps, 'f', 1)),
                 qPrintable(source));
        sum += of.mbps;
      }
      QVERIFY(std::abs(sum - cable.load_mbps) < 1e-9);
      loaded += cable.load_mbps > 0;
    }
    QVERIFY(loaded > 2);
  }

  // Property: days held stand beside days asked for, with what comes of it, as the engine says it.
  void daysHeldStandBesideDaysAskedFor() {
    auto window = windowWith("winter_yard/design.json");
    window->workspace().setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    pageOf(*window)->choose(ServicesPart::recording);
    const services::RecordingSizes& recording = pageOf(*window)->maker().now()->sizes.recording;
    const QAbstractItemModel* model = tableIn(*window)->model();
    const int held = columnOf(*window, "days held");
    QCOMPARE(columnOf(*window, "asked"), held + 1);
    QCOMPARE(columnOf(*window, "verdict"), held + 2);
    QVERIFY(!recording.retention.empty() && recording.retention.front().held_days);
    const services::Retention& kept = recording.retention.front();
    const int row = rowOf(*window, QString::fromStdString(kept.requirement.text));
    QVERIFY(row >= 0);
    QVERIFY(model->index(row, held).data().toString().contains(
        QString::number(kept.held_days->low, 'f', 1)));
    QCOMPARE(model->index(row, held + 1).data().toDouble(), kept.asked_days);
    // 13.6 days at the high end of the rates, 20 asked for, which the low end allows.
    QCOMPARE(model->index(row, held + 2).data().toString(), "undecided");
    design::Design fewer = window->workspace().design();
    for (design::Requirement& requirement : fewer.brief)
      if (requirement.id.text == kept.requirement.text) requirement.keep_days = 7;
    window->workspace().apply("fewer days", fewer);
    QVERIFY(waitForSizes(*window));
    QTRY_COMPARE(model->index(row, held + 2).data().toString(), "met");
  }

  // Property: no word of the tables that has a German one stays English.
  void theTablesSpeakGerman() {
    loadResources();
    TsTranslator german;
    QVERIFY(german.read(":/words/belvedere_de.ts"));
    QCoreApplication::installTranslator(&german);
    auto window = windowWith("winter_yard/design.json");
    window->workspace().setStage(Stage::services);
    const bool made = waitForSizes(*window);
    QStringList said;
    if (made)
      for (int part = 0; part < kServicesParts; ++part) {
        if (static_cast<ServicesPart>(part) == ServicesPart::failures) continue;
        const ServicesTable table =
            tableOf(static_cast<ServicesPart>(part), *pageOf(*window)->maker().now());
        said << table.headings;
        for (const ServicesTable::Row& row : table.rows) said << row.cells << row.sources;
      }
    window.reset();
    QCoreApplication::removeTranslator(&german);
    QVERIFY(made);
    for (const char* english : {"estimated", "capped", "twisted pair", "cold night", "unit", "undecided"})
      for (const QString& words : said)
        QVERIFY2(!words.contains(QLatin1String(english)), qPrintable(words));
    const QString all = said.join(" ");
    for (const char* words : {"geschätzt", "kalte Nacht", "Einheit"})
      QVERIFY2(all.contains(QString::fromUtf8(words)), words);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::WaysTest)
#include "ways_test.moc"
