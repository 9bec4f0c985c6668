// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/uneven_findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "proof/lattice.h"
#include "proof/question.h"
#include "proof/range.h"

namespace belvedere::proof {
namespace {

constexpr int kSteps = 24, kMostSteps = 400;  // as fine as slanting strips ask for
constexpr double kInside_m = 0.05;            // off what a zone ends at, whose foot lies in its own shadow
constexpr std::size_t kSpotsMost = 400;
constexpr double kSpot_m = 0.5;
constexpr double kRatioMost = light::kRatioMarginal;

// Three digits are more than a light meter gives.
std::string lux(double value) { return fmt::format("{:.{}f}", value, value >= 9.95 ? 0 : value >= 0.995 ? 1 : 3); }

// Not less than that, of the same digits.
std::string luxUp(double value) {
  const double digit = value >= 9.95 ? 1 : value >= 0.995 ? 0.1 : 0.001;
  return lux(std::ceil(value / digit - 1e-9) * digit);
}

// Places along the edge, at most so far apart, a little inside.
std::vector<Vec2> alongEdge(const Region& region, double step_m) {
  std::vector<Vec2> out;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()], way = b - a;
      const int count = std::max(1, static_cast<int>(std::ceil(norm(way) / step_m)));
      const Vec2 on = way * (kInside_m / std::max(norm(way), 1e-9)), off{on.y, -on.x};
      std::vector<Vec2> places;
      for (int k = 0; k < count; ++k)
        for (const Vec2 side : {off, -off}) places.push_back(a + way * ((k + 0.5) / count) + side);
      // Corners aslant: beside them one may stand on another edge.
      for (const Vec2 corner : {on + off, on - off, -on + off, -on - off}) places.push_back(a + corner);
      std::ranges::copy_if(places, std::back_inserter(out), [&](Vec2 p) { return contains(region, p); });
    }
  };
  for (const auto& piece : region) {
    add(piece.outer);
    for (const Ring& hole : piece.holes) add(hole);
  }
  return out;
}

struct Behind {
  Vec3 at;
  double toward_lux = 0, behind_lux = 0;
  double ratio() const { return toward_lux > 0 ? behind_lux / toward_lux : behind_lux > 0 ? 1e9 : 0; }
};

// What lamps of cameras add on a face turned to the lens, as lux; nothing where there are no lux to compare it with.
std::optional<double> lampsAsLux(const Question& q, std::size_t view, const Vec3& at) {
  const light::ImagerLight& own = *q.conditions[view].light;
  const double lamps = light::lampLightFor(own, q.solids(), at);
  if (!(lamps > 0)) return 0;
  if (q.conditions[view].by_lamps_alone) return {};
  return lamps * light::lampWeight(own.needed) * *own.needed.lux;
}

// Of who stands at a place: the light on the side to the lens and on the far side, where that is by far the more.
std::optional<Behind> behindAt(const Question& q, std::size_t view, const Vec3& at,
                               std::array<light::Blockers, 2>& blockers) {
  const light::SituationLight& light = q.lighting->light.light;
  const light::Solids solids = q.solids();
  const Vec3 normal = light::facingInPlan(at, q.views[view].lens_m);
  // With nothing between, shadows need not be asked for.
  const double open_lux = light::illuminanceAt(light, {}, at, normal * -1.0);
  if (light::illuminanceReaches(light, solids, at, normal, open_lux / kRatioMost, &blockers[0])) return {};
  const Behind found{at,
                     light::illuminanceAt(light, solids, at, normal, &blockers[0]) +
                         lampsAsLux(q, view, at).value_or(0),
                     light::illuminanceAt(light, solids, at, normal * -1.0, &blockers[1])};
  if (found.behind_lux <= kRatioMost * found.toward_lux) return {};
  return found;
}

void litFromBehind(const Question& whole, std::vector<Finding>& out, const Progress& progress) {
  Question q = whole;
  std::vector<design::PosedImager> near;
  for (const std::uint32_t i : viewsInRange(whole)) near.push_back(whole.views[i]);
  replaceViews(q, std::move(near));
  const Lattice lattice = latticeOf(q.region, kSpot_m, kSpotsMost);
  std::vector<Vec2> spots;
  for (int row = 0; row < lattice.rows; ++row)
    for (int column = 0; column < lattice.columns; ++column)
      if (const Vec2 p = lattice.centre(column, row); contains(q.region, p)) spots.push_back(p);
  const int heights = sampledHeights(q.requirement->target);
  for (std::size_t v = 0; v < q.views.size(); ++v) {
    progress.throwIfCancelled();
    const std::optional<light::ImagerLight>& own = q.conditions[v].light;
    if (!own || own->level) continue;
    const auto middleOver = [&](Vec2 p) { return withZ(p, q.floor.at(p) + 0.5 * (q.low_m + q.high_m)); };
    // Whether one is served costs more to know: it is asked where the rest holds.
    const auto counts = [&](Vec2 p) {
      return answerOf(q, v, p, heights).reason == Reason::served && lampsAsLux(q, v, middleOver(p));
    };
    std::size_t dark = 0, not_dark = 0;
    Behind found;
    std::vector<Vec2> others;
    std::array<light::Blockers, 2> blockers;
    for (const Vec2 p : spots) {
      const Vec3 at = middleOver(p);
      if (q.height_share >= 1 && !framesPlace(q.views[v], at)) continue;
      const auto here = behindAt(q, v, at, blockers);
      if (!here) others.push_back(p);
      else if (counts(p) && (dark++ == 0 || here->ratio() > found.ratio())) found = *here;
    }
    if (dark == 0) continue;
    not_dark = static_cast<std::size_t>(std::ranges::count_if(others, counts));
    const std::string share =
        fmt::format("{:.0f}", 100.0 * static_cast<double>(dark) / static_cast<double>(dark + not_dark));
    out.push_back(
        {"lit_from_behind", Severity::caution,
         {q.requirement->id.text, q.situation.id.text, q.views[v].imager}, Quantity{kRatioMost, ":1"},
         Quantity{std::min(found.ratio(), 1e6), ":1"},
         fmt::format("{} ({}): who stands at about {} % of the spots that {} serves has the light behind: at "
                     "({:.2f}, {:.2f}) {} lx fall on the side to the lens and {} lx on the far side, where {:g} "
                     "times is still marginal. Bright enough to be served, they may stand dark before a bright "
                     "ground: light them from the camera's side, or look from the light's.",
                     q.requirement->id.text, q.situation.id.text, share == "0" ? "under 1" : share,
                     q.views[v].name, found.at.x, found.at.y, lux(found.toward_lux),
                     lux(found.behind_lux), kRatioMost),
         "9"});
  }
}

}  // namespace

std::optional<ZoneEvenness> evennessOver(const Region& region, const scene::Floor& floor,
                                            const light::SituationLight& light,
                                            const light::Solids& solids) {
  if (region.empty()) return {};
  light::Blockers blockers;
  std::vector<Vec2> places;
  std::vector<double> lux;
  const auto ask = [&](Vec2 p) {
    places.push_back(p);
    lux.push_back(light::illuminanceAt(light, solids, withZ(p, floor.at(p)), light::kUp, &blockers));
  };
  const Box2 box = bounds(region);
  const Vec2 size = box.high - box.low;
  double step_m = 0;
  for (int steps = kSteps; lux.empty() && steps <= kMostSteps; steps *= 2) {
    step_m = std::max(size.x, size.y) / steps;
    for (double y = box.low.y + 0.5 * std::min(step_m, size.y); y < box.high.y; y += step_m)
      for (double x = box.low.x + 0.5 * std::min(step_m, size.x); x < box.high.x; x += step_m)
        if (contains(region, {x, y})) ask({x, y});
  }
  if (lux.empty()) return {};
  const double mean_lux = light::evennessOf(lux).mean_lux;  // of the lattice alone
  for (const Vec2 p : alongEdge(region, step_m)) ask(p);
  for (const light::Luminaire& luminaire : light.luminaires)
    if (contains(region, luminaire.at_m.xy())) ask(luminaire.at_m.xy());
  ZoneEvenness out{light::evennessOf(lux), {}, {}};
  const auto placeOf = [&](auto found) { return places[static_cast<std::size_t>(found - lux.begin())]; };
  out.least_at = placeOf(std::ranges::min_element(lux));
  out.most_at = placeOf(std::ranges::max_element(lux));
  out.mean_lux = mean_lux;
  if (out.mean_lux > 0) out.uniformity = out.least_lux / out.mean_lux;
  return out;
}

std::vector<Finding> unevenFindings(const design::Design& design, const design::Situation& situation,
                                    std::shared_ptr<const Place> place, std::shared_ptr<const Lighting> lighting,
                                    const Progress& progress) {
  std::vector<Finding> out;
  if (lighting->light.light.luminaires.empty()) return out;
  std::vector<std::string> said;  // zones
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see) continue;
    const std::vector<design::Situation> asked = design::situationsOf(design, r);
    if (std::ranges::find(asked, situation.id, &design::Situation::id) == asked.end()) continue;
    progress.throwIfCancelled();
    const Question q = makeQuestion(design, r, situation, place, lighting);
    if (q.region.empty()) continue;
    litFromBehind(q, out, progress);
    if (std::ranges::find(said, r.zone.text) != said.end()) continue;
    said.push_back(r.zone.text);
    const auto even = evennessOver(q.region, q.floor, q.lighting->light.light, q.solids());
    if (!even || light::ratioClass(*even) != light::RatioClass::worse || even->most_lux <= 0) continue;
    out.push_back({"light_uneven", Severity::caution, {r.zone.text, situation.id.text},
                   Quantity{kRatioMost, ":1"}, Quantity{even->ratio.value_or(1e6), ":1"},
                   fmt::format("{} ({}): {} lx at ({:.2f}, {:.2f}) and {} lx at ({:.2f}, {:.2f}) on its floor, {}: over "
                               "the {:g}:1 that is still marginal for a camera (UFC 4-021-02NF, table 4-3): what suits "
                               "the light end is black at the other. {} lx where it is least would do; or "
                               "dim what is lightest, or take a camera with a stated range for it.",
                               r.zone.text, situation.id.text, lux(even->least_lux), even->least_at.x,
                               even->least_at.y, lux(even->most_lux), even->most_at.x, even->most_at.y,
                               even->ratio ? fmt::format("{:.1f}:1", *even->ratio) : "with no end to the ratio",
                               kRatioMost, luxUp(even->most_lux / kRatioMost)),
                   "9"});
  }
  return out;
}

}  // namespace belvedere::proof
