// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/way_tool.h"

#include <algorithm>

#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "edit/find.h"
#include "edit/shapes.h"

namespace belvedere::desk {

design::AnyId selectedCable(const Workspace& workspace) {
  const edit::Selection& selection = workspace.selection();
  if (selection.size() != 1 || selection.front().kind != edit::ObjectKind::link) return {};
  return {selection.front().id};
}

std::vector<ToolField> WayTool::fields() {
  return {lengthField("way_height", QObject::tr("height above the floor"),
                      drawValues().tray_height_m, true)};
}

QString WayTool::firstHint() const {
  const design::AnyId link = selectedCable(view().workspace());
  if (link.empty())
    return QObject::tr("Choose the cable first: a row of the table Network, or its way on the plan.");
  const design::Link* cable = edit::withId(view().workspace().design().services.links, link.text);
  return QObject::tr("The way of %1: click where it bends on its way from %2 to %3; Enter ends.")
      .arg(words(link.text), words(cable ? cable->from.text : ""), words(cable ? cable->to.text : ""));
}

design::Design WayTool::withWay(const std::vector<Vec2>& points) const {
  const Workspace& workspace = view().workspace();
  const design::AnyId link = selectedCable(workspace);
  if (link.empty()) refuse(QObject::tr("no cable is chosen"));
  const design::Storey* storey = workspace.shownStorey();
  const double z_m = (storey ? storey->floor_m : 0) + drawValues().tray_height_m;
  std::vector<Vec3> path;
  for (const Vec2 p : points) path.push_back(withZ(p, z_m));
  return edit::withWay(workspace.design(), link, path);
}

void WayTool::finish(const std::vector<Vec2>& points) {
  const design::AnyId link = selectedCable(view().workspace());
  design::Design with = withWay(points);
  view().workspace().apply(QObject::tr("Draw the way of %1").arg(words(link.text)), std::move(with));
  putDown(view(), serial());
}
void WayTool::rehearse(const std::vector<Vec2>& points) { withWay(points); }

// From where it comes, and on to where it goes.
void WayTool::paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                        const drawing::Inks& inks) {
  const design::Design& design = view().workspace().design();
  const design::AnyId link = selectedCable(view().workspace());
  const design::Link* cable = edit::withId(design.services.links, link.text);
  const std::vector<Vec2> all = withPointer();
  if (!cable || all.empty()) return;
  const drawing::Stroke stroke{inks.accent, 0.2, drawing::Dash::dashed};
  if (const auto from = design::placeOf(design, cable->from))
    canvas.line(to_paper(from->xy()), to_paper(all.front()), stroke);
  if (const auto to = design::placeOf(design, cable->to))
    canvas.line(to_paper(all.back()), to_paper(to->xy()), stroke);
}

}  // namespace belvedere::desk
