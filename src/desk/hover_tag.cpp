// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/hover_tag.h"

#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "desk/pointer_tool.h"
#include "desk/room_sentences.h"
#include "desk/sentence_button.h"
#include "desk/shown_units.h"
#include "drawing/sheet_parts.h"
#include "geometry/polygon.h"

namespace belvedere::desk {
namespace {

constexpr int kOffPx = 14, kWidePx = 300;
constexpr std::size_t kImagersTold = 4;

QString figure(double value) { return QString::number(value, 'g', 4); }

// What of it is told: ", 212 of 125 px/m", ", 38.1 of at most 30 deg", ", 0.06 of 0.2 lx".
QString measureOf(const proof::Answer& answer) {
  const proof::Measure& measure = answer.measure;
  const QString unit = QString::fromStdString(measure.unit);
  if (measure.needed <= 0) return {};
  const auto length = [](double m) { return QString::fromStdString(edit::lengthText(m, shownUnits())); };
  switch (answer.reason) {
    case proof::Reason::served:
    case proof::Reason::too_coarse: {
      const bool feet = shownUnits() == edit::Units::imperial;
      const double share = feet ? feetToM(1) : 1;
      return QObject::tr(", %1 of %2 %3")
          .arg(figure(measure.found * share), figure(measure.needed * share), feet ? QStringLiteral("px/ft") : unit);
    }
    case proof::Reason::too_steep:
    case proof::Reason::turned_away:
      return QObject::tr(", %1 of at most %2 %3").arg(figure(measure.found), figure(measure.needed), unit);
    case proof::Reason::too_dark:
      return measure.unit == "lx"
                 ? QObject::tr(", %1 of %2 %3").arg(QString::number(measure.found, 'g', 3), figure(measure.needed), unit)
                 : QObject::tr(", %1 % of the light that is enough").arg(QString::number(measure.found, 'g', 3));
    case proof::Reason::unsharp:
      if (!std::isfinite(measure.needed)) return QObject::tr(", its lens, set so, is sharp nowhere");
      return (measure.found < measure.needed ? QObject::tr(", %1 ahead, sharp from %2")
                                             : QObject::tr(", %1 ahead, sharp to %2"))
          .arg(length(std::round(100 * measure.found) / 100), length(std::round(100 * measure.needed) / 100));
    default: return {};
  }
}

// "C1.2: served, 212 of 125 px/m"
QString lineOf(const std::string& imager, const proof::Answer& answer) {
  return QString::fromStdString(imager) + ": " +
         QString::fromStdString(drawing::phrase(answer.reason)) + measureOf(answer);
}

}  // namespace

HoverTag::HoverTag(SheetView& sheet, Workspace& workspace, Evaluator& evaluator)
    : QFrame(&sheet), sheet_(sheet), workspace_(workspace), evaluator_(evaluator) {
  setObjectName("hover_tag");
  setAutoFillBackground(true);
  setFrameShape(QFrame::Box);
  setFixedWidth(kWidePx);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(8, 6, 8, 6);
  column->setSpacing(4);
  text_ = new QLabel;
  text_->setWordWrap(true);
  column->addWidget(text_);
  mend_ = new SentenceButton;
  mend_->setObjectName("mend");
  mend_->setAccessibleName(tr("Make this change"));
  column->addWidget(mend_);
  hide();
  connect(&sheet_, &SheetView::rested, this, &HoverTag::askAt);
  const auto put_away = [this] {
    asked_at_.reset();
    hide();
  };
  connect(&sheet_, &SheetView::pointed, this, [this, put_away](Vec2 at) {
    // The way to the button is short: only going elsewhere closes the tag.
    if (isVisible() && asked_at_ && norm(sheet_.pxAt(at) - sheet_.pxAt(*asked_at_)) > 3 * kOffPx)
      put_away();
  });
  connect(&sheet_, &SheetView::viewMoved, this, put_away);
  connect(&sheet_, &SheetView::toolChanged, this, put_away);
  connect(&workspace_, &Workspace::designChanged, this, put_away);
  connect(&evaluator_, &Evaluator::explained, this,
          [this](const std::shared_ptr<const proof::SpotExplanation>& spot, bool changes_sought,
                 const SpotWish& asked) {
            if (asked.of == SpotOf::pointer && asked_at_ && norm(spot->at - *asked_at_) < 1e-9 &&
                asked.version == workspace_.version())
              show(*spot, changes_sought);
          });
  connect(mend_, &QPushButton::clicked, this, [this] {
    if (!change_) return;
    const proof::Change change = *change_;
    workspace_.apply(roomSentence(change.sentence),
                     proof::withChange(workspace_.design(), change));
  });
}

QString HoverTag::words() const { return isVisible() ? text_->text() : QString(); }

// The selected requirement where its zone is under the pointer, else the first whose zone is that asks for
// anything in the shown situation.
const design::Requirement* HoverTag::askedOf(Vec2 site_m) const {
  const design::Requirement* first = nullptr;
  for (const design::Requirement& requirement : workspace_.design().brief) {
    if (requirement.kind != design::RequirementKind::see) continue;
    const design::Zone* zone = design::findZone(workspace_.design(), requirement.zone);
    if (!zone || zone->storey != workspace_.storey() ||
        !contains(Region{Polygon{zone->outline, {}}}, site_m))
      continue;
    if (requirement.id == workspace_.requirement()) return &requirement;
    const auto asked = design::situationsOf(workspace_.design(), requirement);
    const bool here = std::any_of(asked.begin(), asked.end(), [&](const design::Situation& one) {
      return one.id == workspace_.shownSituation().id;
    });
    if (!first && here) first = &requirement;
  }
  return workspace_.requirement().empty() ? first : nullptr;
}

void HoverTag::askAt(Vec2 site_m) {
  // Who draws needs the place.
  if (workspace_.isDragging() || !dynamic_cast<PointerTool*>(&sheet_.tool())) return;
  const design::Requirement* requirement = askedOf(site_m);
  if (!requirement) return;
  asked_at_ = site_m;
  evaluator_.ask({SpotOf::pointer, workspace_.version(), workspace_.shareDesign(),
                  workspace_.folder(), requirement->id, workspace_.situation(), site_m, true});
}

void HoverTag::show(const proof::SpotExplanation& spot, bool changes_sought) {
  if (!spot.inside) return;
  QString words =
      tr("%1 at %2").arg(QString::fromStdString(spot.requirement.text),
                         QString::fromStdString(edit::placeText(spot.at, shownUnits())));
  const std::size_t told = std::min(spot.all.size(), kImagersTold);
  for (std::size_t i = 0; i < told; ++i) words += "\n" + lineOf(spot.all_names[i], spot.all[i]);
  if (told < spot.all.size())
    words += "\n" + tr("and %n more imagers", nullptr, static_cast<int>(spot.all.size() - told));
  if (!spot.hidden_by.empty())
    words += "\n" + tr("hidden by %1").arg(QString::fromStdString(spot.hidden_by));
  if (spot.all.empty()) words += "\n" + tr("no imager looks here");
  const bool served = std::any_of(spot.all.begin(), spot.all.end(), [](const proof::Answer& one) {
    return one.reason == proof::Reason::served;
  });
  if (changes_sought && !served && spot.changes.empty())
    words += "\n" + tr("no single change of aim, zoom, height, place or model mends it");
  text_->setText(words);
  change_.reset();
  if (!spot.changes.empty()) {
    change_ = spot.changes.front();
    mend_->setText(roomSentence(change_->sentence));
  }
  mend_->setVisible(change_.has_value());
  setAccessibleName(words);
  // As high as its words are at this width: a tag that is hidden is not laid out by itself.
  layout()->invalidate();
  resize(kWidePx, layout()->totalHeightForWidth(kWidePx));
  placeBeside(spot.at);
  QFrame::show();
  raise();
}

void HoverTag::placeBeside(Vec2 site_m) {
  const Vec2 px = sheet_.pxAt(site_m);
  int x = static_cast<int>(px.x) + kOffPx, y = static_cast<int>(px.y) + kOffPx;
  if (x + width() > sheet_.width()) x = static_cast<int>(px.x) - kOffPx - width();
  if (y + height() > sheet_.height()) y = static_cast<int>(px.y) - kOffPx - height();
  move(std::max(0, x), std::max(0, y));
}

}  // namespace belvedere::desk
