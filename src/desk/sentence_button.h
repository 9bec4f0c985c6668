// SPDX-License-Identifier: GPL-3.0-or-later
//
// A button that says a sentence: in as many lines as it takes, and quiet until the pointer or the keys
// are on it.
#pragma once

#include <QPainter>
#include <QPushButton>

#include <algorithm>

#include "desk/colours.h"

namespace belvedere::desk {

class SentenceButton : public QPushButton {
 public:
  explicit SentenceButton(const QString& words = {}, QWidget* parent = nullptr)
      : QPushButton(words, parent) {
    setFlat(true);
    setCursor(Qt::PointingHandCursor);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
  }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override {
    return fontMetrics().boundingRect(QRect(0, 0, std::max(width - kMark, 20), 10'000), kWrapped, text())
               .height() + 2 * kAround;
  }
  QSize sizeHint() const override {
    const int wide = std::min(fontMetrics().horizontalAdvance(text()) + kMark, 240);
    return {wide, heightForWidth(wide)};
  }
  QSize minimumSizeHint() const override { return {80, fontMetrics().height() + 2 * kAround}; }

 protected:
  void paintEvent(QPaintEvent*) override {
    const drawing::Inks inks = inksOf(palette());
    QPainter painter(this);
    const bool at_hand = underMouse() || hasFocus();
    painter.setPen(colourOf(at_hand ? inks.accent : inks.ink));
    painter.drawText(rect().adjusted(kMark, kAround, 0, -kAround), kWrapped, text());
    painter.drawText(QPoint(0, kAround + fontMetrics().ascent()), QStringLiteral("\u2192"));
  }
  void enterEvent(QEnterEvent* event) override {
    QPushButton::enterEvent(event);
    update();
  }
  void leaveEvent(QEvent* event) override {
    QPushButton::leaveEvent(event);
    update();
  }

 private:
  static constexpr int kMark = 18, kAround = 2;  // for the arrow; above and below
  static constexpr int kWrapped = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;
};

}  // namespace belvedere::desk
