// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/attachment.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "sample.h"

namespace belvedere::design {
namespace {

namespace fs = std::filesystem;

// A folder of its own, gone afterwards.
class Attachments : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "belvedere_XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder = fs::path(name) / "design";
    fs::create_directories(folder / "sub");
    write(folder / "sub/a.txt", "abc");
    write(folder.parent_path() / "outside.txt", "abc");
  }
  void TearDown() override { fs::remove_all(folder.parent_path()); }

  static void write(const fs::path& path, const std::string& text) { std::ofstream(path) << text; }
  std::string codeOf(const std::string& path, const std::string& sha256) const {
    const auto problem = attachmentProblem({path, sha256}, folder, "/x");
    return problem ? problem->code + " " + problem->where : "";
  }

  fs::path folder;
};

// Published: FIPS 180-4, appendix on SHA-256, message "abc".
const std::string kAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

TEST_F(Attachments, TheRightFileIsNoProblem) {
  EXPECT_EQ(sha256OfText("abc"), kAbc);
  EXPECT_EQ(sha256OfFile(folder / "sub/a.txt"), kAbc);
  EXPECT_EQ(codeOf("sub/a.txt", kAbc), "");
}

TEST_F(Attachments, AChangedFileIsNamed) {
  write(folder / "sub/a.txt", "abd");
  EXPECT_EQ(codeOf("sub/a.txt", kAbc), "attachment_changed /x/sha256");
}

TEST_F(Attachments, AMissingFileAFolderAndAPipeAreNamed) {
  EXPECT_EQ(codeOf("sub/b.txt", kAbc), "attachment_missing /x/path");
  EXPECT_EQ(codeOf("sub", kAbc), "attachment_missing /x/path");
  EXPECT_EQ(codeOf("", kAbc), "attachment_missing /x/path");
  ASSERT_EQ(::mkfifo((folder / "pipe").c_str(), 0600), 0);
  EXPECT_EQ(codeOf("pipe", kAbc), "attachment_missing /x/path");
}

TEST_F(Attachments, APathOutOfTheFolderIsRefused) {
  EXPECT_EQ(codeOf("../outside.txt", kAbc), "path_climbs /x/path");
  EXPECT_EQ(codeOf("sub/../../outside.txt", kAbc), "path_climbs /x/path");
  EXPECT_EQ(codeOf("sub\\..\\..\\outside.txt", kAbc), "path_climbs /x/path");
  EXPECT_EQ(codeOf((folder / "sub/a.txt").string(), kAbc), "path_absolute /x/path");
  EXPECT_EQ(codeOf("C:/outside.txt", kAbc), "path_absolute /x/path");
  EXPECT_EQ(codeOf("\\\\host\\outside.txt", kAbc), "path_absolute /x/path");
}

TEST_F(Attachments, ASymbolicLinkMayNotLeadOutOfTheFolder) {
  fs::create_symlink("../outside.txt", folder / "link.txt");
  fs::create_directory_symlink("..", folder / "up");
  fs::create_symlink("sub/a.txt", folder / "inside.txt");
  EXPECT_EQ(codeOf("link.txt", kAbc), "path_climbs /x/path");
  EXPECT_EQ(codeOf("up/outside.txt", kAbc), "path_climbs /x/path");
  EXPECT_EQ(codeOf("inside.txt", kAbc), "");
}

TEST_F(Attachments, AProblemOfACatalogueFileNamesTheFile) {
  const std::string gear = with(textOf(dataFolder() / "gear.json"), "\"kind\": \"cable\"",
                                "\"kind\": \"cabel\"");
  write(folder / "gear.json", gear);
  const std::string text =
      with(kSmall, "\"catalogue\": {",
           "\"catalogue\": {\"files\": [{\"path\": \"gear.json\", \"sha256\": \"" +
               sha256OfText(gear) + "\"}],");
  try {
    readDesignText(text, folder);
    ADD_FAILURE();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u) << error.what();
    EXPECT_EQ(error.problems()[0].code, "unknown_word");
    EXPECT_EQ(error.problems()[0].where, "gear.json#/models/1/kind");
  }
}

TEST_F(Attachments, ADesignWithAChangedAttachmentIsRefused) {
  for (const char* name : {"crate.obj", "ground.asc", "paper.txt", "gear.json", "whole.json"})
    fs::copy_file(dataFolder() / name, folder / name);
  EXPECT_NO_THROW(readDesign(folder / "whole.json"));
  write(folder / "crate.obj", "v 0 0 0\n");
  try {
    readDesign(folder / "whole.json");
    ADD_FAILURE();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u) << error.what();
    EXPECT_EQ(error.problems()[0].code, "attachment_changed");
    EXPECT_EQ(error.problems()[0].where, "/site/solids/1/file/sha256");
  }
}

}  // namespace
}  // namespace belvedere::design
