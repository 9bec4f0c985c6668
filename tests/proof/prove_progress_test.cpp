// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <vector>

#include "base/progress.h"
#include "design/read.h"
#include "proof/prove.h"

namespace belvedere::proof {
namespace {

// Property: one progress over the whole proof, which never goes back and ends with it, on one thread
// as on several.
TEST(ProveProgress, NeverGoesBackAndEndsWithTheWork) {
  const std::filesystem::path file =
      std::filesystem::path(BELVEDERE_SOURCE_DIR) / "examples/ferry_terminal/design.json";
  const design::DesignFile read = design::readDesign(file);
  for (const int threads : {1, 2}) {
    Progress progress;
    std::vector<double> said;
    progress.report = [&](double share, std::string_view) { said.push_back(share); };
    ProveOptions options;
    options.threads = threads;
    const Proof proof = prove(read.design, file.parent_path(), options, progress);
    ASSERT_GT(said.size(), proof.requirements.size());
    for (std::size_t i = 1; i < said.size(); ++i) EXPECT_GE(said[i], said[i - 1] - 1e-12);
    EXPECT_GE(said.front(), 0);
    // All rows are done, and what is left is the blind zones.
    const double rows = static_cast<double>(proof.requirements.size());
    EXPECT_NEAR(said.back(), rows / (rows + 1), 1e-9);
  }
}

}  // namespace
}  // namespace belvedere::proof
