// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sheet.h"

#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kBindingMm = 15, kEdgeMm = 10;  // left edge is wider: sheets are bound there
constexpr double kLedgerMm = 78, kStripMm = 44, kTitleMm = 122, kScaleMm = 66;
constexpr double kPlanEdgeMm = 4;
constexpr std::array<double, 11> kScales{20,  25,  50,   100,  200,  250,
                                         500, 1000, 2000, 5000, 10000};

void addAll(Box2& box, const Region& region) {
  for (const Polygon& polygon : region)
    for (const Vec2 p : polygon.outer) box.add(p);
}

// The selected requirement's zone, the cameras that serve some of it (or the one nearest to doing
// so), and what is around them. Empty where nothing is selected that lies on the storey.
Box2 closeUpOf(const Sheet& sheet) {
  constexpr double kAroundM = 1, kAroundShare = 0.1;
  Box2 box;
  const design::Requirement* requirement =
      design::findRequirement(sheet.design, sheet.selected_requirement);
  const design::Zone* zone =
      requirement ? design::findZone(sheet.design, requirement->zone) : nullptr;
  if (!zone || zone->storey != sheet.storey) return box;
  for (const Vec2 p : zone->outline) box.add(p);
  std::vector<std::string> serve;
  for (const proof::RequirementProof& row : sheet.proof.requirements) {
    if (row.requirement != requirement->id || row.situation != sheet.situation ||
        !row.without.empty())
      continue;
    for (const proof::Contribution& by : row.imagers)
      if (by.serves > 0) serve.push_back(by.imager);
    if (!row.densest_imager.empty()) serve.push_back(row.densest_imager);
    if (serve.empty() && row.worst) serve.push_back(row.worst->imager);
  }
  for (const design::PosedImager& view : sheet.imagers) {
    const design::Housing* housing = design::findHousing(sheet.design, view.housing);
    if (!housing || !drawnOn(sheet.design, *housing, storeyOf(sheet)) ||
        std::find(serve.begin(), serve.end(), view.imager) == serve.end())
      continue;
    box.add(view.lens_m.xy());
    box.add(housing->mount.fixing_m.xy());
  }
  const Vec2 size = box.high - box.low;
  const double around_m = std::max(kAroundM, kAroundShare * std::max(size.x, size.y));
  return {box.low - Vec2{around_m, around_m}, box.high + Vec2{around_m, around_m}};
}

// Everything that the sheet must show.
Box2 extentOf(const Sheet& sheet) {
  if (sheet.close_up)
    if (const Box2 close = closeUpOf(sheet); !close.empty()) return close;
  const design::Storey& storey = storeyOf(sheet);
  const design::Situation situation = situationOf(sheet);
  Box2 box;
  const PlanShapes shapes = planShapes(sheet.design, storey, situation);
  addAll(box, shapes.slab);
  for (const PlanShape& wall : shapes.walls) addAll(box, wall.area);
  for (const PlanShape& solid : shapes.solids) addAll(box, solid.area);
  for (const design::Zone& zone : sheet.design->site.zones)
    if (zone.storey == storey.id && standsIn(sheet.design, zone.id.text, situation))
      for (const Vec2 p : zone.outline) box.add(p);
  for (const design::Housing& housing : sheet.design->housings)
    if (housing.life != design::Life::removed && drawnOn(sheet.design, housing, storey))
      box.add(housing.mount.fixing_m.xy());
  if (box.empty()) box.add({0, 0});
  return box;
}

}  // namespace

std::vector<Vec2> ToPaper::operator()(std::vector<Vec2> points) const {
  for (Vec2& p : points) p = (*this)(p);
  return points;
}

Region ToPaper::operator()(Region region) const {
  for (Polygon& polygon : region) {
    polygon.outer = (*this)(std::move(polygon.outer));
    for (Ring& hole : polygon.holes) hole = (*this)(std::move(hole));
  }
  return region;
}

const design::Situation situationOf(const Sheet& sheet) {
  for (const design::Situation& situation : design::situationsOf(sheet.design))
    if (situation.id == sheet.situation) return situation;
  BELVEDERE_CHECK(false, "the sheet's situation is one of the design's");
}

const design::Storey& storeyOf(const Sheet& sheet) {
  const design::Storey* storey = design::findStorey(sheet.design, sheet.storey);
  BELVEDERE_CHECK(storey != nullptr, "the sheet's storey is one of the design's");
  return *storey;
}

const ZoneMap* mapOf(const Sheet& sheet, const design::ZoneId& zone) {
  for (const ZoneMap& map : sheet.maps) {
    const design::Requirement* requirement =
        design::findRequirement(sheet.design, map.spots.requirement);
    if (requirement && requirement->zone == zone) return &map;
  }
  return nullptr;
}

namespace {

constexpr double kCellMm = 8;
constexpr double kLargeMm = 20 * kCellMm;  // boxes larger than that lie in no cell

// Visits the cells that a box touches; keys of cells far off the paper may coincide.
template <class Visit>
void forEachCell(const Box2& box, Visit visit) {
  const auto cell = [](double v) {
    return static_cast<std::int64_t>(std::floor(std::clamp(v, -1e7, 1e7) / kCellMm));
  };
  for (std::int64_t y = cell(box.low.y); y <= cell(box.high.y); ++y)
    for (std::int64_t x = cell(box.low.x); x <= cell(box.high.x); ++x)
      visit((static_cast<std::uint64_t>(y) << 32) ^ (static_cast<std::uint64_t>(x) & 0xFFFFFFFFu));
}
bool isLarge(const Box2& box) {
  return box.high.x - box.low.x > kLargeMm || box.high.y - box.low.y > kLargeMm;
}
double common(const Box2& a, const Box2& b) {
  const double w = std::min(a.high.x, b.high.x) - std::max(a.low.x, b.low.x);
  const double h = std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
  return w > 0 && h > 0 ? w * h : 0;
}

}  // namespace

void Taken::add(const Box2& box) {
  if (isLarge(box)) {
    large_.push_back(box);
    return;
  }
  const auto index = static_cast<std::uint32_t>(boxes_.size());
  boxes_.push_back(box);
  met_.push_back(0);
  forEachCell(box, [&](std::uint64_t cell) { in_cell_[cell].push_back(index); });
}

double Taken::overlap(const Box2& box) const {
  double sum = below_ ? below_->overlap(box) : 0;
  for (const Box2& other : large_) sum += common(box, other);
  if (isLarge(box)) {
    for (const Box2& other : boxes_) sum += common(box, other);
    return sum;
  }
  ++question_;
  forEachCell(box, [&](std::uint64_t cell) {
    const auto found = in_cell_.find(cell);
    if (found == in_cell_.end()) return;
    for (const std::uint32_t i : found->second) {
      if (met_[i] == question_) continue;
      met_[i] = question_;
      sum += common(box, boxes_[i]);
    }
  });
  return sum;
}

Layout layoutOf(const Sheet& sheet, double width_mm, double height_mm) {
  Layout layout;
  layout.frame = {{kBindingMm, kEdgeMm}, {width_mm - kEdgeMm, height_mm - kEdgeMm}};
  const Vec2 low = layout.frame.low, high = layout.frame.high;
  const double left = low.x + kLedgerMm, strip = high.y - kStripMm;
  layout.ledger = {low, {left, high.y}};
  layout.plan = {{left, low.y}, {high.x, strip}};
  layout.title = {{high.x - kTitleMm, strip}, high};
  layout.scale_and_north = {{left, strip}, {left + kScaleMm, high.y}};
  layout.legend = {{left + kScaleMm, strip}, {high.x - kTitleMm, high.y}};

  const Box2 extent = extentOf(sheet);
  const Vec2 size = extent.high - extent.low, paper = layout.plan.high - layout.plan.low;
  layout.scale = kScales.back();
  for (const double scale : kScales) {
    const double mm_per_m = 1000 / scale;
    if (size.x * mm_per_m <= paper.x - 2 * kPlanEdgeMm &&
        size.y * mm_per_m <= paper.y - 2 * kPlanEdgeMm) {
      layout.scale = scale;
      break;
    }
  }
  if (sheet.asked_scale > 0) layout.scale = sheet.asked_scale;
  layout.to_paper = {(extent.low + extent.high) * 0.5, (layout.plan.low + layout.plan.high) * 0.5,
                     1000 / layout.scale};
  return layout;
}

// The longer side of A0 and so on, each by half the last.
std::string paperName(double width_mm, double height_mm) {
  constexpr std::array<double, 5> kLonger{1189, 841, 594, 420, 297};
  constexpr std::array<double, 5> kShorter{841, 594, 420, 297, 210};
  for (std::size_t i = 0; i < kLonger.size(); ++i)
    if (std::max(width_mm, height_mm) == kLonger[i] && std::min(width_mm, height_mm) == kShorter[i])
      return "A" + std::to_string(i);
  return {};
}

double scaleOf(const Sheet& sheet, double width_mm, double height_mm) {
  return layoutOf(sheet, width_mm, height_mm).scale;
}

void paintSheet(QPainter& painter, const Sheet& sheet, double width_mm, double height_mm) {
  const Layout layout = layoutOf(sheet, width_mm, height_mm);
  const Inks& inks = sheet.inks;
  Canvas canvas(painter);
  canvas.fillBox({{0, 0}, {width_mm, height_mm}}, inks.paper);
  Occurs occurs;
  paintPlan(canvas, sheet, layout, occurs);
  // What a close-up cuts is covered, not clipped: an SVG of this Qt knows no clip.
  const Box2& plan = layout.plan;
  if (sheet.close_up || sheet.asked_scale > 0)
    for (const Box2& beside : {Box2{{-1, -1}, {width_mm + 1, plan.low.y}},
                               Box2{{-1, plan.high.y}, {width_mm + 1, height_mm + 1}},
                               Box2{{-1, -1}, {plan.low.x, height_mm + 1}},
                               Box2{{plan.high.x, -1}, {width_mm + 1, height_mm + 1}}})
      canvas.fillBox(beside, inks.paper);
  paintLedger(canvas, sheet, layout.ledger);
  paintScaleAndNorth(canvas, sheet, layout);
  paintLegend(canvas, sheet, layout.legend, occurs);
  paintTitle(canvas, sheet, layout, paperName(width_mm, height_mm));
  const Stroke rule{inks.rules, 0.25};
  canvas.line({layout.ledger.high.x, layout.frame.low.y},
              {layout.ledger.high.x, layout.frame.high.y}, rule);
  canvas.line({layout.ledger.high.x, layout.plan.high.y}, layout.plan.high, rule);
  canvas.box(layout.frame, {inks.ink, 0.5});
}

}  // namespace belvedere::drawing
