// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/lengths.h"

#include <gtest/gtest.h>

#include "base/problem.h"
#include "edit/measure.h"

namespace belvedere::edit {
namespace {

constexpr double kFoot = 0.3048, kInch = 0.0254;  // by definition (international yard, 1959)

// Closed form: by the definitions of the units.
TEST(Lengths, AreReadAsPeopleWriteThem) {
  const auto metric = [](const char* text) { return lengthFrom(text, Units::metric); };
  const auto imperial = [](const char* text) { return lengthFrom(text, Units::imperial); };
  EXPECT_DOUBLE_EQ(metric("3.2"), 3.2);
  EXPECT_DOUBLE_EQ(metric("3,2 m"), 3.2);
  EXPECT_DOUBLE_EQ(metric("320 cm"), 3.2);
  EXPECT_DOUBLE_EQ(metric("3200mm"), 3.2);
  EXPECT_DOUBLE_EQ(metric(" .5 km "), 500);
  EXPECT_DOUBLE_EQ(metric("12'6"), 12.5 * kFoot);
  EXPECT_DOUBLE_EQ(metric("12' 6 1/2\""), 12 * kFoot + 6.5 * kInch);
  EXPECT_DOUBLE_EQ(metric("12'-6\""), 12.5 * kFoot);
  EXPECT_DOUBLE_EQ(metric("12' - 6\""), 11.5 * kFoot);
  EXPECT_DOUBLE_EQ(metric("6 1/2\""), 6.5 * kInch);
  EXPECT_DOUBLE_EQ(metric("1/2\""), 0.5 * kInch);
  EXPECT_DOUBLE_EQ(metric("3/4 in"), 0.75 * kInch);
  EXPECT_DOUBLE_EQ(metric("12\u2032 6\u2033"), 12.5 * kFoot);
  EXPECT_DOUBLE_EQ(metric("12''"), kFoot);
  EXPECT_DOUBLE_EQ(metric("3 ft 4 in"), 3 * kFoot + 4 * kInch);
  EXPECT_DOUBLE_EQ(metric("3' + 4 m"), 3 * kFoot + 4);
  EXPECT_DOUBLE_EQ(imperial("12"), 12 * kFoot);
  EXPECT_DOUBLE_EQ(imperial("2*1.5"), 3 * kFoot);
  EXPECT_DOUBLE_EQ(imperial("3 m"), 3);
}

TEST(Lengths, AreCalculated) {
  const auto metric = [](const char* text) { return lengthFrom(text, Units::metric); };
  EXPECT_DOUBLE_EQ(metric("2*1.2+0.4"), 2.8);
  EXPECT_DOUBLE_EQ(metric("2*(1.2 + 40 cm)"), 3.2);
  EXPECT_DOUBLE_EQ(metric("(1+2) cm"), 0.03);
  EXPECT_DOUBLE_EQ(metric("7-2-1"), 4);
  EXPECT_DOUBLE_EQ(metric("10/4"), 2.5);
  EXPECT_DOUBLE_EQ(metric("6 m / 2 m"), 3);
  EXPECT_DOUBLE_EQ(metric("-3+5"), 2);
  EXPECT_DOUBLE_EQ(metric("1/2"), 0.5);
  EXPECT_DOUBLE_EQ(angleFrom("180-30"), 150);
  EXPECT_DOUBLE_EQ(angleFrom("22.5 deg"), 22.5);
  EXPECT_DOUBLE_EQ(angleFrom("22,5\u00b0"), 22.5);
}

std::string problemOf(auto read) {
  try {
    read();
  } catch (const InputError& error) {
    return error.problems().front().code + ": " + error.problems().front().what;
  }
  return "";
}

TEST(Lengths, ErrorsSayWhere) {
  const auto of = [](const char* text) {
    return problemOf([&] { lengthFrom(text, Units::metric); });
  };
  EXPECT_EQ(of("3.2.1"), "bad_length: at character 4 of \"3.2.1\": a second decimal point");
  EXPECT_EQ(of("3 yards"),
            "bad_length: at character 3 of \"3 yards\": \"yards\" is no unit of length");
  EXPECT_EQ(of("2*(3+1"), "bad_length: at character 3 of \"2*(3+1\": the bracket is not closed");
  EXPECT_NE(of("2 m * 3 m"), "");
  EXPECT_NE(of("1/0"), "");
  EXPECT_NE(of("1 / 2 m"), "");
  for (const char* bad : {"", " ", "m", "+", "3 4", "(", ")", "3m2", "1e5", "'", "\"", "--", "@3"})
    EXPECT_NE(of(bad), "") << bad;
  EXPECT_NE(of((std::string(400, '9')).c_str()), "");
  EXPECT_NE(of((std::string(20000, '(')).c_str()), "");
  EXPECT_NE(of((std::string(20000, '-') + "1").c_str()), "");
}

TEST(Places, AreAbsoluteRelativeOrPolar) {
  const Vec2 last{10, 20};
  const auto read = [&](const char* text) { return placeFrom(text, Units::metric, last); };
  EXPECT_EQ(read("4.5;3"), (Vec2{4.5, 3}));
  EXPECT_EQ(read("4,5 ; -3"), (Vec2{4.5, -3}));
  EXPECT_EQ(read("@2;1"), (Vec2{12, 21}));
  EXPECT_EQ(read("@5<90"), (Vec2{15, 20}));   // clockwise from north: east
  EXPECT_EQ(read("@5<180\u00b0"), (Vec2{10, 15}));
  EXPECT_EQ(read("@50 cm<0"), (Vec2{10, 20.5}));
  EXPECT_EQ(placeFrom("10;0", Units::imperial, {}), (Vec2{10 * kFoot, 0}));
  const auto of = [](const char* text, std::optional<Vec2> from) {
    return problemOf([&] { placeFrom(text, Units::metric, from); });
  };
  EXPECT_EQ(of("@2;1", {}),
            "bad_place: at character 1 of \"@2;1\": there is no last point to count from");
  for (const char* bad :
       {"4.5,3", "5<90", "1;2;3", ";", "1;", ";1", "@", "@1", "1;2 x", "@1<2<3", ""})
    EXPECT_NE(of(bad, last), "") << bad;
}

// Closed form.
TEST(Lengths, AreShownInBothUnits) {
  EXPECT_EQ(lengthText(3.2, Units::metric), "3.20 m");
  EXPECT_EQ(lengthText(3.2054, Units::metric), "3.205 m");
  EXPECT_EQ(lengthText(-0.0001, Units::metric), "0.00 m");
  EXPECT_EQ(lengthText(12 * kFoot + 6.5 * kInch, Units::imperial), "12' 6 1/2\"");
  EXPECT_EQ(lengthText(12 * kFoot - 0.001 * kInch, Units::imperial), "12' 0\"");
  EXPECT_EQ(lengthText(-kFoot, Units::imperial), "-1' 0\"");
  EXPECT_EQ(areaText(12.345, Units::metric), "12.35 m\u00b2");
  EXPECT_EQ(areaText(100 * kFoot * kFoot, Units::imperial), "100 ft\u00b2");
  EXPECT_EQ(densityText(250, Units::metric), "250 px/m");
  EXPECT_EQ(densityText(250, Units::imperial), "76.2 px/ft");
  EXPECT_EQ(densityText(62.5, Units::metric), "62.5 px/m");
  EXPECT_EQ(placeText({4.5, 3}, Units::metric), "4.50; 3.00 m");
  EXPECT_EQ(angleText(92.5), "92.5\u00b0");
  EXPECT_EQ(angleText(0), "0\u00b0");
}

// Property: what is shown is read again, to the last digit shown.
TEST(Lengths, WhatIsShownIsReadAgain) {
  for (int i = 0; i < 500; ++i) {
    const double m = 0.0371 * i * i - 3;
    EXPECT_NEAR(lengthFrom(lengthText(m, Units::metric), Units::metric), m, 0.00051);
    if (m < 0) continue;
    EXPECT_NEAR(lengthFrom(lengthText(m, Units::imperial), Units::imperial), m,
                kInch / 32 * 1.0001);
  }
}

// Closed form: a 3-4-5 triangle.
TEST(Measure, DistanceBearingAndArea) {
  const Measured m = measured({{0, 0}, {4, 0}, {4, 3}});
  EXPECT_DOUBLE_EQ(m.distance_m, 5);
  EXPECT_NEAR(*m.bearing_deg, 53.13010235415598, 1e-12);
  EXPECT_DOUBLE_EQ(m.along_m, 7);
  EXPECT_DOUBLE_EQ(m.perimeter_m, 12);
  EXPECT_DOUBLE_EQ(*m.area_m2, 6);
  EXPECT_FALSE(measured({{0, 0}, {2, 2}, {2, 0}, {0, 2}}).area_m2);  // a bow
  EXPECT_FALSE(measured({{1, 1}}).bearing_deg);
  EXPECT_EQ(bearingDeg({0, 0}, {0, 1}), 0);
  EXPECT_EQ(bearingDeg({0, 0}, {1, 0}), 90);
  EXPECT_EQ(bearingDeg({0, 0}, {0, -1}), 180);
  EXPECT_EQ(bearingDeg({0, 0}, {-1, 0}), 270);
}

TEST(Lengths, ExposuresAreReadAndWrittenAsPhotographersDo) {
  EXPECT_DOUBLE_EQ(exposureFrom("1/25"), 0.04);
  EXPECT_DOUBLE_EQ(exposureFrom("1/25 s"), 0.04);
  EXPECT_DOUBLE_EQ(exposureFrom("40 ms"), 0.04);
  EXPECT_DOUBLE_EQ(exposureFrom("0,04"), 0.04);
  EXPECT_EQ(exposureText(0.04), "1/25 s");
  EXPECT_EQ(exposureText(1 / 350.0), "1/350 s");
  EXPECT_EQ(exposureText(2), "2 s");
  EXPECT_THROW(exposureFrom("soon"), InputError);
  EXPECT_THROW(exposureFrom("0"), InputError);
  EXPECT_THROW(exposureFrom("-1/25"), InputError);
}

}  // namespace
}  // namespace belvedere::edit
