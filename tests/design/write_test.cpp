// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/write.h"

#include <gtest/gtest.h>

#include "design/json_tree.h"
#include "sample.h"

namespace belvedere::design {
namespace {

// Lines of `after` that are not those of `before` at the same place.
std::size_t linesChanged(const std::string& before, const std::string& after) {
  std::stringstream a(before), b(after);
  std::string line_a, line_b;
  std::size_t changed = 0;
  while (true) {
    const bool more_a = static_cast<bool>(std::getline(a, line_a));
    const bool more_b = static_cast<bool>(std::getline(b, line_b));
    if (!more_a && !more_b) return changed;
    changed += more_a != more_b || line_a != line_b;
  }
}

// Property: writing what was read from canonical text gives the same bytes.
TEST(WriteDesign, CanonicalTextComesBackByteForByte) {
  EXPECT_EQ(writeDesign(readDesignText(wholeText(), dataFolder())), wholeText());
  EXPECT_EQ(writeDesign(readDesignText(kSmall, dataFolder())), kSmall);
}

// Property: reading what was written gives the same design, with the old source and without.
TEST(WriteDesign, TheDesignComesBackWhole) {
  DesignFile file = readDesignText(wholeText(), dataFolder());
  EXPECT_TRUE(readDesignText(writeDesign(file), dataFolder()).design == file.design);
  file.source = nullptr;
  EXPECT_TRUE(readDesignText(writeDesign(file), dataFolder()).design == file.design);
}

// Property: changing one number changes one line.
TEST(WriteDesign, OneNumberIsOneLine) {
  DesignFile file = readDesignText(wholeText(), dataFolder());
  file.design.site.buildings[0].storeys[0].height_m = 4.05;
  EXPECT_EQ(linesChanged(wholeText(), writeDesign(file)), 1u);
  file.design.housings[0].imagers[0].aims[1].pan_deg = 41;
  EXPECT_EQ(linesChanged(wholeText(), writeDesign(file)), 2u);
}

TEST(WriteDesign, AnInsertedObjectMovesNoOther) {
  DesignFile file = readDesignText(kSmall, dataFolder());
  Zone zone;
  zone.id.text = "new";
  zone.storey.text = "g";
  zone.outline = {{7, 1}, {8, 1}, {8, 2}};
  file.design.site.zones.insert(file.design.site.zones.begin(), zone);
  const std::string text = writeDesign(file);
  EXPECT_NE(text.find("{\"id\": \"z\", \"storey\": \"g\", \"outline\""), std::string::npos) << text;
  EXPECT_NE(text.find("{\"id\": \"new\", \"storey\": \"g\", \"outline\""), std::string::npos);
}

TEST(WriteDesign, TheOrderOfKeysIsKeptAndNewKeysStandByTheTable) {
  const std::string text = with(kSmall, "{\"id\": \"door\", \"from_m\": 1, \"width_m\": 1,",
                                "{\"width_m\": 1, \"id\": \"door\", \"from_m\": 1,");
  DesignFile file = readDesignText(text, dataFolder());
  EXPECT_EQ(writeDesign(file), text);
  file.design.site.buildings[0].storeys[0].walls[0].openings[0].title = "Door";
  EXPECT_NE(writeDesign(file).find(
                "{\"width_m\": 1, \"id\": \"door\", \"title\": \"Door\", \"from_m\": 1,"),
            std::string::npos)
      << writeDesign(file);
}

TEST(WriteDesign, DefaultsAreWrittenOnlyWhereTheyStood) {
  DesignFile file = readDesignText(kSmall, dataFolder());
  EXPECT_EQ(writeDesign(file).find("\"share\""), std::string::npos);
  file.design.brief[0].share = 0.9;
  EXPECT_NE(writeDesign(file).find("\"share\": 0.9"), std::string::npos);
  file = readDesignText(writeDesign(file), dataFolder());
  file.design.brief[0].share = 0.95;
  EXPECT_NE(writeDesign(file).find("\"share\": 0.95"), std::string::npos);
}

TEST(WriteDesign, WhatIsTakenAwayLeavesNoTrace) {
  DesignFile file = readDesignText(wholeText(), dataFolder());
  file.design.site.solids[0].slope.reset();
  file.design.site.solids[0].top_m = 1;
  file.design.site.solids[0].material.text.clear();
  file.design.site.terrain.reset();
  const std::string text = writeDesign(file);
  EXPECT_EQ(text.find("rise_m"), std::string::npos);
  EXPECT_EQ(text.find("terrain"), std::string::npos);
  EXPECT_TRUE(readDesignText(text, dataFolder()).design == file.design);
}

// Property: the shortest digits that read back the same.
TEST(PrintNumber, IsShortestAndExact) {
  EXPECT_EQ(printNumber(0.1), "0.1");
  EXPECT_EQ(printNumber(3), "3");
  EXPECT_EQ(printNumber(-0.0), "0");
  EXPECT_EQ(printNumber(431234.5), "431234.5");
  for (const double value : {1.0 / 3, 1e-7, 123456789.125, 5e-324, 1.7976931348623157e308})
    EXPECT_EQ(std::strtod(printNumber(value).c_str(), nullptr), value);
}

TEST(PrintJson, BreaksALineThatWouldPassColumn100) {
  std::vector<Problem> problems;
  const std::string over = "{\"a\": \"" + std::string(92, 'x') + "\"}";
  ASSERT_EQ(over.size(), 101u);
  EXPECT_NE(printJson(parseJson(over, problems)).find("\n  \"a\""), std::string::npos);
  const std::string just = "{\"a\": \"" + std::string(91, 'x') + "\"}";
  EXPECT_EQ(printJson(parseJson(just, problems)), just + "\n");
  // Columns are characters, not bytes.
  std::string umlauts = "{\"a\": \"";
  for (int i = 0; i < 91; ++i) umlauts += "\xc3\xbc";
  EXPECT_EQ(printJson(parseJson(umlauts + "\"}", problems)), umlauts + "\"}\n");
  EXPECT_TRUE(problems.empty());
}

TEST(WriteCatalogue, ComesBackWhole) {
  const std::vector<Model> models = readCatalogue(dataFolder() / "gear.json");
  EXPECT_TRUE(readCatalogueText(writeCatalogue("Gear", models)) == models);
}

}  // namespace
}  // namespace belvedere::design
