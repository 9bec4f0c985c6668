// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/outline_handles.h"

#include <QObject>

#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "desk/live_section.h"
#include "desk/pointer_tool.h"
#include "desk/room_sentences.h"
#include "desk/says.h"
#include "edit/lengths.h"

namespace belvedere::desk {
namespace {

constexpr double kGripPx = 8, kClickPx = 3;
constexpr double kGripMm = 1.1;                       // half of a grip's stroke along the outline
constexpr double kStopFromMm = 0.5, kStopToMm = 2.2;  // outside the dial
constexpr double kRingMm = 1.3;                       // likewise

bool onADial(const SheetView& view, Vec2 px) {
  for (const drawing::Dial& dial : view.dials())
    if (norm(dial.at / view.mmPerPx() - px) * view.mmPerPx() <= dial.radius_mm + 0.5) return true;
  return false;
}

}  // namespace

std::optional<edit::ImagerRef> selectedRef(const Workspace& workspace) {
  const design::Housing* housing = workspace.selectedHousing();
  const int slot = workspace.selectedSlot();
  if (!housing || slot <= 0) return std::nullopt;
  return edit::ImagerRef{housing->id, slot, workspace.selectedAim()};
}

OutlineHandles::OutlineHandles(SheetView& view) : view_(view) {
  view_.addOverlay(this, Level::above);
}

edit::OutlinePlane OutlineHandles::planeOf(const design::RequirementId& id) const {
  const Workspace& workspace = view_.workspace();
  return outlinePlane(workspace.design(), design::findRequirement(workspace.design(), id),
                      workspace.storey());
}

std::optional<OutlineHandles::Hold> OutlineHandles::holdAt(const Pointer& pointer) const {
  const auto imager = selectedRef(view_.workspace());
  if (!imager || onADial(view_, pointer.at_px)) return std::nullopt;
  const std::string name = edit::nameOf(*imager);
  for (const drawing::ImagerOutline& outline : view_.sheet().outlines) {
    // Of another aim until the look at this one has come.
    if (outline.imager != name || outline.aim != imager->aim) continue;
    const edit::OutlinePlane plane = planeOf(outline.requirement);
    auto grip = edit::gripAt(view_.workspace().design(), *imager, outline.served, plane,
                             pointer.at_m, view_.metres(kGripPx));
    // What is only in the frame is held by its outline: what lies on the plan in it is picked.
    if (grip && !(outline.frame_only && !grip->edge)) return Hold{*imager, plane, *grip};
  }
  return std::nullopt;
}

bool OutlineHandles::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton || !dynamic_cast<PointerTool*>(&view_.tool())) return false;
  hold_ = holdAt(pointer);
  if (!hold_) return false;
  before_ = view_.workspace().shareDesign();
  from_ = now_ = pointer;
  moved_ = false;
  return true;
}

void OutlineHandles::move(const Pointer& pointer) {
  if (!hold_) return;
  now_ = pointer;
  if (!moved_ && norm(pointer.at_px - from_.at_px) < kClickPx) return;
  Workspace& workspace = view_.workspace();
  if (!moved_) workspace.setDragging(true);
  moved_ = true;
  const bool pan = pointer.keys.testFlag(Qt::ShiftModifier);
  try {
    edit::Aimed aimed = edit::gripDragged(*before_, hold_->imager, hold_->grip, hold_->plane,
                                          pointer.at_m - from_.at_m, pan);
    const std::string name = edit::nameOf(hold_->imager);
    QString what = QObject::tr("Aim %1");
    if (const auto posed =
            edit::posedOf(aimed.design, hold_->imager, design::JudgedOn::captured)) {
      const design::Aim& aim = *edit::partsOf(aimed.design, hold_->imager)->aim;
      const auto deg = [](double value) { return QString::fromStdString(edit::angleText(value)); };
      using edit::Edge;
      const auto edge = hold_->grip.edge;
      if (!edge) {
        says_ = QObject::tr("pan %1, tilt %2").arg(deg(aim.pan_deg), deg(aim.tilt_deg));
      } else if (*edge == Edge::near || *edge == Edge::far) {
        what = QObject::tr("Tilt %1");
        says_ = QObject::tr("tilt %1").arg(deg(aim.tilt_deg));
      } else if (pan || hold_->grip.follows_body) {
        what = QObject::tr("Turn %1");
        says_ = QObject::tr("pan %1").arg(deg(aim.pan_deg));
      } else {
        what = QObject::tr("Zoom %1");
        says_ = QObject::tr("field %1").arg(deg(posed->hfov_deg));
      }
    }
    if (aimed.at_stop) says_ += QStringLiteral("\n") + roomSentence(aimed.stop);
    workspace.apply(what.arg(QString::fromStdString(name)), std::move(aimed.design),
                    "outline " + name);
  } catch (const InputError& error) {
    says_ = QString::fromStdString(error.problems().front().what);
  }
  view_.refreshLive();
}

void OutlineHandles::release(const Pointer& pointer) {
  if (!hold_) return;
  const bool click = !moved_;
  hold_.reset();
  before_.reset();
  says_.clear();
  if (click) {  // what lies under it is picked, as anywhere else
    Pointer down = from_;
    view_.tool().press(down);
    view_.tool().release(pointer);
  } else {
    view_.workspace().setDragging(false);
  }
  view_.refreshLive();
}

std::optional<Qt::CursorShape> OutlineHandles::cursorAt(const Pointer& pointer) {
  if (!dynamic_cast<PointerTool*>(&view_.tool())) return std::nullopt;
  const auto hold = holdAt(pointer);
  if (!hold) return std::nullopt;
  return hold->grip.edge ? Qt::PointingHandCursor : Qt::OpenHandCursor;
}

void OutlineHandles::paintStops(drawing::Canvas& canvas, const edit::ImagerRef& imager,
                                const drawing::Inks& inks) const {
  const auto limits = edit::limitsOf(view_.workspace().design(), imager);
  if (!limits) return;
  for (const drawing::Dial& dial : view_.dials()) {
    if (dial.housing->id != imager.housing) continue;
    for (const design::Range& arc : limits->pan_deg) {
      if (arc[1] - arc[0] >= 360) continue;
      for (const double bearing : arc) {
        const Vec2 way{std::sin(degToRad(bearing)), -std::cos(degToRad(bearing))};
        canvas.line(dial.at + way * (dial.radius_mm + kStopFromMm),
                    dial.at + way * (dial.radius_mm + kStopToMm), {inks.accent, 0.3});
      }
    }
    if (limits->ring_deg)
      canvas.arc(dial.at, dial.radius_mm + kRingMm, (*limits->ring_deg)[0], (*limits->ring_deg)[1],
                 {inks.accent, 0.15});
  }
}

void OutlineHandles::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                           const drawing::Inks& inks) {
  const auto imager = selectedRef(view_.workspace());
  if (!imager) return;
  paintStops(canvas, *imager, inks);
  const std::string name = edit::nameOf(*imager);
  for (const drawing::ImagerOutline& outline : view_.sheet().outlines) {
    if (outline.imager != name) continue;
    for (const edit::OutlineGrip& grip :
         edit::outlineGrips(view_.workspace().design(), *imager, outline.served,
                            planeOf(outline.requirement))) {
      const Vec2 at = to_paper(grip.at);
      canvas.disc(at, kGripMm, inks.paper);
      canvas.ring(at, kGripMm, {inks.accent, 0.3});
    }
  }
  paintSays(canvas, now_.at_px * view_.mmPerPx(), says_, inks);
}

}  // namespace belvedere::desk
