// SPDX-License-Identifier: GPL-3.0-or-later
//
// One print: the picture of an imager, pinned on the sheet like a photograph. A click in it marks
// the spot on the plan, a drag in it aims; its caption moves it, its lower right corner enlarges
// it, the word at the end of its caption puts it away. By keys: arrows turn, plus and minus resize,
// Delete puts away.
#pragma once

#include <QWidget>

#include <memory>
#include <optional>

#include "desk/picture_maker.h"
#include "desk/sheet_view.h"
#include "edit/aim.h"

namespace belvedere::desk {

class PrintView : public QWidget {
  Q_OBJECT

 public:
  PrintView(SheetView& sheet, edit::ImagerRef imager);

  const edit::ImagerRef& imager() const { return imager_; }
  std::string name() const { return edit::nameOf(imager_); }
  // Of its stored aims, the one that it shows.
  void setAim(std::size_t aim);
  bool isPinned() const { return pinned_; }
  void setPinned(bool pinned) { pinned_ = pinned; }
  // As a photograph by the shown situation's light, once the flat picture is fine and no hand drags.
  void setLit(bool lit);
  // Where its upper left corner is pinned on the plan.
  void pinAt(Vec2 site_m);
  void follow();                       // the plan moved
  // Back onto the sheet, smaller where it must be.
  void keepWithin(const QRect& sheet);
  void take();                         // the design, or the scene, or the inks
  std::shared_ptr<const MadePicture> picture() const { return maker_.now(); }
  // Of the picture alone, in this widget.
  QRect pictureArea() const;
  // What is seen at a point of this widget.
  std::optional<picture::Spot> spotAt(QPoint at) const;
  // A place on the site that is pointed at elsewhere; shown if it is in the picture.
  void pointAt(std::optional<Vec3> site_m);
  // Someone stands where a spot was marked.
  void setFigure(std::optional<Vec3> feet_m, double height_m);
  QString caption() const;             // the fullest that its room holds
  QRect captionArea() const;
  QFont captionFont() const;
  static QSize sizeFor(const design::PosedImager& view, int width);

 Q_SIGNALS:
  void marked(Vec3 site_m);            // clicked
  void hovered(std::optional<belvedere::Vec3> site_m);
  void moved();                        // by hand: it is pinned now
  void putAway();
  void madeAnew();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void leaveEvent(QEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  static constexpr int kLeastWide = 160, kMostWide = 1400;
  enum class Doing { nothing, press, aim, move, enlarge };
  Vec2 placeIn(QPointF at) const;      // in the picture's pixels
  QRect cornerArea() const;
  QRect awayArea() const;
  void aim(QPointF to);
  void wish();
  // The height of a person at a spot in the picture that is judged, px.
  std::optional<double> personPx(Vec3 feet_m) const;

  SheetView& sheet_;
  edit::ImagerRef imager_;
  PictureMaker maker_;
  bool pinned_ = false;
  Vec2 pinned_at_m_;
  std::optional<design::PosedImager> posed_, recorded_;
  double tilt_deg_ = 0;
  std::shared_ptr<const proof::PreviewPlace> place_;
  bool dark_ = false, lit_ = true;
  quint64 lit_version_ = 0;            // what the photograph is of
  design::SituationId lit_situation_;
  std::optional<Vec3> pointed_at_m_, figure_m_;
  double person_m_ = 1.75;             // of who stands there, or would
  std::optional<double> person_px_;
  QString says_;                       // where a drag stopped
  // The hand.
  Doing doing_ = Doing::nothing;
  QPointF from_;
  QPoint from_pos_;
  QSize from_size_;
  std::shared_ptr<const design::Design> before_;
  picture::View view_then_;
  picture::Size size_then_{};
};

}  // namespace belvedere::desk
