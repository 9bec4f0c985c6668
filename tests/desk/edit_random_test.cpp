// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>

#include <functional>
#include <random>

#include "base/problem.h"
#include "desk_test_tools.h"
#include "edit/aim.h"
#include "edit/brief.h"
#include "edit/erase.h"
#include "edit/handles.h"
#include "edit/mount_drag.h"
#include "edit/paste.h"
#include "edit/properties.h"
#include "edit/shapes.h"

namespace belvedere::desk {

// Property: whatever is done, undone to the start it is the start, to the byte; and whatever was
// made on the way can be read back.
class EditRandomTest : public QObject {
  Q_OBJECT

  std::mt19937 random_;  // the same walk each time
  static constexpr std::size_t kMostObjects = 70;

  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  double between(double a, double b) { return a + (b - a) * below(1001) / 1000.0; }
  Vec2 place() { return {between(0, 12), between(0, 9)}; }
  std::vector<Vec2> box() {
    const Vec2 a = place(), b = a + Vec2{between(0.2, 2), between(0.2, 2)};
    return {a, {b.x, a.y}, b, {a.x, b.y}};
  }
  edit::Selection some(const design::Design& design) {
    edit::Selection all;
    for (const edit::ObjectLine& line : edit::objectsOf(design, {}))
      if (line.ref.kind != edit::ObjectKind::building &&
          line.ref.kind != edit::ObjectKind::storey && line.ref.slot == 0)
        all.push_back(line.ref);
    if (all.empty()) return {};
    edit::Selection picked{all[random_() % all.size()]};
    if (below(4) == 0) {
      const edit::ObjectRef more = all[random_() % all.size()];
      if (more != picked.front()) picked.push_back(more);
    }
    return picked;
  }

  // One edit, or an InputError that leaves everything as it was.
  design::Design edited(const design::Design& d, const design::StoreyId& storey,
                        const design::Design& old) {
    const edit::Selection selection = some(d);
    if (edit::objectsOf(d, {}).size() > kMostObjects) return edit::erased(d, selection).design;
    switch (below(21)) {
      case 0: return edit::moved(d, selection, {between(-1, 1), between(-1, 1)});
      case 1: return edit::turned(d, selection, edit::middleOf(d, selection), between(-90, 90));
      case 2: return edit::mirrored(d, selection, place(), place());
      case 3: return edit::copied(d, selection, {between(-1, 1), between(-1, 1)}).design;
      case 4: return edit::erased(d, selection).design;
      case 5: return edit::withWall(d, storey, {place(), place(), place()}, 0.1, {}).design;
      case 6:
        return edit::withSolid(d, storey, design::SolidKind::stock, box(), 0, between(0.5, 2)).design;
      case 7: {
        const edit::Added zone = edit::withZone(d, storey, box(), "walked");
        return edit::withRequirement(zone.design, design::ZoneId{zone.ref.id}, "observe",
                                     design::TargetKind::person)
            .design;
      }
      case 8: {
        edit::NewHousing housing;
        housing.model = d.housings.empty() ? old.housings.front().model : d.housings.front().model;
        const Vec2 at = place();
        housing.mount.fixing_m = {at.x, at.y, 2.5};
        housing.storey = storey;
        return edit::withHousing(d, housing).design;
      }
      case 9: {
        const auto handles = selection.empty() ? std::vector<edit::Handle>{}
                                               : edit::handlesOf(d, selection.front());
        if (handles.empty()) return d;
        const edit::Handle& handle = handles[random_() % handles.size()];
        return edit::withHandleAt(d, selection.front(), handle,
                                  handle.at_m + Vec2{between(-0.5, 0.5), between(-0.5, 0.5)});
      }
      case 10: {
        const auto handles = selection.empty() ? std::vector<edit::Handle>{}
                                               : edit::handlesOf(d, selection.front());
        if (handles.empty()) return d;
        return edit::withoutVertex(d, selection.front(), handles[random_() % handles.size()]);
      }
      case 11: {
        const auto properties = selection.empty()
                                    ? std::vector<edit::Property>{}
                                    : edit::propertiesOf(d, selection.front());
        if (properties.empty()) return d;
        const edit::Property& property = properties[random_() % properties.size()];
        if (property.kind == edit::PropertyKind::text)
          return edit::withProperty(d, selection, property.key, "t" + std::to_string(below(9)));
        if (property.kind == edit::PropertyKind::choice)
          return edit::withProperty(d, selection, property.key,
                                    property.choices[random_() % property.choices.size()]);
        return edit::withProperty(d, selection, property.key, between(0, 3));
      }
      case 12:
      case 13: {
        if (d.housings.empty()) return d;
        const design::Housing& housing = d.housings[random_() % d.housings.size()];
        const edit::ImagerRef imager{housing.id, housing.imagers.front().slot, 0};
        return below(2) ? edit::withPan(d, imager, between(0, 360)).design
                        : edit::withTilt(d, imager, between(0, 90)).design;
      }
      case 14: return edit::pasted(d, storey, old, some(old), {between(-1, 1), 0}).design;
      case 15:
        return edit::withMounting(d, storey, "ceiling", {place(), place()}, {2.2, 2.6}).design;
      case 16: {
        for (const edit::ObjectRef& ref : selection)
          if (ref.kind == edit::ObjectKind::wall)
            return edit::withOpening(d, design::WallId{ref.id},
                                     {between(0, 3), between(0.5, 1), 0, 2, {}})
                .design;
        return d;
      }
      case 17: {
        if (d.brief.empty()) return d;
        design::Requirement requirement = d.brief[random_() % d.brief.size()];
        requirement.share = between(0.5, 1);
        return edit::withRequirementAs(d, requirement);
      }
      case 18: return edit::withSituation(d, "walked").design;
      case 19: {
        if (d.services.links.empty()) return d;
        const design::AnyId link = d.services.links[random_() % d.services.links.size()].id;
        std::vector<Vec3> path;
        for (int i = below(4); i > 0; --i) path.push_back(withZ(place(), between(0, 4)));
        return edit::withWay(d, link, path);
      }
      default: {
        if (d.housings.empty()) return d;
        const design::Housing& housing = d.housings[random_() % d.housings.size()];
        return edit::dragHousing(d, housing.id, place(), 0.3).design;
      }
    }
  }

  void walk(Workspace& workspace, int edits, const std::function<void()>& between_edits) {
    const design::Design old = workspace.design();
    int refused = 0;
    for (int done = 0; done < edits;) {
      switch (below(12)) {
        case 0:
          for (int i = below(6); i >= 0; --i) workspace.undo();
          break;
        case 1:
          for (int i = below(6); i >= 0; --i) workspace.redo();
          break;
        default: break;
      }
      if (between_edits) between_edits();
      try {
        const quint64 version = workspace.version();
        workspace.apply("step", edited(workspace.design(), workspace.storey(), old),
                        below(10) == 0 ? "gesture" : "");
        if (workspace.version() == version) continue;  // nothing there to change
        ++done;
      } catch (const InputError&) {
        if (++refused > 20 * edits) QFAIL("hardly anything could be done");
      }
      if (done % 1000 == 0)
        QVERIFY(design::readDesignText(workspace.text(), workspace.folder()).design.site ==
                workspace.design().site);
    }
  }

 private Q_SLOTS:
  void tenThousandEditsAreUndoneToTheByte() {
    random_.seed(20260);
    Workspace workspace;
    workspace.open(examplePath("shop/design.json"));
    const std::string before = workspace.text();
    walk(workspace, 10'000, {});
    QVERIFY(workspace.text() != before);
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
    QVERIFY(workspace.isSaved());
    while (workspace.canRedo()) workspace.redo();
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // The same with a window around it, and its commands between the edits.
  void commandsAreUndoneToTheByte() {
    random_.seed(20261);
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    const std::string before = workspace.text();
    const QStringList commands{"edit.copy",       "edit.cut",        "edit.paste",
                               "edit.duplicate",  "edit.delete",     "edit.select_all",
                               "edit.select_kind", "edit.select_inverse", "edit.next_handle",
                               "edit.undo",       "edit.redo",       "edit.paste_in_place"};
    walk(workspace, 300, [&] {
      const edit::Selection selection = some(workspace.design());
      if (below(3) > 0) workspace.select(selection);
      window->command(commands[below(static_cast<int>(commands.size()))])->trigger();
      if (below(10) == 0) QCoreApplication::processEvents();
    });
    while (workspace.canUndo()) workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::EditRandomTest)
#include "edit_random_test.moc"
