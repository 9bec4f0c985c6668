// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light, dark, or as the system was when the program started ("theme" in the person's settings).
#pragma once

#include <QString>

namespace belvedere::desk {

enum class Theme { system, light, dark };
Theme chosenTheme();
void setTheme(Theme theme);            // kept, and shown at once
// At the start, before any window; `asked` ("light", "dark") holds for this run alone.
void startTheme(const QString& asked);

}  // namespace belvedere::desk
