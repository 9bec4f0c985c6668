// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/view.h"

#include <cmath>

#include "base/check.h"
#include "base/units.h"

namespace belvedere::picture {

View viewOf(const design::PosedImager& imager) {
  return {imager.lens_m,  imager.imager_from_site, imager.lens,         imager.pixels,
          imager.masks_px, imager.frame_low_px,    imager.frame_high_px};
}

View viewFrom(const Vec3& eye_m, const Vec3& look_at_m, double vfov_deg,
              std::array<int, 2> pixels) {
  const Vec3 to = look_at_m - eye_m;
  BELVEDERE_CHECK(norm(to) > 0, "an eye looks at something else than itself");
  const double level = norm(to.xy());
  const double pan = level > 1e-12 * norm(to) ? std::atan2(to.x, to.y) : 0;
  const double width = pixels[0], height = pixels[1];
  const double f_px = 0.5 * height / std::tan(0.5 * degToRad(vfov_deg));
  return {eye_m,
          design::imagerFromSite(radToDeg(pan), radToDeg(std::atan2(-to.z, level)), 0),
          optics::RadialLens{f_px, 1, {0.5 * width, 0.5 * height}},
          pixels,
          {},
          {0, 0},
          {width, height}};
}

Vec2 lensPlace(const View& view, Size size, Vec2 place) {
  return {place.x * view.pixels[0] / size[0], place.y * view.pixels[1] / size[1]};
}
Vec2 picturePlace(const View& view, Size size, Vec2 place_px) {
  return {place_px.x * size[0] / view.pixels[0], place_px.y * size[1] / view.pixels[1]};
}

std::optional<Vec3> rayOf(const View& view, Size size, Vec2 place) {
  const auto in_view = optics::unproject(view.lens, lensPlace(view, size, place));
  if (!in_view) return std::nullopt;
  return transposed(view.view_from_site) * *in_view;
}

std::optional<Vec2> placeOf(const View& view, Size size, const Vec3& point_m) {
  const Vec3 in_view = view.view_from_site * (point_m - view.eye_m);
  if (!(norm(in_view) > 1e-9)) return std::nullopt;
  const auto at_px = optics::project(view.lens, in_view);
  if (!at_px) return std::nullopt;
  const Vec2 place = picturePlace(view, size, *at_px);
  if (!(place.x >= 0 && place.y >= 0 && place.x <= size[0] && place.y <= size[1]))
    return std::nullopt;
  return place;
}

}  // namespace belvedere::picture
