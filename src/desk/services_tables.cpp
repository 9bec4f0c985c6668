// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which table is which, and what they all share.
#include "desk/services_tables.h"

#include <algorithm>
#include <cmath>

#include "desk/room_sentences.h"
#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;

// ---- figures and words --------------------------------------------------------------------------

QString figure(double value, int decimals) {
  return std::isfinite(value) ? QString::number(value, 'f', decimals) : QStringLiteral("–");
}
QString figure(std::optional<double> value, int decimals) {
  return value ? figure(*value, decimals) : QStringLiteral("–");
}
QString spread(const Spread& s, int decimals) {
  const QString low = figure(s.low, decimals), high = figure(s.high, decimals);
  return low == high ? low : partWords("%1 to %2").arg(low, high);
}
QString idText(const std::string& id) { return QString::fromStdString(id); }

QString listed(const std::vector<std::string>& ids, std::size_t most) {
  QStringList words;
  for (std::size_t i = 0; i < ids.size() && i < most; ++i) words << idText(ids[i]);
  QString all = words.join(", ");
  if (ids.size() > most) all += partWords(" and %1 more").arg(ids.size() - most);
  return all;
}

// ---- what cells came from -----------------------------------------------------------------------

QString statedAt(const QString& key) { return partWords("The design states it: %1.").arg(key); }

QString sheetSays(const design::Model* model, const QString& key, bool stated) {
  if (!model) return partWords("No model is chosen whose data sheet would state it (%1).").arg(key);
  const QString id = idText(model->id.text);
  return stated ? partWords("The data sheet of %1 states it: %2.").arg(id, key)
                : partWords("The data sheet of %1 does not state it (%2).").arg(id, key);
}

QString handbook(int section) { return partWords(" Handbook %1.").arg(section); }

void put(ServicesTable::Row& row, const QString& cell, const QString& source) {
  row.cells << cell;
  row.sources << source;
}
void put(ServicesTable::Row& row, const std::string& id, const QString& source) {
  put(row, idText(id), source);
}

void column(ServicesTable& table, const char* heading, bool is_figure) {
  table.headings << partWords(heading);
  table.figures.push_back(is_figure);
}

// ---- the tables ---------------------------------------------------------------------------------

namespace {

// What findings say of the thing that a row is about.
void takeFindings(ServicesTable& table, const std::vector<Finding>& findings) {
  for (ServicesTable::Row& row : table.rows)
    for (const Finding& finding : findings) {
      const bool of_it = !finding.about.empty() && !row.about.empty() &&
                         std::find(finding.about.begin(), finding.about.end(),
                                   row.about.front()) != finding.about.end();
      if (!of_it) continue;
      row.findings << roomSentence(finding.sentence);
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
    case ServicesPart::bill: return billTable(answer);
    case ServicesPart::failures: break;
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
    case ServicesPart::bill: return partWords("Bill");
    case ServicesPart::failures: return partWords("Failures");
  }
  return {};
}

ServicesTable tableOf(ServicesPart part, const ServicesAnswer& answer) {
  ServicesTable table = bareTable(part, answer);
  takeFindings(table, answer.findings);
  return table;
}

}  // namespace belvedere::desk
