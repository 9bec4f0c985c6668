// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drawing what is built: walls, openings, a building's outline, columns and obstacles.
#pragma once

#include "desk/draw_tool.h"
#include "design/design.h"

namespace belvedere::desk {

class WallTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Wall"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::line_or_ring; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
  void paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks) override;
};

// An outline becomes a building with one storey.
class BuildingTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Building"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::outline; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
};

class SolidTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Obstacle"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::outline; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
};

// Shown on the wall under the pointer; a click puts it there. Typed: its width.
class OpeningTool : public DrawTool {
 public:
  enum class Kind { door, window };
  OpeningTool(SheetView& view, Kind kind) : DrawTool(view), kind_(kind) {}
  QString name() const override;
  QString hint() const override;
  std::vector<ToolField> fields() override;
  int stage() const override { return stage_; }
  QString asks() const override { return QObject::tr("width"); }
  bool typed(const QString& text) override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void leave() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

 private:
  struct Place {
    design::WallId wall;
    std::vector<Vec2> path;   // site
    double from_m = 0;        // of the opening's start
  };
  std::optional<Place> placeAt(Vec2 at) const;

  Kind kind_;
  std::optional<Place> place_;
  int stage_ = 0;
};

}  // namespace belvedere::desk
