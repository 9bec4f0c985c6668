// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lamps, exposure, noise and blur of photographs.
#include <gtest/gtest.h>
#include <malloc.h>
#include <tbb/global_control.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <new>

#include "base/units.h"
#include "light/exposure.h"
#include "made_up.h"
#include "picture/photo.h"
#include "picture/sensor.h"
#include "picture/work.h"

// All that is asked of the heap, so that a test can say how much is held at most.
namespace {
std::atomic<std::size_t> held_bytes{0}, most_held_bytes{0};
void* taken(std::size_t bytes) {
  void* at = std::malloc(bytes > 0 ? bytes : 1);
  if (at == nullptr) throw std::bad_alloc();
  const std::size_t held = held_bytes += malloc_usable_size(at);
  std::size_t most = most_held_bytes.load();
  while (held > most && !most_held_bytes.compare_exchange_weak(most, held)) {
  }
  return at;
}
void givenBack(void* at) {
  if (at == nullptr) return;
  held_bytes -= malloc_usable_size(at);
  std::free(at);
}
}  // namespace
void* operator new(std::size_t bytes) { return taken(bytes); }
void* operator new[](std::size_t bytes) { return taken(bytes); }
// The library's own would call the two above; an address sanitizer's does not, and misses its blocks.
void* operator new(std::size_t bytes, const std::nothrow_t&) noexcept {
  try {
    return taken(bytes);
  } catch (const std::bad_alloc&) {
    return nullptr;
  }
}
void* operator new[](std::size_t bytes, const std::nothrow_t& none) noexcept { return operator new(bytes, none); }
void operator delete(void* at) noexcept { givenBack(at); }
void operator delete[](void* at) noexcept { givenBack(at); }
void operator delete(void* at, std::size_t) noexcept { givenBack(at); }
void operator delete[](void* at, std::size_t) noexcept { givenBack(at); }
void operator delete(void* at, const std::nothrow_t&) noexcept { givenBack(at); }
void operator delete[](void* at, const std::nothrow_t&) noexcept { givenBack(at); }

namespace belvedere::picture {
namespace {

double bright(Colour c) {
  return static_cast<double>(0.2126f * c.red + 0.7152f * c.green + 0.0722f * c.blue);
}

// Closed form: I cos / d^2, times the share thrown back; nothing in a shadow.
TEST(LampLight, FollowsInverseSquareAndCosine) {
  scene::Scene scene;
  addBox(scene, {-50, -50, -1}, {50, 50, 0}, addSource(scene, "floor"));
  addBox(scene, {-2.3, 1, 2.5}, {-1.7, 9, 2.6}, addSource(scene, "board"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const auto photometry = std::make_shared<light::Photometry>(light::pointSource(1000));
  const light::Luminaire luminaire{
      "lamp", {0, 5, 5}, light::luminaireFromSite(0, 90), photometry, 1};
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 0, {0, 0, 1}};
  options.lights = {{luminaire.at_m, scene::Band::light, &luminaire, nullptr, 0}};
  const std::vector<Coat> coats(2);
  const View view = level({0, 5, 10}, 400, 1, {400, 400}, 0, 90);  // 40 px/m on the floor
  const Photo photo = photograph(subject, coats, view, options, {});
  for (const double aside : {0.0, 1.0, 3.0}) {
    const double d = std::hypot(aside, 5.0);
    const double lux = 1000 * (5 / d) / (d * d);
    const double albedo = bright(albedoAt(coats[0], {aside, 5, 0}, {0, 0, 1}, 0.025));
    const int x = 200 + static_cast<int>(aside * 40);
    EXPECT_NEAR(bright(photo.light[photo.at(x, 200)]), lux * albedo, 0.04 * lux * albedo) << aside;
  }
  // Behind the board, as the lamp sees it: twice as far aside as the board, halfway down.
  EXPECT_EQ(bright(photo.light[photo.at(200 - 160, 200)]), 0);
}

// Closed form: at its range on its axis a lamp is worth the needed light; at half of it four times.
// Common practice: a colour imager's filter stops infrared.
TEST(LampLight, InfraredIsForMonoAlone) {
  light::Lamp lamp;
  lamp.axis = {0, 1, 0};
  lamp.half_beam_rad = degToRad(30);
  lamp.range_m = 30;
  const std::vector<light::Lamp> lamps{lamp};
  light::ImagerLight by;
  by.needed.lux = 0.05;
  by.needed.f_number = by.needed.stated_f_number = 1.6;
  by.needed.exposure_s = by.needed.stated_exposure_s = 0.04;
  by.lamps = &lamps;
  by.burns = {true};
  by.mode = light::Mode::mono;
  const auto lights = pointLights(by);
  ASSERT_EQ(lights.size(), 1u);
  EXPECT_EQ(lights[0].band, scene::Band::infrared);
  EXPECT_NEAR(lights[0].luxAt({0, 30, 0}), 0.05, 1e-12);
  EXPECT_NEAR(lights[0].luxAt({0, 15, 0}), 0.2, 1e-12);
  by.mode = light::Mode::colour;
  EXPECT_TRUE(pointLights(by).empty());
  by.mode = light::Mode::mono;
  by.burns = {false};
  EXPECT_TRUE(pointLights(by).empty());
}

Photo flat(float light, int side = 100) {
  Photo photo;
  photo.width = photo.height = side;
  const auto n = static_cast<std::size_t>(side) * static_cast<std::size_t>(side);
  photo.light.assign(n, {light, light, light});
  photo.surface.assign(n, 0);
  photo.distance_m.assign(n, 1);
  return photo;
}

// Published: IEC 62676-5, from memory: at the stated least illuminance a test chart comes out at the
// stated contrast, 30 %. With less light the picture is darker; with more, gain falls first, then
// the exposure time.
TEST(Sensor, LeastIlluminanceComesOutAtItsContrast) {
  Sensor sensor;
  sensor.needed_lux = 0.05;
  const auto share = static_cast<float>(0.05 * sensor.reflectance);
  const Exposed at_least = exposeFor(flat(share / 4), sensor);
  EXPECT_TRUE(at_least.gain_at_most);
  EXPECT_NEAR(at_least.exposure * static_cast<double>(share), 0.3, 1e-6);
  EXPECT_EQ(at_least.exposure_s, 0.04);
  const Exposed lit = exposeFor(flat(share * 10), sensor);
  EXPECT_FALSE(lit.gain_at_most);
  EXPECT_EQ(lit.exposure_s, 0.04);
  const Exposed day = exposeFor(flat(share * 10000), sensor);
  EXPECT_NEAR(day.exposure_s, 0.04 * kMostGain * day.exposure / at_least.exposure, 1e-9);
  EXPECT_LT(day.exposure_s, 0.01);
}

// Closed form: sigma^2 = electrons + reading out squared; so noise over light falls as the light
// rises. Four captured pixels to one of the picture halve it.
TEST(Sensor, NoiseGrowsAsLightFalls) {
  Sensor sensor;
  sensor.mono = true;
  sensor.needed_lux = 1;
  sensor.reflectance = 0.5;
  const auto spread = [&](float light) {
    Photo photo = flat(light, 200);
    addNoise(photo, sensor);
    double sum = 0, squares = 0;
    for (const Colour& c : photo.light) {
      sum += static_cast<double>(c.red);
      squares += static_cast<double>(c.red) * static_cast<double>(c.red);
    }
    const double n = static_cast<double>(photo.light.size());
    return std::sqrt(squares / n - sum / n * sum / n) / static_cast<double>(light);
  };
  for (const double electrons : {100.0, 1000.0, 10000.0}) {
    const auto light = static_cast<float>(0.5 * electrons / kElectronsAtNeeded);
    const double expected = std::sqrt(electrons + kReadElectrons * kReadElectrons) / electrons;
    EXPECT_NEAR(spread(light), expected, 0.03 * expected) << electrons;
  }
  const double one = spread(3);
  sensor.pixels_over_captured = 0.5;
  EXPECT_NEAR(spread(3), 0.5 * one, 0.02 * one);
  Photo a = flat(1), b = flat(1), c = flat(1);
  addNoise(a, sensor);
  addNoise(b, sensor);
  sensor.seed = 2;
  addNoise(c, sensor);
  const auto same = [](const Photo& p, const Photo& q) {
    for (std::size_t i = 0; i < p.light.size(); ++i)
      if (p.light[i].red != q.light[i].red) return false;
    return true;
  };
  EXPECT_TRUE(same(a, b));
  EXPECT_FALSE(same(a, c));
  const auto grey = [](const Photo& p) {
    return std::all_of(p.light.begin(), p.light.end(), [](const Colour& l) { return l.red == l.green; });
  };
  EXPECT_TRUE(grey(a));
  sensor.mono = false;
  Photo coloured = flat(1);
  addNoise(coloured, sensor);
  EXPECT_FALSE(grey(coloured));
}

// Where the light of a row of pixels first reaches a share of its most, from the left.
double crossing(const Photo& photo, int row, double share) {
  double most = 0, before = 0;
  for (int x = 0; x < photo.width; ++x)
    most = std::max(most, bright(photo.light[photo.at(x, row)]));
  for (int x = 0; x < photo.width; ++x) {
    const double here = bright(photo.light[photo.at(x, row)]);
    if (here >= share * most) return x + 1 - (here - share * most) / std::max(1e-9, here - before);
    before = here;
  }
  return photo.width;
}

// Closed form: out of focus a point is a disc of 2 a |1/d - 1/s| radians; across the edge of a
// half plane, 0.805 of its diameter lies between 5 and 95 %.
TEST(SimulatedView, OutOfFocusBlurIsAsComputed) {
  scene::Scene scene;
  addBox(scene, {-0.5, 4, -0.5}, {0.5, 4.1, 0.5}, addSource(scene, "sign"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  std::vector<Coat> coats(1);
  coats[0].finish = Finish::sign;
  const View view = level({0, 0, 0}, 1000, 1, {400, 200});
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 1000, {0, -1, 0}};
  const auto width = [&] {
    const Photo photo = photograph(subject, coats, view, options, {});
    double sum = 0;
    for (int row = 80; row < 120; ++row)
      sum += crossing(photo, row, 0.95) - crossing(photo, row, 0.05);
    return sum / 40;
  };
  EXPECT_LT(width(), 1.1);
  options.aperture_m = 0.024;
  options.focus_m = 12;
  const double disc_px = 2 * 0.024 * (1.0 / 4 - 1.0 / 12) * 1000;
  EXPECT_NEAR(disc_px, 8, 1e-9);
  EXPECT_NEAR(width(), 0.805 * disc_px, 0.6);
  options.focus_m = 4;
  EXPECT_LT(width(), 1.2);
}

// Handbook 8: a walker at 1.4 m/s smears 14 px at 250 px/m and 1/25 s. Across the chart's rim the
// light rises evenly over the smear, but for the 1.25 px of its black line.
TEST(SimulatedView, MotionBlurIsAsComputed) {
  const double smear_px = light::motionBlurPx(250, 1.4, 0.04);
  EXPECT_NEAR(smear_px, 14, 1e-9);
  const scene::Scene nothing;
  const scene::RayCaster caster(nothing);
  const Subject subject(caster);
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 1000, {0, -1, 0}};
  options.boards = {{Pattern::chart, {0, 4, 0}, 180, {1.4, 0}}};
  const View view = level({0, 0, 0}, 1000, 1, {400, 200});
  double half_px = 0;  // where the light has risen by half
  const auto rise = [&] {
    const Photo photo = photograph(subject, {}, view, options, {});
    constexpr int kRow = 55;  // 0.178 m up: between the frame and the bars
    half_px = crossing(photo, kRow, 0.5);
    return half_px - crossing(photo, kRow, 0.05);
  };
  EXPECT_LT(rise(), 1.1);
  const double stands_px = half_px;
  options.exposure_s = 0.04;
  EXPECT_NEAR(rise(), 0.45 * smear_px + 1.25, 1);
  EXPECT_NEAR(half_px, stands_px + 0.5 * 1.25, 1);  // to either side of where it is in the middle of the time
}

// Property: what hardly moves looks as what stands; in the sun a figure shades itself, at every moment
// of the exposure.
TEST(Blur, AMovingFigureShadesItself) {
  const scene::Scene nothing;
  const scene::RayCaster caster(nothing);
  const Subject subject(caster);
  PhotoOptions options;
  options.lighting = {0, 0, 1000, normalized(Vec3{0.8, -0.6, 0.9})};
  options.figures = {{{0, 4, 0}, 1.75, 180, {1e-9, 0}}};
  const View view = level({0, 0, 1.2}, 240, 1, {120, 160});
  const Photo stands = photograph(subject, {}, view, options, {});
  options.exposure_s = 0.04;
  const Photo moves = photograph(subject, {}, view, options, {});
  double differ = 0;
  for (std::size_t i = 0; i < stands.light.size(); ++i)
    differ += std::abs(bright(stands.light[i]) - bright(moves.light[i]));
  EXPECT_LT(differ / static_cast<double>(stands.light.size()), 2);
}

// Closed form: a lens set so that infrared is sharp beyond infinity blurs what is far by 2 a / |s|.
TEST(Blur, BeyondInfinityBlursWhatIsFar) {
  scene::Scene scene;
  addBox(scene, {-50, 400, -50}, {50, 410, 50}, addSource(scene, "sign"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  std::vector<Coat> coats(1);
  coats[0].finish = Finish::sign;
  const View view = level({0, 0, 0}, 1000, 1, {400, 200});
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 1000, {0, -1, 0}};
  options.aperture_m = 0.024;
  options.focus_m = -6;
  const Photo photo = photograph(subject, coats, view, options, {});
  double sum = 0;
  for (int row = 80; row < 120; ++row)
    sum += crossing(photo, row, 0.95) - crossing(photo, row, 0.05);
  EXPECT_NEAR(sum / 40, 0.805 * 2 * 0.024 * (1.0 / 400 + 1.0 / 6) * 1000, 1);
}

// Four metres ahead of the eye a wall, lit by an infrared lamp at the eye; between them, if asked
// for, a pane.
Photo behindGlass(double light, double infrared, PhotoOptions options = {}) {
  scene::Scene scene;
  addBox(scene, {-5, 4, -5}, {5, 4.1, 5}, addSource(scene, "wall"));
  if (light > 0) {
    addBox(scene, {-5, 2, -5}, {5, 2.01, 5}, addSource(scene, "pane", light));
    scene.sources.back().infrared = infrared;
  }
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  light::Lamp lamp;
  lamp.axis = {0, 1, 0};
  lamp.half_beam_rad = degToRad(60);
  lamp.range_m = 30;
  options.lights = {{{0, 0, 0.3}, scene::Band::infrared, nullptr, &lamp, 1}};
  options.mono = true;
  const std::vector<Coat> coats(scene.sources.size());
  return photograph(subject, coats, level({0, 0, 0}, 100, 1, {40, 40}), options, {});
}

// Closed form: clear glass that passes a fifth of the infrared takes it there and back, and like all
// panes 8 % of the light; what passes a share of both takes the infrared on its way there alone.
TEST(LampLight, GlassTakesInfraredThereAndBack) {
  PhotoOptions dark;
  dark.lighting = {0, 0, 0, {0, 0, 1}};
  const std::size_t middle = 20 * 40 + 20;
  const double open = bright(behindGlass(0, 0, dark).light[middle]);
  EXPECT_GT(open, 0);
  EXPECT_NEAR(bright(behindGlass(1, 0.2, dark).light[middle]), 0.92 * 0.04 * open, 1e-4 * open);
  EXPECT_NEAR(bright(behindGlass(0.5, 0.2, dark).light[middle]), 0.5 * 0.2 * open, 1e-4 * open);
}

// Property: an imager in mono gives grey, of sky, plain, glass and haze, too.
TEST(Mono, IsGreyAllOver) {
  PhotoOptions day;
  day.lighting = plausibleLighting(5000);
  day.ground_m = -1;
  scene::Scene scene;
  addBox(scene, {0, 2, -5}, {5, 2.01, 5}, addSource(scene, "pane", 0.8));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const std::vector<Coat> coats(1);
  const View view = level({0, 0, 0}, 50, 1, {64, 64});
  const auto coloured = [&] {
    std::size_t n = 0;
    for (const Colour& c : photograph(subject, coats, view, day, {}).light)
      n += c.red != c.green || c.green != c.blue ? 1u : 0u;
    return n;
  };
  EXPECT_GT(coloured(), 0u);
  day.mono = true;
  EXPECT_EQ(coloured(), 0u);
}

// Property: behind any number of panes a wall is still there.
TEST(Glass, ManyPanesDoNotHideWhatIsBehind) {
  scene::Scene scene;
  for (int i = 0; i < 9; ++i)
    addBox(scene, {-5, 2.0 + i, -5}, {5, 2.01 + i, 5}, addSource(scene, "pane", 0.9));
  addBox(scene, {-5, 12, -5}, {5, 12.1, 5}, addSource(scene, "wall"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const std::vector<Coat> coats(scene.sources.size());
  const Photo photo =
      photograph(subject, coats, level({0, 0, 0}, 200, 1, {40, 40}), PhotoOptions{}, {});
  EXPECT_LT(photo.surface[photo.at(20, 20)], kNoSurface);
  EXPECT_NEAR(static_cast<double>(photo.distance_m[photo.at(20, 20)]), 12, 0.01);
}

// A room by the light of one luminaire and one lamp, out of focus, somebody walking through it.
struct NightRoom {
  scene::Scene scene = closedRoom();
  scene::RayCaster caster{scene};
  Subject subject{caster};
  light::Luminaire luminaire{"lamp", {3, 2, 2.8}, light::luminaireFromSite(0, 90),
                             std::make_shared<light::Photometry>(light::pointSource(3)), 1};
  light::Lamp lamp;
  PhotoOptions options;
  NightRoom() {
    lamp.axis = {0, 1, 0};
    lamp.at_m = {3, 0.2, 2};
    lamp.half_beam_rad = 0.5;
    lamp.range_m = 10;
    options.lighting = {0, 0, 0, {0, 0, 1}};
    options.lights = {{luminaire.at_m, scene::Band::light, &luminaire, nullptr, 0},
                      {lamp.at_m, scene::Band::infrared, nullptr, &lamp, 0.1}};
    options.mono = true;
    options.aperture_m = 0.002;
    options.focus_m = 3;
    options.exposure_s = 0.04;
    Figure walks{{3, 3, 0}, 1.75, 180};
    walks.moves_mps = {1.4, 0};
    options.figures = {walks};
  }
  Photo take(Size size, const Progress& progress) const {
    const std::vector<Coat> coats(scene.sources.size());
    return photograph(subject, coats, level({3, 0.3, 1.8}, 0.5 * size[0], 1, size), options, progress);
  }
};

// Property: a photograph by night that is cancelled in any of its passes goes no further, not even to the end of
// another row of tiles.
TEST(NightPhoto, CanBeCancelledInEveryPass) {
  const NightRoom room;
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  for (const double at : {0.02, 0.2, 0.4, 0.51, 0.7}) {
    int after = -1;
    std::atomic<bool>* cancel = nullptr;
    const Progress whole;
    Progress progress(whole, [&](double share, std::string_view) {
      if (after >= 0) ++after;
      if (share < at || after >= 0) return;
      after = 0;
      *cancel = true;
    });
    cancel = &progress.cancel;
    EXPECT_THROW(room.take({160, 120}, progress), Cancelled) << at;
    EXPECT_EQ(after, 0) << at;
  }
}

// Property: lamps, blur and somebody walking give the same bytes at any number of threads.
TEST(NightPhoto, SameBytesAtAnyThreadCount) {
  const NightRoom room;
  std::vector<std::vector<std::uint32_t>> made;
  for (const std::size_t threads : {1u, 2u, 7u}) {
    tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    Photo photo = room.take({200, 150}, {});
    Sensor sensor;
    sensor.needed_lux = 0.1;
    addNoise(photo, sensor);
    made.push_back(develop(photo, exposureOf(photo)).argb);
  }
  EXPECT_TRUE(made[1] == made[0]);
  EXPECT_TRUE(made[2] == made[0]);
}

// Property: taken row by row it holds as much of a picture twice as high as of one; kept as a photo, it holds
// what a pixel has of it besides.
TEST(NightPhoto, HoldsNoMoreThanItsPicture) {
  const NightRoom room;
  const std::vector<Coat> coats(room.scene.sources.size());
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  constexpr int kAcross = 1600;
  const auto most = [&](int down, bool keep) {
    const Size size{kAcross, down};
    const View view = level({3, 0.3, 1.8}, 0.5 * kAcross, 1, size);
    const std::size_t before = held_bytes.load();
    most_held_bytes = before;
    if (keep)
      photograph(room.subject, coats, view, room.options, {});
    else
      photographRows(room.subject, coats, view, room.options, {}, [](const PhotoRow&) {});
    return static_cast<double>(most_held_bytes.load() - before);
  };
  most(32, false);  // what is made once
  const double low = most(160, false), high = most(320, false), kept = most(320, true);
  const double per_pixel = sizeof(Colour) + sizeof(std::uint32_t) + sizeof(float);
  EXPECT_LT(high - low, 0.02 * per_pixel * kAcross * 160);  // the grid of rays has more nodes
  EXPECT_GT(kept - high, 0.95 * per_pixel * kAcross * 320);
  EXPECT_LT(kept - high, 1.05 * per_pixel * kAcross * 320);
}

}  // namespace
}  // namespace belvedere::picture
