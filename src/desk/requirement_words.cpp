// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/requirement_words.h"

#include <QObject>

#include <algorithm>

#include "desk/room_sentences.h"
#include "desk/room_words.h"
#include "desk/shown_units.h"
#include "design/task_table.h"

namespace belvedere::desk {

Choices taskChoices(const design::Design& design) {
  Choices choices;
  if (const auto scale = design::taskScale(design.task_table))
    for (const design::TaskLine& line : scale->lines)
      choices.emplace_back(
          QString::fromStdString(line.task),
          QObject::tr("%1, %2").arg(
              roomWord(line.task),
              QString::fromStdString(edit::densityText(line.px_per_m, shownUnits()))));
  return choices;
}

QString targetWord(design::TargetKind kind) {
  switch (kind) {
    case design::TargetKind::face: return QObject::tr("a face");
    case design::TargetKind::face_child: return QObject::tr("a child's face");
    case design::TargetKind::face_seated: return QObject::tr("a seated face");
    case design::TargetKind::person: return QObject::tr("a person");
    case design::TargetKind::plate: return QObject::tr("a number plate");
    case design::TargetKind::floor: return QObject::tr("the floor");
    case design::TargetKind::custom: break;
  }
  return QObject::tr("a band of heights");
}

QString askedWord(requirements::Asks asks) {
  switch (asks) {
    case requirements::Asks::rule: return QObject::tr("rule");
    case requirements::Asks::days_kept: return QObject::tr("days kept");
    case requirements::Asks::frames: return QObject::tr("frames a second");
    case requirements::Asks::money: return QObject::tr("money");
    case requirements::Asks::gap: return QObject::tr("longest gap");
    case requirements::Asks::seconds: return QObject::tr("seconds in view");
    case requirements::Asks::zones_lost: return QObject::tr("zones lost");
  }
  return {};
}

QString demandWords(const requirements::Demand& demand) {
  const QString sentence = roomSentence(demand.sentence);
  // "nothing serves it" does not say of what: two demands of one requirement may say it.
  const bool says_of_what = demand.verdict == proof::Verdict::met ||
                            demand.asks == requirements::Asks::rule ||
                            std::ranges::any_of(demand.sentence, [](char c) { return c >= '0' && c <= '9'; });
  if (!says_of_what)
    return (demand.verdict == proof::Verdict::not_met ? QObject::tr("not met, %1: %2")
                                                      : QObject::tr("undecided, %1: %2"))
        .arg(askedWord(demand.asks), sentence);
  return (demand.verdict == proof::Verdict::met       ? QObject::tr("met: %1")
          : demand.verdict == proof::Verdict::not_met ? QObject::tr("not met: %1")
                                                      : QObject::tr("undecided: %1"))
      .arg(sentence);
}

Choices targetChoices() {
  using enum design::TargetKind;
  Choices choices;
  for (const design::TargetKind kind : {person, face, face_child, face_seated, plate, floor})
    choices.emplace_back(QString::number(static_cast<int>(kind)), targetWord(kind));
  return choices;
}

Choices judgedOnChoices() {
  using enum design::JudgedOn;
  const auto value = [](design::JudgedOn on) { return QString::number(static_cast<int>(on)); };
  return {{value(captured), QObject::tr("as captured")},
          {value(recorded), QObject::tr("as recorded")},
          {value(viewed), QObject::tr("as viewed")}};
}

QString situationTitle(const design::Design& design, const design::SituationId& id) {
  for (const design::Situation& situation : design::situationsOf(design))
    if (situation.id == id)
      return QString::fromStdString(situation.title.empty() ? situation.id.text : situation.title);
  return QString::fromStdString(id.text);
}

}  // namespace belvedere::desk
