// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLineEdit>

#include <cmath>

#include "base/units.h"
#include "desk/aim_fields.h"
#include "desk/live_section.h"
#include "desk/section_overlay.h"
#include "desk_test_tools.h"
#include "drawing/sheet_parts.h"
#include "edit/lengths.h"
#include "edit/mount_drag.h"
#include "edit/outline_grips.h"
#include "optics/lens.h"

namespace belvedere::desk {
namespace {

// The first imager whose outline has a body to hold, selected, with its outline looked at.
struct Chosen {
  edit::ImagerRef imager;
  drawing::ImagerOutline outline;
  edit::OutlinePlane plane;
  const design::Requirement* requirement = nullptr;
};

std::optional<Chosen> choose(MainWindow& window) {
  Workspace& workspace = window.workspace();
  // What lies on the sheet takes the pointer before the outline does.
  for (const char* name : {"aim.section", "aim.print"})
    if (window.command(name)->isChecked()) window.command(name)->trigger();
  for (const design::Requirement& requirement : workspace.design().brief) {
    if (requirement.kind != design::RequirementKind::see) continue;
    workspace.selectRequirement(requirement.id);
    for (const design::Housing& housing : workspace.design().housings)
      for (const design::HousingImager& imager : housing.imagers) {
        if (imager.aims.empty()) continue;
        workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
        const edit::ImagerRef ref{housing.id, imager.slot, 0};
        const auto here = [&]() -> const drawing::ImagerOutline* {
          for (const auto& outline : window.sheet().sheet().outlines)
            if (outline.imager == edit::nameOf(ref) && !outline.frame_only &&
                !outline.served.empty())
              return &outline;
          return nullptr;
        };
        if (!QTest::qWaitFor([&] { return here() != nullptr; }, 600)) continue;
        // Until it has its final shape: nothing is under way any more.
        if (!waitForProof(window) ||
            !QTest::qWaitFor([&] { return !window.evaluator().isBusy(); }, 20'000))
          continue;
        if (!here()) continue;
        const design::Zone* zone = design::findZone(workspace.design(), requirement.zone);
        return Chosen{ref, *here(),
                      {scene::floorOf(workspace.design(), *zone),
                       design::bandOf(requirement.target), requirement.judged_on},
                      &requirement};
      }
  }
  return std::nullopt;
}

design::Aim aimOf(const Workspace& workspace, const edit::ImagerRef& imager) {
  return *edit::partsOf(workspace.design(), imager)->aim;
}
double fieldOf(const Workspace& workspace, const edit::ImagerRef& imager) {
  return edit::posedOf(workspace.design(), imager, design::JudgedOn::captured)->hfov_deg;
}

}  // namespace

class AimTest : public QObject {
  Q_OBJECT

  // Drags a grip of the outline by a way on the plan; false when the example has none.
  bool dragGrip(MainWindow& window, const Chosen& chosen, edit::Edge edge, Vec2 way_m,
                Qt::KeyboardModifiers keys = {}) {
    SheetView& sheet = window.sheet();
    const auto view = edit::posedOf(window.workspace().design(), chosen.imager,
                                    design::JudgedOn::captured);
    sheet.zoomAt(sheet.pxAt(view->lens_m.xy()), 3);  // clear of the dial
    for (const edit::OutlineGrip& grip :
         edit::outlineGrips(window.workspace().design(), chosen.imager, chosen.outline.served,
                            chosen.plane))
      if (grip.edge == edge) {
        dragOn(&sheet, pointOn(sheet, grip.at), pointOn(sheet, grip.at + way_m), keys);
        return true;
      }
    return false;
  }

 private Q_SLOTS:
  // Property: an imager that serves nothing of what is shown has what is in its frame to take hold
  // of: its side zooms it, or turns it with Shift.
  void whatServesNothingHasItsFrame() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    for (const char* name : {"aim.section", "aim.print"})
      if (window->command(name)->isChecked()) window->command(name)->trigger();
    const design::Housing housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    design::Design none = workspace.design();
    std::erase_if(none.brief, [](const auto& r) { return r.kind == design::RequirementKind::see; });
    workspace.apply("Ask for nothing", std::move(none));
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    const auto frame = [&]() -> const drawing::ImagerOutline* {
      for (const auto& outline : sheet.sheet().outlines)
        if (outline.imager == edit::nameOf(imager)) return &outline;
      return nullptr;
    };
    QVERIFY(QTest::qWaitFor([&] { return frame() != nullptr; }, 20'000));
    QVERIFY(frame()->frame_only);
    QVERIFY(!frame()->served.empty());
    const edit::OutlinePlane plane =
        outlinePlane(workspace.design(), nullptr, workspace.storey());
    const design::Aim was = aimOf(workspace, imager);
    bool dragged = false;
    for (const edit::OutlineGrip& grip :
         edit::outlineGrips(workspace.design(), imager, frame()->served, plane)) {
      const QPoint at = pointOn(sheet, grip.at);
      if (dragged || (grip.edge != edit::Edge::left && grip.edge != edit::Edge::right) ||
          !sheet.rect().adjusted(20, 20, -20, -20).contains(at))
        continue;
      const auto view = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
      const Vec2 out = perpLeft(grip.at - view->lens_m.xy());
      dragOn(&sheet, at, pointOn(sheet, grip.at + out * (0.5 / norm(out))), Qt::ShiftModifier);
      dragged = true;
    }
    QVERIFY(dragged);
    QVERIFY(std::abs(wrap180(aimOf(workspace, imager).pan_deg - was.pan_deg)) > 0.1);
  }

  // Property: of several stored aims each is stepped to, typed and turned by its own knob, and the
  // others stay; taken away, there is one with all of the time, and undo gives the same bytes.
  void storedAimsAreSteppedThrough() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const std::string before = workspace.text();
    const design::Housing& housing = workspace.design().housings.front();
    const design::HousingId id = housing.id;
    const int slot = housing.imagers.front().slot;
    const auto aims = [&] {
      return design::findHousing(workspace.design(), id)->imagers.front().aims;
    };
    workspace.select({{edit::ObjectKind::housing, id.text, slot}});
    window->command("aim.store_aim")->trigger();
    QCOMPARE(aims().size(), std::size_t{2});
    QCOMPARE(aims()[0].time_share, 0.5);
    QCOMPARE(workspace.selectedAim(), std::size_t{1});
    auto* pan = window->findChild<QLineEdit*>("aim.pan");
    const double first_pan = aims()[0].pan_deg;
    pan->setFocus();
    pan->selectAll();
    QTest::keyClicks(pan, QString::number(wrap360(first_pan + 20)));
    QTest::keyClick(pan, Qt::Key_Return);
    QCOMPARE(aims()[0].pan_deg, first_pan);
    QVERIFY(std::abs(wrap180(aims()[1].pan_deg - first_pan - 20)) < 0.01);
    sheet.setFocus();
    QTest::keyClick(&sheet, Qt::Key_A);
    QCOMPARE(workspace.selectedAim(), std::size_t{0});
    QCOMPARE(pan->text(), QString::fromStdString(edit::angleText(first_pan)));
    // The other's knob takes it in hand.
    std::optional<QPoint> knob;
    for (const drawing::Dial& dial : sheet.dials())
      for (const drawing::Knob& one : drawing::knobsOf(dial))
        if (dial.housing->id == id && one.slot == slot && one.aim == 1) {
          const Vec2 px = one.at / sheet.mmPerPx();
          knob = QPoint(qRound(px.x), qRound(px.y));
        }
    QVERIFY(knob);
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, *knob);
    QCOMPARE(workspace.selectedAim(), std::size_t{1});
    QVERIFY(QTest::qWaitFor(
        [&] { return window->evaluator().now()->section.has_value(); }, 20'000));
    window->command("aim.drop_aim")->trigger();
    QCOMPARE(aims().size(), std::size_t{1});
    QCOMPARE(aims()[0].time_share, 1.0);
    QCOMPARE(aims()[0].pan_deg, first_pan);
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: the near edge dragged away from the lens lifts the view, towards it lowers it; one
  // step of undo, and undo gives the same bytes.
  void nearEdgeTilts() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    Workspace& workspace = window->workspace();
    const std::string before = workspace.text();
    const design::Aim was = aimOf(workspace, chosen->imager);
    const auto view =
        edit::posedOf(workspace.design(), chosen->imager, design::JudgedOn::captured);
    const Vec2 ahead =
        view->imager_from_site.row[2].xy() / norm(view->imager_from_site.row[2].xy());
    QVERIFY(dragGrip(*window, *chosen, edit::Edge::near, ahead * 0.6));
    const design::Aim now = aimOf(workspace, chosen->imager);
    QVERIFY2(now.tilt_deg < was.tilt_deg - 0.1,
             qPrintable(QString("%1 -> %2").arg(was.tilt_deg).arg(now.tilt_deg)));
    QVERIFY(std::abs(wrap180(now.pan_deg - was.pan_deg)) < 1e-9);
    QVERIFY(!workspace.isDragging());
    workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
    QVERIFY(!workspace.canUndo());
  }

  // Property: the body turns with the hand: what was under it stays under it, where limits allow.
  void bodyPans() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const std::string before = workspace.text();
    // A place well inside the outline.
    std::optional<Vec2> inside;
    Box2 box;
    for (const Vec2 p : chosen->outline.served.front().outer) box.add(p);
    double deepest = 0;
    for (int i = 1; i < 40; ++i)
      for (int k = 1; k < 40; ++k) {
        const Vec2 p{box.low.x + (box.high.x - box.low.x) * i / 40.0,
                     box.low.y + (box.high.y - box.low.y) * k / 40.0};
        const bool on_dial = std::any_of(
            sheet.sheet().design->housings.begin(), sheet.sheet().design->housings.end(),
            [&](const design::Housing& h) {
              return norm(sheet.pxAt(h.mount.fixing_m.xy()) - sheet.pxAt(p)) < 50;
            });
        if (on_dial || !contains(chosen->outline.served, p)) continue;
        const double depth = distanceToOutline(chosen->outline.served.front().outer, p);
        if (depth > deepest) deepest = depth, inside = p;
      }
    QVERIFY(inside);
    QVERIFY2(deepest * sheet.pxPerM() > 9, qPrintable(QString::number(deepest)));
    const design::Aim was = aimOf(workspace, chosen->imager);
    const Vec2 lens = edit::posedOf(workspace.design(), chosen->imager,
                                    design::JudgedOn::captured)->lens_m.xy();
    const Vec2 sight = *inside - lens;
    const double turn = degToRad(4);  // clockwise
    const Vec2 to = lens + Vec2{sight.x * std::cos(turn) + sight.y * std::sin(turn),
                                sight.y * std::cos(turn) - sight.x * std::sin(turn)};
    dragOn(&sheet, pointOn(sheet, *inside), pointOn(sheet, to));
    const design::Aim now = aimOf(workspace, chosen->imager);
    const double turned = wrap180(now.pan_deg - was.pan_deg);
    QVERIFY2(turned > 2.5 && turned < 6, qPrintable(QString::number(turned)));
    workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: a side zooms where the lens can, and pans with Shift; at the end of its travel it
  // stops.
  void sidesZoomOrPan() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    Workspace& workspace = window->workspace();
    const design::Aim was = aimOf(workspace, chosen->imager);
    const double field = fieldOf(workspace, chosen->imager);
    const auto limits = edit::limitsOf(workspace.design(), chosen->imager);
    QVERIFY(limits);
    const auto view =
        edit::posedOf(workspace.design(), chosen->imager, design::JudgedOn::captured);
    const Vec3 right = view->imager_from_site.row[0];
    QVERIFY(dragGrip(*window, *chosen, edit::Edge::right, right.xy() * 4));
    if (limits->hfov_deg) {
      QVERIFY(fieldOf(workspace, chosen->imager) <= (*limits->hfov_deg)[1] + 1e-6);
      QVERIFY(fieldOf(workspace, chosen->imager) >= field - 1e-6);
    } else {
      QCOMPARE(fieldOf(workspace, chosen->imager), field);
    }
    QVERIFY(std::abs(wrap180(aimOf(workspace, chosen->imager).pan_deg - was.pan_deg)) < 1e-9);
    while (workspace.canUndo()) workspace.undo();
    QTest::qWait(300);
    QVERIFY(dragGrip(*window, *chosen, edit::Edge::right, right.xy() * 0.8, Qt::ShiftModifier));
    QVERIFY(std::abs(wrap180(aimOf(workspace, chosen->imager).pan_deg - was.pan_deg)) > 0.2);
    QVERIFY(std::abs(fieldOf(workspace, chosen->imager) - field) < 1e-9);
  }

  // Property: the folded section lies along the axis; its lens is dragged to another height, its
  // rays tilt; one step of undo each.
  void theSectionIsDragged() {
    auto window = windowWith("cold_store/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const std::string before = workspace.text();
    const design::Housing& housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    if (window->command("aim.print")->isChecked()) window->command("aim.print")->trigger();
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    auto* section = sheet.findChild<SectionOverlay*>("section");
    QVERIFY(section);
    QVERIFY(QTest::qWaitFor([&] { return section->section() != nullptr; }, 5000));
    const auto view = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
    // Two metres along the axis and at the lens's height lies two metres along on the plan, and as
    // far to the side as the lens is high.
    const double lens_m = section->section()->section.lens_z_m;
    const Vec2 foot = *section->siteOf({0, 0}), ahead = *section->siteOf({2, 0});
    QVERIFY(norm(foot - view->lens_m.xy()) < 1e-6);
    QVERIFY(std::abs(norm(ahead - foot) - 2) < 1e-6);
    QVERIFY(std::abs(dot(ahead - foot, view->imager_from_site.row[2].xy()) -
                     2 * norm(view->imager_from_site.row[2].xy())) < 1e-6);
    const Vec2 lens_at = *section->siteOf({0, lens_m});
    QVERIFY(std::abs(norm(lens_at - foot) - lens_m) < 1e-6);
    // The lens, half a metre down.
    const double height = edit::lensHeight(workspace.design(), housing.id);
    dragOn(&sheet, pointOn(sheet, lens_at), pointOn(sheet, *section->siteOf({0, lens_m - 0.5})));
    const double lowered = edit::lensHeight(workspace.design(), housing.id);
    QVERIFY2(std::abs(height - lowered - 0.5) < 1.5 / sheet.pxPerM(),
             qPrintable(QString("%1 -> %2").arg(height).arg(lowered)));
    workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
    QVERIFY(!workspace.canUndo());
    QVERIFY(QTest::qWaitFor(
        [&] {
          return section->section() &&
                 std::abs(section->section()->section.lens_z_m - lens_m) < 1e-9;
        },
        5000));
    // The lower ray, through a point farther out: the tilt that brings the frame's edge there.
    const edit::Section now = section->section()->section;
    QVERIFY(now.lower);
    const Vec2 held = Vec2{0, lens_m} + (now.lower->end - Vec2{0, lens_m}) * 0.8;
    const Vec2 to = held + Vec2{0.5, 0};
    const double tilt = aimOf(workspace, imager).tilt_deg;
    dragOn(&sheet, pointOn(sheet, *section->siteOf(held)), pointOn(sheet, *section->siteOf(to)));
    QVERIFY2(aimOf(workspace, imager).tilt_deg < tilt - 1,
             qPrintable(QString::number(aimOf(workspace, imager).tilt_deg)));
    const auto posed = edit::posedOf(workspace.design(), imager, design::JudgedOn::captured);
    const auto px = optics::project(
        posed->lens, posed->imager_from_site * (edit::siteOf(now, to) - posed->lens_m));
    QVERIFY(px);
    QVERIFY2(std::abs(px->y - posed->frame_high_px.y) < 0.02 * posed->pixels[1],
             qPrintable(QString::number(px->y)));
    workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: while a hand aims, the section follows within a frame's time or so, beside the
  // window.
  void theSectionIsLive() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    const design::Housing& housing = workspace.design().housings.front();
    const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
    workspace.select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
    auto* section = window->sheet().findChild<SectionOverlay*>("section");
    QVERIFY(QTest::qWaitFor([&] { return section->section() != nullptr; }, 5000));
    workspace.setDragging(true);
    const design::Design before = workspace.design();
    const double tilt = aimOf(workspace, imager).tilt_deg;
    for (int i = 1; i <= 5; ++i) {
      workspace.apply("Tilt", edit::withTilt(before, imager, tilt - i).design, "tilt");
      QVERIFY(QTest::qWaitFor(
          [&] { return section->section() && section->section()->tilt_deg == tilt - i; }, 2000));
    }
    workspace.setDragging(false);
  }

  // Property: a click on the outline's body still picks what lies there, and changes nothing.
  void aClickChangesNothing() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    const Vec2 at = edit::outlineGrips(window->workspace().design(), chosen->imager,
                                       chosen->outline.served, chosen->plane)
                        .front()
                        .at;
    QTest::mouseClick(&window->sheet(), Qt::LeftButton, {}, pointOn(window->sheet(), at));
    QVERIFY(!window->workspace().canUndo());
  }

  // Property: typed numbers are what the design then says; limits hold; Escape restores; arrows
  // step.
  void numbersCanBeTyped() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    Workspace& workspace = window->workspace();
    const std::string before = workspace.text();
    auto* tilt = window->findChild<QLineEdit*>("aim.tilt");
    QVERIFY(tilt && tilt->isVisible());
    tilt->setFocus();
    tilt->selectAll();
    QTest::keyClicks(tilt, "2*10 + 1.5");
    QTest::keyClick(tilt, Qt::Key_Return);
    QVERIFY2(std::abs(aimOf(workspace, chosen->imager).tilt_deg - 21.5) < 1e-9,
             qPrintable(QString::number(aimOf(workspace, chosen->imager).tilt_deg)));
    tilt->selectAll();
    QTest::keyClicks(tilt, "nonsense");
    QTest::keyClick(tilt, Qt::Key_Escape);
    QCOMPARE(tilt->text(), QString::fromStdString(edit::angleText(21.5)));
    QTest::keyClick(tilt, Qt::Key_Up);
    QVERIFY(std::abs(aimOf(workspace, chosen->imager).tilt_deg - 22.5) < 1e-9);
    auto* height = window->findChild<QLineEdit*>("aim.height");
    height->setFocus();
    height->selectAll();
    QTest::keyClicks(height, "3.1 m");
    QTest::keyClick(height, Qt::Key_Return);
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: focus, exposure and aperture are typed as a photographer says them; emptied, they are
  // again as the program and the camera choose. No lens opens wider than it does.
  void focusExposureAndApertureCanBeTyped() {
    auto window = windowWith("ferry_terminal/design.json");
    const auto chosen = choose(*window);
    QVERIFY(chosen);
    Workspace& workspace = window->workspace();
    const std::string before = workspace.text();
    const auto type = [&](const char* field, const char* words) {
      auto* line = window->findChild<QLineEdit*>(field);
      line->setFocus();
      line->selectAll();
      if (*words) QTest::keyClicks(line, words);
      else QTest::keyClick(line, Qt::Key_Delete);
      QTest::keyClick(line, Qt::Key_Return);
    };
    const auto parts = [&] { return *edit::partsOf(workspace.design(), chosen->imager); };
    type("aim.focus", "6.5 m");
    QCOMPARE(parts().aim->focus_m.value_or(0), 6.5);
    type("aim.exposure", "1/50");
    QCOMPARE(parts().written->exposure_s.value_or(0), 0.02);
    type("aim.exposure", "soon");
    QCOMPARE(parts().written->exposure_s.value_or(0), 0.02);
    type("aim.aperture", "f/5.6");
    QCOMPARE(parts().written->f_number.value_or(0), 5.6);
    auto* aperture = window->findChild<QLineEdit*>("aim.aperture");
    QCOMPARE(aperture->text(), QString("f/5.6"));
    QCOMPARE(aperture->accessibleName(), QString("aperture"));
    type("aim.aperture", "pinhole");
    QCOMPARE(parts().written->f_number.value_or(0), 5.6);
    type("aim.aperture", "0.7");
    const auto posed =
        edit::posedOf(workspace.design(), chosen->imager, design::JudgedOn::captured);
    QVERIFY(posed && posed->widest_f_number);
    QCOMPARE(parts().written->f_number.value_or(0), *posed->widest_f_number);
    workspace.undo();
    QCOMPARE(parts().written->f_number.value_or(0), 5.6);
    type("aim.focus", "");
    type("aim.exposure", "");
    type("aim.aperture", "");
    QVERIFY(!parts().aim->focus_m);
    QVERIFY(!parts().written->exposure_s);
    QVERIFY(!parts().written->f_number);
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: with several imagers selected, a number is given to each, in one step.
  void oneNumberForSeveral() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    edit::Selection several;
    for (const design::Housing& housing : workspace.design().housings)
      for (const design::HousingImager& imager : housing.imagers)
        if (!imager.aims.empty() && several.size() < 3)
          several.push_back({edit::ObjectKind::housing, housing.id.text, imager.slot});
    QVERIFY(several.size() >= 2);
    workspace.select(several);
    auto* tilt = window->findChild<QLineEdit*>("aim.tilt");
    QVERIFY(tilt->isVisible());
    tilt->setFocus();
    tilt->selectAll();
    QTest::keyClicks(tilt, "31");
    QTest::keyClick(tilt, Qt::Key_Return);
    for (const edit::ImagerRef& imager : selectedImagers(workspace))
      QVERIFY2(std::abs(aimOf(workspace, imager).tilt_deg - 31) < 1e-9,
               qPrintable(QString::fromStdString(edit::nameOf(imager))));
    workspace.undo();
    QVERIFY(!workspace.canUndo());
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::AimTest)
#include "aim_test.moc"
