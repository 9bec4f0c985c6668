// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything by typing: all commands with their menu and shortcut, all objects and requirements by
// name. What holds every typed word is listed, the nearest first; Enter runs it or goes there.
#pragma once

#include <QDialog>
#include <QString>

#include <functional>
#include <vector>

class QLineEdit;
class QTableWidget;

namespace belvedere::desk {

class MainWindow;

// The commands of a window with their menus, in the order of the menus.
struct Command {
  class QAction* action = nullptr;
  QString words;   // without the mark of the key
  QString menu;
};
std::vector<Command> commandsOf(const MainWindow& window);

class CommandPalette : public QDialog {
  Q_OBJECT

 public:
  explicit CommandPalette(MainWindow& window);
  void openAnew();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Entry {
    QString words, where, key;
    bool enabled = true;
    std::function<void()> run;
  };
  void gather();
  void filter();
  void run();

  MainWindow& window_;
  QLineEdit* typed_ = nullptr;
  QTableWidget* list_ = nullptr;
  std::vector<Entry> entries_;
  std::vector<std::size_t> listed_;
};

}  // namespace belvedere::desk
