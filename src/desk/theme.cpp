// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/theme.h"

#include <QApplication>
#include <QSettings>

#include "desk/colours.h"

namespace belvedere::desk {
namespace {

// Asked for once, before the program's own palette hides it.
bool systemWasDark() {
  static const bool dark = systemIsDark(QApplication::palette());
  return dark;
}

void show(Theme theme) {
  setLook(*qApp, theme == Theme::dark || (theme == Theme::system && systemWasDark()));
}

}  // namespace

Theme chosenTheme() {
  const QString word = QSettings().value("theme").toString();
  return word == "light" ? Theme::light : word == "dark" ? Theme::dark : Theme::system;
}

void setTheme(Theme theme) {
  QSettings().setValue("theme", theme == Theme::light  ? "light"
                                : theme == Theme::dark ? "dark"
                                                       : "system");
  show(theme);
}

void startTheme(const QString& asked) {
  systemWasDark();
  show(asked == "light" ? Theme::light : asked == "dark" ? Theme::dark : chosenTheme());
}

}  // namespace belvedere::desk
