// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drawing what the brief and the layout need: zones with what must be seen in them, mounting lines,
// containment, housings; and measuring.
#pragma once

#include "desk/draw_tool.h"
#include "design/design.h"

namespace belvedere::desk {

// First the outline, then its title and what must be seen in it: zone and requirement are one step.
class ZoneTool : public PointsTool {
 public:
  explicit ZoneTool(SheetView& view);
  QString name() const override { return QObject::tr("Zone"); }
  QString hint() const override;
  QString asks() const override;
  std::vector<ToolField> fields() override;
  int stage() const override { return outline_.empty() ? 0 : 1; }
  bool accept() override;
  QString acceptWords() const override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool key(const QKeyEvent& event) override;
  bool cancel() override;

 protected:
  Gives gives() const override { return Gives::outline; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
  void paintMore(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                 const drawing::Inks& inks) override;

 private:
  std::vector<Vec2> outline_;  // drawn, its fields still open
};

class MountingTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Mounting line"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::line; }
  std::size_t least() const override;
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
};

class TrayTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Containment"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::line; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
};

// Several places; distance and bearing of the last stretch, the way along them, the area within.
class MeasureTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Measure"); }
  QString hint() const override;

 protected:
  Gives gives() const override { return Gives::line; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;

 private:
  QString words(const std::vector<Vec2>& points) const;
  QString last_;
};

// A model of the catalogue where one clicks: on a mounting line or a wall's face within reach.
class HousingTool : public DrawTool {
 public:
  using DrawTool::DrawTool;
  QString name() const override { return QObject::tr("Housing"); }
  QString hint() const override;
  QString asks() const override { return QObject::tr("place"); }
  bool typed(const QString& text) override;
  std::vector<ToolField> fields() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void leave() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

 private:
  struct Place {
    design::Mount mount;
    QString says;
  };
  Place placeAt(Vec2 at, double reach_m, Vec2 free_m) const;
  void put(const Place& place);
  std::optional<Place> place_;
};

}  // namespace belvedere::desk
