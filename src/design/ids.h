// SPDX-License-Identifier: GPL-3.0-or-later
//
// What names things in the document: one type of id for each kind of thing, so that none is taken for another.
#pragma once

#include <compare>
#include <string>

namespace belvedere::design {

template <class Tag>
struct Id {
  std::string text;
  auto operator<=>(const Id&) const = default;
  bool empty() const { return text.empty(); }
};
using BuildingId = Id<struct BuildingTag>;
using StoreyId = Id<struct StoreyTag>;
using WallId = Id<struct WallTag>;
using OpeningId = Id<struct OpeningTag>;
using SolidId = Id<struct SolidTag>;
using MaterialId = Id<struct MaterialTag>;
using LightId = Id<struct LightTag>;
using ZoneId = Id<struct ZoneTag>;
using MountingId = Id<struct MountingTag>;
using ContainmentId = Id<struct ContainmentTag>;
using UnderlayId = Id<struct UnderlayTag>;
using SituationId = Id<struct SituationTag>;
using RequirementId = Id<struct RequirementTag>;
using ModelId = Id<struct ModelTag>;
using HousingId = Id<struct HousingTag>;
using StreamId = Id<struct StreamTag>;
using DeviceId = Id<struct DeviceTag>;
using AnyId = Id<struct AnyTag>;  // whatever the key says it may name

}  // namespace belvedere::design
