// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the reader refuses in the sections that the small design does not have: each row edits the
// whole sample in one place.
#include <gtest/gtest.h>

#include "design/read.h"
#include "sample.h"

namespace belvedere::design {
namespace {

struct Slip {
  std::string from, to, code, where;
};
void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.code << " by " << slip.to; }

class WholeSlips : public testing::TestWithParam<Slip> {};

TEST_P(WholeSlips, GivesItsOneProblem) {
  const Slip& slip = GetParam();
  try {
    readDesignText(with(wholeText(), slip.from, slip.to), dataFolder());
    ADD_FAILURE() << "nothing was said";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u) << error.what();
    EXPECT_EQ(error.problems()[0].code, slip.code) << error.what();
    EXPECT_EQ(error.problems()[0].where, slip.where) << error.what();
  }
}

std::string manyPoints() {
  std::string points = "[";
  for (int i = 0; i <= 10'000; ++i)
    points += (i ? ", [" : "[") + std::to_string(11 + i * 1e-4) + ", 10]";
  return points + "]";
}

INSTANTIATE_TEST_SUITE_P(
    Sections, WholeSlips,
    testing::Values(
        Slip{"{\"task\": \"name\", \"px_per_m\": 260}",
             "{\"task\": \"name\", \"px_per_m\": 260}, {\"task\": \"count\", \"px_per_m\": 20}",
             "duplicate_task", "/task_table/rows/2/task"},
        Slip{"\"kind\": \"ambient\",", "\"kind\": \"luminaire\",", "light_incomplete",
             "/site/lights/0"},
        Slip{"\"kind\": \"mesh\",", "\"kind\": \"mesh\", \"outline\": [[1, 1], [2, 1], [2, 2]],",
             "solid_shape", "/site/solids/1"},
        Slip{"\"path\": [[0, 12], [20, 12]]", "\"path\": [[0, 12], [0, 12]]", "zero_length",
             "/site/buildings/0/storeys/0/walls/0/path"},
        Slip{"\"path\": [[11, 10], [21, 10]]", "\"path\": " + manyPoints(), "too_many_points",
             "/site/mounting/0/path"},
        Slip{"\"heights_m\": [3, 3.5]", "\"heights_m\": [3.5, 3]", "range_reversed",
             "/site/mounting/0/heights_m"},
        Slip{"\"absent\": [\"s2\", \"o1\"]", "\"absent\": [\"s2\", \"s1\"]", "present_and_absent",
             "/situations/0/absent/1"},
        Slip{"\"rule\": \"cross\"", "\"share\": 0.9", "requirement_incomplete", "/brief/2"},
        Slip{"\"amount_most\": 25000", "\"share\": 0.9", "requirement_incomplete", "/brief/3"},
        Slip{"\"model\": \"bracket\"", "\"model\": \"switch\"", "model_of_other_kind",
             "/housings/0/mount/model"},
        Slip{"\"model\": \"box\"", "\"model\": \"cat6\"", "model_of_other_kind",
             "/services/devices/1/model"},
        Slip{"\"cable\": \"cat6\"", "\"cable\": \"box\"", "model_of_other_kind",
             "/services/links/0/cable"},
        Slip{"\"aims\": [{\"pan_deg\": 200, \"tilt_deg\": 40}]", "\"aims\": []", "no_aim",
             "/housings/0/imagers/1/aims"},
        Slip{"\"focal_mm\": 4, \"time_share\": 0.25", "\"focal_mm\": 4, \"time_share\": 0.75",
             "time_shares", "/housings/0/imagers/0/aims"},
        Slip{"\"margin_px\": 8", "\"margin_px\": 972", "margin_too_wide",
             "/housings/0/imagers/0/margin_px"},
        Slip{"\"margin_px\": 8", "\"margin_px\": 800", "margin_too_wide",  // 1555 px are left
             "/housings/0/streams/0/region"},
        Slip{"\"follows\": 2", "\"follows\": 5", "unknown_slot", "/housings/0/lamps/0/follows"},
        Slip{"\"region\": [0.1, 0.1, 0.9, 0.9]", "\"region\": [0.9, 0.1, 0.1, 0.9]",
             "range_reversed", "/housings/0/streams/0/region"},
        Slip{"\"fits\": [\"ceiling\", \"beam\"]",
             "\"imagers\": [{\"pixels\": [640, 480], \"lens\": {\"hfov_deg\": [60]}}]",
             "model_incomplete", "/catalogue/models/1/imagers"},
        Slip{"\"to\": \"d1\"", "\"to\": \"C1\"", "link_to_itself", "/services/links/0"},
        Slip{"\"schedule\": \"07:00-19:30\"", "\"schedule\": \"07:00-25:30\"", "bad_text",
             "/services/recording/0/schedule"},
        Slip{"\"imager\": \"C1.2\"", "\"imager\": \"C1.3\"", "unknown_imager", "/tests/0/imager"},
        Slip{"\"issued_in\": \"rev_a\"", "\"issued_in\": \"rev_b\"", "unknown_id",
             "/tests/0/issued_in"},
        Slip{"\"of\": \"C1.1\"", "\"of\": \"C9.1\"", "unknown_id", "/evidence/0/of"},
        Slip{"\"date\": \"2026-02-28\"", "\"date\": \"2026-02-29\"", "bad_text",
             "/revisions/0/date"},
        Slip{"\"value\": [12, 10, 3.25]", "\"value\": null", "null_value",
             "/alternatives/0/edits/0/value"}));

TEST(ReadDesign, AListWithoutEndIsRefused) {
  std::string text = "[";
  for (int i = 0; i < 8'000'001; ++i) text += "0,";
  try {
    readDesignText(text + "0]", dataFolder());
    ADD_FAILURE();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().at(0).code, "too_many_values");
  }
}

}  // namespace
}  // namespace belvedere::design
