// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/notice_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include <algorithm>

namespace belvedere::desk {

NoticeBar::NoticeBar(QWidget* parent) : QWidget(parent) {
  setObjectName("notice");
  row_ = new QHBoxLayout(this);
  row_->setContentsMargins(18, 4, 14, 4);
  row_->setSpacing(6);
  sentence_ = new QLabel;
  sentence_->setObjectName("notice.sentence");
  sentence_->setWordWrap(true);
  sentence_->setTextFormat(Qt::PlainText);
  row_->addWidget(sentence_, 1);
  setAccessibleName(tr("Question"));
  hide();
}

void NoticeBar::ask(Notice notice) {
  const auto same = std::find_if(waiting_.begin(), waiting_.end(),
                                 [&](const Notice& n) { return n.about == notice.about; });
  if (same != waiting_.end()) {
    *same = std::move(notice);
  } else {
    waiting_.push_back(std::move(notice));
  }
  showFirst();
}

void NoticeBar::withdraw(const QString& about) {
  std::erase_if(waiting_, [&](const Notice& n) { return n.about == about; });
  showFirst();
}

QString NoticeBar::sentence() const {
  return waiting_.empty() ? QString() : waiting_.front().sentence;
}

void NoticeBar::showFirst() {
  for (QWidget* button : buttons_) {
    button->hide();
    button->setObjectName({});
    button->deleteLater();
  }
  buttons_.clear();
  setVisible(!waiting_.empty());
  if (waiting_.empty()) return;
  const Notice& notice = waiting_.front();
  sentence_->setText(notice.sentence);
  setAccessibleDescription(notice.sentence);
  for (const Notice::Answer& answer : notice.answers) {
    auto* button = new QPushButton(answer.words);
    button->setObjectName(answer.name);
    button->setAccessibleDescription(notice.sentence);
    // The notice goes first: its answer may ask the next thing.
    connect(button, &QPushButton::clicked, this, [this, take = answer.take] {
      waiting_.pop_front();
      showFirst();
      take();
    });
    row_->addWidget(button);
    buttons_.push_back(button);
  }
}

}  // namespace belvedere::desk
