// SPDX-License-Identifier: GPL-3.0-or-later
//
// Analytics, surroundings, and the bill.
#include <algorithm>

#include "desk/room_words.h"
#include "desk/services_tables_parts.h"
#include "services/findings.h"

namespace belvedere::desk {

using namespace services;

// ---- analytics ----------------------------------------------------------------------------------

ServicesTable analyticsTable(const ServicesAnswer& answer) {
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Rule"),
        QT_TRANSLATE_NOOP("ServicesTables", "runs on"),
        QT_TRANSLATE_NOOP("ServicesTables", "seen well enough by")})
    column(table, heading);
  for (const RuleDemand& demand : answer.seen.rules) {
    const auto& assigned = answer.sizes.rules.assigned;
    const auto at =
        std::find_if(assigned.begin(), assigned.end(),
                     [&](const Assigned& a) { return a.requirement == demand.requirement; });
    ServicesTable::Row row;
    put(row, demand.requirement.text,
        statedAt(QStringLiteral("brief/%1").arg(idText(demand.requirement.text))));
    put(row, at == assigned.end() ? partWords("none: it has to give") : listed(at->imagers),
        partWords("All rules onto imagers within what each housing can run (data sheets, shared), "
                  "solved exactly.") + handbook(13));
    put(row, demand.candidates.empty() ? QStringLiteral("–") : listed(demand.candidates),
        partWords("Each imager proven by itself to see the rule's region or the strip about its line.") +
            handbook(13));
    row.about = {demand.requirement.text};
    if (at != assigned.end()) {
      row.about.insert(row.about.end(), at->imagers.begin(), at->imagers.end());
      row.shows = at->imagers;
    }
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty() ? partWords("The brief asks for no rule.")
                                  : partWords("Rules of the brief on imagers that see them, within "
                                              "what each housing can run.");
  return table;
}

// ---- surroundings -------------------------------------------------------------------------------

ServicesTable surroundingsTable(const ServicesAnswer& answer) {
  const design::Design& design = *answer.design;
  ServicesTable table;
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "Camera"));
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "m up"), true);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "IP"),
        QT_TRANSLATE_NOOP("ServicesTables", "IK"),
        QT_TRANSLATE_NOOP("ServicesTables", "corrosion")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "air °C"),
        QT_TRANSLATE_NOOP("ServicesTables", "rated °C")})
    column(table, heading, true);
  const auto range = [](const std::optional<design::Range>& r) {
    return r ? partWords("%1 to %2").arg(figure((*r)[0], 0), figure((*r)[1], 0))
             : QStringLiteral("–");
  };
  const auto code = [](const std::string& has, const std::string& needed) {
    return (has.empty() ? QStringLiteral("–") : idText(has)) +
           (needed.empty() ? QString() : " / " + idText(needed));
  };
  for (const Standing& s : answer.sizes.surroundings.standing) {
    const design::Housing* housing = design::findHousing(design, s.housing);
    const design::Model* model = housing ? design::findModel(design, housing->model) : nullptr;
    const QString key = QStringLiteral("housings/%1").arg(idText(s.housing.text));
    const QString around = housing && housing->surroundings
                               ? key + "/surroundings"
                               : partWords("surroundings of its storey");
    const auto coded = [&](const char* rating, const std::string& has, const std::string& needed,
                           const QString& why) {
      return sheetSays(model, QStringLiteral("ratings/%1").arg(QLatin1String(rating)), !has.empty()) +
             (needed.empty() ? partWords(" Nothing is asked for.") + handbook(14)
                             : QStringLiteral(" ") + why + handbook(14));
    };
    ServicesTable::Row row;
    put(row, s.housing.text, statedAt(key));
    put(row, figure(s.fixing_height_m, 2),
        s.fixing_height_m ? partWords("The height of its fixing (%1/mount/fixing_m) less that of the floor "
                                      "or ground under it.").arg(key) + handbook(14)
                          : partWords("The ground under it is not known.") + handbook(14));
    put(row, code(s.has_ip, s.needed_ip),
        coded("ip", s.has_ip, s.needed_ip,
              partWords("Asked for: %1, as the place is %2 (%3) [practice; IEC 60529].")
                  .arg(idText(s.needed_ip), idText(s.around.place), around)));
    put(row, code(s.has_ik, s.needed_ik),
        coded("ik", s.has_ik, s.needed_ik,
              partWords("Asked for: %1, as it hangs within reach of hands [practice; IEC 62262].")
                  .arg(idText(s.needed_ik))));
    put(row, code(s.has_corrosion, s.needed_corrosion),
        coded("corrosion", s.has_corrosion, s.needed_corrosion,
              partWords("Asked for: %1 (%2) [ISO 12944-2].").arg(idText(s.needed_corrosion), around)));
    put(row, range(s.air_c),
        s.air_c ? partWords("The design states it: temperature_c (%1).").arg(around)
                : partWords("The design does not state it: temperature_c (%1).").arg(around));
    put(row, range(s.rated_c), sheetSays(model, "ratings/temperature_c", s.rated_c.has_value()));
    row.about = row.shows = {s.housing.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("Nothing is said of what the cameras have to stand.")
                   : partWords("The code that it has / the code asked for. Fixings at height and "
                               "their loads are for licensed people.");
  return table;
}

// ---- bill ---------------------------------------------------------------------------------------

namespace {

QString quantitySource(const BillLine& line) {
  if (!line.metres)
    return partWords("Counted on the plan: %1.").arg(listed(line.of, 12)) + handbook(14);
  QString text = partWords("%1 m laid by %2, and a tenth for waste [practice], rounded up to a metre.")
                     .arg(figure(line.laid_m, 1), listed(line.of, 12));
  if (line.lengths_unknown > 0)
    text += partWords(" %n of them have no length.", line.lengths_unknown);
  return text + handbook(14);
}

ServicesTable::Row billRow(const design::Design& design, const Bill& bill, const BillLine& line) {
  const design::Model* model = line.model.empty() ? nullptr : design::findModel(design, line.model);
  ServicesTable::Row row;
  put(row, roomWord(line.part), sheetSays(model, "kind", model != nullptr));
  put(row,
      line.title.empty()        ? idText(line.model.text)
      : line.model.text.empty() ? roomWord(line.title)  // what no cable was chosen for
                                : idText(line.title),
      sheetSays(model, "title", model != nullptr));
  put(row, figure(line.quantity, 0), quantitySource(line));
  put(row, line.metres ? partWords("m") : partWords("pieces"),
      line.metres ? partWords("Cables are bought by the metre.") : partWords("Bought by the piece."));
  put(row, figure(line.price, 2), sheetSays(model, "price", line.price.has_value()));
  put(row, figure(line.amount, 2),
      line.amount ? partWords("%1 × %2 %3.")
                            .arg(figure(line.quantity, 0), figure(line.price, 2), idText(bill.money)) +
                        handbook(14)
                  : partWords("It has no price, so it is not in the total."));
  row.about = {line.model.empty() ? line.part : line.model.text};
  row.shows = line.of;
  std::sort(row.shows.begin(), row.shows.end());
  row.shows.erase(std::unique(row.shows.begin(), row.shows.end()), row.shows.end());
  return row;
}

// The total, and each sum of the brief that it is held against.
void addTotals(const ServicesAnswer& answer, ServicesTable& table) {
  const Bill& bill = answer.sizes.bill;
  ServicesTable::Row total;
  put(total, partWords("Total"), partWords("The sum of the lines.") + handbook(14));
  put(total, bill.complete() ? partWords("of material") : partWords("of material, at least"),
      partWords("Material alone: no labour, no containment, no taxes.") + handbook(14));
  for (int empty = 0; empty < 2; ++empty) put(total, QString());
  put(total, idText(bill.money), statedAt(QStringLiteral("money")));
  put(total, figure(bill.total, 2),
      partWords("The sum of the lines; %n have no price.", bill.unpriced) + handbook(14));
  total.findings << QString::fromStdString(totalText(bill));
  table.rows.push_back(std::move(total));
  for (const MoneyCheck& check : answer.sizes.money) {
    const QString key = QStringLiteral("brief/%1").arg(idText(check.requirement.text));
    ServicesTable::Row row;
    put(row, check.requirement.text, statedAt(key));
    put(row, !check.met   ? partWords("may be spent: undecided")
             : *check.met ? partWords("may be spent: met")
                          : partWords("may be spent: not met"),
        partWords("The total against it; undecided where something has no price or no length.") +
            handbook(14));
    for (int empty = 0; empty < 2; ++empty) put(row, QString());
    put(row, idText(bill.money), statedAt(QStringLiteral("money")));
    put(row, figure(check.most, 2), statedAt(key + "/amount_most"));
    row.about = {check.requirement.text};
    table.rows.push_back(std::move(row));
  }
}

}  // namespace

ServicesTable billTable(const ServicesAnswer& answer) {
  const Bill& bill = answer.sizes.bill;
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Part"),
        QT_TRANSLATE_NOOP("ServicesTables", "what")})
    column(table, heading);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "quantity"), true);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "unit"));
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "a piece or metre"),
        QT_TRANSLATE_NOOP("ServicesTables", "sum")})
    column(table, heading, true);
  for (const BillLine& line : bill.lines) table.rows.push_back(billRow(*answer.design, bill, line));
  if (!table.rows.empty()) addTotals(answer, table);
  QString energy;
  if (answer.sizes.energy.high_kwh > 0)
    energy = partWords(" In a year it takes %1 to %2 kWh, half of it by day and half by night.")
                 .arg(figure(answer.sizes.energy.low_kwh, 0), figure(answer.sizes.energy.high_kwh, 0));
  table.says = table.rows.empty()
                   ? partWords("Nothing is to be bought.")
                   : partWords("Material at the catalogue's prices%1, cables with a tenth for waste; no "
                               "labour, containment or taxes. Cameras that are there already: %2.")
                             .arg(bill.money.empty() ? partWords(" (the design names no currency)")
                                                     : QStringLiteral(", ") + idText(bill.money))
                             .arg(bill.already_there) +
                         energy;
  return table;
}

}  // namespace belvedere::desk
