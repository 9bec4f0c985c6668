// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the evaluator's threads tell the window's thread; for its .cpp files alone.
#pragma once

#include <QMetaObject>

#include <utility>

#include "desk/evaluator.h"

namespace belvedere::desk {

template <class Action>
void Evaluator::inWindow(Action action) {
  QMetaObject::invokeMethod(this, std::move(action), Qt::QueuedConnection);
}

}  // namespace belvedere::desk
