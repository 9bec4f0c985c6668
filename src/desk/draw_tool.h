// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tools that draw, and what they share: places that snap, typed lengths and places, fields of their
// own in the line at the foot of the sheet (tool_line.h), errors while one draws.
#pragma once

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "desk/tool.h"
#include "desk/workspace.h"
#include "edit/snap.h"

namespace belvedere::desk {

QString words(const std::string& text);
QString sentenceOf(const InputError& error);
// Throws InputError with a sentence of the window's own.
[[noreturn]] void refuse(const QString& sentence);

// The tool has done what it is for; it goes once its own event is over.
void putDown(SheetView& view, int serial);

// One thing that a tool asks beside places; its value outlives the tool.
struct ToolField {
  QString object, label;
  std::function<QString()> read;
  std::function<void(const QString&)> write;             // throws InputError
  std::vector<std::pair<QString, QString>> choices = {};  // value and words; empty: typed
};

class DrawTool : public Tool {
 public:
  explicit DrawTool(SheetView& view);
  // Two tools of one class are told apart by it.
  int serial() const { return serial_; }
  virtual std::vector<ToolField> fields() { return {}; }
  // Changes whenever fields() does.
  virtual int stage() const { return 0; }
  // Enter in a field; true: it did something with it, and the sheet has the keys again.
  virtual bool accept() { return false; }
  // Words of a button that accepts; empty: none. With one, the first field takes the keys.
  virtual QString acceptWords() const { return {}; }
  // Whether the typed line opens of itself.
  virtual bool asksNow() const { return false; }
  // What is wrong with what is under way; empty: nothing.
  const QString& wrong() const { return wrong_; }
  Qt::CursorShape cursor() const override { return Qt::CrossCursor; }

 protected:
  // Says that hint, fields or error are new, and paints.
  void changed();
  // Runs an edit; an InputError becomes `wrong` and false.
  bool attempt(const std::function<void()>& edit);
  void setWrong(const QString& sentence) { wrong_ = sentence; }
  // Live words in accent, on a bit of paper so that they read over everything.
  static void paintWords(drawing::Canvas& canvas, Vec2 at, const std::string& text,
                         const drawing::Inks& inks);
  // Marker and word of a snap, at a place.
  void paintSnap(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks, const edit::Snap& snap) const;

 private:
  int serial_ = 0;
  QString wrong_;
};

// Collects places: a line, or an outline that closes of itself. Enter or a double click ends it,
// a click on the first place closes it, Backspace takes the last place back. An outline's first
// place can be dragged to the opposite corner of a rectangle, or its size typed: 8 x 6.
class PointsTool : public DrawTool {
 public:
  using DrawTool::DrawTool;
  QString hint() const override;
  QString asks() const override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  bool key(const QKeyEvent& event) override;
  bool typed(const QString& text) override;
  bool cancel() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

  const std::vector<Vec2>& points() const { return points_; }

 protected:
  enum class Gives { line, line_or_ring, outline };
  virtual Gives gives() const = 0;
  virtual std::size_t least() const { return gives() == Gives::outline ? 3 : 2; }
  virtual QString firstHint() const = 0;
  // What comes of the places; throws InputError. Of a ring the first place is repeated.
  virtual void finish(const std::vector<Vec2>& points) = 0;
  // The same without applying it, while one draws: throws where finish would.
  virtual void rehearse(const std::vector<Vec2>&) {}
  // Ends at this many places; 0: only when told.
  virtual std::size_t most() const { return 0; }
  // More to paint beside the line.
  virtual void paintMore(drawing::Canvas&, const drawing::ToPaper&, const drawing::Inks&) {}
  // The places and the pointer's.
  std::vector<Vec2> withPointer() const;
  void clear();
  bool end(bool ring);

  std::vector<Vec2> points_;
  std::optional<edit::Snap> here_;  // the pointer's place

 private:
  void add(Vec2 at);
  void look();
  edit::Snap placeOf(const Pointer& pointer) const;
  bool closes(Vec2 px) const;

  std::optional<Vec2> pressed_px_;  // of the first place, while the button is down
  bool rectangle_ = false;
};

}  // namespace belvedere::desk
