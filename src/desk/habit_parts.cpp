// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/habit_parts.h"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QDragEnterEvent>
#include <QInputDialog>
#include <QMenu>
#include <QMenuBar>
#include <QMimeData>
#include <QScreen>
#include <QSettings>
#include <QTimer>
#include <QUrl>

#include <algorithm>
#include <vector>

#include "base/problem.h"
#include "desk/command_palette.h"
#include "desk/draw_tool.h"
#include "desk/first_page.h"
#include "desk/help_window.h"
#include "desk/main_window.h"
#include "desk/recent_files.h"
#include "desk/shortcuts_page.h"
#include "desk/shown_units.h"
#include "desk/theme.h"

namespace belvedere::desk {
namespace {

constexpr int kFramePx = 120;  // what a desktop puts round a window, and a little paper

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

// How places snap, kept as a habit of the person's.
void addSnapping(MainWindow& window) {
  const QString menu = MainWindow::tr("&Draw");
  SheetView& sheet = window.sheet();
  window.menuOf(menu)->addSeparator();
  QAction* snap = window.addCommand(menu, "draw.snap", MainWindow::tr("Snap t&o what is drawn"),
                                    QKeySequence(Qt::Key_F10), [] {});
  snap->setCheckable(true);
  snap->setChecked(QSettings().value("snapping", true).toBool());
  sheet.setSnapping(snap->isChecked());
  QObject::connect(snap, &QAction::toggled, &window, [&sheet](bool on) {
    sheet.setSnapping(on);
    QSettings().setValue("snapping", on);
  });
  window.addCommand(menu, "draw.grid", MainWindow::tr("&Grid ..."), {}, [&window, &sheet] {
    const edit::Units units = shownUnits();
    const QString now =
        sheet.gridM() > 0 ? QString::fromStdString(edit::lengthText(sheet.gridM(), units)) : "";
    bool good = false;
    const QString text = QInputDialog::getText(
        &window, MainWindow::tr("Grid"), MainWindow::tr("Lines so far apart; empty: no grid."),
        QLineEdit::Normal, now, &good);
    if (!good) return;
    try {
      const double apart_m =
          text.trimmed().isEmpty() ? 0 : edit::lengthFrom(text.toStdString(), units);
      if (apart_m < 0) refuse(MainWindow::tr("a grid's lines cannot be less than nothing apart"));
      sheet.setGridM(apart_m);
      QSettings().setValue("grid_m", apart_m);
    } catch (const InputError& error) {
      window.tell(sentenceOf(error));
    }
  });
  sheet.setGridM(QSettings().value("grid_m", 0.0).toDouble());
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

// Each letter of a menu is one entry's, in whatever language: where two want the same, the later one
// takes another of its words, the first of a word if it can, or goes without.
void shareLetters(const QMenu& menu) {
  QString taken;
  std::vector<QAction*> without;
  for (QAction* action : menu.actions()) {
    const QString letter = QKeySequence::mnemonic(action->text()).toString().right(1);
    if (!letter.isEmpty() && !taken.contains(letter, Qt::CaseInsensitive)) {
      taken += letter;
    } else if (!action->isSeparator()) {
      without.push_back(action);
    }
  }
  std::stable_sort(without.begin(), without.end(), [](const QAction* a, const QAction* b) {
    return a->text().size() < b->text().size();  // those with the least choice first
  });
  for (QAction* action : without) {
    const QString words = action->text().remove('&');
    qsizetype found = -1;
    for (const bool first : {true, false})
      for (qsizetype i = 0; i < words.size() && found < 0; ++i)
        if (words[i].isLetter() && (!first || i == 0 || words[i - 1] == ' ') &&
            !taken.contains(words[i], Qt::CaseInsensitive))
          found = i;
    if (found >= 0) taken += words[found];
    action->setText(found < 0 ? words : QString(words).insert(found, '&'));
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
  addSnapping(window);
  addThemes(window);
  addHelp(window);
  new FirstPage(window);
  QObject::connect(&window, &MainWindow::fileLeft, &window,
                   [&window] { QSettings().setValue("window", window.saveGeometry()); });
  // Once every other part has made its commands.
  QTimer::singleShot(0, &window, [&window] {
    takeKeptShortcuts(window);
    for (const QAction* action : window.menuBar()->actions())
      if (action->menu()) shareLetters(*action->menu());
  });
}

void showWindow(MainWindow& window) {
  const QByteArray place = QSettings().value("window").toByteArray();
  if (!place.isEmpty() && window.restoreGeometry(place)) return window.show();
  const QSize screen = window.screen()->availableGeometry().size();
  if (screen.width() < window.width() + kFramePx || screen.height() < window.height() + kFramePx)
    return window.showMaximized();
  window.show();
}

}  // namespace belvedere::desk
