// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a hand takes hold of is what it sees, and what it is not at stays where it is; words have room.
#include <QApplication>
#include <QDragEnterEvent>
#include <QFontMetrics>
#include <QLabel>
#include <QLayout>
#include <QMimeData>
#include <QTableView>
#include <QTableWidget>

#include <cmath>

#include "base/units.h"
#include "desk/draw_values.h"
#include "desk/hover_tag.h"
#include "desk/objects_model.h"
#include "desk/pointer_tool.h"
#include "desk/print_view.h"
#include "desk/requirement_words.h"
#include "desk/room_sentences.h"
#include "desk/ts_translator.h"
#include "desk_test_tools.h"
#include "edit/aim.h"
#include "edit/outline_grips.h"
#include "requirements/prove.h"

namespace belvedere::desk {
namespace {

const drawing::ImagerOutline* outlineOf(MainWindow& window, const std::string& imager) {
  for (const auto& outline : window.sheet().sheet().outlines)
    if (outline.imager == imager && !outline.frame_only && !outline.served.empty()) return &outline;
  return nullptr;
}

bool quiet(MainWindow& window) {
  return waitForProof(window) &&
         QTest::qWaitFor([&] { return !window.evaluator().isBusy(); }, 60'000);
}

void putAwaySectionAndPrint(MainWindow& window) {
  for (const char* name : {"aim.section", "aim.print"})
    if (window.command(name)->isChecked()) window.command(name)->trigger();
}

const LedgerRowView* rowOf(MainWindow& window, const std::string& requirement) {
  for (const LedgerRowView* row : window.findChildren<LedgerRowView*>())
    if (row->requirement().text == requirement) return row;
  return nullptr;
}

}  // namespace

class AtHandTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: a press anywhere on a dial is a press on its housing, though a zone lies under it, and
  // though that zone is selected.
  void aDialIsItsHousings() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const drawing::Dial dial = sheet.dials().front();
    const Vec2 middle = dial.at / sheet.mmPerPx();
    const double radius_px = dial.radius_mm / sheet.mmPerPx();
    QVERIFY(radius_px > 9);
    // Between the knobs, off the middle.
    std::optional<QPoint> at;
    for (int bearing = 0; bearing < 360 && !at; bearing += 15) {
      const double b = degToRad(bearing);
      const Vec2 px = middle + Vec2{std::sin(b), std::cos(b)} * (radius_px - 1.5);
      bool on_knob = false;
      for (const drawing::Knob& knob : drawing::knobsOf(dial))
        on_knob = on_knob || norm(knob.at / sheet.mmPerPx() - px) < 11;
      if (!on_knob) at = QPoint(qRound(px.x), qRound(px.y));
    }
    QVERIFY(at);
    for (const bool zone_selected : {false, true}) {
      workspace.select(zone_selected
                           ? edit::Selection{{edit::ObjectKind::zone, "customers", 0}}
                           : edit::Selection{});
      QTest::mouseClick(&sheet, Qt::LeftButton, {}, *at);
      QCOMPARE(workspace.selection().size(), std::size_t{1});
      QCOMPARE(workspace.selection().front().kind, edit::ObjectKind::housing);
      QCOMPARE(QString::fromStdString(workspace.selection().front().id),
               QString::fromStdString(dial.housing->id.text));
      workspace.select({});
    }
  }

  // Property: an outline that has just moved is taken hold of where it is now: the press comes before
  // the window has had a moment for anything.
  void aFastPressTakesTheNewOutline() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    putAwaySectionAndPrint(*window);
    const design::Requirement* floor = nullptr;  // the hall's floor: served wherever one looks
    for (const design::Requirement& requirement : workspace.design().brief)
      if (!floor && requirement.zone.text == "floor") floor = &requirement;
    QVERIFY(floor);
    const design::RequirementId requirement = floor->id;
    workspace.selectRequirement(requirement);
    const design::Housing& housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    const std::string name = edit::nameOf(imager);
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    QVERIFY(quiet(*window));
    QVERIFY(outlineOf(*window, name));
    const drawing::ImagerOutline old = *outlineOf(*window, name);
    const double pan_deg = edit::partsOf(workspace.design(), imager)->aim->pan_deg;
    edit::Aimed turned = edit::withPan(workspace.design(), imager, pan_deg + 60);
    if (turned.at_stop) turned = edit::withPan(workspace.design(), imager, pan_deg - 60);
    workspace.apply("Turn", design::Design(turned.design));
    QVERIFY(quiet(*window));
    QVERIFY(outlineOf(*window, name));
    // Somewhere in what it serves then and did not before, off the dial.
    const drawing::ImagerOutline now = *outlineOf(*window, name);
    std::optional<QPoint> at;
    for (int x = 30; x < sheet.width() - 30 && !at; x += 9)
      for (int y = 30; y < sheet.height() - 120 && !at; y += 9) {
        const Vec2 site = sheet.siteAt({1.0 * x, 1.0 * y});
        const auto clear = [&](double dx, double dy) {
          const Vec2 p = site + Vec2{dx, dy};
          return belvedere::contains(now.served, p) && !belvedere::contains(old.served, p);
        };
        if (clear(0, 0) && clear(1, 0) && clear(-1, 0) && clear(0, 1) && clear(0, -1))
          at = QPoint(x, y);
      }
    QVERIFY(at);
    workspace.undo();
    QVERIFY(quiet(*window));
    workspace.apply("Turn", std::move(turned.design));
    const design::Aim was = *edit::partsOf(workspace.design(), imager)->aim;
    dragOn(&sheet, *at, *at + QPoint(24, 10));
    const design::Aim is = *edit::partsOf(workspace.design(), imager)->aim;
    QVERIFY(is.pan_deg != was.pan_deg || is.tilt_deg != was.tilt_deg);
    QCOMPARE(QString::fromStdString(workspace.selectedImager()), QString::fromStdString(name));
  }

  // Property: what is selected brings its fields and its line in the legend; the plan stays under the
  // hand that selected it.
  void thePlanStaysWhenSomethingIsSelected() {
    auto window = windowWith("shop/design.json");
    SheetView& sheet = window->sheet();
    QVERIFY(quiet(*window));
    QTest::qWait(300);
    const QRect was = sheet.geometry();
    const Vec2 corner = sheet.siteAt({0, 0});
    const double scale = sheet.pxPerM();
    window->workspace().select({{edit::ObjectKind::housing, "C1", 1}});
    QTest::qWait(600);
    QCOMPARE(sheet.geometry(), was);
    QCOMPARE(sheet.siteAt({0, 0}), corner);
    QCOMPARE(sheet.pxPerM(), scale);
  }

  // Property: where the legend is higher, a plan that is shown whole makes room for it; while something
  // is selected, it stays where it is instead.
  void aHigherLegendLiesOnNothing() {
    auto window = windowWith("winter_yard/design.json");
    window->resize(1366, 600);
    SheetView& sheet = window->sheet();
    window->workspace().setSituation({"night"});
    window->workspace().setStage(Stage::services);  // beside a page, it is higher still
    QVERIFY(QTest::qWaitFor([&] { return sheet.sheet().night != nullptr; }, 120'000));
    QTest::qWait(400);
    window->workspace().select({});  // the row of the page
    QTest::qWait(400);
    double lowest_px = 0;
    for (const edit::ObjectLine& line :
         edit::objectsOf(window->workspace().design(), window->workspace().storey()))
      if (!line.extent.empty()) lowest_px = std::max(lowest_px, sheet.pxAt(line.extent.low).y);
    QVERIFY(lowest_px > 0);
    QVERIFY2(lowest_px <= sheet.furniture().area().top(),
             qPrintable(QString("%1 of %2").arg(lowest_px).arg(sheet.furniture().area().top())));
  }

  // Property: beside a page the legend of a narrow sheet leaves the plan most of it.
  void aNarrowSheetsLegendIsLow() {
    auto window = windowWith("winter_yard/design.json");
    window->resize(1366, 768);
    SheetView& sheet = window->sheet();
    window->workspace().setSituation({"night"});
    window->workspace().setStage(Stage::services);
    QVERIFY(QTest::qWaitFor([&] { return sheet.sheet().night != nullptr; }, 120'000));
    QTest::qWait(400);
    QVERIFY(sheet.width() < 700);
    QVERIFY2(sheet.furniture().area().height() < 0.28 * sheet.height(),
             qPrintable(QString("%1 of %2").arg(sheet.furniture().area().height()).arg(sheet.height())));
  }

  // Property: while a hand drags, the ledger's rows stay as high as they were: what services answered
  // stays and says that it is from before.
  void theLedgerStandsStillWhileAHandDrags() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    QVERIFY(quiet(*window));
    const LedgerRowView* row = rowOf(*window, "R2");
    QVERIFY(row);
    const QStringList known = row->demandLines();
    QCOMPARE(known.size(), 1);
    const int high = row->height();
    workspace.setDragging(true);
    workspace.apply("Turn", edit::withPan(workspace.design(), {{"C1"}, 1, 0}, 275).design, "turn");
    QTest::qWait(200);
    QCOMPARE(row->demandLines(), QStringList{"was " + known.front()});
    QCOMPARE(row->height(), high);
    workspace.setDragging(false);
    QVERIFY(quiet(*window));
    QVERIFY(!row->demandLines().front().startsWith("was "));
    workspace.open(examplePath("ferry_terminal/design.json"));  // and nothing of another design
    for (const LedgerRowView* other : window->findChildren<LedgerRowView*>())
      for (const QString& line : other->demandLines()) QVERIFY2(!line.startsWith("was "), qPrintable(line));
  }

  // Property: two demands of one requirement that come to the same words say of what each is.
  void aDemandSaysOfWhatItIs() {
    requirements::Demand days{{"R1"}, requirements::Asks::days_kept, proof::Verdict::not_met,
                              {}, 31, "days", {}, "nothing serves it"};
    requirements::Demand seconds = days;
    seconds.asks = requirements::Asks::seconds;
    seconds.verdict = proof::Verdict::undecided;
    QCOMPARE(demandWords(days), QString("not met, days kept: nothing serves it"));
    QCOMPARE(demandWords(seconds), QString("undecided, seconds in view: nothing serves it"));
    days.sentence = "13.6 days at most of 31";
    QCOMPARE(demandWords(days), QString("not met: 13.6 days at most of 31"));
  }

  // Property: the tag at the pointer is as high as its words, and where nothing mends a spot it says so.
  void theTagAtThePointerHoldsItsWords() {
    auto window = windowWith("winter_yard/design.json");
    SheetView& sheet = window->sheet();
    QVERIFY(quiet(*window));
    const QPoint at = pointOn(sheet, {15, 15});
    QTest::mouseMove(&sheet, at - QPoint(40, 0));
    QTest::mouseMove(&sheet, at);
    auto* tag = window->findChild<HoverTag*>("hover_tag");
    QFont large = tag->font();  // so large that lines are broken
    large.setPointSizeF(1.6 * large.pointSizeF());
    tag->setFont(large);
    QVERIFY(QTest::qWaitFor([&] { return tag->isVisible(); }, 20'000));
    QVERIFY(tag->words().count('\n') >= 3);
    QVERIFY2(tag->height() >= tag->layout()->totalHeightForWidth(tag->width()),
             qPrintable(QString::number(tag->height())));
    for (const QLabel* label : tag->findChildren<QLabel*>())
      if (label->isVisible()) QVERIFY(label->height() >= label->heightForWidth(label->width()));
  }

  // Property: the tag at the pointer keeps away while one draws, and comes again afterwards.
  void theTagKeepsAwayWhileOneDraws() {
    auto window = windowWith("shop/design.json");
    SheetView& sheet = window->sheet();
    QVERIFY(quiet(*window));
    const QPoint at = pointOn(sheet, {3, 3});
    auto* tag = window->findChild<HoverTag*>("hover_tag");
    const auto rest = [&] {
      QTest::mouseMove(&sheet, at - QPoint(40, 0));
      QTest::mouseMove(&sheet, at);
      return QTest::qWaitFor([&] { return tag->isVisible(); }, 3000);
    };
    QVERIFY(rest());
    sheet.setFocus();
    QTest::keyClick(&sheet, Qt::Key_Z);  // draws zones
    QVERIFY(!tag->isVisible());
    QVERIFY(!rest());
    QTest::keyClick(&sheet, Qt::Key_V);
    QVERIFY(rest());
  }

  // Property: a housing with one imager, pressed anywhere, shows what its imager sees.
  void aHousingWithOneImagerShowsWhatItSees() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    QVERIFY(quiet(*window));
    const design::Housing& single = *design::findHousing(workspace.design(), design::HousingId{"C2"});
    QCOMPARE(single.imagers.size(), std::size_t{1});
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, pointOn(sheet, single.mount.fixing_m.xy()));
    QCOMPARE(workspace.selectedImager(), std::string("C2.1"));
    QVERIFY(QTest::qWaitFor([&] { return window->findChild<PrintView*>() != nullptr; }, 20'000));
    QVERIFY(QTest::qWaitFor([&] { return !sheet.sheet().outlines.empty(); }, 20'000));
    window->command("edit.delete")->trigger();  // it is the housing that is selected
    QVERIFY(!design::findHousing(workspace.design(), design::HousingId{"C2"}));
  }

  // Property: a housing's model dragged from the catalogue is put up where it is let go, as one step of
  // undo; while it hovers nothing is changed, and a model that is no housing cannot be dragged.
  void aModelIsDraggedOntoThePlan() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    window->command("lists.catalogue")->trigger();
    auto* table = window->findChild<QTableWidget*>("catalogue.models");
    QTableWidgetItem* twin = nullptr;
    for (int row = 0; row < table->rowCount(); ++row) {
      QTableWidgetItem* item = table->item(row, 0);
      if (item->data(Qt::UserRole).toString() == "twin") twin = item;
      if (table->item(row, 1)->text() == "disk") QVERIFY(!item->flags().testFlag(Qt::ItemIsDragEnabled));
    }
    QVERIFY(twin && twin->flags().testFlag(Qt::ItemIsDragEnabled));
    const std::unique_ptr<QMimeData> data(
        table->model()->mimeData({table->model()->index(twin->row(), 0)}));
    QVERIFY(data);
    const std::size_t before = workspace.design().housings.size();
    drawValues().model = "solo";  // what was drawn last is not what is dragged
    const QPoint at = pointOn(sheet, {4.5, 2.2});
    QDragEnterEvent enter(at, Qt::CopyAction, data.get(), Qt::LeftButton, {});
    QApplication::sendEvent(&sheet, &enter);
    QVERIFY(enter.isAccepted());
    QDragMoveEvent move(at, Qt::CopyAction, data.get(), Qt::LeftButton, {});
    QApplication::sendEvent(&sheet, &move);
    QVERIFY(move.isAccepted());
    QCOMPARE(workspace.design().housings.size(), before);
    QDropEvent drop(at, Qt::CopyAction, data.get(), Qt::LeftButton, {});
    QApplication::sendEvent(&sheet, &drop);
    QCOMPARE(workspace.design().housings.size(), before + 1);
    const design::Housing& put = workspace.design().housings.back();
    QCOMPARE(put.model.text, std::string("twin"));
    QVERIFY(norm(put.mount.fixing_m.xy() - Vec2{4.5, 2.2}) < 1);  // or on what is near
    QVERIFY(dynamic_cast<PointerTool*>(&sheet.tool()));
    window->command("edit.undo")->trigger();
    QCOMPARE(workspace.design().housings.size(), before);
  }

  // Property: a print's caption is never cut: what has no room is left out whole.
  void aPrintsCaptionIsWhole() {
    auto window = windowWith("shop/design.json");
    window->workspace().select({{edit::ObjectKind::housing, "C1", 1}});
    PrintView* print = nullptr;
    QVERIFY(QTest::qWaitFor([&] { return (print = window->findChild<PrintView*>()) != nullptr; },
                            20'000));
    QVERIFY(QTest::qWaitFor([&] { return print->caption().contains("1/"); }, 60'000));  // exposure
    print->pointAt(Vec3{2, 3, 0});  // the pointer rests on the plan there: how tall a person is
    const QString caption = print->caption();
    QVERIFY2(caption.startsWith("C1.1") && caption.contains("person: "), qPrintable(caption));
    QVERIFY2(QFontMetrics(print->captionFont()).horizontalAdvance(caption) <=
                 print->captionArea().width(),
             qPrintable(caption));
    for (int i = 0; i < 8; ++i) QTest::keyClick(print, Qt::Key_Minus);  // as small as it gets
    print->pointAt(Vec3{2, 3.1, 0});
    QVERIFY2(print->caption().contains(" px"), qPrintable(print->caption()));
    QVERIFY2(QFontMetrics(print->captionFont()).horizontalAdvance(print->caption()) <=
                 print->captionArea().width(),
             qPrintable(print->caption()));
  }

  // Property: at 1366 pixels the list of objects shows what each comes to without being pushed aside.
  void resultsAreSeenWithoutPushing() {
    auto window = windowWith("ferry_terminal/design.json");
    window->resize(1366, 768);
    QVERIFY(quiet(*window));
    window->command("lists.objects")->trigger();
    QTest::qWait(200);
    auto* table = window->findChild<QTableView*>("objects.table");
    QVERIFY(table && table->isVisible());
    const int x = table->columnViewportPosition(ObjectsModel::result);
    QVERIFY2(x >= 0 && x + 60 < table->viewport()->width(), qPrintable(QString::number(x)));
  }

  // Property: the keys go to the plan when the window opens, so that no stage looks chosen but one.
  void theSheetHasTheKeysFirst() {
    auto window = windowWith("");
    QCOMPARE(window->focusWidget(), static_cast<QWidget*>(&window->sheet()));
  }

  // Property: what the rooms say of the examples is known to the window's other languages: no pattern
  // has drifted from what is said.
  void whatTheRoomsSayIsKnown_data() {
    QTest::addColumn<QString>("example");
    for (const char* example : {"shop", "cold_store", "ferry_terminal", "winter_yard"})
      QTest::newRow(example) << example;
  }
  void whatTheRoomsSayIsKnown() {
    QFETCH(QString, example);
    const design::DesignFile file = design::readDesign(examplePath(example.toStdString() + "/design.json"));
    proof::ProveOptions options;
    options.blind_zones = false;
    const requirements::Answer answer = requirements::prove(
        file.design, examplePath(example.toStdString()), options, Progress{});
    QVERIFY(!answer.proof.findings.empty());
    for (const Finding& finding : answer.proof.findings)
      QVERIFY2(isKnownSentence(finding.sentence), finding.sentence.c_str());
    for (const requirements::Demand& demand : answer.demands)
      QVERIFY2(isKnownSentence(demand.sentence), demand.sentence.c_str());
  }

  // Property: a change is said in German with its values; what is not known stays as it is.
  void sentencesAreSaidInGerman() {
    TsTranslator german;
    QVERIFY(german.read(QStringLiteral(BELVEDERE_SOURCE_DIR "/src/desk/words/belvedere_de.ts")));
    QCoreApplication::installTranslator(&german);
    const QString turn = roomSentence("C1.2: turn 3.0 deg to the left (pan 87.0) and tilt 1.0 deg up (tilt 9.0)");
    const QString nested = roomSentence("3 imagers see it well enough to run it; 4 asked for");
    const QString sun = roomSentence("P1.1: the sun stands within 10 degrees of its picture 156 h a year (longest 9 Feb to 11 May, between 04:45 and 07:45): a hood keeps it off the lens.");
    const QString unknown = roomSentence("C1.2: sings; and dances");
    QCoreApplication::removeTranslator(&german);
    QCOMPARE(turn, QString::fromUtf8("C1.2: 3.0° nach links drehen (Schwenk 87.0) und 1.0° nach oben neigen (Neigung 9.0)"));
    QCOMPARE(nested, QString::fromUtf8("3 Sensoren sehen es gut genug dafür; 4 verlangt"));
    QCOMPARE(sun, QString::fromUtf8("P1.1: Die Sonne steht 156 h im Jahr höchstens 10 Grad neben seinem Bild (am längsten 9 Feb bis 11 May, zwischen 04:45 und 07:45): Eine Blende hält sie vom Objektiv fern."));
    QCOMPARE(unknown, QString("C1.2: sings; and dances"));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::AtHandTest)
#include "at_hand_test.moc"
