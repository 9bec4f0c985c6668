// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help on what has the keys: the handbook, the page of findings and the guide, compiled in, opened
// at the heading that owns the matter. A widget says its topic in the property "help": a heading of
// the handbook by its number ("5"), or a page and heading ("findings.md#share_short").
#pragma once

#include <QDialog>

class QListWidget;
class QTextBrowser;

namespace belvedere::desk {

class HelpWindow : public QDialog {
  Q_OBJECT

 public:
  explicit HelpWindow(QWidget* parent);
  void showTopic(const QString& topic);
  QString heading() const;             // at which it is open
  // Of a widget or the nearest one around it that has one.
  static QString topicOf(const QWidget* widget);

 private:
  void openPage(const QString& page);
  void goTo(const QString& heading);

  QString page_, heading_;
  QListWidget *pages_ = nullptr, *headings_ = nullptr;
  QTextBrowser* text_ = nullptr;
};

}  // namespace belvedere::desk
