// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window's parts that stand on their own: each is made here in a line, knows the workspace and
// the sheet, and adds its commands. Order is the order in the menus.
#include "desk/aim_parts.h"
#include "desk/draw_parts.h"
#include "desk/export_dialog.h"
#include "desk/habit_parts.h"
#include "desk/hover_tag.h"
#include "desk/list_parts.h"
#include "desk/main_window.h"
#include "desk/safety_parts.h"

namespace belvedere::desk {

void MainWindow::makeParts() {
  new HoverTag(*sheet_, workspace_, evaluator_);
  makeAimParts(*this);
  makeDrawParts(*this);
  makeSafetyParts(*this);
  makeListParts(*this);
  makeExportParts(*this);
  makeHabitParts(*this);
}

}  // namespace belvedere::desk
