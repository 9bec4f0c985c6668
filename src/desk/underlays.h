// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drawings under the plan: a picture file (PNG, JPEG, SVG) by command or dropped on the sheet,
// painted faded below everything, scaled by two places whose distance is typed.
#pragma once

#include <QImage>
#include <QObject>

#include <filesystem>
#include <map>

#include "desk/draw_tool.h"
#include "desk/sheet_view.h"
#include "edit/underlay.h"

namespace belvedere::desk {

class MainWindow;

class Underlays : public QObject, public Overlay {
  Q_OBJECT

 public:
  explicit Underlays(MainWindow& window);
  ~Underlays() override;

  // Puts a file under the shown storey and asks for its scale. Throws InputError.
  void add(const std::filesystem::path& file);
  // The last one of the shown storey; null: none.
  const design::Underlay* current() const;
  // Nothing for a file that is no picture.
  std::optional<edit::PictureFrame> frameOf(const design::Underlay& underlay) const;
  void scale();
  void erase();
  Box2 extentM() const override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  struct Picture {
    QImage image, dark;
    double width = 0, height = 0;  // in its own units
  };
  const Picture& pictureOf(const design::Underlay& underlay) const;
  bool isShown(const design::Underlay& underlay) const;
  void choose();
  void run(const std::function<void()>& edit);

  MainWindow& window_;
  Workspace& workspace_;
  SheetView& sheet_;
  mutable std::map<std::string, Picture> pictures_;  // by hash
  bool shown_ = true;
};

// Two places of a drawing; then their distance, or both their places: 0;0 to 12;0.
class ScaleTool : public DrawTool {
 public:
  ScaleTool(SheetView& view, Underlays& underlays) : DrawTool(view), underlays_(underlays) {}
  QString name() const override { return QObject::tr("Scale a drawing"); }
  QString hint() const override;
  QString asks() const override;
  bool asksNow() const override { return points_.size() == 2; }
  bool typed(const QString& text) override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool key(const QKeyEvent& event) override;
  bool cancel() override;
  void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
             const drawing::Inks& inks) override;

 private:
  Underlays& underlays_;
  std::vector<Vec2> points_;   // site, as the drawing lies now
  std::optional<Vec2> here_;
};

}  // namespace belvedere::desk
