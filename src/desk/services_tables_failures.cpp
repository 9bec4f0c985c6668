// SPDX-License-Identifier: GPL-3.0-or-later
//
// What falls when a part fails.
#include <algorithm>

#include "base/figures.h"
#include "desk/services_tables_parts.h"

namespace belvedere::desk {

using namespace services;
using requirements::Failure;
using requirements::Fall;

namespace {

QString percent(const proof::Bounds& share) {
  return partWords("%1 to %2 %")
      .arg(idText(figureBeside(100 * share.low, 100, 1, Rounded::down)),
           idText(figureBeside(100 * share.high, 100, 1, Rounded::up)));
}

QString kindWord(PartKind kind) {
  switch (kind) {
    case PartKind::housing: return partWords("camera");
    case PartKind::lamp: return partWords("lamp");
    case PartKind::switch_: return partWords("switch");
    case PartKind::injector: return partWords("injector");
    case PartKind::supply: return partWords("supply");
    case PartKind::link: return partWords("link");
    case PartKind::recorder: return partWords("recorder");
    case PartKind::disk: return partWords("a disk of it");
  }
  return {};
}

// "R1 in open: 70.1 to 70.3 % of 95 left, 97.2 to 97.4 % before".
QString fallWords(const design::Design& design, const Fall& fall) {
  const QString id = idText(fall.requirement.text);
  if (fall.what == Fall::What::rule)
    return partWords("%1: no imager is left to run the rule").arg(id);
  if (fall.what == Fall::What::recordings)
    return partWords("%1: what was kept of it is lost").arg(id);
  const design::Requirement* r = design::findRequirement(design, fall.requirement);
  QString words = partWords("%1 in %2: %3 of %4 left, %5 before")
                      .arg(id, idText(fall.situation.text), percent(*fall.share_after),
                           QString::number(r ? 100 * r->share : 0), percent(*fall.share_before));
  if (fall.after == proof::Verdict::undecided) words += partWords("; undecided then");
  if (fall.bridged_hours)
    words += partWords("; cards bridge %1 h").arg(spread(*fall.bridged_hours, 1));
  return words;
}

ServicesTable::Row rowOf(const design::Design& design, const Failure& failure) {
  const Loss& loss = failure.loss;
  const QString proven =
      partWords("Proven again without it: what stands as designed and then no longer.") + handbook(15);
  const auto count = [](std::size_t n) { return n == 0 ? QStringLiteral("–") : QString::number(n); };
  std::vector<std::string> lost;
  for (const Fall& fall : failure.falls)
    if (std::find(lost.begin(), lost.end(), fall.requirement.text) == lost.end())
      lost.push_back(fall.requirement.text);
  ServicesTable::Row row;
  put(row, loss.part, partWords("A part of the design, taken away by itself.") + handbook(15));
  put(row, kindWord(loss.kind), partWords("By the data sheet of its model, kind."));
  put(row, count(static_cast<std::size_t>(failure.requirements)), proven);
  put(row, count(static_cast<std::size_t>(failure.bridged)),
      partWords("Of these: every imager that falls for it has power and a card; hours in the table "
                "Recording.") + handbook(15));
  put(row, count(loss.dark.size()),
      partWords("Cameras that fail or lose their power: %1.")
              .arg(loss.dark.empty() ? partWords("none") : listed(textsOf(loss.dark))) + handbook(15));
  put(row, count(loss.cut.size()),
      partWords("Imagers that reach none of those who take their streams: %1.")
              .arg(loss.cut.empty() ? partWords("none") : listed(loss.cut)) + handbook(15));
  put(row, lost.empty() ? QStringLiteral("–") : listed(lost, 4), proven);
  row.about = {loss.part};
  row.shows = {loss.housing.empty() ? loss.part : loss.housing.text};
  row.dark = loss.cut;
  for (const std::string& imager : loss.unrecorded)
    if (std::find(row.dark.begin(), row.dark.end(), imager) == row.dark.end())
      row.dark.push_back(imager);
  row.short_of = failure.requirements > failure.bridged;
  for (const Fall& fall : failure.falls) row.findings << fallWords(design, fall);
  if (loss.cut.empty() && !loss.unrecorded.empty())
    row.findings << partWords("%n imagers are recorded nowhere meanwhile.",
                              static_cast<int>(loss.unrecorded.size()));
  if (!loss.carried.empty())
    row.findings << partWords("Go on by their other supply: %1.").arg(listed(textsOf(loss.carried)));
  if (!loss.recordings.empty())
    row.findings << partWords("Recordings lost: %1.").arg(listed(textsOf(loss.recordings)));
  if (failure.falls.empty()) row.findings << partWords("No requirement falls with it.");
  return row;
}

}  // namespace

ServicesTable failuresTable(const FailuresAnswer& answer) {
  ServicesTable table;
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "Part"),
        QT_TRANSLATE_NOOP("ServicesTables", "kind")})
    column(table, heading);
  for (const char* heading :
       {QT_TRANSLATE_NOOP("ServicesTables", "fall"),
        QT_TRANSLATE_NOOP("ServicesTables", "bridged"),
        QT_TRANSLATE_NOOP("ServicesTables", "dark"),
        QT_TRANSLATE_NOOP("ServicesTables", "cut off")})
    column(table, heading, true);
  column(table, QT_TRANSLATE_NOOP("ServicesTables", "requirements that fall"));
  for (const Failure& failure : answer.failures.ranked)
    table.rows.push_back(rowOf(*answer.design, failure));
  const auto short_now = std::count_if(
      answer.proven.proof.requirements.begin(), answer.proven.proof.requirements.end(),
      [](const proof::RequirementProof& row) {
        return row.kind == design::RequirementKind::see && row.without.empty() &&
               row.verdict == proof::Verdict::not_met;
      });
  table.says = partWords("One part at a time, worst first: requirements that stand as designed and then "
                         "no longer; of these, bridged by cards. Shares are proven bounds.");
  if (short_now > 0)
    table.says += partWords(" %n verdicts are not met as designed: no loss can cost them.",
                            static_cast<int>(short_now));
  return table;
}

}  // namespace belvedere::desk
