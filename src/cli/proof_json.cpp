// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "cli/blind_output.h"
#include "cli/camera_table.h"
#include "cli/proof_output.h"
#include "design/words.h"
#include "proof/over_year.h"
#include "proof/part_loss.h"
#include "requirements/prove.h"

namespace belvedere::cli {

namespace {
Json worstJson(const proof::WorstSpot& worst) {
  Json one{{"at", numbers(worst.at)}, {"reason", word(worst.reason)}};
  if (!worst.imager.empty()) {
    one["imager"] = worst.imager;
    one["name"] = worst.name;
  }
  one["measure"] = measureJson(worst.measure);
  one["height_m"] = number(worst.height_m);
  return one;
}

Json rowJson(const design::Design& design, const proof::RequirementProof& row,
             const std::vector<proof::Keep>& keeps) {
  const design::Requirement* requirement = design::findRequirement(design, row.requirement);
  const bool withhold = row.kind == design::RequirementKind::withhold;
  Json one{{"requirement", row.requirement.text},
           {"purpose", requirement != nullptr ? requirement->purpose : ""},
           {"kind", design::word(row.kind)},
           {"situation", row.situation.text}};
  if (!row.without.empty()) one["without"] = row.without;
  if (proof::mayFall(design, row)) one["may_fall"] = true;
  one["verdict"] = word(row.verdict);
  one["needed_px_per_m"] = number(row.needed_px_per_m);
  if (!withhold) {
    one["asked"] = number(row.asked);
    one["share"] = boundsJson(row.share);
  }
  one["zone_m2"] = number(row.zone_m2);
  if (row.densest_px_per_m) {
    one["densest_px_per_m"] = boundsJson(*row.densest_px_per_m);
    if (!row.densest_imager.empty()) one["densest_imager"] = row.densest_imager;
    if (row.densest_at) one["densest_at"] = numbers(*row.densest_at);
  }
  if (!row.undecided_because.empty()) one["undecided_because"] = row.undecided_because;
  if (withhold) {
    Json list = Json::array();
    for (const proof::Keep& keep : keeps) list.push_back(keepJson(keep));
    one["keeps"] = std::move(list);
  }
  Json reasons = Json::array(), imagers = Json::array();
  for (const proof::ReasonShare& reason : row.reasons)
    reasons.push_back({{"reason", word(reason.reason)}, {"share", number(reason.share)}});
  for (const proof::Contribution& by : row.imagers)
    imagers.push_back(
        {{"imager", by.imager}, {"serves", number(by.serves)}, {"alone", number(by.alone)}});
  one["reasons"] = std::move(reasons);
  one["imagers"] = std::move(imagers);
  if (row.worst) one["worst"] = worstJson(*row.worst);
  one["judged_on_streams"] = row.judged_on_streams;
  one["finest_m"] = number(row.finest_m);
  one["boxes"] = row.boxes;
  return one;
}
Json demandsJson(const std::vector<requirements::Demand>& demands) {
  Json list = Json::array();
  for (const requirements::Demand& demand : demands) {
    Json one{{"requirement", demand.requirement.text},
             {"asks", requirements::word(demand.asks)},
             {"verdict", word(demand.verdict)}};
    if (demand.found) one["found"] = number(*demand.found);
    if (demand.needed) one["needed"] = number(*demand.needed);
    one["unit"] = demand.unit;
    one["by"] = demand.by;
    one["sentence"] = demand.sentence;
    list.push_back(std::move(one));
  }
  return list;
}
}  // namespace

Json boundsJson(const proof::Bounds& bounds) {
  return {{"low", number(bounds.low)}, {"high", number(bounds.high)}};
}

Json keepJson(const proof::Keep& keep) {
  Json mask = Json::array();
  for (const double share : keep.mask) mask.push_back(number(share));
  Json one{{"imager", keep.imager}, {"mask", std::move(mask)}};
  if (keep.turn_deg) one["turn_deg"] = number(*keep.turn_deg);
  if (keep.turn_falls) one["turn_loses"] = *keep.turn_falls;
  return one;
}

Json measureJson(const proof::Measure& measure) {
  return {{"found", number(measure.found)},
          {"needed", number(measure.needed)},
          {"unit", measure.unit},
          {"margin", number(measure.margin)}};
}

Json proofJson(const Loaded& loaded, const Proven& proven) {
  const proof::Proof& proof = proven.answer.proof;
  Json rows = Json::array(), worst = Json::array(), years = Json::array();
  for (std::size_t i = 0; i < proof.requirements.size(); ++i) {
    const auto& row = proof.requirements[i];
    rows.push_back(rowJson(loaded.design, row,
                           i < proven.keeps.size() ? proven.keeps[i] : std::vector<proof::Keep>()));
    if (i > 0 && proof.requirements[i - 1].requirement == row.requirement) continue;
    const std::string situation = worstSituation(proof, row.requirement);
    if (!situation.empty())
      worst.push_back({{"requirement", row.requirement.text}, {"situation", situation}});
    if (const auto year = proof::overYear(loaded.design, proof, row.requirement))
      years.push_back({{"requirement", row.requirement.text},
                       {"hours", number(year->hours)},
                       {"met_hours", number(year->met_hours)},
                       {"share", boundsJson(year->share)}});
  }
  return {{"format", "belvedere.proof"},
          {"version", 1},
          {"edition", proof.edition},
          {"design", designJson(loaded)},
          {"all_met", requirements::allMet(loaded.design, proven.answer)},
          {"requirements", std::move(rows)},
          {"demands", demandsJson(proven.answer.demands)},
          {"worst_situations", std::move(worst)},
          {"over_year", std::move(years)},
          {"blind_zones", blindJson(proof.blind_zones)},
          {"rings", ringJson(proof.rings)},
          {"imagers", cameraJson(loaded.design)},
          {"findings", findingsJson(proof.findings)}};
}

}  // namespace belvedere::cli
