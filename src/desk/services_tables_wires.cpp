// SPDX-License-Identifier: GPL-3.0-or-later
//
// Network and power.
#include <array>

#include "desk/room_words.h"
#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;

namespace {

QString linkKey(const design::AnyId& link, const char* key) {
  return QStringLiteral("services/links/%1/%2").arg(idText(link.text), QLatin1String(key));
}

const design::Model* modelAt(const design::Design& design, const std::string& id) {
  if (const design::Housing* housing = design::findHousing(design, {id}))
    return design::findModel(design, housing->model);
  for (const design::Device& device : design.services.devices)
    if (device.id.text == id) return design::findModel(design, device.model);
  return nullptr;
}
QString modelName(const design::Model* model) {
  return model ? idText(model->id.text) : partWords("a model that is not there");
}

// ---- network ------------------------------------------------------------------------------------

QString lengthSource(const Cable& c, const design::Link* link) {
  if (!c.placed)
    return partWords("An end has no place: the design states none (services/devices, at_m).");
  if (!c.way) return partWords("No way joins the ends: storeys are joined by risers alone.") + handbook(10);
  const bool routed = link && !link->route.empty();
  QString text = c.drawn ? (routed ? partWords("Along the way drawn for it (%1), which wins over its route")
                                   : partWords("Along the way drawn for it (%1)"))
                               .arg(linkKey(c.link, "path"))
                 : c.way->open ? partWords("Square across the floor, where no way leads")
                 : routed ? partWords("Along its route (%1)").arg(linkKey(c.link, "route"))
                          : partWords("The shortest way along containment and walls");
  text += partWords(": %1 m, of it %2 m up or down to it and %3 m in containment; and %4 m of slack "
                    "(%5).")
              .arg(figure(c.way->length_m, 2), figure(c.way->drop_m, 2),
                   figure(c.way->contained_m, 2), figure(link ? link->slack_m : 0, 2),
                   linkKey(c.link, "slack_m"));
  return text + handbook(10);
}

// "C1_a 4.2, C2_a 6.0 and 4 more (table Streams)"
QString carried(const Cable& c) {
  if (c.carries.empty()) return partWords("none");
  std::vector<std::string> each;
  for (const Carried& of : c.carries)
    each.push_back(of.stream.text + " " + figure(of.mbps, 1).toStdString());
  return partWords("%1 (table Streams)").arg(listed(each, 24));
}

QString longestSource(const Cable& c) {
  const bool stated = c.model && c.model->capacity && c.model->capacity->longest_m;
  if (stated || !c.longest_m) return sheetSays(c.model, "capacity/longest_m", stated);
  return partWords("Fixed cable of a channel: 90 m at 20 °C, less the rise of its loss at %1 °C%2 "
                   "[ISO/IEC 11801-1, ANSI/TIA-568-C.2].")
             .arg(figure(c.temperature_c, 0),
                  c.model && c.model->capacity && c.model->capacity->screened ? partWords(", screened")
                                                                              : QString()) +
         handbook(10);
}

QString rateSource(const design::Design& design, const Cable& c) {
  return partWords("The least of what its ends and the cable state: %1, %2, %3 (data sheets, "
                   "capacity/port_mbps, uplink_mbps).")
             .arg(modelName(modelAt(design, c.from.text)), modelName(modelAt(design, c.to.text)),
                  c.model ? idText(c.model->id.text) : partWords("a cable that is not chosen")) +
         handbook(10);
}

}  // namespace

ServicesTable networkTable(const ServicesAnswer& answer) {
  const design::Design& design = *answer.design;
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Link"),
        QT_TRANSLATE_NOOP("ServicesTables", "From"),
        QT_TRANSLATE_NOOP("ServicesTables", "To"),
        QT_TRANSLATE_NOOP("ServicesTables", "Cable")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "m"),
        QT_TRANSLATE_NOOP("ServicesTables", "may be"),
        QT_TRANSLATE_NOOP("ServicesTables", "Mbit/s"),
        QT_TRANSLATE_NOOP("ServicesTables", "of"),
        QT_TRANSLATE_NOOP("ServicesTables", "cuts off")})
    column(table, heading, true);
  for (std::size_t i = 0; i < answer.sizes.network.cables.size(); ++i) {
    const Cable& c = answer.sizes.network.cables[i];
    const design::Link* link = i < design.services.links.size() ? &design.services.links[i] : nullptr;
    ServicesTable::Row row;
    put(row, c.link.text, statedAt(linkKey(c.link, "id")));
    put(row, c.from.text, statedAt(linkKey(c.link, "from")));
    put(row, c.to.text, statedAt(linkKey(c.link, "to")));
    put(row, c.model ? idText(c.model->id.text) : roomWord(word(c.media)),
        c.model ? statedAt(linkKey(c.link, "cable"))
                : partWords("No cable is chosen (%1): taken as twisted pair.").arg(linkKey(c.link, "cable")));
    put(row, c.placed && c.way ? figure(c.length_m, 1) : QStringLiteral("–"), lengthSource(c, link));
    put(row, figure(c.longest_m, 0), longestSource(c));
    put(row, figure(c.load_mbps, 1),
        partWords("The sum of the peaks of the streams that it carries, in the fuller direction: %1; "
                  "on average %2 Mbit/s.")
                .arg(carried(c), spread(c.mean_mbps, 1)) +
            handbook(10));
    put(row, figure(c.rate_mbps, 0), rateSource(design, c));
    put(row, c.cut_off.empty() ? QStringLiteral("–") : QString::number(c.cut_off.size()),
        partWords("Cameras that reach none of those who take their streams if it fails: %1.")
                .arg(c.cut_off.empty() ? partWords("none") : listed(textsOf(c.cut_off))) +
            handbook(10));
    row.about = {c.link.text, c.from.text, c.to.text};
    row.shows = {c.link.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("No links are drawn, so nothing is said of the network: the design "
                               "file names them under services.")
                   : partWords("Lengths follow containment and walls, or the way drawn for a cable, "
                               "drops and slack counted. Mbit/s: the high end, in the fuller "
                               "direction. Cuts off: cameras, if the link fails.");
  return table;
}

// ---- power --------------------------------------------------------------------------------------

namespace {

constexpr std::array kShownLoads{Load::day, Load::night, Load::cold_night, Load::start};

// What a device draws in a state, as its data sheet says it.
QString drawKeys(Load load) {
  switch (load) {
    case Load::day: return QStringLiteral("power/idle_w");
    case Load::night: return QStringLiteral("power/idle_w + lamps_w");
    case Load::cold_night: return QStringLiteral("power/idle_w + lamps_w + heater_w");
    case Load::start: return partWords("power/start_w, at least idle_w");
  }
  return {};
}

QString feedingSource(const design::Design& design, const Feeding& f, Load load) {
  const auto at = static_cast<std::size_t>(load);
  const design::Model* model = modelAt(design, f.housing.text);
  if (!f.draw_w) return sheetSays(model, drawKeys(load), false);
  const bool by_class = model && model->power && !model->power->idle_w;
  QString text = by_class
                     ? partWords("The most that its class allows: %1 W (data sheet of %2, power/feeds)")
                           .arg(figure((*f.draw_w)[at], 1), modelName(model))
                     : partWords("It draws %1 W (data sheet of %2: %3)")
                           .arg(figure((*f.draw_w)[at], 1), modelName(model), drawKeys(load));
  if (!f.source_w)
    text += f.by == FedBy::nothing ? partWords("; nothing feeds it.")
                                   : partWords("; what the cable loses cannot be told.");
  else if (f.by == FedBy::poe)
    text += partWords(", and the channel loses %1 W over %2 m and the cords at %3 °C (%4).")
                .arg(figure((*f.source_w)[at] - (*f.draw_w)[at], 2), figure(f.length_m, 1),
                     figure(f.temperature_c, 0),
                     f.measured_conductor ? partWords("resistance of the cable's data sheet")
                                          : partWords("resistance of the worst channel"));
  else
    text += partWords(", and the line loses %1 W: P = I (V − I R) from %2 V over %3 m at %4 Ω/km and "
                      "%5 °C.")
                .arg(figure((*f.source_w)[at] - (*f.draw_w)[at], 2), figure(f.supply_v, 0),
                     figure(f.length_m, 1), figure(f.ohm_per_km, 2), figure(f.temperature_c, 0));
  return text + handbook(11);
}

QString standbyNote(const Source& s) {
  if (!s.standby_hours || !s.needed_ah) return {};
  return partWords("standby %1 h: %2 Ah of %3")
      .arg(figure(*s.standby_hours, 0), figure(*s.needed_ah, 1),
           s.has_ah ? figure(*s.has_ah, 0) : partWords("none"));
}
QString standbySource(const Source& s) {
  if (!s.standby_hours || !s.needed_ah) return {};
  return partWords("W h / (V × 0.8 × 0.85) × 1.25 with %1 W on a cold night, %2 h "
                   "(services/devices/%3/standby_hours) and %4 V; has: data sheet, "
                   "capacity/battery_ah.")
             .arg(figure(s.load_w[static_cast<std::size_t>(Load::cold_night)], 1),
                  figure(*s.standby_hours, 1), idText(s.device.text), figure(s.volts, 0)) +
         handbook(11);
}

ServicesTable::Row sourceRow(const design::Design& design, const Source& s) {
  const design::Model* model = modelAt(design, s.device.text);
  const bool supply = s.kind == design::ModelKind::supply;
  ServicesTable::Row row;
  put(row, s.device.text, statedAt(QStringLiteral("services/devices/%1").arg(idText(s.device.text))));
  put(row, QString());
  put(row, partWords("feeds %1").arg(s.housings),
      partWords("Cameras whose power comes from it, by services/links."));
  put(row, QString());
  for (const Load load : kShownLoads)
    put(row, figure(s.load_w[static_cast<std::size_t>(load)], 1),
        partWords("The sum of what it gives to %1 cameras and %2 devices in this state (%3), the loss "
                  "of each cable counted.")
                .arg(s.housings)
                .arg(s.devices)
                .arg(roomWord(word(load))) +
            handbook(11));
  put(row, figure(s.budget_w, 1),
      sheetSays(model, supply ? "capacity/out_w" : "capacity/poe_budget_w", s.budget_w.has_value()));
  put(row, standbyNote(s), standbySource(s));
  row.about = row.shows = {s.device.text};
  return row;
}

QString feedingNote(const Feeding& f) {
  if (f.by == FedBy::poe && f.device_class)
    return f.port_class ? partWords("class %1 on %2").arg(*f.device_class).arg(*f.port_class)
                        : partWords("class %1").arg(*f.device_class);
  if (f.by != FedBy::line) return {};
  return f.at_worst ? partWords("%1 V of %2, from %3")
                          .arg(figure(f.at_worst->load_v, 2), figure(f.supply_v, 0),
                               figure(f.least_v, 1))
                    : partWords("cannot be supplied");
}
QString feedingNoteSource(const Feeding& f) {
  if (f.by == FedBy::poe && f.device_class)
    return partWords("Classes of the data sheets (power/feeds/poe_class; capacity/poe_class), or the "
                     "least that allows the draw [IEEE 802.3].") +
           handbook(11);
  if (f.by != FedBy::line) return {};
  return partWords("Volts at the camera in its worst state, P = I (V − I R); of: the supply's data "
                   "sheet, capacity/out_v; from: the camera's, power/feeds/least_v%1.")
             .arg(f.least_stated ? QString() : partWords(", here 0.9 of its nominal voltage")) +
         handbook(11);
}

ServicesTable::Row feedingRow(const design::Design& design, const Feeding& f) {
  const std::optional<Watts>& w = f.source_w ? f.source_w : f.draw_w;
  ServicesTable::Row row;
  const QString housing = QStringLiteral("housings/%1").arg(idText(f.housing.text));
  put(row, f.housing.text, statedAt(housing));
  put(row, f.by == FedBy::nothing ? partWords("nothing") : idText(f.feed),
      f.by == FedBy::nothing
          ? partWords("No link leads to anything that gives power (services/links).")
          : f.others.empty() ? partWords("By the links to it (services/links).")
          : f.chosen         ? statedAt(housing + "/fed_by")
                             : partWords("Several supplies are linked and %1/fed_by names none: the "
                                         "first is taken.").arg(housing));
  put(row, f.source.text, f.source.empty() ? QString() : partWords("By the links to it (services/links)."));
  put(row, f.by == FedBy::nothing ? QStringLiteral("–") : figure(f.length_m, 1),
      f.by == FedBy::nothing ? partWords("Nothing feeds it.")
                             : partWords("Lengths of the links between them: %1 (table Network).")
                                       .arg(listed(textsOf(f.links))) +
                                   handbook(10));
  for (const Load load : kShownLoads)
    put(row, w ? figure((*w)[static_cast<std::size_t>(load)], 1) : QStringLiteral("–"),
        feedingSource(design, f, load));
  put(row, QString());
  put(row, feedingNote(f), feedingNoteSource(f));
  row.about = {f.housing.text, f.source.text};
  row.shows = {f.housing.text};
  for (const design::AnyId& link : f.links) row.shows.push_back(link.text);
  return row;
}

}  // namespace

ServicesTable powerTable(const ServicesAnswer& answer) {
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Part"),
        QT_TRANSLATE_NOOP("ServicesTables", "fed by"),
        QT_TRANSLATE_NOOP("ServicesTables", "from")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "m"),
        QT_TRANSLATE_NOOP("ServicesTables", "day W"),
        QT_TRANSLATE_NOOP("ServicesTables", "night W"),
        QT_TRANSLATE_NOOP("ServicesTables", "cold W"),
        QT_TRANSLATE_NOOP("ServicesTables", "start W"),
        QT_TRANSLATE_NOOP("ServicesTables", "gives W")})
    column(table, heading, true);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "Note"));
  for (const Source& s : answer.sizes.power.sources)
    table.rows.push_back(sourceRow(*answer.design, s));
  for (const Feeding& f : answer.sizes.power.feedings)
    table.rows.push_back(feedingRow(*answer.design, f));
  table.says = table.rows.empty()
                   ? partWords("No links are drawn, so nothing is said of power.")
                   : partWords("Watts at the source, the loss of the cable counted. Cold: with lamps "
                               "and heater. Sources first.");
  return table;
}

}  // namespace belvedere::desk
