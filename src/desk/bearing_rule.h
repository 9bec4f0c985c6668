// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bearing rule under the sheet: 0 to 360 degrees, an arc an imager of the selected housing,
// overlaps doubled, gaps open with their width. For one angle below the horizon, which is stated
// and can be changed: what overlaps on the floor may gape farther out.
#pragma once

#include <QWidget>

#include <optional>

#include "desk/workspace.h"
#include "proof/proof.h"

class QDoubleSpinBox;

namespace belvedere::desk {

class BearingRule : public QWidget {
  Q_OBJECT

 public:
  explicit BearingRule(Workspace& workspace, QWidget* parent = nullptr);
  double depressionDeg() const;
  QSize sizeHint() const override { return {600, 74}; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  void takeRing();
  double xAt(double bearing_deg) const;

  Workspace& workspace_;
  QDoubleSpinBox* depression_ = nullptr;
  std::optional<proof::RingAt> ring_;
};

}  // namespace belvedere::desk
