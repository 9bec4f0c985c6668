// SPDX-License-Identifier: GPL-3.0-or-later
//
// Analytics, surroundings; and which table is which.
#include <algorithm>

#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;

namespace {

QString listed(const std::vector<std::string>& ids, std::size_t most = 6) {
  QStringList words;
  for (std::size_t i = 0; i < ids.size() && i < most; ++i) words << idText(ids[i]);
  QString all = words.join(", ");
  if (ids.size() > most) all += partWords(" and %1 more").arg(ids.size() - most);
  return all;
}
ServicesTable analyticsTable(const ServicesAnswer& answer) {
  ServicesTable table;
  table.headings = {partWords("Rule"), partWords("runs on"), partWords("seen well enough by")};
  table.figures = {false, false, false};
  for (const RuleDemand& demand : answer.seen.rules) {
    const auto& assigned = answer.sizes.rules.assigned;
    const auto at =
        std::find_if(assigned.begin(), assigned.end(),
                     [&](const Assigned& a) { return a.requirement == demand.requirement; });
    ServicesTable::Row row;
    row.cells = {idText(demand.requirement.text),
                 at == assigned.end() ? partWords("none: it has to give") : listed(at->imagers),
                 listed(demand.candidates)};
    row.about = {demand.requirement.text};
    if (at != assigned.end())
      row.about.insert(row.about.end(), at->imagers.begin(), at->imagers.end());
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty() ? partWords("The brief asks for no rule.")
                                  : partWords("Rules of the brief on imagers that see them, within "
                                              "what each housing can run.");
  return table;
}

ServicesTable surroundingsTable(const ServicesAnswer& answer) {
  ServicesTable table;
  table.headings = {partWords("Camera"), partWords("m up"), partWords("IP"), partWords("IK"),
                    partWords("corrosion"), partWords("air °C"), partWords("rated °C")};
  table.figures = {false, true, false, false, false, true, true};
  const auto range = [](const std::optional<design::Range>& r) {
    return r ? partWords("%1 to %2").arg(figure((*r)[0], 0), figure((*r)[1], 0))
             : QStringLiteral("–");
  };
  const auto code = [](const std::string& has, const std::string& needed) {
    return (has.empty() ? QStringLiteral("–") : idText(has)) +
           (needed.empty() ? QString() : " / " + idText(needed));
  };
  for (const Standing& s : answer.sizes.surroundings.standing) {
    ServicesTable::Row row;
    row.cells = {idText(s.housing.text),        figure(s.fixing_height_m, 2),
                 code(s.has_ip, s.needed_ip),   code(s.has_ik, s.needed_ik),
                 code(s.has_corrosion, s.needed_corrosion), range(s.air_c), range(s.rated_c)};
    row.about = {s.housing.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("Nothing is said of what the cameras have to stand.")
                   : partWords("The code that it has / the code asked for. Fixings at height and "
                               "their loads are for licensed people.");
  return table;
}

// What findings say of the thing that a row is about.
void takeFindings(ServicesTable& table, const std::vector<Finding>& findings) {
  for (ServicesTable::Row& row : table.rows)
    for (const Finding& finding : findings) {
      const bool of_it = !finding.about.empty() && !row.about.empty() &&
                         std::find(finding.about.begin(), finding.about.end(),
                                   row.about.front()) != finding.about.end();
      if (!of_it) continue;
      row.findings << QString::fromStdString(finding.sentence);
      row.short_of = row.short_of || finding.severity == Severity::shortfall;
    }
}

ServicesTable bareTable(ServicesPart part, const ServicesAnswer& answer) {
  switch (part) {
    case ServicesPart::network: return networkTable(answer);
    case ServicesPart::power: return powerTable(answer);
    case ServicesPart::streams: return streamsTable(answer);
    case ServicesPart::recording: return recordingTable(answer);
    case ServicesPart::analytics: return analyticsTable(answer);
    case ServicesPart::surroundings: return surroundingsTable(answer);
  }
  return {};
}

}  // namespace

QString titleOf(ServicesPart part) {
  switch (part) {
    case ServicesPart::network: return partWords("Network");
    case ServicesPart::power: return partWords("Power");
    case ServicesPart::streams: return partWords("Streams");
    case ServicesPart::recording: return partWords("Recording");
    case ServicesPart::analytics: return partWords("Analytics");
    case ServicesPart::surroundings: return partWords("Surroundings");
  }
  return {};
}

ServicesTable tableOf(ServicesPart part, const ServicesAnswer& answer) {
  ServicesTable table = bareTable(part, answer);
  takeFindings(table, answer.findings);
  return table;
}

}  // namespace belvedere::desk
