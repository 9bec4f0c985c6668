// SPDX-License-Identifier: GPL-3.0-or-later
//
// All aims and zooms that can be set from afar of one imager, for withhold: how dense a picture of
// a slab can be under any of them, from above; and what one of them really reaches at a point.
#pragma once

#include <optional>
#include <vector>

#include "proof/box_tests.h"
#include "proof/judge.h"

namespace belvedere::proof {

// Density that an imager as posed has at a point that nothing hides: 0 out of the frame, and, where
// asked for, under its masks. px/m.
double densityInFrame(const design::PosedImager& view, const Vec3& target, bool masks);

class RemoteAims {
 public:
  // `view` is remote in the question, which stays.
  RemoteAims(const Question& question, std::size_t view);

  // Aims of a part of the range of pan, in the housing's frame. A lens off the housing's axis
  // swings round it: `lens_m` in the middle of the part, and not farther than `moves_m` from there
  // (one sector, which does not move, for a lens on the axis).
  struct Sector {
    design::Range pan_deg{};
    Vec3 lens_m;
    double moves_m = 0;
  };
  const std::vector<Sector>& sectors() const { return sectors_; }

  // At least the density that any aim of the sector, at any zoom, has anywhere in the slab, px/m;
  // nothing when none shows any of it. What hides the slab is not looked at.
  std::optional<double> upper(const Sector& sector, const Cell& cell, const Slab& slab) const;

  // Density that an aim really reaches at a point that it sees; 0 when that is not above `beat`.
  double reached(const Vec3& target, double beat) const;

 private:
  struct ZoomStep {
    optics::Lens lens;
    double half_diagonal_deg = 0;  // of its picture
    double densest_px_per_rad = 0; // of it and all wider ones
  };
  // The angle between the slab's directions and the nearest aim, degrees; 0 where not known.
  double offDeg(const Sector& sector, const Slab& slab) const;
  design::PosedImager posedAt(const optics::Lens& lens, design::PanTilt in_housing,
                              double roll_deg) const;

  const Question& question_;
  const design::PosedImager& view_;
  const Remote& remote_;
  std::vector<ZoomStep> steps_;    // from wide to tele
  std::vector<Sector> sectors_;
  double densest_px_per_rad_ = 0;  // of all
};

}  // namespace belvedere::proof
