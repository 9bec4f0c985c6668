// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a plan says of the answer beside its zones: blind zones, served outlines, worst spots.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "drawing/plan_words.h"

namespace belvedere::drawing {
namespace {

// A camera that looks one way only is blind to most of its storey: no outline says that better
// than the figure in the tables.
constexpr double kBlindMostShare = 0.5;

}  // namespace

void paintBlind(Canvas& canvas, const Sheet& sheet, const Layout& layout, bool words_too,
                Taken& taken, Occurs& occurs) {
  if (sheet.blind_zones.empty()) return;
  const LengthUnit& unit = sheet.unit;
  const double most_m2 =
      kBlindMostShare *
      area(planShapes(sheet.design, storeyOf(sheet), situationOf(sheet)).slab);
  for (const proof::BlindZone& blind : sheet.blind_zones) {
    const design::Housing* housing = design::findHousing(sheet.design, blind.housing);
    if (!housing || !drawnOn(sheet.design, *housing, storeyOf(sheet)) || blind.outline.empty())
      continue;
    if (blind.area_m2 > most_m2) continue;
    const Region paper = layout.to_paper(blind.outline);
    const Vec2 foot = layout.to_paper(housing->mount.fixing_m.xy());
    if (norm(nearestIn(layout.plan, foot) - foot) > 0) continue;  // beside a close-up
    if (!words_too) {
      canvas.outline(paper, {sheet.inks.ink, 0.25, Dash::dashed});
      occurs.blind = true;
      continue;
    }
    const Words words{{fmt::format(fmt::runtime(said("blind {} {}² at {} {}")),
                                   shortNumber(blind.area_m2 / (unit.m * unit.m)), unit.name,
                                   shortNumber(blind.target_height_m / unit.m, 2), unit.name)},
                      sheet.inks.ink, 0};
    const Vec2 size = sizeOf(canvas, words);
    const Box2 box = bounds(paper);
    const double middle = 0.5 * (box.low.x + box.high.x) - 0.5 * size.x;
    double order = 0;
    std::vector<Vec2> lows{{middle, box.high.y - size.y - 0.8}, {middle, box.high.y + 0.6},
                           {middle, box.low.y + 0.8}, {middle, box.low.y - size.y - 0.6},
                           {box.high.x + 0.6, 0.5 * (box.low.y + box.high.y - size.y)},
                           {box.low.x - size.x - 0.6, 0.5 * (box.low.y + box.high.y - size.y)}};
    for (const double off : {4.0, 8.0, 14.0, 22.0})
      for (const double x : {middle, box.high.x + off, box.low.x - off - size.x})
        for (const double y : {box.high.y + off, box.low.y - off - size.y}) lows.push_back({x, y});
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

Vec2 worstAt(const proof::RequirementProof& row) {
  return (row.densest_px_per_m ? *row.densest_at : row.worst->at).xy();
}

namespace {
bool hasWorst(const Sheet& sheet, const proof::RequirementProof& row) {
  if (row.densest_px_per_m && row.densest_at) return row.requirement == sheet.selected_requirement;
  return row.worst && row.verdict != proof::Verdict::met &&
         std::any_of(sheet.maps.begin(), sheet.maps.end(), [&](const ZoneMap& map) {
           return map.spots.requirement == row.requirement;
         });
}

// "R1 worst: too coarse, 118 of 125 px/m"; "R3 densest: 707 of at most 25 px/m, by C1.1"
std::string worstWords(const proof::RequirementProof& row, const LengthUnit& unit) {
  if (row.densest_px_per_m)
    return fmt::format(fmt::runtime(said("{} densest: {} of at most {} px/{}, by {}")), row.requirement.text,
                       shortNumberBeside(row.densest_px_per_m->low * unit.m,
                                         row.needed_px_per_m * unit.m),
                       shortNumber(row.needed_px_per_m * unit.m), unit.name, row.densest_imager);
  const proof::WorstSpot& worst = *row.worst;
  std::string found = phrase(worst.reason);
  const proof::Measure& measure = worst.measure;
  // The frame's measure, in pixels from its middle, says little on a plan.
  if (measure.margin > 0 && worst.reason != proof::Reason::out_of_frame) {
    const bool at_most =
        worst.reason == proof::Reason::too_steep || worst.reason == proof::Reason::turned_away;
    const bool density = std::string_view(measure.unit) == "px/m";
    const double per = density ? unit.m : 1;
    found += fmt::format(fmt::runtime(at_most ? said(", {} of at most {} {}") : said(", {} of {} {}")),
                         shortNumberBeside(measure.found * per, measure.needed * per),
                         shortNumber(measure.needed * per),
                         density ? fmt::format("px/{}", unit.name) : std::string(measure.unit));
  }
  return fmt::format(fmt::runtime(said("{} worst: {}")), row.requirement.text, found);
}

// Who films a withheld zone so densely, from where: a thread from the lens to the spot.
void paintSight(Canvas& canvas, const Sheet& sheet, const Layout& layout,
                const proof::RequirementProof& row, Rgb ink) {
  for (const design::PosedImager& view : sheet.imagers) {
    if (view.imager != row.densest_imager) continue;
    const Vec2 lens = layout.to_paper(view.lens_m.xy()), at = layout.to_paper(worstAt(row));
    canvas.line(nearestIn(layout.plan, lens), at, {ink, 0.2, Dash::dashed});
    return;
  }
}
}  // namespace

// Requirements that the sheet shows and that are not met, where they have a worst spot.
std::vector<const proof::RequirementProof*> worstOf(const Sheet& sheet, const Layout& layout) {
  std::vector<const proof::RequirementProof*> rows;
  for (const proof::RequirementProof& row : sheet.proof.requirements) {
    if (row.situation != sheet.situation || !row.without.empty() || !hasWorst(sheet, row)) continue;
    const Vec2 at = layout.to_paper(worstAt(row));
    if (norm(nearestIn(layout.plan, at) - at) > 0) continue;  // beside a close-up
    rows.push_back(&row);
  }
  return rows;
}

void paintWorst(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken,
                Occurs& occurs) {
  for (const proof::RequirementProof* found_row : worstOf(sheet, layout)) {
    const proof::RequirementProof& row = *found_row;
    const Rgb ink = row.requirement == sheet.selected_requirement ? sheet.inks.accent
                                                                  : sheet.inks.ink;
    const Vec2 at = layout.to_paper(worstAt(row));
    if (row.densest_px_per_m) paintSight(canvas, sheet, layout, row, ink);
    for (const Stroke& stroke : {Stroke{sheet.inks.paper, 1.1}, Stroke{ink, 0.4}}) {
      const double r = 1.3;
      canvas.line(at - Vec2{r, r}, at + Vec2{r, r}, stroke);
      canvas.line(at - Vec2{r, -r}, at + Vec2{r, -r}, stroke);
    }
    const Words words{{worstWords(row, sheet.unit)}, ink, 0};
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
    // Off what is hatched, where there is room near by.
    constexpr double kOverZone = 0.15;  // a mm2
    Box2 zone;
    for (const ZoneMap& map : sheet.maps)
      if (map.spots.requirement == row.requirement)
        for (const Polygon& polygon : layout.to_paper(map.judged))
          for (const Vec2 p : polygon.outer) zone.add(p);
    const bool small = (zone.high.x - zone.low.x) * (zone.high.y - zone.low.y) < kSmallZoneMm2;
    // Words in a zone are of that zone.
    constexpr double kOverOther = 0.5;
    std::vector<Box2> others;
    for (const design::Zone& other : sheet.design->site.zones)
      if (other.storey == sheet.storey && !contains(other.outline, worstAt(row)))
        others.push_back(bounds(Ring(layout.to_paper(other.outline))));
    const Box2 place = choose(lows, size, layout.plan, taken, [&](const Box2& box) {
      double over = small ? kOverZone * overlapOf(box, zone) : 0;
      for (const Box2& other : others) over += kOverOther * overlapOf(box, other);
      return (order += 0.5) + over;
    });
    const Vec2 near = nearestIn(place, at);
    if (norm(near - at) > kApartMm) canvas.line(at, near, {ink, 0.18});
    write(canvas, sheet.inks, place, words);
    taken.add(place);
    occurs.worst = true;
  }
}

}  // namespace belvedere::drawing
