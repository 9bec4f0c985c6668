// SPDX-License-Identifier: GPL-3.0-or-later
//
// From the spots of a zone to what a drawing shows of them: areas by reason, bands of margin,
// lines of density. Borders between reasons are known to half a cell of the lattice only and are
// drawn that straight; where the density itself sets the border, it is interpolated. Site metres.
#pragma once

#include <vector>

#include "design/task_table.h"
#include "geometry/polygon.h"
#include "proof/proof.h"

namespace belvedere::drawing {

// One requirement in its zone.
struct ZoneMap {
  proof::SpotMap spots;
  Region judged;  // the zone's area as judged (less what stands in it), site
};

// The lattice with a rim: spots outside the judged area, as far as two cells off, repeat the
// nearest inside, so that whatever is traced can be cut at the area's true edge.
struct SpotField {
  int columns = 0, rows = 0;
  std::vector<proof::Spot> spots;
  std::vector<std::uint8_t> known;
  Vec2 origin, step_x, step_y;  // site place of point (0,0), and one cell on along rows and columns
  Vec2 site(Vec2 lattice) const { return origin + step_x * lattice.x + step_y * lattice.y; }
};
SpotField fieldOf(const proof::SpotMap& spots);

struct ReasonArea {
  proof::Reason reason = proof::Reason::served;
  Region area;
};
// Reasons that occur, in the order of the tests; `served` among them.
std::vector<ReasonArea> reasonAreas(const ZoneMap& map);
// The served area alone: with the spots of one imager, its served outline.
Region servedArea(const ZoneMap& map);

// Where the served area's margin (found over needed density) is at least so much. Each band lies
// within the one before: painted in order, none needs cutting out.
struct MarginBand {
  double margin = 1;
  Region area;
};
std::vector<MarginBand> marginBands(const ZoneMap& map, const std::vector<double>& margins);

struct DensityLevel {
  double px_per_m = 0;
  bool heavy = false;  // a task's level, or the density that the requirement needs
};
// Densities over what is served or too coarse: least and greatest, and those between which nearly
// all of it lies (2 to 98 %: beneath a lens densities grow without end). Zeros where nothing is.
struct DensityRange {
  double low = 0, high = 0, usual_low = 0, usual_high = 0;
};
DensityRange densityRange(const proof::SpotMap& spots);
// Levels to draw: the tasks' and the needed one within the range, and round numbers (ten to the
// decade) between within the usual range, unless those would be more than `between_most`.
std::vector<DensityLevel> densityLevels(const std::vector<design::TaskLine>& tasks,
                                        double needed_px_per_m, const DensityRange& range,
                                        int between_most);

struct DensityLine {
  DensityLevel level;
  std::vector<Vec2> points;
};
// Contour lines of the best imager's density over what is served or too coarse. They end where the
// density jumps, at the edge of a frame or of a shadow.
std::vector<DensityLine> densityLines(const ZoneMap& map, const std::vector<DensityLevel>& levels);

// All that a zone shows, as geometry: what takes long about drawing it, and needs no painter.
struct ZoneAreas {
  std::vector<MarginBand> bands;
  std::vector<ReasonArea> reasons;  // of what is not served
  std::vector<DensityLine> lines;   // heavy ones first: they get the better places for figures
};
inline constexpr int kBandsPerOctave = 6;  // near enough to a smooth run by eye
ZoneAreas zoneAreas(const ZoneMap& map, const std::vector<design::TaskLine>& tasks);

}  // namespace belvedere::drawing
