// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where an object stands in a design, as positions: good for a design and its changed copy alike.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "design/design.h"

namespace belvedere::edit {

// The object with an id in a list of either constness; null when there is none.
template <class List>
auto* withId(List& list, const std::string& id) {
  for (auto& item : list)
    if (item.id.text == id) return &item;
  return static_cast<decltype(&list.front())>(nullptr);
}

struct WallPlace {
  std::size_t building = 0, storey = 0, wall = 0, opening = 0;  // as far down as was asked for
};
template <class D>
auto& storeyAt(D& design, const WallPlace& at) {
  return design.site.buildings[at.building].storeys[at.storey];
}
template <class D>
auto& wallAt(D& design, const WallPlace& at) {
  return storeyAt(design, at).walls[at.wall];
}
std::optional<WallPlace> placeOfStorey(const design::Design& design, const std::string& id);
std::optional<WallPlace> placeOfWall(const design::Design& design, const std::string& id);
std::optional<WallPlace> placeOfOpening(const design::Design& design, const std::string& id);

}  // namespace belvedere::edit
