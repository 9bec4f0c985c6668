// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pointer: picks, selects by box, pulls handles, moves what is selected, turns imagers by the
// knobs of their dial. A handle under it (or stepped to by keys) can be typed: an edge's length, a
// point's place; with none, a movement @2;1 of what is selected. Pulling an edge puts a point there.
#pragma once

#include "desk/tool.h"
#include "edit/aim.h"
#include "edit/handles.h"
#include "edit/object.h"

namespace belvedere::desk {

class PointerTool : public Tool {
 public:
  using Tool::Tool;
  QString name() const override;
  QString hint() const override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  void leave() override;
  bool key(const QKeyEvent& event) override;
  QString asks() const override;
  bool typed(const QString& text) override;
  bool cancel() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

  // Takes away the point under the pointer; false when there is none.
  bool eraseVertex();
  // To the next handle of the selected object, or back.
  void stepHandle(int step);
  const std::optional<edit::Handle>& handleAtHand() const { return at_hand_; }

 private:
  enum class Doing { nothing, box, move, handle, knob };
  std::optional<edit::ImagerRef> knobAt(Vec2 px) const;
  std::optional<edit::ObjectRef> dialAt(Vec2 px) const;
  void drag(const Pointer& pointer);
  void dropHidden(std::vector<edit::ObjectRef>& refs) const;
  void beginBox(const Pointer& pointer);

  Doing doing_ = Doing::nothing;
  bool moved_ = false;                    // more than a click
  Pointer from_;
  std::optional<edit::ObjectRef> clicked_;  // what a click selects that a drag does not move
  Vec2 box_to_m_;
  edit::Selection box_from_;           // what a box adds to
  edit::ImagerRef knob_;
  edit::Handle handle_;
  std::optional<edit::Handle> at_hand_;   // under the pointer, or stepped to
  bool stepped_ = false;                  // by keys: the pointer must move to take over
  std::vector<edit::Handle> handles() const;  // of the one selected object
  std::shared_ptr<const design::Design> before_;  // as it was when the hand went down
  QString snap_says_;
  Vec2 snap_at_m_;
};

}  // namespace belvedere::desk
