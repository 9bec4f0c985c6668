// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet's inks for widgets: one palette for the whole window, light or dark as the system is.
#pragma once

#include <QApplication>
#include <QColor>
#include <QPalette>

#include "drawing/inks.h"

namespace belvedere::desk {

inline QColor colourOf(drawing::Rgb c) { return QColor(c.red, c.green, c.blue); }
inline bool systemIsDark(const QPalette& palette) {
  return palette.color(QPalette::Window).lightness() < 128;
}
// The window's palette made of inks.
QPalette paletteOf(const drawing::Inks& inks);
// Style, palette and type of the whole program.
void setLook(QApplication& app, bool dark);
// Those of the widget's palette.
inline drawing::Inks inksOf(const QPalette& palette) {
  return systemIsDark(palette) ? drawing::Inks::dark() : drawing::Inks::light();
}

}  // namespace belvedere::desk
