// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sun.h"
#include "light/time_zone.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

// Published: Reda and Andreas, Solar Position Algorithm, NREL/TP-560-34302 (2008), table A5.1:
// 2003-10-17 12:30:30 at UTC-7, 39.742476 N, 105.1786 W, 820 hPa, 11 C: zenith 50.11162, azimuth
// 194.34024, elevation without refraction 39.872046, Julian day 2452930.312847. The report's
// elevation of 1830 m moves its topocentric parallax by less than 1e-6 deg.
TEST(Sun, PublishedReferenceCase) {
  const double day = julianDay(2003, 10, 17, 19 + 30.0 / 60 + 30.0 / 3600);
  EXPECT_NEAR(day, 2452930.312847, 5e-7);
  const SunPosition sun = sunAt(day, 39.742476, -105.1786, 820, 11);
  EXPECT_NEAR(90 - sun.elevation_deg, 50.11162, kSunErrorDeg);
  EXPECT_NEAR(sun.azimuth_deg, 194.34024, kSunErrorDeg);
  EXPECT_NEAR(sun.true_elevation_deg, 39.872046, kSunErrorDeg);
  EXPECT_NEAR(sun.elevation_deg - sun.true_elevation_deg, 0.016332, 1e-5);
}

// Published: tests of an open-source library of the same algorithm; near the equator, and in the
// south close to azimuth 360.
TEST(Sun, FurtherPublishedPositions) {
  const SunPosition equator =
      sunAt(julianDay(2015, 6, 12, 13 + 34.0 / 60 + 11.0 / 3600), -3.107, -60.025, 1000, 20);
  EXPECT_NEAR(equator.azimuth_deg, 51.608, 0.01);
  EXPECT_NEAR(90 - equator.elevation_deg, 44.1425, 0.01);
  const SunPosition south = sunAt(julianDay(2012, 12, 22, 12), -41, 0, 1000, 20);
  EXPECT_NEAR(south.azimuth_deg, 359.08592, 0.02);
  EXPECT_NEAR(90 - south.elevation_deg, 17.5658, 0.01);
  // NOAA's sheet, below the horizon: no refraction.
  const SunPosition night = sunAt(julianDay(2010, 6, 21, 7.1), 40, -105);
  EXPECT_NEAR(night.true_elevation_deg, -26.5537621, 0.02);
  EXPECT_EQ(night.elevation_deg, night.true_elevation_deg);
}

design::Place place(double lat, double lon, double north = 0) {
  design::Place p;
  p.lat_deg = lat;
  p.lon_deg = lon;
  p.north_deg = north;
  return p;
}

// IANA time zone database: Madrid keeps the time of Berlin though it lies west of Greenwich; Adelaide
// is half an hour off the full hour, and its summer time falls in January; Nepal at 5:45 has none.
TEST(SunYear, IsLaidOutInTheStandardTimeOfItsZone) {
  design::Place madrid = place(40.4, -3.7);
  EXPECT_EQ(sunYear(madrid, 2026, 24).utc_offset_h, 0);  // none stated: by the longitude
  madrid.time_zone = "Europe/Madrid";
  const SunYear year = sunYear(madrid, 2026, 24);
  EXPECT_EQ(year.utc_offset_h, 1);
  // Solar noon comes at 12 + 1 + 3.7 / 15 h and the equation of time (14 min on 11 February).
  const auto highest = std::max_element(year.elevation_deg.begin() + 41 * 24, year.elevation_deg.begin() + 42 * 24);
  EXPECT_EQ(highest - (year.elevation_deg.begin() + 41 * 24), 13);
  EXPECT_EQ(standardOffsetH("Australia/Adelaide", 2026), 9.5);
  EXPECT_EQ(standardOffsetH("Asia/Kathmandu", 2026), 5.75);
  EXPECT_EQ(standardOffsetH("Europe/London", 2026), 0);
  EXPECT_EQ(standardOffsetH("Middle/Nowhere", 2026), std::nullopt);
  // Through 1943 London kept summer time, doubled in summer: clocks were an hour ahead at the least.
  EXPECT_EQ(standardOffsetH("Europe/London", 1943), 1);
  madrid.time_zone = "Middle/Nowhere";
  EXPECT_EQ(sunYear(madrid, 2026, 24).utc_offset_h, 0);
}

// Closed form: where true north lies at a bearing of 30 on the drawing, the sun in the true south, 40 deg
// high, stands at 210.
TEST(SunDirection, IsTurnedByTheDrawingsNorth) {
  const Vec3 d = sunDirection({180, 40, 40}, 30);
  const double level = std::cos(degToRad(40.0));
  EXPECT_NEAR(norm(d - Vec3{level * std::sin(degToRad(210.0)), level * std::cos(degToRad(210.0)),
                            std::sin(degToRad(40.0))}), 0, 1e-12);
}

// Property: the year's table is what the library says at each moment.
TEST(SunYear, AgreesWithEachPosition) {
  const SunYear year = sunYear(place(52.5, 13.4, 30), 2024, 24);
  EXPECT_EQ(year.days, 366);
  EXPECT_EQ(year.utc_offset_h, 1);
  for (int day = 0; day < year.days; day += 7)
    for (int step = 0; step < 24; step += 5) {
      const SunPosition sun =
          sunAt(julianDay(2024, 1, 1 + day, year.hourOf(step) - 1), 52.5, 13.4);
      EXPECT_LT(norm(year.direction[year.at(day, step)] - sunDirection(sun, 30)), 2e-6);
    }
  EXPECT_EQ(dateOf(year, 0), "2024-01-01");
  EXPECT_EQ(dateOf(year, 59), "2024-02-29");
  EXPECT_EQ(dateOf(year, 365), "2024-12-31");
}

design::PosedImager looking(double pan, double tilt, double hfov) {
  design::PosedImager view;
  view.lens_m = {0, 0, 3};
  view.pixels = {1920, 1080};
  view.imager_from_site = design::imagerFromSite(pan, tilt, 0);
  view.lens = optics::RadialLens{960 / std::tan(degToRad(0.5 * hfov)), 1, {960, 540}};
  return view;
}

// Closed form: beside the edge of a picture 60 deg wide, the axis level, at the horizon.
TEST(FrameOnSky, DegreesBesideTheEdge) {
  const design::PosedImager view = looking(90, 0, 60);
  const FrameOnSky frame(view);
  const auto off = [&](double bearing, double up) {
    const double b = degToRad(bearing), e = degToRad(up);
    return frame.degreesOff({std::cos(e) * std::sin(b), std::cos(e) * std::cos(b), std::sin(e)});
  };
  EXPECT_EQ(off(90, 0), 0);
  EXPECT_EQ(off(119.9, 0), 0);
  EXPECT_NEAR(off(125, 0), 5, 1e-3);
  EXPECT_NEAR(off(50, 0), 10, 1e-3);
  const double half_v = radToDeg(std::atan(540 / (960 / std::tan(degToRad(30.0)))));
  EXPECT_NEAR(off(90, half_v + 3), 3, 1e-3);
  EXPECT_GT(off(270, 0), 100);
}

// By hand: at the equator the sun rises due east all year, within 23.5 deg: an imager that looks
// east over the open horizon has it in frame every day, one that looks north-west never in the morning;
// a wall in the east hides it; nothing is in frame when the camera looks at the floor.
TEST(SunChart, EastAtTheEquator) {
  const SunYear year = sunYear(place(0, 0), 2025, 96);
  const SunChart east = sunChart(year, looking(90, 0, 60), {});
  EXPECT_NEAR(east.up_h, 365 * 12, 365 * 12 * 0.02);
  ASSERT_EQ(east.spells.size(), 1u);  // day after day
  EXPECT_EQ(east.spells[0].first_day, 0);
  EXPECT_EQ(east.spells[0].last_day, 364);
  EXPECT_EQ(east.spells[0].state, SunState::in_frame);
  EXPECT_NEAR(east.spells[0].from_h, 6, 0.5);
  EXPECT_LT(east.spells[0].to_h, 9.5);
  // In frame up to half the field's height, 18 deg, an hour and a bit: so many hours a year.
  EXPECT_NEAR(east.in_frame_h, 365 * 18.0 / 15, 365 * 0.25);
  EXPECT_NEAR(east.near_h, 365 * 10.0 / 15, 365 * 0.1);
  EXPECT_EQ(sunChart(year, looking(90, 89, 60), {}).in_frame_h, 0);
  scene::Scene scene;
  addBox(scene, {20, -100, 0}, {21, 100, 60});
  const MadeUpSolids walled = madeUp(scene);
  const SunChart hidden = sunChart(year, looking(90, 0, 60), walled.solids());
  EXPECT_EQ(hidden.in_frame_h + hidden.near_h, 0);
  EXPECT_NEAR(hidden.hidden_h, east.in_frame_h + east.near_h, 1e-6);
  EXPECT_TRUE(hidden.spells.empty());
  scene::Scene pane;
  addBox(pane, {20, -100, 0}, {21, 100, 60}, 0.8, 0.8);
  const MadeUpSolids glazed = madeUp(pane);
  EXPECT_EQ(sunChart(year, looking(90, 0, 60), glazed.solids()).in_frame_h, east.in_frame_h);
}

// Property: a spell is from the earliest to the latest hour of any of its days, where hours change with the
// season.
TEST(SunChart, SpellsSpanTheHoursOfAllTheirDays) {
  const SunYear year = sunYear(place(52, 0), 2025, 96);
  const SunChart chart = sunChart(year, looking(210, 0, 60), {});
  ASSERT_GE(chart.spells.size(), 1u);
  bool ends_early = false;
  for (const SunSpell& spell : chart.spells) {
    double first_h = 24, last_h = 0, on_last_day_h = 0;
    for (int day = spell.first_day; day <= spell.last_day; ++day)
      for (int step = 0; step < year.steps_per_day; ++step) {
        const SunState state = chart.state[year.at(day, step)];
        if (state != SunState::near && state != SunState::in_frame) continue;
        first_h = std::min(first_h, step * year.hoursPerStep());
        last_h = std::max(last_h, (step + 1) * year.hoursPerStep());
        if (day == spell.last_day) on_last_day_h = (step + 1) * year.hoursPerStep();
      }
    EXPECT_NEAR(spell.from_h, first_h, 1e-9);
    EXPECT_NEAR(spell.to_h, last_h, 1e-9);
    ends_early = ends_early || on_last_day_h < last_h;
  }
  EXPECT_TRUE(ends_early);
}

// By hand: a camera that looks south, a face that looks at it: at noon in winter the sun is low
// behind the face; seen from the south it never is.
TEST(BacklightChart, WinterSunBehindAFace) {
  const SunYear year = sunYear(place(52, 0), 2025, 96);
  const SunChart behind = backlightChart(year, {0, 10, 3}, {0, 0, 1.6}, {});
  EXPECT_EQ(behind.state[year.at(0, 48)], SunState::near);        // January, noon: 15 deg high
  EXPECT_EQ(behind.state[year.at(180, 48)], SunState::elsewhere);  // July, noon: 61 deg
  EXPECT_GT(behind.near_h, 300);
  EXPECT_EQ(backlightChart(year, {0, -10, 3}, {0, 0, 1.6}, {}).state[year.at(0, 48)],
            SunState::elsewhere);
  // A wall 2 m behind the face, 3 m high, keeps off it what is less than 35 deg high; the lens, 12 m
  // away, has the sun over it.
  scene::Scene scene;
  addBox(scene, {-50, -2.2, 0}, {50, -2, 3});
  const MadeUpSolids walled = madeUp(scene);
  EXPECT_EQ(backlightChart(year, {0, 10, 3}, {0, 0, 1.6}, walled.solids()).state[year.at(0, 48)], SunState::hidden);
}

// Published: NREL/TP-560-34302, table A5.1, and NOAA's sheet (as above), which a thousand more of another
// almanac in tests/outside/sun_almanac_test.py stand beside. By hand: what stands in the sun's way
// takes it from the picture, and from behind the face.
TEST(SunAndBacklight, WithinATenthOfADegreeOfAnAlmanacAndNotCountedWhenOccluded) {
  constexpr double kAlmanacDeg = 0.1;
  const SunPosition day =
      sunAt(julianDay(2003, 10, 17, 19 + 30.0 / 60 + 30.0 / 3600), 39.742476, -105.1786, 820, 11);
  EXPECT_NEAR(day.azimuth_deg, 194.34024, kAlmanacDeg);
  EXPECT_NEAR(day.elevation_deg, 90 - 50.11162, kAlmanacDeg);
  EXPECT_NEAR(sunAt(julianDay(2010, 6, 21, 7.1), 40, -105).true_elevation_deg, -26.5537621, kAlmanacDeg);

  const SunYear year = sunYear(place(52, 0), 2025, 96);
  scene::Scene scene;
  addBox(scene, {-100, -21, 0}, {100, -20, 100});
  const MadeUpSolids walled = madeUp(scene);
  const SunChart seen = sunChart(year, looking(180, 0, 60), {});
  const SunChart occluded = sunChart(year, looking(180, 0, 60), walled.solids());
  EXPECT_GT(seen.in_frame_h, 200);
  EXPECT_EQ(occluded.in_frame_h + occluded.near_h, 0);
  EXPECT_NEAR(occluded.hidden_h, seen.in_frame_h + seen.near_h, 1e-6);
  const SunChart behind = backlightChart(year, {0, 10, 3}, {0, 0, 1.6}, {});
  const SunChart shaded = backlightChart(year, {0, 10, 3}, {0, 0, 1.6}, walled.solids());
  EXPECT_GT(behind.near_h, 300);
  EXPECT_EQ(shaded.near_h, 0);
  EXPECT_NEAR(shaded.hidden_h, behind.near_h, 1e-6);
}

// Published: the public tables' levels (open sky): by day, at sunset, at the end of twilight, at
// night.
TEST(SkyLux, GoesThroughThePublishedLevels) {
  EXPECT_GT(skyLux(60, Sky::clear), 32000);
  EXPECT_LT(skyLux(60, Sky::clear), 130000);
  EXPECT_GT(skyLux(50, Sky::overcast), 1000);
  EXPECT_LT(skyLux(50, Sky::overcast), 25000);
  EXPECT_NEAR(skyLux(0, Sky::clear), 400, 1e-9);
  EXPECT_NEAR(skyLux(0, Sky::overcast), 40, 1e-9);
  EXPECT_NEAR(skyLux(-6, Sky::clear), 3.4, 1e-9);
  EXPECT_EQ(skyLux(-40, Sky::clear), 0.002);
  for (double e = -30; e < 89; e += 0.5)
    for (const Sky sky : {Sky::clear, Sky::overcast})
      EXPECT_LE(skyLux(e, sky), skyLux(e + 0.5, sky));
}

}  // namespace
}  // namespace belvedere::light
