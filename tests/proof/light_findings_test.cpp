// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said of lamps, lenses and exposures besides the verdicts.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "design_text.h"
#include "proof/lamp_pairing.h"
#include "proof/light_findings.h"

namespace belvedere::proof {
namespace {

namespace fs = std::filesystem;

// A slab under a sky of some lx. C1, 3 m up, looks north with one imager; more of it, of its model, of
// other housings and of the brief as a test asks.
struct Site {
  double lux = 0.01;
  std::string imager, model_imager, model, housing, housings, models, brief, solids, materials;
  double hfov_deg = 80;
};
design::Design made(const Site& site) {
  Parts parts;
  parts.models = fmt::format(
      R"({{"id": "cam", "kind": "housing", "imagers": [{{"slot": 1, "pixels": [1920, 1080],
      "lens": {{"family": "rectilinear", "hfov_deg": [{}], "f_number": [1.6]}}, "pan_deg": [-180, 180],
      "tilt_deg": [-90, 90]{}}}]{}}}{})", site.hfov_deg, site.model_imager, site.model, site.models);
  parts.housings = fmt::format(
      R"({{"id": "C1", "model": "cam", "storey": "g", "mount": {{"fixing_m": [0, 0, 3]}},
      "imagers": [{{"slot": 1, "aims": [{{"pan_deg": 0, "tilt_deg": 0}}]{}}}]{}}}{})", site.imager, site.housing,
      site.housings);
  parts.zones = R"({"id": "yard", "storey": "g", "outline": [[-5, 5], [5, 5], [5, 15], [-5, 15]]})";
  parts.brief = site.brief;
  parts.solids = site.solids;
  parts.materials = site.materials;
  parts.height_m = 8;
  parts.situations = R"({"id": "night", "lights": ["sky"]})";
  std::string text = designText(parts);
  text.insert(text.find("}, \"situations\""),
              fmt::format(R"(, "lights": [{{"id": "sky", "kind": "ambient", "lux": {}}}])", site.lux));
  return design::readDesignText(text, ".").design;
}
const std::string kLamp = R"(, "lamps": [{"slot": 1, "beam_deg": 60, "range_m": 30}])";
const std::string kLeast = R"(, "least_light": {"lux": 0.5, "f_number": 1.6, "exposure_s": 0.04})";

// Of a folder of its own, in which a pole's distribution of light lies.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("belvedere_light_findings_" + std::to_string(getpid()));
  Folder() {
    fs::create_directories(path);
    std::ofstream(path / "pole.ies") << "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 90\n0\n6000 6000\n";
  }
  ~Folder() { fs::remove_all(path); }
};
void addPole(design::Design& design, Vec3 at_m) {
  design::Light pole;
  pole.id = {"pole"};
  pole.kind = "luminaire";
  pole.at_m = at_m;
  pole.photometry = design::Attachment{"pole.ies", ""};
  design.site.lights.push_back(pole);
  design.situations[0].lights.push_back({"pole"});
}

std::vector<Finding> found(const design::Design& design, const std::string& code, const fs::path& folder = ".") {
  std::vector<Finding> all = lightFindings(design, folder, {});
  std::erase_if(all, [&](const Finding& f) { return f.code != code; });
  return all;
}

// Closed form, |sin x / x| with x = 2 pi 50 t: at 1/200 s 2/pi of the ripple is left and no whole pulse
// fits; at 13 ms 20 % and 1/100 s does; at 1/100 s nothing. The sky does not pulse.
TEST(LightFindings, MainsFlickerWhereTheExposureIsNoWholePulse) {
  const Folder folder;
  const auto flicker = [&](double exposure_s, bool pole) {
    design::Design design = made({});
    design.housings[0].imagers[0].exposure_s = exposure_s;
    if (pole) addPole(design, {0, 8, 6});
    return found(design, "mains_flicker", folder.path);
  };
  ASSERT_EQ(flicker(0.005, true).size(), 1u);
  EXPECT_NE(flicker(0.005, true)[0].sentence.find("64 % of the ripple"), std::string::npos);
  EXPECT_NEAR(flicker(0.005, true)[0].needed->value, 0.01, 1e-12);  // a whole pulse, which is longer
  ASSERT_EQ(flicker(0.013, true).size(), 1u);
  EXPECT_NEAR(flicker(0.013, true)[0].needed->value, 0.01, 1e-12);
  EXPECT_TRUE(flicker(0.01, true).empty());
  EXPECT_TRUE(flicker(0.005, false).empty());
}

// Closed form, speed times time times density: a face at 1.4 m/s and 250 px/m smears a pixel in 1/350 s,
// a plate half a pixel at 5 m/s in 1/2500 s (common practice, no source: at most 1 px and 0.5 px).
TEST(LightFindings, MotionBlurOverAPixelOfAFaceAndHalfOneOfAPlate) {
  const auto blur = [](const char* kind, double speed_mps, double exposure_s) {
    Site site;
    site.brief = fmt::format(R"({{"id": "R1", "purpose": "who", "kind": "see", "zone": "yard",
      "target": {{"kind": "{}", "speed_mps": {}}}, "px_per_m": 250}})", kind, speed_mps);
    design::Design design = made(site);
    design.housings[0].imagers[0].exposure_s = exposure_s;
    return found(design, "motion_blur");
  };
  EXPECT_TRUE(blur("face", 1.4, 1 / 351.0).empty());
  ASSERT_EQ(blur("face", 1.4, 1 / 340.0).size(), 1u);
  EXPECT_NEAR(blur("face", 1.4, 1 / 340.0)[0].found->value, 350.0 / 340, 1e-9);
  EXPECT_TRUE(blur("plate", 5, 1 / 2501.0).empty());
  ASSERT_EQ(blur("plate", 5, 1 / 2000.0).size(), 1u);
  EXPECT_EQ(blur("plate", 5, 1 / 2000.0)[0].needed->value, 0.5);
}

// Closed form, 2.44 lambda N: at 550 nm a point's image is 2.15 um wide at f/1.6 and 5.37 um at f/4; two
// pixels of 2 um are 4 um.
TEST(LightFindings, DiffractionOverTwoPixels) {
  Site site;
  site.model_imager = R"(, "pitch_um": 2)";
  EXPECT_TRUE(found(made(site), "diffraction_limit").empty());
  site.imager = R"(, "f_number": 4)";
  const auto soft = found(made(site), "diffraction_limit");
  ASSERT_EQ(soft.size(), 1u);
  EXPECT_NEAR(soft[0].found->value, 2.44 * 0.55 * 4, 1e-9);
  EXPECT_NEAR(soft[0].needed->value, 4, 1e-9);
}

TEST(LightFindings, AStopWiderThanTheLensOpens) {
  Site site;
  site.imager = R"(, "f_number": 1.2)";
  ASSERT_EQ(found(made(site), "aperture_too_wide").size(), 1u);
  EXPECT_NEAR(found(made(site), "aperture_too_wide")[0].needed->value, 1.6, 1e-12);
  site.imager = R"(, "f_number": 2.8)";
  EXPECT_TRUE(found(made(site), "aperture_too_wide").empty());
}

// Common practice, no source: infrared shines into pictures in mono alone, and a lamp that is off into
// none. C2 stands 20 m ahead and looks at C1: (30/20)^2 of what lights a target.
TEST(LightFindings, AnothersLampShinesWhereItBurnsIntoMonoAlone) {
  const auto shines = [](const char* mode, const char* lamps) {
    Site site;
    site.imager = fmt::format(R"(, "mode": "{}")", mode);
    site.model = kLamp;
    site.housing = R"(, "lamps": [{"slot": 1, "follows": 0}])";
    site.housings = fmt::format(
        R"(, {{"id": "C2", "model": "cam", "storey": "g", "mount": {{"fixing_m": [0, 19, 3],
        "base_bearing_deg": 180}}, "imagers": [{{"slot": 1, "mode": "mono",
        "aims": [{{"pan_deg": 180, "tilt_deg": 80}}]}}]{}}})", lamps);
    return found(made(site), "lamp_in_frame");
  };
  const auto one = shines("mono", "");
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].about, (std::vector<std::string>{"C1.1", "C2 lamp 1"}));
  EXPECT_NEAR(one[0].found->value, 19, 1e-9);
  EXPECT_NE(one[0].sentence.find("2.5 times"), std::string::npos) << one[0].sentence;  // (30/19)^2
  EXPECT_TRUE(shines("colour", "").empty());
  EXPECT_TRUE(shines("mono", R"(, "lamps": [{"slot": 1, "follows": 0}])").empty());
}

// Common practice, no source: an imager in mono that none of its housing's lamps follows is said; not one
// in colour, nor where lamps burn as a group or the housing has none.
TEST(LightFindings, AnImagerInMonoWithoutALamp) {
  const auto without = [](const char* mode, const std::string& model, const std::string& lamps) {
    Site site;
    site.imager = fmt::format(R"(, "mode": "{}")", mode);
    site.model = model;
    site.housing = lamps;
    return found(made(site), "imager_without_lamp").size();
  };
  const std::string off = R"(, "lamps": [{"slot": 1, "follows": 0}])";
  EXPECT_EQ(without("mono", kLamp, off), 1u);
  EXPECT_EQ(without("colour", kLamp, off), 0u);
  EXPECT_EQ(without("mono", kLamp, ""), 0u);
  EXPECT_EQ(without("mono", kLamp, R"(, "lamps": [{"slot": 1, "follows": 1}])"), 0u);
  EXPECT_EQ(without("mono", "", ""), 0u);
}

// Common practice, no source: in 50 lx and more no data sheet is wanted of an imager in colour.
TEST(LightFindings, NoLeastLightIsSaidWhereItIsNotAmple) {
  const auto unstated = [](double lux, const char* mode, const std::string& least) {
    Site site;
    site.lux = lux;
    site.imager = fmt::format(R"(, "mode": "{}")", mode);
    site.model_imager = least;
    return found(made(site), "light_unstated");
  };
  EXPECT_TRUE(unstated(100, "colour", "").empty());
  ASSERT_EQ(unstated(20, "colour", "").size(), 1u);
  EXPECT_NE(unstated(20, "colour", "")[0].sentence.find("whether 20 lx are enough"), std::string::npos);
  EXPECT_EQ(unstated(100, "mono", "").size(), 1u);
  EXPECT_TRUE(unstated(20, "colour", kLeast).empty());
}

// By hand: a board 0.5 m before the lamp lights up in the picture; behind the housing, where no beam
// falls, or beside the picture, it does not.
TEST(LightFindings, WhatStandsNearTheLampAndInThePicture) {
  const auto near = [](double x0, double y0, double hfov_deg) {
    Site site;
    site.imager = R"(, "mode": "mono")";
    site.model = R"(, "lamps": [{"slot": 1, "beam_deg": 120, "range_m": 30}])";
    site.hfov_deg = hfov_deg;
    site.solids = solidText("board", "other", {{x0, y0}, {x0 + 0.1, y0}, {x0 + 0.1, y0 + 0.1}, {x0, y0 + 0.1}}, 2, 4);
    return found(made(site), "lamp_near_surface");
  };
  const auto ahead = near(-0.05, 0.5, 80);
  ASSERT_EQ(ahead.size(), 1u);
  EXPECT_NEAR(ahead[0].found->value, 0.5, 0.01);
  EXPECT_TRUE(near(-0.05, -0.6, 80).empty());
  EXPECT_EQ(near(0.3, 0.5, 80).size(), 1u);  // 31 deg to the right
  EXPECT_TRUE(near(0.3, 0.5, 40).empty());
}

// Closed form, as in MirroredLamps.MirrorRayHitsTheLens: a pane square ahead mirrors the housing's lamp.
TEST(LightFindings, ALampInAMirrorIsSaid) {
  Site site;
  site.imager = R"(, "mode": "mono")";
  site.model = kLamp;
  site.materials = R"({"id": "clear", "light": 0.9, "infrared": 0.8})";
  design::Design design = made(site);
  EXPECT_TRUE(found(design, "lamp_mirrored").empty());
  site.solids = solidText("pane", "other", {{-2, 4}, {2, 4}, {2, 4.01}, {-2, 4.01}}, 0, 6);
  site.solids.insert(site.solids.size() - 1, R"(, "material": "clear")");
  design = made(site);
  const auto mirrored = found(design, "lamp_mirrored");
  ASSERT_EQ(mirrored.size(), 1u);
  EXPECT_EQ(mirrored[0].about, (std::vector<std::string>{"C1.1", "C1 lamp 1", "pane"}));
  EXPECT_NEAR(mirrored[0].found->value, 8, 1e-6);
}

// Closed form: 5 W/sr keep below the 100 W/m2 of IEC 62471 (from memory) from sqrt(5/100) m on.
TEST(LightFindings, EyesAreToldADistanceWhereTheIntensityIsStated) {
  Site site;
  site.model = R"(, "lamps": [{"slot": 1, "beam_deg": 60, "range_m": 30, "intensity_w_per_sr": 5}])";
  const auto stated = found(made(site), "eye_exposure");
  ASSERT_EQ(stated.size(), 1u);
  EXPECT_NE(stated[0].sentence.find("from 0.22 m on"), std::string::npos) << stated[0].sentence;
  site.model = kLamp;
  EXPECT_NE(found(made(site), "eye_exposure")[0].sentence.find("no distance can be given"), std::string::npos);
}

// Closed form, inverse square and cosine, 6000 cd to all below: from 6 m up a floor gets 6000 6/d^3. Under
// the pole 166.7 lx, at the far corner of the zone (d^2 = 36 + 25 + 64) 25.8: 6.5:1, which is marginal; from
// 4 m up 375 to 22.0 lx, 17:1. UFC 4-021-02NF, table 4-3, ends at 8:1.
TEST(LightFindings, UnevenLightFromItsEdgesToWhatIsBelowALamp) {
  const Folder folder;
  Site site;
  site.lux = 0;
  site.brief = R"({"id": "R1", "purpose": "who", "kind": "see", "zone": "yard", "target": {"kind": "person"},
    "px_per_m": 20})";
  const auto ratio = [&](double height_m) {
    design::Design design = made(site);
    addPole(design, {0, 7, height_m});
    return found(design, "light_uneven", folder.path);
  };
  EXPECT_TRUE(ratio(6).empty());
  const auto uneven = ratio(4);
  ASSERT_EQ(uneven.size(), 1u);
  const double corner = 6000 * 4 / std::pow(16 + 25 + 64, 1.5);
  EXPECT_NEAR(uneven[0].found->value, 375 / corner, 0.03 * 375 / corner);  // counted a little inside
  EXPECT_EQ(uneven[0].needed->value, 8);
  // Off the lattice's places, right below the lamp is the most.
  design::Design design = made(site);
  addPole(design, {0.13, 7.11, 1});
  const auto below = found(design, "light_uneven", folder.path);
  ASSERT_EQ(below.size(), 1u);
  EXPECT_NE(below[0].sentence.find("6000 lx at (0.13, 7.11)"), std::string::npos) << below[0].sentence;
}

// By hand: the camera looks north at people whose luminaire hangs behind them, by hardly any other light:
// what falls on the far side is more than eight times what falls on the near one. With the luminaire before
// them it is not, nor where the housing's own lamp burns, nor of a floor.
TEST(LightFindings, LitFromBehind) {
  const Folder folder;
  const auto behind = [&](double pole_y_m, const std::string& model, const char* mode, const char* kind,
                          double sky_lux = 1) {
    Site site;
    site.lux = sky_lux;
    site.model_imager = R"(, "least_light": {"lux": 0.01, "f_number": 1.6, "exposure_s": 0.04})";
    site.model = model;
    site.imager = fmt::format(R"(, "mode": "{}")", mode);
    site.brief = fmt::format(R"({{"id": "R1", "purpose": "who", "kind": "see", "zone": "yard",
      "target": {{"kind": "{}"}}, "px_per_m": 20}})", kind);
    design::Design design = made(site);
    design.housings[0].imagers[0].aims[0].tilt_deg = 10;
    addPole(design, {0, pole_y_m, 6});
    return found(design, "lit_from_behind", folder.path);
  };
  const auto dark = behind(20, "", "colour", "person");
  ASSERT_EQ(dark.size(), 1u);
  EXPECT_EQ(dark[0].about, (std::vector<std::string>{"R1", "night", "C1.1"}));
  EXPECT_GT(dark[0].found->value, 8);
  EXPECT_NE(dark[0].sentence.find("1.0 lx fall on the side to the lens"), std::string::npos) << dark[0].sentence;
  // At most 6 + 6000 5/50^1.5 = 91 lx behind, 6 before: 15:1, over the 8:1 of UFC 4-021-02NF; by 30 lx 4:1.
  EXPECT_EQ(behind(20, "", "colour", "person", 6).size(), 1u);
  EXPECT_TRUE(behind(20, "", "colour", "person", 30).empty());
  EXPECT_TRUE(behind(2, "", "colour", "person").empty());
  // A lamp of the camera's adds (30/8)^2 of 0.01 lx and less to the side to the lens: that is little.
  const auto lamped = behind(20, kLamp, "mono", "person");
  ASSERT_EQ(lamped.size(), 1u);
  EXPECT_LT(lamped[0].found->value, dark[0].found->value);
  EXPECT_GT(lamped[0].found->value, 0.8 * dark[0].found->value);
  EXPECT_TRUE(behind(20, "", "colour", "floor").empty());
}

// Common practice, no source: two lamps that are off leave both ends of a dark yard dark; paired with the
// two imagers they hold both. An imager kept in colour has no use for a lamp of infrared.
TEST(LampPairing, EveryLampFollowsAnImagerInMono) {
  Parts parts;
  const auto imager = [](int slot) {
    return fmt::format(R"({{"slot": {}, "pixels": [1920, 1080], "lens": {{"family": "rectilinear", "hfov_deg": [80],
      "f_number": [1.6]}}, "pan_deg": [-180, 180], "tilt_deg": [-10, 90]}})", slot);
  };
  parts.models = fmt::format(
      R"({{"id": "twin", "kind": "housing", "imagers": [{}, {}], "lamps": [
      {{"slot": 1, "bearing_deg": 180, "tilt_deg": 15, "beam_deg": 70, "range_m": 14}},
      {{"slot": 2, "bearing_deg": 0, "tilt_deg": 15, "beam_deg": 70, "range_m": 14}}]}})", imager(1), imager(2));
  parts.housings =
      R"({"id": "C1", "model": "twin", "storey": "g", "mount": {"fixing_m": [0, 0, 3], "base_bearing_deg": 90},
      "imagers": [{"slot": 1, "aims": [{"pan_deg": 90, "tilt_deg": 20}]},
      {"slot": 2, "aims": [{"pan_deg": 270, "tilt_deg": 20}]}],
      "lamps": [{"slot": 1, "follows": 0}, {"slot": 2, "follows": 0}]})";
  parts.zones = R"({"id": "east", "storey": "g", "outline": [[7, -1], [9, -1], [9, 1], [7, 1]]},
    {"id": "west", "storey": "g", "outline": [[-9, -1], [-7, -1], [-7, 1], [-9, 1]]})";
  parts.situations = R"({"id": "night", "lights": ["sky"]})";
  for (const char* side : {"east", "west"})
    parts.brief += fmt::format(R"({}{{"id": "R_{}", "purpose": "who", "kind": "see", "zone": "{}",
      "target": {{"kind": "person"}}, "px_per_m": 20}})", parts.brief.empty() ? "" : ", ", side, side);
  std::string text = designText(parts);
  text.insert(text.find("}, \"situations\""), R"(, "lights": [{"id": "sky", "kind": "ambient", "lux": 0.01}])");
  design::Design design = design::readDesignText(text, ".").design;
  const auto best = [&] { return bestLamps(design, design.housings[0], design.situations[0], ".", {}); };
  const auto pairing = best();
  ASSERT_TRUE(pairing);
  EXPECT_EQ(pairing->tried, 2u);
  EXPECT_EQ(pairing->held_as_written, 0u);
  EXPECT_EQ(pairing->held.size(), 2u);
  ASSERT_EQ(pairing->lamps.size(), 2u);
  EXPECT_NE(pairing->lamps[0].follows, pairing->lamps[1].follows);
  EXPECT_TRUE(pairing->without.empty());
  design.housings[0].imagers[0].mode = design::ImagerMode::colour;
  const auto one = best();
  ASSERT_TRUE(one);
  EXPECT_EQ(one->tried, 1u);
  for (const design::HousingLamp& lamp : one->lamps) EXPECT_EQ(lamp.follows, 2);
}

}  // namespace
}  // namespace belvedere::proof
