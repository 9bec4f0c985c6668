// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the evaluator's threads tell the window's thread, and what they share; for its .cpp files alone.
#pragma once

#include <QMetaObject>

#include <utility>

#include "desk/evaluator.h"

namespace belvedere::desk {

template <class Action>
void Evaluator::inWindow(Action action) {
  QMetaObject::invokeMethod(this, std::move(action), Qt::QueuedConnection);
}

const design::Situation* situationIn(const std::vector<design::Situation>& all,
                                     const design::SituationId& id);
// What each zone of the storey shows: the selected requirement, else its first.
std::vector<const design::Requirement*> shownOn(const design::Design& design, const Wish& wish,
                                                const design::Situation& situation);

}  // namespace belvedere::desk
