// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cstdio>
#include <exception>

#include <fmt/format.h>

#include "base/problem.h"
#include "cli/answer.h"
#include "cli/command.h"
#ifdef BELVEDERE_QT
#include "cli/draw.h"
#endif
#include "cli/help_page.h"
#include "cli/page.h"
#ifdef BELVEDERE_QT
#include "cli/picture.h"
#endif
#include "cli/reach.h"
#include "cli/terminal.h"

namespace belvedere::cli {

namespace {
constexpr const char* kExamples =
    "  belvedere check design.json\n"
    "      can this file be used, and if not, everything that is wrong with it\n"
    "  belvedere prove design.json\n"
    "      requirement by requirement, what share of its zone is served, and why the rest is not\n"
    "  belvedere explain design.json --requirement R1\n"
    "      what fails at the worst spot, by how much, and the least change that would serve it\n"
    "  belvedere size design.json\n"
    "      what the cameras draw, carry and keep, and where any of it is too much\n"
    "  belvedere reach --pixels 2592x1944 --hfov 100 --height 3 --tilt 35\n"
    "      how far one imager carries each task, without a building";

void addCommands(CLI::App& app, std::function<int()>& run) {
  addCheck(app, run);
  addProve(app, run);
  addExplain(app, run);
  addBlind(app, run);
  addLight(app, run);
  addSize(app, run);
  addCatalogue(app, run);
  addMeasure(app, run);
  addReach(app, run);
#ifdef BELVEDERE_QT
  addDraw(app, run);
  addPicture(app, run);
#endif
}

// A word that is no command, with the nearest that is one; CLI11 would only say that one is
// missing.
void checkCommandWord(const CLI::App& app, int count, char** words) {
  std::vector<std::string> known;
  for (const CLI::App* command : app.get_subcommands({})) known.push_back(command->get_name());
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (!word.empty() && word[0] == '-') continue;
    if (std::find(known.begin(), known.end(), word) != known.end()) return;
    throw CallError(fmt::format("there is no command \"{}\"{}", word, didYouMean(word, known)));
  }
}

// Words left over: of a mistyped option, the nearest that the command has.
std::string describe(const CLI::App& app, const CLI::ParseError& error, int count, char** words) {
  std::string text = error.what();
  const auto chosen = app.get_subcommands();
  if (dynamic_cast<const CLI::ExtrasError*>(&error) == nullptr || chosen.empty()) return text;
  std::vector<std::string> known;
  for (const CLI::Option* option : chosen.front()->get_options())
    for (const std::string& name : option->get_lnames()) known.push_back("--" + name);
  for (int i = 1; i < count; ++i) {
    const std::string word = std::string(words[i]).substr(0, std::string(words[i]).find('='));
    if (word.rfind("--", 0) == 0 && std::find(known.begin(), known.end(), word) == known.end())
      return fmt::format("{} has no option \"{}\"{}", chosen.front()->get_name(), word,
                         didYouMean(word, known));
  }
  return text;
}

int runBelvedere(int count, char** words) {
  std::function<int()> run;
  CLI::App app("says what the cameras of a design will see of what its brief asks, with proof",
               "belvedere");
  app.formatter(std::make_shared<HelpPage>());
  app.footer(kExamples);
  app.set_help_flag("-h,--help", "this page, or that of a command");
  app.set_version_flag("--version", "belvedere " BELVEDERE_VERSION, "the program's version");
  app.require_subcommand(1);
  addCommands(app, run);
  if (count < 2) {
    printError(app.help());
    return kCallIsWrong;
  }
  try {
    checkCommandWord(app, count, words);
    app.parse(count, words);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    printOut(chosen.empty() ? app.help() : chosen.front()->help());
    return kAllMet;
  } catch (const CLI::CallForVersion& version) {
    printOut(std::string(version.what()) + '\n');
    return kAllMet;
  } catch (const CLI::ParseError& error) {
    throw CallError(describe(app, error, count, words));
  }
  return run();
}

int callWrong(const char* what) {
  printError(wrapped(std::string("belvedere: ") + printable(what), 0, 2) +
             "belvedere --help, and belvedere COMMAND --help, show how to call it.\n");
  return kCallIsWrong;
}
}  // namespace

}  // namespace belvedere::cli

int main(int count, char** words) {
  using namespace belvedere::cli;
  catchSignals();
  try {
    return runBelvedere(count, words);
  } catch (const CallError& error) {
    return callWrong(error.what());
  } catch (const belvedere::InputError& error) {
    return reportProblems(error, {});
  } catch (const belvedere::Cancelled&) {
    return cancelled();
  } catch (const std::bad_alloc&) {
    printError("belvedere: there is not enough memory for this design\n");
    return kOurMistake;
  } catch (const std::exception& error) {
    printError(fmt::format(
        "belvedere: this is our mistake, not yours: {}\n"
        "Please report these lines with the design file and the call: belvedere {}\n",
        error.what(), BELVEDERE_VERSION));
    return kOurMistake;
  }
}
