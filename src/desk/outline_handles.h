// SPDX-License-Identifier: GPL-3.0-or-later
//
// The served outline of the selected imager, as the thing one drags: its body pans and tilts, its
// near and far edges tilt, its sides zoom, or pan with Shift. Its limits are seen on its dial:
// ticks at the stops of its pan, a thin arc for what its neighbours on the ring leave free.
#pragma once

#include <memory>
#include <optional>

#include "desk/sheet_view.h"
#include "edit/outline_grips.h"

namespace belvedere::desk {

// The selected imager; nothing where a housing, or nothing, is selected.
std::optional<edit::ImagerRef> selectedRef(const Workspace& workspace);

class OutlineHandles : public Overlay {
 public:
  explicit OutlineHandles(SheetView& view);  // as long as the sheet is there
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;
  bool press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  std::optional<Qt::CursorShape> cursorAt(const Pointer& pointer) override;

 private:
  struct Hold {
    edit::ImagerRef imager;
    edit::OutlinePlane plane;
    edit::OutlineGrip grip;
  };
  std::optional<Hold> holdAt(const Pointer& pointer) const;
  edit::OutlinePlane planeOf(const design::RequirementId& requirement) const;
  void paintStops(drawing::Canvas& canvas, const edit::ImagerRef& imager,
                  const drawing::Inks& inks) const;

  SheetView& view_;
  std::optional<Hold> hold_;                     // while the hand is down
  std::shared_ptr<const design::Design> before_; // as it was then
  Pointer from_, now_;
  bool moved_ = false;
  QString says_;                                 // beside the hand
};

}  // namespace belvedere::desk
