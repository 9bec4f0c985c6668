// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "design/task_table.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kLineMm = 4.1;      // from one line of 9 pt to the next
constexpr double kLabelMm = 43;      // widest label in the plan
// A camera that looks one way only is blind to most of its storey: no outline says that better
// than the figure in the tables.
constexpr double kBlindMostShare = 0.5;
constexpr double kCapitalMm = kCapitalHeight * 9 * kMmPerPt;

struct Words {
  std::vector<std::string> lines;
  Rgb colour;
  std::size_t bold = 0;  // so many first lines
};

Vec2 sizeOf(const Canvas& canvas, const Words& words) {
  double width = 0;
  for (std::size_t i = 0; i < words.lines.size(); ++i)
    width = std::max(width, canvas.width(words.lines[i],
                                         {words.colour, 9, i < words.bold}));
  return {width + 1.2, kLineMm * static_cast<double>(words.lines.size() - 1) + kCapitalMm + 1.6};
}

// Writes words into a box on paper of their own.
void write(Canvas& canvas, const Inks& inks, const Box2& box, const Words& words) {
  canvas.fillBox(box, inks.paper, 0.84);
  Vec2 at{box.low.x + 0.6, box.low.y + 0.7 + kCapitalMm};
  for (std::size_t i = 0; i < words.lines.size(); ++i, at.y += kLineMm)
    canvas.text(at, words.lines[i], {words.colour, 9, i < words.bold});
}

Box2 boxAt(Vec2 low, Vec2 size) { return {low, low + size}; }
Box2 grownBox(Box2 box, double by) { return {box.low - Vec2{by, by}, box.high + Vec2{by, by}}; }

// The place with the least that is against it; places outside `within` count as taken.
Box2 choose(const std::vector<Vec2>& lows, Vec2 size, const Box2& within, const Taken& taken,
            const std::function<double(const Box2&)>& against) {
  Box2 best = boxAt(lows.front(), size);
  double least = 1e300;
  for (const Vec2 low : lows) {
    const Box2 box = boxAt(low, size);
    double bad = 100 * taken.overlap(grownBox(box, 0.4)) + against(box);
    const double out = std::max({within.low.x - box.low.x, box.high.x - within.high.x,
                                 within.low.y - box.low.y, box.high.y - within.high.y, 0.0});
    bad += 1000 * out;
    if (bad < least) {
      least = bad;
      best = box;
    }
  }
  return best;
}

bool holds(const Region& region, const Box2& box) {
  const Vec2 corners[] = {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
  return std::all_of(std::begin(corners), std::end(corners),
                     [&](Vec2 p) { return contains(region, p); });
}

struct ZoneOnPaper {
  const design::Zone* zone = nullptr;
  const ZoneMap* map = nullptr;
  const design::Requirement* requirement = nullptr;
  Region paper;
};

const design::Requirement* requirementOf(const Sheet& sheet, const design::Zone& zone,
                                         const ZoneMap* map) {
  if (map) return design::findRequirement(sheet.design, map->spots.requirement);
  for (const design::Requirement& requirement : sheet.design.brief)
    if (requirement.zone == zone.id) return &requirement;
  return nullptr;
}

std::vector<ZoneOnPaper> zonesOf(const Sheet& sheet, const ToPaper& to_paper) {
  std::vector<ZoneOnPaper> zones;
  const design::Situation situation = situationOf(sheet);
  for (const design::Zone& zone : sheet.design.site.zones) {
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
constexpr double kApartMm = 3;

Vec2 nearestIn(const Box2& box, Vec2 p) {
  return {std::clamp(p.x, box.low.x, box.high.x), std::clamp(p.y, box.low.y, box.high.y)};
}

void paintWords(Canvas& canvas, const Inks& inks, const PlacedWords& label) {
  const Vec2 from = nearestIn(label.box, label.points_at);
  if (norm(from - label.points_at) > kApartMm)
    canvas.line(from, label.points_at, {label.words.colour, 0.15});
  write(canvas, inks, label.box, label.words);
}

PlacedWords zoneLabel(const Canvas& canvas, const Sheet& sheet, const Box2& plan,
                      const ZoneOnPaper& zone, Taken& taken) {
  const std::string title = zone.zone->title.empty() ? zone.zone->id.text : zone.zone->title;
  const Rgb ink = selected(sheet, zone.requirement) ? sheet.inks.accent : sheet.inks.ink;
  Words words{{}, ink, 0};
  const std::string head =
      zone.requirement ? zone.requirement->id.text + "  " + title : title;
  words.lines = canvas.wrapped(head, {ink, 9, true}, kLabelMm, 2);
  words.bold = words.lines.size();
  if (zone.requirement)
    words.lines.push_back(
        canvas.fitted(asksFor(sheet.design, *zone.requirement), {ink, 9}, kLabelMm));
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
  for (const double off : {1.0, 4.0, 8.0, 14.0}) {
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
  double order = 0;
  const Box2 place = choose(lows, size, plan, taken, [&](const Box2& at) {
    order += 0.1;
    // Inside is best where there is room; over a small zone the label would hide what it names.
    const bool roomy = size.x * size.y < 0.3 * std::abs(area(zone.paper));
    const bool inside = holds(zone.paper, at);
    return order + (roomy ? (inside ? 0 : 20) : (at.low.x < box.high.x && at.high.x > box.low.x &&
                                                 at.low.y < box.high.y && at.high.y > box.low.y
                                                     ? 30
                                                     : 0));
  });
  taken.add(place);
  return {place, words, nearestIn(box, (place.low + place.high) * 0.5)};
}

}  // namespace

void paintBlind(Canvas& canvas, const Sheet& sheet, const Layout& layout, bool words_too,
                Taken& taken, Occurs& occurs) {
  for (const proof::BlindZone& blind : sheet.blind_zones) {
    const design::Housing* housing = design::findHousing(sheet.design, blind.housing);
    if (!housing || !drawnOn(sheet.design, *housing, storeyOf(sheet)) || blind.outline.empty())
      continue;
    if (blind.area_m2 > kBlindMostShare * area(planShapes(sheet.design, storeyOf(sheet),
                                                         situationOf(sheet)).slab))
      continue;
    const Region paper = layout.to_paper(blind.outline);
    const Vec2 foot = layout.to_paper(housing->mount.fixing_m.xy());
    if (norm(nearestIn(layout.plan, foot) - foot) > 0) continue;  // beside a close-up
    if (!words_too) {
      canvas.outline(paper, {sheet.inks.ink, 0.25, Dash::dashed});
      occurs.blind = true;
      continue;
    }
    const Words words{{fmt::format("blind {} m² at {} m", shortNumber(blind.area_m2),
                                   shortNumber(blind.target_height_m, 2))},
                      sheet.inks.ink, 0};
    const Vec2 size = sizeOf(canvas, words);
    const Box2 box = bounds(paper);
    const double middle = 0.5 * (box.low.x + box.high.x) - 0.5 * size.x;
    double order = 0;
    std::vector<Vec2> lows{{middle, box.high.y - size.y - 0.8}, {middle, box.high.y + 0.6},
                           {middle, box.low.y + 0.8}, {middle, box.low.y - size.y - 0.6},
                           {box.high.x + 0.6, 0.5 * (box.low.y + box.high.y - size.y)},
                           {box.low.x - size.x - 0.6, 0.5 * (box.low.y + box.high.y - size.y)}};
    const Box2 place = choose(lows, size, layout.plan, taken, [&](const Box2&) {
      return order += 0.1;
    });
    const Vec2 middle_of_words = (place.low + place.high) * 0.5;
    if (!contains(paper, middle_of_words)) {
      Vec2 nearest = paper[0].outer[0];
      for (const Polygon& polygon : paper)
        for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
          const Vec2 p = polygon.outer[i], d = polygon.outer[(i + 1) % polygon.outer.size()] - p;
          const double t =
              dot(d, d) > 0 ? std::clamp(dot(middle_of_words - p, d) / dot(d, d), 0.0, 1.0) : 0;
          const Vec2 on = p + d * t;
          if (norm(on - middle_of_words) < norm(nearest - middle_of_words)) nearest = on;
        }
      const Vec2 from = nearestIn(place, nearest);
      if (norm(from - nearest) > kApartMm) canvas.line(from, nearest, {sheet.inks.ink, 0.15});
    }
    write(canvas, sheet.inks, place, words);
    taken.add(place);
  }
}

namespace {

void paintOutlines(Canvas& canvas, const Sheet& sheet, const Layout& layout, Occurs& occurs) {
  for (const bool accent : {false, true})
    for (const ImagerOutline& outline : sheet.outlines) {
      const bool is_selected =
          !sheet.selected_imager.empty() && outline.imager == sheet.selected_imager;
      if (is_selected != accent || outline.served.empty()) continue;
      canvas.outline(layout.to_paper(outline.served),
                     accent ? Stroke{sheet.inks.accent, 0.45} : Stroke{sheet.inks.ink, 0.2});
      occurs.outlines = true;
    }
}

// The names of the imagers, each in its served outlines, where that is not simply the zone.
void nameOutlines(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken) {
  for (const ImagerOutline& outline : sheet.outlines) {
    const Region paper = layout.to_paper(outline.served);
    if (std::abs(area(paper)) < 400) continue;
    const bool accent = !sheet.selected_imager.empty() && outline.imager == sheet.selected_imager;
    const Words words{{outline.imager}, accent ? sheet.inks.accent : sheet.inks.ink, 0};
    const Vec2 size = sizeOf(canvas, words), middle = size * 0.5;
    // Just inside the outline, where it is farthest from its neighbours' words.
    std::vector<Vec2> lows;
    for (const Polygon& polygon : paper)
      for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
        const Vec2 a = polygon.outer[i], b = polygon.outer[(i + 1) % polygon.outer.size()];
        if (norm(b - a) < 8) continue;
        const Vec2 side = perpLeft(b - a) / norm(b - a);
        const int steps = static_cast<int>(norm(b - a) / 8);
        for (int step = 0; step < steps; ++step)
          for (const double s : {-1.0, 1.0})
            lows.push_back(a + (b - a) * ((step + 0.5) / steps) +
                           side * (s * (0.6 + 0.5 * size.y)) - middle);
      }
    std::erase_if(lows, [&](Vec2 low) {
      const Vec2 high = low + size;
      return norm(nearestIn(layout.plan, low) - low) > 0 ||
             norm(nearestIn(layout.plan, high) - high) > 0 || !holds(paper, boxAt(low, size)) ||
             !taken.isFree(grownBox(boxAt(low, size), 0.4));
    });
    if (lows.empty()) continue;
    Vec2 lens = lows.front();
    for (const design::PosedImager& view : sheet.imagers)
      if (view.imager == outline.imager) lens = layout.to_paper(view.lens_m.xy());
    // At the far end of what it serves.
    const Vec2 far = *std::max_element(lows.begin(), lows.end(), [&](Vec2 a, Vec2 b) {
      return norm(a - lens) < norm(b - lens) - 1e-6;
    });
    const Box2 place = boxAt(far, size);
    write(canvas, sheet.inks, place, words);
    taken.add(place);
  }
}

// Requirements that the sheet shows and that are not met, where they have a worst spot.
std::vector<const proof::RequirementProof*> worstOf(const Sheet& sheet, const Layout& layout) {
  std::vector<const proof::RequirementProof*> rows;
  for (const proof::RequirementProof& row : sheet.proof.requirements) {
    if (!row.worst || row.verdict == proof::Verdict::met || row.situation != sheet.situation ||
        !row.without.empty())
      continue;
    const Vec2 at = layout.to_paper(row.worst->at.xy());
    if (norm(nearestIn(layout.plan, at) - at) > 0) continue;  // beside a close-up
    if (std::any_of(sheet.maps.begin(), sheet.maps.end(), [&](const ZoneMap& map) {
          return map.spots.requirement == row.requirement;
        }))
      rows.push_back(&row);
  }
  return rows;
}

}  // namespace

void paintWorst(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken,
                Occurs& occurs) {
  for (const proof::RequirementProof* found_row : worstOf(sheet, layout)) {
    const proof::RequirementProof& row = *found_row;
    const proof::WorstSpot& worst = *row.worst;
    const Rgb ink = row.requirement == sheet.selected_requirement ? sheet.inks.accent
                                                                  : sheet.inks.ink;
    const Vec2 at = layout.to_paper(worst.at.xy());
    for (const Stroke& stroke : {Stroke{sheet.inks.paper, 1.1}, Stroke{ink, 0.4}}) {
      const double r = 1.3;
      canvas.line(at - Vec2{r, r}, at + Vec2{r, r}, stroke);
      canvas.line(at - Vec2{r, -r}, at + Vec2{r, -r}, stroke);
    }
    std::string found = phrase(worst.reason);
    const proof::Measure& measure = worst.measure;
    // The frame's measure, in pixels from its middle, says little on a plan.
    if (measure.margin > 0 && worst.reason != proof::Reason::out_of_frame) {
      const bool at_most = worst.reason == proof::Reason::too_steep ||
                           worst.reason == proof::Reason::turned_away;
      found += fmt::format(", {} of {}{} {}", shortNumberBeside(measure.found, measure.needed),
                           at_most ? "at most " : "", shortNumber(measure.needed), measure.unit);
    }
    const Words words{{fmt::format("{} worst: {}", row.requirement.text, found)}, ink, 0};
    const Vec2 size = sizeOf(canvas, words);
    const double off = 2.2;
    double order = 0;
    std::vector<Vec2> lows;
    for (const double far : {1.0, 3.0, 6.0})
      for (const Vec2 low : {Vec2{off * far, -0.5 * size.y}, Vec2{-off * far - size.x, -0.5 * size.y},
                             Vec2{-0.5 * size.x, -off * far - size.y}, Vec2{-0.5 * size.x, off * far},
                             Vec2{off * far, off * far}, Vec2{off * far, -off * far - size.y},
                             Vec2{-off * far - size.x, off * far},
                             Vec2{-off * far - size.x, -off * far - size.y}})
        lows.push_back(at + low);
    const Box2 place = choose(lows, size, layout.plan, taken, [&](const Box2&) {
      return order += 0.5;
    });
    const Vec2 near = nearestIn(place, at);
    if (norm(near - at) > kApartMm) canvas.line(at, near, {ink, 0.18});
    write(canvas, sheet.inks, place, words);
    taken.add(place);
    occurs.worst = true;
  }
}

namespace {

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
  // Words keep off the walls' faces: little boxes along them.
  for (const PlanShape& wall : shapes.walls)
    for (const Polygon& polygon : to_paper(wall.area)) {
      std::vector<Vec2> face = polygon.outer;
      face.push_back(face.front());
      const double length = lengthOf(face);
      for (double at = 0; at < length; at += 2)
        for (const Vec2 p : stretchOf(face, at, at + 0.01)) taken.add(grownBox({p, p}, 0.4));
    }
  for (const PlanShape& solid : shapes.solids)
    if (solid.look == Look::cut) taken.add(bounds(to_paper(solid.area)));
  for (const proof::RequirementProof* row : worstOf(sheet, layout)) {
    const Vec2 at = to_paper(row->worst->at.xy());
    taken.add(grownBox({at, at}, 1.6));
  }
  for (const Dial& dial : dials) taken.add(grownBox({dial.at, dial.at}, dial.radius_mm + 0.6));
}

void paintZoneOutlines(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper) {
  for (const ZoneOnPaper& zone : zonesOf(sheet, to_paper))
    canvas.outline(zone.paper, selected(sheet, zone.requirement)
                                   ? Stroke{sheet.inks.accent, 0.3}
                                   : Stroke{sheet.inks.ink, 0.15});
}

void paintZoneNames(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken) {
  const Box2& plan = layout.plan;
  for (const ZoneOnPaper& zone : zonesOf(sheet, layout.to_paper)) {
    const Box2 box = bounds(zone.paper);
    if (box.low.x > plan.high.x || box.high.x < plan.low.x || box.low.y > plan.high.y ||
        box.high.y < plan.low.y)
      continue;
    paintWords(canvas, sheet.inks, zoneLabel(canvas, sheet, plan, zone, taken));
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
  std::vector<PlacedWords> labels;
  for (const ZoneOnPaper& zone : zones)
    labels.push_back(zoneLabel(canvas, sheet, layout.plan, zone, taken));

  paintGround(canvas, sheet, to_paper, shapes);
  for (const ZoneOnPaper& zone : zones) {
    if (zone.map) paintZone(canvas, sheet, to_paper, *zone.map, taken, occurs);
    canvas.outline(zone.paper, selected(sheet, zone.requirement)
                                   ? Stroke{sheet.inks.accent, 0.3}
                                   : Stroke{sheet.inks.ink, 0.15});
  }
  paintOutlines(canvas, sheet, layout, occurs);
  paintShapes(canvas, sheet, to_paper, shapes, occurs);
  paintBlind(canvas, sheet, layout, false, taken, occurs);
  for (const PlacedWords& label : labels) paintWords(canvas, sheet.inks, label);
  paintWorst(canvas, sheet, layout, taken, occurs);
  paintBlind(canvas, sheet, layout, true, taken, occurs);
  nameOutlines(canvas, sheet, layout, taken);
  for (const Dial& dial : dials) paintDial(canvas, sheet, dial, taken, occurs);
}

}  // namespace belvedere::drawing
