// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sun's year of the selected imager beside the plan: the chart that is also a file of its own, with
// what it says in words below. Follows the selection and the shown situation.
#pragma once

#include <QWidget>

#include "desk/sun_maker.h"
#include "desk/workspace.h"

class QLabel;
class QProgressBar;
class QPushButton;

namespace belvedere::desk {

// The chart, painted by the drawing room at the size it has; resting the pointer says what is there.
class SunChartView : public QWidget {
  Q_OBJECT

 public:
  explicit SunChartView(QWidget* parent = nullptr);
  void show(std::shared_ptr<const SunAnswer> answer);
  QString wordsAt(QPoint at) const;

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;

 private:
  double mmPerPx() const;
  std::shared_ptr<const SunAnswer> answer_;
};

class SunPage : public QWidget {
  Q_OBJECT

 public:
  explicit SunPage(Workspace& workspace);
  SunMaker& maker() { return maker_; }
  // The chart of what is shown, as SVG, PDF or PNG by the ending. Tells of it, or complains.
  void writeTo(const std::filesystem::path& path);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void wish();
  void take();
  void askFile();
  bool isOfWhatIsShown() const;

  Workspace& workspace_;
  SunMaker maker_;
  SunChartView* chart_ = nullptr;
  QLabel *words_ = nullptr, *state_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QPushButton *stop_ = nullptr, *again_ = nullptr, *file_ = nullptr;
  quint64 wished_version_ = 0;
  std::string wished_imager_;
  design::SituationId wished_situation_;
  bool stopped_ = false;
  QString failed_;                // why there is none of what was wished for last
};

}  // namespace belvedere::desk
