// SPDX-License-Identifier: GPL-3.0-or-later
//
// The line at the foot of the sheet: the fields of the tool in hand, what is typed on the sheet
// while a tool asks for something, and what is wrong, in accent. A digit, '@', '-' or a bracket on
// the sheet begins the typed line; Enter gives it to the tool, Escape puts it away. Nowhere to be
// seen when a tool has no fields and nothing is typed.
#pragma once

#include <QFrame>

#include <vector>

#include "desk/draw_tool.h"
#include "desk/sheet_view.h"

class QHBoxLayout;
class QLabel;
class QLineEdit;

namespace belvedere::desk {

class ToolLine : public QFrame {
  Q_OBJECT

 public:
  explicit ToolLine(SheetView& sheet);
  // Begins the typed line with a text.
  void begin(const QString& text);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  void take();
  void fill(DrawTool& tool);
  void write(std::size_t field);
  void giveTyped();
  void enter();
  void showError(const QString& sentence);
  void lay();
  DrawTool* drawTool() const;

  SheetView& sheet_;
  QHBoxLayout* row_ = nullptr;
  QWidget* fields_box_ = nullptr;
  QLabel *asks_ = nullptr, *error_ = nullptr;
  QLineEdit* typed_ = nullptr;
  int serial_ = 0, stage_ = -1;  // of the fields shown
  std::vector<ToolField> fields_;
  std::vector<QWidget*> edits_;
  bool field_error_ = false;
};

}  // namespace belvedere::desk
