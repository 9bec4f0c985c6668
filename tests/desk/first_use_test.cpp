// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a person meets in the first minutes: keys that work at once, a plan that lies free of its legend,
// letters in menus, a grid, boxes over a floor that is one zone, feet, files that get their ending.
#include <QAction>
#include <QApplication>
#include <QFileDialog>
#include <QInputDialog>
#include <QLabel>
#include <QLineEdit>
#include <QMenuBar>
#include <QProcess>
#include <QProcessEnvironment>
#include <QPushButton>
#include <QSettings>
#include <QSplitter>
#include <QTemporaryDir>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/units.h"
#include "desk/building_tools.h"
#include "desk/first_page.h"
#include "desk/habit_parts.h"
#include "desk/object_fields.h"
#include "desk/resources.h"
#include "desk/shown_units.h"
#include "desk/ts_translator.h"
#include "desk_test_tools.h"
#include "drawing/sheet_parts.h"

namespace belvedere::desk {
namespace {

// Letters that stand twice in a row of menus, entries or labels.
QStringList doubled(const QStringList& texts) {
  QStringList bad;
  std::set<QString> letters;
  for (const QString& text : texts) {
    const QString letter = QKeySequence::mnemonic(text).toString().right(1);
    if (!letter.isEmpty() && !letters.insert(letter.toUpper()).second) bad << text;
  }
  return bad;
}

// Types into the dialog that is about to open, and accepts.
void answer(const char* field, const QString& text) {
  QTimer::singleShot(200, [field, text] {
    QWidget* dialog = QApplication::activeModalWidget();
    auto* line = dialog ? dialog->findChild<QLineEdit*>(field) : nullptr;
    if (!line) return;
    line->setText(text);  // typed, a file's name would be completed to what lies there
    QTest::keyClick(line, Qt::Key_Return);
  });
}

double farthestPx(const SheetView& sheet, const std::vector<Vec2>& outline) {
  double low = -1e9;
  for (const Vec2 p : outline) low = std::max(low, sheet.pxAt(p).y);
  return low;
}

}  // namespace

class FirstUseTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  void initTestCase() { QSettings().clear(); }
  void cleanup() {
    setShownUnits(edit::Units::metric);
    QSettings().clear();
  }

  // Property: a tool's letter works as soon as the window is there, and after a file was opened,
  // whatever had the keys before.
  void lettersWorkAtOnce() {
    auto window = windowWith("");
    window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(window.get()));
    QCOMPARE(QApplication::focusWidget(), static_cast<QWidget*>(&window->sheet()));
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_B);
    QVERIFY(dynamic_cast<BuildingTool*>(&window->sheet().tool()));
    QVERIFY(!window->findChild<FirstPage*>()->isVisible());
    // What is drawn now has models to be hung with.
    QVERIFY(!window->workspace().design().catalogue.models.empty());
    QVERIFY(window->workspace().isSaved());
    window->findChild<QPushButton*>("stage.brief")->setFocus();
    QVERIFY(window->openFile(examplePath("shop/design.json")));
    QCOMPARE(QApplication::focusWidget(), static_cast<QWidget*>(&window->sheet()));
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_W);
    QVERIFY(dynamic_cast<WallTool*>(&window->sheet().tool()));
  }

  // Property: where the screen is hardly larger than the window, it takes all of it; the next time it is
  // as it was left.
  void theWindowIsWhollyOnTheScreen() {
    MainWindow window;
    const QSize screen = window.screen()->availableGeometry().size();
    window.resize(screen - QSize(40, 40));
    showWindow(window);
    QVERIFY(window.isMaximized());
    MainWindow left;
    left.resize(screen - QSize(40, 40));
    left.show();
    QVERIFY(left.close());
    MainWindow again;
    showWindow(again);
    QVERIFY(!again.isMaximized());
    QCOMPARE(again.size(), left.size());
  }

  // Property: no letter opens two menus, is two entries' of one menu, or a menu's and a field's.
  void lettersAreDistinct_data() {
    QTest::addColumn<bool>("german");
    QTest::newRow("English") << false;
    QTest::newRow("German") << true;
  }
  void lettersAreDistinct() {
    QFETCH(bool, german);
    loadResources();
    TsTranslator words;
    QVERIFY(words.read(":/words/belvedere_de.ts"));
    if (german) QCoreApplication::installTranslator(&words);
    {
      auto window = windowWith("shop/design.json");
      QTest::qWait(20);
      QStringList bar, bad;
      for (const QAction* menu : window->menuBar()->actions()) {
        bar << menu->text();
        QStringList entries;
        for (const QAction* entry : menu->menu()->actions()) entries << entry->text();
        const auto bare = std::count_if(entries.begin(), entries.end(), [](const QString& text) {
          return !text.isEmpty() && !text.contains('&');
        });
        QVERIFY2(bare <= 1, qPrintable(menu->text()));
        bad += doubled(entries);
      }
      for (const QLabel* label : window->findChildren<QLabel*>())
        if (label->buddy() && label->isVisible()) bar << label->text();
      bad += doubled(bar);
      QVERIFY2(bad.isEmpty(), qPrintable(bad.join(" | ")));
    }
    QCoreApplication::removeTranslator(&words);
  }

  // Property: a plan shown whole stands above the legend once that has as many rows as it will have;
  // the line of a tool covers all of it.
  void thePlanLiesFreeOfItsLegend() {
    auto window = windowWith("ferry_terminal/design.json");
    window->resize(1280, 740);
    SheetView& sheet = window->sheet();
    QVERIFY(waitForProof(*window));
    const std::vector<Vec2>& outline = window->workspace().shownStorey()->outline;
    const auto free = [&] {
      return sheet.furniture().area().height() > 60 &&
             farthestPx(sheet, outline) < sheet.furniture().area().top();
    };
    QVERIFY(QTest::qWaitFor(free, 5000));
    sheet.setFocus();
    window->command("draw.wall")->trigger();
    const int before = sheet.furniture().area().height();
    auto* line = sheet.findChild<QWidget*>("tool_line");
    QVERIFY(line->isVisible());
    window->resize(900, 740);  // the legend gets more rows
    QVERIFY(QTest::qWaitFor([&] { return sheet.furniture().area().height() > before; }, 5000));
    QVERIFY(QTest::qWaitFor([&] { return line->y() <= sheet.furniture().area().top(); }, 2000));
  }

  // Property: what gets wider beside the sheet leaves the plan where it is on the screen.
  void thePlanStaysWhenWhatIsBesideItGrows() {
    auto window = windowWith("shop/design.json");
    SheetView& sheet = window->sheet();
    sheet.zoomAt({300, 200}, 1.5);
    const Vec2 site = sheet.siteAt({400, 300});
    const QPoint before = sheet.mapTo(window.get(), pointOn(sheet, site));
    const int width = sheet.width();
    const QList<int> sizes = window->across()->sizes();
    QList<int> wider = sizes;
    wider[0] += 60;
    wider[1] -= 60;
    window->across()->setSizes(wider);
    QTest::qWait(20);
    QVERIFY(sheet.width() < width);
    QVERIFY((sheet.mapTo(window.get(), pointOn(sheet, site)) - before).manhattanLength() <= 1);
  }

  // Property: a file saved under a name without an ending gets ours, so that it is found again.
  void aSavedDesignGetsItsEnding() {
    QTemporaryDir folder;
    auto window = windowWith("shop/design.json");
    answer("fileNameEdit", folder.filePath("hall"));
    window->command("file.save_as")->trigger();
    QVERIFY(QFile::exists(folder.filePath("hall.json")));
    QVERIFY(!QFile::exists(folder.filePath("hall")));
  }

  // Property: a grid is typed in the person's units, places snap to it, it is kept, and what is no
  // length changes nothing and is said; snapping goes off by a command and is kept off.
  void gridAndSnapping() {
    {
      auto window = windowWith("");
      QTest::mouseClick(window->findChild<QPushButton*>("first.empty"), Qt::LeftButton);
      SheetView& sheet = window->sheet();
      answer(nullptr, "50 cm");
      window->command("draw.grid")->trigger();
      QCOMPARE(sheet.gridM(), 0.5);
      Pointer pointer;
      pointer.at_m = {1.03, 2.46};
      const auto snapped = [&] { return sheet.snap(pointer).at_m; };
      QVERIFY(norm(snapped() - Vec2{1, 2.5}) < 1e-9);
      answer(nullptr, "half");
      window->command("draw.grid")->trigger();
      QCOMPARE(sheet.gridM(), 0.5);
      QVERIFY(window->findChild<QLabel*>("hint")->text().contains("half"));
      window->command("draw.snap")->trigger();
      QVERIFY(norm(snapped() - Vec2{1.03, 2.46}) < 1e-9);
    }
    auto next = windowWith("");
    QCOMPARE(next->sheet().gridM(), 0.5);
    QVERIFY(!next->sheet().snapping());
    QVERIFY(!next->command("draw.snap")->isChecked());
    answer(nullptr, " ");
    next->command("draw.grid")->trigger();
    QCOMPARE(next->sheet().gridM(), 0.0);
  }

  // Property: on a floor that is one zone, a drag selects by a box and moves nothing; a zone that is
  // selected is moved.
  void aBoxBeginsOnAFloorThatIsAZone() {
    auto window = windowWith("ferry_terminal/design.json");
    SheetView& sheet = window->sheet();
    Workspace& workspace = window->workspace();
    const design::Design before = workspace.design();
    const design::Housing& housing = before.housings.front();
    const Vec2 at = housing.mount.fixing_m.xy();
    dragOn(&sheet, pointOn(sheet, at + Vec2{-2, -2}), pointOn(sheet, at + Vec2{2, 2}));
    QVERIFY(workspace.design() == before);
    bool found = false;
    for (const edit::ObjectRef& ref : workspace.selection())
      found |= ref.kind == edit::ObjectKind::housing && ref.id == housing.id.text;
    QVERIFY(found);
    for (const edit::ObjectRef& ref : workspace.selection())
      QVERIFY(ref.kind != edit::ObjectKind::zone);

    const QPoint floor = pointOn(sheet, at + Vec2{-2, -2});
    workspace.select({});
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, floor);
    QCOMPARE(workspace.selection().size(), std::size_t{1});
    QVERIFY(workspace.selection().front().kind == edit::ObjectKind::zone);
    // What stands in it can be clicked none the less.
    const design::Solid* column = nullptr;
    for (const design::Solid& solid : workspace.design().site.solids)
      if (solid.kind == design::SolidKind::column && solid.storey == workspace.storey()) column = &solid;
    QVERIFY(column);
    Box2 foot;
    for (const Vec2 p : column->outline) foot.add(p);
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, pointOn(sheet, (foot.low + foot.high) * 0.5));
    QCOMPARE(workspace.selection().size(), std::size_t{1});
    QCOMPARE(workspace.selection().front().id, column->id.text);
  }

  // Property: in feet, densities are pixels a foot: 1 ft = 0.3048 m exactly (the international foot,
  // NIST SP 811, appendix B.6), so 12.5 px/m are 3.81 px/ft.
  void densitiesFollowTheUnits() {
    auto window = windowWith("shop/design.json");
    QVERIFY(waitForProof(*window));
    const design::Design& design = window->workspace().design();
    const drawing::LengthUnit feet{feetToM(1), "ft"};
    bool seen = false, withheld = false;
    for (const design::Requirement& requirement : design.brief) {
      if (requirement.task == "identify") {
        QCOMPARE(drawing::asksFor(design, requirement), std::string("identify, 250 px/m"));
        QCOMPARE(drawing::asksFor(design, requirement, feet), std::string("identify, 76.2 px/ft"));
        seen = true;
      }
    }
    for (const LedgerRow& row : window->evaluator().now()->rows)
      if (row.proof.densest_px_per_m) {
        QVERIFY(drawing::verdictWords(row.proof).ends_with("of at most 12.5 px/m"));
        QVERIFY(drawing::verdictWords(row.proof, feet).ends_with("of at most 3.8 px/ft"));
        withheld = true;
      }
    QVERIFY(seen && withheld);
    SheetView& sheet = window->sheet();
    sheet.setFocus();
    const QImage metric = sheet.grab().toImage();
    window->command("view.feet")->trigger();
    QTest::qWait(50);
    QCOMPARE(std::string(sheet.sheet().unit.name), std::string("ft"));
    QVERIFY(sheet.grab().toImage() != metric);
  }

  // Property: of a name that is longer than its field the beginning shows.
  void longNamesShowTheirBeginning() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto& trays = window->workspace().design().site.containment;
    QVERIFY(!trays.empty() && trays.front().title.size() > 20);
    window->workspace().select({{edit::ObjectKind::containment, trays.front().id.text, 0}});
    bool seen = false;
    for (const QLineEdit* line : window->findChild<ObjectFields*>()->findChildren<QLineEdit*>())
      if (line->text().toStdString() == trays.front().title) {
        QCOMPARE(line->cursorPosition(), 0);
        seen = true;
      }
    QVERIFY(seen);
  }

  // Property: --help and --version answer where there is no screen.
  void helpNeedsNoScreen() {
    QProcess program;
    QProcessEnvironment without = QProcessEnvironment::systemEnvironment();
    without.remove("DISPLAY");
    without.remove("WAYLAND_DISPLAY");
    without.insert("QT_QPA_PLATFORM", "xcb");
    program.setProcessEnvironment(without);
    for (const char* option : {"--help", "--version"}) {
      program.start(QCoreApplication::applicationDirPath() + "/belvedere-desk", {option});
      QVERIFY(program.waitForFinished(60'000));
      QCOMPARE(program.exitStatus(), QProcess::NormalExit);
      QCOMPARE(program.exitCode(), 0);
      QVERIFY(QString(program.readAllStandardOutput()).contains("belvedere-desk"));
    }
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::FirstUseTest)
#include "first_use_test.moc"
