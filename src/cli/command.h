// SPDX-License-Identifier: GPL-3.0-or-later
//
// cli: the command line, one file a command and thin: it asks the rooms and prints what they say;
// no formula lives here. Data goes to stdout, messages to stderr, as wide as the page (page.h).
//
// A command is a function `CLI::App* addX(CLI::App& app, std::function<int()>& run)`: it adds its
// options, and its CLI callback sets `run` to what is to be done. Its footer holds its examples:
// lines of a call, each followed by an indented line that says what it answers. main runs `run`
// after parsing and turns what it throws into an exit code:
//   0 all is met; 1 something falls short or is undecided; 2 the call is wrong (CallError, CLI11's
//   errors); 3 the input is wrong (InputError); 4 our own mistake; 130 cancelled.
#pragma once

#include <functional>
#include <stdexcept>
#include <string>

namespace CLI {
class App;
}

namespace belvedere::cli {

enum ExitCode : int {
  kAllMet = 0,
  kFallsShort = 1,
  kCallIsWrong = 2,
  kInputIsWrong = 3,
  kOurMistake = 4,
  kCancelled = 130
};

// What was asked for cannot be done as asked (a requirement that the design does not have, a file
// that cannot be written).
class CallError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

CLI::App* addCheck(CLI::App& app, std::function<int()>& run);
CLI::App* addProve(CLI::App& app, std::function<int()>& run);
CLI::App* addExplain(CLI::App& app, std::function<int()>& run);
CLI::App* addBlind(CLI::App& app, std::function<int()>& run);
CLI::App* addLight(CLI::App& app, std::function<int()>& run);
CLI::App* addSize(CLI::App& app, std::function<int()>& run);
CLI::App* addCatalogue(CLI::App& app, std::function<int()>& run);
CLI::App* addMeasure(CLI::App& app, std::function<int()>& run);

}  // namespace belvedere::cli
