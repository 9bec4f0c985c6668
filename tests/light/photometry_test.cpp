// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/photometry.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <random>

#include "base/units.h"

namespace belvedere::light {
namespace {

// The direction C, gamma of the luminaire frame.
Vec3 toward(double c_deg, double gamma_deg) {
  const double c = degToRad(c_deg), g = degToRad(gamma_deg);
  return {std::sin(g) * std::cos(c), std::sin(g) * std::sin(c), std::cos(g)};
}

struct Ies {
  std::string head = "IESNA:LM-63-2002\n[TEST] ours\n[LUMINAIRE] Wharf lamp\n[_ODD] anything\n";
  std::string tilt = "TILT=NONE";
  std::string lumens = "1 1000", multiplier = "1", factors = "1 1 50";
  int type = 1, units = 2;
  std::vector<double> along, across;
  std::function<double(double across, double along)> candela;
  std::string text(const char* end = "\n") const {
    std::string t = head + tilt + "\n" + lumens + " " + multiplier +
                    fmt::format(" {} {} {} {} 0.1 0.2 0\n{}\n", along.size(), across.size(), type,
                                units, factors);
    for (const double a : along) t += fmt::format("{} ", a);
    t += "\n";
    for (const double a : across) t += fmt::format("{} ", a);
    for (const double h : across) {
      t += "\n";
      for (const double v : along) t += fmt::format("{} ", candela(h, v));
    }
    t += "\n";
    if (std::string_view(end) == "\n") return t;
    std::string turned;
    for (const char c : t) c == '\n' ? turned += end : turned += c;
    return turned;
  }
};

std::vector<double> steps(double from, double to, double step) {
  std::vector<double> all;
  for (int i = 0; from + i * step <= to + 1e-9; ++i) all.push_back(from + i * step);
  return all;
}

struct Ldt {
  int symmetry = 1, planes = 36, kind = 1, sets = 1;
  double flux = 2000, conversion = 1;
  int lamps = 1;
  std::vector<double> along = steps(0, 180, 5);
  std::function<double(double c, double gamma)> per_klm;
  std::string text() const {
    std::string t = fmt::format("Wharf works\n{}\n{}\n{}\n{}\n{}\n5\nreport\nQuay lamp\n12\nf.ldt\n"
                                "today\n600\n300\n80\n580\n280\n0\n0\n0\n0\n100\n80\n{}\n0\n{}\n{}\n"
                                "LED\n{}\n3000\n1B\n40\n",
                                kind, symmetry, planes, 360.0 / planes, along.size(), conversion,
                                sets, lamps, flux);
    for (int i = 1; i < sets; ++i) t += "2\nfluorescent\n999\n4000\n1A\n72\n";
    for (int i = 0; i < 10; ++i) t += "0.5\n";
    for (int i = 0; i < planes; ++i) t += fmt::format("{}\n", 360.0 * i / planes);
    for (const double g : along) t += fmt::format("{}\n", g);
    int first = 0, count = planes;
    if (symmetry == 1) count = 1;
    if (symmetry == 2) count = planes / 2 + 1;
    if (symmetry == 3) first = 3 * planes / 4, count = planes / 2 + 1;
    if (symmetry == 4) count = planes / 4 + 1;
    for (int i = 0; i < count; ++i)
      for (const double g : along) t += fmt::format("{}\n", per_klm(360.0 * ((first + i) % planes) / planes, g));
    return t;
  }
};

std::string problemOf(const std::string& text) {
  try {
    readPhotometry(text);
  } catch (const InputError& error) {
    for (const Problem& p : error.problems()) {
      EXPECT_EQ(p.code, "photometry_unusable");
      EXPECT_TRUE(p.where.starts_with("line ")) << p.where;
    }
    return error.what();
  }
  return {};
}

// Closed form: a point source of I has 4 pi I lumens; a flat one pi I (Lambert), in the limit of
// small steps: the table's 0.25 deg leave less than 1e-5.
TEST(Lumens, OfPointAndFlatSource) {
  EXPECT_NEAR(lumensOf(pointSource(100)), 400 * kPi, 1e-9);
  EXPECT_NEAR(lumensOf(flatSource(100)), 100 * kPi, 2e-3);
}

// Published: school problem (628 lm in all directions, 1 m, 37 deg) needs 628 / 4 pi cd.
TEST(Lumens, OfTheSchoolProblem) {
  EXPECT_NEAR(lumensOf(pointSource(628 / (4 * kPi))), 628, 1e-9);
}

// Closed form: the table of cos^n has 2 pi I / (n + 1) lumens, in every format and symmetry.
TEST(Lumens, IntegrateToTheStatedFluxInEveryFormat) {
  const auto shape = [](double, double gamma) {
    return gamma >= 90 ? 0 : std::pow(std::cos(degToRad(gamma)), 3) * 4 / (2 * kPi) * 1000;
  };
  for (const double last : {0.0, 90.0, 180.0, 360.0}) {
    Ies ies;
    ies.along = steps(0, 90, 1);
    ies.across = last == 0 ? std::vector<double>{0} : steps(0, last, 15);
    ies.candela = shape;
    const Photometry p = readPhotometry(ies.text());
    EXPECT_NEAR(lumensOf(p), 1000, 0.3) << last;
    EXPECT_EQ(p.lamp_lumens, 1000);
    EXPECT_EQ(p.title, "Wharf lamp");
    EXPECT_EQ(p.format, "LM-63-2002");
    EXPECT_EQ(p.across_deg.front(), 0);
    EXPECT_EQ(p.across_deg.back(), 360);
  }
  for (int symmetry = 0; symmetry <= 4; ++symmetry) {
    Ldt ldt;
    ldt.symmetry = symmetry;
    ldt.along = steps(0, 90, 1);
    ldt.per_klm = shape;
    const Photometry p = readPhotometry(ldt.text());
    EXPECT_NEAR(lumensOf(p), 2000, 0.6) << symmetry;
    EXPECT_EQ(p.lamp_lumens, 2000);
    EXPECT_EQ(p.title, "Quay lamp");
    EXPECT_EQ(p.opening_m, 0.58);
    EXPECT_EQ(p.input_w, 40);
  }
}

// Property: a folded file gives what the whole one gives, in every direction.
TEST(Symmetry, UnfoldsToTheWholeTable) {
  const auto two = [](double c, double g) {  // symmetric to 0-180 and to 90-270
    return 100 + g + 30 * std::cos(degToRad(2 * c)) * std::sin(degToRad(g));
  };
  const auto about0 = [](double c, double g) {
    return 200 + g + 50 * std::cos(degToRad(c)) * std::sin(degToRad(g));
  };
  const auto about90 = [](double c, double g) {
    return 200 + g + 50 * std::sin(degToRad(c)) * std::sin(degToRad(g));
  };
  const auto ies = [](std::vector<double> across, const auto& candela) {
    Ies file;
    file.along = steps(0, 180, 10);
    file.across = std::move(across);
    file.candela = candela;
    return readPhotometry(file.text());
  };
  const auto ldt = [](int symmetry, const auto& candela) {
    Ldt file;
    file.symmetry = symmetry;
    file.planes = 24;
    file.flux = 1000;
    file.along = steps(0, 180, 10);
    file.per_klm = candela;
    return readPhotometry(file.text());
  };
  const auto same = [](const Photometry& a, const Photometry& b, const char* what) {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> any(-1, 1);
    for (int i = 0; i < 500; ++i) {
      const Vec3 d{any(random), any(random), any(random)};
      EXPECT_NEAR(candelaToward(a, d), candelaToward(b, d), 1e-9) << what;
    }
  };
  const Photometry whole2 = ies(steps(0, 360, 15), two);
  same(whole2, ies(steps(0, 90, 15), two), "quarter");
  same(whole2, ldt(4, two), "EULUMDAT 4");
  same(whole2, ldt(0, two), "EULUMDAT 0");
  const Photometry whole0 = ies(steps(0, 360, 15), about0);
  same(whole0, ies(steps(0, 180, 15), about0), "half");
  same(whole0, ldt(2, about0), "EULUMDAT 2");
  const Photometry whole90 = ies(steps(0, 360, 15), about90);
  same(whole90, ies(steps(90, 270, 15), about90), "half about 90");
  same(whole90, ldt(3, about90), "EULUMDAT 3");
  same(whole90, ies(steps(0, 345, 15), about90), "last plane left out");
  EXPECT_EQ(ies(steps(0, 345, 15), about90).notes.size(), 1u);
  // By hand: 250 towards C = 90, gamma = 90 and 150 towards C = 270.
  EXPECT_NEAR(candelaToward(whole90, {0, 1, 0}), 340, 1e-9);
  EXPECT_NEAR(candelaToward(whole90, {0, -1, 0}), 240, 1e-9);
}

// Closed form: halfway between two angles lies the mean of their intensities.
TEST(Candela, IsLinearInTheAngles) {
  Ies file;
  file.along = {0, 60, 90};
  file.across = {0, 90, 180, 270, 360};
  file.candela = [](double c, double g) { return 10 * g + (c == 360 ? 0 : c); };
  const Photometry p = readPhotometry(file.text());
  EXPECT_NEAR(candelaToward(p, toward(0, 30)), 300, 1e-9);
  EXPECT_NEAR(candelaToward(p, toward(45, 75)), 750 + 45, 1e-9);
  EXPECT_NEAR(candelaToward(p, toward(315, 75)), 750 + 135, 1e-9);
  EXPECT_NEAR(candelaToward(p, toward(180, 60) * 17), 600 + 180, 1e-9);
  EXPECT_EQ(candelaToward(p, toward(0, 100)), 0);
}

// Property: a line that merely begins with TILT is a title like any other.
TEST(Formats, TiltWithoutEqualsIsATitle) {
  Ies file;
  file.along = {0, 90};
  file.across = {0};
  file.candela = [](double, double) { return 10; };
  file.head = "TILTABLE FLOOD 50\n";
  EXPECT_EQ(readPhotometry(file.text()).title, "TILTABLE FLOOD 50");
  file.tilt = "  TILT = NONE";
  EXPECT_EQ(readPhotometry(file.text()).title, "TILTABLE FLOOD 50");
}

// Closed form: types B and A of a source whose intensity depends on the angle from the axis alone
// give what type C gives; their angles are those of CIE 121.
TEST(Types, ThreeSystemsOfPlanesAgree) {
  const auto shape = [](const Vec3& d) { return d.z <= 0 ? 0 : 100 * std::pow(d.z, 4) * (1 + 0.3 * d.x); };
  Ies c, b, a;
  c.along = steps(0, 90, 1);
  c.across = steps(0, 360, 2);
  c.candela = [&](double h, double v) { return shape(toward(h, v)); };
  b.type = 2;
  a.type = 3;
  b.along = b.across = a.along = a.across = steps(-90, 90, 1);
  b.candela = [&](double h, double v) {
    const double x = degToRad(h), y = degToRad(v);
    return shape({std::sin(x), std::cos(x) * std::sin(y), std::cos(x) * std::cos(y)});
  };
  a.candela = [&](double h, double v) {
    const double x = degToRad(h), y = degToRad(v);
    return shape({std::cos(y) * std::sin(x), std::sin(y), std::cos(y) * std::cos(x)});
  };
  const Photometry pc = readPhotometry(c.text()), pb = readPhotometry(b.text()),
                   pa = readPhotometry(a.text());
  std::mt19937 random(6);
  std::uniform_real_distribution<double> any(-1, 1);
  for (int i = 0; i < 500; ++i) {
    const Vec3 d = normalized({any(random), any(random), any(random) + 0.5});
    EXPECT_NEAR(candelaToward(pc, d), shape(d), 0.1);
    EXPECT_NEAR(candelaToward(pb, d), shape(d), 0.1);
    EXPECT_NEAR(candelaToward(pa, d), shape(d), 0.1);
  }
  EXPECT_NEAR(lumensOf(pb), lumensOf(pc), 0.001 * lumensOf(pc));
  EXPECT_NEAR(lumensOf(pa), lumensOf(pc), 0.001 * lumensOf(pc));
  b.across = steps(0, 90, 1);  // laterally symmetric
  const auto even = [](const Vec3& d) { return d.z <= 0 ? 0 : 100 * d.z; };
  b.candela = [&](double h, double v) {
    return even({0, 0, std::cos(degToRad(h)) * std::cos(degToRad(v))});
  };
  EXPECT_NEAR(lumensOf(readPhotometry(b.text())), 100 * kPi, 0.1);
}

// Closed form: multiplier and ballast factor multiply; the third factor did so until 1991.
TEST(Factors, AreAllTakenIn) {
  Ies file;
  file.along = {0, 180};
  file.across = {0};
  file.candela = [](double, double) { return 10; };
  file.multiplier = "2.5";
  file.factors = "0.8 1.1 100";
  EXPECT_NEAR(candelaToward(readPhotometry(file.text()), {1, 2, 3}), 20, 1e-12);
  file.head = "IES:LM-63-2019\n";
  file.factors = "0.8 1.10000 100";  // how the file was made
  EXPECT_NEAR(candelaToward(readPhotometry(file.text()), {1, 2, 3}), 20, 1e-12);
  for (const char* head : {"IESNA91\n[TEST] ours\n", "A label\n", ""}) {
    file.head = head;
    EXPECT_NEAR(candelaToward(readPhotometry(file.text()), {1, 2, 3}), 22, 1e-12) << head;
  }
  file.lumens = "1 -1";
  EXPECT_FALSE(readPhotometry(file.text()).lamp_lumens);
  file.units = 1;
  EXPECT_NEAR(readPhotometry(file.text()).opening_m, 0.2 * 0.3048, 1e-12);
  Ldt ldt;
  ldt.conversion = 2;
  ldt.per_klm = [](double, double) { return 10; };
  EXPECT_NEAR(candelaToward(readPhotometry(ldt.text()), {1, 2, 3}), 40, 1e-12);
  ldt.sets = 2;  // the first counts
  EXPECT_NEAR(candelaToward(readPhotometry(ldt.text()), {1, 2, 3}), 40, 1e-12);
  EXPECT_EQ(readPhotometry(ldt.text()).input_w, 40);
  EXPECT_EQ(readPhotometry(ldt.text()).notes.size(), 1u);
  ldt.sets = 1;
  ldt.lamps = -1;  // absolute photometry
  EXPECT_FALSE(readPhotometry(ldt.text()).lamp_lumens);
}

// Published: figures of the sample file of LM-63 (a floodlight of three planes over a quarter, feet, the
// lamp's tilt included), from memory. Its own candela at the angles, their mean halfway between four, the
// other three quarters mirrored.
TEST(Formats, SampleFileOfTheStandard) {
  const std::string text =
      "IESNA:LM-63-2002\n[TEST] sample\n[LUMINAIRE] Wide beam flood\n[LUMINAIRE] second line\n"
      "TILT=INCLUDE\n1\n13\n0 15 30 45 60 75 90 105 120 135 150 165 180\n"
      "1.0 .95 .94 .90 .88 .87 .98 .87 .88 .90 .94 .95 1.0\n"
      "1 50000 1 5 3 1 1 .5 .6 0\n1.0 1.0 495\n0 22.5 45 67.5 90\n0 45 90\n"
      "100000 50000 25000 10000 5000\n100000 35000 16000 8000 3000\n100000 20000 10000 5000 1000\n";
  const Photometry p = readPhotometry(text);
  EXPECT_EQ(p.title, "Wide beam flood");  // a keyword's first line names it
  EXPECT_EQ(p.format, "LM-63-2002");
  EXPECT_EQ(p.lamp_lumens, 50000);
  EXPECT_EQ(p.input_w, 495);
  EXPECT_NEAR(p.opening_m, 0.6 * 0.3048, 1e-12);
  for (const double c : {45.0, 135.0, 225.0, 315.0}) {
    EXPECT_NEAR(candelaToward(p, toward(c, 22.5)), 35000, 1e-6) << c;
    EXPECT_NEAR(candelaToward(p, toward(c, 90)), 3000, 1e-6) << c;
  }
  EXPECT_NEAR(candelaToward(p, toward(90, 45)), 10000, 1e-6);
  EXPECT_NEAR(candelaToward(p, toward(22.5, 33.75)), (50000 + 25000 + 35000 + 16000) / 4.0, 1e-6);
  EXPECT_NEAR(candelaToward(p, toward(180 + 22.5, 33.75)), 31500, 1e-6);
  EXPECT_EQ(candelaToward(p, toward(0, 91)), 0);
  EXPECT_EQ(tiltFactorAt(p, 15), 0.95);
  EXPECT_EQ(tiltFactorAt(p, 90), 0.98);
  EXPECT_NEAR(tiltFactorAt(p, 82.5), 0.925, 1e-12);
  std::string two = text;
  two.replace(two.find("\n1 50000"), 8, "\n2 25000");
  EXPECT_EQ(readPhotometry(two).lamp_lumens, 50000);  // lumens are those of a lamp
}

TEST(Tilt, IsReadFromTheFile) {
  Ies file;
  file.along = {0, 180};
  file.across = {0};
  file.candela = [](double, double) { return 10; };
  EXPECT_EQ(tiltFactorAt(readPhotometry(file.text()), 45), 1);
  file.tilt = "TILT=INCLUDE\n1\n3\n0 45 90\n1 0.9 0.5";
  const Photometry p = readPhotometry(file.text());
  EXPECT_EQ(tiltFactorAt(p, 0), 1);
  EXPECT_NEAR(tiltFactorAt(p, 67.5), 0.7, 1e-12);
  EXPECT_EQ(tiltFactorAt(p, 120), 0.5);
  file.tilt = "TILT=other.tlt";
  EXPECT_NE(problemOf(file.text()).find("other.tlt"), std::string::npos);
}

TEST(Readers, TakeAnyLineEndsLatinOneAndDecimalCommas) {
  Ies file;
  file.head = "IESNA:LM-63-1995\n[LUMINAIRE] Stra\xdf" "enleuchte\n";
  file.along = steps(0, 90, 10);
  file.across = {0};
  file.candela = [](double, double g) { return 100 - g; };
  const Photometry plain = readPhotometry(file.text());
  EXPECT_EQ(plain.title, "Stra\xc3\x9f" "enleuchte");
  EXPECT_EQ(readPhotometry(file.text("\r\n")), plain);
  EXPECT_EQ(readPhotometry(file.text("\r")), plain);
  EXPECT_EQ(readPhotometry(file.text() + "\x1a"), plain);
  EXPECT_EQ(readPhotometry("\xef\xbb\xbf" + file.text()), plain);
  Ldt ldt;
  ldt.per_klm = [](double, double) { return 12.5; };
  std::string text = ldt.text();
  for (std::size_t at; (at = text.find("12.5")) != std::string::npos;) text.replace(at, 4, "12,5");
  EXPECT_NEAR(candelaToward(readPhotometry(text), {0, 0, 1}), 25, 1e-12);
}

TEST(Readers, SayWhatIsWrongAndWhere) {
  Ies file;
  file.along = steps(0, 90, 10);
  file.across = steps(0, 90, 45);
  file.candela = [](double, double g) { return 100 - g; };
  const std::string good = file.text();
  EXPECT_EQ(problemOf(good), "");
  EXPECT_NE(problemOf(good + "7 8\n").find("line 13"), std::string::npos);
  EXPECT_NE(problemOf(good.substr(0, good.size() - 30)), "");
  EXPECT_NE(problemOf("IESNA:LM-63-2002\n[TEST]\n").find("TILT"), std::string::npos);
  file.candela = [](double, double g) { return 50 - g; };
  EXPECT_NE(problemOf(file.text()).find("negative"), std::string::npos);
  file.candela = [](double, double) { return 1; };
  file.along = {0, 40, 30, 90};
  EXPECT_NE(problemOf(file.text()).find("ascend"), std::string::npos);
  file.along = {10, 45, 90};
  EXPECT_NE(problemOf(file.text()).find("begin at 10 deg"), std::string::npos);
  file.along = {90, 135, 180};
  EXPECT_EQ(problemOf(file.text()), "");
  file.along = {0, 90};
  file.across = {0, 45};
  EXPECT_NE(problemOf(file.text()).find("symmetry"), std::string::npos);
  file.across = {0};
  file.multiplier = "0";
  EXPECT_NE(problemOf(file.text()).find("multiplier"), std::string::npos);
  EXPECT_NE(problemOf("").find("line 1"), std::string::npos);
  EXPECT_NE(problemOf("hello\nworld\n").find("line 2"), std::string::npos);
  Ldt ldt;
  ldt.per_klm = [](double, double) { return 1; };
  ldt.flux = 0;
  EXPECT_NE(problemOf(ldt.text()).find("flux"), std::string::npos);
  ldt.flux = 100;
  ldt.per_klm = [](double, double) { return -1; };
  EXPECT_NE(problemOf(ldt.text()).find("negative"), std::string::npos);
  ldt.symmetry = 4;
  ldt.planes = 10;
  EXPECT_NE(problemOf(ldt.text()).find("multiple of 4"), std::string::npos);
  // A count beyond the file takes no memory.
  EXPECT_NE(problemOf("TILT=NONE\n1 1 1 20000 20000 1 2 0 0 0\n1 1 1\n0").find("more than the file"),
            std::string::npos);
}

// Bound: intensities over a cone of directions lie within what candelaWithin says.
TEST(CandelaWithin, HoldsEveryDirectionOfTheCone) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-1, 1), share(0, 1);
  std::vector<Photometry> all;
  for (int type = 1; type <= 3; ++type) {
    Ies file;
    file.type = type;
    file.along = type == 1 ? steps(0, 180, 10) : steps(-90, 90, 10);
    file.across = type == 1 ? steps(0, 345, 15) : steps(-90, 90, 15);
    file.candela = [&](double, double) { return 100 * share(random); };
    all.push_back(readPhotometry(file.text()));
  }
  int narrow = 0;
  for (int i = 0; i < 20000; ++i) {
    const Photometry& p = all[static_cast<std::size_t>(i % 3)];
    const Vec3 axis = normalized({any(random), any(random), any(random)});
    const double half = i % 2 ? 0.05 * share(random) : 2 * share(random);
    const Interval bound = candelaWithin(p, axis, half);
    narrow += bound.high - bound.low < 90;
    const Interval thin = candelaWithin(p, axis, 1e-7);  // shrinks with the cone
    EXPECT_LT(thin.high - thin.low, 0.01);
    for (int k = 0; k < 10; ++k) {
      const Vec3 side = normalized(cross(axis, {any(random), any(random), any(random)}));
      const double off = half * std::sqrt(share(random));
      const double found = candelaToward(p, axis * std::cos(off) + side * std::sin(off));
      EXPECT_LE(bound.low, found + 1e-9);
      EXPECT_GE(bound.high, found - 1e-9);
    }
  }
  EXPECT_GT(narrow, 5000);
}

}  // namespace
}  // namespace belvedere::light
