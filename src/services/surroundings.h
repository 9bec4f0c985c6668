// SPDX-License-Identifier: GPL-3.0-or-later
//
// Surroundings: does what hangs there stand the place: protection and impact codes, temperature,
// corrosion, wind on poles, height, bracket, weight (handbook 14).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/design.h"

namespace belvedere::services {

// Does a rating such as "IP66" or "IP66/IP67" give at least the protection of `needed`? The second
// numeral up to 6 includes those below; 7, 8 and 9 include no jets, so that they count for
// themselves alone [IEC 60529:1989 with amendments 1 and 2].
bool ipCovers(std::string_view rating, std::string_view needed);
// Impact energy of a code, IK00 to IK11, J (letters of either case) [IEC 62262:2002 with amendment 1 of 2021].
std::optional<double> ikEnergyJ(std::string_view code);
// Does a rating such as "C4" cover the category of a place, C1 to C5 and CX [ISO 12944-2]?
bool corrosionCovers(std::string_view rating, std::string_view needed);

// Velocity pressure, Pa: rho v^2 / 2, rho = 1.25 kg/m3 [EN 1991-1-4:2005, 4.5(1)].
constexpr double windPressurePa(double speed_mps) { return 0.5 * 1.25 * speed_mps * speed_mps; }
// Upper force coefficients of a flat box and of a round pole [textbooks, from memory].
inline constexpr double kBoxForce = 2.0;
inline constexpr double kPoleForce = 1.2;
// Practice, no source: in the open, under a roof outside walls, and within reach of hands.
inline constexpr std::string_view kOpenIp = "IP66";
inline constexpr std::string_view kShelteredIp = "IP54";
inline constexpr std::string_view kReachIk = "IK10";
inline constexpr double kReachM = 2.5;

enum class Covered { yes, no, unstated };  // unstated: asked for, and the model says nothing

struct Wind {
  double pressure_pa = 0;
  double housing_n = 0, pole_n = 0;
  double moment_nm = 0;              // about the pole's foot
  bool area_known = true, width_known = true;
};

struct Standing {                    // of one housing
  design::HousingId housing;
  design::Surroundings around;
  std::optional<double> fixing_height_m;  // above the floor or ground; nothing: not known
  std::string needed_ip, has_ip, needed_ik, has_ik, needed_corrosion, has_corrosion;
  Covered ip = Covered::yes, ik = Covered::yes, corrosion = Covered::yes;
  std::optional<design::Range> air_c, rated_c;
  Covered temperature = Covered::yes;
  double heater_w = 0;
  std::optional<Wind> wind;          // on a pole where a gust is stated
};

struct Fixing {                      // of every housing
  design::HousingId housing;
  std::optional<double> fixing_height_m;
  std::optional<design::Range> advised_m;
  bool height_fits = true;
  std::string surface;               // "" unknown
  std::string mount;                 // its model, "" none
  bool surface_fits = true, model_fits = true;
  double mass_kg = 0;                // housing and mount, where both are stated
  bool mass_known = false;
  std::optional<double> carries_kg;
};

struct SurroundingsCheck {
  std::vector<Standing> standing;    // of housings whose surroundings are stated
  std::vector<design::HousingId> unstated;  // of those whose are not
  std::vector<Fixing> fixings;
};

// Of a fixing above what is under it: the floor of its storey, or of the storey whose wall or line
// it hangs on; else the open ground at z = 0 where the site lies there (no terrain, and a floor
// within kGroundM of it or none at all). Nothing where the ground is not known.
inline constexpr double kGroundM = 1;
std::optional<double> fixingHeightM(const design::Design& design, const design::Housing& housing);

SurroundingsCheck surroundingsOfAll(const design::Design& design);

}  // namespace belvedere::services
