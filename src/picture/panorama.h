// SPDX-License-Identifier: GPL-3.0-or-later
//
// A whole housing as one picture, unrolled: bearings to the right, elevations upwards, equal angles
// in equal pixels. Put together from its imagers' photographs as a camera does it: by direction
// alone, so that what is near may be seen twice or cut at a seam. Shares blend where two overlap.
#pragma once

#include <span>
#include <vector>

#include "picture/photo.h"

namespace belvedere::picture {

struct Panorama {
  double from_deg = 0, to_deg = 360;    // bearings; to_deg may go past 360
  double low_deg = -60, high_deg = 10;  // elevations
  double px_per_deg = 10;
  Size size() const;
};
inline constexpr int kPanoramaMostPx = 4096;

// All that the imagers see, at their own density on the axis or what kPanoramaMostPx allows. It
// begins after the widest gap. At least one view.
Panorama panoramaOf(std::span<const View> imagers);
// The size at which an imager is best photographed for it.
Size sizeFor(const Panorama& panorama, const View& imager);
// Put together imager by imager, so that no more than one photograph is held beside the panorama.
class Unrolling {
 public:
  explicit Unrolling(const Panorama& panorama);
  // photo: of the imager, whole, at any size; of it light and surfaces are asked.
  void add(const View& imager, const Photo& photo, const Progress& progress);
  // With light and surfaces. Where nobody looks: kOutsideSurface of work.h.
  Photo finished() &&;

 private:
  Panorama panorama_;
  Photo made_;
  std::vector<float> weights_, heaviest_;
};

}  // namespace belvedere::picture
