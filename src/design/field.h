// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the document says about one key. Each struct of design.h has one
// `describe(visitor, struct)` in fields_*.h that lists its keys in table order; reader, writer,
// JSON Schema and the tables of docs/format.md all follow from it, so that none can differ.
//
// A visitor offers
//   object(name, says)             the struct's name and what it is; called first
//   constant(key, text | number)   a key that always has this value
//   id(member, kind)               the object's own id
//   (key, member, Field)           any other key
//   any(key, text member, Field)   a key that takes whatever JSON, held as text
#pragma once

#include <string_view>
#include <vector>

namespace belvedere::design {

// What an id may name.
enum class ObjectKind {
  person, revision, building, storey, wall, opening, solid, material, terrain, light, zone,
  mounting, containment, underlay, situation, requirement, model, housing, stream, device, link,
  recording, screen, tolerance, test, evidence, accepted, alternative
};
std::string_view word(ObjectKind kind);

// What a text or a list of points must look like.
enum class Shape {
  plain,
  date,      // 2026-03-31
  sha256,    // 64 lower-case hexadecimal digits
  path,      // relative, climbs nowhere
  currency,  // three capitals, ISO 4217
  outline,   // three points or more, closed of itself
  line       // two points or more
};

// Numbers outside [least, most] are problems; where a common slip of unit explains one, it is
// named. The limits are wide on purpose: they catch a wrong unit, not an unusual building.
struct Field {
  std::string_view says;              // what it is, for the page and the schema
  double least = -1e9, most = 1e9;    // of each number in it
  bool above = false;                 // `least` itself is outside
  bool required = false;
  Shape shape = Shape::plain;
  std::vector<std::string_view> words = {};  // the only texts allowed; of an id: beside ids
  std::vector<ObjectKind> kinds = {};        // what an id may name; empty: any object
  std::string_view fallback = {};            // what an absent text means, for the page
  std::string_view unit = {};                // where the key's ending does not state it
};

// The unit that a key's ending states, for messages and pages: "height_m" is "m"; "" for none.
std::string_view unitOfKey(std::string_view key);

}  // namespace belvedere::design
