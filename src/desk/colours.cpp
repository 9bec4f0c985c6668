// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/colours.h"

#include <QFont>
#include <QStyleFactory>

namespace belvedere::desk {

QPalette paletteOf(const drawing::Inks& inks) {
  const QColor paper = colourOf(inks.paper), ink = colourOf(inks.ink), quiet = colourOf(inks.quiet);
  const QColor rules = colourOf(inks.rules), accent = colourOf(inks.accent);
  QPalette palette(ink, paper, paper, rules, quiet, ink, ink, paper, paper);
  palette.setColor(QPalette::Highlight, accent);
  palette.setColor(QPalette::HighlightedText, paper);
  palette.setColor(QPalette::AlternateBase, paper);
  palette.setColor(QPalette::ToolTipBase, paper);
  palette.setColor(QPalette::ToolTipText, ink);
  palette.setColor(QPalette::PlaceholderText, quiet);
  palette.setColor(QPalette::Link, accent);
  palette.setColor(QPalette::Mid, rules);
  palette.setColor(QPalette::Midlight, rules);
  palette.setColor(QPalette::Dark, quiet);
  for (const QPalette::ColorRole role : {QPalette::Text, QPalette::WindowText, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, quiet);
  return palette;
}

void setLook(QApplication& app, bool dark) {
  const drawing::Inks inks = dark ? drawing::Inks::dark() : drawing::Inks::light();
  app.setStyle(QStyleFactory::create("Fusion"));
  app.setPalette(paletteOf(inks));
  QFont font = app.font();
  font.setPointSizeF(10);
  app.setFont(font);
  const QString ink = colourOf(inks.ink).name(), quiet = colourOf(inks.quiet).name();
  const QString rules = colourOf(inks.rules).name(), accent = colourOf(inks.accent).name();
  const QString paper = colourOf(inks.paper).name();
  // One quiet look: text that can be pressed, thin rules, the accent for what is live.
  app.setStyleSheet(
      QStringLiteral(
          "QMainWindow, QDialog { background: %5; }"
          "QPushButton:flat { border: none; padding: 4px 8px; color: %2; text-align: center; }"
          "QPushButton:flat:hover { color: %4; }"
          "QPushButton:flat:checked { color: %1; font-weight: bold; }"
          "QPushButton:flat:focus { border-bottom: 1px solid %4; }"
          "QProgressBar { border: none; background: %3; }"
          "QProgressBar::chunk { background: %4; }"
          "QSplitter::handle { background: %3; }"
          "QMenuBar { background: %5; }"
          "QMenuBar::item:selected { color: %4; background: transparent; }"
          "QToolTip { border: 1px solid %3; }")
          .arg(ink, quiet, rules, accent, paper));
}

}  // namespace belvedere::desk
