// SPDX-License-Identifier: GPL-3.0-or-later
//
// Shadows of lights over a column: a plan cell between two heights over its lower face. Of each light the
// heights are known at which a body hides all of the column, or perhaps some of it, so that sums of many
// lights can be bounded height by height.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "geometry/interval.h"
#include "light/illuminance.h"
#include "scene/umbra.h"

namespace belvedere::light {

// What stands between one light and a column.
struct Shade {
  struct Body {
    std::uint32_t umbra = 0;   // index
    std::uint32_t source = 0;  // bodies of one source adjoin
    double share = 0;          // of the light that passes
    Interval perhaps, surely;  // heights at which it hides some, or all
  };
  std::shared_ptr<const scene::Umbras> umbras;
  std::vector<Body> bodies;
  bool dark = false;           // something that lets nothing through hides all of the column

  // The share that passes, least and greatest over the column's points at a height; over all of them at some heights.
  Interval at(double height_m) const;
  Interval over(const Interval& heights_m) const;
};

// The shades of all lights over one column, each told when it is first asked for, and kept for the column's parts.
// Imagers share them: where light falls does not hang on who looks. What one of them was found to have at some heights
// its column's parts have too.
class Shades {
 public:
  // Of a part of that column, on the same floor.
  static Shades partOf(const Shades& larger);
  // The shade of the light of that number, which lies at `from`.
  const Shade& of(std::size_t light, const Solids& solids, const Vec3& from, scene::Band band,
                  const scene::Prism& column);
  // Already known: none of that light comes to any of the column.
  bool isDark(std::size_t light) const;

  // Heights outside which the imager of that number has enough light all over the column; none: low over high.
  // Not asked yet: all heights.
  Interval dimHeights(std::size_t imager) const;
  void setDimHeights(std::size_t imager, const Interval& heights_m);

 private:
  struct Kept {
    std::shared_ptr<const Shade> shade;  // null: not asked
    bool own = false;                    // else of a larger column
  };
  struct Dim {
    std::size_t imager = 0;
    Interval heights_m;
  };
  std::vector<Kept> of_light_;
  std::vector<Dim> dim_;  // of few imagers
};

}  // namespace belvedere::light
