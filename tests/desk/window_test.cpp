// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QTemporaryDir>
#include <QTimer>

#include <cmath>
#include <fstream>

#include "base/units.h"
#include "desk/problems_dialog.h"
#include "desk_test_tools.h"
#include "drawing/sheet_parts.h"
#include "edit/aim.h"
#include "proof/prove.h"

namespace belvedere::desk {

class WindowTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: what the ledger says, once proven, is what the engine proves.
  void ledgerSaysWhatTheEngineProves() {
    auto window = windowWith("shop/design.json");
    QVERIFY(waitForProof(*window));
    const design::DesignFile file = design::readDesign(examplePath("shop/design.json"));
    proof::ProveOptions options;
    options.blind_zones = false;
    const proof::Proof proof =
        proof::prove(file.design, file.path.parent_path(), options, Progress{});
    QVERIFY(!proof.requirements.empty());
    for (const proof::RequirementProof& row : proof.requirements)
      if (row.without.empty())
        QCOMPARE(window->ledger().wordsOf(row.requirement, row.situation),
                 QString::fromStdString(drawing::verdictWords(row)));
  }

  // Property: first a preview that says so, then the proof.
  void previewsComeFirstAndSaySo() {
    auto window = std::make_unique<MainWindow>();
    window->show();
    QString first;
    connect(&window->evaluator(), &Evaluator::evaluated, window.get(), [&] {
      const auto& brief = window->workspace().design().brief;
      if (brief.empty()) return;
      const QString words =
          window->ledger().wordsOf(brief.front().id, window->workspace().situation());
      if (first.isEmpty() && words.contains('%')) first = words;  // the first figure
    });
    window->workspace().open(examplePath("shop/design.json"));
    QVERIFY(waitForProof(*window));
    QVERIFY2(first.startsWith("preview"), qPrintable(first));
    const auto& brief = window->workspace().design().brief;
    QVERIFY(!window->ledger()
                 .wordsOf(brief.front().id, window->workspace().situation())
                 .startsWith("preview"));
  }

  // Property: what is shown gets fine by itself once the hand rests, however coarse the first look.
  void whatIsShownGetsFine() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    const design::Housing& housing = workspace.design().housings.front();
    workspace.select({{edit::ObjectKind::housing, housing.id.text, housing.imagers.front().slot}});
    QVERIFY(QTest::qWaitFor(
        [&] {
          const auto now = window->evaluator().now();
          return now->areas && !now->maps->empty() && !now->finer_comes;
        },
        60'000));
    const auto now = window->evaluator().now();
    QVERIFY2(now->spacing_m > 0 && now->spacing_m <= 0.1 + 1e-9,
             qPrintable(QString::number(now->spacing_m)));
    for (const drawing::ZoneMap& map : *now->maps) QVERIFY(map.spots.cell_m <= 0.1 + 1e-9);
  }

  // Property: an imager turned by its knob, as a hand does, is one step; undo gives the file's bytes.
  void aKnobTurnsAnImagerAndUndoTurnsItBack() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    const std::string before = workspace.text();
    const design::Housing& housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    QTest::qWait(10);
    SheetView& sheet = window->sheet();
    std::optional<Vec2> knob;
    for (const drawing::Dial& dial : sheet.dials())
      if (dial.housing->id == housing.id)
        for (const drawing::Knob& k : drawing::knobsOf(dial))
          if (k.slot == imager.slot) knob = k.at / sheet.mmPerPx();
    QVERIFY(knob);
    const double pan = edit::partsOf(workspace.design(), imager)->aim->pan_deg;
    const Vec2 middle = sheet.pxAt(housing.mount.fixing_m.xy());
    const double turned = degToRad(pan + 12);
    const Vec2 to = middle + Vec2{std::sin(turned), -std::cos(turned)} * 60;
    dragOn(&sheet, {qRound(knob->x), qRound(knob->y)}, {qRound(to.x), qRound(to.y)});
    const double now = edit::partsOf(workspace.design(), imager)->aim->pan_deg;
    QVERIFY2(std::abs(wrap180(now - pan - 12)) < 1.5, qPrintable(QString::number(now - pan)));
    QVERIFY(!workspace.isSaved());
    QVERIFY(window->isWindowModified());
    window->command("edit.undo")->trigger();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
    QVERIFY(!workspace.canUndo());
    QVERIFY(workspace.isSaved());
  }

  // Property: a broken file shows all its problems and what was open stays.
  void aBrokenFileOpensNothingHalf() {
    auto window = windowWith("shop/design.json");
    const std::string before = window->workspace().text();
    QTemporaryDir folder;
    const std::filesystem::path path =
        std::filesystem::path(folder.path().toStdString()) / "broken.json";
    std::ofstream(path) << R"({"format": "belvedere.design", "version": 1, "titel": "x",
      "housings": [{"id": "C1", "model": "nobody"}]})";
    QString details;
    QTimer look;  // the file is read beside the window: until its problems are shown
    connect(&look, &QTimer::timeout, [&] {
      if (auto* box = qobject_cast<ProblemsDialog*>(QApplication::activeModalWidget())) {
        details = box->text();
        box->accept();
      }
    });
    look.start(50);
    QVERIFY(!window->openFile(path));
    QVERIFY2(details.contains("titel") && details.contains("nobody"), qPrintable(details));
    QCOMPARE(QString::fromStdString(window->workspace().text()), QString::fromStdString(before));
  }

  // Property: zooming keeps the place under the pointer.
  void theWheelZoomsAtThePointer() {
    auto window = windowWith("ferry_terminal/design.json");
    SheetView& sheet = window->sheet();
    const Vec2 px{200, 150}, held = sheet.siteAt(px);
    sheet.zoomAt(px, 2.5);
    const Vec2 now = sheet.siteAt(px);
    QVERIFY(norm(now - held) < 1e-9);
  }

  // Property: a storey, a situation and a requirement can be chosen without the pointer.
  void choicesFollowTheWorkspace() {
    auto window = windowWith("car_park_deck/design.json");
    auto* situation = window->findChild<QComboBox*>("situation");
    QVERIFY(situation && situation->count() >= 2);
    situation->setFocus();
    QTest::keyClick(situation, Qt::Key_Down);
    QCOMPARE(QString::fromStdString(window->workspace().situation().text),
             situation->currentData().toString());
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::WindowTest)
#include "window_test.moc"
