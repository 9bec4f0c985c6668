// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/preview_view.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "optics/density.h"

namespace belvedere::proof {
namespace {

using Heights = std::uint8_t;  // a bit for each height that has passed all tests so far
constexpr std::size_t kHeightsMost = 8;

// Arrays that every batch of a thread uses again.
struct Scratch {
  std::vector<double> x, y, z;     // directions in the imager's frame, at the floor
  std::vector<double> tangent2;    // square of the horizontal tangent's part along the axis
  std::vector<std::uint32_t> below;  // points straight below or above the lens
  std::vector<Vec3> dirs;
  std::array<std::vector<Vec2>, kHeightsMost> px;      // one in use where nothing is masked
  std::array<std::vector<float>, kHeightsMost> px_per_m;
  std::vector<Heights> passed;
  std::vector<std::uint32_t> asked;  // points whose sight is asked for
  std::vector<Vec3> targets;
  std::vector<std::uint8_t> hidden;
  std::vector<Rank> ranks;
  std::vector<float> lowest;
};

void toImager(const design::PosedImager& view, std::span<const Vec3> points, Scratch& s) {
  const std::size_t n = points.size();
  s.x.resize(n);
  s.y.resize(n);
  s.z.resize(n);
  s.tangent2.resize(n);
  s.below.clear();
  const auto& row = view.imager_from_site.row;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec3 sight = points[i] - view.lens_m;
    s.x[i] = dot(row[0], sight);
    s.y[i] = dot(row[1], sight);
    s.z[i] = dot(row[2], sight);
    const double across2 = sight.x * sight.x + sight.y * sight.y;
    const double along = row[2].x * sight.y - row[2].y * sight.x;
    s.tangent2[i] = along * along / across2;
    if (across2 < 1e-18) s.below.push_back(static_cast<std::uint32_t>(i));
  }
}

// The density across of handbook 4 for the radial family, from where a point p lands, without
// another angle. With e the unit vector from the axis to p in the picture, rho and d the distances
// of p from the axis and the lens, the tangent t has J t = s t.e' e' + r'(theta) (dtheta) e, where
// s = r / rho. Since t is square to p, dtheta along t is -t.z / rho, and the part of t along e' has
// the square 1 - t.z^2 d^2 / rho^2. r' follows from r: F (1 + (k r/F)^2) for k >= 0 and
// F sqrt(1 - (k r/F)^2) for k < 0. Closed form tried against densityAt in the tests.
struct RadialDensity {
  double f2, k2_over_f2, centre_x, centre_y;
  bool sine;
  explicit RadialDensity(const optics::RadialLens& lens)
      : f2(lens.f_px * lens.f_px), k2_over_f2(lens.k * lens.k / f2), centre_x(lens.centre_px.x),
        centre_y(lens.centre_px.y), sine(lens.k < 0) {}
  // Square of the density, (px/m)^2.
  double operator()(double x, double y, double z, double tangent2, Vec2 at_px) const {
    const double rho2 = x * x + y * y, d2 = rho2 + z * z;
    const double u = at_px.x - centre_x, v = at_px.y - centre_y;
    const double r2 = u * u + v * v, kr2 = k2_over_f2 * r2;
    const double slope2 = f2 * (sine ? 1 - kr2 : (1 + kr2) * (1 + kr2));
    const bool off_axis = rho2 > 1e-16 * d2;
    const double inverse = 1 / (off_axis ? rho2 : d2);
    const double off = inverse * (r2 + tangent2 * (slope2 - r2 * inverse * d2));
    return off_axis ? off : f2 * inverse;
  }
};

bool inFrame(const design::PosedImager& view, Vec2 p) {
  return (p.x >= view.frame_low_px.x) & (p.x <= view.frame_high_px.x) &
         (p.y >= view.frame_low_px.y) & (p.y <= view.frame_high_px.y);
}

// What of a density a stream delivers (judge_point.cpp, judgedDensity).
double delivered(const design::PosedImager& view, double px_per_m, Vec2 at_px, const Vec3& target) {
  px_per_m *= optics::deliveredFactor(view.delivered.centre, view.delivered.corner, view.pixels, at_px);
  if (view.px_per_rad)
    px_per_m = std::min(px_per_m, optics::unrolledDensity(*view.px_per_rad,
                                                          norm((target - view.lens_m).xy())));
  return px_per_m;
}

// Frame and density at one height: bits of `framed` and `s.passed`, and s.px_per_m[h].
// Returns whether anything is in the frame.
bool askHeight(const PreviewTests& tests, const design::PosedImager& view,
               std::span<const Vec3> points, std::size_t h, std::size_t buffer, Scratch& s,
               std::vector<Heights>& framed) {
  const std::size_t n = points.size();
  const Vec3 up{view.imager_from_site.row[0].z, view.imager_from_site.row[1].z,
                view.imager_from_site.row[2].z};
  const Vec3 rise = up * tests.heights_m[h];
  s.dirs.resize(n);
  for (std::size_t i = 0; i < n; ++i) s.dirs[i] = {s.x[i] + rise.x, s.y[i] + rise.y, s.z[i] + rise.z};
  std::vector<Vec2>& px = s.px[buffer];
  px.resize(n);
  optics::projectMany(view.lens, s.dirs, px);
  std::vector<float>& density = s.px_per_m[h];
  density.resize(n);
  const auto bit = static_cast<Heights>(1u << h);
  Heights any = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Heights in = inFrame(view, px[i]) ? bit : Heights{0};
    any |= in;
    framed[i] |= in;
  }
  if (any == 0) return false;
  const auto* radial = std::get_if<optics::RadialLens>(&view.lens);
  const bool plain = view.delivered.centre == 1 && view.delivered.corner == 1 && !view.px_per_rad;
  const auto slowly = [&](std::size_t i) {
    const Vec3 target{points[i].x, points[i].y, points[i].z + tests.heights_m[h]};
    const auto found = optics::densityAt(view.lens, view.imager_from_site, view.lens_m, target,
                                         {view.scale_x, view.scale_y});
    const double px_per_m = found ? delivered(view, found->across_px_per_m, found->at_px, target) : 0;
    density[i] = static_cast<float>(px_per_m);
    return px_per_m >= tests.needed_px_per_m;
  };
  if (radial == nullptr || view.scale_x != view.scale_y) {
    for (std::size_t i = 0; i < n; ++i)
      if ((framed[i] & bit) && slowly(i)) s.passed[i] |= bit;
    return true;
  }
  const RadialDensity squared(*radial);
  const double scale = view.scale_x, needed = tests.needed_px_per_m;
  if (plain) {
    for (std::size_t i = 0; i < n; ++i) {
      const Vec3& p = s.dirs[i];
      const double px_per_m = scale * std::sqrt(squared(p.x, p.y, p.z, s.tangent2[i], px[i]));
      density[i] = static_cast<float>(px_per_m);
      s.passed[i] |= static_cast<Heights>(framed[i] & (px_per_m >= needed ? bit : 0));
    }
  } else {
    for (std::size_t i = 0; i < n; ++i) {
      if (!(framed[i] & bit)) continue;
      const Vec3& p = s.dirs[i];
      const Vec3 target{points[i].x, points[i].y, points[i].z + tests.heights_m[h]};
      const double px_per_m =
          delivered(view, scale * std::sqrt(squared(p.x, p.y, p.z, s.tangent2[i], px[i])), px[i], target);
      density[i] = static_cast<float>(px_per_m);
      if (px_per_m >= needed) s.passed[i] |= bit;
    }
  }
  for (const std::uint32_t i : s.below) {
    s.passed[i] &= static_cast<Heights>(~bit);
    if ((framed[i] & bit) && slowly(i)) s.passed[i] |= bit;
  }
  return true;
}

// Takes away the heights that are hidden, until too few are left. Returns the rays traced.
std::size_t askSight(const PreviewTests& tests, const design::PosedImager& view,
                     std::span<const Vec3> points, const scene::RayCaster& caster, Scratch& s) {
  std::size_t rays = 0;
  constexpr Rank kHidden = static_cast<Rank>(Reason::hidden);
  for (std::size_t h = 0; h < tests.heights_m.size(); ++h) {
    const auto bit = static_cast<Heights>(1u << h);
    s.asked.resize(points.size());
    s.targets.resize(points.size());
    std::size_t n = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      s.asked[n] = static_cast<std::uint32_t>(i);
      s.targets[n] = {points[i].x, points[i].y, points[i].z + tests.heights_m[h]};
      n += (s.ranks[i] == kServedRank) & ((s.passed[i] & bit) != 0);
    }
    if (n == 0) continue;
    s.hidden.resize(n);
    caster.hiddenFrom(view.lens_m, std::span(s.targets.data(), n), tests.blocking,
                      scene::Band::light, s.hidden);
    rays += n;
    for (std::size_t j = 0; j < n; ++j) {
      if (!s.hidden[j]) continue;
      const std::uint32_t i = s.asked[j];
      s.passed[i] &= static_cast<Heights>(~bit);
      if (std::popcount(s.passed[i]) < tests.heights_needed) s.ranks[i] = kHidden;
    }
  }
  return rays;
}

// The tests after sight, of a point that has passed it, for one facing (null: none is asked for).
Rank askFacing(const PreviewTests& tests, const design::PosedImager& view, const Vec3& at_floor,
               std::size_t i, const PreviewTests::Facing* facing, const Scratch& s, Heights& passed) {
  if (facing != nullptr) {
    const Vec2 to_camera = view.lens_m.xy() - at_floor.xy();
    const double plan_m = norm(to_camera);
    for (std::size_t h = 0; h < tests.heights_m.size(); ++h) {
      const double rise = std::fabs(view.lens_m.z - (at_floor.z + tests.heights_m[h]));
      if (rise * facing->elevation_cos > plan_m * facing->elevation_sin)
        passed &= static_cast<Heights>(~(1u << h));
    }
    if (std::popcount(passed) < tests.heights_needed) return static_cast<Rank>(Reason::too_steep);
    if (dot(to_camera, facing->to) < plan_m * facing->yaw_cos)
      return static_cast<Rank>(Reason::turned_away);
  }
  if (!view.masks_px.empty()) {
    for (std::size_t h = 0; h < tests.heights_m.size(); ++h)
      if ((passed & (1u << h)) &&
          std::any_of(view.masks_px.begin(), view.masks_px.end(),
                      [&](const Ring& mask) { return contains(mask, s.px[h][i]); }))
        passed &= static_cast<Heights>(~(1u << h));
    if (std::popcount(passed) < tests.heights_needed) return static_cast<Rank>(Reason::masked);
  }
  return kServedRank;
}

float lowestOf(const Scratch& s, std::size_t i, Heights heights) {
  float lowest = 1e30f;
  for (unsigned bits = heights; bits != 0; bits &= bits - 1)
    lowest = std::min(lowest, s.px_per_m[static_cast<std::size_t>(std::countr_zero(bits))][i]);
  return lowest;
}

}  // namespace

PreviewTests testsOf(const Question& q) {
  PreviewTests tests;
  const int count = q.high_m > q.low_m ? std::max(sampledHeights(q.requirement->target), 2) : 1;
  BELVEDERE_CHECK(count <= static_cast<int>(kHeightsMost), "a bit for each height");
  for (int i = 0; i < count; ++i)
    tests.heights_m.push_back(q.low_m + (count > 1 ? static_cast<double>(i) / (count - 1) : 0) *
                                            (q.high_m - q.low_m));
  tests.heights_needed = std::max(1, static_cast<int>(std::ceil(q.height_share * count - 1e-9)));
  tests.needed_px_per_m = q.needed_px_per_m;
  tests.every_facing = q.every_facing;
  tests.blocking = q.blocking;
  for (const design::Facing& f : q.facings) {
    const double bearing = degToRad(f.bearing_deg), elevation = degToRad(f.elevation_max_deg);
    PreviewTests::Facing facing;
    facing.to = {std::sin(bearing), std::cos(bearing)};
    facing.yaw_cos = f.yaw_max_deg >= 180 ? -2 : std::cos(degToRad(f.yaw_max_deg));
    facing.elevation_sin = f.elevation_max_deg >= 90 ? 1 : std::sin(elevation);
    facing.elevation_cos = f.elevation_max_deg >= 90 ? 0 : std::cos(elevation);
    tests.facings.push_back(facing);
  }
  return tests;
}

double frameConeRad(const design::PosedImager& view) {
  if (!std::holds_alternative<optics::RadialLens>(view.lens)) return kPi;
  double widest = 0;  // the picture radius grows with the angle: a corner is farthest out
  for (const double x : {view.frame_low_px.x, view.frame_high_px.x})
    for (const double y : {view.frame_low_px.y, view.frame_high_px.y}) {
      const auto ray = optics::unproject(view.lens, {x, y});
      if (!ray) return kPi;
      widest = std::max(widest, std::atan2(std::hypot(ray->x, ray->y), ray->z));
    }
  return widest;
}

void askView(const PreviewTests& tests, const design::PosedImager& view, double cone_rad,
             const PreviewPatch& patch, const scene::RayCaster& caster, PatchAnswer& answer) {
  const Vec3 to_middle = patch.middle - view.lens_m;
  const double distance = norm(to_middle);
  if (distance > patch.radius_m) {
    const double off_axis = std::acos(
        std::clamp(dot(view.imager_from_site.row[2], to_middle) / distance, -1.0, 1.0));
    if (off_axis > cone_rad + std::asin(patch.radius_m / distance) + 1e-6) return;
  }
  thread_local Scratch s;
  thread_local std::vector<Heights> framed;
  const std::span<const Vec3> points = patch.at_floor;
  const std::size_t n = points.size();
  toImager(view, points, s);
  framed.assign(n, 0);
  s.passed.assign(n, 0);
  bool any = false;
  for (std::size_t h = 0; h < tests.heights_m.size(); ++h)
    any = askHeight(tests, view, points, h, view.masks_px.empty() ? 0 : h, s, framed) || any;
  if (!any) return;
  s.ranks.resize(n);
  s.lowest.assign(n, 0);
  bool sight = false;
  for (std::size_t i = 0; i < n; ++i) {
    const bool in = std::popcount(framed[i]) >= tests.heights_needed;
    const bool dense = std::popcount(s.passed[i]) >= tests.heights_needed;
    s.ranks[i] = dense ? kServedRank
                       : static_cast<Rank>(in ? Reason::too_coarse : Reason::out_of_frame);
    if (in) s.lowest[i] = lowestOf(s, i, dense ? s.passed[i] : framed[i]);
    sight = sight || dense;
  }
  if (sight) answer.rays += askSight(tests, view, points, caster, s);
  const std::size_t kinds = tests.kinds();
  const bool first = answer.ranks.empty();
  if (first) {
    answer.ranks.assign(kinds * n, static_cast<Rank>(Reason::out_of_frame));
    answer.px_per_m.assign(n, 0);
  }
  const bool more = !tests.facings.empty() || !view.masks_px.empty();
  const bool part = tests.heights_needed < static_cast<int>(tests.heights_m.size());
  for (std::size_t i = 0; i < n; ++i) {
    Rank best = 0;
    float density = 0;
    for (std::size_t f = 0; f < std::max<std::size_t>(1, tests.facings.size()); ++f) {
      Rank rank = s.ranks[i];
      float lowest = s.lowest[i];
      if (rank == kServedRank && (more || part)) {
        Heights passed = s.passed[i];
        if (more)
          rank = askFacing(tests, view, points[i], i,
                           tests.facings.empty() ? nullptr : &tests.facings[f], s, passed);
        if (rank == kServedRank) lowest = lowestOf(s, i, passed);
      }
      if (rank != kServedRank && rank != static_cast<Rank>(Reason::too_coarse)) lowest = 0;
      if (rank > best || (rank == best && lowest > density)) {
        best = rank;
        density = lowest;
      }
      if (!tests.every_facing) continue;
      Rank& kept = answer.ranks[f * n + i];
      kept = std::max(kept, rank);
    }
    if (tests.every_facing) {
      answer.px_per_m[i] = std::max(answer.px_per_m[i], density);
    } else if (best > answer.ranks[i] || (best == answer.ranks[i] && density > answer.px_per_m[i])) {
      answer.ranks[i] = best;
      answer.px_per_m[i] = density;
    }
  }
}

}  // namespace belvedere::proof
