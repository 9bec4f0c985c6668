// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/tool_line.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>

#include <algorithm>

#include "base/problem.h"
#include "desk/colours.h"

namespace belvedere::desk {
namespace {

constexpr int kTypedPx = 150, kFieldPx = 76, kWordsFieldPx = 150;

bool begins(const QString& text) {
  if (text.size() != 1) return false;
  const QChar c = text.front();
  return c.isDigit() || c == '@' || c == '-' || c == '(';
}

}  // namespace

ToolLine::ToolLine(SheetView& sheet) : QFrame(&sheet), sheet_(sheet) {
  setObjectName("tool_line");
  setAutoFillBackground(true);
  setCursor(Qt::ArrowCursor);
  row_ = new QHBoxLayout(this);
  row_->setContentsMargins(14, 4, 14, 4);
  row_->setSpacing(8);
  asks_ = new QLabel;
  typed_ = new QLineEdit;
  typed_->setObjectName("typed_line");
  typed_->setAccessibleName(tr("Typed length or place"));
  typed_->setFixedWidth(kTypedPx);
  error_ = new QLabel;
  error_->setObjectName("tool_error");
  error_->setForegroundRole(QPalette::Link);
  error_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  row_->addWidget(asks_);
  row_->addWidget(typed_);
  row_->addWidget(error_, 1);
  asks_->hide();
  typed_->hide();
  connect(typed_, &QLineEdit::textEdited, this, [this] { showError({}); });
  sheet.installEventFilter(this);
  typed_->installEventFilter(this);
  connect(&sheet, &SheetView::toolChanged, this, &ToolLine::take);
  connect(&sheet, &SheetView::footChanged, this, &ToolLine::lay);
  take();
}

DrawTool* ToolLine::drawTool() const { return dynamic_cast<DrawTool*>(&sheet_.tool()); }

void ToolLine::take() {
  DrawTool* const tool = drawTool();
  const int serial = tool ? tool->serial() : 0, stage = tool ? tool->stage() : 0;
  if (serial != serial_) {
    asks_->hide();
    typed_->hide();
  }
  if (serial != serial_ || stage != stage_) {
    serial_ = serial;
    stage_ = stage;
    for (QWidget* edit : edits_) {  // on their way out; their tool may be gone already
      edit->blockSignals(true);
      edit->setObjectName({});
    }
    if (fields_box_) {
      if (fields_box_->isAncestorOf(sheet_.window()->focusWidget())) sheet_.setFocus();
      row_->removeWidget(fields_box_);
      fields_box_->hide();
      fields_box_->deleteLater();  // one of its own may be what brought us here
      fields_box_ = nullptr;
    }
    fields_.clear();
    edits_.clear();
    if (tool) fill(*tool);
  }
  showError(tool ? tool->wrong() : QString());
  if (tool && tool->asksNow() && typed_->isHidden()) begin({});
}

void ToolLine::fill(DrawTool& tool) {
  fields_ = tool.fields();
  if (fields_.empty()) return;
  fields_box_ = new QWidget;
  auto* row = new QHBoxLayout(fields_box_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(6);
  for (std::size_t i = 0; i < fields_.size(); ++i) {
    const ToolField& field = fields_[i];
    auto* label = new QLabel(field.label);
    row->addWidget(label);
    QWidget* edit = nullptr;
    if (!field.choices.empty()) {
      auto* box = new QComboBox;
      for (const auto& [value, says] : field.choices) box->addItem(says, value);
      box->setCurrentIndex(std::max(0, box->findData(field.read())));
      connect(box, &QComboBox::activated, this, [this, i] { write(i); });
      edit = box;
    } else {
      const QString text = field.read();
      auto* line = new QLineEdit(text);
      line->setFixedWidth(field.object.endsWith("title") ? kWordsFieldPx : kFieldPx);
      connect(line, &QLineEdit::editingFinished, this, [this, i] { write(i); });
      edit = line;
    }
    edit->setObjectName("tool." + field.object);
    edit->setAccessibleName(field.label);
    edit->installEventFilter(this);
    label->setBuddy(edit);
    row->addWidget(edit);
    row->addSpacing(8);
    edits_.push_back(edit);
  }
  if (!tool.acceptWords().isEmpty()) {
    auto* button = new QPushButton(tool.acceptWords());
    button->setFlat(true);
    button->setObjectName("tool.accept");
    connect(button, &QPushButton::clicked, this, &ToolLine::enter);
    row->addWidget(button);
  }
  row_->insertWidget(0, fields_box_);
  fields_box_->show();
  if (!tool.acceptWords().isEmpty()) {
    show();
    edits_.front()->setFocus();
    if (auto* line = qobject_cast<QLineEdit*>(edits_.front())) line->selectAll();
  }
}

void ToolLine::write(std::size_t index) {
  if (index >= fields_.size()) return;
  const ToolField field = fields_[index];
  try {
    if (auto* box = qobject_cast<QComboBox*>(edits_[index])) {
      field.write(box->currentData().toString());
    } else if (auto* line = qobject_cast<QLineEdit*>(edits_[index])) {
      if (line->text() != field.read()) field.write(line->text());
      line->setText(field.read());
    }
    field_error_ = false;
    showError(drawTool() ? drawTool()->wrong() : QString());
  } catch (const InputError& error) {
    field_error_ = true;
    showError(sentenceOf(error));
  }
  sheet_.refreshLive();
}

void ToolLine::enter() {
  for (std::size_t i = 0; i < edits_.size(); ++i) {
    write(i);
    if (field_error_) return;
  }
  DrawTool* const tool = drawTool();
  if (tool && !tool->acceptWords().isEmpty()) {
    if (tool->accept()) sheet_.setFocus();
    take();
  } else {
    sheet_.setFocus();
  }
}

void ToolLine::begin(const QString& text) {
  asks_->setText(sheet_.tool().asks());
  asks_->show();
  typed_->show();
  typed_->setText(text);
  showError({});
  typed_->setFocus();
  typed_->setCursorPosition(static_cast<int>(text.size()));
}

void ToolLine::giveTyped() {
  const QString text = typed_->text().trimmed();
  if (text.isEmpty()) return;
  try {
    if (!sheet_.tool().typed(text)) refuse(tr("nothing is asked for just now"));
  } catch (const InputError& error) {
    showError(sentenceOf(error));
    return;
  }
  asks_->hide();
  typed_->hide();
  sheet_.setFocus();
  take();
  if (DrawTool* tool = drawTool(); tool && !tool->acceptWords().isEmpty())
    edits_.front()->setFocus();
}

void ToolLine::showError(const QString& sentence) {
  error_->setText(sentence);
  error_->setToolTip(sentence);
  lay();
}

void ToolLine::lay() {
  setVisible(fields_box_ || !typed_->isHidden() || !error_->text().isEmpty());
  // Over all that stands at the foot of the sheet.
  const int foot = sheet_.furniture().isShown() ? sheet_.furniture().area().height() : 0;
  const int height = std::max(sizeHint().height(), foot);
  setGeometry(0, sheet_.height() - height, sheet_.width(), height);
}

// What a field has no use for is not the sheet's either.
void ToolLine::keyPressEvent(QKeyEvent* event) { event->accept(); }

bool ToolLine::eventFilter(QObject* object, QEvent* event) {
  if (object == &sheet_) {
    if (event->type() == QEvent::Resize) lay();
    if (event->type() == QEvent::PaletteChange) lay();
    const bool key = event->type() == QEvent::KeyPress;
    if (key || event->type() == QEvent::ShortcutOverride) {
      auto* press = static_cast<QKeyEvent*>(event);
      const bool plain = !(press->modifiers() & (Qt::ControlModifier | Qt::AltModifier));
      if (plain && begins(press->text()) && !sheet_.tool().asks().isEmpty()) {
        if (key) {
          begin(press->text());
        } else {
          event->accept();
        }
        return true;
      }
      // C closes what is drawn, before it is anybody's shortcut.
      auto* points = dynamic_cast<PointsTool*>(&sheet_.tool());
      if (!key && plain && press->key() == Qt::Key_C && points && points->points().size() >= 3) {
        event->accept();
        return true;
      }
    }
    return false;
  }
  if (event->type() == QEvent::KeyPress) {
    auto* press = static_cast<QKeyEvent*>(event);
    if (press->key() == Qt::Key_Escape) {
      if (object == typed_) {
        asks_->hide();
        typed_->hide();
        take();
      } else if (DrawTool* tool = drawTool(); tool && !tool->acceptWords().isEmpty()) {
        tool->cancel();
        take();
      }
      sheet_.setFocus();
      return true;
    }
    if (press->key() == Qt::Key_Return || press->key() == Qt::Key_Enter) {
      object == typed_ ? giveTyped() : enter();
      return true;
    }
  }
  return false;
}

}  // namespace belvedere::desk
