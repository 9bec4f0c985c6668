// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/sun_findings.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "base/trade_figures.h"
#include "light/time_zone.h"
#include "optics/lens.h"
#include "proof/limits.h"

namespace belvedere::proof {
namespace {

using light::SunChart;
using light::SunState;
using light::SunYear;

bool asksForFaces(const design::Requirement& r) {
  return r.kind == design::RequirementKind::see &&
         (r.target.kind == design::TargetKind::face ||
          r.target.kind == design::TargetKind::face_child ||
          r.target.kind == design::TargetKind::face_seated);
}

// The middle of an outline, or of its edges where it lies outside.
Vec2 middleOf(const design::Zone& zone) {
  const Box2 box = bounds(zone.outline);
  const Vec2 middle = (box.low + box.high) * 0.5;
  if (contains(Polygon{zone.outline, zone.holes}, middle)) return middle;
  const auto at = std::min_element(zone.outline.begin(), zone.outline.end(), [&](Vec2 a, Vec2 b) {
    return norm(a - middle) < norm(b - middle);
  });
  return *at;
}

// What stands in the way of the light is no matter here, nor is it which way the face is turned for
// the moment: both are other findings.
bool wouldServe(Reason reason) {
  return reason == Reason::served || reason == Reason::too_dark || reason == Reason::unsharp;
}

// The day with most hours of a state, and how many.
std::pair<int, double> worstDay(const SunYear& year, const SunChart& chart, SunState state) {
  std::pair<int, double> worst{0, 0};
  for (int day = 0; day < year.days; ++day) {
    int steps = 0;
    for (int step = 0; step < year.steps_per_day; ++step)
      steps += chart.state[year.at(day, step)] == state;
    if (steps * year.hoursPerStep() > worst.second) worst = {day, steps * year.hoursPerStep()};
  }
  return worst;
}

// "5 Nov" of "2026-11-05".
std::string dayWords(const std::string& date) {
  static constexpr std::array<const char*, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const int month = std::stoi(date.substr(5, 2)), day = std::stoi(date.substr(8, 2));
  return fmt::format("{} {}", day, kMonths.at(static_cast<std::size_t>(month - 1)));
}

// "20 Oct to 21 Feb, between 09:15 and 15:15": the longest spell; one that goes on over the turn of the year is one.
std::string spellWords(const SunYear& year, const SunChart& chart) {
  if (chart.spells.empty()) return "never";
  std::vector<light::SunSpell> spells = chart.spells;
  if (spells.size() > 1 && spells.front().first_day == 0 && spells.back().last_day == year.days - 1) {
    light::SunSpell& last = spells.back();
    last.last_day = spells.front().last_day + year.days;
    last.from_h = std::min(last.from_h, spells.front().from_h);
    last.to_h = std::max(last.to_h, spells.front().to_h);
    spells.erase(spells.begin());
  }
  const auto longest = std::max_element(spells.begin(), spells.end(), [](const auto& a, const auto& b) {
    return a.last_day - a.first_day < b.last_day - b.first_day;
  });
  const auto day = [&](int at) { return dayWords(light::dateOf(year, at % year.days)); };
  const std::string days = longest->last_day - longest->first_day >= year.days - 1
                               ? "all year"
                               : fmt::format("{} to {}", day(longest->first_day), day(longest->last_day));
  return fmt::format("{}{}, between {} and {}", spells.size() > 1 ? "longest " : "", days,
                     clockText(longest->from_h), clockText(longest->to_h));
}

std::string hiddenWords(const SunChart& chart) {
  return chart.hidden_h > 0 ? fmt::format("; {:.0f} h hidden by what stands between", chart.hidden_h)
                            : std::string();
}

// How much farther down the imager must be tilted to have the sun in its picture no more; nothing where
// its model's limits forbid that, or a right angle does.
std::optional<double> tiltDown(const design::Design& design, const SunOfImager& of,
                               const SunYear& year, const light::Solids& solids,
                               const Progress& progress) {
  const design::Housing* housing = design::findHousing(design, of.view.housing);
  if (!housing) return {};
  design::Design alone;
  for (const design::ModelId& id : {housing->model, housing->mount.model})
    if (const design::Model* model = design::findModel(design, id))
      alone.catalogue.models.push_back(*model);
  alone.housings = {*housing};
  design::Aim* aim = nullptr;
  for (design::HousingImager& imager : alone.housings.front().imagers)
    if (imager.slot == of.view.slot && of.view.aim < imager.aims.size())
      aim = &imager.aims[of.view.aim];
  if (!aim) return {};
  const double now = aim->tilt_deg;
  // What the building hides now it hides then: a tilt moves the lens by centimetres at most.
  std::vector<std::uint8_t> asked(year.direction.size(), 0), open(year.direction.size(), 0);
  std::size_t last = 0;  // that was found in the picture: mostly it still is
  constexpr double kStepDeg = 1;
  for (double by = kStepDeg; now + by <= 90; by += kStepDeg) {
    if (progress.cancel.load(std::memory_order_relaxed)) return {};
    aim->tilt_deg = now + by;
    if (!withinLimits(alone, alone.housings.front())) return {};
    bool in_frame = false;
    for (const design::PosedImager& view :
         design::posedImagers(alone, design::JudgedOn::captured)) {
      if (view.slot != of.view.slot || view.aim != of.view.aim) continue;
      for (std::size_t k = 0; k < year.direction.size() && !in_frame; ++k) {
        const std::size_t i = (last + k) % year.direction.size();
        if (year.elevation_deg[i] <= 0) continue;
        const auto px = optics::project(view.lens, view.imager_from_site * year.direction[i]);
        if (!px || px->x < 0 || px->y < 0 || px->x > view.pixels[0] || px->y > view.pixels[1]) continue;
        if (!asked[i]) {
          open[i] = light::sunReaches(solids, of.view.lens_m, year.direction[i]);
          asked[i] = 1;
        }
        in_frame = open[i];
        if (in_frame) last = i;
      }
    }
    if (!in_frame) return by;
  }
  return {};
}

void sayFrames(const design::Design& design, const Place& place, const SunYear& year,
               const std::vector<SunOfImager>& all, const Progress& progress,
               std::vector<Finding>& out) {
  const light::Solids solids{&place.scene, &place.tree};
  std::vector<std::optional<double>> tilts(all.size());
  tbb::parallel_for(std::size_t{0}, all.size(), [&](std::size_t i) {
    if (all[i].chart.in_frame_h >= kSunWorthH) tilts[i] = tiltDown(design, all[i], year, solids, progress);
  });
  progress.throwIfCancelled();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& [view, chart] = all[i];
    const std::string hours = fmt::format(
        "about {:.0f} h a year, and {:.0f} h within {:g} degrees of it", chart.in_frame_h, chart.near_h,
        light::kSunNearDeg);
    if (chart.in_frame_h >= kSunWorthH) {
      const auto [day, day_h] = worstDay(year, chart, SunState::in_frame);
      const std::string mend =
          tilts[i] ? fmt::format("; tilted {:g} deg farther down it never has", *tilts[i])
                   : std::string("; no tilt within its limits keeps it out, so turn or shade it");
      out.push_back({"sun_in_frame", Severity::caution, {view.imager}, Quantity{0, "h"},
                     Quantity{chart.in_frame_h, "h"},
                     fmt::format("{}: the sun stands in its picture {} ({}; most on {}, {:.1f} h){}.",
                                 view.name, hours, spellWords(year, chart),
                                 dayWords(light::dateOf(year, day)),
                                 day_h, mend),
                     "9"});
    } else if (chart.near_h >= kNearWorthH) {
      out.push_back({"sun_near_frame", Severity::note, {view.imager}, Quantity{0, "h"},
                     Quantity{chart.near_h, "h"},
                     fmt::format("{}: the sun stands within {:g} degrees of its picture {:.0f} h a year "
                                 "({}): a hood keeps it off the lens.", view.name, light::kSunNearDeg,
                                 chart.near_h, spellWords(year, chart)),
                     "9"});
    }
  }
}

void sayBacklights(const SunYear& year, const std::vector<BacklightOf>& all,
                   std::vector<Finding>& out) {
  const light::Backlight limits;
  for (const BacklightOf& of : all) {
    if (of.chart.near_h < kBacklightWorthH) continue;
    const auto [day, day_h] = worstDay(year, of.chart, SunState::near);
    // Another imager that sees the same faces with the sun behind itself is the mend that needs nothing; one with
    // hardly less of it is none.
    constexpr double kMuchLess = 0.75;
    const BacklightOf* best = &of;
    for (const BacklightOf& other : all)
      if (other.requirement == of.requirement && other.chart.near_h < kMuchLess * of.chart.near_h &&
          other.chart.near_h < best->chart.near_h)
        best = &other;
    out.push_back(
        {"backlight", Severity::caution, {of.requirement.text, of.imager}, Quantity{0, "h"},
         Quantity{of.chart.near_h, "h"},
         fmt::format("{}: for {} the sun stands behind the faces, at most {:g} deg high, {:.0f} h a year "
                     "({}; most on {}, {:.1f} h){}.", of.requirement.text, of.imager, limits.low_deg,
                     of.chart.near_h, spellWords(year, of.chart), dayWords(light::dateOf(year, day)),
                     day_h,
                     best == &of ? std::string("; look from the other side, or shade what lets it in")
                                 : fmt::format("; for {} only {:.0f} h", best->imager,
                                               best->chart.near_h)),
         "9"});
  }
}

}  // namespace

std::string frameWords(const SunYear& year, const SunChart& chart) {
  if (chart.spells.empty()) return "never in or near the picture" + hiddenWords(chart);
  const bool in_it = chart.in_frame_h > 0;
  const auto [day, day_h] = worstDay(year, chart, in_it ? SunState::in_frame : SunState::near);
  return fmt::format("{:.0f} h in the picture and {:.0f} h within {:g} degrees of it ({}; most on {}, {:.1f} h){}",
                     chart.in_frame_h, chart.near_h, light::kSunNearDeg, spellWords(year, chart),
                     dayWords(light::dateOf(year, day)), day_h, hiddenWords(chart));
}

std::string backlightWords(const SunYear& year, const SunChart& chart) {
  if (chart.spells.empty()) return "never behind the faces" + hiddenWords(chart);
  const auto [day, day_h] = worstDay(year, chart, SunState::near);
  return fmt::format("{:.0f} h behind the faces ({}; most on {}, {:.1f} h){}", chart.near_h,
                     spellWords(year, chart), dayWords(light::dateOf(year, day)), day_h, hiddenWords(chart));
}

std::vector<SunOfImager> sunOfImagers(const design::Design& design, const Place& place,
                                      const SunYear& year, const Progress& progress,
                                      const std::string& only) {
  std::vector<SunOfImager> out;
  for (design::PosedImager& view : design::posedImagers(design, design::JudgedOn::captured))
    if (only.empty() || view.imager == only) out.push_back({std::move(view), {}});
  tbb::parallel_for(std::size_t{0}, out.size(), [&](std::size_t i) {
    if (progress.cancel.load(std::memory_order_relaxed)) return;
    out[i].chart = light::sunChart(year, out[i].view, {&place.scene, &place.tree});
  });
  progress.throwIfCancelled();
  return out;
}

std::vector<BacklightOf> backlights(const design::Design& design,
                                    const std::filesystem::path& folder, const SunYear& year,
                                    const Progress& progress, const std::string& only,
                                    const design::SituationId& in) {
  std::vector<BacklightOf> out;
  std::map<std::string, std::shared_ptr<const Place>> places;
  for (const design::Requirement& r : design.brief) {
    const design::Zone* zone = design::findZone(design, r.zone);
    const auto situations = design::situationsOf(design, r);
    if (!asksForFaces(r) || !zone || situations.empty()) continue;
    progress.throwIfCancelled();
    const auto wanted = std::ranges::find(situations, in, &design::Situation::id);
    const design::Situation& situation = wanted == situations.end() ? situations.front() : *wanted;
    auto& place = places[situation.id.text];
    if (!place) place = makePlace(design, situation, folder);
    const Question q = makeQuestion(design, r, situation, place);
    const Vec2 spot = middleOf(*zone);
    const Vec3 at_m = withZ(spot, q.floor.at(spot) + 0.5 * (q.low_m + q.high_m));
    const std::size_t first = out.size();
    std::vector<Vec3> lenses;
    for (std::size_t v = 0; v < q.views.size(); ++v) {
      if (!only.empty() && q.views[v].imager != only) continue;
      // One of several pictures of it is enough.
      if (std::any_of(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                      [&](const BacklightOf& of) { return of.imager == q.views[v].name; }))
        continue;
      if (!wouldServe(answerOf(q, v, spot, sampledHeights(r.target)).reason)) continue;
      out.push_back({r.id, situation.id, q.views[v].name, at_m, {}});
      lenses.push_back(q.views[v].lens_m);
    }
    tbb::parallel_for(std::size_t{0}, lenses.size(), [&](std::size_t i) {
      if (progress.cancel.load(std::memory_order_relaxed)) return;
      out[first + i].chart =
          light::backlightChart(year, lenses[i], at_m, {&place->scene, &place->tree});
    });
  }
  progress.throwIfCancelled();
  return out;
}

std::vector<Finding> timeZoneFindings(const design::Design& design, int year) {
  if (!design.site.place || design.site.place->time_zone.empty() ||
      light::standardOffsetH(design.site.place->time_zone, year))
    return {};
  return {{"time_zone_unknown", Severity::note, {}, {}, {},
           fmt::format("The time zone \"{}\" is not known here: hours of the sun are those of UTC{:+g}, as the "
                       "longitude suggests. Write it as the IANA database does, such as Europe/Berlin.",
                       design.site.place->time_zone,
                       light::sunYear(*design.site.place, year, 1).utc_offset_h),
           "9"}};
}

std::vector<Finding> sunFindings(const design::Design& design, const std::filesystem::path& folder,
                                 const Progress& progress) {
  if (!design.site.place || design.housings.empty()) return {};
  std::vector<Finding> out = timeZoneFindings(design, kFindingsYear);
  const SunYear year = light::sunYear(*design.site.place, kFindingsYear);
  const auto place = makePlace(design, design::situationsOf(design).front(), folder);
  sayFrames(design, *place, year, sunOfImagers(design, *place, year, progress), progress, out);
  sayBacklights(year, backlights(design, folder, year, progress), out);
  return out;
}

}  // namespace belvedere::proof
