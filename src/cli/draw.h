// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere draw: a plan of each storey as SVG or PNG. Needs Qt Gui; no display.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>

namespace belvedere::cli {

CLI::App* addDraw(CLI::App& app, std::function<int()>& run);

}  // namespace belvedere::cli
