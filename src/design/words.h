// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of the document's closed lists: one per enumerator, in the enumerators' order. File,
// messages and pages use the same words (a trailing underscore is dropped: Life::new_ is "new").
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "design/design.h"

namespace belvedere::design {

template <class E>
struct Words;  // only the document's own enumerations have words

template <>
struct Words<SolidKind> {
  static constexpr std::array<std::string_view, 13> list{
      "stock", "column", "counter", "furniture", "ramp", "stair", "beam",
      "canopy", "vehicle", "foliage", "sign", "mesh", "other"};
};
template <>
struct Words<RequirementKind> {
  static constexpr std::array<std::string_view, 4> list{"see", "withhold", "rule", "money"};
};
template <>
struct Words<TargetKind> {
  static constexpr std::array<std::string_view, 7> list{
      "face", "face_child", "face_seated", "person", "plate", "floor", "custom"};
};
template <>
struct Words<JudgedOn> {
  static constexpr std::array<std::string_view, 3> list{"captured", "recorded", "viewed"};
};
template <>
struct Words<FacingRule> {
  static constexpr std::array<std::string_view, 2> list{"each", "any"};
};
template <>
struct Words<ModelKind> {
  static constexpr std::array<std::string_view, 11> list{
      "housing", "mount",    "lamp", "switch", "injector", "supply",
      "cable",   "recorder", "disk", "card",   "viewer"};
};
template <>
struct Words<Life> {
  static constexpr std::array<std::string_view, 3> list{"existing", "new", "removed"};
};
template <>
struct Words<ImagerMode> {
  static constexpr std::array<std::string_view, 3> list{"by_light", "colour", "mono"};
};
template <>
struct Words<StreamView> {
  static constexpr std::array<std::string_view, 4> list{"whole", "crop", "unrolled", "stitched"};
};

// The word of an enumerator.
template <class E>
constexpr std::string_view word(E value) {
  return Words<E>::list[static_cast<std::size_t>(value)];
}
// The enumerator of a word; nothing for a word that is not in the list.
template <class E>
constexpr std::optional<E> fromWord(std::string_view text) {
  for (std::size_t i = 0; i < Words<E>::list.size(); ++i)
    if (Words<E>::list[i] == text) return static_cast<E>(i);
  return std::nullopt;
}

}  // namespace belvedere::design
