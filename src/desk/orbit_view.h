// SPDX-License-Identifier: GPL-3.0-or-later
//
// The building from outside, in a window of its own: an eye that goes round the shown storey, cut
// open below what lies over it, with the view volumes of its imagers (dashed where something stands
// before them) and what is selected in accent. Drag orbits, Shift or the middle button pans, the
// wheel goes nearer, a click selects, a double click sets what the eye goes round. By keys: arrows
// orbit, with Shift they pan; plus and minus; Home shows all.
#pragma once

#include <QWidget>

#include <optional>

#include "desk/picture_maker.h"
#include "desk/sheet_view.h"
#include "picture/orbit.h"

namespace belvedere::desk {

class OrbitView : public QWidget {
  Q_OBJECT

 public:
  OrbitView(SheetView& sheet, QWidget* parent);
  const picture::OrbitEye& eye() const { return eye_; }
  void setEye(const picture::OrbitEye& eye);
  void showAll();
  std::shared_ptr<const MadePicture> picture() const { return maker_.now(); }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void wish();
  std::optional<picture::Spot> spotAt(QPointF at) const;
  void selectAt(QPointF at);

  SheetView& sheet_;
  PictureMaker maker_;
  picture::OrbitEye eye_;
  bool framed_ = false;
  std::vector<std::string> volume_of_;  // imagers of the wished volumes, in their order
  std::vector<std::string> drawn_volume_of_;
  // The hand.
  bool down_ = false, moved_ = false, pans_ = false;
  QPointF from_, last_;
};

}  // namespace belvedere::desk
