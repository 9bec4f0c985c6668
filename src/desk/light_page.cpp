// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/light_page.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

#include "desk/list_look.h"
#include "desk/requirement_words.h"
#include "desk/sentence_button.h"
#include "desk/shown_units.h"
#include "edit/lengths.h"
#include "edit/pattern.h"

namespace belvedere::desk {
namespace {

constexpr int kHousing = Qt::UserRole, kSlot = Qt::UserRole + 1;  // of a lamp's row

QString text(const std::string& words) { return QString::fromStdString(words); }
bool isMetric() { return shownUnits() != edit::Units::imperial; }
// Nobody focuses 35 m to the centimetre.
QString metres(double m) { return QString::number(m, 'f', m < 10 ? 2 : m < 100 ? 1 : 0); }
QString length(double m) {
  return isMetric() ? LightPage::tr("%1 m").arg(metres(m)) : text(edit::lengthText(m, shownUnits()));
}
// The unit once where it can be: the column is narrow beside a plan.
QString stretchText(const optics::SharpStretch& sharp) {
  if (!std::isfinite(sharp.near_m)) return LightPage::tr("nowhere");
  if (!sharp.far_m) return LightPage::tr("from %1").arg(length(sharp.near_m));
  return LightPage::tr("%1 to %2").arg(isMetric() ? metres(sharp.near_m) : length(sharp.near_m), length(*sharp.far_m));
}
QString luxText(double lux) {
  return lux >= 100 ? QString::number(lux, 'f', 0) : QString::number(lux, 'g', 3);
}
QString dash() { return QStringLiteral("\u2013"); }

// "0.2", and at which aperture and exposure; or what a data sheet leaves out.
QString neededText(const light::NeededLight& needed) {
  if (needed.lux)
    return LightPage::tr("%1\nat %2, %3")
        .arg(luxText(*needed.lux), text(edit::apertureText(needed.f_number)),
             text(edit::exposureText(needed.exposure_s)));
  return needed.unknown == light::Unknown::f_number     ? LightPage::tr("no F-number stated")
         : needed.unknown == light::Unknown::exposure_s ? LightPage::tr("no exposure stated")
                                                        : LightPage::tr("not stated");
}

// A lamp's setting, as a choice of it: absent, 0, a slot.
QString followsText(const std::string& housing, const std::optional<int>& follows) {
  if (!follows) return LightPage::tr("group");
  return *follows == 0 ? LightPage::tr("off") : text(housing + "." + std::to_string(*follows));
}

QString evennessText(const light::Evenness& evenness) {
  if (evenness.most_lux <= 0) return LightPage::tr("dark");
  const QString ratio = evenness.ratio ? QString::number(*evenness.ratio, 'f', 1) + " : 1" : LightPage::tr("no end");
  switch (light::ratioClass(evenness)) {
    case light::RatioClass::wanted: return LightPage::tr("%1, as wanted").arg(ratio);
    case light::RatioClass::good: return LightPage::tr("%1, good").arg(ratio);
    case light::RatioClass::marginal: return LightPage::tr("%1, marginal").arg(ratio);
    case light::RatioClass::worse: break;
  }
  return LightPage::tr("%1, too uneven").arg(ratio);
}

// What follows a line break in a cell's words stands in its tool tip alone.
void setRow(QTableWidget& table, int row, const QStringList& words) {
  for (int column = 0; column < words.size(); ++column) {
    auto* item = new QTableWidgetItem(words[column].section('\n', 0, 0));
    item->setToolTip(words[column]);
    table.setItem(row, column, item);
  }
}

// As many rows as `rows`, at most so many in view.
void setRows(QTableWidget& table, int rows, int most) {
  table.setRowCount(rows);
  const int high = table.verticalHeader()->defaultSectionSize();
  table.setMaximumHeight(table.horizontalHeader()->sizeHint().height() + high * std::max(rows, 1) + 24);
  table.setMinimumHeight(table.horizontalHeader()->sizeHint().height() + high * std::min(std::max(rows, 1), most) + 18);
  table.setVisible(rows > 0);
}

const design::Housing* housingOf(const Workspace& workspace, const light::Lamp& lamp) {
  return design::findHousing(workspace.design(), lamp.housing);
}

}  // namespace

LightPage::LightPage(Workspace& workspace) : workspace_(workspace) {
  setObjectName("light");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  const auto label = [&](const char* name) {
    auto* made = new QLabel;
    made->setObjectName(name);
    made->setWordWrap(true);
    column->addWidget(made);
    return made;
  };
  const auto table = [&](const char* name, const QString& says, const QStringList& heads) {
    auto* made = new QTableWidget(0, static_cast<int>(heads.size()));
    made->setObjectName(name);
    made->setAccessibleName(says);
    made->setHorizontalHeaderLabels(heads);
    setListLook(*made);
    made->setEditTriggers(QAbstractItemView::NoEditTriggers);
    made->setSelectionMode(QAbstractItemView::SingleSelection);
    return made;
  };
  state_ = label("light.state");
  counts_ = label("light.counts");
  imagers_ = table("light.imagers", tr("Light of each imager"),
                   {tr("Imager"), tr("Meets lx"), tr("Mode"), tr("Needs lx"), tr("Focus"), tr("Sharp")});
  column->addWidget(imagers_, 3);
  lamps_ = table("light.lamps", tr("Lamps"), {tr("Lamp"), tr("Follows"), tr("Burns"), tr("Range"), tr("Light")});
  column->addWidget(lamps_, 2);
  auto* setting = new QHBoxLayout;
  lamp_label_ = new QLabel;
  lamp_label_->setForegroundRole(QPalette::PlaceholderText);
  follows_ = new QComboBox;
  follows_->setObjectName("light.follows");
  follows_->setAccessibleName(tr("What the lamp follows"));
  lamp_label_->setBuddy(follows_);
  setting->addWidget(lamp_label_);
  setting->addWidget(follows_, 1);
  column->addLayout(setting);
  auto* pairing = new QHBoxLayout;
  ask_ = new QPushButton(tr("Best &pairing"));
  ask_->setObjectName("light.pair");
  stop_ = new QPushButton(tr("S&top"));
  stop_->setObjectName("light.stop");
  pairing->addWidget(ask_);
  pairing->addWidget(stop_);
  pairing->addStretch();
  column->addLayout(pairing);
  progress_ = new QProgressBar;
  progress_->setRange(0, 0);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Pairings are being tried"));
  column->addWidget(progress_);
  says_ = label("light.says");
  apply_ = new SentenceButton;
  apply_->setObjectName("light.apply");
  apply_->setAccessibleName(tr("Set the lamps so"));
  column->addWidget(apply_);
  zones_ = table("light.zones", tr("Light on the floor of each zone"),
                 {tr("Zone, on its floor"), tr("Least lx"), tr("Mean lx"), tr("Most lx"), tr("Most : least")});
  column->addWidget(zones_, 1);
  column->addStretch();
  setFocusProxy(imagers_);
  setProperty("help", "handbook.md#9");

  for (const auto signal : {&Workspace::designChanged, &Workspace::draggingChanged, &Workspace::viewChanged})
    connect(&workspace_, signal, this, &LightPage::wish);
  connect(&workspace_, &Workspace::selectionChanged, this, [this] {
    takeSelection();
    takePairing();
  });
  connect(&maker_, &LightMaker::made, this, &LightPage::take);
  connect(&maker_, &LightMaker::failed, this, [this](const QString& sentence) {
    failed_ = sentence;
    take();
  });
  connect(&pairing_, &PairingMaker::made, this, &LightPage::takePairing);
  connect(&pairing_, &PairingMaker::rested, this, &LightPage::takePairing);
  connect(&pairing_, &PairingMaker::failed, &workspace_, &Workspace::complain);
  connect(imagers_, &QTableWidget::currentCellChanged, this, [this](int row) {
    const LightAnswer* answer = current();
    if (taking_ || !answer || row < 0 || row >= static_cast<int>(answer->lit.imagers.size())) return;
    const design::PosedImager& view = answer->lit.imagers[static_cast<std::size_t>(row)].view;
    workspace_.select({{edit::ObjectKind::housing, view.housing.text, view.slot}});
    workspace_.selectAim(view.aim);
  });
  connect(lamps_, &QTableWidget::currentCellChanged, this, [this](int row) {
    const LightAnswer* answer = current();
    if (taking_ || !answer) return;
    takeChoices();
    if (row < 0 || row >= static_cast<int>(answer->lit.lamps.size())) return;
    const std::string& housing = answer->lit.lamps[static_cast<std::size_t>(row)].housing.text;
    const design::Housing* selected = workspace_.selectedHousing();
    if (!selected || selected->id.text != housing)
      workspace_.select({{edit::ObjectKind::housing, housing, 0}});
  });
  connect(follows_, &QComboBox::activated, this, &LightPage::setFollows);
  connect(ask_, &QPushButton::clicked, this, &LightPage::askPairing);
  connect(stop_, &QPushButton::clicked, this, [this] { pairing_.cancel(); });
  connect(apply_, &QPushButton::clicked, this, &LightPage::applyPairing);
}

void LightPage::showEvent(QShowEvent* event) {
  wish();
  take();
  QWidget::showEvent(event);
}

void LightPage::wish() {
  if (!isVisible() || workspace_.isDragging()) return;
  const design::Situation situation = workspace_.shownSituation();
  if (wished_version_ != workspace_.version() || wished_situation_ != situation.id) {
    failed_.clear();
    wished_version_ = workspace_.version();
    wished_situation_ = situation.id;
    maker_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version(), situation});
  }
  take();
}

const LightAnswer* LightPage::current() const {
  const auto answer = maker_.now();
  const bool is = answer && answer->version == workspace_.version() &&
                  answer->situation == workspace_.shownSituation().id;
  return is ? answer.get() : nullptr;
}

void LightPage::take() {
  if (!isVisible()) return;
  const LightAnswer* answer = current();
  const QString where = situationTitle(workspace_.design(), workspace_.shownSituation().id);
  if (!answer) {
    state_->setText(failed_.isEmpty() ? tr("%1: being worked out.").arg(where) : failed_);
    takePairing();
    return;  // what was known stays until then
  }
  const proof::LitSituation& lit = answer->lit;
  state_->setText(lit.stated
                      ? tr("%1: %2 lx all about, luminaires: %3").arg(where, luxText(lit.ambient_lux)).arg(lit.luminaires)
                      : tr("%1: names no lights, so that all is taken to be lit well enough").arg(where));
  taking_ = true;
  takeImagers(lit);
  takeLamps(lit);
  takeZones(lit);
  taking_ = false;
  takeSelection();
  takePairing();
}

void LightPage::takeImagers(const proof::LitSituation& lit) {
  setRows(*imagers_, static_cast<int>(lit.imagers.size()), 4);
  int mono = 0, all = 0;
  for (std::size_t i = 0; i < lit.imagers.size(); ++i) {
    const proof::ImagerSees& sees = lit.imagers[i];
    const bool is_mono = lit.stated && sees.state.mode == light::Mode::mono;
    if (sees.view.aim == 0) {
      ++all;
      mono += is_mono;
    }
    QString focus = dash(), sharp = dash();
    if (sees.focus) {
      focus = length(sees.focus->at_m);
      if (!sees.focus->stated) focus = tr("%1*\nChosen, as the design states none").arg(focus);
      sharp = stretchText(sees.focus->sharp);
    }
    const bool several = i + 1 < lit.imagers.size() && lit.imagers[i + 1].view.imager == sees.view.imager;
    setRow(*imagers_, static_cast<int>(i),
           {sees.view.aim > 0 || several ? tr("%1, aim %2").arg(text(sees.view.imager)).arg(sees.view.aim + 1)
                                         : text(sees.view.imager),
            lit.stated ? luxText(sees.state.lux) : dash(),
            !lit.stated ? dash() : is_mono ? tr("mono") : tr("colour"),
            lit.stated ? neededText(sees.needed) : dash(), focus, sharp});
  }
  imagers_->resizeColumnsToContents();
  const auto burning = std::count(lit.burns.begin(), lit.burns.end(), true);
  counts_->setText(lit.stated ? tr("In mono: %1 of %2 imagers. Burning: %3 of %4 lamps.")
                                    .arg(mono).arg(all).arg(burning).arg(lit.lamps.size())
                              : QString());
  counts_->setVisible(lit.stated);
}

void LightPage::takeLamps(const proof::LitSituation& lit) {
  setRows(*lamps_, static_cast<int>(lit.lamps.size()), 3);
  for (std::size_t i = 0; i < lit.lamps.size(); ++i) {
    const light::Lamp& lamp = lit.lamps[i];
    setRow(*lamps_, static_cast<int>(i),
           {tr("%1 lamp %2").arg(text(lamp.housing.text)).arg(lamp.slot),
            lamp.alone ? tr("its own cell") : followsText(lamp.housing.text, lamp.follows),
            lit.burns[i] ? tr("yes") : tr("no"), length(lamp.range_m),
            lamp.infrared() ? tr("infrared, %1 nm").arg(lamp.wave_nm) : tr("white")});
    lamps_->item(static_cast<int>(i), 0)->setData(kHousing, text(lamp.housing.text));
    lamps_->item(static_cast<int>(i), 0)->setData(kSlot, lamp.slot);
  }
  lamps_->resizeColumnsToContents();
}

void LightPage::takeZones(const proof::LitSituation& lit) {
  setRows(*zones_, static_cast<int>(lit.zones.size()), 2);
  for (std::size_t i = 0; i < lit.zones.size(); ++i) {
    const light::Evenness& even = lit.zones[i].evenness;
    setRow(*zones_, static_cast<int>(i),
           {text(lit.zones[i].zone), luxText(even.least_lux), luxText(even.mean_lux), luxText(even.most_lux),
            evennessText(even)});
  }
  zones_->resizeColumnsToContents();
}

// The rows of what is selected on the plan.
void LightPage::takeSelection() {
  const LightAnswer* answer = current();
  if (!isVisible() || !answer) return;
  taking_ = true;
  const std::string imager = workspace_.selectedImager();
  int row = -1;
  for (std::size_t i = 0; i < answer->lit.imagers.size() && row < 0; ++i) {
    const design::PosedImager& view = answer->lit.imagers[i].view;
    if (view.imager == imager && view.aim == workspace_.selectedAim()) row = static_cast<int>(i);
  }
  imagers_->setCurrentCell(row, row < 0 ? -1 : 0);
  const design::Housing* housing = workspace_.selectedHousing();
  const int now = lamps_->currentRow();
  const auto ofHousing = [&](int lamp) {
    return lamp >= 0 && lamp < static_cast<int>(answer->lit.lamps.size()) && housing &&
           answer->lit.lamps[static_cast<std::size_t>(lamp)].housing == housing->id;
  };
  if (!ofHousing(now)) {
    int first = -1;
    for (int i = 0; i < static_cast<int>(answer->lit.lamps.size()) && first < 0; ++i)
      if (ofHousing(i)) first = i;
    lamps_->setCurrentCell(first, first < 0 ? -1 : 0);
  }
  taking_ = false;
  takeChoices();
}

void LightPage::takeChoices() {
  const LightAnswer* answer = current();
  const int row = lamps_->currentRow();
  const light::Lamp* lamp = answer && row >= 0 && row < static_cast<int>(answer->lit.lamps.size())
                                ? &answer->lit.lamps[static_cast<std::size_t>(row)] : nullptr;
  const design::Housing* housing = lamp && !lamp->alone ? housingOf(workspace_, *lamp) : nullptr;
  follows_->setVisible(housing);
  lamp_label_->setVisible(housing);
  if (!housing) return;
  lamp_label_->setText(tr("%1 lamp %2 follo&ws").arg(text(housing->id.text)).arg(lamp->slot));
  follows_->clear();
  const auto add = [&](const std::optional<int>& follows) {
    follows_->addItem(followsText(housing->id.text, follows), follows.value_or(-1));
    if (follows == lamp->follows) follows_->setCurrentIndex(follows_->count() - 1);
  };
  add({});
  for (const design::HousingImager& imager : housing->imagers) add(imager.slot);
  add(0);
}

void LightPage::setFollows(int index) {
  // Of the row as it stands, whether or not what it says is worked out yet.
  const QTableWidgetItem* lamp = lamps_->item(lamps_->currentRow(), 0);
  if (!lamp) return;
  const design::HousingId housing{lamp->data(kHousing).toString().toStdString()};
  const int slot = follows_->itemData(index).toInt();
  design::Design next = edit::withLamp(
      workspace_.design(), housing,
      {lamp->data(kSlot).toInt(), slot < 0 ? std::nullopt : std::optional(slot)});
  if (next == workspace_.design()) return;
  workspace_.apply(tr("Lamp of %1").arg(text(housing.text)), std::move(next), "lamp " + housing.text);
}

// ---- pairing ------------------------------------------------------------------------------------

void LightPage::askPairing() {
  const design::Housing* housing = workspace_.selectedHousing();
  if (!housing) return;
  PairingWish wish;
  wish.design = workspace_.shareDesign();
  wish.folder = workspace_.folder();
  wish.version = workspace_.version();
  wish.situation = workspace_.shownSituation();
  wish.housing = housing->id;
  pairing_.wish(std::move(wish));
  takePairing();
  stop_->setFocus();
}

const PairingAnswer* LightPage::found() const {
  const auto answer = pairing_.now();
  const design::Housing* housing = workspace_.selectedHousing();
  const bool is = answer && housing && answer->housing == housing->id &&
                  answer->version == workspace_.version() &&
                  answer->situation == workspace_.shownSituation().id;
  return is ? answer.get() : nullptr;
}

void LightPage::takePairing() {
  if (!isVisible()) return;
  const design::Housing* housing = workspace_.selectedHousing();
  const LightAnswer* answer = current();
  const bool has_lamps =
      answer && housing &&
      std::any_of(answer->lit.lamps.begin(), answer->lit.lamps.end(),
                  [&](const light::Lamp& lamp) { return lamp.housing == housing->id && !lamp.alone; });
  const bool busy = pairing_.isBusy();
  const bool keys_here = stop_->hasFocus();
  ask_->setText(housing ? tr("Best &pairing of %1").arg(text(housing->id.text)) : tr("Best &pairing"));
  ask_->setEnabled(has_lamps && !busy);
  ask_->setToolTip(has_lamps ? QString() : tr("Select a housing with imagers and lamps."));
  ask_->setVisible(answer && !answer->lit.lamps.empty());
  const PairingAnswer* best = busy ? nullptr : found();
  says_->setVisible(best);
  apply_->setVisible(best && best->pairing);
  if (keys_here && !busy) (best && best->pairing ? static_cast<QWidget*>(apply_) : ask_)->setFocus();
  stop_->setVisible(busy);
  progress_->setVisible(busy);
  if (!best) return;
  if (!best->pairing) {
    says_->setText(tr("%1: no imager is in mono here, or there are more pairings than can be tried.")
                       .arg(text(best->housing.text)));
    return;
  }
  const proof::LampPairing& pairing = *best->pairing;
  QStringList pairs, without, short_of;
  for (const design::HousingLamp& lamp : pairing.lamps)
    pairs << tr("lamp %1 follows %2").arg(lamp.slot).arg(followsText(best->housing.text, lamp.follows));
  for (const int slot : pairing.without) without << text(best->housing.text + "." + std::to_string(slot));
  for (const design::RequirementId& id : pairing.short_of) short_of << text(id.text);
  QString words = tr("Requirements held: %1 of %2 (as it is set: %3).")
                      .arg(pairing.held.size())
                      .arg(pairing.held.size() + pairing.short_of.size())
                      .arg(pairing.held_as_written);
  if (!short_of.isEmpty()) words += " " + tr("Short: %1.").arg(short_of.join(", "));
  if (!without.isEmpty()) words += " " + tr("Without a lamp: %1.").arg(without.join(", "));
  words += " " + tr("Pairings tried on previews: %1; the proof follows once it is set.").arg(pairing.tried);
  if (pairing.model_runs_together)
    words += " " + tr("The model says that its lamps run together: ask whether they can follow imagers one by one.");
  says_->setText(words);
  apply_->setText(pairs.join(", "));
  apply_->setAccessibleName(tr("Set the lamps so") + ": " + pairs.join(", "));
}

void LightPage::applyPairing() {
  const PairingAnswer* best = found();
  if (!best || !best->pairing) return;
  design::Design next = workspace_.design();
  for (const design::HousingLamp& lamp : best->pairing->lamps)
    next = edit::withLamp(next, best->housing, lamp);
  workspace_.apply(tr("Pair the lamps of %1").arg(text(best->housing.text)), std::move(next));
}

}  // namespace belvedere::desk
