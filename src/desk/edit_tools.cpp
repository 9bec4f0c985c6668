// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/edit_tools.h"

#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "edit/measure.h"
#include "edit/transform.h"

namespace belvedere::desk {
namespace {

constexpr double kTurnStepDeg = 15;  // with Shift

const edit::Selection& selectionOf(const SheetView& view) {
  const edit::Selection& selection = view.workspace().selection();
  if (selection.empty()) refuse(QObject::tr("nothing is selected"));
  return selection;
}

void applyCopies(SheetView& view, const QString& name, edit::Copied copied) {
  view.workspace().apply(name, std::move(copied.design));
  view.workspace().select(std::move(copied.copies));
}

}  // namespace

// ---- moving -------------------------------------------------------------------------------------

QString MoveTool::name() const { return copies_ ? QObject::tr("Copy by") : QObject::tr("Move by"); }

QString MoveTool::firstHint() const {
  return QObject::tr("Click from where and to where, or type by how much: @2;1 or @5<90.");
}

void MoveTool::run(Vec2 by, bool apply) {
  Workspace& workspace = view().workspace();
  const edit::Selection& selection = selectionOf(view());
  if (copies_) {
    edit::Copied copied = edit::copied(workspace.design(), selection, by);
    if (apply) applyCopies(view(), QObject::tr("Copy"), std::move(copied));
  } else {
    design::Design next = edit::moved(workspace.design(), selection, by);
    if (apply) workspace.apply(QObject::tr("Move"), std::move(next));
  }
}

void MoveTool::finish(const std::vector<Vec2>& points) {
  run(points.back() - points.front(), true);
  putDown(view(), serial());
}
void MoveTool::rehearse(const std::vector<Vec2>& points) {
  run(points.back() - points.front(), false);
}

bool MoveTool::typed(const QString& text) {
  if (!points().empty() || !text.startsWith('@')) return PointsTool::typed(text);
  run(edit::placeFrom(text.toStdString(), shownUnits(), Vec2{}), true);
  putDown(view(), serial());
  return true;
}

// ---- mirroring ----------------------------------------------------------------------------------

QString MirrorTool::firstHint() const {
  return QObject::tr("Mirror: click two places of the line to mirror across.");
}
void MirrorTool::finish(const std::vector<Vec2>& points) {
  Workspace& workspace = view().workspace();
  workspace.apply(QObject::tr("Mirror"), edit::mirrored(workspace.design(), selectionOf(view()),
                                                        points.front(), points.back()));
  putDown(view(), serial());
}
void MirrorTool::rehearse(const std::vector<Vec2>& points) {
  if (points.front() != points.back())
    edit::mirrored(view().workspace().design(), selectionOf(view()), points.front(), points.back());
}

// ---- along a line -------------------------------------------------------------------------------

QString CopyAlongTool::firstHint() const {
  return QObject::tr("Copy along a line: click along it from the original on; Enter ends.");
}

std::vector<ToolField> CopyAlongTool::fields() {
  DrawValues& values = drawValues();
  return {lengthField("pitch", QObject::tr("every"), values.pitch_m),
          {"turning", QObject::tr("copies"),
           [&values] { return values.turning ? QString("turn") : QString("stay"); },
           [&values](const QString& text) { values.turning = text == "turn"; },
           {{"turn", QObject::tr("turn with the line")},
            {"stay", QObject::tr("stay as they are")}}}};
}

void CopyAlongTool::finish(const std::vector<Vec2>& points) {
  const DrawValues& values = drawValues();
  applyCopies(view(), QObject::tr("Copy along a line"),
              edit::arrayedAlong(view().workspace().design(), selectionOf(view()), points,
                                 values.pitch_m, values.turning));
  putDown(view(), serial());
}

// ---- turning ------------------------------------------------------------------------------------

QString TurnTool::hint() const {
  return QObject::tr("Turn: drag round the middle of what is selected, or type an angle; Shift "
                     "takes steps of 15°.");
}

bool TurnTool::typed(const QString& text) {
  Workspace& workspace = view().workspace();
  const edit::Selection& selection = selectionOf(view());
  const double by_deg = edit::angleFrom(text.toStdString());
  workspace.apply(QObject::tr("Turn"),
                  edit::turned(workspace.design(), selection,
                               edit::middleOf(workspace.design(), selection), by_deg));
  putDown(view(), serial());
  return true;
}

void TurnTool::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton) return;
  attempt([&] {
    middle_ = edit::middleOf(view().workspace().design(), selectionOf(view()));
    from_ = pointer.at_m;
    turned_deg_ = 0;
    before_ = view().workspace().shareDesign();
    view().workspace().setDragging(true);
  });
  changed();
}

void TurnTool::move(const Pointer& pointer) {
  if (!before_ || pointer.at_m == middle_) return;
  double by_deg =
      wrap180(edit::bearingDeg(middle_, pointer.at_m) - edit::bearingDeg(middle_, from_));
  const double step_deg = pointer.keys.testFlag(Qt::ShiftModifier) ? kTurnStepDeg : 0.1;
  by_deg = std::round(by_deg / step_deg) * step_deg;
  attempt([&] {
    view().workspace().apply(
        QObject::tr("Turn"),
        edit::turned(*before_, view().workspace().selection(), middle_, by_deg), "turn selection");
    turned_deg_ = by_deg;
  });
  changed();
}

void TurnTool::release(const Pointer&) {
  if (!before_) return;
  before_.reset();
  view().workspace().setDragging(false);
  putDown(view(), serial());
}

bool TurnTool::cancel() {
  if (!before_) return false;
  view().workspace().apply(QObject::tr("Turn"), *before_, "turn selection");
  before_.reset();
  view().workspace().setDragging(false);
  return true;
}

void TurnTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                     const drawing::Inks& inks) {
  const Workspace& workspace = view().workspace();
  if (workspace.selection().empty()) return;
  const double mm = view().mmPerPx();
  const Vec2 at = to_paper(before_ ? middle_
                                   : edit::middleOf(workspace.design(), workspace.selection()));
  canvas.ring(at, 4 * mm, {inks.accent, 0.25});
  if (before_)
    paintWords(canvas, at + Vec2{8 * mm, -8 * mm}, edit::angleText(turned_deg_), inks);
}

}  // namespace belvedere::desk
