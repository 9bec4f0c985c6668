// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/habit_parts.h"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QDragEnterEvent>
#include <QMenu>
#include <QMimeData>
#include <QSettings>
#include <QTimer>
#include <QUrl>

#include "desk/command_palette.h"
#include "desk/first_page.h"
#include "desk/help_window.h"
#include "desk/main_window.h"
#include "desk/recent_files.h"
#include "desk/shortcuts_page.h"
#include "desk/shown_units.h"
#include "desk/theme.h"

namespace belvedere::desk {
namespace {

// Designs that are dropped on the window are opened.
class Drops : public QObject {
 public:
  explicit Drops(MainWindow& window) : QObject(&window), window_(window) {
    window.setAcceptDrops(true);
    window.installEventFilter(this);
  }
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (watched == &window_ &&
        (event->type() == QEvent::DragEnter || event->type() == QEvent::Drop)) {
      auto* drop = static_cast<QDropEvent*>(event);
      const QString file = fileOf(*drop->mimeData());
      if (!file.isEmpty()) {
        drop->acceptProposedAction();
        if (event->type() == QEvent::Drop && window_.maySave())
          window_.openFile(file.toStdString());
        return true;
      }
    }
    return QObject::eventFilter(watched, event);
  }

 private:
  static QString fileOf(const QMimeData& data) {
    for (const QUrl& url : data.urls())
      if (url.isLocalFile() && url.toLocalFile().endsWith(".json", Qt::CaseInsensitive))
        return url.toLocalFile();
    return {};
  }
  MainWindow& window_;
};

void addUnits(MainWindow& window) {
  QAction* feet = window.addCommand(MainWindow::tr("&View"), "view.feet",
                                    MainWindow::tr("&Feet and inches"), {}, [] {});
  feet->setCheckable(true);
  feet->setChecked(shownUnits() == edit::Units::imperial);
  QObject::connect(feet, &QAction::toggled, &window, [&window](bool on) {
    setShownUnits(on ? edit::Units::imperial : edit::Units::metric);
    Q_EMIT window.workspace().viewChanged();  // whoever shows a length shows it anew
    window.sheet().refresh();
  });
}

void addThemes(MainWindow& window) {
  auto* group = new QActionGroup(&window);
  const struct {
    const char* name;
    QString words;
    Theme theme;
  } themes[] = {{"view.as_system", MainWindow::tr("Light or dark as the s&ystem"), Theme::system},
                {"view.light", MainWindow::tr("&Light"), Theme::light},
                {"view.dark", MainWindow::tr("&Dark"), Theme::dark}};
  window.menuOf(MainWindow::tr("&View"))->addSeparator();
  for (const auto& [name, words, theme] : themes) {
    QAction* action = window.addCommand(MainWindow::tr("&View"), name, words, {},
                                        [t = theme] { setTheme(t); });
    action->setCheckable(true);
    action->setChecked(chosenTheme() == theme);
    group->addAction(action);
  }
}

void addHelp(MainWindow& window) {
  const QString help = MainWindow::tr("&Help");
  auto* pages = new HelpWindow(&window);
  window.addCommand(help, "help.context", MainWindow::tr("&Help on this"), QKeySequence::HelpContents,
                    [&window, pages] {
                      const QWidget* at = QApplication::focusWidget();
                      pages->showTopic(HelpWindow::topicOf(at ? at : &window.sheet()));
                    });
  auto* palette = new CommandPalette(window);
  window.addCommand(help, "help.commands", MainWindow::tr("&Commands by typing ..."),
                    QKeySequence(MainWindow::tr("Ctrl+K")), [palette] { palette->openAnew(); });
  window.addCommand(help, "help.shortcuts", MainWindow::tr("&Shortcuts ..."), {}, [&window] {
    auto* page = new ShortcutsPage(window);
    page->setAttribute(Qt::WA_DeleteOnClose);
    page->open();
  });
  // Sections of the handbook that own what a part shows.
  window.ledger().setProperty("help", "5");
  window.sheet().setProperty("help", "3");
  const auto take = [&window] {
    const edit::Selection& selection = window.workspace().selection();
    const edit::ObjectKind kind =
        selection.empty() ? edit::ObjectKind::storey : selection.front().kind;
    window.sheet().setProperty("help", kind == edit::ObjectKind::housing ? "3"
                                       : kind == edit::ObjectKind::zone  ? "5"
                                       : kind == edit::ObjectKind::light ? "9"
                                                                         : "6");
  };
  QObject::connect(&window.workspace(), &Workspace::selectionChanged, &window, take);
  take();
}

}  // namespace

void makeHabitParts(MainWindow& window) {
  new RecentFiles(window);
  new Drops(window);
  addUnits(window);
  addThemes(window);
  addHelp(window);
  new FirstPage(window);
  const QByteArray place = QSettings().value("window").toByteArray();
  if (!place.isEmpty()) window.restoreGeometry(place);
  QObject::connect(&window, &MainWindow::fileLeft, &window,
                   [&window] { QSettings().setValue("window", window.saveGeometry()); });
  // Once every other part has made its commands.
  QTimer::singleShot(0, &window, [&window] { takeKeptShortcuts(window); });
}

}  // namespace belvedere::desk
