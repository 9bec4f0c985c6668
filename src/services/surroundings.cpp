// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/surroundings.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string>

#include "services/place.h"
#include "services/stay.h"

namespace belvedere::services {

using design::Model;

namespace {

struct IpCode {
  int solids, water;
};

// Every code in a rating; X stands for a numeral that is not stated.
std::vector<IpCode> ipCodes(std::string_view text) {
  std::vector<IpCode> codes;
  for (std::size_t i = 0; i + 3 < text.size(); ++i) {
    if (std::toupper(text[i]) != 'I' || std::toupper(text[i + 1]) != 'P') continue;
    const auto numeral = [&](char c) { return c >= '0' && c <= '9' ? c - '0' : 0; };
    codes.push_back({numeral(text[i + 2]), numeral(text[i + 3])});
  }
  return codes;
}

std::string upper(std::string_view text) {
  std::string out;
  for (const char c : text) out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return out;
}

std::optional<int> corrosionRank(std::string_view written) {
  static constexpr std::array ranks{"C1", "C2", "C3", "C4", "C5", "CX"};
  const std::string all = upper(written);
  std::string_view code = all;
  if (code.substr(0, 3) == "C5-" || code.substr(0, 3) == "C5M" || code.substr(0, 3) == "C5I")
    code = "C5";  // as the edition before 2018 has it
  for (std::size_t i = 0; i < ranks.size(); ++i)
    if (code == ranks[i]) return static_cast<int>(i);
  return {};
}

Covered covered(const std::string& has, bool covers) {
  return has.empty() ? Covered::unstated : covers ? Covered::yes : Covered::no;
}

}  // namespace

bool ipCovers(std::string_view rating, std::string_view needed) {
  const std::vector<IpCode> wanted = ipCodes(needed);
  if (wanted.empty()) return true;
  bool solids = false, water = false;
  for (const IpCode& code : ipCodes(rating)) {
    solids = solids || code.solids >= wanted[0].solids;
    // What is immersed need not stand jets (5 and 6) unless it says so; spray (4) and less it stands.
    const bool jets = wanted[0].water == 5 || wanted[0].water == 6;
    water = water || (code.water >= wanted[0].water && !(jets && code.water > 6));
  }
  return solids && water;
}

std::optional<double> ikEnergyJ(std::string_view written) {
  const std::string code = upper(written);
  static constexpr std::array<double, 12> energies{0, 0.14, 0.2, 0.35, 0.5, 0.7,
                                                   1, 2,    5,   10,   20,  50};
  if (code.size() < 4 || !code.starts_with("IK")) return {};
  const char tens = code[2], ones = code[3];
  if (tens < '0' || tens > '1' || ones < '0' || ones > '9') return {};
  const int number = (tens - '0') * 10 + ones - '0';
  if (number > 11) return {};
  return energies[static_cast<std::size_t>(number)];
}

bool corrosionCovers(std::string_view rating, std::string_view needed) {
  const auto has = corrosionRank(rating), wants = corrosionRank(needed);
  return !wants || (has && *has >= *wants);
}

namespace {

const design::Mounting* mountingOf(const design::Design& design, const design::AnyId& on) {
  for (const design::Mounting& mounting : design.site.mounting)
    if (mounting.id.text == on.text) return &mounting;
  return nullptr;
}

std::string surfaceOf(const design::Design& design, const design::AnyId& on) {
  if (const design::Mounting* mounting = mountingOf(design, on)) return mounting->on;
  if (const design::Solid* solid = findSolid(design, {on.text}))
    return solid->kind == design::SolidKind::column ? "column"
           : solid->kind == design::SolidKind::beam ? "beam"
                                                    : "";
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.id.text == on.text) return "ceiling";
      for (const design::Wall& wall : storey.walls)
        if (wall.id.text == on.text) return "wall";
    }
  return "";
}

Wind windOn(const Model& model, const design::Mounting& pole, double height_m, double speed_mps) {
  Wind wind;
  wind.pressure_pa = windPressurePa(speed_mps);
  wind.area_known = model.wind_area_m2.has_value();
  wind.width_known = pole.width_m.has_value();
  wind.housing_n = kBoxForce * wind.pressure_pa * model.wind_area_m2.value_or(0);
  wind.pole_n = kPoleForce * wind.pressure_pa * pole.width_m.value_or(0) * height_m;
  wind.moment_nm = wind.housing_n * height_m + wind.pole_n * height_m / 2;
  return wind;
}

Standing standingOf(const design::Design& design, const design::Housing& housing,
                    const Model& model, const design::Surroundings& around,
                    std::optional<double> height_m) {
  Standing s;
  s.housing = housing.id;
  s.around = around;
  s.fixing_height_m = height_m;
  const design::Ratings rated = model.ratings.value_or(design::Ratings{});
  s.has_ip = rated.ip;
  s.has_ik = rated.ik;
  s.has_corrosion = rated.corrosion;
  s.needed_ip = around.place == "open" ? kOpenIp : around.place == "sheltered" ? kShelteredIp : "";
  if (!s.needed_ip.empty()) s.ip = covered(s.has_ip, ipCovers(s.has_ip, s.needed_ip));
  if (height_m && *height_m <= around.reach_m.value_or(kReachM)) {
    s.needed_ik = kReachIk;
    s.ik = covered(s.has_ik, ikEnergyJ(s.has_ik).value_or(0) >= *ikEnergyJ(kReachIk));
  }
  s.needed_corrosion = around.corrosion;
  // Indoors, dry and warm, whatever is built stands C1.
  if (!around.corrosion.empty() && around.corrosion != "C1")
    s.corrosion = covered(s.has_corrosion, corrosionCovers(s.has_corrosion, around.corrosion));
  s.air_c = around.temperature_c;
  s.rated_c = rated.temperature_c;
  if (s.air_c)
    s.temperature = !s.rated_c ? Covered::unstated
                    : (*s.rated_c)[0] <= (*s.air_c)[0] && (*s.air_c)[1] <= (*s.rated_c)[1]
                        ? Covered::yes
                        : Covered::no;
  if (model.power) s.heater_w = model.power->heater_w.value_or(0);
  const design::Mounting* pole = mountingOf(design, housing.mount.on);
  if (pole && pole->on == "pole" && around.wind_mps && height_m)
    s.wind = windOn(model, *pole, *height_m, *around.wind_mps);
  return s;
}

}  // namespace

std::optional<double> fixingHeightM(const design::Design& design, const design::Housing& housing) {
  const double z_m = housing.mount.fixing_m.z;
  if (const design::Storey* storey = storeyAt(design, housing.storey, housing.mount.fixing_m))
    return z_m - storey->floor_m;
  if (const design::Mounting* mounting = mountingOf(design, housing.mount.on))
    if (const design::Storey* storey = findStorey(design, mounting->storey))
      return z_m - storey->floor_m;
  bool floors = false, at_zero = false;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      for (const design::Wall& wall : storey.walls)
        if (wall.id.text == housing.mount.on.text) return z_m - storey.floor_m;
      floors = true;
      at_zero = at_zero || std::abs(storey.floor_m) <= kGroundM;
    }
  if (design.site.terrain || (floors && !at_zero)) return {};
  return z_m;
}

SurroundingsCheck surroundingsOfAll(const design::Design& design) {
  SurroundingsCheck out;
  for (const design::Housing* housing : stayingHousings(design)) {
    const Model* model = findModel(design, housing->model);
    if (!model) continue;
    const std::optional<double> height_m = fixingHeightM(design, *housing);
    if (const auto around = surroundingsOf(design, *housing))
      out.standing.push_back(standingOf(design, *housing, *model, *around, height_m));
    else
      out.unstated.push_back(housing->id);

    Fixing f;
    f.housing = housing->id;
    f.fixing_height_m = height_m;
    f.advised_m = model->heights_m;
    f.height_fits = !f.advised_m || !height_m ||
                    (*height_m >= (*f.advised_m)[0] - 1e-9 && *height_m <= (*f.advised_m)[1] + 1e-9);
    f.surface = surfaceOf(design, housing->mount.on);
    f.mass_known = model->mass_kg.has_value();
    f.mass_kg = model->mass_kg.value_or(0);
    if (const Model* mount = housing->mount.model.empty()
                                 ? nullptr
                                 : findModel(design, housing->mount.model)) {
      f.mount = mount->id.text;
      f.surface_fits = f.surface.empty() || mount->fits.empty() ||
                       std::ranges::find(mount->fits, f.surface) != mount->fits.end();
      f.model_fits = mount->takes.empty() ||
                     std::ranges::find(mount->takes, model->id) != mount->takes.end();
      f.carries_kg = mount->carries_kg;
      f.mass_kg += mount->mass_kg.value_or(0);
      f.mass_known = f.mass_known && mount->mass_kg.has_value();
    }
    out.fixings.push_back(f);
  }
  return out;
}

}  // namespace belvedere::services
