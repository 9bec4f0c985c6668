// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words that the rooms say by themselves (kinds of things, what a point took hold of), in the window's
// language. Their sentences: room_sentences.h.
#pragma once

#include <QString>

#include "edit/snap.h"

#include <string_view>

namespace belvedere::desk {

QString roomWord(std::string_view english);
// "end of W1"
QString snapWords(const edit::Snap& snap);

}  // namespace belvedere::desk
