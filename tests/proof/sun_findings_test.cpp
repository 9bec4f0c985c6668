// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/sun_findings.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "design_text.h"

namespace belvedere::proof {
namespace {

// A slab on the equator with one imager, 3 m up, that looks where it is told.
design::Design site(double pan_deg, double tilt_deg, const std::string& solids = "") {
  Parts parts;
  parts.solids = solids;
  parts.models = R"({"id": "one", "kind": "housing", "imagers": [{"slot": 1, "pixels": [1920, 1080],
    "lens": {"family": "rectilinear", "hfov_deg": [60]}, "pan_deg": [-180, 180],
    "tilt_deg": [-10, 60], "roll_deg": [0, 0]}]})";
  parts.housings = fmt::format(
      R"({{"id": "C1", "model": "one", "storey": "g", "mount": {{"fixing_m": [0, 0, 3]}},
      "imagers": [{{"slot": 1, "aims": [{{"pan_deg": {}, "tilt_deg": {}}}]}}]}})",
      pan_deg, tilt_deg);
  parts.zones = R"({"id": "door", "storey": "g", "outline": [[4, -1], [6, -1], [6, 1], [4, 1]]})";
  parts.brief = R"({"id": "R1", "purpose": "who", "kind": "see", "zone": "door",
    "target": {"kind": "face"}, "px_per_m": 50})";
  design::Design design = readDesignOf(parts);
  design.site.place = design::Place{};
  return design;
}

const Finding* find(const std::vector<Finding>& all, const std::string& code) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Finding& f) { return f.code == code; });
  return at == all.end() ? nullptr : &*at;
}

// By hand: at the equator the sun rises in the east all year. A picture 36 deg high with its axis level
// has it in for 18 deg of its way, 1.2 hours a day; tilted 18 deg down, its upper edge is the horizon.
TEST(SunFindings, EastAtTheEquatorAndTheTiltThatMendsIt) {
  const auto found = sunFindings(site(90, 0), ".", {});
  const Finding* sun = find(found, "sun_in_frame");
  ASSERT_TRUE(sun);
  EXPECT_EQ(sun->about, (std::vector<std::string>{"C1.1"}));
  EXPECT_EQ(sun->found->unit, "h");
  EXPECT_NEAR(sun->found->value, 365 * 1.2, 365 * 0.25);
  EXPECT_NE(sun->sentence.find("all year"), std::string::npos) << sun->sentence;
  EXPECT_NE(sun->sentence.find("tilted 18 deg farther down"), std::string::npos) << sun->sentence;
  // So tilted, it is near the picture still, and no more in it.
  const auto tilted = sunFindings(site(90, 18.5), ".", {});
  EXPECT_FALSE(find(tilted, "sun_in_frame"));
  EXPECT_TRUE(find(tilted, "sun_near_frame"));
  EXPECT_FALSE(find(sunFindings(site(90, 40), ".", {}), "sun_near_frame"));
}

// By hand: where the model tilts by 15 deg at most, the 18 deg that are wanted are not to be had. A wall
// 12 m off that hides the lowest 9.5 deg leaves 18 - 9.5 deg of it to tilt away from... what it hides needs no
// tilt: the upper edge need come down no farther than the wall's.
TEST(SunFindings, TheTiltKeepsToTheLimitsAndToWhatIsOpen) {
  design::Design limited = site(90, 0);
  limited.catalogue.models[0].imagers[0].tilt_deg = {-10, 15};
  const auto found = sunFindings(limited, ".", {});
  const Finding* sun = find(found, "sun_in_frame");
  ASSERT_TRUE(sun);
  EXPECT_NE(sun->sentence.find("no tilt within its limits"), std::string::npos) << sun->sentence;
  const std::string wall = solidText("block", "other", {{12, -18}, {13, -18}, {13, 18}, {12, 18}}, 0, 5);
  const auto walled = sunFindings(site(90, 0, wall), ".", {});
  sun = find(walled, "sun_in_frame");
  ASSERT_TRUE(sun);
  const auto at = sun->sentence.find("tilted ");
  ASSERT_NE(at, std::string::npos) << sun->sentence;
  const double tilted_deg = std::stod(sun->sentence.substr(at + 7));
  EXPECT_GE(tilted_deg, 7);
  EXPECT_LE(tilted_deg, 12);
}

// By hand: of two spells the longer is told, by its dates: the 101st day of a year is 11 April, the 151st 31 May.
TEST(SunFindings, TheLongestSpellIsTold) {
  const light::SunYear year = light::sunYear(design::Place{}, 2026, 24);
  light::SunChart chart;
  chart.state.assign(static_cast<std::size_t>(year.days * year.steps_per_day), light::SunState::elsewhere);
  chart.state[year.at(120, 8)] = light::SunState::in_frame;
  chart.in_frame_h = 1;
  chart.spells = {{light::SunState::in_frame, 10, 12, 7, 8}, {light::SunState::in_frame, 100, 150, 8, 9},
                  {light::SunState::in_frame, 200, 204, 9, 10}};
  const std::string words = frameWords(year, chart);
  EXPECT_NE(words.find("longest 11 Apr to 31 May, between 08:00 and 09:00; most on 1 May"), std::string::npos) << words;
}

// By hand: at 52 deg north a level look south has the sun of winter in it, over the turn of the year, most
// by the winter solstice, when it is up the whole of its short day.
TEST(SunFindings, AWinterIsOneSpell) {
  design::Design design = site(180, 0);
  design.site.place->lat_deg = 52;
  const auto found = sunFindings(design, ".", {});
  const Finding* sun = find(found, "sun_in_frame");
  ASSERT_TRUE(sun);
  const auto place = makePlace(design, design::situationsOf(design).front(), ".");
  const light::SunYear year = light::sunYear(*design.site.place, kFindingsYear);
  const light::SunChart chart = sunOfImagers(design, *place, year, {})[0].chart;
  EXPECT_EQ(sun->sentence.find("longest"), std::string::npos) << sun->sentence;
  EXPECT_EQ(chart.spells.front().first_day, 0);
  EXPECT_EQ(chart.spells.back().last_day, year.days - 1);
  int most = 0;
  for (int day = 0; day < year.days; ++day) {
    int steps = 0;
    for (int step = 0; step < year.steps_per_day; ++step)
      steps += chart.state[year.at(day, step)] == light::SunState::in_frame;
    most = std::max(most, steps);
  }
  EXPECT_NE(sun->sentence.find(fmt::format("{:.1f} h)", most * year.hoursPerStep())), std::string::npos)
      << sun->sentence;
}

// By hand: as above, 1.2 hours a day in the picture; charts of one imager alone are those of all.
TEST(SunFindings, AChartInWords) {
  const design::Design design = site(90, 15);
  const auto place = makePlace(design, design::situationsOf(design).front(), ".");
  const light::SunYear year = light::sunYear(*design.site.place, kFindingsYear);
  const auto one = sunOfImagers(design, *place, year, {}, "C1.1");
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].chart.state, sunOfImagers(design, *place, year, {})[0].chart.state);
  EXPECT_TRUE(sunOfImagers(design, *place, year, {}, "C2.1").empty());
  const std::string words = frameWords(year, one[0].chart);
  EXPECT_NE(words.find(fmt::format("{:.0f} h in the picture", one[0].chart.in_frame_h)), std::string::npos) << words;
  EXPECT_NE(words.find("all year, between"), std::string::npos) << words;
  const auto behind = backlights(design, ".", year, {}, "C1.1");
  ASSERT_EQ(behind.size(), 1u);
  EXPECT_NE(backlightWords(year, behind[0].chart).find("h behind the faces (all year"), std::string::npos);
  // What a finding counts are the hours of that chart, and of no coarser one.
  const auto found = sunFindings(design, ".", {});
  const Finding *sun = find(found, "sun_in_frame"), *backlight = find(found, "backlight");
  ASSERT_TRUE(sun && backlight);
  EXPECT_DOUBLE_EQ(sun->found->value, one[0].chart.in_frame_h);
  EXPECT_DOUBLE_EQ(backlight->found->value, behind[0].chart.near_h);
  EXPECT_TRUE(backlights(design, ".", year, {}, "C2.1").empty());
  EXPECT_EQ(frameWords(year, sunOfImagers(site(90, 60), *place, year, {})[0].chart), "never in or near the picture");
}

// By hand: a wall 12 m off and 10 m high hides all that is less than 30 deg high; what is hidden is not
// counted. A site without a place has no sun.
TEST(SunFindings, WhatTheBuildingHidesIsNotCounted) {
  const std::string wall =
      solidText("block", "other", {{12, -18}, {13, -18}, {13, 18}, {12, 18}}, 0, 10);
  const auto found = sunFindings(site(90, 0, wall), ".", {});
  EXPECT_FALSE(find(found, "sun_in_frame"));
  EXPECT_FALSE(find(found, "backlight"));
  design::Design nowhere = site(90, 0);
  nowhere.site.place.reset();
  EXPECT_TRUE(sunFindings(nowhere, ".", {}).empty());
}

// Property: a zone that nobody knows is said and not guessed at in silence; a known one is no matter.
TEST(SunFindings, AnUnknownTimeZoneIsSaid) {
  design::Design design = site(90, 40);
  EXPECT_FALSE(find(sunFindings(design, ".", {}), "time_zone_unknown"));
  design.site.place->time_zone = "Africa/Nairobi";
  EXPECT_FALSE(find(sunFindings(design, ".", {}), "time_zone_unknown"));
  design.site.place->time_zone = "Nairobi time";
  EXPECT_TRUE(find(sunFindings(design, ".", {}), "time_zone_unknown"));
}

// By hand: faces 5 m east of a camera that looks east have the rising sun behind them, 20 deg of its
// way, 1.3 hours a day; seen from the east, by a camera that looks west, the setting sun is behind.
TEST(SunFindings, LowSunBehindFaces) {
  const Finding* behind = nullptr;
  const auto found = sunFindings(site(90, 15), ".", {});
  behind = find(found, "backlight");
  ASSERT_TRUE(behind);
  EXPECT_EQ(behind->about, (std::vector<std::string>{"R1", "C1.1"}));
  EXPECT_NEAR(behind->found->value, 365 * 20.0 / 15, 365 * 0.25);
  EXPECT_NE(behind->sentence.find("all year, between 05:"), std::string::npos) << behind->sentence;
  EXPECT_FALSE(find(sunFindings(site(270, 15), ".", {}), "backlight"));  // sees no face there
  // A person is seen, no face looked into.
  design::Design person = site(90, 15);
  person.brief[0].target.kind = design::TargetKind::person;
  EXPECT_FALSE(find(sunFindings(person, ".", {}), "backlight"));
  // A second camera, that looks at the same faces from the north, has the sun behind them never: it is named.
  design::Design two = site(90, 15);
  design::Housing north = two.housings[0];
  north.id = {"C2"};
  north.mount.fixing_m = {5, 8, 3};
  north.imagers[0].aims[0].pan_deg = 180;
  two.housings.push_back(north);
  const auto named = sunFindings(two, ".", {});
  behind = find(named, "backlight");
  ASSERT_TRUE(behind);
  EXPECT_NE(behind->sentence.find("for C2.1 only "), std::string::npos) << behind->sentence;
}

}  // namespace
}  // namespace belvedere::proof
