// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>

#include "design/resolve.h"
#include "proof/findings.h"

namespace belvedere::proof {
namespace {

design::Design withStream(std::array<int, 2> size_px) {
  design::Design design;
  design::Model model;
  model.id = {"plain"};
  design::ModelImager imager;
  imager.slot = 1;
  imager.pixels = {2592, 1944};
  imager.lens.family = "rectilinear";
  imager.lens.hfov_deg = {60};
  model.imagers = {imager};
  design.library = {model};
  design::Housing housing;
  housing.id = {"C1"};
  housing.model = {"plain"};
  housing.imagers.resize(1);
  housing.imagers[0].slot = 1;
  housing.imagers[0].aims.resize(1);
  design::Stream stream;
  stream.id = {"s1"};
  stream.from = {1};
  stream.size_px = size_px;
  stream.use = {"recorded"};
  housing.streams = {stream};
  design.housings = {housing};
  return design;
}

std::vector<std::string> codesOf(const design::Design& design) {
  std::vector<std::string> codes;
  for (const Finding& finding : designFindings(design, {}))
    if (finding.code.starts_with("stream_")) codes.push_back(finding.code);
  return codes;
}

TEST(StreamSizes, EnlargingAddsNoPixels) {
  const design::Design twice = withStream({5184, 3888});
  const auto posed = design::posedImagers(twice, design::JudgedOn::recorded);
  ASSERT_EQ(posed.size(), 1u);
  EXPECT_EQ(posed[0].scale_x, 1);
  EXPECT_EQ(posed[0].scale_y, 1);
  EXPECT_EQ(codesOf(twice), std::vector<std::string>{"stream_enlarged"});
  const auto half = design::posedImagers(withStream({1296, 972}), design::JudgedOn::recorded);
  EXPECT_EQ(half.at(0).scale_x, 0.5);
  EXPECT_TRUE(codesOf(withStream({1296, 972})).empty());
}

TEST(StreamSizes, AnotherShapeIsSaid) {
  EXPECT_EQ(codesOf(withStream({1920, 1080})), std::vector<std::string>{"stream_squeezed"});
  EXPECT_TRUE(codesOf(withStream({1280, 960})).empty());
}

}  // namespace
}  // namespace belvedere::proof
