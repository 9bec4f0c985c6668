// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the services come to, as tables: plain words and figures, each cell with what it came from,
// each row with the ids of the design that it is about. Computes nothing.
#pragma once

#include <QString>
#include <QStringList>

#include <string>
#include <vector>

#include "desk/services_maker.h"

namespace belvedere::desk {

enum class ServicesPart {
  network, power, streams, recording, analytics, surroundings, bill, failures
};
inline constexpr int kServicesParts = 8;
QString titleOf(ServicesPart part);

struct ServicesTable {
  struct Row {
    QStringList cells;
    // Of each cell, empty where the cell is: stated by the design at which key, by the data sheet of
    // which model, by which evidence, or computed by which formula of the handbook and of what.
    QStringList sources;
    std::vector<std::string> about;  // the most specific first; empty: of all rows together
    // What a look at the row shows on the plan: housings, imagers, devices, links.
    std::vector<std::string> shows;
    std::vector<std::string> dark;   // of a failure: imagers that are cut off
    bool short_of = false;           // a finding says that it falls short
    QStringList findings;            // what they, or a proof, say of it
  };
  QStringList headings;
  std::vector<bool> figures;         // per column: at the right
  std::vector<Row> rows;
  QString says;                      // what the figures are; or why there are none, and what to do
};
// Of any part but failures.
ServicesTable tableOf(ServicesPart part, const ServicesAnswer& answer);
// Parts, worst first.
ServicesTable failuresTable(const FailuresAnswer& answer);

}  // namespace belvedere::desk
