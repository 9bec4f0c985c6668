// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere reach: how far one imager carries each task, without a building (see command.h).
#pragma once

#include <CLI/CLI.hpp>
#include <functional>

namespace belvedere::cli {

CLI::App* addReach(CLI::App& app, std::function<int()>& run);

}  // namespace belvedere::cli
