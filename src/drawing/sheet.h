// SPDX-License-Identifier: GPL-3.0-or-later
//
// drawing: plans, painted once for screen, SVG and PNG. A sheet is a value: the design and what
// the proof says of it go in, ink comes out; nothing is computed here that a judge should say.
// Geometry that knows no painter: contours.h (borders and contour lines over a lattice), hatch.h,
// spot_areas.h (what a zone's spots look like), plan_shapes.h (what stands on a storey). Inks in
// inks.h; canvas.h is the only header that knows how to paint, and Qt is behind it.
//
// A sheet shows one storey in one situation: walls, slab, solids and zones; in each zone one
// requirement: its margin as a wash, reasons as hatches, densities as contour lines; housings as
// dials; blind zones; where lamps or luminaires burn, illuminance as lines (night_plan.h) and the
// dials' lamps; at the left the ledger of the brief, below scale, north, legend and title.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "drawing/inks.h"
#include "drawing/night_plan.h"
#include "drawing/services_on_plan.h"
#include "drawing/spot_areas.h"
#include "proof/proof.h"

class QPainter;

namespace belvedere::drawing {

// What one imager serves for a requirement that the sheet shows; site. From servedArea of spots
// asked of that imager alone.
struct ImagerOutline {
  std::string imager;                 // "C1.2"
  design::RequirementId requirement;
  Region served;
  bool frame_only = false;            // it serves nothing: what is in its frame instead
  std::size_t aim = 0;                // in hand, where it is of one aim alone (the window)
};

// A design that nobody changes, shared by all sheets made of it: a large one is long to copy.
class SharedDesign {
 public:
  SharedDesign() : design_(std::make_shared<const design::Design>()) {}
  SharedDesign(design::Design design)  // NOLINT: a design is as good
      : design_(std::make_shared<const design::Design>(std::move(design))) {}
  SharedDesign(std::shared_ptr<const design::Design> design)  // NOLINT: never null
      : design_(std::move(design)) {}
  operator const design::Design&() const { return *design_; }  // NOLINT: likewise
  const design::Design* operator->() const { return design_.get(); }
  const design::Design& operator*() const { return *design_; }

 private:
  std::shared_ptr<const design::Design> design_;
};

// Likewise the maps of its zones: a fine one holds megabytes, and a hand that drags brings one a move.
class SharedMaps {
 public:
  SharedMaps() : maps_(std::make_shared<const std::vector<ZoneMap>>()) {}
  SharedMaps(std::shared_ptr<const std::vector<ZoneMap>> maps)  // NOLINT: never null
      : maps_(std::move(maps)) {}
  auto begin() const { return maps_->begin(); }
  auto end() const { return maps_->end(); }
  bool empty() const { return maps_->empty(); }
  std::size_t size() const { return maps_->size(); }
  const ZoneMap& operator[](std::size_t i) const { return (*maps_)[i]; }
  const ZoneMap& front() const { return maps_->front(); }
  // Others in their place.
  void set(std::vector<ZoneMap> maps) {
    maps_ = std::make_shared<const std::vector<ZoneMap>>(std::move(maps));
  }

 private:
  std::shared_ptr<const std::vector<ZoneMap>> maps_;
};

// What the brief asks for beyond coverage, judged: rules, days kept, frames, money.
struct SheetDemand {
  design::RequirementId requirement;
  proof::Verdict verdict = proof::Verdict::undecided;
  std::string sentence;
};

// What a sheet's figures count in: "125 px/m", "38.1 px/ft"; areas in its square.
struct LengthUnit {
  double m = 1;
  const char* name = "m";
};

struct Sheet {
  SharedDesign design;
  std::vector<design::PosedImager> imagers;  // all of the design's
  proof::Proof proof;
  std::vector<SheetDemand> demands;          // in the order of the brief
  SharedMaps maps;                           // of the storey's zones in the situation, one a zone
  std::vector<ImagerOutline> outlines;
  std::vector<proof::BlindZone> blind_zones; // those to draw
  std::shared_ptr<const NightPlan> night;    // of the storey in the situation; null: nothing of light
                                             // is drawn. Its lines take the place of densities'
  ServicesOnPlan services;                   // of the storey; empty: not drawn
  design::StoreyId storey;                   // must be the design's
  design::SituationId situation;             // one of situationsOf(design)
  design::RequirementId selected_requirement;  // in accent; empty: none
  std::string selected_imager;                 // in accent; empty: none
  std::size_t selected_aim = 0;                // of its aims, the one in hand
  bool close_up = false;                       // only the selected requirement's zone, the lenses
                                               // that serve it, and what is around them
  double asked_scale = 0;                    // draw at 1:this, cutting what has no room; 0: the
                                             // largest round one at which all fits
  LengthUnit unit;                           // of its figures and scale bar
  std::string design_sha256;                 // of the design file, lower-case hex
  Inks inks = Inks::light();
};

inline constexpr double kA3WidthMm = 420, kA3HeightMm = 297;

// Paints the sheet over the rectangle from the painter's origin, whose unit is one millimetre.
// Needs a QGuiApplication (ensureGui).
void paintSheet(QPainter& painter, const Sheet& sheet, double width_mm = kA3WidthMm,
                double height_mm = kA3HeightMm);
// The 1:N at which what is shown (the storey, or the close-up) fits on that paper: the largest of
// 1:20 25 50 100 200 250 500 1000 2000 5000 10000 that does (or the last).
double scaleOf(const Sheet& sheet, double width_mm = kA3WidthMm, double height_mm = kA3HeightMm);

// One sheet, landscape, as a file. Text stays text in the SVG; the same sheet gives the same bytes.
// Replaces the file whole or not at all. Throws std::system_error when it cannot.
void writeSvg(const Sheet& sheet, const std::filesystem::path& path, double width_mm = kA3WidthMm,
              double height_mm = kA3HeightMm);
void writePng(const Sheet& sheet, const std::filesystem::path& path, double dpi = 150,
              double width_mm = kA3WidthMm, double height_mm = kA3HeightMm);
// To scale on any printer: lengths are those of the paper.
void writePdf(const Sheet& sheet, const std::filesystem::path& path, double width_mm = kA3WidthMm,
              double height_mm = kA3HeightMm);

// Makes a QGuiApplication if there is none yet, without a display ("offscreen") unless
// QT_QPA_PLATFORM says otherwise.
void ensureGui();

}  // namespace belvedere::drawing
