// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/field.h"

#include <array>
#include <utility>

namespace belvedere::design {

std::string_view word(ObjectKind kind) {
  static constexpr std::array<std::string_view, 28> words{
      "person", "revision", "building", "storey", "wall", "opening", "solid", "material",
      "terrain", "light", "zone", "mounting", "containment", "underlay", "situation",
      "requirement", "model", "housing", "stream", "device", "link", "recording", "screen",
      "tolerance", "test", "evidence", "accepted", "alternative"};
  return words[static_cast<std::size_t>(kind)];
}

std::string_view unitOfKey(std::string_view key) {
  // Longer endings first: "speed_mps" must not read as seconds, nor "pitch_um" as metres.
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 28> units{{
      {"_tb_per_year", "TB/year"}, {"_w_per_sr", "W/sr"}, {"_mb_per_s", "MB/s"},
      {"ohm_per_km", "ohm/km"}, {"pixels_per_s", "px/s"}, {"frames_per_s", "1/s"},
      {"hours_per_year", "h/year"}, {"people_per_m2", "1/m2"}, {"px_per_m", "px/m"},
      {"seconds_in_view", "s"}, {"keep_days", "days"}, {"_mbps", "Mbit/s"}, {"_mps", "m/s"},
      {"_deg", "deg"}, {"_kg", "kg"}, {"_mm", "mm"}, {"_um", "um"}, {"_nm", "nm"}, {"_px", "px"},
      {"_tb", "TB"}, {"mbps", "Mbit/s"}, {"lux", "lx"}, {"_m", "m"}, {"_s", "s"}, {"_c", "C"},
      {"_hz", "Hz"}, {"_w", "W"}, {"_v", "V"}}};
  for (const auto& [ending, unit] : units)
    if (key.ends_with(ending)) return unit;
  return {};
}

}  // namespace belvedere::design
