// SPDX-License-Identifier: GPL-3.0-or-later
//
// A model dragged from the catalogue onto the plan: while it hovers, the tool that puts up housings shows
// where it would be fixed; let go, it is put up there.
#pragma once

#include <QObject>

class QDropEvent;

namespace belvedere::desk {

class SheetView;

inline constexpr char kModelMime[] = "application/x-belvedere-model";  // its id, UTF-8

class ModelDrop : public QObject {
  Q_OBJECT

 public:
  explicit ModelDrop(SheetView& sheet);  // a child of the sheet

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  SheetView& sheet_;
};

}  // namespace belvedere::desk
