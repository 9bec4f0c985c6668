// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a terrain one lens sees, against GDAL's gdal_viewshed on the same grid.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

#include "scene/ray_caster.h"
#include "scene/sightline.h"

namespace belvedere::scene {
namespace {

constexpr int kSide = 300;         // cells
constexpr double kCellM = 10;
constexpr double kEyeM = 3;        // above the ground

// Rounded hills of many sizes.
std::vector<double> hills(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> place(0, kSide), size(8, 60), height(-25, 40);
  std::vector<double> z(kSide * kSide, 100);
  for (int hill = 0; hill < 60; ++hill) {
    const double x = place(random), y = place(random), s = size(random);
    const double h = height(random) * s / 60;
    for (int r = 0; r < kSide; ++r)
      for (int c = 0; c < kSide; ++c) {
        const double d2 = (c - x) * (c - x) + (r - y) * (r - y);
        z[static_cast<std::size_t>(r * kSide + c)] += h * std::exp(-d2 / (2 * s * s));
      }
  }
  for (double& v : z) v = std::round(v * 1000) / 1000;
  return z;
}

std::string asGrid(const std::vector<double>& values) {
  std::string text = "ncols " + std::to_string(kSide) + "\nnrows " + std::to_string(kSide) +
                     "\nxllcorner 0\nyllcorner 0\ncellsize " + std::to_string(kCellM) + "\n";
  char number[32];
  for (std::size_t i = 0; i < values.size(); ++i) {
    std::snprintf(number, sizeof number, "%.3f%c", values[i], (i + 1) % kSide ? ' ' : '\n');
    text += number;
  }
  return text;
}

bool run(const std::string& command) {
  return std::system((command + " > /dev/null").c_str()) == 0;
}

struct Difference {
  double differ = 0, ours = 0, theirs = 0;  // shares of all cells
  int off_edge = 0;  // cells that differ more than two cells from any edge between seen and unseen
};

Difference compare(unsigned seed, bool by_caster) {
  const auto folder = std::filesystem::temp_directory_path() /
                      ("belvedere_viewshed_" + std::to_string(seed) + (by_caster ? "c" : "d"));
  std::filesystem::create_directories(folder);
  const std::vector<double> z = hills(seed);
  std::ofstream(folder / "hills.asc") << asGrid(z);
  const int eye_r = kSide / 2, eye_c = kSide / 3;
  const double eye_x = (eye_c + 0.5) * kCellM, eye_y = (kSide - eye_r - 0.5) * kCellM;
  const std::string at = folder.string() + "/";
  char place[200];
  // No curvature, no refraction, no limit of distance; targets on the ground.
  std::snprintf(place, sizeof place, "-ox %.3f -oy %.3f -oz %.3f -tz 0 -cc 0 -md 0 -vv 1 -iv 0",
                eye_x, eye_y, kEyeM);
  EXPECT_TRUE(run("gdal_viewshed -q " + std::string(place) + " " + at + "hills.asc " + at +
                  "seen.tif") &&
              run("gdal_translate -q -of AAIGrid " + at + "seen.tif " + at + "seen.asc"));
  std::ifstream in(folder / "seen.asc");
  std::string word;
  std::vector<int> theirs;
  while (in >> word) {
    if (std::isalpha(static_cast<unsigned char>(word[0]))) in >> word;
    else theirs.push_back(std::stoi(word));
  }
  EXPECT_EQ(theirs.size(), z.size());

  design::Design design;
  design.site.terrain = design::Terrain{{"T"}, {"hills.asc", ""}, {}, {}};
  const Scene scene = buildScene(design, {}, folder);
  const BodyTree tree = buildTree(scene);
  std::filesystem::remove_all(folder);
  const auto cell = [](int r, int c) { return static_cast<std::size_t>(r * kSide + c); };
  const Vec3 eye{eye_x, eye_y, z[cell(eye_r, eye_c)] + kEyeM};
  std::vector<Vec3> targets;
  for (int r = 0; r < kSide; ++r)
    for (int c = 0; c < kSide; ++c)
      targets.push_back({(c + 0.5) * kCellM, (kSide - r - 0.5) * kCellM, z[cell(r, c)]});
  std::vector<std::uint8_t> hidden(targets.size());
  if (by_caster) {
    RayCaster(scene).hiddenFrom(eye, targets, Blocking::see, Band::light, hidden);
  } else {
    for (std::size_t i = 0; i < targets.size(); ++i)
      hidden[i] = blockerOf(scene, tree, eye, targets[i], Blocking::see).has_value();
  }

  Difference d;
  for (int r = 0; r < kSide; ++r)
    for (int c = 0; c < kSide; ++c) {
      const bool seen = hidden[cell(r, c)] == 0, seen_there = theirs[cell(r, c)] != 0;
      d.ours += seen;
      d.theirs += seen_there;
      if (seen == seen_there) continue;
      d.differ += 1;
      bool edge = false;
      for (int dr = -2; dr <= 2; ++dr)
        for (int dc = -2; dc <= 2; ++dc) {
          const int rr = r + dr, cc = c + dc;
          if (rr < 0 || cc < 0 || rr >= kSide || cc >= kSide) continue;
          edge = edge || (hidden[cell(rr, cc)] == 0) != seen;
        }
      // Next to the eye nothing can stand between; there that program says "unseen" of some cells.
      const bool beside_eye = std::abs(r - eye_r) <= 1 && std::abs(c - eye_c) <= 1;
      EXPECT_TRUE(seen || !beside_eye);
      d.off_edge += !edge && !beside_eye;
    }
  for (double* share : {&d.differ, &d.ours, &d.theirs}) *share /= kSide * kSide;
  std::printf("seed %u, %s: seen %.2f %% here, %.2f %% there; %.2f %% of cells differ, %d off an "
              "edge\n",
              seed, by_caster ? "by the caster" : "in double", 100 * d.ours, 100 * d.theirs,
              100 * d.differ, d.off_edge);
  return d;
}

// Published program: GDAL's gdal_viewshed, which carries heights of least sight from cell to cell
// where we cross two triangles between each four cells: cells differ along edges only, 0.1 to 0.2 %
// of them (seen when written; the bound is 0.5).
TEST(Terrain, IsSeenAsGdalViewshedSeesIt) {
  for (const unsigned seed : {1u, 2u, 3u}) {
    for (const bool by_caster : {false, true}) {
      const Difference d = compare(seed, by_caster);
      EXPECT_LT(d.differ, 0.005);
      EXPECT_LT(std::abs(d.ours - d.theirs), 0.003);
      EXPECT_EQ(d.off_edge, 0);
      EXPECT_GT(d.ours, 0.05);
      EXPECT_LT(d.ours, 0.95);
    }
  }
}

}  // namespace
}  // namespace belvedere::scene
