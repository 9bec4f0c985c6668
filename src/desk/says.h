// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a drag says beside the hand: a few short lines in accent on a bit of paper.
#pragma once

#include <QStringList>

#include "drawing/canvas.h"

namespace belvedere::desk {

// `hand`: on the canvas, mm. Lines are parted by \n.
inline void paintSays(drawing::Canvas& canvas, Vec2 hand, const QString& says,
                      const drawing::Inks& inks) {
  if (says.isEmpty()) return;
  const drawing::Lettering lettering{inks.accent, 9};
  Vec2 at = hand + Vec2{4, -3};
  for (const QString& line : says.split('\n')) {
    const std::string words = line.toStdString();
    canvas.fillBox(
        {{at.x - 0.6, at.y - 3.2}, {at.x + canvas.width(words, lettering) + 0.6, at.y + 1}},
        inks.paper, 0.85);
    canvas.text(at, words, lettering);
    at.y += 4.2;
  }
}

}  // namespace belvedere::desk
