// SPDX-License-Identifier: GPL-3.0-or-later
//
// Work that takes long, done in a thread beside the window while the caller waits: the window goes
// on being painted and takes no hands; after a moment a small window says what is done and offers
// to cancel it. What cannot be cancelled cannot be closed either.
#pragma once

#include <QString>

#include <functional>

class QWidget;

namespace belvedere::desk {

enum class CanCancel { no, yes };

// Waits for `work`; rethrows what it throws. False when it was cancelled: the work then goes on to
// its end unseen, so it must hold all that it needs, and nobody may look at what it makes.
//   says  what is done, for the small window: "Reading terminal.json ..."
bool besideWindow(QWidget* window, const QString& says, CanCancel can_cancel,
                  std::function<void()> work);

}  // namespace belvedere::desk
