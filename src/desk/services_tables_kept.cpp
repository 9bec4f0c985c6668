// SPDX-License-Identifier: GPL-3.0-or-later
//
// Streams and recording.
#include <algorithm>
#include <cmath>

#include "desk/room_words.h"
#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;

namespace {

// ---- streams ------------------------------------------------------------------------------------

const design::Stream* streamOf(const design::Design& design, const StreamRate& rate) {
  if (const design::Housing* housing = design::findHousing(design, rate.housing))
    for (const design::Stream& stream : housing->streams)
      if (stream.id == rate.stream) return &stream;
  return nullptr;
}

// The clip that a stream was measured by; the last one counts.
const design::Evidence* clipOf(const design::Design& design, const design::StreamId& stream) {
  const design::Evidence* clip = nullptr;
  for (const design::Evidence& evidence : design.evidence)
    if (evidence.clip && evidence.of.text == stream.text) clip = &evidence;
  return clip;
}

enum class Rate { day, night, peak };

QString rateSource(const design::Design& design, const StreamRate& r, const QString& key, Rate which) {
  if (const design::Evidence* clip = clipOf(design, r.stream))
    return (which == Rate::peak
                ? partWords("Measured on the clip of evidence %1 (%2): the 95th percentile over windows "
                            "of a second.")
                : partWords("Measured on the clip of evidence %1 (%2): its mean."))
               .arg(idText(clip->id.text), idText(clip->file.path)) +
           handbook(10);
  const design::Stream* stream = streamOf(design, r);
  if (!r.known)
    return partWords("The codec of %1 is not known, and no rate is stated (%1/rate).").arg(key);
  if (r.from == RateFrom::stated || r.from == RateFrom::measured) return statedAt(key + "/rate");
  const auto word = [](const std::string& said, const char* otherwise) {
    return said.empty() ? partWords(otherwise) : idText(said);
  };
  QString text =
      partWords("Estimated: %1 million pixels a second × bits a pixel of %2, activity %3 × quality %4 "
                "(%5).")
          .arg(figure(r.pixels_per_s / 1e6, 1),
               word(stream ? stream->codec : "", QT_TRANSLATE_NOOP("ServicesTables", "H.264 (assumed)")),
               word(stream ? stream->activity : "", QT_TRANSLATE_NOOP("ServicesTables", "medium")),
               word(stream ? stream->quality : "", QT_TRANSLATE_NOOP("ServicesTables", "medium")), key);
  if (which != Rate::day) text += partWords(" By night twice as much, for noise.");
  if (which == Rate::peak) text += partWords(" The high end.");
  if (r.from == RateFrom::capped) text += partWords(" At most the cap (%1/rate/mbps).").arg(key);
  return text + handbook(10);
}

}  // namespace

ServicesTable streamsTable(const ServicesAnswer& answer) {
  const design::Design& design = *answer.design;
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Stream"),
        QT_TRANSLATE_NOOP("ServicesTables", "Camera")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Mpx/s"),
        QT_TRANSLATE_NOOP("ServicesTables", "day"),
        QT_TRANSLATE_NOOP("ServicesTables", "night"),
        QT_TRANSLATE_NOOP("ServicesTables", "peak")})
    column(table, heading, true);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "rate is"));
  for (const StreamRate& r : answer.sizes.rates) {
    const design::Stream* stream = streamOf(design, r);
    const QString key = QStringLiteral("housings/%1/streams/%2")
                            .arg(idText(r.housing.text), idText(r.stream.text));
    ServicesTable::Row row;
    put(row, r.stream.text, statedAt(key));
    put(row, r.housing.text, statedAt(key));
    put(row, figure(r.pixels_per_s / 1e6, 1),
        partWords("%1 × %2 pixels (%3/size_px) × %4 frames a second (%5).")
                .arg(stream ? stream->size_px[0] : 0)
                .arg(stream ? stream->size_px[1] : 0)
                .arg(key, figure(r.frames_per_s, 1),
                     r.assumed_frames ? partWords("assumed: the stream states none")
                                      : key + "/frames_per_s") +
            handbook(10));
    put(row, r.known ? spread(r.day_mbps, 2) : QStringLiteral("–"),
        rateSource(design, r, key, Rate::day));
    put(row, r.known ? spread(r.night_mbps, 2) : QStringLiteral("–"),
        rateSource(design, r, key, Rate::night));
    put(row, r.known ? figure(r.peak_mbps, 2) : QStringLiteral("–"),
        rateSource(design, r, key, Rate::peak));
    put(row, r.known ? roomWord(word(r.from)) : partWords("not known"),
        rateSource(design, r, key, Rate::day));
    row.about = {r.stream.text, r.housing.text};
    row.shows = {r.housing.text};
    if (r.slots.size() == 1)
      row.shows = {r.housing.text + "." + std::to_string(r.slots.front())};
    table.rows.push_back(std::move(row));
  }
  table.says = table.rows.empty() ? partWords("No camera has a stream.")
                                  : partWords("Mbit/s. An estimate is a range, never a promise.");
  return table;
}

// ---- recording ----------------------------------------------------------------------------------

namespace {

const design::Device* deviceOf(const design::Design& design, const design::DeviceId& id) {
  for (const design::Device& device : design.services.devices)
    if (device.id == id) return &device;
  return nullptr;
}

// Days held and asked for, and whether the one is as long as the other.
void putDays(ServicesTable::Row& row, const std::optional<Spread>& held, const QString& held_source,
             double asked_days, const QString& asked_source) {
  put(row, held ? spread(*held, 1) : QStringLiteral("–"), held_source);
  put(row, figure(asked_days, asked_days == std::floor(asked_days) ? 0 : 1), asked_source);
  const QString against = partWords("Days held against days asked for: met where the high end of the rates "
                                    "leaves as many, not met where even the low end does not.");
  if (!held)
    put(row, partWords("undecided"), held_source);
  else
    switch (heldFor(*held, asked_days)) {
      case HeldFor::as_asked: put(row, partWords("met"), against); break;
      case HeldFor::perhaps: put(row, partWords("undecided"), against); break;
      case HeldFor::too_short: put(row, partWords("not met"), against); break;
    }
}

// A row: what, where, Mbit/s, TB, usable, days held, asked, verdict, note.
ServicesTable::Row retentionRow(const Retention& r) {
  const QString key = QStringLiteral("brief/%1").arg(idText(r.requirement.text));
  ServicesTable::Row row;
  put(row, r.requirement.text, statedAt(key));
  for (int empty = 0; empty < 4; ++empty) put(row, QString());
  // What nothing records is held for no day.
  const bool recorded = r.kept_days.has_value();
  putDays(row, recorded ? r.held_days : Spread{},
          recorded ? partWords("Of each imager that serves it the stream kept longest, of these the least, as "
                               "far as disks and cards hold it: %1 (services/recording).")
                             .arg(listed(textsOf(r.streams))) +
                         handbook(12)
                   : partWords("No stream that serves it is recorded (services/recording)."),
          r.asked_days, statedAt(key + "/keep_days"));
  put(row,
      recorded ? partWords("%n streams, recorded for %1 days", static_cast<int>(r.streams.size()))
                     .arg(figure(*r.kept_days, 0))
               : partWords("%n streams", static_cast<int>(r.streams.size())),
      partWords("Recorded streams of the imagers that serve it: %1.").arg(listed(textsOf(r.streams))));
  row.about = {r.requirement.text};
  return row;
}

ServicesTable::Row storeRow(const design::Design& design, const Store& s) {
  const QString key = QStringLiteral("services/devices/%1").arg(idText(s.device.text));
  const design::Device* device = deviceOf(design, s.device);
  const design::Disks* disks = device && device->disks ? &*device->disks : nullptr;
  const design::Model* disk = disks ? design::findModel(design, disks->model) : nullptr;
  const QString no_disks = partWords("No disks are stated (%1/disks).").arg(key);
  ServicesTable::Row row;
  put(row, s.device.text, statedAt(key));
  put(row, partWords("recorder"), sheetSays(device ? design::findModel(design, device->model) : nullptr,
                                            "kind", true));
  put(row, QString());
  put(row, spread(s.needed_tb, 2),
      partWords("The sum of what its %n streams take over their days; 1 TB is 10^12 bytes.", s.streams) +
          handbook(12));
  put(row, s.disks > 0 ? figure(s.usable_tb, 2) : QStringLiteral("–"),
      disks ? partWords("%1 disks of %2 TB (data sheet of %3, capacity/size_tb), level %4, %5 spare, less "
                        "%6 % that the file system keeps free (%7/disks).")
                      .arg(disks->count)
                      .arg(disk && disk->capacity ? figure(disk->capacity->size_tb, 2) : QStringLiteral("–"),
                           idText(disks->model.text),
                           disks->raid.empty() ? QStringLiteral("jbod") : idText(disks->raid))
                      .arg(disks->spares)
                      .arg(figure(100 * disks->reserve, 0), key) +
                  handbook(12)
            : no_disks);
  if (s.streams > 0)
    putDays(row, s.disks > 0 ? std::optional(s.days_held) : std::nullopt,
            s.disks > 0 ? partWords("Longest days × usable / needed: all its streams shortened alike.") +
                              handbook(12)
                        : no_disks,
            s.longest_days, partWords("The longest of what is recorded on it (services/recording, days)."));
  else
    for (int empty = 0; empty < 3; ++empty) put(row, QString());
  put(row,
      partWords("%1 disks, %2 would do")
          .arg(s.disks)
          .arg(s.disks_needed > 0 ? QString::number(s.disks_needed) : QStringLiteral("–")),
      partWords("So many (%1/disks/count); so many of the same model and level hold the high end.")
              .arg(key) +
          handbook(12));
  row.about = row.shows = {s.device.text};
  return row;
}

ServicesTable::Row bridgeRow(const design::Design& design, const Bridge& b) {
  const QString key = QStringLiteral("housings/%1").arg(idText(b.housing.text));
  const design::Housing* housing = design::findHousing(design, b.housing);
  ServicesTable::Row row;
  put(row, b.housing.text, statedAt(key));
  put(row, partWords("card"), statedAt(key + "/card"));
  put(row, spread(b.mbps, 2), partWords("The sum of the mean rates of its recorded streams (table Streams).") +
                                  handbook(12));
  put(row, QString());
  put(row, figure(b.size_tb, 3),
      sheetSays(housing ? design::findModel(design, housing->card) : nullptr, "capacity/size_tb", true));
  for (int empty = 0; empty < 3; ++empty) put(row, QString());
  put(row, partWords("bridges %1 h").arg(spread(b.hours, 1)),
      partWords("Its size over the rate of all recorded streams of its housing.") + handbook(12));
  row.about = row.shows = {b.housing.text};
  return row;
}

ServicesTable::Row keptRow(const Kept& k) {
  const QString key = QStringLiteral("services/recording/%1").arg(idText(k.recording.text));
  ServicesTable::Row row;
  put(row, k.stream.text, statedAt(key + "/stream"));
  put(row, k.device.empty() ? partWords("card") : idText(k.device.text), statedAt(key + "/device"));
  put(row, spread(k.mbps, 2), partWords("The stream's mean rate (table Streams).") + handbook(10));
  put(row, spread(k.tb, 2),
      partWords("Rate / 8 × 86 400 s × %1 days × %2 of the day.")
              .arg(figure(k.days, 1), figure(k.share, 3)) +
          handbook(12));
  put(row, QString());
  putDays(row, k.held_days,
          k.held_days ? partWords("As far as its disks or its card hold them, all its streams shortened alike.") +
                            handbook(12)
                      : partWords("How much its disks or its card hold is not stated."),
          k.days, statedAt(key + "/days"));
  put(row, partWords("%1 % of the day").arg(figure(100 * k.share, 0)),
      partWords("By its schedule (%1/schedule, active_share).").arg(key) + handbook(12));
  row.about = {k.stream.text, k.device.text};
  return row;
}

}  // namespace

ServicesTable recordingTable(const ServicesAnswer& answer) {
  const RecordingSizes& recording = answer.sizes.recording;
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "What"),
        QT_TRANSLATE_NOOP("ServicesTables", "where")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Mbit/s"),
        QT_TRANSLATE_NOOP("ServicesTables", "TB"),
        QT_TRANSLATE_NOOP("ServicesTables", "usable"),
        QT_TRANSLATE_NOOP("ServicesTables", "days held"),
        QT_TRANSLATE_NOOP("ServicesTables", "asked")})
    column(table, heading, true);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "verdict"));
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "Note"));
  for (const Retention& r : recording.retention) table.rows.push_back(retentionRow(r));
  for (const Store& s : recording.stores) table.rows.push_back(storeRow(*answer.design, s));
  for (const Bridge& b : recording.bridges) table.rows.push_back(bridgeRow(*answer.design, b));
  for (const Kept& k : recording.kept) table.rows.push_back(keptRow(k));
  table.says = table.rows.empty()
                   ? partWords("Nothing is recorded.")
                   : partWords("What the brief asks to keep, recorders, cards, streams. Usable: less "
                               "parity, hot spares and what the file system keeps free; 1 TB is "
                               "10^12 bytes.");
  return table;
}

}  // namespace belvedere::desk
