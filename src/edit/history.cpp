// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/history.h"

#include "base/check.h"

namespace belvedere::edit {

using design::Design;

History::History(Design start) : now_(std::make_shared<const Design>(std::move(start))) {}

bool History::apply(std::string name, Design next, const std::string& gesture) {
  const bool goes_on = !gesture.empty() && gesture == gesture_ && at_ == steps_.size() && at_ > 0;
  // A step that changes nothing is none: a gesture under way keeps where it began.
  const std::shared_ptr<const Design> start = goes_on ? gesture_start_ : now_;
  DesignChange change = DesignChange::between(*start, next);
  if (!goes_on && change.empty()) return false;
  if (goes_on && next == *now_) return false;
  if (goes_on) {
    steps_.pop_back();
    --at_;
    if (saved_ && *saved_ > at_) saved_.reset();
  } else {
    if (saved_ && *saved_ > at_) saved_.reset();
    while (steps_.size() > at_) steps_.pop_back();
  }
  gesture_ = gesture;
  gesture_start_ = start;
  now_ = std::make_shared<const Design>(std::move(next));
  if (change.empty()) {  // dragged back to where it was
    gesture_.clear();
    return true;
  }
  steps_.push_back({std::move(name), std::move(change)});
  ++at_;
  return true;
}

void History::undo() {
  BELVEDERE_CHECK(canUndo(), "there is a step to undo");
  auto before = std::make_shared<Design>(*now_);
  steps_[--at_].change.undo(*before);
  now_ = std::move(before);
  endGesture();
}

void History::redo() {
  BELVEDERE_CHECK(canRedo(), "there is a step to redo");
  auto after = std::make_shared<Design>(*now_);
  steps_[at_++].change.redo(*after);
  now_ = std::move(after);
  endGesture();
}

}  // namespace belvedere::edit
