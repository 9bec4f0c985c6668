// SPDX-License-Identifier: GPL-3.0-or-later
//
// The folded section: the vertical plane along the selected imager's axis, turned down onto the
// plan beside that axis at the sheet's scale. Its floor line lies on the axis; heights go off to
// the emptier side (or the other, by flip). The lens is dragged up and down, the upper and lower
// rays tilt until they go through the hand, and so does the axis.
#pragma once

#include <memory>
#include <optional>

#include "desk/live_section.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {

class SectionOverlay : public QObject, public Overlay {
  Q_OBJECT

 public:
  explicit SectionOverlay(SheetView& view);  // a child of the sheet
  bool isShown() const { return shown_; }
  void setShown(bool shown);
  void flip();
  // Where a point of the section (along, z) lies on the plan, and back; nothing where none is
  // shown.
  std::optional<Vec2> siteOf(Vec2 along_z) const;
  const LiveSection* section() const { return shown_ && live_ ? &*live_ : nullptr; }
  // What of it is drawn: along the axis, and site z.
  Box2 drawn() const;
  // All that it lies on, its words included, in the sheet's pixels; empty when none is shown.
  Ring coveredPx() const;

  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;
  std::vector<Ring> covers(const drawing::ToPaper& to_paper) const override;
  bool press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  std::optional<Qt::CursorShape> cursorAt(const Pointer& pointer) override;

 Q_SIGNALS:
  void changed();

 private:
  enum class Part { paper, lens, upper, lower, axis };
  // How it lies on the plan.
  struct Lie {
    Vec2 foot, heading, side;
    double floor_m = 0;
    Vec2 site(Vec2 p) const { return foot + heading * p.x + side * (p.y - floor_m); }
    Vec2 section(Vec2 site_m) const {
      return {dot(heading, site_m - foot), floor_m + dot(side, site_m - foot)};
    }
  };
  // The words over it, in lines along the axis, and how long they are with their margins.
  struct Caption {
    struct Words {
      std::string words;
      drawing::Rgb ink;
      double from_mm = 0, width_mm = 0;  // in its line
    };
    std::vector<std::vector<Words>> lines;
    double length_mm = 0;
  };
  Caption caption(const drawing::Canvas& canvas, const drawing::Inks& inks, double mm_per_m) const;
  Ring sheetOf(const Caption& caption, const Box2& box, double mm_per_m) const;
  void take();
  void chooseSide();
  std::optional<Lie> lie() const;
  Box2 drawnIn(const edit::Section& section) const;
  std::optional<Part> partAt(const Pointer& pointer) const;
  void drag(const Pointer& pointer);

  SheetView& view_;
  bool shown_ = true;
  std::optional<LiveSection> live_;
  quint64 taken_look_ = 0;
  std::string side_for_;           // imager whose side was chosen
  double side_ = 1;                // 1: left of the axis
  // While the hand is down.
  std::optional<Part> part_;
  std::shared_ptr<const design::Design> before_;
  std::optional<LiveSection> was_;
  Lie lie_then_;
  Pointer from_, now_;
  bool moved_ = false;
  QString says_;
};

}  // namespace belvedere::desk
