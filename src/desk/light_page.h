// SPDX-License-Identifier: GPL-3.0-or-later
//
// The shown situation's light beside the plan: what each imager meets and needs, its mode, where it is
// sharp; which lamps burn and what they follow, which can be set; how even zones are lit. The best
// pairing of a housing's lamps is looked for when asked, and set by a click.
#pragma once

#include <QWidget>

#include "desk/light_maker.h"
#include "desk/workspace.h"

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;
class QTableWidget;

namespace belvedere::desk {

class SentenceButton;

class LightPage : public QWidget {
  Q_OBJECT

 public:
  explicit LightPage(Workspace& workspace);
  const LightMaker& maker() const { return maker_; }
  const PairingMaker& pairing() const { return pairing_; }

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void wish();
  void take();
  void takeImagers(const proof::LitSituation& lit);
  void takeLamps(const proof::LitSituation& lit);
  void takeZones(const proof::LitSituation& lit);
  void takeChoices();           // what the chosen lamp may follow
  void takePairing();
  void takeSelection();
  void setFollows(int index);
  void askPairing();
  void applyPairing();
  // What is shown now; null: it is not known yet.
  const LightAnswer* current() const;
  // The pairing that was found for the selected housing, as all else is now.
  const PairingAnswer* found() const;

  Workspace& workspace_;
  LightMaker maker_;
  PairingMaker pairing_;
  QLabel *state_ = nullptr, *counts_ = nullptr, *lamp_label_ = nullptr, *says_ = nullptr;
  QTableWidget *imagers_ = nullptr, *lamps_ = nullptr, *zones_ = nullptr;
  QComboBox* follows_ = nullptr;
  QPushButton *ask_ = nullptr, *stop_ = nullptr;
  QProgressBar* progress_ = nullptr;
  SentenceButton* apply_ = nullptr;
  quint64 wished_version_ = 0;
  design::SituationId wished_situation_;
  QString failed_;              // why there is none of what was wished for last
  bool taking_ = false;
};

}  // namespace belvedere::desk
