// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/draw_parts.h"

#include <QAction>
#include <QInputDialog>
#include <QVBoxLayout>

#include <algorithm>

#include "base/problem.h"
#include "desk/building_tools.h"
#include "desk/edit_commands.h"
#include "desk/main_window.h"
#include "desk/new_design.h"
#include "desk/object_fields.h"
#include "desk/requirement_fields.h"
#include "desk/site_tools.h"
#include "desk/tool_line.h"
#include "desk/underlays.h"
#include "desk/way_tool.h"
#include "edit/properties.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

// Its key works on the sheet alone: elsewhere letters are letters.
void onSheetAlone(MainWindow& window, QAction* action) {
  action->setShortcutContext(Qt::WidgetShortcut);
  window.sheet().addAction(action);
}

template <class Make>
void addTool(MainWindow& window, const QString& name, const QString& text, const QString& key,
             Make make) {
  QAction* action =
      window.addCommand(QObject::tr("&Draw"), name, text, QKeySequence(key), [&window, make] {
        window.sheet().setTool(make(window.sheet()));
        window.sheet().setFocus();
      });
  onSheetAlone(window, action);
}

template <class Kind>
auto maker() {
  return [](SheetView& sheet) { return std::make_unique<Kind>(sheet); };
}

void addStoreyAbove(Workspace& workspace) {
  try {
    edit::Added added = edit::withStoreyAbove(workspace.design(), workspace.storey());
    workspace.apply(QObject::tr("Add a storey"), std::move(added.design));
    workspace.setStorey(design::StoreyId{added.ref.id});
    workspace.select({added.ref});
  } catch (const InputError& error) {
    workspace.complain(sentenceOf(error));
  }
}

// The next storey of the building up or down.
void stepStorey(Workspace& workspace, int step) {
  const design::Building* building =
      design::findBuildingOf(workspace.design(), workspace.storey());
  if (!building) return;
  std::vector<const design::Storey*> stack;
  for (const design::Storey& storey : building->storeys) stack.push_back(&storey);
  std::stable_sort(stack.begin(), stack.end(), [](const auto* a, const auto* b) {
    return a->floor_m < b->floor_m;
  });
  for (std::size_t i = 0; i < stack.size(); ++i)
    if (stack[i]->id == workspace.storey()) {
      const auto next = static_cast<std::ptrdiff_t>(i) + step;
      if (next >= 0 && next < static_cast<std::ptrdiff_t>(stack.size()))
        workspace.setStorey(stack[static_cast<std::size_t>(next)]->id);
      return;
    }
}

void renameStorey(MainWindow& window) {
  Workspace& workspace = window.workspace();
  const design::Storey* storey = workspace.shownStorey();
  if (!storey) return;
  bool good = false;
  const QString title =
      QInputDialog::getText(&window, QObject::tr("Rename the storey"),
                            QObject::tr("What it is called:"), QLineEdit::Normal,
                            words(storey->title), &good);
  if (!good) return;
  workspace.apply(QObject::tr("Rename a storey"),
                  edit::withProperty(workspace.design(),
                                     {{edit::ObjectKind::storey, storey->id.text, 0}}, "title",
                                     title.trimmed().toStdString()));
}

}  // namespace

void makeDrawParts(MainWindow& window) {
  new ToolLine(window.sheet());
  makeEditCommands(window);
  window.besideBrief()->addWidget(new ObjectFields(window.workspace()));
  window.besideBrief()->addWidget(new RequirementFields(window));
  addNewDesign(window);
  const QString menu = QObject::tr("&Draw");
  addTool(window, "draw.pointer", QObject::tr("&Pointer"), "V",
          [](SheetView&) { return std::unique_ptr<Tool>(); });
  addTool(window, "draw.wall", QObject::tr("&Wall"), "W", maker<WallTool>());
  addTool(window, "draw.door", QObject::tr("&Door in a wall"), "D", [](SheetView& sheet) {
    return std::make_unique<OpeningTool>(sheet, OpeningTool::Kind::door);
  });
  addTool(window, "draw.window", QObject::tr("Wi&ndow in a wall"), "N", [](SheetView& sheet) {
    return std::make_unique<OpeningTool>(sheet, OpeningTool::Kind::window);
  });
  addTool(window, "draw.building", QObject::tr("&Building"), "B", maker<BuildingTool>());
  window.addCommand(menu, "draw.storey_above", QObject::tr("&Storey above"), {},
                    [&window] { addStoreyAbove(window.workspace()); });
  window.addCommand(menu, "draw.rename_storey", QObject::tr("&Rename the storey ..."), {},
                    [&window] { renameStorey(window); });
  const QString view = QObject::tr("&View");
  onSheetAlone(window, window.addCommand(view, "view.storey_up", QObject::tr("Storey &up"),
                                         QKeySequence(Qt::Key_PageUp),
                                         [&window] { stepStorey(window.workspace(), 1); }));
  onSheetAlone(window, window.addCommand(view, "view.storey_down", QObject::tr("Storey &down"),
                                         QKeySequence(Qt::Key_PageDown),
                                         [&window] { stepStorey(window.workspace(), -1); }));
  addTool(window, "draw.solid", QObject::tr("&Column or obstacle"), "O", maker<SolidTool>());
  addTool(window, "draw.zone", QObject::tr("&Zone and what must be seen"), "Z", maker<ZoneTool>());
  addTool(window, "draw.mounting", QObject::tr("Mounting &line"), "L", maker<MountingTool>());
  addTool(window, "draw.containment", QObject::tr("Con&tainment"), "T", maker<TrayTool>());
  addTool(window, "draw.way", QObject::tr("Cable's own wa&y"), "K", maker<WayTool>());
  addTool(window, "draw.housing", QObject::tr("&Housing"), "H", maker<HousingTool>());
  addTool(window, "draw.measure", QObject::tr("&Measure"), "M", maker<MeasureTool>());
  new Underlays(window);
}

}  // namespace belvedere::desk
