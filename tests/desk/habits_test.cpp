// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people expect of any program, and that all of it can be done by keyboard and heard.
#include <QAccessible>
#include <QAction>
#include <QApplication>
#include <QDropEvent>
#include <QKeySequenceEdit>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTextBrowser>

#include <cmath>
#include <set>

#include "desk/colours.h"
#include "desk/command_palette.h"
#include "desk/first_page.h"
#include "desk/help_window.h"
#include "desk/recent_files.h"
#include "desk/resources.h"
#include "desk/shortcuts_page.h"
#include "desk/theme.h"
#include "desk/ts_translator.h"
#include "desk_test_tools.h"

namespace belvedere::desk {
namespace {

// WCAG 2: relative luminance and contrast.
double luminance(const QColor& c) {
  const auto part = [](double v) {
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(c.redF()) + 0.7152 * part(c.greenF()) + 0.0722 * part(c.blueF());
}
double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

// What a screen reader says of a widget: its name, else its words or its label's.
QString nameOf(QWidget* widget) {
  QAccessibleInterface* heard = QAccessible::queryAccessibleInterface(widget);
  return heard ? heard->text(QAccessible::Name) : QString();
}

// Parts of other widgets, which speak for them.
bool isInner(const QWidget* widget) {
  const QWidget* parent = widget->parentWidget();
  return widget->objectName().startsWith("qt_") ||
         (parent && (parent->focusProxy() == widget || parent->inherits("QAbstractSpinBox") ||
                     parent->inherits("QComboBox") || parent->inherits("QKeySequenceEdit") ||
                     parent->inherits("QAbstractScrollArea") || parent->inherits("QHeaderView"))) ||
         widget->inherits("QHeaderView") || widget->inherits("QComboBoxListView") || widget->inherits("QComboBoxPrivateContainer");
}

QStringList namelessOf(const QWidget& top) {
  QStringList nameless;
  for (QWidget* widget : top.findChildren<QWidget*>())
    if (widget->focusPolicy() != Qt::NoFocus && !isInner(widget) && nameOf(widget).isEmpty())
      nameless << QString(widget->metaObject()->className()) + " " + widget->objectName() + " in " +
                      (widget->parentWidget() ? widget->parentWidget()->objectName() : QString());
  return nameless;
}

}  // namespace

class HabitsTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  void initTestCase() { QSettings().clear(); }
  void cleanup() { QSettings().clear(); }

  // Property: with no design the first page stands on the sheet; an example opens from it.
  void theFirstPageOpensAnExample() {
    QVERIFY(examples().size() >= 3);
    auto window = windowWith("");
    auto* page = window->findChild<FirstPage*>();
    QVERIFY(page->isVisible());
    auto* example = page->findChild<QPushButton*>("first.example");
    QVERIFY(example && !example->text().isEmpty());
    QTest::mouseClick(example, Qt::LeftButton);
    QVERIFY(!window->workspace().design().housings.empty());
    QVERIFY(!page->isVisible());
  }

  void theFirstPageGivesWayToAnEmptySheet() {
    auto window = windowWith("");
    auto* page = window->findChild<FirstPage*>();
    QTest::mouseClick(page->findChild<QPushButton*>("first.empty"), Qt::LeftButton);
    QVERIFY(!page->isVisible());
  }

  // Property: opened files are in the menu, the newest first; one that is gone cannot be chosen.
  void recentFiles() {
    QTemporaryDir folder;
    const QString gone = folder.filePath("gone.json");
    std::filesystem::copy_file(examplePath("shop/design.json"), gone.toStdString());
    auto window = windowWith("");
    QVERIFY(window->openFile(gone.toStdString()));
    QVERIFY(window->openFile(examplePath("shop/design.json")));
    QFile::remove(gone);
    auto* menu = window->findChild<QMenu*>("file.recent");
    Q_EMIT menu->aboutToShow();
    QVERIFY(menu->actions()[0]->text().startsWith("design.json"));
    QVERIFY(menu->actions()[0]->isEnabled());
    QVERIFY(menu->actions()[1]->text().startsWith("gone.json"));
    QVERIFY(!menu->actions()[1]->isEnabled());
  }

  // Property: opened again, a design shows the place, storey and situation that it was left with.
  void theLastViewComesBack() {
    const auto path = examplePath("car_park_deck/design.json");
    Vec2 middle;
    double scale = 0;
    design::SituationId situation;
    {
      auto window = windowWith("");
      QVERIFY(window->openFile(path));
      QTest::qWait(20);
      SheetView& sheet = window->sheet();
      situation = design::situationsOf(window->workspace().design()).back().id;
      window->workspace().setSituation(situation);
      sheet.zoomAt({300, 200}, 2.3);
      sheet.panBy({40, -25});
      middle = sheet.siteAt({0.5 * sheet.width(), 0.5 * sheet.height()});
      scale = sheet.pxPerM();
      QVERIFY(window->close());
    }
    auto window = windowWith("");
    QVERIFY(window->openFile(path));
    SheetView& sheet = window->sheet();
    QVERIFY(std::abs(sheet.pxPerM() - scale) < 1e-6 * scale);
    QVERIFY(norm(sheet.siteAt({0.5 * sheet.width(), 0.5 * sheet.height()}) - middle) < 1e-6);
    QVERIFY(window->workspace().situation() == situation);
  }

  // Property: a design dropped on the window is opened; other things are not taken.
  void droppingAFile() {
    auto window = windowWith("");
    QMimeData file, other;
    file.setUrls({QUrl::fromLocalFile(
        QString::fromStdString(examplePath("shop/design.json").string()))});
    other.setUrls({QUrl::fromLocalFile("/nowhere/song.mp3")});
    QDragEnterEvent no({50, 50}, Qt::CopyAction, &other, Qt::LeftButton, {});
    no.ignore();
    QCoreApplication::sendEvent(window.get(), &no);
    QVERIFY(!no.isAccepted());
    QDragEnterEvent enter({50, 50}, Qt::CopyAction, &file, Qt::LeftButton, {});
    QCoreApplication::sendEvent(window.get(), &enter);
    QVERIFY(enter.isAccepted());
    QDropEvent drop({50, 50}, Qt::CopyAction, &file, Qt::LeftButton, {});
    QCoreApplication::sendEvent(window.get(), &drop);
    QVERIFY(!window->workspace().design().housings.empty());
  }

  // Property: feet and inches hold at once for the place under the pointer, and are kept.
  void unitsAreThePersons() {
    auto window = windowWith("shop/design.json");
    auto* place = window->findChild<QLabel*>("place");
    Q_EMIT window->sheet().pointed({1, 2});
    QCOMPARE(place->text(), QString("1.00; 2.00 m"));
    window->command("view.feet")->trigger();
    Q_EMIT window->sheet().pointed({1, 2});
    QVERIFY2(place->text().contains("3' 3"), qPrintable(place->text()));
    auto next = windowWith("");
    QVERIFY(next->command("view.feet")->isChecked());
  }

  // Property: light and dark can be chosen and are kept.
  void themesAreKept() {
    auto window = windowWith("shop/design.json");
    window->command("view.dark")->trigger();
    QVERIFY(window->sheet().dark());
    QVERIFY(chosenTheme() == Theme::dark);
    window->command("view.light")->trigger();
    QVERIFY(!window->sheet().dark());
    QVERIFY(chosenTheme() == Theme::light);
  }

  // Property: typed words find a command, and Enter runs it; objects and requirements likewise.
  void commandsByTyping() {
    auto window = windowWith("shop/design.json");
    auto* palette = window->findChild<CommandPalette*>();
    const bool ghosts = window->command("view.other_storeys")->isChecked();
    QTest::keyClick(window.get(), Qt::Key_K, Qt::ControlModifier);
    QVERIFY(palette->isVisible());
    auto* typed = palette->findChild<QLineEdit*>("palette.typed");
    auto* list = palette->findChild<QTableWidget*>("palette.list");
    QTest::keyClicks(typed, "other storeys");
    QCOMPARE(list->item(0, 0)->text(), QString("Other storeys"));
    QTest::keyClick(typed, Qt::Key_Return);
    QTest::qWait(10);
    QVERIFY(!palette->isVisible());
    QCOMPARE(window->command("view.other_storeys")->isChecked(), !ghosts);

    const design::RequirementId requirement = window->workspace().design().brief.back().id;
    window->command("help.commands")->trigger();
    QTest::keyClicks(typed, QString::fromStdString(requirement.text) + " requirement");
    for (int row = 0; row < list->rowCount(); ++row)
      if (list->item(row, 1)->text() == "requirement" &&
          list->item(row, 0)->text() == QString::fromStdString(requirement.text))
        for (; list->currentRow() != row;) QTest::keyClick(typed, Qt::Key_Down);
    QTest::keyClick(typed, Qt::Key_Return);
    QTRY_VERIFY(window->workspace().requirement() == requirement);

    const std::string housing = window->workspace().design().housings.front().id.text;
    window->command("help.commands")->trigger();
    QTest::keyClicks(typed, QString::fromStdString(housing));
    for (int row = 0; row < list->rowCount(); ++row)
      if (list->item(row, 0)->text().contains("(" + QString::fromStdString(housing) + ")") ||
          list->item(row, 0)->text() == QString::fromStdString(housing))
        for (; list->currentRow() != row;) QTest::keyClick(typed, Qt::Key_Down);
    QTest::keyClick(typed, Qt::Key_Return);
    QTRY_VERIFY(window->workspace().selectedHousing());
  }

  // Property: no two commands have the same name or keys; every command has words.
  void commandsAreDistinct() {
    auto window = windowWith("");
    std::set<QString> names, keys;
    for (const Command& command : commandsOf(*window)) {
      QVERIFY2(names.insert(command.action->objectName()).second,
               qPrintable(command.action->objectName()));
      QVERIFY(!command.words.isEmpty());
      const QString key = command.action->shortcut().toString();
      QVERIFY2(key.isEmpty() || keys.insert(key).second, qPrintable(key));
    }
    QVERIFY(names.size() > 15);
  }

  // Property: keys can be set, are kept for the next window, refused where taken, and put back.
  void shortcutsCanBeChanged() {
    auto window = windowWith("");
    QTest::qWait(10);
    window->command("help.shortcuts")->trigger();
    auto* page = window->findChild<ShortcutsPage*>();
    QVERIFY(page);
    auto* table = page->findChild<QTableWidget*>();
    const auto rowOf = [&](const char* name) {
      const auto commands = commandsOf(*window);
      for (std::size_t i = 0; i < commands.size(); ++i)
        if (commands[i].action->objectName() == name) return static_cast<int>(i);
      return -1;
    };
    auto* keys = page->findChild<QKeySequenceEdit*>();
    const auto set = [&](const QKeySequence& sequence) {
      keys->setKeySequence(sequence);
      QTest::mouseClick(page->findChild<QPushButton*>("shortcuts.set"), Qt::LeftButton);
    };
    table->selectRow(rowOf("view.all"));
    const QKeySequence before = window->command("view.all")->shortcut();
    set(QKeySequence("Ctrl+Shift+Y"));
    QCOMPARE(window->command("view.all")->shortcut(), QKeySequence("Ctrl+Shift+Y"));
    {
      auto next = windowWith("");
      QTest::qWait(10);
      QCOMPARE(next->command("view.all")->shortcut(), QKeySequence("Ctrl+Shift+Y"));
    }
    table->selectRow(rowOf("view.nearer"));
    set(QKeySequence("Ctrl+Shift+Y"));
    QVERIFY(window->command("view.nearer")->shortcut() != QKeySequence("Ctrl+Shift+Y"));
    QVERIFY(!page->findChild<QLabel*>("shortcuts.says")->text().isEmpty());
    table->selectRow(rowOf("view.all"));
    QTest::mouseClick(page->findChild<QPushButton*>("shortcuts.back"), Qt::LeftButton);
    QCOMPARE(window->command("view.all")->shortcut(), before);
  }

  // Property: help opens at the section that owns what has the keys; findings at their own.
  void helpIsOfWhatHasTheKeys() {
    auto window = windowWith("shop/design.json");
    window->ledger().setFocus();
    window->command("help.context")->trigger();
    auto* help = window->findChild<HelpWindow*>();
    QVERIFY(help->isVisible());
    QVERIFY2(help->heading().startsWith("5."), qPrintable(help->heading()));
    QVERIFY(help->findChild<QTextBrowser*>()->toPlainText().size() > 10'000);
    help->showTopic("findings.md#share_short");
    QCOMPARE(help->heading(), QString("share_short"));
    help->close();
  }

  // Property: the German words are read, and stand where the window says them.
  void germanWords() {
    loadResources();
    TsTranslator german;
    QVERIFY(german.read(":/words/belvedere_de.ts"));
    QVERIFY(german.count() > 100);
    QCoreApplication::installTranslator(&german);
    {
      auto window = windowWith("");
      QCOMPARE(window->command("file.open")->text(), QString("&Öffnen ..."));
      int german_words = 0, all = 0;
      for (const Command& command : commandsOf(*window)) {
        ++all;
        QCoreApplication::removeTranslator(&german);
        QCoreApplication::installTranslator(&german);
        if (command.menu.startsWith("Datei") || command.menu.startsWith("Bearbeiten") ||
            command.menu.startsWith("Ansicht") || command.menu.startsWith("Hilfe"))
          ++german_words;
      }
      QVERIFY(german_words > all / 3);
      QCOMPARE(QCoreApplication::translate("x", "%n values", nullptr, 1), QString("1 Wert"));
      QCOMPARE(QCoreApplication::translate("x", "%n values", nullptr, 3), QString("3 Werten"));
    }
    QCoreApplication::removeTranslator(&german);
  }

  // Property: everything that takes the keys has a name to be read out, in the window and in each of
  // its pages.
  void everythingHasAName() {
    auto window = windowWith("ferry_terminal/design.json");
    for (const char* command : {"lists.objects", "lists.findings", "lists.alternatives", "lists.services",
                                "lists.catalogue"})
      window->command(command)->trigger();
    const design::Housing& housing = window->workspace().design().housings.front();
    window->workspace().select({{edit::ObjectKind::housing, housing.id.text, 1}});
    window->command("help.shortcuts")->trigger();
    QTest::qWait(20);
    const QStringList nameless = namelessOf(*window);
    QVERIFY2(nameless.isEmpty(), qPrintable(nameless.join("\n")));
  }

  // Property: Tab goes from the sheet all around and comes back: no part keeps the keys.
  void tabGoesAround() {
    auto window = windowWith("shop/design.json");
    window->command("lists.findings")->trigger();
    window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(window.get()));
    window->sheet().setFocus();
    std::set<QWidget*> seen;
    for (int i = 0; i < 400; ++i) {
      QWidget* at = QApplication::focusWidget();
      QVERIFY(at);
      if (!seen.insert(at).second) break;
      QTest::keyClick(at, Qt::Key_Tab);
    }
    QVERIFY2(QApplication::focusWidget() == &window->sheet(),
             qPrintable(QApplication::focusWidget()->objectName()));
    QVERIFY(seen.size() > 8);
  }

  // Published: WCAG 2.1, 1.4.3: contrast of text at least 4.5 to 1.
  void textCanBeReadInBothThemes() {
    for (const drawing::Inks& inks : {drawing::Inks::light(), drawing::Inks::dark()}) {
      const QPalette palette = paletteOf(inks);
      const struct {
        QPalette::ColorRole text, ground;
      } pairs[] = {{QPalette::WindowText, QPalette::Window},
                   {QPalette::Text, QPalette::Base},
                   {QPalette::Text, QPalette::AlternateBase},
                   {QPalette::ButtonText, QPalette::Button},
                   {QPalette::Dark, QPalette::Window},
                   {QPalette::PlaceholderText, QPalette::Base},
                   {QPalette::Link, QPalette::Base},
                   {QPalette::HighlightedText, QPalette::Highlight},
                   {QPalette::ToolTipText, QPalette::ToolTipBase}};
      for (const auto& [text, ground] : pairs)
        QVERIFY2(contrast(palette.color(text), palette.color(ground)) >= 4.5,
                 qPrintable(QString("%1 on %2: %3")
                                .arg(palette.color(text).name(), palette.color(ground).name())
                                .arg(contrast(palette.color(text), palette.color(ground)))));
    }
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::HabitsTest)
#include "habits_test.moc"
