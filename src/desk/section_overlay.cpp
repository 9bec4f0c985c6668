// SPDX-License-Identifier: GPL-3.0-or-later
//
// Its hands; section_paint.cpp paints.
#include "desk/section_overlay.h"

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "desk/outline_handles.h"
#include "desk/pointer_tool.h"
#include "desk/room_sentences.h"
#include "edit/aim_drag.h"
#include "edit/lengths.h"
#include "edit/mount_drag.h"

namespace belvedere::desk {
namespace {

constexpr double kTakePx = 7, kKnobPx = 9, kClickPx = 3;
constexpr double kPastM = 0.5;       // drawn past the last ray's end
constexpr double kHeadM = 0.5;       // and above the highest of lens and band
constexpr double kBelowM = 0.3;      // and below the floor

double distanceTo(Vec2 a, Vec2 b, Vec2 p) {
  const Vec2 span = b - a;
  const double length2 = dot(span, span);
  const double s = length2 > 0 ? std::clamp(dot(p - a, span) / length2, 0.0, 1.0) : 0;
  return norm(p - a - span * s);
}

double floorAtFoot(const edit::Section& section) {
  for (const edit::SectionLine& line : section.floor)
    if (line.from.x <= 0 && line.to.x >= 0)
      return line.from.y + (line.to.y - line.from.y) *
                               (line.to.x > line.from.x
                                    ? -line.from.x / (line.to.x - line.from.x)
                                    : 0);
  return section.band_low.from.y;
}

}  // namespace

SectionOverlay::SectionOverlay(SheetView& view) : QObject(&view), view_(view) {
  view_.addOverlay(this, Level::folded);
  connect(&view_.evaluator(), &Evaluator::evaluated, this, &SectionOverlay::take);
  connect(&view_.workspace(), &Workspace::selectionChanged, this, &SectionOverlay::take);
}

void SectionOverlay::setShown(bool shown) {
  shown_ = shown;
  view_.refreshWords();
  Q_EMIT changed();
}

void SectionOverlay::flip() {
  side_ = -side_;
  view_.refreshWords();
  Q_EMIT changed();
}

void SectionOverlay::take() {
  const auto& now = view_.evaluator().now();
  const std::string imager = view_.workspace().selectedImager();
  if (view_.workspace().isDragging() && now->look == taken_look_) return;
  taken_look_ = now->look;
  live_.reset();
  if (now->section && now->section->imager == imager &&
      now->storey == view_.workspace().storey())
    live_ = now->section;
  if (live_ && side_for_ != imager) {
    side_for_ = imager;
    chooseSide();
  }
  view_.workspace().isDragging() ? view_.refreshLive() : view_.refreshWords();
  Q_EMIT changed();
}

std::optional<SectionOverlay::Lie> SectionOverlay::lie() const {
  if (!live_) return std::nullopt;
  const edit::Section& section = live_->section;
  const double b = degToRad(section.bearing_deg);
  const Vec2 heading{std::sin(b), std::cos(b)};
  return Lie{section.foot, heading, perpLeft(heading) * side_, floorAtFoot(section)};
}

std::optional<Vec2> SectionOverlay::siteOf(Vec2 along_z) const {
  const auto here = lie();
  if (!here || !shown_) return std::nullopt;
  return here->site(along_z);
}

Box2 SectionOverlay::drawn() const { return live_ ? drawnIn(live_->section) : Box2{}; }

Box2 SectionOverlay::drawnIn(const edit::Section& section) const {
  const double floor_m = floorAtFoot(section);
  double low = floor_m, high = std::max(section.lens_z_m, section.band_high.from.y);
  double from = 0, to = 1;
  const auto add = [&](Vec2 end) {
    from = std::min(from, end.x - kPastM);
    to = std::max(to, end.x + kPastM);
    low = std::min(low, end.y);
  };
  add(section.axis.end);
  if (section.upper) add(section.upper->end);
  if (section.lower) add(section.lower->end);
  if (section.far_m) to = std::max(to, *section.far_m + kPastM);
  if (section.blind_m && section.blind_ends) to = std::max(to, (*section.blind_m)[1] + kPastM);
  return {{std::max(from, section.from_m), low - kBelowM},
          {std::min(to, section.to_m), high + kHeadM}};
}

// The side on which less of what one works at is covered: what is selected counts most.
void SectionOverlay::chooseSide() {
  const Workspace& workspace = view_.workspace();
  const design::Requirement* selected =
      design::findRequirement(workspace.design(), workspace.requirement());
  double best = 1e300, best_side = 1;
  for (const double side : {1.0, -1.0}) {
    side_ = side;
    const Ring ring = coveredPx();
    if (ring.size() < 4) return;
    double covered = 0;
    for (int i = 0; i < 20; ++i)
      for (int k = 0; k < 8; ++k) {
        const Vec2 px = ring[0] + (ring[1] - ring[0]) * ((i + 0.5) / 20) +
                        (ring[3] - ring[0]) * ((k + 0.5) / 8);
        const Vec2 p = view_.siteAt(px);
        if (px.x < 0 || px.y < 0 || px.x > view_.width() ||
            px.y > view_.height() - view_.furniture().roomPx())
          covered += 3;
        for (const design::Zone& zone : workspace.design().site.zones)
          if (zone.storey == workspace.storey() && belvedere::contains(zone.outline, p))
            covered += selected && selected->zone == zone.id ? 6 : 1;
        for (const drawing::ImagerOutline& outline : view_.sheet().outlines)
          if (belvedere::contains(outline.served, p)) covered += 1;
        for (const drawing::Dial& dial : view_.dials())
          if (norm(dial.at / view_.mmPerPx() - px) * view_.mmPerPx() < dial.radius_mm + 4)
            covered += 4;
      }
    if (covered < best) {
      best = covered;
      best_side = side;
    }
  }
  side_ = best_side;
}

// ---- hands --------------------------------------------------------------------------------------

std::optional<SectionOverlay::Part> SectionOverlay::partAt(const Pointer& pointer) const {
  const auto here = lie();
  if (!here || !shown_) return std::nullopt;
  const edit::Section& section = live_->section;
  const Vec2 p = here->section(pointer.at_m);
  const Box2 box = drawnIn(section);
  const double take_m = view_.metres(kTakePx);
  if (p.x < box.low.x - take_m || p.x > box.high.x + take_m || p.y < box.low.y ||
      p.y > box.high.y + take_m)
    return std::nullopt;
  // A dial's knobs turn: they lie on the axis, and come before what runs along it.
  for (const drawing::Dial& dial : view_.dials())
    for (const drawing::Knob& knob : drawing::knobsOf(dial))
      if (norm(knob.at / view_.mmPerPx() - pointer.at_px) <= kKnobPx) return std::nullopt;
  const Vec2 lens{0, section.lens_z_m};
  if (norm(p - lens) <= 1.3 * take_m) return Part::lens;
  std::optional<Part> part;
  double least = take_m;
  const auto consider = [&](const edit::SectionRay& ray, Part which) {
    const double away = distanceTo(lens, ray.end, p);
    if (away < least) {
      least = away;
      part = which;
    }
  };
  if (section.upper) consider(*section.upper, Part::upper);
  if (section.lower) consider(*section.lower, Part::lower);
  consider(section.axis, Part::axis);
  if (part) return part;
  // The dial at the foot and the plan below the floor line keep their own hands.
  for (const drawing::Dial& dial : view_.dials())
    if (norm(dial.at / view_.mmPerPx() - pointer.at_px) * view_.mmPerPx() <= dial.radius_mm + 0.5)
      return std::nullopt;
  if (p.x < box.low.x || p.x > box.high.x || p.y < here->floor_m || p.y > box.high.y)
    return std::nullopt;
  return Part::paper;
}

bool SectionOverlay::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton || !dynamic_cast<PointerTool*>(&view_.tool())) return false;
  part_ = partAt(pointer);
  if (!part_) return false;
  before_ = view_.workspace().shareDesign();
  was_ = live_;
  lie_then_ = *lie();
  from_ = now_ = pointer;
  moved_ = false;
  return true;
}

void SectionOverlay::move(const Pointer& pointer) {
  if (!part_ || *part_ == Part::paper) return;
  now_ = pointer;
  if (!moved_ && norm(pointer.at_px - from_.at_px) < kClickPx) return;
  if (!moved_) view_.workspace().setDragging(true);
  moved_ = true;
  try {
    drag(pointer);
  } catch (const InputError& error) {
    says_ = QString::fromStdString(error.problems().front().what);
  }
  view_.refreshLive();
}

void SectionOverlay::drag(const Pointer& pointer) {
  const auto imager = selectedRef(view_.workspace());
  if (!imager) return;
  const edit::Section& section = was_->section;
  const Vec2 from = lie_then_.section(from_.at_m), to = lie_then_.section(pointer.at_m);
  const Vec2 lens{0, section.lens_z_m};
  // The point of the ray that the hand took, moved as the hand has moved.
  const auto onRay = [&](const edit::SectionRay& ray) {
    const Vec2 way = ray.end - lens;
    const double s =
        std::clamp(dot(from - lens, way) / std::max(dot(way, way), 1e-12), 0.02, 1.0);
    return lens + way * s;
  };
  edit::Aimed aimed;
  QString what;
  if (*part_ == Part::lens) {
    const double height_m =
        edit::lensHeight(*before_, imager->housing) + (to.y - from.y);
    aimed = edit::withLensHeight(*before_, imager->housing, std::round(height_m * 100) / 100);
    what = QObject::tr("Height of %1").arg(QString::fromStdString(imager->housing.text));
    says_ = QObject::tr("lens %1").arg(QString::fromStdString(edit::lengthText(
        edit::lensHeight(aimed.design, imager->housing), edit::Units::metric)));
  } else {
    const bool axis = *part_ == Part::axis, upper = *part_ == Part::upper;
    const Vec2 held = onRay(axis ? section.axis : upper ? *section.upper : *section.lower);
    const Vec3 point = edit::siteOf(section, held + (to - from));
    aimed = axis ? edit::bodyFollows(*before_, *imager, edit::siteOf(section, held), point)
                 : edit::edgeThrough(*before_, *imager,
                                     upper ? edit::Edge::far : edit::Edge::near,
                                     edit::EdgeBy::tilt, point);
    what = QObject::tr("Tilt %1").arg(QString::fromStdString(edit::nameOf(*imager)));
    if (const auto parts = edit::partsOf(aimed.design, *imager))
      says_ = QObject::tr("tilt %1").arg(
          QString::fromStdString(edit::angleText(parts->aim->tilt_deg)));
  }
  if (aimed.at_stop) says_ += QStringLiteral("\n") + roomSentence(aimed.stop);
  view_.workspace().apply(what, std::move(aimed.design), "section " + edit::nameOf(*imager));
}

void SectionOverlay::release(const Pointer&) {
  part_.reset();
  before_.reset();
  was_.reset();
  says_.clear();
  if (moved_) view_.workspace().setDragging(false);
  moved_ = false;
  view_.refreshLive();
}

std::optional<Qt::CursorShape> SectionOverlay::cursorAt(const Pointer& pointer) {
  if (!dynamic_cast<PointerTool*>(&view_.tool())) return std::nullopt;
  const auto part = partAt(pointer);
  if (!part) return std::nullopt;
  return *part == Part::paper ? Qt::ArrowCursor : Qt::PointingHandCursor;
}

}  // namespace belvedere::desk
