// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/routes_overlay.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/problem.h"
#include "desk/shown_units.h"
#include "desk/way_tool.h"
#include "edit/find.h"
#include "edit/plan_objects.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

constexpr double kDeviceMm = 1.3;  // half of a device's mark
constexpr double kRingMm = 4;      // round a camera of the marked row
constexpr double kGripPx = 9, kClickPx = 3;
constexpr double kCrossMm = 2.2;   // half of the cross over a camera that is cut off

bool isOn(const design::Storey& storey, const design::Housing& housing) {
  return housing.storey.empty() ? edit::showsCableAt(storey, housing.mount.fixing_m.z)
                                : housing.storey == storey.id;
}

}  // namespace

RoutesOverlay::RoutesOverlay(SheetView& sheet) : sheet_(sheet) {
  sheet_.addOverlay(this, Level::folded);
}

void RoutesOverlay::setShown(bool shown) {
  shown_ = shown;
  sheet_.setShowsCables(shown);
  sheet_.refreshLive();
}
void RoutesOverlay::take(std::shared_ptr<const ServicesAnswer> answer) {
  answer_ = std::move(answer);
  sheet_.refreshLive();
}
void RoutesOverlay::mark(std::vector<std::string> ids, std::vector<std::string> dark) {
  marked_ = std::move(ids);
  dark_ = std::move(dark);
  sheet_.refreshLive();
}

void RoutesOverlay::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                          const drawing::Inks& inks) {
  const design::Storey* storey = sheet_.workspace().shownStorey();
  if (!shown_ || !answer_ || !storey) return;
  const auto here = [storey](const Vec3& p) { return edit::showsCableAt(*storey, p.z); };
  const auto isMarked = [&](const services::Cable& cable) {
    return std::find(marked_.begin(), marked_.end(), cable.link.text) != marked_.end();
  };
  for (const bool accent : {false, true})
    for (const services::Cable& cable : answer_->sizes.network.cables) {
      if (!cable.way || isMarked(cable) != accent) continue;
      const std::vector<Vec3>& path = cable.way->path;
      const drawing::Stroke stroke = accent ? drawing::Stroke{inks.accent, 0.4}
                                            : drawing::Stroke{inks.quiet, 0.22};
      std::optional<Vec2> middle;
      double longest = 0;
      for (std::size_t i = 1; i < path.size(); ++i) {
        if (!here(path[i - 1]) || !here(path[i])) continue;
        const Vec2 a = to_paper(path[i - 1].xy()), b = to_paper(path[i].xy());
        canvas.line(a, b, stroke);
        if (norm(b - a) > longest) {
          longest = norm(b - a);
          middle = (a + b) * 0.5;
        }
      }
      if (!accent || !middle) continue;
      const std::string words =
          cable.link.text + "  " + edit::lengthText(std::round(cable.length_m * 10) / 10, shownUnits());
      const drawing::Lettering lettering{inks.accent, 9, true, drawing::Align::middle};
      const double half = 0.5 * canvas.width(words, lettering) + 0.8;
      middle->x = std::clamp(middle->x, half + 1,  // a way may run along the sheet's edge
                             std::max(half + 1, sheet_.width() * sheet_.mmPerPx() - half - 1));
      canvas.fillBox({*middle - Vec2{half, 4.2}, *middle + Vec2{half, -0.4}}, inks.paper, 0.85);
      canvas.text(*middle - Vec2{0, 1.3}, words, lettering);
    }
  const design::Design& design = *answer_->design;
  for (const design::Housing& housing : sheet_.workspace().design().housings) {
    const bool marked = std::any_of(marked_.begin(), marked_.end(), [&](const std::string& id) {
      return id.substr(0, id.rfind('.')) == housing.id.text || id == housing.id.text;
    });
    if (marked && isOn(*storey, housing))
      canvas.ring(to_paper(housing.mount.fixing_m.xy()), kRingMm, {inks.accent, 0.45});
  }
  std::vector<Vec2> named;  // devices that hang together: names side by side
  for (const design::Device& device : design.services.devices) {
    if (!device.at_m || !here(*device.at_m)) continue;
    const bool accent = std::find(marked_.begin(), marked_.end(), device.id.text) != marked_.end();
    const Vec2 at = to_paper(device.at_m->xy());
    const drawing::Rgb ink = accent ? inks.accent : inks.ink;
    canvas.fillBox({at - Vec2{kDeviceMm, kDeviceMm}, at + Vec2{kDeviceMm, kDeviceMm}}, inks.paper);
    canvas.box({at - Vec2{kDeviceMm, kDeviceMm}, at + Vec2{kDeviceMm, kDeviceMm}}, {ink, 0.3});
    const auto near = [&](Vec2 other) { return norm(other - at) < 4 * kDeviceMm; };
    const bool left = std::any_of(named.begin(), named.end(), near);
    const drawing::Lettering lettering{ink, 9, false,
                                       left ? drawing::Align::right : drawing::Align::left};
    canvas.text(at + Vec2{(left ? -1 : 1) * (kDeviceMm + 0.7), -kDeviceMm - 0.6}, device.id.text,
                lettering);
    named.push_back(at);
  }
  paintFound(canvas, to_paper, inks);
  paintDark(canvas, to_paper, inks, *storey);
}

// ---- the found way of the selected cable --------------------------------------------------------

const std::optional<design::Design>& RoutesOverlay::withFoundWay() const {
  const Workspace& workspace = sheet_.workspace();
  const design::AnyId link = shown_ && answer_ ? selectedCable(workspace) : design::AnyId{};
  const quint64 answered = answer_ ? answer_->version : 0;
  if (found_.link == link.text && found_.version == workspace.version() &&
      found_.answered == answered)
    return found_.with;
  found_ = {link.text, workspace.version(), answered, std::nullopt};
  const design::Link* cable = edit::withId(workspace.design().services.links, link.text);
  if (!cable || !cable->path.empty() || answered != workspace.version()) return found_.with;
  for (const services::Cable& sized : answer_->sizes.network.cables)
    if (sized.link == link && sized.way)
      found_.with = edit::withWay(workspace.design(), link, services::bendsOf(*sized.way));
  return found_.with;
}

std::optional<RoutesOverlay::Hold> RoutesOverlay::holdAt(const Pointer& pointer) const {
  const std::optional<design::Design>& with = withFoundWay();
  if (!with) return std::nullopt;
  const edit::ObjectRef ref = sheet_.workspace().selection().front();
  for (const edit::Handle& handle : edit::handlesOn(*with, ref, sheet_.workspace().storey()))
    if (norm(sheet_.pxAt(handle.at_m) - pointer.at_px) <= kGripPx) return Hold{ref, handle};
  return std::nullopt;
}

bool RoutesOverlay::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton) return false;
  hold_ = holdAt(pointer);
  if (hold_) before_ = *withFoundWay();
  from_ = pointer;
  moved_ = false;
  return hold_.has_value();
}

void RoutesOverlay::move(const Pointer& pointer) {
  if (!hold_ || (!moved_ && norm(pointer.at_px - from_.at_px) < kClickPx)) return;
  Workspace& workspace = sheet_.workspace();
  if (!moved_) workspace.setDragging(true);
  moved_ = true;
  const edit::Snap snap = sheet_.snap(pointer, std::nullopt, {hold_->ref});
  try {
    workspace.apply(QObject::tr("Bend the way of %1").arg(QString::fromStdString(hold_->ref.id)),
                    edit::withHandleAt(before_, hold_->ref, hold_->handle, snap.at_m),
                    "bend " + hold_->ref.id);
  } catch (const InputError&) {
    sheet_.refreshLive();  // the last design that could be stays
  }
}

void RoutesOverlay::release(const Pointer&) {
  hold_.reset();
  if (moved_) sheet_.workspace().setDragging(false);
  sheet_.refreshLive();
}

std::optional<Qt::CursorShape> RoutesOverlay::cursorAt(const Pointer& pointer) {
  if (!holdAt(pointer)) return std::nullopt;
  return Qt::PointingHandCursor;
}

void RoutesOverlay::paintFound(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                               const drawing::Inks& inks) const {
  const std::optional<design::Design>& with = withFoundWay();
  if (!with) return;
  const Workspace& workspace = sheet_.workspace();
  for (const edit::Handle& handle :
       edit::handlesOn(*with, workspace.selection().front(), workspace.storey())) {
    const Vec2 at = to_paper(handle.at_m);
    const double radius_mm = handle.kind == edit::HandleKind::edge ? 0.6 : 0.9;
    canvas.disc(at, radius_mm, inks.paper);
    canvas.ring(at, radius_mm, {inks.accent, 0.25});
  }
}

// A cross over each camera, and which of its imagers where it is not all of them.
void RoutesOverlay::paintDark(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                              const drawing::Inks& inks, const design::Storey& storey) const {
  if (dark_.empty()) return;
  const std::set<std::string> dark(dark_.begin(), dark_.end());
  for (const design::Housing& housing : sheet_.workspace().design().housings) {
    if (!isOn(storey, housing)) continue;
    std::string slots;
    std::size_t out = 0;
    for (const design::HousingImager& imager : housing.imagers)
      if (const std::string slot = std::to_string(imager.slot);
          dark.contains(housing.id.text + "." + slot)) {
        slots += (slots.empty() ? "" : ", ") + slot;
        ++out;
      }
    if (out == 0) continue;
    const Vec2 at = to_paper(housing.mount.fixing_m.xy());
    for (const drawing::Stroke& stroke :
         {drawing::Stroke{inks.paper, 1.1}, drawing::Stroke{inks.accent, 0.45}}) {
      canvas.line(at - Vec2{kCrossMm, kCrossMm}, at + Vec2{kCrossMm, kCrossMm}, stroke);
      canvas.line(at - Vec2{kCrossMm, -kCrossMm}, at + Vec2{kCrossMm, -kCrossMm}, stroke);
    }
    if (out == housing.imagers.size()) continue;
    canvas.text(at + Vec2{kCrossMm + 0.7, kCrossMm + 1}, housing.id.text + "." + slots,
                {inks.accent, 9, true, drawing::Align::left});
  }
}

}  // namespace belvedere::desk
