// SPDX-License-Identifier: GPL-3.0-or-later
//
// Undo and redo without end: every step has a name and keeps what it changed. What a hand does in
// one go (a drag, a spin of a number) is one step.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "edit/change.h"

namespace belvedere::edit {

class History {
 public:
  explicit History(design::Design start = {});

  const design::Design& now() const { return *now_; }
  // The same, to be kept by whoever works on it meanwhile; never changed.
  std::shared_ptr<const design::Design> share() const { return now_; }

  // Makes `next` the present and forgets what was undone. `gesture`: steps in a row with the same
  // word, unless it is empty, are one step with the last one's name. Says whether anything changed.
  bool apply(std::string name, design::Design next, const std::string& gesture = {});
  // The next step is one of its own, whatever its gesture.
  void endGesture() { gesture_.clear(); }

  bool canUndo() const { return at_ > 0; }
  bool canRedo() const { return at_ < steps_.size(); }
  // Names of the steps that undo and redo would take; empty when there is none.
  std::string undoName() const { return canUndo() ? steps_[at_ - 1].name : std::string(); }
  std::string redoName() const { return canRedo() ? steps_[at_].name : std::string(); }
  void undo();
  void redo();

  // Whether the present is what was last marked as saved.
  void markSaved() { saved_ = at_; endGesture(); }
  // Of a design that share() gave and that was written since: marked where it is the present still,
  // else nothing on disk is like the present.
  void markSaved(const std::shared_ptr<const design::Design>& written) {
    written == now_ ? markSaved() : forgetSaved();
  }
  void forgetSaved() { saved_.reset(); }  // nothing on disk is like any of these designs
  bool isSaved() const { return saved_ == at_; }

 private:
  struct Step {
    std::string name;
    DesignChange change;
  };
  std::shared_ptr<const design::Design> now_, gesture_start_;
  std::vector<Step> steps_;
  std::size_t at_ = 0;
  std::optional<std::size_t> saved_ = 0;
  std::string gesture_;
};

}  // namespace belvedere::edit
