// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the services come to, as tables: plain words and figures, each row with the ids of the design
// that it came from. Computes nothing.
#pragma once

#include <QString>
#include <QStringList>

#include <string>
#include <vector>

#include "desk/services_maker.h"

namespace belvedere::desk {

enum class ServicesPart { network, power, streams, recording, analytics, surroundings };
inline constexpr int kServicesParts = 6;
QString titleOf(ServicesPart part);

struct ServicesTable {
  struct Row {
    QStringList cells;
    std::vector<std::string> about;  // the most specific first
    bool short_of = false;           // a finding says that it falls short
    QStringList findings;            // what they say of it
  };
  QStringList headings;
  std::vector<bool> figures;         // per column: at the right
  std::vector<Row> rows;
  QString says;                      // what the figures are; or why there are none, and what to do
};
ServicesTable tableOf(ServicesPart part, const ServicesAnswer& answer);

}  // namespace belvedere::desk
