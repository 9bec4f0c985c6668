// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/preview_view.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "optics/density.h"

namespace belvedere::proof {
namespace {

using Heights = std::uint32_t;  // a bit for each height
constexpr std::size_t kHeightsMost = 8;
constexpr std::array<std::uint8_t, 1u << kHeightsMost> kCount = [] {
  std::array<std::uint8_t, 1u << kHeightsMost> count{};
  for (std::size_t i = 1; i < count.size(); ++i)
    count[i] = static_cast<std::uint8_t>(count[i >> 1] + (i & 1));
  return count;
}();
bool enough(const PreviewTests& tests, Heights heights) {
  return kCount[heights] >= tests.heights_needed;
}

// Arrays that every batch of a thread uses again.
struct Scratch {
  std::vector<Vec3> dirs;           // imager's frame, of one height
  std::vector<float> x, y, z;       // at the floor, in single precision
  std::vector<float> tangent2;      // square of the horizontal tangent's part along the axis
  std::array<std::vector<Vec2>, kHeightsMost> px;         // one in use where nothing is masked
  std::array<std::vector<float>, kHeightsMost> density2;  // squares, (px/m)^2
  std::vector<float> lowest2;       // over all heights
  std::vector<Heights> framed, passed;
  std::vector<std::uint32_t> asked; // points whose sight is asked for
  std::vector<Vec3> targets;
  std::vector<std::uint8_t> hidden;
  std::vector<Came> came;

  void resize(std::size_t n, std::size_t heights, std::size_t buffers) {
    dirs.resize(n);
    for (std::vector<float>* v : {&x, &y, &z, &tangent2}) v->resize(n);
    for (std::size_t b = 0; b < buffers; ++b) px[b].resize(n);
    for (std::size_t h = 0; h < heights; ++h) density2[h].resize(n);
    lowest2.assign(n, kDensest2);
    framed.assign(n, 0);
    passed.assign(n, 0);
    came.resize(n);
    asked.resize(n);
  }
  static constexpr float kDensest2 = 1e36f;
};

// Straight below or above the lens to within this, the tangent is another (handbook 19).
constexpr double kBelowM2 = 1e-18;

// Directions at the floor, and raised by `rise` (imager's frame).
BELVEDERE_ANY_WIDTH
void toImager(const Mat3& turn, const Vec3& lens, const Vec3& rise, const double* __restrict px,
              const double* __restrict py, const double* __restrict pz, std::size_t n,
              Vec3* __restrict dirs, float* __restrict x, float* __restrict y,
              float* __restrict z, float* __restrict tangent2) {
  for (std::size_t i = 0; i < n; ++i) {
    const double sx = px[i] - lens.x, sy = py[i] - lens.y, sz = pz[i] - lens.z;
    const double a = turn.row[0].x * sx + turn.row[0].y * sy + turn.row[0].z * sz;
    const double b = turn.row[1].x * sx + turn.row[1].y * sy + turn.row[1].z * sz;
    const double c = turn.row[2].x * sx + turn.row[2].y * sy + turn.row[2].z * sz;
    const double across2 = sx * sx + sy * sy, along = turn.row[2].x * sy - turn.row[2].y * sx;
    dirs[i].x = a + rise.x;
    dirs[i].y = b + rise.y;
    dirs[i].z = c + rise.z;
    x[i] = static_cast<float>(a);
    y[i] = static_cast<float>(b);
    z[i] = static_cast<float>(c);
    tangent2[i] = static_cast<float>(along * along / across2);
  }
}

BELVEDERE_ANY_WIDTH
void addTo(Vec3* __restrict dirs, std::size_t n, const Vec3& step) {
  for (std::size_t i = 0; i < n; ++i) {
    dirs[i].x += step.x;
    dirs[i].y += step.y;
    dirs[i].z += step.z;
  }
}

struct Frame {
  float low_x, low_y, high_x, high_y;  // from the centre
  double centre_x, centre_y;
};
BELVEDERE_ANY_WIDTH
Heights inFrame(const Frame& frame, Heights bit, const Vec2* __restrict px, std::size_t n,
                Heights* __restrict framed) {
  Heights any = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const auto u = static_cast<float>(px[i].x - frame.centre_x);
    const auto v = static_cast<float>(px[i].y - frame.centre_y);
    const bool in = (u >= frame.low_x) & (u <= frame.high_x) & (v >= frame.low_y) & (v <= frame.high_y);
    const Heights one = in ? bit : 0;
    framed[i] |= one;
    any |= one;
  }
  return any;
}

// The square of the density across (handbook 4) for the radial family, from where a point lands,
// without another angle. Let rho and d be the point's distances from the axis and from the lens, r
// its radius in the picture and t the tangent, a unit vector square to the line of sight. Along the
// radius t turns the ray by t.z / rho, and it moves sideways by sqrt(1 - t.z^2 d^2 / rho^2). So
//   |J t|^2 = (r/rho)^2 + (t.z/rho)^2 (r'^2 - (r/rho)^2 d^2),
// where r' = F (1 + (k r/F)^2) for k >= 0 and F sqrt(1 - (k r/F)^2) for k < 0. On the axis F/d.
struct RadialDensity {
  float f2, k2_over_f2;
  bool sine;
  double centre_x, centre_y;
  float scale2, needed2;
};
BELVEDERE_ANY_WIDTH
void radialDensity(const RadialDensity& lens, const Vec3& rise, Heights bit,
                   const Vec2* __restrict px, const float* __restrict x0,
                   const float* __restrict y0, const float* __restrict z0,
                   const float* __restrict tangent2, const Heights* __restrict framed, std::size_t n,
                   float* __restrict density2, float* __restrict lowest2,
                   Heights* __restrict passed) {
  const auto rise_x = static_cast<float>(rise.x), rise_y = static_cast<float>(rise.y),
             rise_z = static_cast<float>(rise.z);
  // One formula for both signs of k: 1 + kr2 (2 + kr2), or 1 - kr2.
  const float first = lens.sine ? -1.0f : 2.0f, second = lens.sine ? 0.0f : 1.0f;
  for (std::size_t i = 0; i < n; ++i) {
    const auto u = static_cast<float>(px[i].x - lens.centre_x);
    const auto v = static_cast<float>(px[i].y - lens.centre_y);
    const float x = x0[i] + rise_x, y = y0[i] + rise_y, z = z0[i] + rise_z;
    const float rho2 = x * x + y * y, d2 = rho2 + z * z;
    const float r2 = u * u + v * v, kr2 = lens.k2_over_f2 * r2;
    const float slope2 = lens.f2 * (1 + kr2 * (first + second * kr2));
    const bool off_axis = rho2 > 1e-7f * d2;
    const float inverse = 1 / (off_axis ? rho2 : d2);
    const float off = inverse * (r2 + tangent2[i] * (slope2 - r2 * inverse * d2));
    const float found2 = lens.scale2 * (off_axis ? off : lens.f2 * inverse);
    density2[i] = found2;
    lowest2[i] = found2 < lowest2[i] ? found2 : lowest2[i];
    passed[i] |= found2 >= lens.needed2 ? framed[i] & bit : 0;
  }
}

// What came of frame and density where every height must pass.
BELVEDERE_ANY_WIDTH
void rankWhole(Heights all, const Heights* __restrict framed, const Heights* __restrict passed,
               const float* __restrict lowest2, std::size_t n, Came* __restrict came) {
  constexpr Came kOut = cameTo(Reason::out_of_frame), kCoarse = cameTo(Reason::too_coarse);
  for (std::size_t i = 0; i < n; ++i) {
    const Came rank = passed[i] == all ? kServedFrom : kCoarse;
    const Came found = rank | (std::bit_cast<Came>(lowest2[i]) >> (kRankBits - 1));
    came[i] = framed[i] == all ? found : kOut;
  }
}

BELVEDERE_ANY_WIDTH
void keepBetter(const Came* __restrict came, std::size_t n, Came* __restrict kept) {
  for (std::size_t i = 0; i < n; ++i) kept[i] = came[i] > kept[i] ? came[i] : kept[i];
}

// What of a density a stream delivers (judge_point.cpp, judgedDensity).
double delivered(const design::PosedImager& view, double px_per_m, Vec2 at_px, const Vec3& target) {
  px_per_m *= optics::deliveredFactor(view.delivered.centre, view.delivered.corner, view.pixels, at_px);
  if (view.px_per_rad)
    px_per_m = std::min(px_per_m, optics::unrolledDensity(*view.px_per_rad,
                                                          norm((target - view.lens_m).xy())));
  return px_per_m;
}

Vec3 raised(const Vec3& at_floor, double height_m) {
  return {at_floor.x, at_floor.y, at_floor.z + height_m};
}

Vec3 pointOf(const PreviewPatch& patch, std::size_t i) { return {patch.x[i], patch.y[i], patch.z[i]}; }

// Takes away what is outside the span of an unrolled or stitched view; whether anything is left.
bool inSpan(const design::PosedImager& view, const PreviewPatch& patch, double height_m, Heights bit,
            std::vector<Heights>& framed) {
  Heights any = 0;
  for (std::size_t i = 0; i < framed.size(); ++i) {
    if (!(framed[i] & bit)) continue;
    const Vec3 sight = raised(pointOf(patch, i), height_m) - view.lens_m;
    if (!view.span->holdsBearing(sight.xy()) || !view.span->holdsDepression(sight)) framed[i] &= ~bit;
    any |= framed[i] & bit;
  }
  return any != 0;
}

// Frame and density at one height: bits of s.framed and s.passed, and s.density2[h].
// Returns whether anything is in the frame.
bool askHeight(const PreviewTests& tests, const design::PosedImager& view,
               const PreviewPatch& patch, std::size_t h, std::size_t buffer, Scratch& s) {
  const std::size_t n = patch.x.size();
  const auto bit = static_cast<Heights>(1u << h);
  const auto single = [](double v) { return static_cast<float>(v); };
  std::vector<Vec2>& px = s.px[buffer];
  optics::projectMany(view.lens, s.dirs, px);
  const auto* radial = std::get_if<optics::RadialLens>(&view.lens);
  if (view.scale_x != view.scale_y) radial = nullptr;  // then the tangent's direction matters
  const Vec2 low = view.frame_low_px, high = view.frame_high_px, centre = (low + high) * 0.5;
  const Frame frame{single(low.x - centre.x), single(low.y - centre.y), single(high.x - centre.x),
                    single(high.y - centre.y), centre.x, centre.y};
  if (inFrame(frame, bit, px.data(), n, s.framed.data()) == 0) return false;
  if (view.span && !inSpan(view, patch, tests.heights_m[h], bit, s.framed)) return false;
  const bool plain = view.delivered.centre == 1 && view.delivered.corner == 1 && !view.px_per_rad;
  const auto slowly = [&](std::size_t i) {
    if (!(s.framed[i] & bit)) return;
    const Vec3 target = raised(pointOf(patch, i), tests.heights_m[h]);
    const auto found = optics::densityAt(view.lens, view.imager_from_site, view.lens_m, target,
                                         {view.scale_x, view.scale_y});
    const double px_per_m = found ? delivered(view, found->across_px_per_m, found->at_px, target) : 0;
    s.density2[h][i] = single(px_per_m * px_per_m);
    s.lowest2[i] = std::min(s.lowest2[i], s.density2[h][i]);
    s.passed[i] = (s.passed[i] & ~bit) | (px_per_m >= tests.needed_px_per_m ? bit : 0);
  };
  if (radial == nullptr || !plain) {
    for (std::size_t i = 0; i < n; ++i) slowly(i);
    return true;
  }
  const double f2 = radial->f_px * radial->f_px;
  const RadialDensity squared{single(f2), single(radial->k * radial->k / f2), radial->k < 0,
                              radial->centre_px.x, radial->centre_px.y,
                              single(view.scale_x * view.scale_x),
                              single(tests.needed_px_per_m * tests.needed_px_per_m)};
  const auto& row = view.imager_from_site.row;
  radialDensity(squared, Vec3{row[0].z, row[1].z, row[2].z} * tests.heights_m[h], bit, px.data(),
                s.x.data(), s.y.data(), s.z.data(), s.tangent2.data(), s.framed.data(), n,
                s.density2[h].data(), s.lowest2.data(), s.passed.data());
  // Below the lens, where the tangent is another.
  if (norm(view.lens_m.xy() - patch.middle.xy()) <= patch.radius_m)
    for (std::size_t i = 0; i < n; ++i) {
      const Vec2 across = Vec2{patch.x[i], patch.y[i]} - view.lens_m.xy();
      if (dot(across, across) < kBelowM2) slowly(i);
    }
  return true;
}

// Lowest square of a density over some heights.
float lowest2(const Scratch& s, std::size_t i, Heights heights) {
  float lowest = 1e36f;
  for (Heights bits = heights; bits != 0; bits &= bits - 1)
    lowest = std::min(lowest, s.density2[static_cast<std::size_t>(std::countr_zero(bits))][i]);
  return lowest;
}

// What came of frame and density; `s.asked` are the points that pass both.
void rankBeforeSight(const PreviewTests& tests, std::size_t n, Scratch& s) {
  const std::size_t heights = tests.heights_m.size();
  if (tests.heights_needed == static_cast<int>(heights))
    rankWhole((1u << heights) - 1, s.framed.data(), s.passed.data(), s.lowest2.data(), n, s.came.data());
  else
    for (std::size_t i = 0; i < n; ++i) {
      const Heights framed = s.framed[i], passed = s.passed[i];
      s.came[i] = enough(tests, passed)  ? cameTo(Reason::served, lowest2(s, i, passed))
                  : enough(tests, framed) ? cameTo(Reason::too_coarse, lowest2(s, i, framed))
                                          : cameTo(Reason::out_of_frame);
    }
  std::size_t asked = 0;
  for (std::size_t i = 0; i < n; ++i) {
    s.asked[asked] = static_cast<std::uint32_t>(i);
    asked += s.came[i] >= kServedFrom ? 1 : 0;
  }
  s.asked.resize(asked);
}

// Takes away the heights that are hidden, and from `s.asked` points of which too few are left.
// Returns the rays traced.
std::size_t askSight(const PreviewTests& tests, const design::PosedImager& view,
                     const PreviewPatch& patch, const scene::RayCaster& caster, Scratch& s) {
  constexpr Came kHidden = cameTo(Reason::hidden);
  const bool part = tests.heights_needed < static_cast<int>(tests.heights_m.size());
  std::size_t rays = 0;
  for (std::size_t h = 0; h < tests.heights_m.size() && !s.asked.empty(); ++h) {
    const Heights bit = 1u << h;
    const double height_m = tests.heights_m[h];
    const std::size_t asked = s.asked.size();
    s.targets.resize(asked);
    std::size_t n = 0;
    for (const std::uint32_t i : s.asked) {
      s.targets[n] = {patch.x[i], patch.y[i], patch.z[i] + height_m};
      n += part && !(s.passed[i] & bit) ? 0 : 1;
    }
    s.hidden.resize(n);
    caster.hiddenFrom(view.lens_m, std::span(s.targets.data(), n), tests.blocking, scene::Band::light,
                      s.hidden);
    rays += n;
    std::size_t ray = 0, left = 0;
    for (std::size_t j = 0; j < asked; ++j) {
      const std::uint32_t i = s.asked[j];
      bool goes_on = true;
      if (!part) {
        goes_on = s.hidden[j] == 0;
      } else if ((s.passed[i] & bit) && s.hidden[ray++] != 0) {
        s.passed[i] &= ~bit;
        goes_on = enough(tests, s.passed[i]);
      }
      s.came[i] = goes_on ? s.came[i] : kHidden;
      s.asked[left] = i;
      left += goes_on ? 1 : 0;
    }
    s.asked.resize(left);
  }
  return rays;
}

// The tests after sight, of a point that has passed it, for one facing (null: none is asked for).
Came askFacing(const PreviewTests& tests, const design::PosedImager& view,
               const Conditions& conditions, const Vec3& at_floor, std::size_t i,
               const PreviewTests::Facing* facing, const Scratch& s) {
  Heights passed = s.passed[i];
  if (facing != nullptr) {
    const Vec2 to_camera = view.lens_m.xy() - at_floor.xy();
    const double plan_m = norm(to_camera);
    for (std::size_t h = 0; h < tests.heights_m.size(); ++h) {
      const double rise = std::fabs(view.lens_m.z - (at_floor.z + tests.heights_m[h]));
      if (rise * facing->elevation_cos > plan_m * facing->elevation_sin) passed &= ~(1u << h);
    }
    if (!enough(tests, passed)) return cameTo(Reason::too_steep);
    if (dot(to_camera, facing->to) < plan_m * facing->yaw_cos) return cameTo(Reason::turned_away);
  }
  const auto keepWhere = [&](const auto& passes) {
    for (std::size_t h = 0; h < tests.heights_m.size(); ++h)
      if ((passed & (1u << h)) && !passes(at_floor + Vec3{0, 0, tests.heights_m[h]}))
        passed &= ~(1u << h);
    return enough(tests, passed);
  };
  if (conditions.sharp && !keepWhere([&](const Vec3& target) {
        const double depth_m = dot(view.imager_from_site.row[2], target - view.lens_m);
        return depth_m >= conditions.sharp->near_m &&
               (!conditions.sharp->far_m || depth_m <= *conditions.sharp->far_m);
      }))
    return cameTo(Reason::unsharp);
  if (conditions.light && !keepWhere([&](const Vec3& target) {
        return light::enoughAt(*conditions.light, tests.solids, target);
      }))
    return cameTo(Reason::too_dark);
  if (!view.masks_px.empty()) {
    for (std::size_t h = 0; h < tests.heights_m.size(); ++h)
      if ((passed & (1u << h)) &&
          std::any_of(view.masks_px.begin(), view.masks_px.end(),
                      [&](const Ring& mask) { return contains(mask, s.px[h][i]); }))
        passed &= ~(1u << h);
    if (!enough(tests, passed)) return cameTo(Reason::masked);
  }
  return cameTo(Reason::served, lowest2(s, i, passed));
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
  tests.solids = q.solids();
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

void askView(const PreviewTests& tests, const design::PosedImager& view,
             const Conditions& conditions, double cone_rad, const PreviewPatch& patch,
             const scene::RayCaster& caster, PatchAnswer& answer) {
  if (!view.showsAnything()) return;
  const Vec3 to_middle = patch.middle - view.lens_m;
  const double distance = norm(to_middle);
  if (distance > patch.radius_m) {
    const double off_axis = std::acos(
        std::clamp(dot(view.imager_from_site.row[2], to_middle) / distance, -1.0, 1.0));
    if (off_axis > cone_rad + std::asin(patch.radius_m / distance) + 1e-6) return;
  }
  thread_local Scratch s;
  const std::size_t n = patch.x.size(), heights = tests.heights_m.size();
  const bool masks = !view.masks_px.empty();
  s.resize(n, heights, masks ? heights : 1);
  const auto& row = view.imager_from_site.row;
  const Vec3 up{row[0].z, row[1].z, row[2].z};
  toImager(view.imager_from_site, view.lens_m, up * tests.heights_m[0], patch.x.data(), patch.y.data(),
           patch.z.data(), n, s.dirs.data(), s.x.data(), s.y.data(), s.z.data(), s.tangent2.data());
  bool any = false;
  for (std::size_t h = 0; h < heights; ++h) {
    if (h > 0) addTo(s.dirs.data(), n, up * (tests.heights_m[h] - tests.heights_m[h - 1]));
    any = askHeight(tests, view, patch, h, masks ? h : 0, s) || any;
  }
  if (!any) return;
  rankBeforeSight(tests, n, s);
  answer.rays += askSight(tests, view, patch, caster, s);
  const std::size_t kinds = tests.kinds();
  const bool plain = tests.facings.empty() && !masks && !conditions.sharp && !conditions.light &&
                     tests.heights_needed == static_cast<int>(heights);
  if (answer.came.empty()) answer.came.assign(kinds * n, 0);
  // The tests after sight, of the points that have passed it; after that s.came says less of them.
  if (!plain)
    for (const std::uint32_t i : s.asked) {
      for (std::size_t f = 0; f < std::max<std::size_t>(1, tests.facings.size()); ++f) {
        Came& kept = answer.came[(tests.every_facing ? f : 0) * n + i];
        kept = std::max(kept, askFacing(tests, view, conditions, pointOf(patch, i), i,
                                        tests.facings.empty() ? nullptr : &tests.facings[f], s));
      }
      s.came[i] = 0;
    }
  for (std::size_t f = 0; f < kinds; ++f) keepBetter(s.came.data(), n, &answer.came[f * n]);
}

}  // namespace belvedere::proof
