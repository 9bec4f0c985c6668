// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the two readers of photometry share: words with their line numbers, problems in one place,
// and the checks on a table of intensities. For the readers alone.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "light/photometry.h"
#include "scene/text_scan.h"

namespace belvedere::light {

// Collects problems; stops the reading once it makes no sense to go on.
class PhotometryProblems {
 public:
  void add(int line, std::string what, std::string hint) {
    if (problems_.size() < kMostSaid)
      problems_.push_back({"photometry_unusable", fmt::format("line {}", line), std::move(what),
                           std::move(hint)});
  }
  [[noreturn]] void stop(int line, std::string what, std::string hint) {
    add(line, std::move(what), std::move(hint));
    throw InputError(problems_);
  }
  void throwIfAny() const {
    if (!problems_.empty()) throw InputError(problems_);
  }

 private:
  static constexpr std::size_t kMostSaid = 20;
  std::vector<Problem> problems_;
};

// A text taken line by line, or number by number over line ends.
class PhotometryText {
 public:
  explicit PhotometryText(std::string_view text) : text_(text) {}
  int line() const { return line_; }
  bool atEnd() const { return rest_.empty() && text_.empty(); }
  std::size_t bytesLeft() const { return rest_.size() + text_.size(); }
  // What is left of the line in hand, else the next line.
  std::optional<std::string_view> takeLine() {
    ++line_;
    rest_ = {};
    return scene::takeLine(text_);
  }
  // The next word; commas and semicolons part words like blanks where `commas` says so.
  std::string_view takeWord(bool commas);
  double takeNumber(PhotometryProblems& problems, std::string_view what, bool commas);
  int takeCount(PhotometryProblems& problems, std::string_view what, int least, int most,
                bool commas);

 private:
  std::string_view text_, rest_;
  int line_ = 0;
};

// Begins with TILT=, blanks or none about the word: the end of an LM-63 file's header.
bool isTiltLine(std::string_view line);

// A finite number; a decimal comma counts as a point. Nothing for anything else.
std::optional<double> photometryNumber(std::string_view word);

// UTF-8 as it is, anything else as Latin-1; without control characters.
std::string readableText(std::string_view bytes);

inline constexpr int kMostAngles = 20000;

// A whole table as a file gives it: symmetry still folded.
struct RawTable {
  Planes planes = Planes::c;
  std::vector<double> across_deg, along_deg, candela;
  int across_line = 0, along_line = 0, candela_line = 0;  // where each begins
};
// Angles ascend and lie where they may, intensities are not negative; adds problems.
void checkTable(const RawTable& table, PhotometryProblems& problems);

// Unfolds the symmetry of LM-63, which the first and last horizontal angle tell.
void unfold(RawTable&& table, Photometry& out, PhotometryProblems& problems);

Photometry readLm63(std::string_view text);
Photometry readEulumdat(std::string_view text);

}  // namespace belvedere::light
