// SPDX-License-Identifier: GPL-3.0-or-later
//
// A housing on the plan: a ring of fixed size, one arc per imager (its field), a knob for its axis,
// ticks where the model stops its pan.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <unordered_map>

#include "base/units.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kTrackMm = 0.75;  // between the tracks of imagers whose fields overlap
constexpr double kSteep = 0.985;   // an axis nearer to straight down (80 deg) has no bearing

struct Field {
  std::string imager;
  int slot = 1;
  std::size_t aim = 0;
  bool steep = false;
  double axis_deg = 0, from_deg = 0, to_deg = 0;
  int track = 0;
};

// The field of one view as bearings: its width across the picture, or upright when it is rolled.
Field fieldOf(const design::PosedImager& view) {
  const Vec3 right = view.imager_from_site.row[0], forward = view.imager_from_site.row[2];
  Field field{view.imager, view.slot, view.aim, std::abs(forward.z) > kSteep, 0, 0, 360, 0};
  if (field.steep) return field;
  field.axis_deg = wrap360(radToDeg(std::atan2(forward.x, forward.y)));
  const double level = std::sqrt(1 - forward.z * forward.z);
  const bool rolled = std::abs(right.z) > level * std::sqrt(0.5);
  const double half = 0.5 * std::min(rolled ? view.vfov_deg : view.hfov_deg, 360.0);
  field.from_deg = field.axis_deg - half;
  field.to_deg = field.axis_deg + half;
  return field;
}

bool overlap(const Field& a, const Field& b) {
  const double middle_a = 0.5 * (a.from_deg + a.to_deg), middle_b = 0.5 * (b.from_deg + b.to_deg);
  const double reach = 0.5 * (a.to_deg - a.from_deg + b.to_deg - b.from_deg);
  return std::abs(wrap180(middle_a - middle_b)) < reach - 1e-9;
}

std::vector<Field> fieldsOf(const Dial& dial) {
  std::vector<Field> fields;
  for (const design::PosedImager* view : dial.imagers) {
    Field field = fieldOf(*view);
    // The same aim may be there once for each stream it is judged on.
    const bool known = std::any_of(fields.begin(), fields.end(), [&](const Field& f) {
      return f.imager == field.imager && f.axis_deg == field.axis_deg &&
             f.from_deg == field.from_deg;
    });
    if (known) continue;
    for (bool clash = true; clash && field.track < 2;) {
      clash = std::any_of(fields.begin(), fields.end(), [&](const Field& f) {
        return f.track == field.track && overlap(f, field);
      });
      if (clash) ++field.track;
    }
    fields.push_back(field);
  }
  return fields;
}

Vec2 toward(Vec2 centre, double bearing_deg, double radius_mm) {
  const double b = degToRad(bearing_deg);
  return centre + Vec2{std::sin(b), -std::cos(b)} * radius_mm;
}

// Bearings on the site at which the model stops a pan; none when it turns all round or not at all.
std::vector<double> stopsOf(const design::Design& design, const design::Housing& housing) {
  std::vector<double> stops;
  const design::Model* model = design::findModel(design, housing.model);
  if (!model) return stops;
  for (const design::ModelImager& imager : model->imagers) {
    const double travel = imager.pan_deg[1] - imager.pan_deg[0];
    if (travel <= 0 || travel >= 360) continue;
    for (const double pan : imager.pan_deg)
      stops.push_back(wrap360(housing.mount.base_bearing_deg + pan));
  }
  return stops;
}

bool inMono(const Sheet& sheet, const std::string& imager) {
  const light::ImagerState* state = sheet.night ? sheet.night->stateOf(imager) : nullptr;
  return state && state->mode == light::Mode::mono;
}

// " mono", " colour", or " mono 1 3" where the imagers differ.
std::string stateWords(const Sheet& sheet, const Dial& dial) {
  if (!sheet.night) return {};
  std::set<int> mono, all;
  for (const design::PosedImager* view : dial.imagers) {
    all.insert(view->slot);
    if (inMono(sheet, view->imager)) mono.insert(view->slot);
  }
  if (all.empty()) return {};
  if (mono.empty()) return " " + said("colour");
  if (mono == all) return " " + said("mono");
  std::string words = " " + said("mono");
  for (const int slot : mono) words += fmt::format(" {}", slot);
  return words;
}

}  // namespace

std::vector<Dial> dialsOf(const Sheet& sheet, const ToPaper& to_paper) {
  std::vector<Dial> dials;
  std::unordered_map<std::string_view, std::size_t> dial_of;
  for (const design::Housing& housing : sheet.design->housings)
    if (housing.life != design::Life::removed && drawnOn(sheet.design, housing, storeyOf(sheet))) {
      dial_of.emplace(housing.id.text, dials.size());
      Dial dial;
      dial.housing = &housing;
      dial.at = to_paper(housing.mount.fixing_m.xy());
      dials.push_back(std::move(dial));
    }
  for (const design::PosedImager& view : sheet.imagers)
    if (const auto found = dial_of.find(view.housing.text); found != dial_of.end())
      dials[found->second].imagers.push_back(&view);
  return dials;
}

namespace {
double trackRadius(const Dial& dial, int track) {
  return dial.radius_mm - (0.8 + kTrackMm * track) * dial.radius_mm / kDialRadiusMm;
}
}  // namespace

std::vector<Knob> knobsOf(const Dial& dial) {
  std::vector<Knob> knobs;
  for (const Field& field : fieldsOf(dial))
    if (!field.steep)
      knobs.push_back({field.imager, field.slot, field.aim,
                       toward(dial.at, field.axis_deg, trackRadius(dial, field.track))});
  return knobs;
}

void paintDial(Canvas& canvas, const Sheet& sheet, const Dial& dial, Taken& taken,
               Occurs& occurs) {
  const Inks& inks = sheet.inks;
  const std::vector<Field> fields = fieldsOf(dial);
  int tracks = 1;
  for (const Field& field : fields) tracks = std::max(tracks, field.track + 1);
  const double outer = dial.radius_mm, large = outer / kDialRadiusMm;
  canvas.fill({{[&] {
                 Ring disc;
                 for (int i = 0; i < 72; ++i) disc.push_back(toward(dial.at, 5.0 * i, outer));
                 return disc;
               }(), {}}},
              inks.paper);
  const bool existing = dial.housing->life == design::Life::existing;
  canvas.ring(dial.at, outer, {existing ? inks.quiet : inks.ink, 0.18});
  for (const double stop : stopsOf(sheet.design, *dial.housing)) {
    canvas.line(toward(dial.at, stop, outer - 0.4), toward(dial.at, stop, outer + 1.1),
                {inks.ink, 0.25});
    occurs.stops = true;
  }
  for (const Field& field : fields) {
    const bool selected = field.imager == sheet.selected_imager;
    const bool in_hand = field.aim == (selected ? sheet.selected_aim : 0);
    const Rgb ink = selected ? inks.accent : inks.ink;
    const double radius = trackRadius(dial, field.track);
    const Stroke stroke{ink, (in_hand ? 0.42 : 0.2) * std::sqrt(large)};
    if (field.steep || field.to_deg - field.from_deg >= 360) {
      canvas.ring(dial.at, radius, stroke);
    } else {
      canvas.arc(dial.at, radius, field.from_deg, field.to_deg, stroke);
    }
    if (field.steep) continue;
    const Vec2 knob = toward(dial.at, field.axis_deg, radius);
    if (inMono(sheet, field.imager)) {
      canvas.disc(knob, 0.75 * large, inks.paper);
      canvas.ring(knob, 0.65 * large, {ink, 0.25 * std::sqrt(large)});
      occurs.in_mono = true;
    } else {
      canvas.disc(knob, 0.55 * large, ink);
    }
  }
  canvas.disc(dial.at, 0.4, inks.ink);
  paintDialLamps(canvas, sheet, dial, occurs);

  occurs.dials = true;
  if (!dial.named) return;
  const Lettering lettering{inks.ink, 9, true, Align::left};
  const Lettering state_lettering{inks.quiet, 9};
  const std::string& name = dial.housing->id.text;
  const std::string state = stateWords(sheet, dial);
  const double name_width = canvas.width(name, lettering);
  const double width = name_width + canvas.width(state, state_lettering), capital = 0.73 * 9 * kMmPerPt;
  const double off = dialReachMm(sheet, dial) + 1.2;
  const Vec2 places[] = {{off, 0.5 * capital},
                         {-off - width, 0.5 * capital},
                         {-0.5 * width, -off},
                         {-0.5 * width, off + capital},
                         {0.7 * off, -0.7 * off},
                         {0.7 * off, 0.7 * off + capital},
                         {-0.7 * off - width, -0.7 * off},
                         {-0.7 * off - width, 0.7 * off + capital}};
  Box2 best;
  double least = 1e300;
  for (const Vec2 place : places) {
    const Vec2 at = dial.at + place;
    const Box2 box{{at.x - 0.4, at.y - capital - 0.5}, {at.x + width + 0.4, at.y + 0.5}};
    const double over = taken.overlap(box);
    if (over < least) {
      least = over;
      best = box;
    }
  }
  canvas.fillBox(best, inks.paper, 0.8);
  canvas.text({best.low.x + 0.4, best.high.y - 0.5}, name, lettering);
  if (!state.empty())
    canvas.text({best.low.x + 0.4 + name_width, best.high.y - 0.5}, state, state_lettering);
  taken.add(best);
}

}  // namespace belvedere::drawing
