// SPDX-License-Identifier: GPL-3.0-or-later
//
// For the tables of services alone: figures and words as they all write them.
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

ServicesTable networkTable(const ServicesAnswer& answer);
ServicesTable powerTable(const ServicesAnswer& answer);
ServicesTable streamsTable(const ServicesAnswer& answer);
ServicesTable recordingTable(const ServicesAnswer& answer);

}  // namespace belvedere::desk
