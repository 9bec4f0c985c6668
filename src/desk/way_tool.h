// SPDX-License-Identifier: GPL-3.0-or-later
//
// A cable's own way, drawn on the plan between its ends: clicks where it bends.
#pragma once

#include "desk/draw_tool.h"
#include "design/design.h"

namespace belvedere::desk {

// The selected cable; empty where another thing, or nothing, is selected.
design::AnyId selectedCable(const Workspace& workspace);

class WayTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("A cable's own way"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::line; }
  std::size_t least() const override { return 1; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
  void paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks) override;

 private:
  design::Design withWay(const std::vector<Vec2>& points) const;
};

}  // namespace belvedere::desk
