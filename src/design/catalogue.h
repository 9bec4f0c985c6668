// SPDX-License-Identifier: GPL-3.0-or-later
//
// The catalogue of a design: models as their data sheets state them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "design/ids.h"
#include "design/site.h"

namespace belvedere::design {

// Lens words: see optics/lens.h and docs/format.md. One value: a fixed lens; two: [wide, tele].
struct LensData {
  std::string family;                    // "rectilinear" (default), "equidistant", ..., "fitted",
                                         // "brown_conrady", "kannala_brandt"
  std::vector<double> focal_mm, hfov_deg, vfov_deg, dfov_deg, f_number;
  std::optional<double> focal_x_px, focal_y_px, centre_x_px, centre_y_px;  // of a calibrated lens
  std::vector<double> coefficients;      // k1 k2 p1 p2 k3, or k1 to k4
  std::optional<double> infrared_shift_um;  // how far behind that of light infrared's image lies
  bool operator==(const LensData&) const = default;
};
struct Delivered {
  double centre = 1, corner = 1;         // resolved over pixel density
  bool operator==(const Delivered&) const = default;
};
struct LeastLight {
  double lux = 0;
  std::optional<double> f_number, exposure_s, contrast, reflectance;
  bool operator==(const LeastLight&) const = default;
};
struct ModelImager {
  int slot = 1;
  std::array<int, 2> pixels{0, 0};
  std::optional<double> pitch_um;
  LensData lens;
  Delivered delivered;
  std::optional<LeastLight> least_light;
  Vec3 offset_m;                         // of the lens: outward along the imager's own pan, right, up
  Range pan_deg{0, 0}, tilt_deg{0, 0}, roll_deg{0, 0};  // limits in the housing's frame
  bool remote = false;                   // aim and zoom can be set from afar
  bool operator==(const ModelImager&) const = default;
};
struct ModelLamp {
  int slot = 1;
  double bearing_deg = 0, tilt_deg = 0;  // housing's frame, or off the axis of the imager
  double beam_deg = 60, range_m = 30, wave_nm = 850;
  std::optional<double> intensity_w_per_sr{};
  std::optional<int> carried_by{};       // imager slot whose aim it turns with
  Vec3 offset_m{};                       // ahead, right, up: off the housing's origin, or off the lens
                                         // of the imager that carries it
  bool operator==(const ModelLamp&) const = default;
};
struct Shared {
  std::string what;                      // ring lamps analytics supply link card pixels
  std::vector<int> slots;
  std::string rule;                      // apart_deg at_most_n one_of_sets sum_at_most together
  std::optional<double> value;
  std::vector<std::vector<int>> sets;    // of one_of_sets
  bool operator==(const Shared&) const = default;
};
struct Feed {
  std::string kind;                      // "poe", "dc", "ac"
  std::optional<int> poe_class;
  std::optional<double> least_v, nominal_v, most_v;
  bool operator==(const Feed&) const = default;
};
struct ModelPower {
  std::optional<double> idle_w, lamps_w, heater_w, start_w;
  std::optional<double> power_factor;    // of a load on alternating current
  std::vector<Feed> feeds;
  bool operator==(const ModelPower&) const = default;
};
struct Ratings {
  std::string ip, ik, corrosion;
  std::optional<Range> temperature_c;
  bool operator==(const Ratings&) const = default;
};
// What a switch, supply, recorder, disk, card or cable states.
struct Capacity {
  std::optional<int> ports, uplinks, poe_class, channels, bays;
  std::string media;                     // of a cable: "twisted_pair", "fibre", "power"
  std::string current;                   // of a supply: "dc" (default), "ac"
  bool screened = false;                 // of a cable
  bool repeats = false;                  // of an injector: a new channel starts behind it (extender)
  std::optional<double> port_mbps, uplink_mbps, poe_budget_w, out_v, out_w, size_tb, write_mb_per_s,
      workload_tb_per_year, ohm_per_km, pixels_per_s, streams_per_imager, longest_m, battery_ah;
  bool operator==(const Capacity&) const = default;
};
enum class ModelKind {
  housing, mount, lamp, switch_, injector, supply, cable, recorder, disk, card, viewer
};
struct Model {
  ModelId id;
  std::string title, maker;
  ModelKind kind = ModelKind::housing;
  std::optional<double> price, mass_kg;
  std::optional<Ratings> ratings;
  std::optional<ModelPower> power;
  std::vector<ModelImager> imagers;
  std::vector<ModelLamp> lamps;
  std::vector<Shared> shared;
  std::optional<Capacity> capacity;
  // of a mount: from the fixing point to the housing's origin
  double reach_m = 0;                    // along the base bearing
  double drop_m = 0;                     // downwards
  std::vector<std::string> fits;         // surfaces: ceiling, wall, pole, corner, beam, column
  std::vector<ModelId> takes;            // housings that it takes; empty: any
  std::optional<double> carries_kg;      // at most
  // of a housing
  std::optional<Range> heights_m;        // of the fixing above the floor, as its maker advises
  std::optional<double> wind_area_m2;    // largest face
  std::optional<double> cover_radius_mm; // of the sphere (dome, bubble) about the housing's origin that
                                         // its imagers look through
  bool operator==(const Model&) const = default;
};
struct Catalogue {
  std::vector<Attachment> files;         // belvedere.catalogue files; read beside the design
  std::vector<Model> models;             // the design's own
  bool operator==(const Catalogue&) const = default;
};

}  // namespace belvedere::design
