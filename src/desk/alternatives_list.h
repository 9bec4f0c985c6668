// SPDX-License-Identifier: GPL-3.0-or-later
//
// Alternatives of the design: the one on the sheet first, the others below. The present state can be
// kept as one, another taken onto the sheet, made the base, or dropped; all of them can be proven
// beside each other, by a thread of their own, into a table of all that the brief asks for and verdicts.
#pragma once

#include <QThreadPool>
#include <QWidget>

#include <memory>
#include <vector>

#include "base/progress.h"
#include "desk/workspace.h"

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTableWidget;

namespace belvedere::requirements {
struct Answer;
}

namespace belvedere::desk {

class AlternativesList : public QWidget {
  Q_OBJECT

 public:
  explicit AlternativesList(Workspace& workspace);
  ~AlternativesList() override;
  bool isComparing() const { return comparing_; }

 Q_SIGNALS:
  void compared();

 private:
  // A state to which alternatives are changes; which one is told by the alternatives it holds.
  struct Anchor {
    std::shared_ptr<const design::Design> design;
    QString name;
  };
  // What came of one thing that the brief asks for, in one situation.
  struct Result {
    QString asked, words;
    bool met = false;
  };
  struct Variant {
    QString name;
    std::vector<Result> results;
    QString failed;   // why it could not be proven; empty: it was
  };

  const Anchor& anchor() const;
  const design::Alternative* chosen() const;
  void take();
  void takeButtons();
  bool changedSince(const std::shared_ptr<const design::Design>& present);
  void keep();
  void goOver(bool keep_base);
  void drop();
  void compare();
  static std::vector<Result> resultsOf(const requirements::Answer& answer);
  void fill(const std::vector<Variant>& variants);
  template <class Action>
  void tryTo(Action action);

  Workspace& workspace_;
  std::vector<Anchor> anchors_;   // oldest first
  QTableWidget *table_ = nullptr, *results_ = nullptr;
  QLabel *empty_ = nullptr, *of_ = nullptr;
  QLineEdit* name_ = nullptr;
  QPushButton *keep_ = nullptr, *switch_ = nullptr, *base_ = nullptr, *drop_ = nullptr;
  QPushButton *compare_ = nullptr, *stop_ = nullptr;
  QProgressBar* progress_ = nullptr;
  bool comparing_ = false, taking_ = false;
  quint64 compared_version_ = 0;
  Progress work_;
  QThreadPool prover_;
};

}  // namespace belvedere::desk
