// SPDX-License-Identifier: GPL-3.0-or-later
//
// The numbers and words of objects of the site, by key: to be shown and typed, for one object or for
// many alike. Housings have their own (aim.h, mount_drag.h, pattern.h).
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

enum class PropertyKind { length, angle, text, choice };
using PropertyValue = std::variant<std::monostate, double, std::string>;  // monostate: absent
struct Property {
  std::string key;          // "thickness_m", as the file calls it
  PropertyKind kind = PropertyKind::length;
  PropertyValue value;      // metres, degrees, words
  bool optional = false;    // may be absent
  std::vector<std::string> choices = {};  // words of the file; "" among them: none
};
// In the order to show them; none of an object that is not there.
std::vector<Property> propertiesOf(const design::Design& design, const ObjectRef& ref);
// The same value for each object that has the key; the others stay. Throws InputError where what
// comes out could not be read back (see shapes.h).
design::Design withProperty(const design::Design& design, const Selection& selection,
                            const std::string& key, const PropertyValue& value);

}  // namespace belvedere::edit
