// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is done to a selection by places on the sheet: moved by a vector, turned, mirrored, copied
// along a line. Each does its one edit and gives way to the pointer.
#pragma once

#include "desk/draw_tool.h"

namespace belvedere::desk {

// Two places, from and to; or a typed vector @2;1, @5<90 at once.
class MoveTool : public PointsTool {
 public:
  MoveTool(SheetView& view, bool copies) : PointsTool(view), copies_(copies) {}
  QString name() const override;
  QString asks() const override { return QObject::tr("by how much"); }
  bool typed(const QString& text) override;

 protected:
  Gives gives() const override { return Gives::line; }
  std::size_t most() const override { return 2; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;

 private:
  void run(Vec2 by, bool apply);
  bool copies_ = false;
};

class MirrorTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Mirror"); }

 protected:
  Gives gives() const override { return Gives::line; }
  std::size_t most() const override { return 2; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
  void rehearse(const std::vector<Vec2>& points) override;
};

class CopyAlongTool : public PointsTool {
 public:
  using PointsTool::PointsTool;
  QString name() const override { return QObject::tr("Copy along a line"); }
  std::vector<ToolField> fields() override;

 protected:
  Gives gives() const override { return Gives::line; }
  QString firstHint() const override;
  void finish(const std::vector<Vec2>& points) override;
};

// About the middle of the selection: a drag, or a typed angle, clockwise.
class TurnTool : public DrawTool {
 public:
  using DrawTool::DrawTool;
  QString name() const override { return QObject::tr("Turn"); }
  QString hint() const override;
  QString asks() const override { return QObject::tr("angle, clockwise"); }
  bool typed(const QString& text) override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  bool cancel() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

 private:
  std::shared_ptr<const design::Design> before_;
  Vec2 middle_, from_;
  double turned_deg_ = 0;
};

}  // namespace belvedere::desk
