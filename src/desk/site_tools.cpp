// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/site_tools.h"

#include <QKeyEvent>

#include <algorithm>

#include "base/problem.h"
#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "design/task_table.h"
#include "desk/requirement_words.h"
#include "edit/measure.h"

namespace belvedere::desk {
namespace {

void applyAdded(SheetView& view, const QString& name, edit::Added added) {
  view.workspace().apply(name, std::move(added.design));
  view.workspace().select({added.ref});
}

edit::Added zone(const SheetView& view, const std::vector<Vec2>& points) {
  const design::StoreyId& storey = view.workspace().storey();
  if (storey.empty())
    refuse(QObject::tr("there is no storey yet: draw a building's outline first"));
  return edit::withZone(view.workspace().design(), storey, points,
                        drawValues().zone_title);
}

edit::Added mounting(const SheetView& view, const std::vector<Vec2>& points) {
  const DrawValues& values = drawValues();
  return edit::withMounting(view.workspace().design(), view.workspace().storey(),
                            values.mounting_on, points,
                            {values.mounting_least_m, values.mounting_most_m});
}

edit::Added tray(const SheetView& view, const std::vector<Vec2>& points) {
  const design::Storey* storey = view.workspace().shownStorey();
  const double z_m = (storey ? storey->floor_m : 0) + drawValues().tray_height_m;
  std::vector<Vec3> path;
  for (const Vec2 p : points) path.push_back({p.x, p.y, z_m});
  return edit::withContainment(view.workspace().design(), view.workspace().storey(), path);
}

}  // namespace

// ---- zones --------------------------------------------------------------------------------------

ZoneTool::ZoneTool(SheetView& view) : PointsTool(view) {
  DrawValues& values = drawValues();
  values.zone_title.clear();
  const auto scale = design::taskScale(view.workspace().design().task_table);
  if (!scale || scale->lines.empty()) return;
  if (!design::findTask(*scale, values.zone_task))  // the middle of the scale
    values.zone_task = scale->lines[scale->lines.size() / 2].task;
}

QString ZoneTool::firstHint() const {
  return QObject::tr("Zone: click its corners on the floor, or drag a rectangle.");
}

QString ZoneTool::hint() const {
  if (outline_.empty()) return PointsTool::hint();
  return QObject::tr("Name the zone and say what must be seen in it; Enter adds both.");
}

QString ZoneTool::asks() const { return outline_.empty() ? PointsTool::asks() : QString(); }

QString ZoneTool::acceptWords() const {
  return outline_.empty() ? QString() : QObject::tr("Add the zone");
}

std::vector<ToolField> ZoneTool::fields() {
  if (outline_.empty()) return {};
  DrawValues& values = drawValues();
  ToolField title{"zone_title", QObject::tr("zone"),
                  [&values] { return words(values.zone_title); },
                  [&values](const QString& text) {
                    values.zone_title = text.trimmed().toStdString();
                  },
                  {}};
  ToolField task{"zone_task", QObject::tr("must be seen to"),
                 [&values] { return values.zone_asks ? words(values.zone_task) : QString(); },
                 [&values](const QString& text) {
                   values.zone_asks = !text.isEmpty();
                   if (values.zone_asks) values.zone_task = text.toStdString();
                 },
                 taskChoices(view().workspace().design())};
  task.choices.emplace_back(QString(), QObject::tr("nothing yet"));
  ToolField target{"zone_target", QObject::tr("whom or what"),
                   [&values] { return QString::number(static_cast<int>(values.zone_target)); },
                   [&values](const QString& text) {
                     values.zone_target = static_cast<design::TargetKind>(text.toInt());
                   },
                   targetChoices()};
  return {title, task, target};
}

void ZoneTool::finish(const std::vector<Vec2>& points) {
  zone(view(), points);  // throws where it could not be
  outline_ = points;
}
void ZoneTool::rehearse(const std::vector<Vec2>& points) { zone(view(), points); }

bool ZoneTool::accept() {
  if (outline_.empty()) return false;
  const DrawValues& values = drawValues();
  const bool added = attempt([&] {
    edit::Added with = zone(view(), outline_);
    design::RequirementId requirement;
    if (values.zone_asks) {
      edit::AddedRequirement asked = edit::withRequirement(
          with.design, design::ZoneId{with.ref.id}, values.zone_task, values.zone_target);
      with.design = std::move(asked.design);
      requirement = asked.id;
    }
    applyAdded(view(), QObject::tr("Draw a zone"), std::move(with));
    if (!requirement.empty()) view().workspace().selectRequirement(requirement);
  });
  if (added) {
    outline_.clear();
    drawValues().zone_title.clear();
  }
  changed();
  return added;
}

void ZoneTool::press(const Pointer& pointer) {
  if (outline_.empty()) {
    PointsTool::press(pointer);
  } else if (pointer.button == Qt::LeftButton) {
    accept();  // going on says that the fields are right
  }
}

void ZoneTool::move(const Pointer& pointer) {
  if (outline_.empty()) PointsTool::move(pointer);
}

bool ZoneTool::key(const QKeyEvent& event) {
  if (outline_.empty()) return PointsTool::key(event);
  if (event.key() != Qt::Key_Return && event.key() != Qt::Key_Enter) return false;
  accept();
  return true;
}

bool ZoneTool::cancel() {
  if (outline_.empty()) return PointsTool::cancel();
  outline_.clear();
  setWrong({});
  changed();
  return true;
}

void ZoneTool::paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                         const drawing::Inks& inks) {
  if (!outline_.empty()) canvas.path(to_paper(outline_), true, {inks.accent, 0.35});
}

// ---- lines --------------------------------------------------------------------------------------

QString MountingTool::firstHint() const {
  return QObject::tr("Mounting line: click along where housings may be fixed.");
}

std::size_t MountingTool::least() const { return drawValues().mounting_on == "pole" ? 1 : 2; }

std::vector<ToolField> MountingTool::fields() {
  DrawValues& values = drawValues();
  return {{"mounting_on", QObject::tr("on a"),
           [&values] { return words(values.mounting_on); },
           [&values](const QString& text) { values.mounting_on = text.toStdString(); },
           {{"ceiling", QObject::tr("ceiling")},
            {"wall", QObject::tr("wall")},
            {"pole", QObject::tr("pole")},
            {"beam", QObject::tr("beam")},
            {"column", QObject::tr("column")}}},
          lengthField("mounting_least", QObject::tr("height from"), values.mounting_least_m, true),
          lengthField("mounting_most", QObject::tr("to"), values.mounting_most_m)};
}

void MountingTool::finish(const std::vector<Vec2>& points) {
  applyAdded(view(), QObject::tr("Draw a mounting line"), mounting(view(), points));
}
void MountingTool::rehearse(const std::vector<Vec2>& points) { mounting(view(), points); }

QString TrayTool::firstHint() const {
  return QObject::tr("Containment: click along the way of the cables.");
}

std::vector<ToolField> TrayTool::fields() {
  return {lengthField("tray_height", QObject::tr("height above the floor"),
                      drawValues().tray_height_m, true)};
}

void TrayTool::finish(const std::vector<Vec2>& points) {
  applyAdded(view(), QObject::tr("Draw containment"), tray(view(), points));
}
void TrayTool::rehearse(const std::vector<Vec2>& points) { tray(view(), points); }

// ---- measuring ----------------------------------------------------------------------------------

QString MeasureTool::firstHint() const {
  const QString first = QObject::tr("Measure: click two places or more; Enter ends.");
  return last_.isEmpty() ? first : last_;
}

QString MeasureTool::hint() const {
  const std::vector<Vec2> all = withPointer();
  return points().empty() || all.size() < 2 ? firstHint() : words(all);
}

QString MeasureTool::words(const std::vector<Vec2>& points) const {
  const edit::Units units = shownUnits();
  const edit::Measured whole = edit::measured(points);
  const edit::Measured last = edit::measured({points[points.size() - 2], points.back()});
  QStringList parts{desk::words(edit::lengthText(last.distance_m, units))};
  if (last.bearing_deg)
    parts.push_back(QObject::tr("bearing %1").arg(desk::words(edit::angleText(*last.bearing_deg))));
  if (points.size() > 2) {
    parts.push_back(
        QObject::tr("along %1").arg(desk::words(edit::lengthText(whole.along_m, units))));
    if (whole.area_m2)
      parts.push_back(QObject::tr("area %1, round it %2")
                          .arg(desk::words(edit::areaText(*whole.area_m2, units)),
                               desk::words(edit::lengthText(whole.perimeter_m, units))));
  }
  return parts.join(QObject::tr(", "));
}

void MeasureTool::finish(const std::vector<Vec2>& points) {
  last_ = words(points);
  view().workspace().tell(last_);
}

}  // namespace belvedere::desk
