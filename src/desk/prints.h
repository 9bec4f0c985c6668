// SPDX-License-Identifier: GPL-3.0-or-later
//
// The prints on the sheet: one of the selected imager, and those that a hand has moved, enlarged or
// pinned. Each hangs by a thread from its imager's dial. What is marked in one shows on the plan
// and in the others; what is pointed at on the plan shows in all.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>

#include "desk/print_view.h"
#include "desk/section_overlay.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {

class Prints : public QObject, public Overlay {
  Q_OBJECT

 public:
  Prints(SheetView& sheet, SectionOverlay& section);  // a child of the sheet
  // Whether the selected imager's print is shown by itself.
  bool showsSelected() const { return shows_selected_; }
  void setShowsSelected(bool shows);
  // Pins the selected imager's print, or lets it go.
  void togglePinned();
  // Photographs by the situation's light, or flat pictures.
  bool isLit() const { return lit_; }
  void setLit(bool lit);
  PrintView* printOf(const std::string& imager) const;  // null: none
  std::optional<Vec3> mark() const { return mark_; }
  // How tall somebody is who stands at the mark.
  double figureM() const { return figure_m_; }
  void setFigureM(double height_m);
  static constexpr double kLeastFigureM = 0.5, kMostFigureM = 2.3;
  void setMark(std::optional<Vec3> site_m);

  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;
  std::vector<Ring> covers(const drawing::ToPaper& to_paper) const override;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;  // prints keep within the sheet

 private:
  void takeSelection();
  void takeDesign();
  void takeEvaluation();
  void place(PrintView& print);
  struct Placed {
    Vec2 at_px;
    QSize size;
    double covers = 0;  // the less the better
  };
  Placed placeFor(const PrintView& print, const design::PosedImager& view, QSize size) const;
  void drop(const std::string& imager);
  void keepIn();

  SheetView& sheet_;
  SectionOverlay& section_;
  bool shows_selected_ = true, lit_ = true;
  std::map<std::string, PrintView*> prints_;  // children of the sheet
  std::string to_be_placed_;                  // selected, its section not yet known
  std::set<std::string> to_be_kept_in_;       // those that were in view when the sheet changed size
  bool waits_for_frame_ = false;
  std::string put_away_;                      // by hand, until something else is selected
  std::optional<Vec3> mark_, hovered_;
  double figure_m_ = 1.75;
};

}  // namespace belvedere::desk
