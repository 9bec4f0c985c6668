// SPDX-License-Identifier: GPL-3.0-or-later
//
// What depends on who is reading: colour and a progress bar, on a terminal only; and the way out
// for whoever presses Ctrl-C.
#pragma once

#include <string>
#include <string_view>

#include "base/progress.h"

namespace belvedere::cli {

// Colour only ever repeats what the words say.
enum class Ink { plain, good, bad, open, quiet };
// The text in that ink when stdout is a terminal, TERM is not "dumb" and NO_COLOR is unset or
// empty.
std::string inked(Ink ink, std::string_view text);

// The progress of this run. SIGINT and SIGTERM set its `cancel`; a second one ends the program at
// once. Its bar shows on stderr when that is a terminal, after a second.
Progress& runProgress();
void catchSignals();
// Says that the run was cancelled; returns the exit code. (A run that has not left 60 ms after the
// signal is ended there and then, with the same words and code.)
int cancelled();
void showProgressBar();
void clearProgressBar();

// All text for people and all data leave through here. A text that cannot be written whole ends
// the run (CallError).
void printOut(std::string_view text);
void printError(std::string_view text);

}  // namespace belvedere::cli
