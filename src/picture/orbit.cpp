// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/orbit.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "design/resolve.h"

namespace belvedere::picture {
namespace {

constexpr double kNearestM = 0.1, kFarthestM = 1e5;
constexpr double kRoomRound = 1.05;

Mat3 axesOf(const OrbitEye& eye) {
  return design::imagerFromSite(eye.bearing_deg, eye.elevation_deg, 0);
}

}  // namespace

View viewOf(const OrbitEye& eye, Size pixels) {
  const Mat3 axes = axesOf(eye);
  View view = viewFrom({}, {0, 1, 0}, eye.vfov_deg, pixels);
  view.view_from_site = axes;
  view.eye_m = eye.target_m - axes.row[2] * eye.distance_m;
  return view;
}

OrbitEye framing(const Box3& box, double bearing_deg, double elevation_deg, double vfov_deg,
                 Size pixels) {
  OrbitEye eye{{}, bearing_deg, elevation_deg, kNearestM, vfov_deg};
  if (box.empty()) return eye;
  eye.target_m = (box.low + box.high) * 0.5;
  const Mat3 axes = axesOf(eye);
  const double up = std::tan(0.5 * degToRad(vfov_deg)) / kRoomRound;
  const double side = up * pixels[0] / pixels[1];
  for (int corner = 0; corner < 8; ++corner) {
    const Vec3 p{(corner & 1) != 0 ? box.high.x : box.low.x,
                 (corner & 2) != 0 ? box.high.y : box.low.y,
                 (corner & 4) != 0 ? box.high.z : box.low.z};
    const Vec3 d = axes * (p - eye.target_m);
    eye.distance_m =
        std::max({eye.distance_m, std::abs(d.x) / side - d.z, std::abs(d.y) / up - d.z});
  }
  eye.distance_m = std::min(eye.distance_m, kFarthestM);
  return eye;
}

OrbitEye orbited(OrbitEye eye, double bearing_deg, double elevation_deg) {
  eye.bearing_deg = std::remainder(eye.bearing_deg + bearing_deg, 360.0);
  eye.elevation_deg = std::clamp(eye.elevation_deg + elevation_deg, -89.0, 90.0);
  return eye;
}

OrbitEye panned(OrbitEye eye, Vec2 by_px, int height_px) {
  const double m_per_px =
      2 * eye.distance_m * std::tan(0.5 * degToRad(eye.vfov_deg)) / height_px;
  const Mat3 axes = axesOf(eye);
  eye.target_m = eye.target_m - (axes.row[0] * by_px.x + axes.row[1] * by_px.y) * m_per_px;
  return eye;
}

OrbitEye dollied(OrbitEye eye, double factor, const Vec3& about_m) {
  const double distance = std::clamp(eye.distance_m * factor, kNearestM, kFarthestM);
  const double applied = distance / eye.distance_m;
  eye.target_m = about_m + (eye.target_m - about_m) * applied;
  eye.distance_m = distance;
  return eye;
}

}  // namespace belvedere::picture
