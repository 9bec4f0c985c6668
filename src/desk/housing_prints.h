// SPDX-License-Identifier: GPL-3.0-or-later
//
// All prints of a housing on one page, in the order of its ring: a window of its own, which can be
// saved as PNG. Follows the design.
#pragma once

#include <QWidget>

#include <vector>

#include "desk/picture_maker.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {

class HousingPrints : public QWidget {
  Q_OBJECT

 public:
  // `lit`: photographs by the shown situation's light.
  HousingPrints(SheetView& sheet, design::HousingId housing, bool lit, QWidget* parent);
  // The page as it is now; all there once isWhole().
  QImage page(int width) const;
  bool isWhole() const;
  void save();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Print {
    QString imager;                    // its words
    double tilt_deg = 0;
    design::PosedImager posed;
    picture::View view;
    QImage image;
    bool whole = false;
  };
  void take();
  void next();
  void paintPage(QPainter& painter, QSize size) const;

  SheetView& sheet_;
  design::HousingId housing_;
  bool lit_ = true;
  PictureMaker maker_;
  std::vector<Print> prints_;
  std::size_t at_ = 0;   // being made
  std::shared_ptr<const proof::PreviewPlace> place_;  // in which they are made
};

}  // namespace belvedere::desk
