// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/lens_setting.h"

#include <algorithm>

#include "base/units.h"
#include "design/resolve.h"

namespace belvedere::design {
namespace {

// Focal length over pixel pitch of the lens at an aim, as far as it has one scale.
double scalePx(const optics::Lens& lens) {
  return std::visit(
      [](const auto& l) {
        if constexpr (requires { l.k; }) return l.f_px;
        else return 0.5 * (l.f_px.x + l.f_px.y);
      },
      lens);
}

// 0 at the wide end, 1 at the tele end; 0 for a fixed lens.
double zoomShare(const ModelImager& imager, const Aim& aim) {
  const auto zoom = zoomOf(imager);
  if (!zoom || zoom->tele.f_px == zoom->wide.f_px) return 0;
  const double f = scalePx(lensAt(imager, aim));
  return std::clamp((f - zoom->wide.f_px) / (zoom->tele.f_px - zoom->wide.f_px), 0.0, 1.0);
}

std::optional<double> between(const std::vector<double>& ends, double share) {
  if (ends.empty()) return {};
  return ends.front() + share * (ends.back() - ends.front());
}

}  // namespace

std::optional<double> fNumberAt(const ModelImager& imager, const Aim& aim) {
  return fNumberOf(imager, imager.lens.f_number.size() < 2 ? 0 : zoomShare(imager, aim));
}

std::optional<double> widestFNumber(const ModelImager& imager, double zoom_share) {
  const auto stated = between(imager.lens.f_number, zoom_share);
  return !stated && imager.least_light ? imager.least_light->f_number : stated;
}

std::optional<double> fNumberOf(const ModelImager& imager, double zoom_share,
                                std::optional<double> stopped_to) {
  if (!stopped_to) return between(imager.lens.f_number, zoom_share);
  return std::max(*stopped_to, widestFNumber(imager, zoom_share).value_or(*stopped_to));
}

std::optional<optics::Focus> focusAt(const ModelImager& imager, const Aim& aim) {
  return focusOf(imager, lensAt(imager, aim), zoomShare(imager, aim));
}

std::optional<optics::Focus> focusOf(const ModelImager& imager, const optics::Lens& lens,
                                     double zoom_share, std::optional<double> stopped_to) {
  const auto f_number = fNumberOf(imager, zoom_share, stopped_to);
  if (!f_number || !imager.pitch_um) return {};
  const double pitch_m = umToM(*imager.pitch_um);
  const std::vector<double>& focal = imager.lens.focal_mm;
  const double focal_m =
      focal.empty() ? scalePx(lens) * pitch_m : mmToM(*between(focal, zoom_share));
  return optics::Focus{focal_m, *f_number, pitch_m};
}

}  // namespace belvedere::design
