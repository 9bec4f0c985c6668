// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ways of the cables on the plan: thin, as far as they run on the shown storey; those of the
// marked row in accent, with their length. Imagers that a failure cuts off are crossed out.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "desk/services_maker.h"
#include "desk/sheet_view.h"

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

 private:
  void paintDark(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks, const design::Storey& storey) const;

  SheetView& sheet_;
  bool shown_ = false;
  std::shared_ptr<const ServicesAnswer> answer_;
  std::vector<std::string> marked_, dark_;
};

}  // namespace belvedere::desk
