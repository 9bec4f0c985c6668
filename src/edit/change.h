// SPDX-License-Identifier: GPL-3.0-or-later
//
// What differs between two designs, kept as small as the edit was: of a list only the stretch that
// changed, of a building only the walls. Applying it forwards or backwards gives the very values.
#pragma once

#include <memory>

#include "design/design.h"

namespace belvedere::edit {

class DesignChange {
 public:
  static DesignChange between(const design::Design& before, const design::Design& after);
  DesignChange(DesignChange&&) noexcept;
  DesignChange& operator=(DesignChange&&) noexcept;
  ~DesignChange();

  bool empty() const;
  // Of the design that it was made from.
  void redo(design::Design& before) const;
  void undo(design::Design& after) const;

 private:
  struct Parts;
  explicit DesignChange(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace belvedere::edit
