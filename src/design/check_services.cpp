// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "design/check.h"

namespace belvedere::design {
namespace {

// "07:00-19:00".
bool isHours(const std::string& text) {
  const auto time = [&](std::size_t at) {
    for (const std::size_t i : {at, at + 1, at + 3, at + 4})
      if (text[i] < '0' || text[i] > '9') return false;
    const int hour = (text[at] - '0') * 10 + text[at + 1] - '0';
    const int minute = (text[at + 3] - '0') * 10 + text[at + 4] - '0';
    return text[at + 2] == ':' && minute < 60 && hour * 60 + minute <= 24 * 60;
  };
  return text.size() == 11 && text[5] == '-' && time(0) && time(6);
}

void checkModelKind(const Design& design, const ModelId& id, std::initializer_list<ModelKind> kinds,
                    const std::string& where, ReadLog& log) {
  const Model* model = id.empty() ? nullptr : findModel(design, id);
  if (!model || std::ranges::find(kinds, model->kind) != kinds.end()) return;
  log.finding("model_of_other_kind", where,
              fmt::format("the model \"{}\" is a {}", shown(id.text), word(model->kind)),
              "choose a model of another kind");
}

// "C1.2": a housing of the design and a slot of its model.
bool isImager(const Design& design, const std::string& name) {
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos) return false;
  const Housing* housing = findHousing(design, {name.substr(0, dot)});
  return housing && std::ranges::any_of(housing->imagers, [&](const HousingImager& imager) {
           return std::to_string(imager.slot) == name.substr(dot + 1);
         });
}

// Disks in the array, hot spares left out, against what its level needs [raid levels as in the
// SNIA disk data format: 5 from three disks, 6 and 10 from four; 50 and 60 of groups of those].
void checkDisks(const Design& design, const Disks& disks, const std::string& at, ReadLog& log) {
  checkModelKind(design, disks.model, {ModelKind::disk}, at + "/model", log);
  const int working = disks.count - disks.spares;
  const bool grouped = disks.raid == "50" || disks.raid == "60";
  const int groups = grouped ? disks.groups : 1;
  const int least = disks.raid == "0" || disks.raid == "1"     ? 2
                    : disks.raid == "5" || disks.raid == "50"  ? 3
                    : disks.raid == "6" || disks.raid == "10" || disks.raid == "60" ? 4
                                                                                     : 1;
  const int least_groups = grouped ? 2 : 1;
  if (groups < least_groups || working < groups * least)
    log.finding("raid_shape", at,
                fmt::format("raid {} needs {} working disks or more{}, here are {}", disks.raid,
                            std::max(groups, least_groups) * least,
                            grouped ? fmt::format(" in {} groups", std::max(groups, least_groups))
                                    : "",
                            working),
                "change count, spares, groups or raid");
  else if (working % groups != 0 || (disks.raid == "10" && working % 2 != 0))
    log.finding("raid_shape", at,
                fmt::format("{} working disks cannot be shared out evenly for raid {}", working,
                            disks.raid),
                "change count or spares");
}

}  // namespace

void checkServices(const Design& design, ReadLog& log) {
  const Services& services = design.services;
  for (std::size_t i = 0; i < services.devices.size(); ++i)
    checkModelKind(design, services.devices[i].model,
                   {ModelKind::lamp, ModelKind::switch_, ModelKind::injector, ModelKind::supply,
                    ModelKind::recorder, ModelKind::disk, ModelKind::card, ModelKind::viewer},
                   fmt::format("/services/devices/{}/model", i), log);
  for (std::size_t i = 0; i < services.devices.size(); ++i)
    if (services.devices[i].disks)
      checkDisks(design, *services.devices[i].disks, fmt::format("/services/devices/{}/disks", i),
                 log);
  for (std::size_t i = 0; i < design.housings.size(); ++i)
    checkModelKind(design, design.housings[i].card, {ModelKind::card},
                   fmt::format("/housings/{}/card", i), log);
  for (std::size_t i = 0; i < services.links.size(); ++i) {
    const Link& link = services.links[i];
    const std::string at = fmt::format("/services/links/{}", i);
    checkModelKind(design, link.cable, {ModelKind::cable}, at + "/cable", log);
    if (!link.from.empty() && link.from == link.to)
      log.finding("link_to_itself", at, fmt::format("both ends are \"{}\"", shown(link.from.text)));
  }
  for (std::size_t i = 0; i < services.recording.size(); ++i) {
    const std::string& schedule = services.recording[i].schedule;
    if (!schedule.empty() && schedule != "always" && schedule != "activity" && !isHours(schedule))
      log.finding("bad_text", fmt::format("/services/recording/{}/schedule", i),
                  fmt::format("\"{}\" is no schedule", shown(schedule)),
                  "always, activity, or hours such as 07:00-19:00");
  }
  for (std::size_t i = 0; i < design.tests.size(); ++i) {
    const Test& test = design.tests[i];
    if (!test.imager.empty() && !isImager(design, test.imager))
      log.finding("unknown_imager", fmt::format("/tests/{}/imager", i),
                  fmt::format("there is no imager \"{}\"", shown(test.imager)),
                  "housing, a point, slot: C1.2", {"/housings"});
    if (!test.issued_in.empty() &&
        std::ranges::find(design.revisions, test.issued_in,
                          [](const Revision& r) { return r.id.text; }) == design.revisions.end())
      log.finding("unknown_id", fmt::format("/tests/{}/issued_in", i),
                  fmt::format("there is no revision \"{}\"", shown(test.issued_in)), "",
                  {"/revisions"});
  }
}

}  // namespace belvedere::design
