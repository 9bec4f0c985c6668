// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/spot_areas.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "drawing/contours.h"
#include "drawing/hatch.h"

namespace belvedere::drawing {
namespace {

using proof::Reason;
using proof::Spot;

constexpr int kRim = 3;         // two cells of repeated spots and one of nothing
// Slack of a border known by its classes only. Points of a staircase lie up to half a cell to
// either side of the true line, so up to one cell off a line through two of them.
constexpr double kStep = 1.05;
constexpr double kSmooth = 0.04;
constexpr int kWashOctaves = 3;   // of margin, that the wash tells apart
constexpr int kBetweenMost = 9;   // thin density levels in a zone, more would be a grey

bool hasDensity(const Spot& s) {
  return (s.reason == Reason::served || s.reason == Reason::too_coarse) && s.px_per_m > 0 &&
         s.margin > 0;
}

// Whether a quantity runs smoothly from one spot to its neighbour, or jumps from one imager's
// picture into another's.
bool runsOn(const Spot& a, const Spot& b, double va, double vb) {
  const double ratio = va > vb ? va / vb : vb / va;
  return ratio < (a.imager == b.imager ? 1.5 : 1.06);
}

// Where the margin passes `level` on the way from a spot at or above it to one that is not.
BorderAt marginBorder(const Spot& a, const Spot& b, double level) {
  if (!hasDensity(a) || !hasDensity(b) || !runsOn(a, b, a.margin, b.margin)) return {0.5, kStep};
  const double high = std::log(static_cast<double>(a.margin)),
               low = std::log(static_cast<double>(b.margin));
  if (high <= low) return {0.5, kStep};
  return {std::clamp((high - std::log(level)) / (high - low), 0.0, 1.0), kSmooth};
}

Region toSite(const SpotField& field, Region region) {
  for (Polygon& polygon : region) {
    for (Vec2& p : polygon.outer) p = field.site(p);
    for (Ring& hole : polygon.holes)
      for (Vec2& p : hole) p = field.site(p);
  }
  return region;
}

template <class Inside, class Border>
Region areaWhere(const SpotField& field, const Region& judged, Inside inside_spot, Border border) {
  std::vector<std::uint8_t> inside(field.spots.size(), 0);
  for (std::size_t i = 0; i < inside.size(); ++i)
    inside[i] = field.known[i] && inside_spot(field.spots[i]);
  const Region traced = traceRegion(
      {field.columns, field.rows}, inside, [&](std::size_t in, std::size_t out) {
        if (!field.known[out]) return BorderAt{0.5, kStep};
        return border(field.spots[in], field.spots[out]);
      });
  return intersectionOf(toSite(field, traced), judged);
}

Region areaOf(const SpotField& field, const Region& judged, Reason reason) {
  return areaWhere(
      field, judged, [&](const Spot& s) { return s.reason == reason; },
      [](const Spot& in, const Spot& out) {
        if (in.reason == Reason::served && out.reason == Reason::too_coarse)
          return marginBorder(in, out, 1);
        if (in.reason == Reason::too_coarse && out.reason == Reason::served) {
          const BorderAt at = marginBorder(out, in, 1);
          return BorderAt{1 - at.share, at.slack};
        }
        return BorderAt{0.5, kStep};
      });
}

}  // namespace

SpotField fieldOf(const proof::SpotMap& map) {
  SpotField field;
  field.columns = map.columns + 2 * kRim;
  field.rows = map.rows + 2 * kRim;
  const double turn = degToRad(map.turn_deg);
  field.step_x = Vec2{std::cos(turn), -std::sin(turn)} * map.cell_m;
  field.step_y = Vec2{std::sin(turn), std::cos(turn)} * map.cell_m;
  field.origin = map.origin + (field.step_x + field.step_y) * (0.5 - kRim);
  const LatticeSize size{field.columns, field.rows};
  field.spots.resize(size.count());
  field.known.assign(size.count(), 0);
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column) {
      const Spot& spot = map.at(column, row);
      if (!spot.inside) continue;
      const std::size_t i = size.index(column + kRim, row + kRim);
      field.spots[i] = spot;
      field.known[i] = 1;
    }
  for (int round = 0; round < kRim - 1; ++round) {
    const std::vector<std::uint8_t> before = field.known;
    for (int row = 1; row + 1 < size.rows; ++row)
      for (int column = 1; column + 1 < size.columns; ++column) {
        const std::size_t i = size.index(column, row);
        if (before[i]) continue;
        // Straight neighbours first, then those across a corner.
        constexpr int kNear[8][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1},
                                     {-1, -1}, {1, -1}, {-1, 1}, {1, 1}};
        for (const auto& by : kNear) {
          const std::size_t n = size.index(column + by[0], row + by[1]);
          if (!before[n]) continue;
          field.spots[i] = field.spots[n];
          field.known[i] = 1;
          break;
        }
      }
  }
  return field;
}

std::vector<ReasonArea> reasonAreas(const ZoneMap& map) {
  const SpotField field = fieldOf(map.spots);
  std::vector<ReasonArea> areas;
  for (int r = 0; r < proof::kReasonCount; ++r) {
    const Reason reason = static_cast<Reason>(r);
    Region area = areaOf(field, map.judged, reason);
    if (!area.empty()) areas.push_back({reason, std::move(area)});
  }
  return areas;
}

Region servedArea(const ZoneMap& map) {
  return areaOf(fieldOf(map.spots), map.judged, Reason::served);
}

std::vector<MarginBand> marginBands(const ZoneMap& map, const std::vector<double>& margins) {
  const SpotField field = fieldOf(map.spots);
  std::vector<MarginBand> bands;
  for (const double margin : margins) {
    Region area =
        margin <= 1 ? areaOf(field, map.judged, Reason::served)
                    : areaWhere(
                          field, map.judged,
                          [&](const Spot& s) {
                            return s.reason == Reason::served && s.margin >= margin;
                          },
                          [&](const Spot& in, const Spot& out) {
                            return out.reason == Reason::served ? marginBorder(in, out, margin)
                                                                : BorderAt{0.5, kStep};
                          });
    if (!area.empty()) bands.push_back({margin, std::move(area)});
  }
  return bands;
}

DensityRange densityRange(const proof::SpotMap& map) {
  std::vector<double> found;
  for (const Spot& s : map.spots)
    if (s.inside && hasDensity(s)) found.push_back(s.px_per_m);
  if (found.empty()) return {};
  std::sort(found.begin(), found.end());
  const auto at = [&](double share) {
    return found[static_cast<std::size_t>(share * static_cast<double>(found.size() - 1))];
  };
  return {found.front(), found.back(), at(0.02), at(0.98)};
}

std::vector<DensityLevel> densityLevels(const std::vector<design::TaskLine>& tasks,
                                        double needed_px_per_m, const DensityRange& range,
                                        int between_most) {
  const auto within = [&](double v) { return v > range.low && v < range.high; };
  std::vector<DensityLevel> levels;
  const auto near = [&](double v) {
    return std::any_of(levels.begin(), levels.end(), [&](const DensityLevel& l) {
      return std::abs(std::log(l.px_per_m / v)) < std::log(1.1);
    });
  };
  if (within(needed_px_per_m)) levels.push_back({needed_px_per_m, true});
  for (const design::TaskLine& line : tasks)
    if (within(line.px_per_m) && !near(line.px_per_m)) levels.push_back({line.px_per_m, true});
  if (range.usual_low > 0) {
    constexpr double kRound[] = {1, 1.25, 1.6, 2, 2.5, 3.2, 4, 5, 6.4, 8};
    std::vector<DensityLevel> between;
    for (double ten = std::pow(10, std::floor(std::log10(range.usual_low)));
         ten < range.usual_high; ten *= 10)
      for (const double step : kRound)
        if (const double v = ten * step; v > range.usual_low && v < range.usual_high && !near(v))
          between.push_back({v, false});
    if (static_cast<int>(between.size()) <= between_most)
      levels.insert(levels.end(), between.begin(), between.end());
  }
  std::sort(levels.begin(), levels.end(),
            [](const DensityLevel& a, const DensityLevel& b) { return a.px_per_m < b.px_per_m; });
  return levels;
}

std::vector<DensityLine> densityLines(const ZoneMap& map,
                                      const std::vector<DensityLevel>& levels) {
  const SpotField field = fieldOf(map.spots);
  const LatticeSize size{field.columns, field.rows};
  std::vector<double> values(size.count(), 1e-3);
  std::vector<std::uint8_t> usable(size.count(), 0);
  const auto good = [&](std::size_t i) { return field.known[i] && hasDensity(field.spots[i]); };
  for (std::size_t i = 0; i < values.size(); ++i)
    if (good(i)) values[i] = field.spots[i].px_per_m;
  for (int row = 0; row + 1 < size.rows; ++row)
    for (int column = 0; column + 1 < size.columns; ++column) {
      const std::size_t a = size.index(column, row), b = a + 1,
                        d = size.index(column, row + 1), c = d + 1;
      const auto joined = [&](std::size_t p, std::size_t q) {
        return runsOn(field.spots[p], field.spots[q], values[p], values[q]);
      };
      usable[a] = good(a) && good(b) && good(c) && good(d) && joined(a, b) && joined(b, c) &&
                  joined(c, d) && joined(d, a);
    }
  std::vector<DensityLine> lines;
  for (const DensityLevel& level : levels)
    for (Line& line : traceLines(size, values, usable, level.px_per_m, kSmooth)) {
      for (Vec2& p : line.points) p = field.site(p);
      for (std::vector<Vec2>& part : partsInside(line, map.judged))
        lines.push_back({level, std::move(part)});
    }
  return lines;
}

ZoneAreas zoneAreas(const ZoneMap& map, const std::vector<design::TaskLine>& tasks) {
  ZoneAreas areas;
  std::vector<double> margins;
  for (int i = 0; i <= kWashOctaves * kBandsPerOctave; ++i)
    margins.push_back(std::exp2(static_cast<double>(i) / kBandsPerOctave));
  areas.bands = marginBands(map, margins);
  areas.reasons = reasonAreas(map);
  std::erase_if(areas.reasons, [](const ReasonArea& part) { return part.reason == Reason::served; });
  areas.lines = densityLines(map, densityLevels(tasks, map.spots.needed_px_per_m,
                                                densityRange(map.spots), kBetweenMost));
  std::stable_sort(areas.lines.begin(), areas.lines.end(),
                   [](const DensityLine& a, const DensityLine& b) {
                     return a.level.heavy > b.level.heavy;
                   });
  return areas;
}

}  // namespace belvedere::drawing
