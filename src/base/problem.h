// SPDX-License-Identifier: GPL-3.0-or-later
//
// base: what every other room may use and nothing that knows the trade. Problems with a place in
// the input, findings as data, units, checks for our own mistakes, progress and cancel.
//
// Problem: something in the *input* that cannot be used. Readers and builders collect all the
// problems they can find and throw one InputError with all of them; nothing is half-read.
// (A statement about a usable design is a Finding, see finding.h.)
#pragma once

#include <exception>
#include <string>
#include <utility>
#include <vector>

namespace belvedere {

struct Problem {
  std::string code;   // a stable word, documented in docs/problems.md, never reused
  std::string where;  // JSON pointer into the file ("/housings/3/model"), "" for the file as a whole
  std::string what;   // one sentence: what is wrong
  std::string hint;   // what to do, or the nearest right word; may be empty
  bool operator==(const Problem&) const = default;
};

// The one exception for input that cannot be used (exit code 3).
class InputError : public std::exception {
 public:
  // problems: at least one, in the order of the file.
  explicit InputError(std::vector<Problem> problems, std::string file = {});
  const std::vector<Problem>& problems() const { return problems_; }
  const std::string& file() const { return file_; }
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::vector<Problem> problems_;
  std::string file_;
  std::string text_;
};

// The word of `known` nearest to `word` (edit distance at most a third of its length), or "".
std::string nearestWord(const std::string& word, const std::vector<std::string>& known);
// All of `known`, the nearest to `word` first, else in their order.
std::vector<std::string> nearestFirst(const std::string& word, std::vector<std::string> known);

}  // namespace belvedere
