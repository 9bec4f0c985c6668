// SPDX-License-Identifier: GPL-3.0-or-later
//
// The page that --help prints: what the command answers, examples, then the options.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace belvedere::cli {

class HelpPage : public CLI::FormatterBase {
 public:
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override;
};

}  // namespace belvedere::cli
