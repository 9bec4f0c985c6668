// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "base/figures.h"
#include "services/findings.h"

namespace belvedere::services {
namespace {

// Ratings that places ask for and models leave out: one finding for each model and rating.
void unstated(const design::Design& design, const Sizes& sizes, std::vector<Finding>& out) {
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> housings;
  for (const Standing& s : sizes.surroundings.standing) {
    const design::Housing* housing = findHousing(design, s.housing);
    const auto add = [&](Covered covered, const char* what, const std::string& needed) {
      if (covered == Covered::unstated && housing)
        housings[{housing->model.text, fmt::format("no {}, and {} is asked for", what, needed)}]
            .push_back(s.housing.text);
    };
    add(s.ip, "ingress protection", s.needed_ip);
    add(s.ik, "impact protection", s.needed_ik);
    add(s.corrosion, "corrosion class", s.needed_corrosion);
    if (s.air_c)
      add(s.temperature, "temperature range",
          fmt::format("{:g} to {:g} C", (*s.air_c)[0], (*s.air_c)[1]));
  }
  for (const auto& [model, ids] : housings) {
    std::vector<std::string> about = ids;
    about.push_back(model.first);
    out.push_back({"rating_unstated", Severity::caution, about, {}, {},
                   fmt::format("The model {} states {} ({} of its cameras).", model.first, model.second,
                               ids.size()),
                   "14"});
  }
}

void ratings(const Standing& s, std::vector<Finding>& out) {
  const std::string id = s.housing.text;
  if (s.ip == Covered::no)
    out.push_back({"ip_short", Severity::shortfall, {id}, {}, {},
                   fmt::format("{}: {} where its place ({}) asks for {} (practice; codes of IEC 60529).", id, s.has_ip,
                               s.around.place == "open" ? "in the open" : s.around.place, s.needed_ip),
                   "14"});
  if (s.ik == Covered::no)
    out.push_back({"ik_short", Severity::shortfall, {id}, Quantity{*ikEnergyJ(s.needed_ik), "J"},
                   Quantity{ikEnergyJ(s.has_ik).value_or(0), "J"},
                   fmt::format("{}: hangs {:.2f} m up, within reach of hands, with {} where {} is asked "
                               "for (practice; codes of IEC 62262).", id, s.fixing_height_m.value_or(0), s.has_ik, s.needed_ik),
                   "14"});
  if (s.corrosion == Covered::no)
    out.push_back({"corrosion_short", Severity::shortfall, {id}, {}, {},
                   fmt::format("{}: built for {} where its place is {} (ISO 12944-2).", id, s.has_corrosion,
                               s.needed_corrosion),
                   "14"});
  if (s.temperature == Covered::no) {
    const bool cold = (*s.rated_c)[0] > (*s.air_c)[0];
    const double found = cold ? (*s.rated_c)[0] : (*s.rated_c)[1];
    const double needed = cold ? (*s.air_c)[0] : (*s.air_c)[1];
    out.push_back({"temperature_short", Severity::shortfall, {id}, Quantity{needed, "C"},
                   Quantity{found, "C"},
                   fmt::format("{}: works {} {:g} C (its data sheet); the air there goes {} {:g} C (the "
                               "design).{}", id,
                               cold ? "down to" : "up to", found, cold ? "down to" : "up to", needed,
                               cold && s.heater_w == 0 ? " It has no heater." : ""),
                   "14"});
  }
  if (s.wind)
    out.push_back({"wind_on_pole", Severity::caution, {id}, {}, Quantity{s.wind->moment_nm, "N m"},
                   fmt::format("{}: at {:g} m/s ({:.0f} Pa) the wind puts {:.0f} N on it and {:.0f} N "
                               "on its pole, {:.0f} N m about the foot{}; poles and footings are for a "
                               "structural engineer.", id, s.around.wind_mps.value_or(0),
                               s.wind->pressure_pa, s.wind->housing_n, s.wind->pole_n,
                               s.wind->moment_nm,
                               s.wind->area_known && s.wind->width_known
                                   ? ""
                                   : " (an area or width is not stated and counts as nothing)"),
                   "14"});
}

void fixings(const Sizes& sizes, std::vector<Finding>& out) {
  const Fixing* heaviest = nullptr;
  std::vector<std::string> unknown;
  for (const Fixing& f : sizes.surroundings.fixings)
    if (!f.fixing_height_m) unknown.push_back(f.housing.text);
  if (!unknown.empty())
    out.push_back({"height_unknown", Severity::caution, unknown, {}, {},
                   fmt::format("{} cameras lie on no storey, and how high the ground is under them is "
                               "not known: reach of hands, wind on poles and advised heights are not "
                               "judged. Give their mounting lines or them a storey.", unknown.size()),
                   "14"});
  for (const Fixing& f : sizes.surroundings.fixings) {
    const std::string id = f.housing.text;
    if (!f.surface_fits)
      out.push_back({"mount_not_for_surface", Severity::shortfall, {id, f.mount}, {}, {},
                     fmt::format("{}: hangs on a {}, for which its mount {} is not made.", id, f.surface,
                                 f.mount),
                     "14"});
    if (!f.model_fits)
      out.push_back({"mount_not_for_model", Severity::shortfall, {id, f.mount}, {}, {},
                     fmt::format("{}: its mount {} does not take its model.", id, f.mount), "14"});
    if (f.carries_kg && f.mass_known && f.mass_kg > *f.carries_kg + 1e-9)
      out.push_back({"mount_overloaded", Severity::shortfall, {id, f.mount},
                     Quantity{*f.carries_kg, "kg"}, Quantity{f.mass_kg, "kg"},
                     fmt::format("{}: {:.1f} kg on a mount that carries {:g} kg.", id, f.mass_kg,
                                 *f.carries_kg),
                     "14"});
    if (!f.height_fits)
      out.push_back({"height_not_advised", Severity::caution, {id}, {},
                     Quantity{f.fixing_height_m.value_or(0), "m"},
                     fmt::format("{}: hangs {:.2f} m up; its maker advises {:g} to {:g} m.", id,
                                 f.fixing_height_m.value_or(0), (*f.advised_m)[0], (*f.advised_m)[1]),
                     "14"});
    if (f.mass_kg > 0 && (!heaviest || f.mass_kg > heaviest->mass_kg)) heaviest = &f;
  }
  if (heaviest)
    out.push_back({"weight_on_fixing", Severity::caution, {heaviest->housing.text}, {},
                   Quantity{heaviest->mass_kg, "kg"},
                   fmt::format("The heaviest camera, {}, puts {:.1f} kg on its fixing: whether the ground "
                               "carries it is for a competent person on site.", heaviest->housing.text,
                               heaviest->mass_kg),
                   "17"});
}

}  // namespace

std::vector<Finding> surroundingsFindings(const design::Design& design, const Sizes& sizes) {
  std::vector<Finding> out;
  for (const Standing& standing : sizes.surroundings.standing) ratings(standing, out);
  unstated(design, sizes, out);
  const auto& blank = sizes.surroundings.unstated;
  if (!blank.empty())
    out.push_back({"surroundings_unstated", Severity::note, {}, {}, {},
                   fmt::format("What {} cameras have to stand is not said (surroundings of their storey), "
                               "so that nothing of it is judged.", blank.size()),
                   "14"});
  fixings(sizes, out);
  return out;
}

}  // namespace belvedere::services
