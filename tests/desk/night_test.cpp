// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light in the window: its page, lamps and their pairing, and what is said of situations.
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRegularExpression>
#include <QTableWidget>

#include <algorithm>

#include "desk/hover_tag.h"
#include "desk/light_page.h"
#include "desk_test_tools.h"
#include "light/lighting.h"
#include "proof/lit_situation.h"

namespace belvedere::desk {
namespace {

constexpr int kLongMs = 120'000;

LightPage* pageOf(MainWindow& window) { return window.findChild<LightPage*>("light"); }
bool waitForLight(MainWindow& window) {
  return QTest::qWaitFor(
      [&] {
        const auto now = pageOf(window)->maker().now();
        return now && now->version == window.workspace().version() &&
               now->situation == window.workspace().shownSituation().id;
      },
      kLongMs);
}
// The page open on the yard by night.
std::unique_ptr<MainWindow> yardByNight() {
  auto window = windowWith("winter_yard/design.json");
  window->workspace().setSituation({"night"});
  window->command("lists.light")->trigger();
  return waitForLight(*window) ? std::move(window) : nullptr;
}
template <class Widget>
Widget* part(MainWindow& window, const char* name) {
  return window.findChild<Widget*>(name);
}
void click(QWidget* widget) { QTest::mouseClick(widget, Qt::LeftButton); }
const design::Housing& housing(const Workspace& workspace, const char* id) {
  return *design::findHousing(workspace.design(), design::HousingId{id});
}
void clickRow(QTableWidget* table, int row) {
  QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                    table->visualItemRect(table->item(row, 0)).center());
}

}  // namespace

class NightTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the wash by night gets as fine as it should be, though one imager alone takes longer than
  // one look: looks go on where the one before them ended.
  void theNightWashGetsFine() {
    auto window = windowWith("winter_yard/design.json");
    window->workspace().setSituation({"night"});
    QVERIFY(QTest::qWaitFor(
        [&] {
          const auto now = window->evaluator().now();
          return now->situation.text == "night" && now->spacing_m > 0 && !now->finer_comes && now->areas;
        },
        kLongMs));
    QVERIFY(window->evaluator().now()->spacing_m <= 0.1);
  }

  // Property: the page says of each imager and lamp what the engine says, in each situation.
  void thePageSaysWhatTheEngineSays() {
    auto window = yardByNight();
    QVERIFY(window);
    const Workspace& workspace = window->workspace();
    const proof::LitSituation lit = proof::litSituation(
        workspace.design(), workspace.shownSituation(), workspace.folder(), Progress{});
    auto* imagers = part<QTableWidget>(*window, "light.imagers");
    auto* lamps = part<QTableWidget>(*window, "light.lamps");
    QCOMPARE(imagers->rowCount(), static_cast<int>(lit.imagers.size()));
    QCOMPARE(lamps->rowCount(), static_cast<int>(lit.lamps.size()));
    int mono = 0, burns = 0;
    for (std::size_t i = 0; i < lit.imagers.size(); ++i) {
      const bool is = lit.imagers[i].state.mode == light::Mode::mono;
      mono += is;
      QCOMPARE(imagers->item(static_cast<int>(i), 2)->text(), QString(is ? "mono" : "colour"));
    }
    for (std::size_t i = 0; i < lit.lamps.size(); ++i) {
      burns += lit.burns[i];
      QCOMPARE(lamps->item(static_cast<int>(i), 2)->text(), QString(lit.burns[i] ? "yes" : "no"));
    }
    QVERIFY(mono > 0 && burns > 0);
    const QString counts = part<QLabel>(*window, "light.counts")->text();
    QVERIFY2(counts.contains(QString::number(mono)) && counts.contains(QString::number(burns)),
             qPrintable(counts));
    window->workspace().setSituation({"day"});
    QVERIFY(waitForLight(*window));
    QVERIFY(part<QLabel>(*window, "light.state")->text().contains("5000 lx"));
    for (int row = 0; row < lamps->rowCount(); ++row)
      QCOMPARE(lamps->item(row, 2)->text(), QString("no"));
  }

  // Property: a row selects its imager on the plan, and what is selected there its row.
  void rowsAndThePlanGoTogether() {
    auto window = yardByNight();
    QVERIFY(window);
    auto* imagers = part<QTableWidget>(*window, "light.imagers");
    clickRow(imagers, 2);
    QCOMPARE(window->workspace().selectedImager(), imagers->item(2, 0)->text().toStdString());
    window->workspace().select({{edit::ObjectKind::housing, "C1", 1}});
    QCOMPARE(imagers->item(imagers->currentRow(), 0)->text(), QString("C1.1"));
  }

  // Property: what a lamp follows is set in the page, burns accordingly, and can be undone.
  void aLampIsSet() {
    auto window = yardByNight();
    QVERIFY(window);
    Workspace& workspace = window->workspace();
    auto* lamps = part<QTableWidget>(*window, "light.lamps");
    clickRow(lamps, 0);
    auto* follows = part<QComboBox>(*window, "light.follows");
    QVERIFY(follows->isVisible());
    QCOMPARE(follows->currentText(), QString("group"));
    const int off = follows->count() - 1;
    QCOMPARE(follows->itemText(off), QString("off"));
    follows->setFocus();
    for (int i = 0; i < off; ++i) QTest::keyClick(follows, Qt::Key_Down);
    QVERIFY(waitForLight(*window));
    const std::vector<design::HousingLamp>& set = housing(workspace, "C1").lamps;
    QCOMPARE(set.size(), std::size_t{2});
    QVERIFY(set[0].follows == 0 && !set[1].follows);
    QCOMPARE(lamps->item(0, 2)->text(), QString("no"));
    QCOMPARE(lamps->item(1, 2)->text(), QString("yes"));
    QVERIFY(workspace.canUndo());
    while (workspace.canUndo()) window->command("edit.undo")->trigger();
    QVERIFY(waitForLight(*window));
    QVERIFY(housing(workspace, "C1").lamps.empty());
    QCOMPARE(lamps->item(0, 2)->text(), QString("yes"));
  }

  // Property: the best pairing is looked for when asked, said, set by a click and undone; it is the
  // engine's.
  void thePairingIsAskedForSetAndUndone() {
    auto window = yardByNight();
    QVERIFY(window);
    Workspace& workspace = window->workspace();
    auto* ask = part<QPushButton>(*window, "light.pair");
    auto* set = part<QPushButton>(*window, "light.apply");
    QVERIFY(!ask->isEnabled());
    workspace.select({{edit::ObjectKind::housing, "C3", 0}});
    QVERIFY(ask->isEnabled());
    QVERIFY(ask->text().contains("C3"));
    QVERIFY(!set->isVisible());
    const auto best = proof::bestLamps(workspace.design(), housing(workspace, "C3"),
                                       workspace.shownSituation(), workspace.folder(), Progress{});
    QVERIFY(best);
    click(ask);
    QVERIFY(QTest::qWaitFor([&] { return set->isVisible(); }, kLongMs));
    QVERIFY(part<QLabel>(*window, "light.says")->text().contains(QString::number(best->tried)));
    for (const design::HousingLamp& lamp : best->lamps)
      QVERIFY2(set->text().contains(QString("lamp %1 follows C3.%2").arg(lamp.slot).arg(*lamp.follows)),
               qPrintable(set->text()));
    const design::Design before = workspace.design();
    click(set);
    QVERIFY(housing(workspace, "C3").lamps == best->lamps);
    QVERIFY(!set->isVisible());  // it was of the design before
    window->command("edit.undo")->trigger();
    QVERIFY(workspace.design() == before);
  }

  // Property: the tag at the pointer says how much light is missing.
  void theTagSaysHowMuchLightIsMissing() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setSituation({"night"});
    design::Design dark = workspace.design();
    for (design::Housing& each : dark.housings) {
      each.lamps = {{1, 0}, {2, 0}};
      for (design::HousingImager& imager : each.imagers) imager.exposure_s = 1e-5;
    }
    workspace.apply("Dark", std::move(dark));
    auto* tag = window->findChild<HoverTag*>("hover_tag");
    const QPoint at = pointOn(window->sheet(), {15, 12});
    QVERIFY(QTest::qWaitFor(
        [&] {
          QTest::mouseMove(&window->sheet(), at - QPoint(40, 0));
          QTest::mouseMove(&window->sheet(), at);
          return QTest::qWaitFor([&] { return tag->words().contains("too dark"); }, 5000);
        },
        kLongMs));
    QVERIFY2(QRegularExpression("too dark, [0-9.e-]+ of [0-9.]+ lx").match(tag->words()).hasMatch(),
             qPrintable(tag->words()));
  }

  // Property: a row of the ledger says in which situations it is asked for, unless in all of them.
  void theLedgerSaysWhichSituation() {
    auto window = windowWith("winter_yard/design.json");
    QVERIFY(waitForProof(*window));
    const auto saysOf = [&](const char* id) {
      for (const LedgerRowView* row : window->ledger().findChildren<LedgerRowView*>())
        if (row->requirement().text == id) return row->accessibleName();
      return QString();
    };
    QVERIFY2(saysOf("R1").contains("Day"), qPrintable(saysOf("R1")));
    QVERIFY2(saysOf("R5").contains("Night"), qPrintable(saysOf("R5")));
    // Without a night, "Day" goes without saying.
    design::Design by_day = window->workspace().design();
    std::erase_if(by_day.brief, [](const design::Requirement& each) { return each.id.text == "R5"; });
    std::erase_if(by_day.situations, [](const design::Situation& each) { return each.id.text == "night"; });
    window->workspace().apply("By day", std::move(by_day));
    QVERIFY(waitForProof(*window));
    QVERIFY2(!saysOf("R1").isEmpty() && !saysOf("R1").contains("Day"), qPrintable(saysOf("R1")));
  }

  // Property: what is wrong with a typed number is said with the numbers that would do, and stands until
  // something is done after it.
  void aComplaintStandsUntilSomethingIsDone() {
    auto window = windowWith("winter_yard/design.json");
    window->workspace().select({{edit::ObjectKind::housing, "C1", 1}});
    auto* hint = window->findChild<QLabel*>("hint");
    const auto type = [&](const char* field, const QString& words) {
      auto* line = window->findChild<QLineEdit*>(field);
      line->setFocus();
      line->selectAll();
      QTest::keyClicks(line, words);
      QTest::keyClick(line, Qt::Key_Return);
      QTest::qWait(1);
    };
    type("aim.aperture", "f/1");
    QVERIFY2(hint->text().contains("f/1.6") && hint->text().contains("f/64"), qPrintable(hint->text()));
    type("aim.aperture", "f/4");
    QVERIFY2(!hint->text().contains("f/64"), qPrintable(hint->text()));
    type("aim.focus", "1 cm");
    QVERIFY2(hint->text().contains("0.05 m"), qPrintable(hint->text()));
    type("aim.exposure", "abc");
    QVERIFY2(hint->text().contains("1/25"), qPrintable(hint->text()));
    type("aim.exposure", "1/50");
    QVERIFY2(!hint->text().contains("abc"), qPrintable(hint->text()));
    QCOMPARE(*housing(window->workspace(), "C1").imagers.front().exposure_s, 0.02);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::NightTest)
#include "night_test.moc"
