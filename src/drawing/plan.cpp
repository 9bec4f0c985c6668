// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "design/task_table.h"
#include "drawing/plan_words.h"

namespace belvedere::drawing {
namespace {

constexpr double kLabelMm = 43;      // widest label in the plan
constexpr double kNamedFromMm = 7;   // in a window: a zone smaller than that shows no name

struct ZoneOnPaper {
  const design::Zone* zone = nullptr;
  const ZoneMap* map = nullptr;
  const design::Requirement* requirement = nullptr;
  Region paper;
};

const design::Requirement* requirementOf(const Sheet& sheet, const design::Zone& zone,
                                         const ZoneMap* map) {
  if (map) return design::findRequirement(sheet.design, map->spots.requirement);
  if (const auto* selected = design::findRequirement(sheet.design, sheet.selected_requirement);
      selected && selected->zone == zone.id)
    return selected;
  for (const design::Requirement& requirement : sheet.design->brief)
    if (requirement.zone == zone.id) return &requirement;
  return nullptr;
}

std::vector<ZoneOnPaper> zonesOf(const Sheet& sheet, const ToPaper& to_paper) {
  std::vector<ZoneOnPaper> zones;
  const design::Situation situation = situationOf(sheet);
  for (const design::Zone& zone : sheet.design->site.zones) {
    if (zone.storey != sheet.storey || !standsIn(sheet.design, zone.id.text, situation)) continue;
    const ZoneMap* map = mapOf(sheet, zone.id);
    Polygon polygon{anticlockwise(zone.outline), {}};
    for (const Ring& hole : zone.holes) polygon.holes.push_back(reversed(anticlockwise(hole)));
    zones.push_back({&zone, map, requirementOf(sheet, zone, map), to_paper(Region{polygon})});
  }
  // Large ones first: a small zone lies on the one around it.
  std::stable_sort(zones.begin(), zones.end(), [](const ZoneOnPaper& a, const ZoneOnPaper& b) {
    return std::abs(area(a.paper)) > std::abs(area(b.paper));
  });
  return zones;
}

bool selected(const Sheet& sheet, const design::Requirement* requirement) {
  return requirement && !sheet.selected_requirement.empty() &&
         requirement->id == sheet.selected_requirement;
}

struct PlacedWords {
  Box2 box;
  Words words;
  Vec2 points_at;  // where a thread leads to when the words lie apart from it
};
void paintWords(Canvas& canvas, const Inks& inks, const PlacedWords& label) {
  const Vec2 from = nearestIn(label.box, label.points_at);
  if (norm(from - label.points_at) > kApartMm)
    canvas.line(from, label.points_at, {label.words.colour, 0.15});
  write(canvas, inks, label.box, label.words);
}

PlacedWords zoneLabel(const Canvas& canvas, const Sheet& sheet, const Box2& plan,
                      const ZoneOnPaper& zone, const std::vector<ZoneOnPaper>& zones, Taken& taken) {
  const std::string title = zone.zone->title.empty() ? zone.zone->id.text : zone.zone->title;
  const Rgb ink = selected(sheet, zone.requirement) ? sheet.inks.accent : sheet.inks.ink;
  Words words{{}, ink, 0};
  const std::string head =
      zone.requirement ? zone.requirement->id.text + "  " + title : title;
  words.lines = canvas.wrapped(head, {ink, 9, true}, kLabelMm, 2);
  words.bold = words.lines.size();
  if (zone.requirement)
    words.lines.push_back(
        canvas.fitted(asksFor(sheet.design, *zone.requirement, sheet.unit), {ink, 9}, kLabelMm));
  const Vec2 size = sizeOf(canvas, words);
  Box2 box = bounds(zone.paper);  // as far as it shows
  box = {nearestIn(plan, box.low), nearestIn(plan, box.high)};
  const Vec2 middle = (box.low + box.high) * 0.5;
  const double in = 1;
  std::vector<Vec2> lows{{box.low.x + in, box.low.y + in},
                         {box.high.x - in - size.x, box.low.y + in},
                         {box.low.x + in, box.high.y - in - size.y},
                         {box.high.x - in - size.x, box.high.y - in - size.y},
                         {middle.x - 0.5 * size.x, box.low.y + in},
                         {middle.x - 0.5 * size.x, box.high.y - in - size.y}};
  for (const double off : {1.0, 4.0, 8.0, 14.0, 22.0, 34.0, 50.0}) {
    for (const double x : {box.low.x, middle.x - 0.5 * size.x, box.high.x - size.x}) {
      lows.push_back({x, box.low.y - off - size.y});
      lows.push_back({x, box.high.y + off});
    }
    for (const double y : {middle.y - 0.5 * size.y, box.low.y, box.high.y - size.y}) {
      lows.push_back({box.high.x + off, y});
      lows.push_back({box.low.x - off - size.x, y});
    }
  }
  for (const double share : {0.25, 0.5, 0.75})
    lows.push_back({box.low.x + in, box.low.y + share * (box.high.y - box.low.y)});
  std::vector<Box2> others;  // small zones, on which no other's name lies
  for (const ZoneOnPaper& other : zones)
    if (other.zone != zone.zone && std::abs(area(other.paper)) < kSmallZoneMm2)
      others.push_back(bounds(other.paper));
  double order = 0;
  const Box2 place = choose(lows, size, plan, taken, [&](const Box2& at) {
    order += 0.1;
    double over = 0;
    for (const Box2& other : others) over += overlapOf(at, other);
    // Inside is best where there is room; over a small zone the label would hide what it names.
    const bool roomy = size.x * size.y < 0.3 * std::abs(area(zone.paper));
    const bool inside = holds(zone.paper, at);
    return order + 2 * over + (roomy ? (inside ? 0 : 20) : (at.low.x < box.high.x && at.high.x > box.low.x &&
                                                 at.low.y < box.high.y && at.high.y > box.low.y
                                                     ? 30
                                                     : 0));
  });
  taken.add(place);
  return {place, words, nearestIn(box, (place.low + place.high) * 0.5)};
}

}  // namespace

namespace {

bool overlaps(const Box2& a, const Box2& b) {
  return a.low.x <= b.high.x && a.high.x >= b.low.x && a.low.y <= b.high.y && a.high.y >= b.low.y;
}

// The part of a line that lies in a box, as shares of its length; nothing where none does.
std::optional<std::array<double, 2>> shownPart(Vec2 a, Vec2 b, const Box2& box) {
  double from = 0, to = 1;
  const auto cut = [&](double at, double way, double low, double high) {
    if (way == 0) {
      if (at < low || at > high) to = -1;
      return;
    }
    const double s = (low - at) / way, t = (high - at) / way;
    from = std::max(from, std::min(s, t));
    to = std::min(to, std::max(s, t));
  };
  cut(a.x, b.x - a.x, box.low.x, box.high.x);
  cut(a.y, b.y - a.y, box.low.y, box.high.y);
  if (from > to) return std::nullopt;
  return std::array{from, to};
}

// Of a close-up, leaves out what lies beside the plan.
void keepShown(const Layout& layout, PlanShapes& shapes, std::vector<ZoneOnPaper>& zones,
               std::vector<Dial>& dials) {
  const Box2& plan = layout.plan;
  const auto beside = [&](const Box2& box) {
    return box.empty() || box.high.x < plan.low.x || box.low.x > plan.high.x ||
           box.high.y < plan.low.y || box.low.y > plan.high.y;
  };
  const auto areaBeside = [&](const PlanShape& shape) {
    return beside(bounds(layout.to_paper(shape.area)));
  };
  const auto lineBeside = [&](const auto& line) {
    Box2 box;
    box.add(layout.to_paper(line.from));
    box.add(layout.to_paper(line.to));
    return beside(box);
  };
  std::erase_if(shapes.walls, areaBeside);
  std::erase_if(shapes.solids, areaBeside);
  std::erase_if(shapes.openings, lineBeside);
  std::erase_if(shapes.rises, lineBeside);
  std::erase_if(zones, [&](const ZoneOnPaper& zone) { return beside(bounds(zone.paper)); });
  std::erase_if(dials, [&](const Dial& dial) { return beside({dial.at, dial.at}); });
}

}  // namespace

void keepClear(const Sheet& sheet, const Layout& layout, const PlanShapes& shapes,
               const std::vector<Dial>& dials, Taken& taken) {
  const ToPaper& to_paper = layout.to_paper;
  // What lies beyond the plan is cut off: worse than lying on something, so it counts several times.
  constexpr double kBeyondMm = 200;
  constexpr int kWorse = 4;
  const Vec2 low = layout.plan.low, high = layout.plan.high, beyond{kBeyondMm, kBeyondMm};
  for (int i = 0; i < kWorse; ++i) {
    taken.add({low - beyond, {low.x, high.y + kBeyondMm}});
    taken.add({{high.x, low.y - kBeyondMm}, high + beyond});
    taken.add({{low.x, low.y - kBeyondMm}, {high.x, low.y}});
    taken.add({{low.x, high.y}, {high.x, high.y + kBeyondMm}});
  }
  // Words keep off the walls' faces: little boxes along them, as far as they show.
  constexpr double kStepMm = 2;
  for (const PlanShape& wall : shapes.walls)
    for (const Polygon& polygon : to_paper(wall.area))
      for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
        const Vec2 a = polygon.outer[i], b = polygon.outer[(i + 1) % polygon.outer.size()];
        const auto part = shownPart(a, b, layout.plan);
        if (!part) continue;
        const double length = norm(b - a);
        for (double at = (*part)[0] * length; at <= (*part)[1] * length; at += kStepMm) {
          const Vec2 p = length > 0 ? a + (b - a) * (at / length) : a;
          taken.add(grownBox({p, p}, 0.4));
        }
      }
  for (const PlanShape& solid : shapes.solids)
    if (const Box2 box = bounds(to_paper(solid.area));
        solid.look == Look::cut && overlaps(box, layout.plan))
      taken.add(box);
  for (const proof::RequirementProof* row : worstOf(sheet, layout)) {
    const Vec2 at = to_paper(worstAt(*row));
    taken.add(grownBox({at, at}, 1.6));
  }
  for (const Dial& dial : dials)
    taken.add(grownBox({dial.at, dial.at}, dialReachMm(sheet, dial) + 0.6));
}

void paintZoneOutlines(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper) {
  for (const ZoneOnPaper& zone : zonesOf(sheet, to_paper))
    canvas.outline(zone.paper, selected(sheet, zone.requirement)
                                   ? Stroke{sheet.inks.accent, 0.3}
                                   : Stroke{sheet.inks.ink, 0.15});
}

void paintZoneNames(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken) {
  const Box2& plan = layout.plan;
  const std::vector<ZoneOnPaper> zones = zonesOf(sheet, layout.to_paper);
  for (const ZoneOnPaper& zone : zones) {
    const Box2 box = bounds(zone.paper);
    const bool small = std::max(box.high.x - box.low.x, box.high.y - box.low.y) < kNamedFromMm;
    if (!overlaps(box, plan) || (small && !selected(sheet, zone.requirement))) continue;
    paintWords(canvas, sheet.inks, zoneLabel(canvas, sheet, plan, zone, zones, taken));
  }
}

void paintPlan(Canvas& canvas, const Sheet& sheet, const Layout& layout, Occurs& occurs) {
  const ToPaper& to_paper = layout.to_paper;
  PlanShapes shapes = planShapes(sheet.design, storeyOf(sheet), situationOf(sheet));
  std::vector<ZoneOnPaper> zones = zonesOf(sheet, to_paper);
  std::vector<Dial> dials = dialsOf(sheet, to_paper);
  if (sheet.close_up) keepShown(layout, shapes, zones, dials);

  Taken taken;
  keepClear(sheet, layout, shapes, dials, taken);
  keepClearOfDevices(sheet.services, to_paper, taken);
  std::vector<PlacedWords> labels;
  for (const ZoneOnPaper& zone : zones)
    labels.push_back(zoneLabel(canvas, sheet, layout.plan, zone, zones, taken));

  paintGround(canvas, sheet, to_paper, shapes);
  for (const ZoneOnPaper& zone : zones) {
    if (zone.map)
      paintZone(canvas, sheet, to_paper, *zone.map,
                zoneAreas(*zone.map, taskLinesOf(sheet.design)), taken, occurs);
    canvas.outline(zone.paper, selected(sheet, zone.requirement)
                                   ? Stroke{sheet.inks.accent, 0.3}
                                   : Stroke{sheet.inks.ink, 0.15});
  }
  paintNight(canvas, sheet, layout, taken, occurs);
  paintOutlines(canvas, sheet, layout, occurs);
  paintShapes(canvas, sheet, to_paper, shapes, occurs);
  paintCables(canvas, sheet.inks, sheet.services, to_paper, occurs);
  paintBlind(canvas, sheet, layout, false, taken, occurs);
  for (const PlacedWords& label : labels) paintWords(canvas, sheet.inks, label);
  paintWorst(canvas, sheet, layout, taken, occurs);
  paintBlind(canvas, sheet, layout, true, taken, occurs);
  nameOutlines(canvas, sheet, layout, taken);
  for (const Dial& dial : dials) paintDial(canvas, sheet, dial, taken, occurs);
  paintDevices(canvas, sheet.inks, sheet.services, layout, taken, occurs);
}

}  // namespace belvedere::drawing
