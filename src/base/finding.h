// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding: the only way in which the program says anything about a *usable* design. Data, not
// text on a screen: terminal, window, JSON and print show the same findings.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace belvedere {

enum class Severity { note, caution, shortfall };

struct Quantity {
  double value = 0;
  std::string unit;  // as printed: "px/m", "deg", "m", "%"
  bool operator==(const Quantity&) const = default;
};

struct Finding {
  std::string code;  // a stable word, documented in docs/findings.md, never reused
  Severity severity = Severity::note;
  std::vector<std::string> about;  // ids of the design, the most specific first
  std::optional<Quantity> needed;
  std::optional<Quantity> found;
  std::string sentence;
  std::string handbook;  // section of docs/handbook.md that owns the rule, for instance "5"
  bool operator==(const Finding&) const = default;
};

inline const char* word(Severity s) {
  return s == Severity::note ? "note" : s == Severity::caution ? "caution" : "shortfall";
}

}  // namespace belvedere
