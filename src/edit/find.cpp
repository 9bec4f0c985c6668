// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/find.h"

namespace belvedere::edit {
namespace {

// The first place of a wall (or the storey alone) that `is` accepts.
template <class F>
std::optional<WallPlace> firstWall(const design::Design& design, F is) {
  WallPlace at;
  for (at.building = 0; at.building < design.site.buildings.size(); ++at.building)
    for (at.storey = 0; at.storey < design.site.buildings[at.building].storeys.size(); ++at.storey)
      for (at.wall = 0; at.wall < storeyAt(design, at).walls.size(); ++at.wall)
        if (is(wallAt(design, at), at)) return at;
  return std::nullopt;
}

}  // namespace

std::optional<WallPlace> placeOfStorey(const design::Design& design, const std::string& id) {
  for (std::size_t b = 0; b < design.site.buildings.size(); ++b)
    for (std::size_t s = 0; s < design.site.buildings[b].storeys.size(); ++s)
      if (design.site.buildings[b].storeys[s].id.text == id) return WallPlace{b, s, 0, 0};
  return std::nullopt;
}

std::optional<WallPlace> placeOfWall(const design::Design& design, const std::string& id) {
  return firstWall(design,
                   [&](const design::Wall& wall, WallPlace&) { return wall.id.text == id; });
}

std::optional<WallPlace> placeOfOpening(const design::Design& design, const std::string& id) {
  return firstWall(design, [&](const design::Wall& wall, WallPlace& at) {
    for (at.opening = 0; at.opening < wall.openings.size(); ++at.opening)
      if (wall.openings[at.opening].id.text == id) return true;
    return false;
  });
}

}  // namespace belvedere::edit
