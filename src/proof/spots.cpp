// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/spots.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "proof/lattice.h"
#include "proof/range.h"

namespace belvedere::proof {
namespace {

// Beyond this many views a site is large: imagers that are far too distant to serve anywhere in
// the zone are not asked why.
constexpr std::size_t kManyViews = 64;
constexpr double kFarSlack = 4;  // times the distance at which the density would just be reached

// A question with only those imagers whose reasons could be of interest, and of these the ones that
// could be dense enough somewhere in the zone.
struct Nearby {
  Question wide;
  std::optional<Question> close;            // of a large site
  std::vector<std::uint32_t> view_of;       // per view of `close`: which of `wide` it is
  std::vector<std::uint32_t> imager_of;     // per imager of `close`, likewise
};

Question onlyViews(const Question& q, const std::vector<std::uint32_t>& kept) {
  Question only = q;
  std::vector<design::PosedImager> views;
  for (const std::uint32_t i : kept) views.push_back(q.views[i]);
  replaceViews(only, std::move(views));
  return only;
}

Nearby nearby(const Question& q) {
  if (q.views.size() <= kManyViews) return {q, {}, {}, {}};
  Nearby out{onlyViews(q, viewsInRange(q, kFarSlack)), {}, {}, {}};
  out.view_of = viewsInRange(out.wide);
  out.close = onlyViews(out.wide, out.view_of);
  for (const std::string& imager : out.close->imagers)
    out.imager_of.push_back(static_cast<std::uint32_t>(
        std::ranges::find(out.wide.imagers, imager) - out.wide.imagers.begin()));
  return out;
}

struct Asked {
  Answer answer;              // its view is one of `wide`
  std::vector<Answer> all;    // by the imagers of `of`
  const Question* of = nullptr;
  std::size_t imager(const Nearby& near, std::size_t i) const {
    return of == &near.wide ? i : near.imager_of[i];
  }
};

// What is too far away anywhere in the zone to be dense enough fails at density at the latest, so
// that it changes nothing where an imager that is near enough gets further.
Asked askAt(const Nearby& near, Vec2 spot, int heights) {
  Asked out;
  if (near.close) {
    out.of = &*near.close;
    out.answer = answerAt(*out.of, spot, heights, &out.all);
    if (out.answer.reason == Reason::served || out.answer.reason > Reason::too_coarse) {
      out.answer.view = static_cast<int>(near.view_of[static_cast<std::size_t>(out.answer.view)]);
      return out;
    }
  }
  out.of = &near.wide;
  out.answer = answerAt(near.wide, spot, heights, &out.all);
  return out;
}

// Calls with every spot inside the region, rows in parallel. fn(column, row, place).
template <class Fn>
void eachSpot(const Lattice& lattice, const Region& region, const Progress& progress, Fn fn) {
  tbb::parallel_for(0, lattice.rows, [&](int row) {
    for (int column = 0; column < lattice.columns; ++column) {
      if (progress.cancel.load(std::memory_order_relaxed)) return;
      const Vec2 p = lattice.centre(column, row);
      if (contains(region, p)) fn(column, row, p);
    }
  });
  progress.throwIfCancelled();
}

// Per imager: would a spot that is served be so no longer without it? `all`: each imager's answer
// there, for the facing that it serves best.
std::vector<bool> neededAt(const Question& q, Vec2 spot, int heights, const std::vector<Answer>& all) {
  std::vector<bool> needed(all.size());
  const auto count = [&](const std::vector<bool>& serves) {
    if (std::count(serves.begin(), serves.end(), true) != q.imagers_needed) return;
    for (std::size_t i = 0; i < serves.size(); ++i) needed[i] = needed[i] || serves[i];
  };
  if (!q.every_facing) {
    std::vector<bool> serves;
    for (const Answer& answer : all) serves.push_back(answer.reason == Reason::served);
    count(serves);
    return needed;
  }
  for (std::size_t facing = 0; facing < q.facings.size(); ++facing) {
    std::vector<bool> serves(all.size());
    for (std::size_t v = 0; v < q.views.size(); ++v)
      if (answerOf(q, v, spot, heights, static_cast<int>(facing)).reason == Reason::served)
        serves[static_cast<std::size_t>(q.imager_of[v])] = true;
    count(serves);
  }
  return needed;
}

}  // namespace

SpotMap spotMap(const Question& question, double cell_m, std::size_t spots_most,
                const Progress& progress) {
  const Nearby near = nearby(question);
  const Question& q = near.wide;
  const Lattice lattice = latticeOf(q.region, cell_m, spots_most);
  SpotMap map;
  map.requirement = q.requirement->id;
  map.situation = q.situation.id;
  map.origin = lattice.origin;
  map.turn_deg = lattice.turn_deg;
  map.cell_m = lattice.cell_m;
  map.columns = lattice.columns;
  map.rows = lattice.rows;
  map.imagers = q.imagers;
  map.needed_px_per_m = q.needed_px_per_m;
  map.spots.resize(static_cast<std::size_t>(map.columns) * static_cast<std::size_t>(map.rows));
  const int heights = sampledHeights(q.requirement->target);
  eachSpot(lattice, q.region, progress, [&](int column, int row, Vec2 p) {
    Spot& spot = map.spots[static_cast<std::size_t>(row) * static_cast<std::size_t>(map.columns) +
                           static_cast<std::size_t>(column)];
    spot.inside = true;
    const Answer answer = askAt(near, p, heights).answer;
    spot.reason = answer.reason;
    spot.margin = static_cast<float>(answer.measure.margin);
    if (answer.view < 0) return;
    spot.px_per_m = static_cast<float>(answer.px_per_m);
    spot.imager = static_cast<std::int16_t>(q.imager_of[static_cast<std::size_t>(answer.view)]);
  });
  return map;
}

void summariseSpots(const Question& question, double cell_m, std::size_t spots_most,
                    RequirementProof& into, const Progress& progress) {
  const Nearby near = nearby(question);
  const Question& q = near.wide;
  const Lattice lattice = latticeOf(q.region, cell_m, spots_most);
  struct Row {
    std::size_t spots = 0;
    std::array<std::size_t, kReasonCount> reasons{};
    std::map<int, std::array<std::size_t, 2>> imagers;  // serves, alone
    std::optional<Answer> worst;
    Vec2 worst_at;
  };
  std::vector<Row> rows(static_cast<std::size_t>(lattice.rows));
  const int heights = sampledHeights(q.requirement->target);
  eachSpot(lattice, q.region, progress, [&](int, int row_index, Vec2 p) {
    Row& row = rows[static_cast<std::size_t>(row_index)];
    const Asked asked = askAt(near, p, heights);
    const std::vector<Answer>& all = asked.all;
    const Answer& answer = asked.answer;
    ++row.spots;
    ++row.reasons[static_cast<std::size_t>(answer.reason)];
    const bool served = answer.reason == Reason::served;
    const std::vector<bool> needed =
        served ? neededAt(*asked.of, p, heights, all) : std::vector<bool>(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].reason != Reason::served) continue;
      auto& counts = row.imagers[static_cast<int>(asked.imager(near, i))];
      ++counts[0];
      if (needed[i]) ++counts[1];
    }
    if (!row.worst || better(*row.worst, answer)) {
      row.worst = answer;
      row.worst_at = p;
    }
  });

  std::size_t spots = 0;
  std::array<std::size_t, kReasonCount> reasons{};
  std::map<int, std::array<std::size_t, 2>> imagers;
  std::optional<Answer> worst;
  Vec2 worst_at;
  for (const Row& row : rows) {
    spots += row.spots;
    for (std::size_t i = 0; i < reasons.size(); ++i) reasons[i] += row.reasons[i];
    for (const auto& [imager, counts] : row.imagers) {
      imagers[imager][0] += counts[0];
      imagers[imager][1] += counts[1];
    }
    if (row.worst && (!worst || better(*worst, *row.worst))) {
      worst = row.worst;
      worst_at = row.worst_at;
    }
  }
  if (spots == 0) return;
  const double each = 1.0 / static_cast<double>(spots);
  into.reasons.clear();
  for (int i = 1; i < kReasonCount; ++i)
    if (reasons[static_cast<std::size_t>(i)] > 0)
      into.reasons.push_back({static_cast<Reason>(i),
                              static_cast<double>(reasons[static_cast<std::size_t>(i)]) * each});
  std::stable_sort(into.reasons.begin(), into.reasons.end(),
                   [](const ReasonShare& a, const ReasonShare& b) { return a.share > b.share; });
  into.imagers.clear();
  for (const auto& [imager, counts] : imagers)
    into.imagers.push_back({q.imagers[static_cast<std::size_t>(imager)],
                            static_cast<double>(counts[0]) * each,
                            static_cast<double>(counts[1]) * each});
  WorstSpot spot;
  spot.at = withZ(worst_at, q.floor.at(worst_at));
  spot.reason = worst->reason;
  if (worst->view >= 0) {
    const design::PosedImager& view = q.views[static_cast<std::size_t>(worst->view)];
    spot.imager = view.imager;
    spot.name = view.name;
  }
  spot.measure = worst->measure;
  spot.height_m = worst->height_m;
  into.worst = spot;
}

}  // namespace belvedere::proof
