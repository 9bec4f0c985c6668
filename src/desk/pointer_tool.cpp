// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/pointer_tool.h"

#include <QKeyEvent>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "desk/room_words.h"
#include "desk/sheet_view.h"
#include "desk/shown_units.h"
#include "edit/aim.h"
#include "edit/erase.h"
#include "edit/mount_drag.h"
#include "edit/pick.h"
#include "edit/trace.h"
#include "edit/transform.h"

namespace belvedere::desk {
namespace {

constexpr double kPickPx = 6, kKnobPx = 9, kClickPx = 3, kMountPx = 24;

QString sentenceOf(const InputError& error) {
  return QString::fromStdString(error.problems().front().what);
}

bool holds(const edit::Selection& selection, const edit::ObjectRef& ref) {
  return std::find(selection.begin(), selection.end(), ref) != selection.end();
}

// Housings move along what they hang on, one at a time; everything else moves freely.
bool isOneHousing(const edit::Selection& selection) {
  return selection.size() == 1 && selection.front().kind == edit::ObjectKind::housing;
}

}  // namespace

QString PointerTool::name() const { return QObject::tr("Pointer"); }

QString PointerTool::hint() const {
  if (view().workspace().design().site.buildings.empty())
    return QObject::tr("Nothing is drawn yet: begin with the building's outline (Draw, Building).");
  if (view().workspace().selection().empty())
    return QObject::tr("Click what you want to change; drag over paper or a zone to select by a box.");
  return QObject::tr("Drag to move, pull a handle, or turn an imager by its knob.");
}

std::optional<edit::ImagerRef> PointerTool::knobAt(Vec2 px) const {
  std::optional<edit::ImagerRef> nearest;
  double least = kKnobPx;
  for (const drawing::Dial& dial : view().dials())
    for (const drawing::Knob& knob : drawing::knobsOf(dial))
      if (const double off = norm(knob.at / view().mmPerPx() - px); off <= least) {
        least = off;
        nearest = edit::ImagerRef{dial.housing->id, knob.slot, knob.aim};
      }
  return nearest;
}

// All of a dial is its housing's, whatever lies under it on the plan.
std::optional<edit::ObjectRef> PointerTool::dialAt(Vec2 px) const {
  const Workspace& workspace = view().workspace();
  for (const drawing::Dial& dial : view().dials()) {
    if (norm(dial.at / view().mmPerPx() - px) * view().mmPerPx() > dial.radius_mm) continue;
    const edit::ObjectRef whole{edit::ObjectKind::housing, dial.housing->id.text, 0};
    for (const edit::ObjectRef& ref : workspace.selection())  // its imager stays in hand
      if (ref.kind == whole.kind && ref.id == whole.id) return ref;
    const auto there = edit::objectAt(workspace.design(), workspace.storey(), workspace.situation(),
                                      view().siteAt(px), view().metres(kPickPx));
    return there && there->kind == whole.kind && there->id == whole.id ? *there : whole;
  }
  return std::nullopt;
}

void PointerTool::dropHidden(std::vector<edit::ObjectRef>& refs) const {
  if (view().showsCables()) return;
  std::erase_if(refs, [](const auto& ref) { return ref.kind == edit::ObjectKind::link; });
}

void PointerTool::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton) return;
  Workspace& workspace = view().workspace();
  from_ = pointer;
  moved_ = false;
  clicked_.reset();
  before_ = workspace.shareDesign();
  if (const auto knob = knobAt(pointer.at_px)) {
    knob_ = *knob;
    workspace.select({{edit::ObjectKind::housing, knob->housing.text, knob->slot}});
    workspace.selectAim(knob->aim);
    doing_ = Doing::knob;
    return;
  }
  const edit::Selection selection = workspace.selection();
  if (selection.size() == 1)
    for (const edit::Handle& handle : handles())
      if (selection.front().kind != edit::ObjectKind::housing &&
          norm(view().pxAt(handle.at_m) - pointer.at_px) <= kKnobPx) {
        handle_ = handle;
        doing_ = Doing::handle;
        return;
      }
  std::vector<edit::ObjectRef> there;
  if (const auto dial = dialAt(pointer.at_px))
    there = {*dial};
  else
    there = edit::objectsAt(workspace.design(), workspace.storey(), workspace.situation(),
                            pointer.at_m, view().metres(kPickPx));
  dropHidden(there);
  const bool add = pointer.keys.testFlag(Qt::ShiftModifier);
  box_from_ = add ? selection : edit::Selection{};
  if (there.empty()) {
    beginBox(pointer);
    if (!add) workspace.select({});
    return;
  }
  // What is selected already is moved, even where something else lies above it.
  const auto known = std::find_if(there.begin(), there.end(),
                                  [&](const auto& ref) { return holds(selection, ref); });
  if (known == there.end()) {
    edit::Selection next = add ? selection : edit::Selection{};
    next.push_back(there.front());
    workspace.select(std::move(next));
  } else if (add) {
    edit::Selection next = selection;
    std::erase(next, *known);
    workspace.select(std::move(next));
  } else if (selection.size() == 1 && *known != there.front()) {
    clicked_ = there.front();  // unless it is dragged
  }
  doing_ = Doing::move;
  // A floor may be zone all over: only a zone that is selected already is moved.
  if (known == there.end() && there.front().kind == edit::ObjectKind::zone) beginBox(pointer);
}

void PointerTool::beginBox(const Pointer& pointer) {
  doing_ = Doing::box;
  box_to_m_ = pointer.at_m;
}

std::vector<edit::Handle> PointerTool::handles() const {
  const Workspace& workspace = view().workspace();
  if (workspace.selection().size() != 1) return {};
  return edit::handlesOn(workspace.design(), workspace.selection().front(), workspace.storey());
}

void PointerTool::leave() {
  if (!stepped_) at_hand_.reset();
}

bool PointerTool::eraseVertex() {
  if (!at_hand_ || at_hand_->kind == edit::HandleKind::edge || handles().empty()) return false;
  Workspace& workspace = view().workspace();
  const edit::ObjectRef ref = workspace.selection().front();
  if (ref.kind == edit::ObjectKind::housing || ref.kind == edit::ObjectKind::opening) return false;
  const edit::Handle vertex = *at_hand_;
  at_hand_.reset();
  workspace.apply(QObject::tr("Take a point of %1").arg(QString::fromStdString(ref.id)),
                  edit::withoutVertex(workspace.design(), ref, vertex));
  return true;
}

void PointerTool::stepHandle(int step) {
  const std::vector<edit::Handle> all = handles();
  if (all.empty()) return;
  const auto count = static_cast<int>(all.size());
  int index = step > 0 ? 0 : count - 1;
  for (int i = 0; at_hand_ && i < count; ++i)
    if (all[static_cast<std::size_t>(i)] == *at_hand_) index = (i + step + count) % count;
  at_hand_ = all[static_cast<std::size_t>(index)];
  stepped_ = true;
  view().refreshLive();
}

QString PointerTool::asks() const {
  if (view().workspace().selection().empty()) return {};
  if (!at_hand_) return QObject::tr("move by");
  return at_hand_->kind == edit::HandleKind::edge ? QObject::tr("length of this edge")
                                                  : QObject::tr("place of this point");
}

bool PointerTool::typed(const QString& text) {
  Workspace& workspace = view().workspace();
  if (workspace.selection().empty()) return false;
  const std::string line = text.toStdString();
  const edit::ObjectRef ref = workspace.selection().front();
  const QString name = QString::fromStdString(ref.id);
  if (at_hand_ && !handles().empty()) {
    const edit::Handle handle = *at_hand_;
    if (handle.kind == edit::HandleKind::edge) {
      workspace.apply(QObject::tr("Length of an edge of %1").arg(name),
                      edit::withEdgeLength(workspace.design(), ref, handle,
                                           edit::lengthFrom(line, shownUnits())));
    } else {
      workspace.apply(
          QObject::tr("Reshape %1").arg(name),
          edit::withHandleAt(workspace.design(), ref, handle,
                             edit::placeFrom(line, shownUnits(), handle.at_m)));
    }
    at_hand_.reset();
    return true;
  }
  const Vec2 by = edit::placeFrom(line, shownUnits(), Vec2{});
  workspace.apply(QObject::tr("Move"),
                  edit::moved(workspace.design(), workspace.selection(), by));
  return true;
}

void PointerTool::move(const Pointer& pointer) {
  if (doing_ == Doing::nothing) {
    std::optional<edit::Handle> now;
    for (const edit::Handle& handle : handles())
      if (!now && view().workspace().selection().front().kind != edit::ObjectKind::housing &&
          norm(view().pxAt(handle.at_m) - pointer.at_px) <= kKnobPx)
        now = handle;
    if (stepped_ && !now) return;  // keys put it there
    stepped_ = false;
    if (now == at_hand_) return;
    at_hand_ = now;
    view().refreshLive();
    return;
  }
  if (!moved_ && norm(pointer.at_px - from_.at_px) < kClickPx) return;
  if (!moved_ && doing_ != Doing::box) view().workspace().setDragging(true);
  moved_ = true;
  if (doing_ == Doing::box) {
    box_to_m_ = pointer.at_m;
    view().refreshLive();
    return;
  }
  try {
    drag(pointer);
  } catch (const InputError& error) {
    snap_says_ = sentenceOf(error);  // the last design that could be stays
    view().refreshLive();
  }
}

void PointerTool::drag(const Pointer& pointer) {
  Workspace& workspace = view().workspace();
  const edit::Selection& selection = workspace.selection();
  if (doing_ == Doing::knob) {
    const design::Housing* housing =
        design::findHousing(*before_, knob_.housing);
    if (!housing) return;
    const Vec2 way = pointer.at_m - housing->mount.fixing_m.xy();
    if (norm(way) == 0) return;
    double bearing_deg = wrap360(radToDeg(std::atan2(way.x, way.y)));
    if (pointer.keys.testFlag(Qt::ShiftModifier)) bearing_deg = std::round(bearing_deg / 5) * 5;
    edit::Aimed aimed = edit::withPan(*before_, knob_, std::round(bearing_deg * 10) / 10);
    snap_says_ = QString::fromStdString(aimed.stop);
    workspace.apply(QObject::tr("Turn %1").arg(QString::fromStdString(edit::nameOf(knob_))),
                    std::move(aimed.design), "turn " + edit::nameOf(knob_));
    return;
  }
  if (doing_ == Doing::handle) {
    const edit::Snap snap = view().snap(pointer, std::nullopt, selection);
    snap_says_ = snapWords(snap);
    snap_at_m_ = snap.at_m;
    workspace.apply(QObject::tr("Reshape %1").arg(QString::fromStdString(selection.front().id)),
                    edit::withHandleAt(*before_, selection.front(), handle_, snap.at_m), "reshape");
    return;
  }
  if (isOneHousing(selection)) {
    const design::HousingId id{selection.front().id};
    const design::Housing* housing = design::findHousing(*before_, id);
    if (!housing) return;
    Pointer goal = pointer;
    goal.at_m = housing->mount.fixing_m.xy() + (pointer.at_m - from_.at_m);
    edit::Aimed moved =
        edit::dragHousing(*before_, id, goal.at_m, view().metres(kMountPx));
    snap_says_ = QString::fromStdString(moved.stop);
    workspace.apply(QObject::tr("Move %1").arg(QString::fromStdString(id.text)),
                    std::move(moved.design), "move");
    return;
  }
  // The point under the hand snaps.
  const edit::Snap snap = view().snap(pointer, std::nullopt, selection);
  snap_says_ = snapWords(snap);
  snap_at_m_ = snap.at_m;
  const QString what = selection.size() == 1
                           ? QString::fromStdString(selection.front().id)
                           : QObject::tr("%n things", nullptr, static_cast<int>(selection.size()));
  workspace.apply(QObject::tr("Move %1").arg(what),
                  edit::moved(*before_, selection, snap.at_m - from_.at_m), "move");
}

void PointerTool::release(const Pointer&) {
  Workspace& workspace = view().workspace();
  const Doing done = doing_;
  doing_ = Doing::nothing;
  snap_says_.clear();
  before_.reset();
  if (done == Doing::move && !moved_ && clicked_) workspace.select({*clicked_});
  if (done == Doing::box && moved_) {
    Box2 box;
    box.add(from_.at_m);
    box.add(box_to_m_);
    edit::Selection next = box_from_;
    std::vector<edit::ObjectRef> inside =
        edit::objectsIn(workspace.design(), workspace.storey(), box);
    dropHidden(inside);
    for (const edit::ObjectRef& ref : inside)
      if (!holds(next, ref)) next.push_back(ref);
    workspace.select(std::move(next));
  }
  workspace.setDragging(false);
  view().refreshLive();
}

bool PointerTool::cancel() {
  if (doing_ == Doing::nothing) return false;
  Workspace& workspace = view().workspace();
  if (moved_ && doing_ != Doing::box && before_)
    workspace.apply(QObject::tr("Move"), *before_, doing_ == Doing::handle ? "reshape" : "move");
  doing_ = Doing::nothing;
  snap_says_.clear();
  workspace.setDragging(false);
  view().refreshLive();
  return true;
}

// Arrows with Shift move by the grid (a centimetre without one, ten with Control); brackets turn
// the selected imager.
bool PointerTool::key(const QKeyEvent& event) {
  Workspace& workspace = view().workspace();
  const edit::Selection& selection = workspace.selection();
  if (selection.empty()) return false;
  const bool far = event.modifiers().testFlag(Qt::ControlModifier);
  const design::Housing* housing = workspace.selectedHousing();
  const int slot = workspace.selectedSlot();
  try {
    if (housing && slot > 0 &&
        (event.key() == Qt::Key_BracketLeft || event.key() == Qt::Key_BracketRight)) {
      const edit::ImagerRef imager{housing->id, slot, workspace.selectedAim()};
      const auto parts = edit::partsOf(workspace.design(), imager);
      if (!parts) return true;
      const double by_deg = (event.key() == Qt::Key_BracketLeft ? -1 : 1) * (far ? 10 : 1);
      edit::Aimed aimed =
          edit::withPan(workspace.design(), imager, parts->aim->pan_deg + by_deg);
      if (aimed.at_stop) workspace.tell(QString::fromStdString(aimed.stop));
      workspace.apply(QObject::tr("Turn %1").arg(QString::fromStdString(edit::nameOf(imager))),
                      std::move(aimed.design), "turn by keys " + edit::nameOf(imager));
      return true;
    }
    if (!event.modifiers().testFlag(Qt::ShiftModifier)) return false;
    const double step_m = (view().gridM() > 0 ? view().gridM() : 0.01) * (far ? 10 : 1);
    Vec2 by;
    switch (event.key()) {
      case Qt::Key_Left: by = {-step_m, 0}; break;
      case Qt::Key_Right: by = {step_m, 0}; break;
      case Qt::Key_Up: by = {0, step_m}; break;
      case Qt::Key_Down: by = {0, -step_m}; break;
      default: return false;
    }
    if (stepped_ && at_hand_ && at_hand_->kind != edit::HandleKind::edge) {
      const edit::Handle handle = *at_hand_;
      workspace.apply(
          QObject::tr("Reshape %1").arg(QString::fromStdString(selection.front().id)),
          edit::withHandleAt(workspace.design(), selection.front(), handle, handle.at_m + by),
          "reshape by keys");
      at_hand_->at_m = handle.at_m + by;
      return true;
    }
    workspace.apply(QObject::tr("Move %n things", nullptr, static_cast<int>(selection.size())),
                    edit::moved(workspace.design(), selection, by), "move by keys");
  } catch (const InputError& error) {
    workspace.complain(sentenceOf(error));
  }
  return true;
}

void PointerTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                        const drawing::Inks& inks) {
  const Workspace& workspace = view().workspace();
  const double mm = view().mmPerPx();
  for (const edit::ObjectRef& ref : workspace.selection()) {
    if (ref.kind == edit::ObjectKind::housing) continue;  // its dial shows it
    // Of a cable only what runs here.
    const edit::Trace trace =
        edit::traceOf(workspace.design(), ref,
                      ref.kind == edit::ObjectKind::link ? workspace.storey() : design::StoreyId{});
    for (const Ring& ring : trace.rings) canvas.path(to_paper(ring), true, {inks.accent, 0.3});
    for (const std::vector<Vec2>& path : trace.lines)
      canvas.path(to_paper(path), false, {inks.accent, 0.3});
    const std::vector<edit::Handle> handles =
        edit::handlesOn(workspace.design(), ref, workspace.storey());
    for (const edit::Handle& handle : handles) {
      const Vec2 at = to_paper(handle.at_m);
      if (at_hand_ == handle) canvas.ring(at, 7 * mm, {inks.accent, 0.35});
      if (handle.kind == edit::HandleKind::edge) {
        canvas.ring(at, 2.5 * mm, {inks.accent, 0.25});
      } else {
        canvas.fillBox({at - Vec2{3 * mm, 3 * mm}, at + Vec2{3 * mm, 3 * mm}}, inks.accent);
      }
    }
  }
  if (doing_ == Doing::box && moved_) {
    Box2 box;
    box.add(to_paper(from_.at_m));
    box.add(to_paper(box_to_m_));
    canvas.box(box, {inks.accent, 0.25, drawing::Dash::dashed});
  }
  if (doing_ != Doing::nothing && !snap_says_.isEmpty()) {
    const Vec2 at = doing_ == Doing::knob ? to_paper(from_.at_m) : to_paper(snap_at_m_);
    canvas.text(at + Vec2{4, -3}, snap_says_.toStdString(), {inks.accent, 9});
  }
}

}  // namespace belvedere::desk
