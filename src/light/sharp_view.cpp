// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sharp_view.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "base/units.h"
#include "light/exposure.h"

namespace belvedere::light {
namespace {

double chosenFocus(const optics::Focus& focus, const design::PosedImager& view,
                   std::span<const Vec3> targets) {
  const double hyperfocal_m = optics::hyperfocalM(focus);
  if (targets.empty()) return hyperfocal_m;
  const Interval depth = optics::depthOver(view.imager_from_site.row[2], view.lens_m, targets);
  const double nearest_m = std::max(kNearestFocusM, 2 * focus.focal_m);
  if (depth.high <= nearest_m) return nearest_m;
  return std::min(optics::bestFocusM(std::max(depth.low, nearest_m), depth.high), hyperfocal_m);
}

}  // namespace

std::optional<SharpView> sharpView(const design::Design& design, const design::PosedImager& view,
                                   std::span<const Vec3> targets, bool infrared) {
  const design::Housing* housing = design::findHousing(design, view.housing);
  BELVEDERE_CHECK(housing != nullptr, "a view belongs to a housing");
  const design::Model* model = design::findModel(design, housing->model);
  const design::ModelImager* imager = model ? design::findImager(*model, view.slot) : nullptr;
  const auto used = std::find_if(housing->imagers.begin(), housing->imagers.end(),
                                 [&](const design::HousingImager& i) { return i.slot == view.slot; });
  BELVEDERE_CHECK(imager != nullptr && used != housing->imagers.end() && view.aim < used->aims.size(),
                  "a view has its imager and aim");
  const design::Aim& aim = used->aims[view.aim];
  const auto focus = focusAt(*imager, aim);
  if (!focus) return {};
  SharpView out;
  out.focus = *focus;
  out.chosen = !aim.focus_m;
  out.focused_at_m = aim.focus_m ? std::max(*aim.focus_m, 2 * focus->focal_m)
                                 : chosenFocus(*focus, view, targets);
  out.sharp_at_m = out.focused_at_m;
  out.diffraction_m = optics::diffractionSpotM(focus->f_number, infrared ? 850 : optics::kGreenNm);
  const double shift_m = infrared ? umToM(imager->lens.infrared_shift_um.value_or(0)) : 0;
  if (shift_m != 0) {
    const auto moved = optics::infraredFocusM(*focus, out.focused_at_m, shift_m);
    if (!moved) {
      out.sharp_at_m = out.stretch.near_m = std::numeric_limits<double>::infinity();
      return out;
    }
    out.sharp_at_m = *moved;
  }
  out.stretch = optics::sharpStretch(*focus, out.sharp_at_m);
  return out;
}

}  // namespace belvedere::light
