// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands on the sheet before there is a design: an example, a file of lately, a new design from
// a picture of a plan, or an empty sheet. Goes with the first thing that is opened or drawn.
#pragma once

#include <QScrollArea>

#include <filesystem>
#include <vector>

class QVBoxLayout;

namespace belvedere::desk {

class MainWindow;

// Designs that come with the program: beside it where it is installed, else in the folder of its
// sources. Empty: none.
std::vector<std::filesystem::path> examples();

class FirstPage : public QScrollArea {
  Q_OBJECT

 public:
  explicit FirstPage(MainWindow& window);  // lies on its sheet
  void fill();
  void leave();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void choice(QVBoxLayout& column, const QString& name, const QString& words, const QString& about,
              std::function<void()> take);
  void takeWhetherNeeded();

  MainWindow& window_;
  QWidget* content_ = nullptr;
  bool wanted_ = true;
};

}  // namespace belvedere::desk
