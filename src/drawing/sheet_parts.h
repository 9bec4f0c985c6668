// SPDX-License-Identifier: GPL-3.0-or-later
//
// The parts of a sheet, for sheet.cpp and for a window that paints them layer by layer: where they
// lie, and what of the legend occurs.
// Paper: mm, x right, y down.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "drawing/canvas.h"
#include "drawing/plan_shapes.h"
#include "drawing/services_on_plan.h"
#include "drawing/sheet.h"

namespace belvedere::drawing {

// From the site to the paper.
struct ToPaper {
  Vec2 site_m, paper_mm;  // the same place
  double mm_per_m = 1;
  Vec2 operator()(Vec2 p) const {
    return {paper_mm.x + (p.x - site_m.x) * mm_per_m, paper_mm.y - (p.y - site_m.y) * mm_per_m};
  }
  std::vector<Vec2> operator()(std::vector<Vec2> points) const;
  Region operator()(Region region) const;
};

struct Layout {
  Box2 frame, ledger, plan, scale_and_north, legend, title;
  double scale = 100;  // 1:scale
  ToPaper to_paper;
};
Layout layoutOf(const Sheet& sheet, double width_mm, double height_mm);

// Marks of services, invented: lines by what they carry, arrowheads, boxes.
enum class ServiceMark {
  network_cable, fibre, power_cable, riser_up, riser_down, switch_, injector, supply, recorder, viewer,
  containment
};
// English words in the language of the program that paints, where it is translated (the window);
// "{}" stand for values.
std::string said(const char* english);
std::string phrase(ServiceMark mark);  // "network cable"
void paintServiceMark(Canvas& canvas, const Inks& inks, Vec2 at, ServiceMark mark);

// What the plan showed, so that the legend explains that and no more.
struct Occurs {
  std::set<proof::Reason> reasons;
  bool wash = false, thin_lines = false, heavy_lines = false, outlines = false;
  bool selected_outline = false, selected_frame = false;
  bool blind = false, dials = false, stops = false, worst = false;
  bool low = false, overhead = false, openings = false;
  bool lux_lines = false, lamp_lines = false, lamps_on = false, lamps_off = false, threads = false;
  bool in_mono = false, luminaires = false;
  std::string lux_words;           // of the lines of lux: on which plane
  std::set<ServiceMark> services;
  bool operator==(const Occurs&) const = default;
};
Occurs together(Occurs a, const Occurs& b);

// Boxes already written in, so that words find a free place. They are found by where they are: a
// large plan has tens of thousands.
class Taken {
 public:
  // What `below` holds counts too; it must outlive this one, and be added to no more.
  explicit Taken(const Taken* below = nullptr) : below_(below) {}
  void add(const Box2& box);
  // Area of the box that is taken, mm2 (each box in it counts).
  double overlap(const Box2& box) const;
  bool isFree(const Box2& box) const { return overlap(box) == 0; }

 private:
  const Taken* below_;
  std::vector<Box2> boxes_, large_;
  std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> in_cell_;  // of boxes_
  mutable std::vector<std::uint32_t> met_;  // by box: the last question that met it
  mutable std::uint32_t question_ = 0;
};

void paintHatch(Canvas& canvas, const Inks& inks, const Region& paper, proof::Reason reason);
std::string phrase(proof::Reason reason);  // "too coarse"
std::string phrase(proof::Verdict verdict);  // "not met"
// "identify, 250 px/m", "at most 12.5 px/m"
std::string asksFor(const design::Design& design, const design::Requirement& requirement,
                    const LengthUnit& unit = {});
// The verdict in words and numbers: "met 96.2 to 96.4 % of 95", rounded outwards.
std::string verdictWords(const proof::RequirementProof& proof, const LengthUnit& unit = {});
// Up to that many decimals, no trailing zeros.
std::string shortNumber(double value, int decimals = 1);
// The same, with more decimals where it would read like the limit beside it.
std::string shortNumberBeside(double value, double limit);

const design::Situation situationOf(const Sheet& sheet);
const design::Storey& storeyOf(const Sheet& sheet);
// Maps by the requirement's zone; null when the zone shows none.
const ZoneMap* mapOf(const Sheet& sheet, const design::ZoneId& zone);

void paintPlan(Canvas& canvas, const Sheet& sheet, const Layout& layout, Occurs& occurs);
// Its parts. What words must keep off: walls' faces, columns, dials.
struct Dial;
void keepClear(const Sheet& sheet, const Layout& layout, const PlanShapes& shapes,
               const std::vector<Dial>& dials, Taken& taken);
void paintZoneOutlines(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper);
void paintZoneNames(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken);
// Outlines first, below all words; then theirs.
void paintBlind(Canvas& canvas, const Sheet& sheet, const Layout& layout, bool words_too,
                Taken& taken, Occurs& occurs);
void paintWorst(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken,
                Occurs& occurs);
// Below the zones, and above them (plan_stands.cpp).
void paintGround(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper,
                 const PlanShapes& shapes);
void paintShapes(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper,
                 const PlanShapes& shapes, Occurs& occurs);
// Wash, hatches and contour lines of one zone (plan_zone.cpp); labels avoid what is taken.
void paintZone(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper, const ZoneMap& map,
               const ZoneAreas& areas, Taken& taken, Occurs& occurs);
// A contour line on paper, with its figure in it wherever there is room.
void paintContour(Canvas& canvas, const std::vector<Vec2>& line, const std::string& figure,
                  const Stroke& stroke, bool bold, Taken& taken);
// Illuminance and luminaires of the sheet's night, if it has one (plan_night.cpp).
void paintNight(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken,
                Occurs& occurs);
// The lines of density that are drawn as tasks' levels.
std::vector<design::TaskLine> taskLinesOf(const design::Design& design);
// Rings of the housings (dials.cpp). Places first, so that words keep clear.
inline constexpr double kDialRadiusMm = 3.6;
struct Dial {
  const design::Housing* housing = nullptr;
  Vec2 at;
  double radius_mm = kDialRadiusMm;
  bool named = true;
  std::vector<const design::PosedImager*> imagers;  // the housing's, of the sheet
};
std::vector<Dial> dialsOf(const Sheet& sheet, const ToPaper& to_paper);
void paintDial(Canvas& canvas, const Sheet& sheet, const Dial& dial, Taken& taken, Occurs& occurs);
// Its lamps, for paintDial, and how far it reaches from its middle with them (plan_night.cpp).
void paintDialLamps(Canvas& canvas, const Sheet& sheet, const Dial& dial, Occurs& occurs);
double dialReachMm(const Sheet& sheet, const Dial& dial);
// The marks by themselves, for the legend. A lamp is a stroke; open where it is dark.
void paintLuminaire(Canvas& canvas, const Inks& inks, Vec2 at);
void paintLamp(Canvas& canvas, const Inks& inks, Vec2 near, Vec2 far, bool burns);
// Where the imagers' knobs are on a dial: one for each aim, but for those that look straight down.
struct Knob {
  std::string imager;
  int slot = 1;
  std::size_t aim = 0;
  Vec2 at;
};
std::vector<Knob> knobsOf(const Dial& dial);

// Services (plan_services.cpp): containment and cables below all words, then devices, risers and the names of all.
void keepClearOfDevices(const ServicesOnPlan& services, const ToPaper& to_paper, Taken& taken);
void paintCables(Canvas& canvas, const Inks& inks, const ServicesOnPlan& services,
                 const ToPaper& to_paper, Occurs& occurs);
void paintDevices(Canvas& canvas, const Inks& inks, const ServicesOnPlan& services,
                  const Layout& layout, Taken& taken, Occurs& occurs);

void paintLedger(Canvas& canvas, const Sheet& sheet, const Box2& box);
void paintScaleAndNorth(Canvas& canvas, const Sheet& sheet, const Layout& layout);
// A bar of five parts, each a round number of units, no longer than `most_mm`; its upper left
// corner. Returns its length.
double paintScaleBar(Canvas& canvas, const Inks& inks, Vec2 at, double mm_per_m, double most_mm,
                     const LengthUnit& unit = {});
// An arrow to true north where the place is known, else to that of the drawing, about its middle.
void paintNorth(Canvas& canvas, const Sheet& sheet, Vec2 middle, double length_mm);
void paintLegend(Canvas& canvas, const Sheet& sheet, const Box2& box, const Occurs& occurs);
// The same in rows that fill the box from below, for a sheet without a frame. Returns the rows'
// height.
double paintLegendRows(Canvas& canvas, const Inks& inks, const Box2& box, const Occurs& occurs,
                       const LengthUnit& unit = {});
void paintTitle(Canvas& canvas, const Sheet& sheet, const Layout& layout,
                const std::string& paper);
// "A3"; empty: none of A0 to A4.
std::string paperName(double width_mm, double height_mm);

}  // namespace belvedere::drawing
