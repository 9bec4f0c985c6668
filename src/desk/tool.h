// SPDX-License-Identifier: GPL-3.0-or-later
//
// A tool: what the pointer and keys do on the sheet. One at a time; it gets places on the site,
// edits through the workspace and paints what is under way on top of the sheet.
#pragma once

#include <QCursor>
#include <QString>

#include <optional>

#include "drawing/sheet_parts.h"
#include "geometry/vec.h"

class QKeyEvent;

namespace belvedere::desk {

class SheetView;

struct Pointer {
  Vec2 at_m;                            // site, as it is
  Vec2 at_px;                           // widget, logical pixels
  Qt::MouseButton button = Qt::NoButton;
  Qt::KeyboardModifiers keys;
  bool doubled = false;                 // a double click
};

class Tool {
 public:
  explicit Tool(SheetView& view) : view_(view) {}
  virtual ~Tool() = default;
  virtual QString name() const = 0;
  // One sentence for the line under the sheet: what to do next.
  virtual QString hint() const = 0;
  virtual void press(const Pointer&) {}
  virtual void move(const Pointer&) {}
  virtual void release(const Pointer&) {}
  virtual void leave() {}
  // Says whether the key was its.
  virtual bool key(const QKeyEvent&) { return false; }
  // Typed on the sheet while it works: a length, a place, an angle. Says whether it was taken.
  virtual bool typed(const QString&) { return false; }
  // What a typed text would be taken for, "length"; empty: nothing is asked for.
  virtual QString asks() const { return {}; }
  // Gives up what is under way; false when nothing was.
  virtual bool cancel() { return false; }
  virtual void paint(drawing::Canvas&, const drawing::ToPaper&, const drawing::Inks&) {}
  virtual Qt::CursorShape cursor() const { return Qt::ArrowCursor; }

 protected:
  SheetView& view() const { return view_; }

 private:
  SheetView& view_;
};

}  // namespace belvedere::desk
