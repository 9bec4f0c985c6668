// SPDX-License-Identifier: GPL-3.0-or-later
//
// For the tables of services alone: figures and words as they all write them, and what they came from.
#pragma once

#include <QCoreApplication>

#include <optional>
#include <string>

#include "desk/services_tables.h"
#include "services/services.h"

namespace belvedere::desk {

inline QString partWords(const char* words, int count = -1) {
  return QCoreApplication::translate("ServicesTables", words, nullptr, count);
}
QString figure(double value, int decimals);
QString figure(std::optional<double> value, int decimals);
// "1.2 to 3.4", or one figure where the ends agree.
QString spread(const services::Spread& s, int decimals);
QString idText(const std::string& id);
// "C1, C2, C3 and 4 more"
QString listed(const std::vector<std::string>& ids, std::size_t most = 6);
template <class Id>
std::vector<std::string> textsOf(const std::vector<Id>& ids) {
  std::vector<std::string> texts;
  for (const Id& id : ids) texts.push_back(id.text);
  return texts;
}

// ---- what cells came from
// "The design states it: services/links/k1/slack_m."
QString statedAt(const QString& key);
// "The data sheet of sw8 states it: capacity/port_mbps." Of a model that is not chosen, or whose
// sheet says nothing of it: so.
QString sheetSays(const design::Model* model, const QString& key, bool stated);
QString handbook(int section);

// A cell behind the others; an empty one came from nowhere.
void put(ServicesTable::Row& row, const QString& cell, const QString& source = {});
void put(ServicesTable::Row& row, const std::string& id, const QString& source);
// A column of a table.
void column(ServicesTable& table, const char* heading, bool is_figure = false);

ServicesTable networkTable(const ServicesAnswer& answer);
ServicesTable powerTable(const ServicesAnswer& answer);
ServicesTable streamsTable(const ServicesAnswer& answer);
ServicesTable recordingTable(const ServicesAnswer& answer);
ServicesTable analyticsTable(const ServicesAnswer& answer);
ServicesTable surroundingsTable(const ServicesAnswer& answer);
ServicesTable billTable(const ServicesAnswer& answer);

}  // namespace belvedere::desk
