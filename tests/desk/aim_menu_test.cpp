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
