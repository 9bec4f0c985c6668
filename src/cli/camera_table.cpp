// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/camera_table.h"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "cli/page.h"
#include "design/resolve.h"
#include "proof/placing.h"

namespace belvedere::cli {

std::optional<double> heightAboveFloorM(const design::Design& design, const design::PosedImager& posed) {
  const design::Housing* housing = design::findHousing(design, posed.housing);
  const std::optional<double> floor_m =
      housing != nullptr ? proof::floorUnder(design, *housing) : std::nullopt;
  return floor_m ? std::optional(posed.lens_m.z - *floor_m) : std::nullopt;
}

namespace {
// The written aim of a posed imager.
const design::Aim* aimOf(const design::Design& design, const design::PosedImager& posed) {
  const design::Housing* housing = design::findHousing(design, posed.housing);
  if (housing == nullptr) return nullptr;
  for (const design::HousingImager& imager : housing->imagers)
    if (imager.slot == posed.slot && posed.aim < imager.aims.size()) return &imager.aims[posed.aim];
  return nullptr;
}

std::string heightText(const design::Design& design, const design::PosedImager& posed) {
  const std::optional<double> height_m = heightAboveFloorM(design, posed);
  return height_m ? fmt::format("{:.2f}", *height_m) : fmt::format("z {:.2f}", posed.lens_m.z);
}
}  // namespace

std::string cameraTable(const design::Design& design) {
  const auto degrees = [](std::initializer_list<double> angles) {
    std::string text;
    for (const double angle : angles)
      text += padLeft(fmt::format("{:.1f}", angle), 6);
    return text;
  };
  Table table;
  table.align = "lrrrrrrrl";
  table.head = {"", "lens", "lens", "above", "site frame:", "housing:", "field of", "", "judged"};
  table.rows.push_back(
      {"imager", "x m", "y m", "floor m", "pan  tilt  roll", "pan  tilt", "view", "captured",
       "on"});
  for (const design::PosedImager& posed :
       design::posedImagers(design, design::JudgedOn::recorded)) {
    const design::Aim* aim = aimOf(design, posed);
    const design::Aim none;
    const design::Aim& site = aim != nullptr ? *aim : none;
    // Further aims beneath their imager, which leaves the page to the figures.
    const std::string name = posed.aim == 0 ? printable(posed.imager) : fmt::format("  aim {}", posed.aim + 1);
    table.rows.push_back(
        {name, fmt::format("{:.2f}", posed.lens_m.x),
         fmt::format("{:.2f}", posed.lens_m.y), heightText(design, posed),
         degrees({site.pan_deg, site.tilt_deg, site.roll_deg}),
         degrees({posed.housing_pan_deg, posed.housing_tilt_deg}),
         fmt::format("{:.1f}x{:.1f}", posed.hfov_deg, posed.vfov_deg),
         fmt::format("{}x{}", posed.pixels[0], posed.pixels[1]),
         posed.stream.empty() ? "captured" : printable(posed.stream)});
  }
  return table.text(2);
}

Json cameraJson(const design::Design& design) {
  Json list = Json::array();
  for (const design::PosedImager& posed :
       design::posedImagers(design, design::JudgedOn::recorded)) {
    const design::Aim* aim = aimOf(design, posed);
    Json one{{"imager", posed.imager}, {"name", posed.name}, {"housing", posed.housing.text},
             {"slot", posed.slot}, {"lens_m", numbers(posed.lens_m)}};
    if (const auto height_m = heightAboveFloorM(design, posed)) one["height_m"] = number(*height_m);
    if (aim != nullptr)
      one["site"] = {{"pan_deg", number(aim->pan_deg)},
                     {"tilt_deg", number(aim->tilt_deg)},
                     {"roll_deg", number(aim->roll_deg)}};
    one["housing_frame"] = {{"pan_deg", number(posed.housing_pan_deg)},
                            {"tilt_deg", number(posed.housing_tilt_deg)}};
    one["hfov_deg"] = number(posed.hfov_deg);
    one["vfov_deg"] = number(posed.vfov_deg);
    if (posed.focal_mm) one["focal_mm"] = number(*posed.focal_mm);
    one["pixels"] = posed.pixels;
    one["time_share"] = number(posed.time_share);
    one["stream"] = posed.stream;
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace belvedere::cli
