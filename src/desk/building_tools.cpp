// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/building_tools.h"

#include <algorithm>

#include "base/problem.h"
#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "design/words.h"
#include "edit/find.h"
#include "edit/measure.h"
#include "edit/trace.h"

namespace belvedere::desk {
namespace {

constexpr double kWallReachPx = 30;

const design::StoreyId& storeyOf(const SheetView& view) {
  const design::StoreyId& storey = view.workspace().storey();
  if (storey.empty())
    refuse(QObject::tr("there is no storey yet: draw a building's outline first"));
  return storey;
}

void applyAdded(SheetView& view, const QString& name, edit::Added added) {
  view.workspace().apply(name, std::move(added.design));
  if (added.ref.kind == edit::ObjectKind::storey)
    view.workspace().setStorey(design::StoreyId{added.ref.id});
  view.workspace().select({added.ref});
}

edit::Added wall(const SheetView& view, const std::vector<Vec2>& points) {
  return edit::withWall(view.workspace().design(), storeyOf(view), points,
                        drawValues().wall_thickness_m, std::nullopt);
}

edit::Added building(const SheetView& view, const std::vector<Vec2>& points) {
  return edit::withBuilding(view.workspace().design(), points, 0, drawValues().storey_height_m);
}

edit::Added solid(const SheetView& view, const std::vector<Vec2>& points) {
  const DrawValues& values = drawValues();
  return edit::withSolid(view.workspace().design(), view.workspace().storey(), values.solid, points,
                         values.solid_base_m, values.solid_top_m);
}

QString solidWord(design::SolidKind kind) {
  switch (kind) {
    case design::SolidKind::stock: return QObject::tr("stock, shelves");
    case design::SolidKind::column: return QObject::tr("column");
    case design::SolidKind::counter: return QObject::tr("counter");
    case design::SolidKind::furniture: return QObject::tr("furniture");
    case design::SolidKind::ramp: return QObject::tr("ramp");
    case design::SolidKind::stair: return QObject::tr("stair");
    case design::SolidKind::beam: return QObject::tr("beam");
    case design::SolidKind::canopy: return QObject::tr("canopy");
    case design::SolidKind::vehicle: return QObject::tr("vehicle");
    case design::SolidKind::foliage: return QObject::tr("foliage");
    case design::SolidKind::sign: return QObject::tr("sign");
    case design::SolidKind::mesh:
    case design::SolidKind::other: break;
  }
  return QObject::tr("other");
}

}  // namespace

// ---- walls --------------------------------------------------------------------------------------

QString WallTool::firstHint() const {
  return QObject::tr("Wall: click where its centre line begins, or type 4.5;3. Shift keeps right "
                     "angles.");
}

std::vector<ToolField> WallTool::fields() {
  return {lengthField("wall_thickness", QObject::tr("thickness"), drawValues().wall_thickness_m)};
}

void WallTool::finish(const std::vector<Vec2>& points) {
  applyAdded(view(), QObject::tr("Draw a wall"), wall(view(), points));
}
void WallTool::rehearse(const std::vector<Vec2>& points) { wall(view(), points); }

void WallTool::paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                         const drawing::Inks& inks) {
  const std::vector<Vec2> path = withPointer();
  if (points().empty() || path.size() < 2) return;
  for (const std::vector<Vec2>& face : edit::facesOf(path, drawValues().wall_thickness_m))
    canvas.path(to_paper(face), false, {inks.accent, 0.18});
}

// ---- a building ---------------------------------------------------------------------------------

QString BuildingTool::firstHint() const {
  return QObject::tr("Building: click the corners of its floor, or drag a rectangle.");
}

std::vector<ToolField> BuildingTool::fields() {
  return {lengthField("storey_height", QObject::tr("height of the storey"),
                      drawValues().storey_height_m)};
}

void BuildingTool::finish(const std::vector<Vec2>& points) {
  applyAdded(view(), QObject::tr("Draw a building"), building(view(), points));
}
void BuildingTool::rehearse(const std::vector<Vec2>& points) { building(view(), points); }

// ---- columns and obstacles ----------------------------------------------------------------------

QString SolidTool::firstHint() const {
  return QObject::tr("Obstacle: click its corners, or drag a rectangle.");
}

std::vector<ToolField> SolidTool::fields() {
  DrawValues& values = drawValues();
  ToolField kind{"solid_kind", QObject::tr("what"),
                 [&values] { return QString::number(static_cast<int>(values.solid)); },
                 [&values](const QString& value) {
                   values.solid = static_cast<design::SolidKind>(value.toInt());
                 },
                 {}};
  for (std::size_t i = 0; i < design::Words<design::SolidKind>::list.size(); ++i)
    if (const auto each = static_cast<design::SolidKind>(i); each != design::SolidKind::mesh)
      kind.choices.emplace_back(QString::number(i), solidWord(each));
  return {kind, lengthField("solid_base", QObject::tr("from"), values.solid_base_m, true),
          lengthField("solid_top", QObject::tr("to"), values.solid_top_m)};
}

void SolidTool::finish(const std::vector<Vec2>& points) {
  applyAdded(view(), QObject::tr("Draw an obstacle"), solid(view(), points));
}
void SolidTool::rehearse(const std::vector<Vec2>& points) { solid(view(), points); }

// ---- openings -----------------------------------------------------------------------------------

namespace {

OpeningValues& valuesOf(OpeningTool::Kind kind) {
  return kind == OpeningTool::Kind::door ? drawValues().door : drawValues().window;
}

}  // namespace

QString OpeningTool::name() const {
  return kind_ == Kind::door ? QObject::tr("Door") : QObject::tr("Window");
}

QString OpeningTool::hint() const {
  return kind_ == Kind::door
             ? QObject::tr("Door: click where on a wall it goes; type a number for its width.")
             : QObject::tr("Window: click where on a wall it goes; type a number for its width.");
}

std::vector<ToolField> OpeningTool::fields() {
  OpeningValues& values = valuesOf(kind_);
  return {lengthField("opening_width", QObject::tr("width"), values.width_m),
          lengthField("opening_sill", QObject::tr("sill"), values.sill_m, true),
          lengthField("opening_head", QObject::tr("head"), values.head_m)};
}

bool OpeningTool::typed(const QString& text) {
  fields().front().write(text);
  ++stage_;  // the field shows it
  changed();
  return true;
}

std::optional<OpeningTool::Place> OpeningTool::placeAt(Vec2 at) const {
  const design::Design& design = view().workspace().design();
  const design::Storey* storey = view().workspace().shownStorey();
  if (!storey) return std::nullopt;
  std::optional<Place> best;
  double nearest_m = view().metres(kWallReachPx);
  const double width_m = valuesOf(kind_).width_m;
  for (const design::Wall& one : storey->walls) {
    const edit::Trace trace = edit::traceOf(design, {edit::ObjectKind::wall, one.id.text, 0});
    std::vector<std::vector<Vec2>> lines = trace.lines;
    for (std::vector<Vec2> ring : trace.rings) {
      ring.push_back(ring.front());
      lines.push_back(std::move(ring));
    }
    for (std::vector<Vec2>& path : lines) {
      const edit::NearLine near = edit::nearLine(path, at);
      if (near.distance_m > nearest_m) continue;
      nearest_m = near.distance_m;
      // Half to each side of the pointer, as far as the wall goes.
      const double room_m = std::max(0.0, edit::lengthOf(path) - width_m);
      best = Place{one.id, std::move(path),
                   std::clamp(near.from_m - 0.5 * width_m, 0.0, room_m)};
    }
  }
  if (best) best->from_m = edit::tidyLength(best->from_m);
  return best;
}

void OpeningTool::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton || pointer.doubled) return;
  attempt([&] {
    const std::optional<Place> place = placeAt(pointer.at_m);
    if (!place) refuse(QObject::tr("there is no wall here"));
    const OpeningValues& values = valuesOf(kind_);
    edit::NewOpening opening;
    opening.from_m = place->from_m;
    opening.width_m = values.width_m;
    opening.sill_m = values.sill_m;
    opening.head_m = values.head_m;
    if (kind_ == Kind::window)  // glass, where the design has some
      for (const design::Material& material : view().workspace().design().site.materials)
        if (material.light.share > 0 && opening.material.empty()) opening.material = material.id;
    applyAdded(view(), QObject::tr("Put in: %1").arg(name().toLower()),
               edit::withOpening(view().workspace().design(), place->wall, opening));
  });
  changed();
}

void OpeningTool::move(const Pointer& pointer) {
  place_ = placeAt(pointer.at_m);
  view().refreshLive();
}

void OpeningTool::leave() {
  place_.reset();
  view().refreshLive();
}

void OpeningTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                        const drawing::Inks& inks) {
  if (!place_) return;
  const double width_m = valuesOf(kind_).width_m, length_m = edit::lengthOf(place_->path);
  const double to_m = std::min(place_->from_m + width_m, length_m);
  const std::vector<Vec2> part = edit::partOf(place_->path, place_->from_m, to_m);
  canvas.path(to_paper(part), false, {inks.accent, 1.0});
  const double mm = view().mmPerPx();
  const auto says = [&](double from, double till) {
    const edit::OnLine middle = edit::onLine(place_->path, 0.5 * (from + till));
    paintWords(canvas, to_paper(middle.at) + Vec2{10 * mm, -12 * mm},
               edit::lengthText(till - from, shownUnits()), inks);
  };
  says(place_->from_m, to_m);
  // To the corners of its stretch of wall.
  double begins_m = 0, ends_m = 0;
  for (std::size_t i = 0; i + 1 < place_->path.size() && ends_m <= place_->from_m; ++i) {
    begins_m = ends_m;
    ends_m += norm(place_->path[i + 1] - place_->path[i]);
  }
  if (place_->from_m - begins_m > width_m) says(begins_m, place_->from_m);
  if (ends_m - to_m > width_m) says(to_m, ends_m);
}

}  // namespace belvedere::desk
