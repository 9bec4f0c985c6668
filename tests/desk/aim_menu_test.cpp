// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QTimer>

#include <cmath>

#include "base/units.h"
#include "desk/swap_dialog.h"
#include "desk_test_tools.h"
#include "edit/aim.h"
#include "edit/aim_group.h"
#include "edit/mount_drag.h"
#include "edit/pattern.h"

namespace belvedere::desk {

class AimMenuTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the command does what the edit does, with the numbers of the dialog, in one step.
  void closesTheCircle() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    const design::HousingId housing = workspace.design().housings.front().id;
    workspace.select({{edit::ObjectKind::housing, housing.text, 0}});
    const design::Design before = workspace.design();
    QTimer::singleShot(200, [&] {
      auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
      if (!dialog) return;
      dialog->findChild<QDoubleSpinBox*>("depression")->setValue(30);
      dialog->findChild<QDoubleSpinBox*>("overlap")->setValue(12);
      dialog->accept();
    });
    window->command("aim.close_circle")->trigger();
    const edit::Spread expected = edit::closeTheCircle(before, housing, 30, 12);
    QVERIFY(workspace.design() == expected.design);
    if (workspace.canUndo()) workspace.undo();
    QVERIFY(workspace.design() == before);
    QVERIFY(!workspace.canUndo());
  }

  // Property: the selected imagers look at the zone of the selected requirement; without a
  // selection it is said what is missing and nothing changes.
  void looksAtAZone() {
    auto window = windowWith("cold_store/design.json");
    Workspace& workspace = window->workspace();
    QSignalSpy said(&workspace, &Workspace::complained);
    window->command("aim.look_at_zone")->trigger();
    QCOMPARE(said.count(), 1);
    QVERIFY(!workspace.canUndo());
    const design::Requirement& requirement = workspace.design().brief[1];
    const design::Housing& housing = workspace.design().housings.front();
    const int slot = housing.imagers.front().slot;
    workspace.selectRequirement(requirement.id);
    workspace.select({{edit::ObjectKind::housing, housing.id.text, slot}});
    const edit::Spread expected = edit::lookAtZone(
        workspace.design(), {{housing.id, slot, 0}}, requirement.zone, requirement.id);
    window->command("aim.look_at_zone")->trigger();
    QVERIFY(workspace.design() == expected.design);
  }

  // Property: two imagers and, with Shift, a wall on the sheet: they share the wall. What the command
  // does is what the edit does; independently, each one's axis then meets the wall's line between
  // its ends, and not at one place.
  void followsAWall() {
    auto window = windowWith("cold_store/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    QSignalSpy said(&workspace, &Workspace::complained);
    const design::Housing& housing = workspace.design().housings.front();
    const std::vector<edit::ImagerRef> imagers{{housing.id, housing.imagers[0].slot, 0},
                                               {housing.id, housing.imagers[1].slot, 0}};
    window->command("aim.section")->trigger();
    window->command("aim.print")->trigger();
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imagers[0].slot},
                      {edit::ObjectKind::housing, housing.id.text, imagers[1].slot}});
    window->command("aim.follow_wall")->trigger();
    QCOMPARE(said.count(), 1);  // no wall yet
    // A place on a wall where nothing else lies, at the pointer.
    const design::Building& building = workspace.design().site.buildings.front();
    const design::Storey& storey = *workspace.shownStorey();
    const design::Wall* wall = nullptr;
    for (const design::Wall& candidate : storey.walls)
      for (double share = 0.1; !wall && share < 1; share += 0.07) {
        const Vec2 at = design::siteFromBuilding(
            building, candidate.path[0] + (candidate.path[1] - candidate.path[0]) * share);
        QTest::mouseClick(&sheet, Qt::LeftButton, Qt::ShiftModifier, pointOn(sheet, at));
        if (workspace.selection().size() == 3 &&
            workspace.selection().back() == edit::ObjectRef{edit::ObjectKind::wall, candidate.id.text, 0})
          wall = &candidate;
        else
          workspace.select({{edit::ObjectKind::housing, housing.id.text, imagers[0].slot},
                            {edit::ObjectKind::housing, housing.id.text, imagers[1].slot}});
      }
    QVERIFY(wall);
    std::vector<Vec2> path;
    for (const Vec2 p : wall->path) path.push_back(design::siteFromBuilding(building, p));
    const design::Range band = design::bandOf(design::Target{});
    const design::Design before = workspace.design();
    const edit::Spread expected = edit::followWall(before, imagers, path, storey.floor_m + band[0],
                                                   storey.floor_m + band[1]);
    window->command("aim.follow_wall")->trigger();
    QVERIFY(workspace.design() == expected.design);
    if (expected.says.empty()) {
      std::vector<double> met;
      for (const edit::ImagerRef& imager : imagers) {
        const auto view = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
        const Vec2 way = view->imager_from_site.row[2].xy(), foot = view->lens_m.xy();
        for (std::size_t i = 0; i + 1 < path.size(); ++i) {
          const Vec2 side = path[i + 1] - path[i];
          const double along = cross(path[i] - foot, way) / cross(way, side);
          const double ahead = cross(path[i] - foot, side) / cross(way, side);
          if (along >= 0 && along <= 1 && ahead > 0) met.push_back(static_cast<double>(i) + along);
        }
      }
      QVERIFY(met.size() >= 2);
      QVERIFY(std::abs(met.front() - met.back()) > 0.02);
    }
    workspace.undo();
    QVERIFY(workspace.design() == before);
    QVERIFY(!workspace.canUndo());
  }

  // Property: the aims of the housing selected first go to those selected after it, as they stand to
  // the base; with one alone the dialog asks, and can be left.
  void copiesTheAims() {
    auto window = windowWith("car_park_deck/design.json");
    Workspace& workspace = window->workspace();
    const design::Design before = workspace.design();
    const design::Housing *from = nullptr, *to = nullptr;
    for (const design::Housing& a : before.housings)
      for (const design::Housing& b : before.housings)
        if (!from && a.id != b.id && a.model == b.model && a.imagers.size() > 1) {
          from = &a;
          to = &b;
        }
    QVERIFY(from && to);
    QTimer::singleShot(200, [] {
      if (auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget())) dialog->reject();
    });
    workspace.select({{edit::ObjectKind::housing, from->id.text, 0}});
    window->command("aim.copy_pattern")->trigger();
    QVERIFY(!workspace.canUndo());
    workspace.select({{edit::ObjectKind::housing, from->id.text, 0},
                      {edit::ObjectKind::housing, to->id.text, 0}});
    window->command("aim.copy_pattern")->trigger();
    const edit::Changed expected = edit::copyPattern(before, from->id, {to->id});
    QVERIFY(workspace.design() == expected.design);
    if (expected.says.empty()) {
      const design::Housing* now = design::findHousing(workspace.design(), to->id);
      for (std::size_t i = 0; i < from->imagers.size(); ++i) {
        const auto toBase = [](const design::Housing& housing, std::size_t k) {
          return wrap180(housing.imagers[k].aims.front().pan_deg -
                         housing.mount.base_bearing_deg);
        };
        QVERIFY(std::abs(wrap180(toBase(*now, i) - toBase(*from, i))) < 0.05);
      }
    }
    // The same by the dialog: a name chosen from its list.
    workspace.undo();
    workspace.select({{edit::ObjectKind::housing, from->id.text, 0}});
    QTimer::singleShot(200, [&] {
      auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
      auto* list = dialog ? dialog->findChild<QComboBox*>() : nullptr;
      if (!list) return;
      list->setCurrentText(QString::fromStdString(to->id.text));
      dialog->accept();
    });
    window->command("aim.copy_pattern")->trigger();
    QVERIFY(workspace.design() == expected.design);
  }

  // Property: the base turned by an angle takes the imagers along by that angle; turned alone, they
  // look where they looked. One step each; left by Cancel, nothing changes.
  void turnsTheBase() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    const design::Housing before = workspace.design().housings.front();
    workspace.select({{edit::ObjectKind::housing, before.id.text, 0}});
    const auto answer = [](std::optional<double> bearing_deg) {
      QTimer::singleShot(200, [bearing_deg] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        auto* number = dialog ? dialog->findChild<QDoubleSpinBox*>() : nullptr;
        if (!number || !bearing_deg) {
          if (dialog) dialog->reject();
          return;
        }
        number->setValue(*bearing_deg);
        dialog->accept();
      });
    };
    answer(std::nullopt);
    window->command("aim.turn_base")->trigger();
    QVERIFY(!workspace.canUndo());
    for (const bool along : {true, false}) {
      answer(before.mount.base_bearing_deg + 7);
      window->command(along ? "aim.turn_base" : "aim.turn_base_alone")->trigger();
      const design::Housing now = workspace.design().housings.front();
      QVERIFY(std::abs(wrap180(now.mount.base_bearing_deg - before.mount.base_bearing_deg - 7)) <
              0.011);
      for (std::size_t i = 0; i < now.imagers.size(); ++i) {
        const double turned = wrap180(now.imagers[i].aims.front().pan_deg -
                                      before.imagers[i].aims.front().pan_deg);
        QVERIFY2(std::abs(turned - (along ? 7 : 0)) < 0.06, qPrintable(QString::number(turned)));
      }
      workspace.undo();
      QVERIFY(workspace.design().housings.front() == before);
      QVERIFY(!workspace.canUndo());
    }
  }

  // Property: the next click is looked at: the picture's middle then lies on it.
  void looksAtASpot() {
    auto window = windowWith("cold_store/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const design::Housing& housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    const auto was = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
    const Vec2 ahead = was->imager_from_site.row[2].xy() / norm(was->imager_from_site.row[2].xy());
    const Vec2 at = was->lens_m.xy() + ahead * 3 - perpLeft(ahead) * 0.5;
    window->command("aim.section")->trigger();
    window->command("aim.look_at_spot")->trigger();
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, pointOn(sheet, at));
    const auto now = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
    const Vec2 to = at - now->lens_m.xy();
    const double asked = radToDeg(std::atan2(to.x, to.y));
    const Vec3 axis = now->imager_from_site.row[2];
    QVERIFY2(std::abs(wrap180(radToDeg(std::atan2(axis.x, axis.y)) - asked)) < 1,
             qPrintable(QString::number(asked)));
    QVERIFY(workspace.canUndo());
  }

  // Property: a swapped model shows what it changes in the brief, before and after, and is undone.
  void swapsAModel() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    // A second housing model: the same, with half the pixels.
    design::Design two = workspace.design();
    const design::Housing& housing = two.housings.front();
    design::Model coarse = *design::findModel(two, housing.model);
    coarse.id = design::ModelId{"coarse"};
    for (design::ModelImager& imager : coarse.imagers) {
      imager.pixels[0] /= 2;
      imager.pixels[1] /= 2;
    }
    two.catalogue.models.push_back(coarse);
    const design::HousingId id = housing.id;
    workspace.apply("Add a model", two);
    workspace.endGesture();
    workspace.select({{edit::ObjectKind::housing, id.text, 0}});
    QVERIFY(waitForProof(*window));
    window->command("aim.swap_model")->trigger();
    auto* dialog = window->findChild<SwapDialog*>("swap_model");
    QVERIFY(dialog);
    auto* models = dialog->findChild<QComboBox*>("swap.model");
    models->setCurrentIndex(models->findData("coarse"));
    QTest::mouseClick(dialog->findChild<QPushButton*>("swap.apply"), Qt::LeftButton);
    QCOMPARE(QString::fromStdString(
                 design::findHousing(workspace.design(), id)->model.text), QString("coarse"));
    auto* brief = dialog->findChild<QLabel*>("swap.brief");
    QVERIFY(QTest::qWaitFor([&] { return brief->text().contains(" to "); }, 20'000));
    QVERIFY2(brief->text().contains("R3"), qPrintable(brief->text()));
    workspace.undo();
    QVERIFY(workspace.design() == two);
  }

  // Property: a life is set, and undone.
  void setsALife() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    const design::HousingId id = workspace.design().housings.front().id;
    workspace.select({{edit::ObjectKind::housing, id.text, 0}});
    window->command("aim.life_existing")->trigger();
    QVERIFY(design::findHousing(workspace.design(), id)->life == design::Life::existing);
    workspace.undo();
    QVERIFY(design::findHousing(workspace.design(), id)->life == design::Life::new_);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::AimMenuTest)
#include "aim_menu_test.moc"
