// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sun.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/units.h"
#include "optics/lens.h"

namespace belvedere::light {
namespace {

double degreesBetween(const Vec3& a, const Vec3& b) {
  return radToDeg(std::atan2(norm(cross(a, b)), dot(a, b)));
}

// A ray that leaves the scene.
bool reachesSky(const Solids& solids, const Vec3& from, const Vec3& direction,
                std::optional<std::uint32_t>& guess) {
  if (!solids.scene || solids.tree->nodes.empty()) return true;
  const Box3& box = solids.tree->nodes.front().box;
  const double beyond_m = norm(box.high - box.low) + norm((box.high + box.low) * 0.5 - from) + 1;
  return solids.passes(from, from + direction * beyond_m, scene::Band::light, &guess) > 0;
}

// Hours and spells from the states of the steps.
void sumUp(const SunYear& year, SunChart& chart) {
  std::optional<SunSpell> open;
  for (int day = 0; day < year.days; ++day) {
    bool any = false;
    for (int step = 0; step < year.steps_per_day; ++step) {
      const SunState state = chart.state[year.at(day, step)];
      const double h = year.hoursPerStep();
      if (state != SunState::down) chart.up_h += h;
      if (state == SunState::hidden) chart.hidden_h += h;
      if (state != SunState::near && state != SunState::in_frame) continue;
      (state == SunState::near ? chart.near_h : chart.in_frame_h) += h;
      const double from_h = step * h, to_h = from_h + h;
      if (!open) open = SunSpell{state, day, day, from_h, to_h};
      any = true;
      open->last_day = day;
      open->from_h = std::min(open->from_h, from_h);
      open->to_h = std::max(open->to_h, to_h);
      open->state = std::max(open->state, state);
    }
    if (!any && open) {
      chart.spells.push_back(*open);
      open.reset();
    }
  }
  if (open) chart.spells.push_back(*open);
}

template <class StateOf>
SunChart chartOf(const SunYear& year, StateOf stateOf) {
  SunChart chart;
  chart.state.reserve(year.direction.size());
  for (std::size_t i = 0; i < year.direction.size(); ++i)
    chart.state.push_back(year.elevation_deg[i] > 0 ? stateOf(i) : SunState::down);
  sumUp(year, chart);
  return chart;
}

}  // namespace

bool sunReaches(const Solids& solids, const Vec3& from, const Vec3& direction) {
  std::optional<std::uint32_t> guess;
  return reachesSky(solids, from, direction, guess);
}

std::string dateOf(const SunYear& year, int day) {
  static constexpr std::array<int, 12> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int month = 0;
  for (;; ++month) {
    const int days = kDays[static_cast<std::size_t>(month)] + (month == 1 && year.days == 366 ? 1 : 0);
    if (day < days || month == 11) break;
    day -= days;
  }
  return fmt::format("{:04}-{:02}-{:02}", year.year, month + 1, day + 1);
}

double skyLux(double elevation_deg, Sky sky) {
  const auto byDay = [&](double e) {
    const double sine = std::sin(degToRad(e));
    if (sky == Sky::overcast) return 300 + 21000 * sine;
    const double sun = 127500 * std::exp(-0.21 / sine) * sine;
    return sun + 800 + 15500 * std::sqrt(sine);
  };
  constexpr double kHigh = 5;
  if (elevation_deg >= kHigh) return byDay(elevation_deg);
  const bool clear = sky == Sky::clear;
  const std::array<std::array<double, 2>, 4> points{{{-18, clear ? 0.002 : 0.0001},
                                                     {-6, clear ? 3.4 : 0.34},
                                                     {0, clear ? 400.0 : 40.0},
                                                     {kHigh, byDay(kHigh)}}};
  if (elevation_deg <= points[0][0]) return points[0][1];
  std::size_t i = 0;
  while (elevation_deg > points[i + 1][0]) ++i;
  const double t = (elevation_deg - points[i][0]) / (points[i + 1][0] - points[i][0]);
  return std::exp((1 - t) * std::log(points[i][1]) + t * std::log(points[i + 1][1]));
}

FrameOnSky::FrameOnSky(const design::PosedImager& imager) : imager_(&imager) {
  const double w = imager.pixels[0], h = imager.pixels[1];
  const Mat3 site_from_imager = transposed(imager.imager_from_site);
  const Vec3 axis = imager.imager_from_site.row[2];
  const Vec2 middle = optics::project(imager.lens, {0, 0, 1}).value_or(Vec2{0.5 * w, 0.5 * h});
  constexpr int kPerSide = 32;
  for (int i = 0; i < 4 * kPerSide; ++i) {
    const double t = static_cast<double>(i % kPerSide) / kPerSide;
    const int side = i / kPerSide;
    const Vec2 edge = side == 0 ? Vec2{t * w, 0} : side == 1 ? Vec2{w, t * h}
                    : side == 2 ? Vec2{w - t * w, h} : Vec2{0, h - t * h};
    // A picture may be larger than the lens's image: the edge is then the image's.
    auto ray = optics::unproject(imager.lens, edge);
    if (!ray) {
      double low = 0, high = 1;
      for (int k = 0; k < 40; ++k) {
        const double mid = 0.5 * (low + high);
        if (const auto found = optics::unproject(imager.lens, middle + (edge - middle) * mid)) {
          ray = found;
          low = mid;
        } else {
          high = mid;
        }
      }
      if (!ray) continue;
    }
    edge_.push_back(site_from_imager * *ray);
    farthest_deg_ = std::max(farthest_deg_, degreesBetween(axis, edge_.back()));
  }
}

double FrameOnSky::degreesOff(const Vec3& direction) const {
  const design::PosedImager& imager = *imager_;
  if (const auto px = optics::project(imager.lens, imager.imager_from_site * direction))
    if (px->x >= 0 && px->x <= imager.pixels[0] && px->y >= 0 && px->y <= imager.pixels[1]) return 0;
  if (edge_.empty()) return 180;
  // Far off, the axis tells enough.
  const double off_axis = degreesBetween(imager.imager_from_site.row[2], direction);
  if (off_axis > farthest_deg_ + 2 * kSunNearDeg) return off_axis - farthest_deg_;
  double least = 4;  // squared chord
  for (std::size_t i = 0; i < edge_.size(); ++i) {
    const Vec3 &a = edge_[i], &b = edge_[i + 1 < edge_.size() ? i + 1 : 0];
    // Nearest point of the step's chord: for steps of a few degrees, that of the arc.
    const Vec3 d = b - a, from = direction - a;
    const double length2 = dot(d, d);
    const double t = length2 > 0 ? std::clamp(dot(from, d) / length2, 0.0, 1.0) : 0;
    const Vec3 off = from - d * t;
    least = std::min(least, dot(off, off));
  }
  return radToDeg(2 * std::asin(0.5 * std::sqrt(least)));
}

SunChart sunChart(const SunYear& year, const design::PosedImager& imager, const Solids& solids) {
  const FrameOnSky frame(imager);
  std::optional<std::uint32_t> guess;
  return chartOf(year, [&](std::size_t i) {
    const double off = frame.degreesOff(year.direction[i]);
    if (off > kSunNearDeg) return SunState::elsewhere;
    if (!reachesSky(solids, imager.lens_m, year.direction[i], guess)) return SunState::hidden;
    return off > 0 ? SunState::near : SunState::in_frame;
  });
}

SunChart backlightChart(const SunYear& year, const Vec3& lens_m, const Vec3& target_m,
                        const Solids& solids, const Backlight& limits) {
  const Vec2 on = (target_m - lens_m).xy();
  std::optional<std::uint32_t> guess;
  return chartOf(year, [&](std::size_t i) {
    const Vec3& sun = year.direction[i];
    if (year.elevation_deg[i] > limits.low_deg) return SunState::elsewhere;
    const double off = radToDeg(std::atan2(std::fabs(cross(on, sun.xy())), dot(on, sun.xy())));
    if (off > limits.beside_deg) return SunState::elsewhere;
    return reachesSky(solids, target_m, sun, guess) ? SunState::near : SunState::hidden;
  });
}

}  // namespace belvedere::light
