// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ways of the cables on the plan: thin, as far as they run on the shown storey; those of the
// marked row in accent, with their length. Imagers that a failure cuts off are crossed out.
//
// The way that was found for the selected cable can be pulled like a line: by that it becomes the
// cable's own, which the pointer then bends as it bends containment.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/services_maker.h"
#include "desk/sheet_view.h"
#include "edit/handles.h"

namespace belvedere::desk {

class RoutesOverlay : public Overlay {
 public:
  explicit RoutesOverlay(SheetView& sheet);
  void setShown(bool shown);
  void take(std::shared_ptr<const ServicesAnswer> answer);
  //   ids   of links and devices
  //   dark  imagers ("C1.2")
  void mark(std::vector<std::string> ids, std::vector<std::string> dark = {});
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;
  bool press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  std::optional<Qt::CursorShape> cursorAt(const Pointer& pointer) override;
  // The design with the way that was found for the selected cable as the cable's own, to be bent by
  // hand; nothing where none is selected, it has one, or none has been found yet.
  const std::optional<design::Design>& withFoundWay() const;

 private:
  // A point of the found way that the hand takes.
  struct Hold {
    edit::ObjectRef ref;
    edit::Handle handle;
  };
  std::optional<Hold> holdAt(const Pointer& pointer) const;
  void paintFound(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                  const drawing::Inks& inks) const;
  void paintDark(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks, const design::Storey& storey) const;

  SheetView& sheet_;
  bool shown_ = false;
  std::shared_ptr<const ServicesAnswer> answer_;
  std::vector<std::string> marked_, dark_;
  // What withFoundWay gave last, and of what: it is asked for whenever the pointer moves.
  struct Found {
    std::string link;
    quint64 version = 0, answered = 0;
    std::optional<design::Design> with;
  };
  mutable Found found_;
  std::optional<Hold> hold_;
  design::Design before_;  // as it was when the hand went down, with the found way
  Pointer from_;
  bool moved_ = false;
};

}  // namespace belvedere::desk
