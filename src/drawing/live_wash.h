// SPDX-License-Identifier: GPL-3.0-or-later
//
// A zone's wash and hatches as one picture, straight from the lattice: what a window shows while a
// hand drags. It looks like what paintZone paints (the same inks, hatches at the same places), but
// borders are as straight as the lattice is fine, and there are no contour lines. A few
// milliseconds, where areas take a tenth of a second.
#pragma once

#include "drawing/sheet_parts.h"  // before Qt, whose keywords are names in a design

#include <QImage>

#include <map>

namespace belvedere::drawing {

// Each reason's hatch over a whole sheet, painted once and kept until size or inks change.
class HatchSheets {
 public:
  // Device pixels and millimetres a pixel; throws away what was kept for others.
  void setPaper(QSize size_px, double mm_per_px, const Inks& inks);
  const QImage& of(proof::Reason reason);

 private:
  QSize size_px_;
  double mm_per_px_ = 1;
  Inks inks_ = Inks::light();
  std::map<proof::Reason, QImage> kept_;
};

// Paints over `image` (ARGB32_Premultiplied, the size of `hatches`, its corner the paper's origin)
// what the map shows, within the area as judged. `mm_per_px`: of the image.
void paintLiveWash(QImage& image, const Inks& inks, const ToPaper& to_paper, double mm_per_px,
                   const ZoneMap& map, HatchSheets& hatches, Occurs& occurs);

}  // namespace belvedere::drawing
