// SPDX-License-Identifier: GPL-3.0-or-later
//
// The plan on paper, to scale: a file (PDF, SVG, PNG) or a printer; paper A4 to A1, the scale asked
// for or the largest round one at which all fits. Made by a thread of its own, with progress, from
// the proof that the window has or from one made for it; can be stopped.
#pragma once

#include <QDialog>
#include <QThreadPool>

#include <filesystem>
#include <functional>
#include <memory>

#include "base/progress.h"
#include "drawing/sheet.h"

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;

namespace belvedere::desk {

class MainWindow;

class ExportDialog : public QDialog {
  Q_OBJECT

 public:
  explicit ExportDialog(MainWindow& window);
  ~ExportDialog() override;

  // Writes the plan as chosen; the ending says what kind of file.
  void writeTo(const std::filesystem::path& path);
  bool isWorking() const { return working_; }

 Q_SIGNALS:
  void done(bool well);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  drawing::Sheet sheet() const;        // without spots
  bool isProven() const;               // what the window has is of this design, whole
  QSizeF paperMm() const;
  void takeScale();
  void askFile();
  void askPrinter();
  void work(std::function<void(const drawing::Sheet&)> paint, const QString& made);
  void setWorking(bool on);

  MainWindow& window_;
  QComboBox *paper_ = nullptr, *scale_ = nullptr, *what_ = nullptr;
  QLabel* says_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QPushButton *file_ = nullptr, *print_ = nullptr, *stop_ = nullptr;
  bool working_ = false;
  Progress work_;
  QThreadPool worker_;
};

// Its commands in the File menu.
void makeExportParts(MainWindow& window);

}  // namespace belvedere::desk
