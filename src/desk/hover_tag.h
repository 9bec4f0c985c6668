// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where the pointer rests on a zone: who sees the spot, at what density, what fails first and by how
// much, and the least change that would mend it, with a button that makes it. Asked of the
// evaluator; drawn on the sheet like a note, gone when the pointer goes on.
#pragma once

#include <QFrame>

#include <memory>
#include <optional>

#include "desk/evaluator.h"
#include "desk/sheet_view.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace belvedere::desk {

class HoverTag : public QFrame {
  Q_OBJECT

 public:
  HoverTag(SheetView& sheet, Workspace& workspace, Evaluator& evaluator);
  // The words that are shown; empty when the tag is not.
  QString words() const;

 private:
  void askAt(Vec2 site_m);
  // `changes_sought`: those that would mend it are all there.
  void show(const proof::SpotExplanation& spot, bool changes_sought);
  void placeBeside(Vec2 site_m);
  const design::Requirement* askedOf(Vec2 site_m) const;

  SheetView& sheet_;
  Workspace& workspace_;
  Evaluator& evaluator_;
  QLabel* text_ = nullptr;
  QPushButton* mend_ = nullptr;
  std::optional<Vec2> asked_at_;
  std::optional<proof::Change> change_;
};

}  // namespace belvedere::desk
