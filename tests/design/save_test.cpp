// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <random>

#include "design/attachment.h"
#include "design/write.h"
#include "sample.h"

namespace belvedere::design {
namespace {

namespace fs = std::filesystem;

class Save : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "belvedere_XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder = name;
  }
  void TearDown() override { fs::remove_all(folder); }
  fs::path folder;
};

TEST_F(Save, WritesWhatIsThereAndKnowsItsHash) {
  DesignFile file = readDesignText(kSmall, folder);
  file.design.title = "Saved";
  saveDesign(file, folder / "a.json");
  EXPECT_EQ(textOf(folder / "a.json"), with(kSmall, "\"Small\"", "\"Saved\""));
  EXPECT_EQ(file.sha256, sha256OfFile(folder / "a.json"));
  EXPECT_EQ(file.path, folder / "a.json");
  EXPECT_TRUE(readDesign(folder / "a.json").design == file.design);
  EXPECT_EQ(std::distance(fs::directory_iterator(folder), fs::directory_iterator{}), 1);
}

TEST_F(Save, KeepsPermissionsAndFollowsALink) {
  DesignFile file = readDesignText(kSmall, folder);
  saveDesign(file, folder / "a.json");
  fs::permissions(folder / "a.json", fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("a.json", folder / "link.json");
  file.design.title = "Other";
  saveDesign(file, folder / "link.json");
  EXPECT_TRUE(fs::is_symlink(folder / "link.json"));
  EXPECT_EQ(readDesign(folder / "a.json").design.title, "Other");
  EXPECT_EQ(fs::status(folder / "a.json").permissions(),
            fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(Save, SaysWhenItCannot) {
  DesignFile file = readDesignText(kSmall, folder);
  try {
    saveDesign(file, folder / "no/such/folder.json");
    ADD_FAILURE();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().at(0).code, "cannot_save");
  }
}

// Property: whenever a saving process is killed, the file is the old one or the new one, whole.
// A child saves two designs in turn, one large enough to take several writes' time, until it is
// killed at a random moment; 200 times, seeded.
TEST_F(Save, AKillAtAnyMomentLeavesAWholeFile) {
  DesignFile small = readDesignText(kSmall, folder), large = small;
  for (int i = 0; i < 3000; ++i) {
    Zone zone = large.design.site.zones[0];
    zone.id.text = "z" + std::to_string(i);
    large.design.site.zones.push_back(zone);
  }
  const std::string small_text = writeDesign(small), large_text = writeDesign(large);
  const fs::path path = folder / "a.json";
  // Kills fall within a few saves' time, however slow the machine is just now.
  const auto start = std::chrono::steady_clock::now();
  saveDesign(large, path);
  saveDesign(small, path);
  const auto two_saves = std::chrono::steady_clock::now() - start;
  const auto longest_us = static_cast<unsigned>(std::max<std::int64_t>(
      30'000, 3 * std::chrono::duration_cast<std::chrono::microseconds>(two_saves).count()));
  constexpr unsigned kSeed = 20260331;
  std::mt19937 random(kSeed);
  int old_seen = 0, new_seen = 0, left_beside = 0;
  for (int round = 0; round < 200; ++round) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      for (int i = 0;; ++i) saveDesign(i % 2 ? small : large, path);
    }
    ::usleep(std::uniform_int_distribution<unsigned>(0, longest_us)(random));
    ASSERT_EQ(::kill(child, SIGKILL), 0);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the child ended by itself, round " << round;
    const std::string text = textOf(path);
    ASSERT_TRUE(text == small_text || text == large_text)
        << "round " << round << ", seed " << kSeed << ": " << text.size() << " bytes";
    ++(text == small_text ? old_seen : new_seen);
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
      if (entry.path().extension() == ".part") {
        ++left_beside;  // killed between opening and renaming: the moment that matters
        fs::remove(entry.path());
      }
  }
  EXPECT_GT(old_seen, 0);
  EXPECT_GT(new_seen, 0);
  EXPECT_GT(left_beside, 0) << "no kill fell into a save: the test tries nothing";
}

}  // namespace
}  // namespace belvedere::design
