// SPDX-License-Identifier: GPL-3.0-or-later
//
// A question that can wait: a line under the stage bar with a sentence and its answers as words.
// It stays until it is answered, takes no focus and stops nobody's work; others queue behind it.
#pragma once

#include <QWidget>

#include <deque>
#include <functional>
#include <vector>

class QHBoxLayout;
class QLabel;

namespace belvedere::desk {

struct Notice {
  struct Answer {
    QString name;    // object name of its button, "notice.recover"
    QString words;
    std::function<void()> take;
  };
  QString about;     // of two notices about the same the newer one stands
  QString sentence;
  std::vector<Answer> answers;
};

class NoticeBar : public QWidget {
  Q_OBJECT

 public:
  explicit NoticeBar(QWidget* parent = nullptr);
  void ask(Notice notice);
  void withdraw(const QString& about);
  // Of the question that is asked now; empty: none.
  QString sentence() const;

 private:
  void showFirst();

  std::deque<Notice> waiting_;
  QLabel* sentence_ = nullptr;
  QHBoxLayout* row_ = nullptr;
  std::vector<QWidget*> buttons_;
};

}  // namespace belvedere::desk
