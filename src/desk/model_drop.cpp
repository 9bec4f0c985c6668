// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/model_drop.h"

#include <QDragMoveEvent>
#include <QDropEvent>
#include <QMimeData>

#include <memory>

#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "desk/site_tools.h"

namespace belvedere::desk {

ModelDrop::ModelDrop(SheetView& sheet) : QObject(&sheet), sheet_(sheet) {
  sheet_.setAcceptDrops(true);
  sheet_.installEventFilter(this);
}

bool ModelDrop::eventFilter(QObject*, QEvent* event) {
  const bool drops = event->type() == QEvent::DragEnter || event->type() == QEvent::DragMove ||
                     event->type() == QEvent::Drop;
  auto* tool = dynamic_cast<HousingTool*>(&sheet_.tool());
  if (event->type() == QEvent::DragLeave && tool) {
    sheet_.setTool(nullptr);
    return false;
  }
  if (!drops) return false;
  auto* drag = static_cast<QDropEvent*>(event);
  if (!drag->mimeData()->hasFormat(kModelMime)) return false;
  const std::string model = drag->mimeData()->data(kModelMime).toStdString();
  if (!tool || drawValues().model != model) {
    drawValues().model = model;
    sheet_.setTool(std::make_unique<HousingTool>(sheet_));
    tool = dynamic_cast<HousingTool*>(&sheet_.tool());
  }
  const Vec2 at_px{drag->position().x(), drag->position().y()};
  const Pointer pointer{sheet_.siteAt(at_px), at_px, Qt::LeftButton, drag->modifiers()};
  if (event->type() == QEvent::Drop) {
    tool->press(pointer);
    sheet_.setTool(nullptr);
    sheet_.setFocus();
  } else {
    tool->move(pointer);
  }
  drag->setDropAction(Qt::CopyAction);
  drag->accept();
  return true;
}

}  // namespace belvedere::desk
