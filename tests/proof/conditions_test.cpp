// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/conditions.h"

#include <gtest/gtest.h>

#include <cmath>

#include "made_up.h"

namespace belvedere::proof {
namespace {

// A level lens 2 m up that looks north, f = 50 mm at f/2 and 5 um pixels: hyperfocal 250.05 m.
design::PosedImager longLens() {
  design::PosedImager view = posed("C1", {0, 0, 2}, 0, 0, 0, {2000, 1500}, 20);
  view.focus = optics::Focus{0.05, 2, 5e-6};
  return view;
}

FocusTarget field(double from_m, double to_m, double px_per_m = 10) {
  return {{{rectangle(-0.5, from_m, 0.5, to_m), {}}}, {}, 1.9, 2.1, px_per_m};
}

TEST(FocusChoice, TakesTheStatedDistance) {
  design::PosedImager view = longLens();
  view.focused_at_m = 30;
  const auto choice = focusChoice(view, {field(5, 15)});
  ASSERT_TRUE(choice);
  EXPECT_TRUE(choice->stated);
  EXPECT_EQ(choice->at_m, 30);
  EXPECT_LT(choice->sharp.near_m, 30);
  EXPECT_GT(choice->sharp.far_m.value(), 30);
}

// Closed form: a stretch from a to b is sharpest as a whole at 2ab/(a + b). Points lie within the
// stretch by half a step of twelve.
TEST(FocusChoice, ServesTheStretchOfItsTargets) {
  const auto choice = focusChoice(longLens(), {field(10, 40)});
  ASSERT_TRUE(choice);
  EXPECT_FALSE(choice->stated);
  EXPECT_NEAR(choice->for_near_m.value(), 10, 1.3);
  EXPECT_NEAR(choice->for_far_m.value(), 40, 1.3);
  const double a = *choice->for_near_m, b = *choice->for_far_m;
  EXPECT_DOUBLE_EQ(choice->at_m, 2 * a * b / (a + b));
}

// Property: what it cannot serve, for want of density or out of its frame, does not move the focus.
TEST(FocusChoice, LeavesOutWhatItCannotServe) {
  const auto alone = focusChoice(longLens(), {field(10, 40)});
  const auto both = focusChoice(longLens(), {field(10, 40), field(60, 90, 1e5), field(-90, -60)});
  EXPECT_EQ(alone->at_m, both->at_m);
}

// Published rule (handbook 8): focused at the hyperfocal distance all from half of it on is sharp.
TEST(FocusChoice, ShortLensesStandAtTheHyperfocalDistance) {
  design::PosedImager view = longLens();
  view.focus = optics::Focus{0.0028, 1.6, 3e-6};
  const auto choice = focusChoice(view, {field(10, 40)});
  ASSERT_TRUE(choice);
  EXPECT_NEAR(choice->at_m, 0.0028 * 0.0028 / (1.6 * 3e-6) + 0.0028, 1e-12);
  EXPECT_FALSE(choice->sharp.far_m);
  EXPECT_NEAR(choice->sharp.near_m, choice->at_m / 2, 0.002);
}

// Closed form: where infrared comes to its focus 0.01 mm further behind the lens, what is sharp lies
// farther off: at f v / (v - f) with v = 50 * 30 / (30 - 0.05) mm less 0.01.
TEST(FocusChoice, InfraredIsSharpElsewhere) {
  design::PosedImager view = longLens();
  view.focused_at_m = 30;
  view.infrared_shift_m = 1e-5;
  const auto day = focusChoice(view, {}), night = focusChoice(view, {}, true);
  const double v = 0.05 * 30 / (30 - 0.05) - 1e-5, at_m = 0.05 * v / (v - 0.05);
  const optics::SharpStretch wanted = optics::sharpStretch(*view.focus, at_m);
  EXPECT_NEAR(night->sharp.near_m, wanted.near_m, 1e-6);
  EXPECT_NEAR(night->sharp.far_m.value(), wanted.far_m.value(), 1e-6);
  EXPECT_GT(night->sharp.near_m, day->sharp.near_m);
  EXPECT_EQ(day->at_m, night->at_m);
  view.infrared_shift_m = 1e-3;  // sharp nowhere, not even far away
  EXPECT_TRUE(std::isinf(focusChoice(view, {}, true)->sharp.near_m));
}

// A camera over a path of 6 to 29 m, recorded whole and coarser, with two requirements on it that are
// judged on its streams and on what it captures.
design::Design overAPath() {
  design::Design design;
  design::Model model;
  model.id = {"M"};
  design::ModelImager imager;
  imager.pixels = {3840, 2160};
  imager.pitch_um = 1.45;
  imager.lens.family = "rectilinear";
  imager.lens.hfov_deg = {31};
  imager.lens.f_number = {1.4};
  model.imagers.push_back(imager);
  design.library.push_back(model);
  design::Housing housing;
  housing.id = {"C1"};
  housing.model = {"M"};
  housing.mount.fixing_m = {0, 0, 4};
  design::HousingImager used;
  design::Aim aim;
  aim.tilt_deg = 20;
  used.aims = {aim};
  housing.imagers.push_back(used);
  for (const int width : {1920, 960}) {
    design::Stream stream;
    stream.id = {std::to_string(width)};
    stream.from = {1};
    stream.size_px = {width, width * 9 / 16};
    stream.use = {"recorded"};
    housing.streams.push_back(stream);
  }
  design.housings.push_back(housing);
  design::Zone zone;
  zone.id = {"path"};
  zone.outline = rectangle(-1, 6, 1, 29);
  design.site.zones.push_back(zone);
  for (const auto judged_on : {design::JudgedOn::recorded, design::JudgedOn::captured}) {
    design::Requirement r;
    r.id = {judged_on == design::JudgedOn::captured ? "R2" : "R1"};
    r.zone = {"path"};
    r.px_per_m = 250;
    r.judged_on = judged_on;
    design.brief.push_back(r);
  }
  return design;
}

// Property: a lens has one focus, whichever of its pictures is judged, and whatever else of the brief
// is asked about.
TEST(FocusChoice, IsOneForAllPicturesOfAnImager) {
  const design::Design design = overAPath();
  const std::vector<FocusTarget> targets = focusTargets(design, {});
  const auto captured = design::posedImagers(design, design::JudgedOn::captured);
  const auto recorded = design::posedImagers(design, design::JudgedOn::recorded);
  ASSERT_EQ(captured.size(), 1u);
  ASSERT_EQ(recorded.size(), 2u);
  const double at_m = focusChoice(captured[0], targets)->at_m;
  EXPECT_EQ(focusChoice(recorded[0], targets)->at_m, at_m);
  EXPECT_EQ(focusChoice(recorded[1], targets)->at_m, at_m);
  // Of the streams the denser one reaches farther, and what is captured farther still.
  const auto alone = focusChoice(recorded[0], {targets[0]});
  EXPECT_EQ(focusChoice(recorded[1], {targets[0]})->at_m, alone->at_m);
  EXPECT_LT(*alone->for_far_m, *focusChoice(recorded[0], targets)->for_far_m);
}

// By hand: on a platform 3 m high the band begins 3 m higher.
TEST(FocusChoice, ServesZonesOnWhatTheyLieOn) {
  design::Design design = overAPath();
  design::Solid platform;
  platform.id = {"platform"};
  platform.outline = rectangle(-5, 3, 5, 40);
  platform.top_m = 3;
  design.site.solids.push_back(platform);
  design::Zone& zone = design.site.zones[0];
  zone.surface = {"platform"};
  zone.base_m = 0.25;
  const FocusTarget target = focusTargets(design, {})[0];
  EXPECT_NEAR(target.floor.at({0, 10}) + target.low_m, 3.45, 1e-12);  // a person's begins at 0.2 m
  const auto raised = [&](double up_m) {
    design.housings[0].mount.fixing_m.z = 4 + up_m;
    return focusChoice(design::posedImagers(design, design::JudgedOn::captured)[0],
                       focusTargets(design, {}))->at_m;
  };
  const double on_platform = raised(3.25);
  zone.surface = {};
  zone.base_m = 0;
  EXPECT_NEAR(on_platform, raised(0), 1e-9);
}

// Property: an imager in mono by infrared lamps is sharp where infrared is; by white ones, or in colour,
// where light is. A focus nearer than the focal length is none.
TEST(FocusChoice, TheShiftIsOfThoseWhoSeeByInfrared) {
  design::PosedImager view = longLens();
  view.focused_at_m = 30;
  view.infrared_shift_m = 1e-5;
  const double day_m = focusChoice(view, {})->sharp.near_m, night_m = focusChoice(view, {}, true)->sharp.near_m;
  EXPECT_LT(day_m, night_m);
  const auto near_m = [&](double wave_nm, light::Mode mode, bool burns) {
    Lighting lighting;
    lighting.light.light.stated = true;
    light::Lamp lamp;
    lamp.housing = view.housing;
    lamp.wave_nm = wave_nm;
    lighting.light.lamps = {lamp};
    lighting.light.burns = {burns};
    lighting.light.states = {{view.imager, view.housing, view.slot, 0.5, mode, true}};
    return conditionsOf(view, lighting, design::TargetKind::person).sharp->near_m;
  };
  EXPECT_EQ(near_m(850, light::Mode::mono, true), night_m);
  EXPECT_EQ(near_m(850, light::Mode::mono, false), day_m);
  EXPECT_EQ(near_m(850, light::Mode::colour, true), day_m);
  EXPECT_EQ(near_m(550, light::Mode::mono, true), day_m);
  view.focused_at_m = 0.04;
  EXPECT_FALSE(focusChoice(view, {}));
}

// Closed form: 1000 / tan 10 = 5671 px a metre at 1 m are 200 at 28.4 m; of an unrolled picture of 3000 px a
// radian, at 15 m. What is judged on it must be dense enough on both. Points lie 2.5 m apart.
TEST(FocusChoice, AnUnrolledPictureServesByTheLesserDensity) {
  const FocusTarget target = field(10, 40, 200);
  for (const auto& [px_per_rad, far_m] : {std::pair{1e9, 28.4}, {3000.0, 15.0}}) {
    design::PosedImager view = longLens();
    view.pictures = {{target.judged_on, {0, 0}, {2000, 1500}, 1, 1, px_per_rad}};
    const auto choice = focusChoice(view, {target});
    ASSERT_TRUE(choice && choice->for_far_m);
    EXPECT_LE(*choice->for_far_m, far_m);
    EXPECT_GT(*choice->for_far_m, far_m - 2.6);
  }
}

TEST(FocusChoice, NothingWhereTheLensIsNotKnown) {
  design::PosedImager view = longLens();
  view.focus.reset();
  EXPECT_FALSE(focusChoice(view, {field(10, 40)}));
}

// By hand: half as much light as is enough, of lamps whose ranges alone say so: half of enough, in
// whatever lux the place lies.
TEST(Conditions, LampsAloneAreShortByAShare) {
  design::PosedImager view = longLens();
  view.focus.reset();
  auto made = ask({{rectangle(-0.5, 5, 0.5, 60), {}}}, 1.9, 2.1, 10, {view});
  auto lighting = std::make_shared<Lighting>();
  lighting->light.light.stated = true;
  lighting->light.light.ambient_lux = 0.5;
  light::Lamp lamp;
  lamp.housing = view.housing;
  lamp.axis = {0, -1, 0};  // looks away
  lamp.half_beam_rad = 0.1;
  lamp.range_m = 30;
  lighting->light.lamps = {lamp};
  lighting->light.burns = {false};
  lighting->light.states = {{view.imager, view.housing, view.slot, 0.5, light::Mode::mono, true}};
  made->question.lighting = lighting;
  replaceViews(made->question, {view});
  const Answer dark = answerOf(made->question, 0, {0, 20}, 3);
  EXPECT_EQ(dark.reason, Reason::too_dark);
  EXPECT_EQ(dark.measure.needed, 100);
  EXPECT_EQ(dark.measure.unit, "% of enough light");
}

// Property: previews made by one light are not kept for another: another distribution, a luminaire
// turned about its axis, glass that takes infrared.
TEST(Conditions, KeysTellLightsApart) {
  Conditions conditions;
  light::SituationLight light;
  light.luminaires.push_back({"L", {0, 0, 5}, light::luminaireFromSite(0, 90),
                              std::make_shared<light::Photometry>(light::pointSource(100)), 1});
  const std::vector<light::Lamp> lamps;
  conditions.light.emplace();
  conditions.light->needed = {1, light::Unknown::nothing, 1, 1, 1, 1, false, false};
  conditions.light->light = &light;
  conditions.light->lamps = &lamps;
  const auto before = keyOf(conditions);
  light.luminaires[0].photometry = std::make_shared<light::Photometry>(light::pointSource(100));
  EXPECT_EQ(keyOf(conditions), before);  // the same light, read again
  light.luminaires[0].photometry = std::make_shared<light::Photometry>(light::pointSource(101));
  const auto other = keyOf(conditions);
  EXPECT_NE(other, before);
  light.luminaires[0].luminaire_from_site = light::luminaireFromSite(20, 90);
  const auto turned = keyOf(conditions);
  EXPECT_NE(turned, other);
  conditions.light->coated_glass = false;
  EXPECT_NE(keyOf(conditions), turned);
}

// Property: a stretch that is not sharp, and one that is too dark, fail as such, in that order.
TEST(Conditions, AreTheReasonsUnsharpAndTooDark) {
  design::PosedImager view = longLens();
  view.focused_at_m = 20;
  view.least_light = design::LeastLight{1, 2, 0.04, {}, {}};
  view.f_number = 2;
  auto made = ask({{rectangle(-0.5, 5, 0.5, 60), {}}}, 1.9, 2.1, 10, {view});
  auto lighting = std::make_shared<Lighting>();
  lighting->light.light.stated = true;
  lighting->light.light.ambient_lux = 0.5;
  made->question.lighting = lighting;
  replaceViews(made->question, {view});
  const auto sharp = made->question.conditions[0].sharp;
  ASSERT_TRUE(sharp);
  const Answer near = answerOf(made->question, 0, {0, sharp->near_m - 0.5}, 3);
  EXPECT_EQ(near.reason, Reason::unsharp);
  EXPECT_NEAR(near.measure.margin, (sharp->near_m - 0.5) / sharp->near_m, 1e-9);
  const Answer dark = answerOf(made->question, 0, {0, 20}, 3);
  EXPECT_EQ(dark.reason, Reason::too_dark);
  EXPECT_NEAR(dark.measure.found, 0.5, 1e-12);
  EXPECT_NEAR(dark.measure.needed, 1, 1e-12);
  // Twice as long, half as much light is enough.
  view.exposure_s = 0.08;
  replaceViews(made->question, {view});
  EXPECT_EQ(answerOf(made->question, 0, {0, 20}, 3).reason, Reason::served);
}

}  // namespace
}  // namespace belvedere::proof
