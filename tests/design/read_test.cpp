// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the reader refuses, and what it says. Each row edits the small design in one place.
#include "design/read.h"

#include <gtest/gtest.h>

#include "design/task_table.h"
#include "sample.h"

namespace belvedere::design {
namespace {

std::vector<Problem> problemsOf(const std::string& text,
                                const std::filesystem::path& folder = dataFolder()) {
  try {
    readDesignText(text, folder);
  } catch (const InputError& error) {
    return error.problems();
  }
  return {};
}

std::string listed(const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& p : problems)
    text += p.code + " " + p.where + ": " + p.what + " (" + p.hint + ")\n";
  return text;
}

struct Slip {
  std::string from, to;     // an edit of the small design
  std::string code, where;  // the one problem that it gives
  std::string hint;         // part of its hint; empty: not looked at
};
void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.code << " by " << slip.to; }

class Slips : public testing::TestWithParam<Slip> {};

TEST_P(Slips, GivesItsOneProblem) {
  const Slip& slip = GetParam();
  const std::vector<Problem> problems = problemsOf(with(kSmall, slip.from, slip.to));
  ASSERT_EQ(problems.size(), 1u) << listed(problems);
  EXPECT_EQ(problems[0].code, slip.code) << listed(problems);
  EXPECT_EQ(problems[0].where, slip.where) << listed(problems);
  EXPECT_NE(problems[0].hint.find(slip.hint), std::string::npos) << listed(problems);
}

const std::string kStorey = "/site/buildings/0/storeys/0";
const std::string kAim = "/housings/0/imagers/0/aims/0";
const std::string kModel = "/catalogue/models/0";

INSTANTIATE_TEST_SUITE_P(
    Text, Slips,
    testing::Values(
        Slip{"\"title\": \"Small\",", "\"title\": \"Small\",,", "not_json", "/title", "read"},
        Slip{"\"title\": \"Small\"", "\"title\": NaN", "not_a_number", "/title", "leave the key"},
        Slip{"\"height_m\": 3", "\"height_m\": Infinity", "not_a_number", kStorey + "/height_m",
             ""},
        Slip{"\"height_m\": 3", "\"height_m\": -Infinity", "not_a_number", kStorey + "/height_m",
             ""},
        Slip{"\"height_m\": 3", "\"height_m\": 1e999", "number_too_large", kStorey + "/height_m",
             ""},
        Slip{"\"title\": \"Small\"", "\"title\": \"Small\", \"title\": \"Other\"", "duplicate_key",
             "/title", "keep one"},
        Slip{"\"format\": \"belvedere.design\"", "\"format\": \"belvedere.catalogue\"",
             "wrong_format", "/format", "belvedere.design"},
        Slip{"\"version\": 1", "\"version\": 2", "version_newer", "/version", "newer program"},
        Slip{"\"version\": 1", "\"version\": 0", "version_unknown", "/version", ""},
        Slip{"\"version\": 1", "\"version\": -1e300", "version_unknown", "/version", ""},
        Slip{"\"version\": 1", "\"version\": \"1\"", "version_unknown", "/version", ""}));

INSTANTIATE_TEST_SUITE_P(
    Values, Slips,
    testing::Values(
        Slip{"\"height_m\": 3", "\"heigth_m\": 3", "unknown_key", kStorey + "/heigth_m",
             "\"height_m\""},
        Slip{"\"pixels\": [1920, 1080], \"lens\": {\"hfov_deg\": [90]}",
             "\"lens\": {\"hfov_deg\": [90]}", "missing_key", kModel + "/imagers/1", ""},
        Slip{"\"height_m\": 3", "\"height_m\": \"3\"", "wrong_type", kStorey + "/height_m",
             "without quotes"},
        Slip{"\"from\": [1]", "\"from\": 1", "wrong_type", "/housings/0/streams/0/from",
             "square brackets"},
        Slip{"\"slot\": 2, \"pixels\"", "\"slot\": 2.5, \"pixels\"", "wrong_type",
             kModel + "/imagers/1/slot", ""},
        Slip{"\"height_m\": 3", "\"height_m\": null", "null_value", kStorey + "/height_m",
             "leave the key out"},
        Slip{"\"kind\": \"face\"", "\"kind\": \"fase\"", "unknown_word", "/brief/0/target/kind",
             "\"face\""},
        Slip{"\"size_px\": [960, 540]", "\"size_px\": [960]", "wrong_length",
             "/housings/0/streams/0/size_px", ""},
        Slip{"\"height_m\": 3", "\"height_m\": 2700", "wrong_unit", kStorey + "/height_m",
             "millimetres, write 2.7"},
        Slip{"\"height_m\": 3", "\"height_m\": 1e308", "out_of_range", kStorey + "/height_m", ""},
        Slip{"\"focal_mm\": [3, 9]", "\"focal_mm\": [0.003, 9]", "wrong_unit",
             kModel + "/imagers/0/lens/focal_mm/0", "metres, write 3"},
        Slip{"\"task\": \"identify\"", "\"task\": \"identify\", \"share\": 95", "wrong_unit",
             "/brief/0/share", "percent, write 0.95"},
        Slip{"\"path\": [[0, 0], [10, 0]]", "\"path\": [[0, 0], [4000, 0]]", "wrong_unit",
             kStorey + "/walls/0/path", "millimetres"},
        Slip{"\"outline\": [[1, 1], [3, 1]", "\"outline\": [[431000, 1], [3, 1]", "wrong_unit",
             "/site/zones/0/outline/0/0", "origin_m"},
        Slip{"\"title\": \"Small\"", "\"title\": \"Small\", \"money\": \"euro\"", "bad_text",
             "/money", "ISO 4217"},
        Slip{"\"title\": \"Small\"", "\"title\": \"Sm\\u0000all\"", "bad_text", "/title", ""}));

INSTANTIATE_TEST_SUITE_P(
    Ids, Slips,
    testing::Values(
        Slip{"\"id\": \"rack\"", "\"id\": \"door\"", "duplicate_id", "/site/solids/0/id",
             "unique"},
        Slip{"\"id\": \"rack\"", "\"id\": \"all\"", "bad_id", "/site/solids/0/id", ""},
        Slip{"\"id\": \"rack\"", "\"id\": \" \"", "bad_id", "/site/solids/0/id", ""},
        Slip{"\"zone\": \"z\"", "\"zone\": \"y\"", "unknown_id", "/brief/0/zone", "\"z\""},
        Slip{"\"zone\": \"z\"", "\"zone\": \"rack\"", "wrong_kind_of_id", "/brief/0/zone", ""},
        Slip{"\"model\": \"cam\"", "\"model\": \"can\"", "unknown_id", "/housings/0/model",
             "\"cam\""},
        Slip{"\"task\": \"identify\"", "\"task\": \"identify\", \"situations\": [\"nigth\"]",
             "unknown_id", "/brief/0/situations/0", "\"night\""}));

INSTANTIATE_TEST_SUITE_P(
    Shapes, Slips,
    testing::Values(
        Slip{"[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [3, 3], [3, 1], [1, 3]]",
             "self_crossing", "/site/zones/0/outline", ""},
        Slip{"[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [3, 1], [3, 3], [1, 3], [1, 1]]",
             "self_crossing", "/site/zones/0/outline", "leave the last point out"},
        Slip{"[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [3, 1]]", "too_few_points",
             "/site/zones/0/outline", ""},
        Slip{"[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [3, 1], [2, 1]]", "zero_area",
             "/site/zones/0/outline", ""},
        Slip{"\"path\": [[0, 0], [10, 0]]", "\"path\": [[0, 0]]", "too_few_points",
             kStorey + "/walls/0/path", ""},
        Slip{"[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [13, 1], [13, 3], [1, 3]]",
             "zone_outside_slab", "/site/zones/0/outline", "outside"},
        Slip{"\"id\": \"z\", ", "\"id\": \"z\", \"surface\": \"rack\", ", "zone_outside_surface",
             "/site/zones/0/outline", ""},
        Slip{"\"id\": \"z\", ",
             "\"id\": \"z\", \"holes\": [[[2, 2], [4, 2], [4, 2.5], [2, 2.5]]], ", "hole_outside",
             "/site/zones/0/holes/0", ""},
        Slip{"\"from_m\": 1,", "\"from_m\": 9.5,", "opening_outside_wall",
             kStorey + "/walls/0/openings/0", ""},
        Slip{"\"head_m\": 2.1", "\"head_m\": 3.2", "opening_outside_wall",
             kStorey + "/walls/0/openings/0", ""},
        Slip{"\"head_m\": 2.1}",
             "\"head_m\": 2.1}, {\"id\": \"o\", \"from_m\": 1.5, \"width_m\": 2, \"head_m\": 1}",
             "openings_overlap", kStorey + "/walls/0/openings/1", ""},
        Slip{"\"top_m\": 2}", "\"top_m\": 2, \"base_m\": 2.5}", "top_below_base",
             "/site/solids/0", ""},
        Slip{"\"path\": [[0, 0], [10, 0]],", "\"path\": [[0, 0], [10, 0]], \"base_m\": 2.9, "
             "\"height_m\": 2.8,", "top_below_base", kStorey + "/walls/0", ""}));

INSTANTIATE_TEST_SUITE_P(
    Brief, Slips,
    testing::Values(Slip{"\"zone\": \"z\", ", "", "requirement_without_zone", "/brief/0", ""},
                    Slip{", \"task\": \"identify\"", "", "requirement_density", "/brief/0", ""},
                    Slip{"\"task\": \"identify\"", "\"task\": \"identify\", \"px_per_m\": 100",
                         "requirement_density", "/brief/0", ""},
                    Slip{"\"task\": \"identify\"", "\"task\": \"identfy\"", "unknown_task",
                         "/brief/0/task", "\"identify\""},
                    Slip{"\"task\": \"identify\"", "\"task\": \"characterise\"", "unknown_task",
                         "/brief/0/task", "2025 edition, 250 px/m; this table has \"identify\""},
                    Slip{"\"title\": \"Small\"",
                         "\"title\": \"Small\", \"task_table\": {\"edition\": \"2015\"}",
                         "unknown_word", "/task_table/edition", "201"},
                    Slip{"\"title\": \"Small\"",
                         "\"title\": \"Small\", \"task_table\": {\"edition\": \"2014\","
                         "\"rows\": [{\"task\": \"x\", \"px_per_m\": 1}]}",
                         "task_table_rows", "/task_table/rows", ""},
                    Slip{"\"kind\": \"face\"", "\"kind\": \"custom\"", "requirement_incomplete",
                         "/brief/0/target", "band_m"},
                    Slip{"\"kind\": \"face\"", "\"kind\": \"face\", \"band_m\": [2, 1]",
                         "range_reversed", "/brief/0/target/band_m", ""}));

INSTANTIATE_TEST_SUITE_P(
    Cameras, Slips,
    testing::Values(
        Slip{"\"pan_deg\": 20, \"tilt_deg\": 25", "\"pan_deg\": 120, \"tilt_deg\": 25",
             "aim_outside_limits", kAim, "base_bearing_deg"},
        Slip{"\"pan_deg\": 20, \"tilt_deg\": 25", "\"pan_deg\": 20, \"tilt_deg\": 75",
             "aim_outside_limits", kAim, ""},
        Slip{"\"pan_deg\": -20, \"tilt_deg\": 0", "\"pan_deg\": -20, \"tilt_deg\": 0, "
             "\"roll_deg\": 5", "aim_outside_limits", "/housings/0/imagers/1/aims/0", ""},
        Slip{"\"fixing_m\": [5, 5, 2.8]", "\"fixing_m\": [5, 5, 2.8], \"base_tilt_deg\": 20",
             "aim_outside_limits", "/housings/0/imagers/1/aims/0", ""},
        Slip{"\"hfov_deg\": 60", "\"hfov_deg\": 100", "zoom_out_of_range", kAim, ""},
        Slip{"\"hfov_deg\": 60", "\"focal_mm\": 12", "zoom_out_of_range", kAim, ""},
        Slip{"\"tilt_deg\": 0}", "\"tilt_deg\": 0, \"hfov_deg\": 60}", "zoom_out_of_range",
             "/housings/0/imagers/1/aims/0", ""},
        Slip{"\"hfov_deg\": 60", "\"hfov_deg\": 60, \"focal_mm\": 4", "zoom_twice", kAim, ""},
        Slip{"{\"slot\": 2, \"aims\"", "{\"slot\": 3, \"aims\"", "unknown_slot",
             "/housings/0/imagers/1", "1, 2"},
        Slip{"{\"slot\": 2, \"aims\"", "{\"slot\": 1, \"aims\"", "duplicate_slot",
             "/housings/0/imagers/1", ""},
        Slip{"\"pan_deg\": -20", "\"pan_deg\": -5", "ring_too_close", "/housings/0/imagers/1", ""},
        Slip{"\"from\": [1]", "\"from\": [4]", "unknown_slot", "/housings/0/streams/0/from/0", ""},
        Slip{"\"from\": [1]", "\"from\": [1], \"view\": \"crop\"", "stream_incomplete",
             "/housings/0/streams/0", "region"},
        Slip{"\"lens\": {\"hfov_deg\": [90]}", "\"lens\": {}", "lens_incomplete",
             kModel + "/imagers/1/lens", ""},
        Slip{"\"lens\": {\"hfov_deg\": [90]}", "\"lens\": {\"hfov_deg\": [190]}",
             "lens_incomplete", kModel + "/imagers/1/lens", ""},
        Slip{"\"focal_mm\": [3, 9]", "\"focal_mm\": [9, 3]", "range_reversed",
             kModel + "/imagers/0/lens/focal_mm", ""},
        Slip{"\"rule\": \"apart_deg\", \"value\": 30", "\"rule\": \"apart_deg\"",
             "shared_incomplete", kModel + "/shared/0", ""}));

TEST(ReadDesign, TheSmallDesignIsSound) { EXPECT_EQ(listed(problemsOf(kSmall)), ""); }

TEST(ReadDesign, EveryKeyOfTheFormatIsRead) {
  const DesignFile file = readDesign(dataFolder() / "whole.json");
  EXPECT_EQ(file.design.title, "Whole: every key of the format once");
  EXPECT_EQ(file.design.library.size(), 3u);
  EXPECT_EQ(file.design.housings.at(0).life, Life::existing);
  EXPECT_EQ(file.design.site.materials.at(0).infrared.share, 0.6);
  EXPECT_EQ(file.design.alternatives.at(0).edits.at(0).value, "[12, 10, 3.25]");
  EXPECT_EQ(neededDensity(file.design, file.design.brief.at(0)), 17);
}

TEST(ReadDesign, DefaultsAreThoseOfTheStructs) {
  const DesignFile file = readDesignText(kSmall, dataFolder());
  EXPECT_EQ(file.design.brief.at(0).share, Requirement{}.share);
  EXPECT_EQ(file.design.site.buildings.at(0).storeys.at(0).slab_m, Storey{}.slab_m);
  EXPECT_EQ(file.design.housings.at(0).life, Life::new_);
}

// Property: problems of different places do not hide one another, and come in the file's order.
TEST(ReadDesign, AllProblemsComeInOneGo) {
  std::string text = with(kSmall, "\"height_m\": 3", "\"heigth_m\": 3");
  text = with(text, "\"zone\": \"z\"", "\"zone\": \"y\"");
  text = with(text, "\"pan_deg\": 20,", "\"pan_deg\": 120,");
  text = with(text, "\"title\": \"Small\"", "\"title\": 7");
  const std::vector<Problem> problems = problemsOf(text);
  ASSERT_EQ(problems.size(), 4u) << listed(problems);
  EXPECT_EQ(problems[0].code, "wrong_type");
  EXPECT_EQ(problems[1].code, "unknown_key");
  EXPECT_EQ(problems[2].code, "unknown_id");
  EXPECT_EQ(problems[3].code, "aim_outside_limits");
}

// Property: one slip is one problem; what follows from it is not said again.
TEST(ReadDesign, AValueThatCannotBeReadIsNotJudgedAgain) {
  const std::vector<Problem> problems =
      problemsOf(with(kSmall, "[[1, 1], [3, 1], [3, 3], [1, 3]]", "[[1, 1], [3, \"1\"], [3, 3]]"));
  ASSERT_EQ(problems.size(), 1u) << listed(problems);
  EXPECT_EQ(problems[0].where, "/site/zones/0/outline/1/1");
}

TEST(ReadDesign, SyntaxErrorsNameLineAndColumn) {
  const std::vector<Problem> problems = problemsOf("{\n  \"a\": 1,\n  \"b\" 2\n}");
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].code, "not_json");
  EXPECT_NE(problems[0].what.find("line 3, column 7"), std::string::npos) << problems[0].what;
  EXPECT_EQ(problemsOf("").at(0).code, "not_json");
  EXPECT_EQ(problemsOf("[]").at(0).code, "wrong_format");
  EXPECT_EQ(problemsOf("\xff\xfe").at(0).code, "not_json");
}

// Regression guard: nesting is counted, not recursed into; a million brackets take no stack.
TEST(ReadDesign, DeepNestingIsRefused) {
  for (const std::string& open : {std::string("["), std::string("{\"a\":")}) {
    std::string text;
    for (int i = 0; i < 1'000'000; ++i) text += open;
    const std::vector<Problem> problems = problemsOf(text);
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].code, "too_deep");
  }
}

TEST(ReadDesign, ALongListOfProblemsIsCutOff) {
  std::string text = "{\"format\": \"belvedere.design\", \"version\": 1, \"people\": [";
  for (int i = 0; i < 5000; ++i) text += i ? ",1" : "1";
  const std::vector<Problem> problems = problemsOf(text + "]}");
  ASSERT_EQ(problems.size(), 1001u);
  EXPECT_EQ(problems.back().code, "more_problems");
  EXPECT_NE(problems.back().what.find("4000"), std::string::npos);
}

TEST(ReadDesign, AFileThatIsTooLargeIsRefusedUnread) {
  const std::filesystem::path path =
      std::filesystem::temp_directory_path() / "belvedere_large.json";
  { std::ofstream(path) << "{}"; }
  std::filesystem::resize_file(path, 200u << 20);  // sparse
  try {
    readDesign(path);
    ADD_FAILURE() << "a file of 200 MB was read";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u);
    EXPECT_EQ(error.problems()[0].code, "file_too_large");
  }
  std::filesystem::remove(path);
}

TEST(ReadDesign, AMissingFileAndAFolderAreNoDesigns) {
  for (const std::filesystem::path& path : {dataFolder() / "no_such.json", dataFolder()}) {
    try {
      readDesign(path);
      ADD_FAILURE();
    } catch (const InputError& error) {
      EXPECT_EQ(error.problems().at(0).code, "file_not_readable");
    }
  }
}

TEST(ReadCatalogue, ReadsModels) {
  const std::vector<Model> models = readCatalogue(dataFolder() / "gear.json");
  ASSERT_EQ(models.size(), 3u);
  EXPECT_EQ(models[0].id.text, "arm");
  EXPECT_EQ(models[0].kind, ModelKind::mount);
}

TEST(ReadCatalogue, SaysWhatIsWrong) {
  const std::string text = textOf(dataFolder() / "gear.json");
  try {
    readCatalogueText(
        with(with(text, "\"reach_m\": 0.3", "\"reach_m\": 300"), "\"bays\"", "\"bay\""));
    ADD_FAILURE();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 2u) << error.what();
    EXPECT_EQ(error.problems()[0].code, "wrong_unit");
    EXPECT_EQ(error.problems()[0].where, "/models/0/reach_m");
    EXPECT_EQ(error.problems()[1].code, "unknown_key");
  }
}

}  // namespace
}  // namespace belvedere::design
