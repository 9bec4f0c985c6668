// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/bearing_rule.h"

#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QMouseEvent>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "desk/colours.h"
#include "proof/blind.h"

namespace belvedere::desk {
namespace {

constexpr int kLeft = 130, kRight = 24, kRule = 46;
constexpr double kStartDeg = 15;  // below the horizon: a face some 8 m off from a lens at 4 m

// Parts of an arc on a rule that begins at north: one, or two where it passes north.
std::vector<std::array<double, 2>> partsOf(double from_deg, double to_deg) {
  if (to_deg >= from_deg) return {{from_deg, to_deg}};
  return {{from_deg, 360}, {0, to_deg}};
}

}  // namespace

BearingRule::BearingRule(Workspace& workspace, QWidget* parent)
    : QWidget(parent), workspace_(workspace) {
  setFixedHeight(74);
  auto* column = new QVBoxLayout;
  column->setContentsMargins(14, 6, 0, 6);
  column->setSpacing(2);
  auto* label = new QLabel(tr("Below hori&zon"));
  depression_ = new QDoubleSpinBox;
  depression_->setRange(-89, 89);
  depression_->setDecimals(1);
  depression_->setValue(kStartDeg);
  depression_->setSuffix(QStringLiteral("°"));
  depression_->setAccessibleName(tr("Angle below the horizon at which arcs are compared"));
  label->setBuddy(depression_);
  column->addWidget(label);
  column->addWidget(depression_);
  column->addStretch();
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->addLayout(column);
  row->addStretch();
  connect(depression_, &QDoubleSpinBox::valueChanged, this, &BearingRule::takeRing);
  connect(&workspace_, &Workspace::selectionChanged, this, &BearingRule::takeRing);
  connect(&workspace_, &Workspace::designChanged, this, &BearingRule::takeRing);
  takeRing();
}

double BearingRule::depressionDeg() const { return depression_->value(); }

void BearingRule::takeRing() {
  ring_.reset();
  QString spoken = tr("Bearing rule: select a housing");
  if (const design::Housing* housing = workspace_.selectedHousing()) {
    auto rings = proof::ringOf(workspace_.design(), *housing, {depression_->value()});
    if (!rings.empty()) ring_ = std::move(rings.front());
    if (ring_) {
      spoken = tr("Arcs of %1").arg(QString::fromStdString(housing->id.text));
      for (const proof::RingArc& arc : ring_->arcs)
        spoken += tr("; %1 from %2 to %3 degrees")
                      .arg(QString::fromStdString(arc.imager))
                      .arg(arc.from_deg, 0, 'f', 1)
                      .arg(arc.to_deg, 0, 'f', 1);
      for (const auto& gap : ring_->gaps_deg)
        spoken += tr("; gap from %1 to %2").arg(gap[0], 0, 'f', 1).arg(gap[1], 0, 'f', 1);
    }
  }
  setAccessibleName(spoken);
  update();
}

double BearingRule::xAt(double bearing_deg) const {
  return kLeft + bearing_deg / 360 * (width() - kLeft - kRight);
}

void BearingRule::paintEvent(QPaintEvent*) {
  const drawing::Inks inks = inksOf(palette());
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  QFont small = font();
  small.setPointSizeF(9);
  painter.setFont(small);
  const QFontMetrics metrics(small);
  painter.setPen(QPen(colourOf(inks.rules), 1));
  painter.drawLine(0, 0, width(), 0);
  painter.setPen(QPen(colourOf(inks.ink), 1));
  painter.drawLine(QPointF(xAt(0), kRule), QPointF(xAt(360), kRule));
  const int step = width() > 900 ? 30 : 90;
  for (int bearing = 0; bearing <= 360; bearing += step) {
    painter.setPen(QPen(colourOf(inks.ink), 1));
    painter.drawLine(QPointF(xAt(bearing), kRule), QPointF(xAt(bearing), kRule + 4));
    painter.setPen(colourOf(inks.quiet));
    painter.drawText(QRectF(xAt(bearing) - 30, kRule + 5, 60, metrics.height()), Qt::AlignHCenter,
                     QString::number(bearing) + QStringLiteral("°"));
  }
  if (!ring_) {
    painter.setPen(colourOf(inks.quiet));
    painter.drawText(QRectF(xAt(0), 8, xAt(360) - xAt(0), 24), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("Select a housing to see where its imagers look all round."));
    return;
  }
  const std::string selected = workspace_.selectedImager();
  const auto bar = [&](const std::array<double, 2>& part, double y, const QColor& colour) {
    painter.fillRect(QRectF(xAt(part[0]), y, std::max(1.0, xAt(part[1]) - xAt(part[0])), 4), colour);
  };
  // Neighbours alternate between two heights, so that overlaps show as doubled.
  int row = 0;
  for (const proof::RingArc& arc : ring_->arcs) {
    const QColor colour = colourOf(arc.imager == selected ? inks.accent : inks.ink);
    const double y = row++ % 2 == 0 ? kRule - 6 : kRule - 13;
    for (const auto& part : partsOf(arc.from_deg, arc.to_deg)) {
      bar(part, y, colour);
      const QString name = QString::fromStdString(arc.imager);
      if (xAt(part[1]) - xAt(part[0]) > metrics.horizontalAdvance(name)) {
        painter.setPen(colour);
        painter.drawText(QRectF(xAt(part[0]), 8, xAt(part[1]) - xAt(part[0]), metrics.height()),
                         Qt::AlignHCenter, name);
      }
    }
  }
  for (const auto& gap : ring_->gaps_deg) {
    const double wide = gap[1] >= gap[0] ? gap[1] - gap[0] : gap[1] + 360 - gap[0];
    const auto parts = partsOf(gap[0], gap[1]);
    const auto& part = *std::max_element(parts.begin(), parts.end(), [](auto& a, auto& b) {
      return a[1] - a[0] < b[1] - b[0];
    });
    const QString words = tr("gap %1°").arg(wide, 0, 'f', 1);
    painter.setPen(colourOf(inks.accent));
    if (xAt(part[1]) - xAt(part[0]) > metrics.horizontalAdvance(words))
      painter.drawText(
          QRectF(xAt(part[0]), kRule - 9 - metrics.height() / 2.0, xAt(part[1]) - xAt(part[0]),
                 metrics.height()),
          Qt::AlignHCenter, words);
  }
}

// A click on an arc selects its imager.
void BearingRule::mousePressEvent(QMouseEvent* event) {
  if (!ring_ || event->position().x() < kLeft) return;
  const double bearing = (event->position().x() - kLeft) / (width() - kLeft - kRight) * 360;
  for (const proof::RingArc& arc : ring_->arcs)
    for (const auto& part : partsOf(arc.from_deg, arc.to_deg)) {
      if (bearing < part[0] || bearing > part[1]) continue;
      const std::size_t dot = arc.imager.rfind('.');
      if (dot == std::string::npos) continue;
      workspace_.select({{edit::ObjectKind::housing, arc.imager.substr(0, dot),
                          std::stoi(arc.imager.substr(dot + 1))}});
      return;
    }
}

}  // namespace belvedere::desk
