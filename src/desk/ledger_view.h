// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ledger: the brief, always in view. A row a requirement: its mark, what it asks, a bar with
// the share between its bounds and a tick at what is asked; one bar a situation where they differ.
// A row says whether it is a preview or proven. The selected row opens: why not, by reason; the
// spot that is worst; the least changes that would mend it, with a button each.
#pragma once

#include <QScrollArea>

#include <memory>
#include <vector>

#include "desk/evaluator.h"
#include "desk/workspace.h"

class QVBoxLayout;

namespace belvedere::desk {

class LedgerRowView;

class LedgerView : public QScrollArea {
  Q_OBJECT

 public:
  LedgerView(Workspace& workspace, Evaluator& evaluator, QWidget* parent = nullptr);

  // The words of a requirement's row in a situation: "met 96.2 to 96.4 % of 95", "preview: 96 % of
  // 95"; for tests and screen readers.
  QString wordsOf(const design::RequirementId& requirement,
                  const design::SituationId& situation) const;
  QSize sizeHint() const override { return {320, 480}; }

 Q_SIGNALS:
  void showSpot(Vec2 site_m);

 private:
  void takeRows();
  void askForRemedy();

  Workspace& workspace_;
  Evaluator& evaluator_;
  QWidget* content_ = nullptr;
  QVBoxLayout* rows_layout_ = nullptr;
  std::vector<LedgerRowView*> rows_;
  QWidget* empty_ = nullptr;           // what to do next, where nothing is asked for
  bool filled_ = false;
  quint64 opened_version_ = 0;         // nothing older is of this design
  QString asked_for_;  // requirement, situation and version whose remedy was asked for
};

// One requirement.
class LedgerRowView : public QWidget {
  Q_OBJECT

 public:
  LedgerRowView(Workspace& workspace, design::RequirementId requirement, QWidget* parent);
  const design::RequirementId& requirement() const { return requirement_; }
  // What is known of it: each situation, then losses; and what it asks of services: of that version of
  // the design, or not known yet (empty).
  void setRows(std::vector<LedgerRow> rows, std::vector<requirements::Demand> demands,
               quint64 demands_version, quint64 version);
  const std::vector<LedgerRow>& rows() const { return rows_; }
  void setOpen(bool open);
  // Of a version of the design; shown while that is the present one.
  void setRemedies(const proof::SpotExplanation& spot, quint64 version);
  QString words(const LedgerRow& row) const;
  // "met: runs on C1.3", a line a demand, before a change until they are known anew: "was met: ..."; of
  // what asks for nothing but that, that it is being proven.
  QStringList demandLines() const;

 Q_SIGNALS:
  void showSpot(Vec2 site_m);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void changeEvent(QEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;

 private:
  struct Bar {
    const LedgerRow* row = nullptr;
    QString title;   // of the situation or loss; empty where all are alike
    QRect area, words;
  };
  void layOut();
  QString titleWords() const;
  QString wordsUnder(const Bar& bar) const;
  void paintBar(QPainter& painter, const Bar& bar) const;
  void fillDetails();
  void dropDetails();
  bool isSelected() const;

  Workspace& workspace_;
  design::RequirementId requirement_;
  std::vector<LedgerRow> rows_;
  std::vector<requirements::Demand> demands_;
  quint64 demands_version_ = 0, version_ = 0;
  bool open_ = false;
  std::vector<Bar> bars_;
  QRect title_;
  std::vector<std::pair<QString, QRect>> demand_lines_;
  QWidget* details_ = nullptr;
  quint64 details_version_ = 0;
  std::optional<proof::SpotExplanation> remedies_;
  quint64 remedies_version_ = 0;
};

}  // namespace belvedere::desk
