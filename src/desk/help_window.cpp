// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/help_window.h"

#include <QDir>
#include <QFile>
#include <QHBoxLayout>
#include <QListWidget>
#include <QScrollBar>
#include <QTextBlock>
#include <QTextBrowser>
#include <QTextDocument>
#include <QVBoxLayout>

#include "desk/resources.h"

namespace belvedere::desk {
namespace {

constexpr int kDeepest = 2;      // headings that are listed
constexpr double kLineHeight = 140, kMarginPx = 24;

QString pageTitle(const QString& page) {
  QFile file(":/docs/" + page);
  if (!file.open(QIODevice::ReadOnly)) return page;
  QString first = QString::fromUtf8(file.readLine()).trimmed();
  while (first.startsWith('#')) first.remove(0, 1);
  return first.section(':', 0, 0).trimmed();
}

}  // namespace

HelpWindow::HelpWindow(QWidget* parent) : QDialog(parent) {
  setObjectName("help");
  setWindowTitle(tr("Help"));
  resize(980, 680);
  loadResources();
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(14, 14, 14, 14);
  auto* left = new QVBoxLayout;
  pages_ = new QListWidget;
  pages_->setObjectName("help.pages");
  pages_->setAccessibleName(tr("Pages"));
  headings_ = new QListWidget;
  headings_->setObjectName("help.headings");
  headings_->setAccessibleName(tr("Headings of the page"));
  for (QListWidget* list : {pages_, headings_}) {
    list->setFrameShape(QFrame::NoFrame);
    list->setMaximumWidth(250);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list->setTextElideMode(Qt::ElideRight);
  }
  QStringList pages = QDir(":/docs").entryList({"*.md"}, QDir::Files, QDir::Name);
  for (const QString& page : pages) {
    auto* item = new QListWidgetItem(pageTitle(page), pages_);
    item->setData(Qt::UserRole, page);
  }
  pages_->setMaximumHeight(pages_->sizeHintForRow(0) * std::max(1, pages_->count()) + 12);
  left->addWidget(pages_);
  left->addWidget(headings_, 1);
  row->addLayout(left);
  text_ = new QTextBrowser;
  text_->setObjectName("help.text");
  text_->setAccessibleName(tr("Text of the page"));
  text_->setFrameShape(QFrame::NoFrame);
  text_->document()->setDocumentMargin(kMarginPx);
  text_->setOpenLinks(false);
  row->addWidget(text_, 1);
  connect(pages_, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
    if (item) openPage(item->data(Qt::UserRole).toString());
  });
  connect(headings_, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
    if (item) goTo(item->text());
  });
  openPage("handbook.md");
}

void HelpWindow::openPage(const QString& page) {
  if (page == page_) return;
  QFile file(":/docs/" + page);
  if (!file.open(QIODevice::ReadOnly)) return;
  page_ = page;
  text_->setMarkdown(QString::fromUtf8(file.readAll()));
  headings_->clear();
  for (QTextBlock block = text_->document()->begin(); block.isValid(); block = block.next()) {
    QTextBlockFormat format = block.blockFormat();
    if (block.textList() == nullptr && format.headingLevel() == 0)
      format.setLineHeight(kLineHeight, QTextBlockFormat::ProportionalHeight);
    QTextCursor(block).setBlockFormat(format);
    if (format.headingLevel() > 0 && format.headingLevel() <= kDeepest)
      headings_->addItem(block.text());
  }
  for (int i = 0; i < pages_->count(); ++i)
    if (pages_->item(i)->data(Qt::UserRole).toString() == page) pages_->setCurrentRow(i);
  heading_ = headings_->count() > 0 ? headings_->item(0)->text() : QString();
}

void HelpWindow::goTo(const QString& heading) {
  for (QTextBlock block = text_->document()->begin(); block.isValid(); block = block.next()) {
    if (block.blockFormat().headingLevel() == 0 || block.text() != heading) continue;
    heading_ = heading;
    text_->setTextCursor(QTextCursor(block));
    const int at = text_->cursorRect().top() + text_->verticalScrollBar()->value();
    text_->verticalScrollBar()->setValue(at - int(kMarginPx) / 2);
    return;
  }
}

void HelpWindow::showTopic(const QString& topic) {
  show();
  raise();
  activateWindow();
  const bool named = topic.contains(".md");
  openPage(named ? topic.section('#', 0, 0) : QString("handbook.md"));
  const QString wanted = named ? topic.section('#', 1) : topic + ".";
  for (int i = 0; i < headings_->count() && wanted.size() > 1; ++i)
    if (headings_->item(i)->text().startsWith(wanted)) {
      headings_->setCurrentRow(i);
      goTo(headings_->item(i)->text());
      text_->setFocus();
      return;
    }
  text_->setFocus();
}

QString HelpWindow::heading() const { return heading_; }

QString HelpWindow::topicOf(const QWidget* widget) {
  for (; widget; widget = widget->parentWidget()) {
    const QString topic = widget->property("help").toString();
    if (!topic.isEmpty()) return topic;
  }
  return "1";
}

}  // namespace belvedere::desk
