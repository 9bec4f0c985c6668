// SPDX-License-Identifier: GPL-3.0-or-later
//
// Designs for the tests of aiming: one housing H with imagers as asked.
#pragma once

#include <cmath>

#include "base/units.h"
#include "edit/aim_drag.h"
#include "optics/lens.h"
#include "proof/limits.h"

namespace belvedere::edit {

// A varifocal imager, 1920 x 1080, 100 to 30 deg across, that turns all round and tilts -30 to 90.
inline design::ModelImager zoomImager(int slot, const std::string& family = "rectilinear") {
  design::ModelImager imager;
  imager.slot = slot;
  imager.pixels = {1920, 1080};
  imager.lens.family = family;
  imager.lens.hfov_deg = {100, 30};
  imager.pan_deg = {-180, 180};
  imager.tilt_deg = {-30, 90};
  imager.roll_deg = {-95, 95};
  imager.offset_m = {0.08, 0.01, -0.03};
  return imager;
}
inline design::Aim aimed(double pan_deg, double tilt_deg, double roll_deg = 0,
                         std::optional<double> hfov_deg = {}) {
  design::Aim aim;
  aim.pan_deg = pan_deg;
  aim.tilt_deg = tilt_deg;
  aim.roll_deg = roll_deg;
  aim.hfov_deg = hfov_deg;
  return aim;
}
inline design::Design headOf(std::vector<design::ModelImager> imagers,
                             const std::vector<design::Aim>& aims, double lens_z_m = 4) {
  design::Design design;
  design::Model model;
  model.id.text = "M";
  model.imagers = std::move(imagers);
  design::Housing housing;
  housing.id.text = "H";
  housing.model.text = "M";
  housing.mount.fixing_m = {0, 0, lens_z_m};
  for (std::size_t i = 0; i < aims.size(); ++i) {
    design::HousingImager imager;
    imager.slot = model.imagers[i].slot;
    imager.aims = {aims[i]};
    housing.imagers.push_back(imager);
  }
  design.catalogue.models = {model};
  design.housings = {housing};
  return design;
}
inline ImagerRef slotOf(int slot) { return {{"H"}, slot, 0}; }
inline const design::Aim& aimOf(const design::Design& design, int slot) {
  for (const auto& imager : design.housings[0].imagers)
    if (imager.slot == slot) return imager.aims[0];
  throw std::runtime_error("no such slot");
}
inline std::optional<Vec2> pixelOf(const design::Design& design, int slot, const Vec3& point) {
  const auto view = posedOf(design, slotOf(slot), design::JudgedOn::captured);
  return optics::project(view->lens, view->imager_from_site * (point - view->lens_m));
}

}  // namespace belvedere::edit
