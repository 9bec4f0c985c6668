// SPDX-License-Identifier: GPL-3.0-or-later
//
// Network, power, streams, recording; services_tables_more.cpp has the rest.
#include "desk/services_tables.h"

#include <cmath>

#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;

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

ServicesTable networkTable(const ServicesAnswer& answer) {
  ServicesTable table;
  table.headings = {partWords("Link"), partWords("From"), partWords("To"), partWords("Cable"),
                    partWords("m"),    partWords("may be"), partWords("Mbit/s"), partWords("of"),
                    partWords("cuts off")};
  table.figures = {false, false, false, false, true, true, true, true, true};
  for (const Cable& c : answer.sizes.network.cables) {
    ServicesTable::Row row;
    row.cells = {idText(c.link.text), idText(c.from.text), idText(c.to.text),
                 c.model ? idText(c.model->id.text) : QString::fromUtf8(word(c.media)),
                 c.placed && c.way ? figure(c.length_m, 1) : QStringLiteral("–"),
                 figure(c.longest_m, 0), figure(c.load_mbps, 1), figure(c.rate_mbps, 0),
                 c.cut_off.empty() ? QStringLiteral("–") : QString::number(c.cut_off.size())};
    row.about = {c.link.text, c.from.text, c.to.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("No links are drawn, so nothing is said of the network: the design "
                               "file names them under services.")
                   : partWords("Lengths follow containment and walls, drops and slack counted. "
                               "Mbit/s: the high end, in the fuller direction. Cuts off: cameras, "
                               "if the link fails.");
  return table;
}

ServicesTable powerTable(const ServicesAnswer& answer) {
  ServicesTable table;
  table.headings = {partWords("Part"),  partWords("fed by"), partWords("from"), partWords("m"),
                    partWords("day W"), partWords("night W"), partWords("cold W"),
                    partWords("start W"), partWords("gives W"), partWords("Note")};
  table.figures = {false, false, false, true, true, true, true, true, true, false};
  const auto watts = [](const Watts* w, QStringList& cells) {
    for (const Load load : {Load::day, Load::night, Load::cold_night, Load::start})
      cells << (w ? figure((*w)[static_cast<std::size_t>(load)], 1) : QStringLiteral("–"));
  };
  for (const Source& s : answer.sizes.power.sources) {
    ServicesTable::Row row;
    row.cells = {idText(s.device.text), QString(), partWords("feeds %1").arg(s.housings), QString()};
    watts(&s.load_w, row.cells);
    row.cells << figure(s.budget_w, 1);
    row.cells << (s.standby_hours && s.needed_ah
                      ? partWords("standby %1 h: %2 Ah of %3")
                            .arg(figure(*s.standby_hours, 0), figure(*s.needed_ah, 1),
                                 s.has_ah ? figure(*s.has_ah, 0) : partWords("none"))
                      : QString());
    row.about = {s.device.text};
    table.rows.push_back(std::move(row));
  }
  for (const Feeding& f : answer.sizes.power.feedings) {
    const std::optional<Watts>& w = f.source_w ? f.source_w : f.draw_w;
    QString note;
    if (f.by == FedBy::poe && f.device_class)
      note = f.port_class ? partWords("class %1 on %2").arg(*f.device_class).arg(*f.port_class)
                          : partWords("class %1").arg(*f.device_class);
    if (f.by == FedBy::line)
      note = f.at_worst ? partWords("%1 V of %2, from %3")
                              .arg(figure(f.at_worst->load_v, 2), figure(f.supply_v, 0),
                                   figure(f.least_v, 1))
                        : partWords("cannot be supplied");
    ServicesTable::Row row;
    row.cells = {idText(f.housing.text),
                 f.by == FedBy::nothing ? partWords("nothing") : idText(f.feed),
                 idText(f.source.text), figure(f.length_m, 1)};
    watts(w ? &*w : nullptr, row.cells);
    row.cells << QString() << note;
    row.about = {f.housing.text, f.source.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("No links are drawn, so nothing is said of power.")
                   : partWords("Watts at the source, the loss of the cable counted. Cold: with lamps "
                               "and heater. Sources first.");
  return table;
}

ServicesTable streamsTable(const ServicesAnswer& answer) {
  ServicesTable table;
  table.headings = {partWords("Stream"), partWords("Camera"), partWords("Mpx/s"), partWords("day"),
                    partWords("night"),  partWords("peak"),   partWords("rate is")};
  table.figures = {false, false, true, true, true, true, false};
  for (const StreamRate& r : answer.sizes.rates) {
    ServicesTable::Row row;
    row.cells = {idText(r.stream.text), idText(r.housing.text), figure(r.pixels_per_s / 1e6, 1),
                 r.known ? spread(r.day_mbps, 2) : QStringLiteral("–"),
                 r.known ? spread(r.night_mbps, 2) : QStringLiteral("–"), figure(r.peak_mbps, 2),
                 r.known ? QString::fromUtf8(word(r.from)) : partWords("not known")};
    row.about = {r.stream.text, r.housing.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty() ? partWords("No camera has a stream.")
                                  : partWords("Mbit/s. An estimate is a range, never a promise.");
  return table;
}

ServicesTable recordingTable(const ServicesAnswer& answer) {
  const RecordingSizes& recording = answer.sizes.recording;
  ServicesTable table;
  table.headings = {partWords("What"),   partWords("where"),  partWords("Mbit/s"),
                    partWords("TB"),     partWords("usable"), partWords("days"),
                    partWords("asked"),  partWords("Note")};
  table.figures = {false, false, true, true, true, true, true, false};
  for (const Retention& r : recording.retention) {
    ServicesTable::Row row;
    row.cells = {idText(r.requirement.text), QString(), QString(), QString(), QString(),
                 figure(r.kept_days, 1), figure(r.asked_days, 0),
                 partWords("%n streams", static_cast<int>(r.streams.size()))};
    row.about = {r.requirement.text};
    table.rows.push_back(std::move(row));
  }
  for (const Store& s : recording.stores) {
    ServicesTable::Row row;
    row.cells = {idText(s.device.text), partWords("recorder"), QString(), spread(s.needed_tb, 2),
                 s.disks > 0 ? figure(s.usable_tb, 2) : QStringLiteral("–"),
                 s.disks > 0 && s.streams > 0 ? spread(s.days_held, 1) : QStringLiteral("–"),
                 QString(),
                 partWords("%1 disks, %2 would do")
                     .arg(s.disks)
                     .arg(s.disks_needed > 0 ? QString::number(s.disks_needed)
                                             : QStringLiteral("–"))};
    row.about = {s.device.text};
    table.rows.push_back(std::move(row));
  }
  for (const Bridge& b : recording.bridges) {
    ServicesTable::Row row;
    row.cells = {idText(b.housing.text), partWords("card"), spread(b.mbps, 2), QString(),
                 figure(b.size_tb, 3),   QString(),         QString(),
                 partWords("bridges %1 h").arg(spread(b.hours, 1))};
    row.about = {b.housing.text};
    table.rows.push_back(std::move(row));
  }
  for (const Kept& k : recording.kept) {
    ServicesTable::Row row;
    row.cells = {idText(k.stream.text),
                 k.device.empty() ? partWords("card") : idText(k.device.text), spread(k.mbps, 2),
                 spread(k.tb, 2), QString(), figure(k.days, 0), QString(),
                 partWords("%1 % of the day").arg(figure(100 * k.share, 0))};
    row.about = {k.stream.text, k.device.text};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty()
                   ? partWords("Nothing is recorded.")
                   : partWords("What the brief asks to keep, recorders, cards, streams. Usable: less "
                               "parity, hot spares and what the file system keeps free; 1 TB is "
                               "10^12 bytes.");
  return table;
}

}  // namespace belvedere::desk
