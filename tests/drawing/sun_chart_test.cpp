// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sun_chart.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/units.h"
#include "geometry/polygon.h"

namespace belvedere::drawing {
namespace {

namespace fs = std::filesystem;
using light::SunState;

// A year of hours in which nothing is said of the sun but what a test puts in.
light::SunYear hourly() {
  light::SunYear year;
  year.year = 2026;
  year.days = 365;
  year.steps_per_day = 24;
  return year;
}
light::SunChart chartOf(const light::SunYear& year, auto stateOf) {
  light::SunChart chart;
  for (int day = 0; day < year.days; ++day)
    for (int step = 0; step < year.steps_per_day; ++step) chart.state.push_back(stateOf(day, step));
  return chart;
}
double areaOf(const std::vector<Ring>& bands) {
  double sum = 0;
  for (const Ring& band : bands) sum += std::fabs(signedArea(band));
  return sum;
}

// By hand: ten days from 9 to 12 h are one rectangle of 30 hours; stretches that part or meet begin anew,
// and whatever the shape, a band's area is its hours.
TEST(SunBands, AreaIsHours) {
  const light::SunYear year = hourly();
  const auto block = chartOf(year, [](int day, int step) {
    return day >= 10 && day < 20 && step >= 9 && step < 12 ? SunState::in_frame : SunState::elsewhere;
  });
  const auto bands = sunBands(year, block, SunDrawn::in_frame);
  ASSERT_EQ(bands.size(), 1u);
  EXPECT_NEAR(areaOf(bands), 30, 1e-9);
  Box2 box = bounds(bands[0]);
  EXPECT_EQ(box.low, (Vec2{10, 9}));
  EXPECT_EQ(box.high, (Vec2{20, 12}));
  EXPECT_TRUE(sunBands(year, block, SunDrawn::hidden).empty());
  EXPECT_NEAR(areaOf(sunBands(year, block, SunDrawn::up)), 365 * 24, 1e-6);
  // Mornings and evenings that grow together at midsummer.
  double hours = 0;
  const auto parting = chartOf(year, [&](int day, int step) {
    const int half = std::abs(day - 182) / 20;
    const bool in = step >= 6 && step < 18 && std::abs(step + 0.5 - 12) > half;
    hours += in;
    return in ? SunState::near : SunState::down;
  });
  EXPECT_NEAR(areaOf(sunBands(year, parting, SunDrawn::near_or_in)), hours, 1e-6);
  EXPECT_GE(sunBands(year, parting, SunDrawn::near_or_in).size(), 5u);
}

// Closed form: at the equator the sun is up twelve hours every day, and the chart's bands hold what the
// chart sums up.
TEST(SunBands, HoldWhatTheChartSumsUp) {
  design::PosedImager view;
  view.lens_m = {0, 0, 3};
  view.pixels = {1920, 1080};
  view.imager_from_site = design::imagerFromSite(90, 0, 0);
  view.lens = optics::RadialLens{960 / std::tan(degToRad(30.0)), 1, {960, 540}};
  const light::SunYear year = light::sunYear(design::Place{}, 2026, 96);
  const light::SunChart chart = light::sunChart(year, view, {});
  EXPECT_NEAR(areaOf(sunBands(year, chart, SunDrawn::up)), chart.up_h, 1e-6);
  EXPECT_NEAR(areaOf(sunBands(year, chart, SunDrawn::near_or_in)), chart.near_h + chart.in_frame_h, 1e-6);
  EXPECT_NEAR(areaOf(sunBands(year, chart, SunDrawn::in_frame)), chart.in_frame_h, 1e-6);
}

SunSheet sheetOf(SunState state) {
  const light::SunYear year = hourly();
  SunSheet sheet;
  sheet.year = year;
  sheet.title = "The sun on C1.2 in 2026";
  sheet.panels.push_back({"The picture", "10 h in the picture", chartOf(year, [&](int day, int step) {
                            return day == 45 && step == 9 ? state : SunState::elsewhere;
                          }), state == SunState::near});
  return sheet;
}

// By hand: 15 February is day 45; a place in the chart says what the chart says, a place beside it nothing.
TEST(SunWordsAt, SayWhatIsThere) {
  const SunSheet sheet = sheetOf(SunState::in_frame);
  int said = 0, in_it = 0;
  for (double x = 0.05; x < kSunWidthMm; x += 0.2)
    for (double y = 0.05; y < kSunHeightMm; y += 1) {
      const auto words = sunWordsAt(sheet, {x, y});
      said += words.has_value();
      if (words && words->ends_with("in the picture")) {
        EXPECT_EQ(*words, "15 Feb, 09:00: in the picture");
        ++in_it;
      }
    }
  EXPECT_GT(in_it, 0);
  EXPECT_GT(said, 100'000);
  EXPECT_FALSE(sunWordsAt(sheet, {1, 1}));
}

// Property: the same chart gives the same bytes, text stays text, and each ending its own kind of file.
TEST(WriteSunSheet, ByTheEnding) {
  const fs::path folder = fs::temp_directory_path() / "belvedere_sun_chart_test";
  fs::create_directories(folder);
  const auto written = [&](const char* name) {
    writeSunSheet(sheetOf(SunState::near), folder / name);
    std::ifstream in(folder / name, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
  };
  const std::string svg = written("a.svg");
  EXPECT_EQ(svg, written("b.svg"));
  EXPECT_NE(svg.find("The sun on C1.2 in 2026"), std::string::npos);
  EXPECT_NE(svg.find("behind the faces"), std::string::npos);  // of the legend
  EXPECT_TRUE(written("a.pdf").starts_with("%PDF"));
  EXPECT_TRUE(written("a.png").starts_with("\x89PNG"));
  fs::remove_all(folder);
}

}  // namespace
}  // namespace belvedere::drawing
