// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/remote_aims.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "optics/density.h"
#include "optics/lens_fit.h"
#include "proof/range.h"
#include "scene/sightline.h"

namespace belvedere::proof {
namespace {

constexpr double kSectorDeg = 10;
constexpr int kZoomSteps = 256;         // alike in ratio: 1.2 % each over a zoom of 22
constexpr double kToEdge = 0.999;       // of the angle out to a picture's edge
constexpr double kToCorner = 0.99;      // the same; a turn of pan is a little less of an angle
constexpr double kNearEnough = 0.998;   // of the bound at a point: no other aim is tried

double halfDiagonalDeg(const optics::Lens& lens, std::array<int, 2> pixels) {
  const double width = pixels[0], height = pixels[1];
  double most = 0;
  for (const Vec2 corner : {Vec2{0, 0}, Vec2{width, 0}, Vec2{0, height}, Vec2{width, height}}) {
    const auto ray = optics::unproject(lens, corner);
    most = std::max(most, radToDeg(ray ? std::atan2(std::hypot(ray->x, ray->y), ray->z) : kPi));
  }
  return most;
}

double nearestIn(double pan_deg, const design::Range& range) {
  double best = range[0], least = 1e300;
  for (const double turn : {-360.0, 0.0, 360.0}) {
    const double clamped = std::clamp(pan_deg + turn, range[0], range[1]);
    const double off = std::fabs(clamped - pan_deg - turn);
    if (off < least) {
      least = off;
      best = clamped;
    }
  }
  return best;
}

design::PanTilt toward(const Vec3& to) {
  return {radToDeg(std::atan2(to.x, to.y)), radToDeg(std::atan2(-to.z, norm(to.xy())))};
}

}  // namespace

double densityInFrame(const design::PosedImager& view, const Vec3& target, bool masks) {
  const auto density = optics::densityAt(view.lens, view.imager_from_site, view.lens_m, target);
  if (!density) return 0;
  const Vec2 p = density->at_px;
  if (p.x < view.frame_low_px.x || p.x > view.frame_high_px.x || p.y < view.frame_low_px.y ||
      p.y > view.frame_high_px.y)
    return 0;
  if (masks && std::any_of(view.masks_px.begin(), view.masks_px.end(),
                           [&](const Ring& mask) { return contains(mask, p); }))
    return 0;
  return density->across_px_per_m *
         optics::deliveredFactor(view.delivered.centre, view.delivered.corner, view.pixels, p);
}

RemoteAims::RemoteAims(const Question& question, std::size_t view)
    : question_(question), view_(question.views[view]), remote_(*question.remote[view]) {
  const auto densest = [&](const optics::Lens& lens) {
    design::PosedImager zoomed = view_;
    zoomed.lens = lens;
    return densestPxPerRad(zoomed).value_or(1e300);
  };
  for (const optics::Lens& lens : remote_.lenses)
    densest_px_per_rad_ = std::max(densest_px_per_rad_, densest(lens));
  const auto zoom = design::zoomOf(*remote_.imager);
  // Where k does not fall as F grows, the picture's angle only shrinks from wide to tele, and no
  // zoom between two is denser than both (question.cpp).
  const bool ordered = zoom && zoom->tele.k >= zoom->wide.k && zoom->tele.f_px > zoom->wide.f_px;
  const int last = ordered ? kZoomSteps : 0;
  for (int i = 0; i <= last; ++i) {
    ZoomStep step{view_.lens, remote_.half_diagonal_deg, densest_px_per_rad_};
    if (ordered) {
      const double ratio = zoom->tele.f_px / zoom->wide.f_px;
      const double share = i == last ? 1 : (std::pow(ratio, static_cast<double>(i) / last) - 1) / (ratio - 1);
      step.lens = optics::lensAtShare(*zoom, share);
      step.half_diagonal_deg = halfDiagonalDeg(step.lens, view_.pixels);
      step.densest_px_per_rad =
          std::max(densest(step.lens), steps_.empty() ? 0 : steps_.front().densest_px_per_rad);
    }
    steps_.push_back(std::move(step));
  }

  const design::Range& pan = remote_.imager->pan_deg;
  const double off_axis_m = norm(remote_.imager->offset_m.xy());
  if (off_axis_m == 0) {
    sectors_.push_back({pan, view_.lens_m, 0});
    return;
  }
  const double range_deg = std::min(360.0, pan[1] - pan[0]);
  const int count = std::max(1, static_cast<int>(std::ceil(range_deg / kSectorDeg)));
  const double step_deg = range_deg / count;
  for (int i = 0; i < count; ++i) {
    const double low = pan[0] + i * step_deg, high = pan[0] + (i + 1) * step_deg;
    sectors_.push_back({{low, high},
                        design::lensPoint(remote_.mount, remote_.mount_model, *remote_.imager,
                                          {0.5 * (low + high), 0}),
                        2 * off_axis_m * std::sin(degToRad(step_deg) / 4) * (1 + 1e-9) + 1e-9});
  }
}

double RemoteAims::offDeg(const Sector& sector, const Slab& slab) const {
  const Vec3 to = slab.centre - sector.lens_m;
  const double d = norm(to);
  double reach = 0;
  for (const Vec3& c : slab.prism.corners()) reach = std::max(reach, norm(c - slab.centre));
  reach += sector.moves_m;
  if (reach >= d) return 0;
  const design::PanTilt in_housing = design::housingFromSite(remote_.mount, toward(to));
  const auto beyond = [](double x, const design::Range& r) {
    return std::max({0.0, r[0] - x, x - r[1]});
  };
  // From an aim whose tilt may be anything from low to high to a place at this pan and tilt.
  const auto off = [&](double pan_deg, double tilt_deg, double low_deg, double high_deg) {
    if (low_deg > high_deg) return 1e300;
    const double tilt_off = beyond(tilt_deg, {low_deg, high_deg});
    double pan_off = 1e300;  // the range may run over 180
    for (const double turn : {-360.0, 0.0, 360.0})
      pan_off = std::min(pan_off, beyond(pan_deg + turn, sector.pan_deg));
    // To the half circle of the nearest pan.
    const double across = radToDeg(std::asin(std::sin(degToRad(std::min(pan_off, 90.0))) *
                                             std::fabs(std::cos(degToRad(tilt_deg)))));
    return std::max(tilt_off, across);
  };
  // Past straight down (or up) an aim looks out on the other side: the same place has a second pan
  // and tilt there.
  const double low = remote_.imager->tilt_deg[0], high = remote_.imager->tilt_deg[1];
  const double pan = in_housing.pan_deg, tilt = in_housing.tilt_deg;
  const double off_deg =
      std::min({off(pan, tilt, std::max(low, -90.0), std::min(high, 90.0)),
                off(wrap180(pan + 180), 180 - tilt, std::max(low, 90.0), high),
                off(wrap180(pan + 180), -180 - tilt, low, std::min(high, -90.0))});
  return std::max(0.0, off_deg - radToDeg(std::asin(reach / d)) - 1e-6);
}

std::optional<double> RemoteAims::upper(const Sector& sector, const Cell& cell,
                                        const Slab& slab) const {
  // A zoom that shows the slab has a picture that is wide enough from every aim.
  const double off_deg = offDeg(sector, slab);
  const auto narrow = std::partition_point(
      steps_.begin(), steps_.end(), [&](const ZoomStep& s) { return s.half_diagonal_deg >= off_deg; });
  if (narrow == steps_.begin()) return {};
  const double px_per_rad =
      narrow == steps_.end() ? densest_px_per_rad_ : narrow->densest_px_per_rad;
  double low_z = 1e300, high_z = -1e300;
  for (const Vec3& c : slab.prism.corners()) {
    low_z = std::min(low_z, c.z);
    high_z = std::max(high_z, c.z);
  }
  const double rise = std::max({0.0, low_z - sector.lens_m.z, sector.lens_m.z - high_z});
  const double nearest =
      std::hypot(planDistances(cell, sector.lens_m.xy())[0], rise) - sector.moves_m;
  return nearest > 0 ? std::min(1e300, px_per_rad / nearest) : 1e300;
}

design::PosedImager RemoteAims::posedAt(const optics::Lens& lens, design::PanTilt aim,
                                        double roll_deg) const {
  design::PosedImager set = view_;
  set.lens = lens;
  const design::PanTilt in_site = design::siteFromHousing(remote_.mount, aim);
  if (norm(remote_.imager->offset_m.xy()) > 0)
    set.lens_m = design::lensPoint(remote_.mount, remote_.mount_model, *remote_.imager, aim);
  set.imager_from_site = design::imagerFromSite(in_site.pan_deg, in_site.tilt_deg, roll_deg);
  return set;
}

double RemoteAims::reached(const Vec3& target, double beat) const {
  const design::ModelImager& imager = *remote_.imager;
  const bool swings = norm(imager.offset_m.xy()) > 0;
  const double d = std::max(1e-9, norm(target - view_.lens_m) - remote_.lens_moves_m);
  if (densest_px_per_rad_ / d <= beat) return 0;
  const double enough = kNearEnough * densest_px_per_rad_ / d;
  double best = beat;
  std::optional<bool> seen_from_axis;
  const auto seen = [&](const Vec3& lens_m) {
    const auto ask = [&] {
      return !scene::blockerOf(question_.place->scene, question_.place->tree, lens_m, target,
                               question_.blocking);
    };
    if (swings) return ask();
    if (!seen_from_axis) seen_from_axis = ask();
    return *seen_from_axis;
  };
  const auto consider = [&](const design::PosedImager& set) {
    const double density = densityInFrame(set, target, false);
    if (density > best && seen(set.lens_m)) best = density;
  };
  // Aimed beside the target by so much, as near as the limits let it.
  const auto aimAt = [&](double pan_off_deg, double tilt_off_deg) {
    design::PanTilt aim;
    Vec3 lens_m = view_.lens_m;
    // The lens moves as it is aimed: aimed again from where it then is.
    for (int i = 0; i < (swings ? 3 : 1); ++i) {
      const design::PanTilt straight = toward(target - lens_m);
      aim = design::housingFromSite(remote_.mount, {straight.pan_deg + pan_off_deg,
                                                    straight.tilt_deg + tilt_off_deg});
      aim.tilt_deg = std::clamp(aim.tilt_deg, imager.tilt_deg[0], imager.tilt_deg[1]);
      aim.pan_deg = nearestIn(aim.pan_deg, imager.pan_deg);
      if (swings) lens_m = design::lensPoint(remote_.mount, remote_.mount_model, imager, aim);
    }
    return aim;
  };
  const auto roll = [&](double roll_deg) {
    return std::clamp(roll_deg, imager.roll_deg[0], imager.roll_deg[1]);
  };
  // As far in as the target stays in the picture.
  const auto zoomedIn = [&](design::PanTilt aim, double roll_deg) {
    design::PosedImager set = posedAt(steps_.front().lens, aim, roll_deg);
    const auto first_without =
        std::partition_point(steps_.begin(), steps_.end(), [&](const ZoomStep& step) {
          set.lens = step.lens;
          return densityInFrame(set, target, false) > 0;
        });
    if (first_without == steps_.begin()) return;
    set.lens = std::prev(first_without)->lens;
    consider(set);
  };

  zoomedIn(aimAt(0, 0), roll(0));
  if (!swings && seen_from_axis == false) return 0;
  if (best >= enough) return best;
  for (const optics::Lens* lens : {&steps_.front().lens, &steps_.back().lens}) {
    // So that the target comes to lie toward an edge or a corner of the picture; and, where it may
    // be rolled, along its diagonal, on which it is densest.
    const auto corner = optics::unproject(*lens, {0, 0});
    const double h = corner ? radToDeg(std::atan2(std::fabs(corner->x), corner->z)) : 0;
    const double v = corner ? radToDeg(std::atan2(std::fabs(corner->y), corner->z)) : 0;
    for (const double x : {0.0, -kToEdge, kToEdge})
      for (const double y : {0.0, -kToEdge, kToEdge})
        consider(posedAt(*lens, aimAt(x * h, y * v), roll(0)));
    if (!corner || imager.roll_deg[0] == imager.roll_deg[1]) continue;
    const double diagonal = radToDeg(std::atan2(std::hypot(corner->x, corner->y), corner->z));
    const double across = radToDeg(std::atan2(std::fabs(corner->y), std::fabs(corner->x)));
    for (const double x : {-kToCorner, kToCorner})
      for (const double turn : {-across, across})
        consider(posedAt(*lens, aimAt(x * diagonal, 0), roll(turn)));
  }
  // Past what hides the target from where the lens is when it looks straight at it.
  if (swings && best < enough)
    for (double off = 5; off <= 85; off += 5)
      for (const double side : {-1.0, 1.0}) zoomedIn(aimAt(side * off, 0), roll(0));
  return best > beat ? best : 0;
}

}  // namespace belvedere::proof
