// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/streams.h"

#include <gtest/gtest.h>

#include "made_up.h"

namespace belvedere::services {
namespace {

Design oneStream(const Stream& s) {
  Design design;
  design.catalogue.models.push_back(housingModel("m"));
  design.housings.push_back(housing("C1", "m", {}));
  design.housings[0].streams.push_back(s);
  return design;
}

// Published: K. Amerasinghe, H.264 Primer (2010): 1280 x 720, 24 frames, rank 2 at 0.07: 3.1 Mbit/s.
// Our range for fixed cameras with medium activity must hold it, since the rule is for edited film.
TEST(Streams, RangeHoldsThePublishedRuleOfThumb) {
  Stream s = stream("s", 1, {1280, 720});
  s.frames_per_s = 24;
  s.codec = "H.264";
  s.activity = "high";
  const StreamRate rate = streamRates(oneStream(s)).at(0);
  EXPECT_LT(rate.day_mbps.low, 3.096576);
  EXPECT_GT(rate.day_mbps.high, 3.096576);
}

// Closed form: width x height x frames x bits per pixel: 3840 x 2160 x 15 x 0.05 = 6.2208 Mbit/s.
TEST(Streams, EstimateIsPixelsTimesFramesTimesBits) {
  Stream s = stream("s", 1, {3840, 2160});
  s.frames_per_s = 15;
  s.activity = "high";
  const StreamRate rate = streamRates(oneStream(s)).at(0);
  EXPECT_NEAR(rate.day_mbps.low, 6.2208, 1e-9);  // H.265, high activity: from 0.05
  EXPECT_EQ(rate.night_mbps.low, 2 * rate.day_mbps.low);
  EXPECT_EQ(rate.from, RateFrom::estimate);
  EXPECT_LT(rate.day_mbps.low, rate.day_mbps.typical);
  EXPECT_LT(rate.day_mbps.typical, rate.day_mbps.high);
  EXPECT_EQ(rate.peak_mbps, rate.night_mbps.high);
}

// Property: a stated rate wins over the estimate, a clip over both, a cap bounds the estimate.
TEST(Streams, StatedAndMeasuredRatesWin) {
  Stream s = stream("s", 1);
  s.rate = Rate{"constant", 4};
  EXPECT_EQ(streamRates(oneStream(s)).at(0).mean_mbps, (Spread{4, 4, 4}));
  s.rate = Rate{"capped", 1.5};
  const StreamRate capped = streamRates(oneStream(s)).at(0);
  EXPECT_EQ(capped.from, RateFrom::capped);
  EXPECT_EQ(capped.peak_mbps, 1.5);
  EXPECT_EQ(capped.mean_mbps.high, 1.5);
  EXPECT_LE(capped.mean_mbps.typical, 1.5);
  Design design = oneStream(s);
  Evidence clip;
  clip.kind = "clip";
  clip.of = {"s"};
  clip.clip = ClipFigures{.mean_mbps = 2.8, .p95_mbps = 4.1};
  design.evidence.push_back(clip);
  const StreamRate measured = streamRates(design).at(0);
  EXPECT_EQ(measured.from, RateFrom::measured);
  EXPECT_EQ(measured.mean_mbps, (Spread{2.8, 2.8, 2.8}));
  EXPECT_EQ(measured.peak_mbps, 4.1);
}

TEST(Streams, CodecsHaveSeveralNames) {
  EXPECT_EQ(codecOf("H.265"), Codec::h265);
  EXPECT_EQ(codecOf("hevc"), Codec::h265);
  EXPECT_EQ(codecOf("H264"), Codec::h264);
  EXPECT_FALSE(codecOf("own codec"));
  Stream s = stream("s", 1);
  s.codec = "own codec";
  EXPECT_FALSE(streamRates(oneStream(s)).at(0).known);
}

// Property: what a removed housing sent is not counted.
TEST(Streams, RemovedHousingsSendNothing) {
  Design design = oneStream(stream("s", 1));
  design.housings[0].life = Life::removed;
  EXPECT_TRUE(streamRates(design).empty());
}

TEST(Streams, LimitsOfTheModelAreSums) {
  Design design;
  Model model = housingModel("m", 2);
  model.capacity = Capacity{.pixels_per_s = 30e6, .streams_per_imager = 2};
  model.shared.push_back({"link", {}, "sum_at_most", 100, {}});
  design.catalogue.models.push_back(model);
  design.housings.push_back(housing("C1", "m", {}, 2));
  design.housings[0].streams = {stream("a", 1), stream("b", 1), stream("c", 2)};
  const auto loads = encoderLoads(design, streamRates(design));
  ASSERT_EQ(loads.size(), 1);
  EXPECT_NEAR(loads[0].pixels_per_s, 3 * 1920 * 1080 * 10, 1e-6);
  EXPECT_EQ(loads[0].pixels_per_s_most, 30e6);
  EXPECT_EQ(loads[0].streams_of_imager, 2);
  EXPECT_EQ(loads[0].mbps_most, 100);
}

// Common practice, no source: three imagers at full size and one left at a smaller one is a slip.
TEST(Streams, OneImagerLeftAtASmallerSizeIsFound) {
  Design design;
  design.catalogue.models.push_back(housingModel("m", 4));
  design.housings.push_back(housing("C1", "m", {}, 4));
  for (int slot = 1; slot <= 4; ++slot)
    design.housings[0].streams.push_back(
        stream("s" + std::to_string(slot), slot,
               slot == 3 ? std::array{1280, 960} : std::array{2592, 1944}));
  const auto uneven = unevenSettings(design);
  ASSERT_EQ(uneven.size(), 1);
  EXPECT_EQ(uneven[0].what, "size");
  ASSERT_EQ(uneven[0].odd.size(), 1);
  EXPECT_EQ(uneven[0].odd[0].text, "s3");
  design.housings[0].streams[2].size_px = {2592, 1944};
  EXPECT_TRUE(unevenSettings(design).empty());
  // A second, smaller stream of every imager for phones is no slip.
  for (int slot = 1; slot <= 4; ++slot) {
    design.housings[0].streams.push_back(stream("p" + std::to_string(slot), slot, {640, 480}));
    design.housings[0].streams.back().use = {"phone"};
  }
  EXPECT_TRUE(unevenSettings(design).empty());
}

// Closed form (handbook 10): noise by night doubles an estimate and half of the day is night: the mean
// is 1.5 times the rate by day, at every point of the range.
TEST(Streams, TheMeanIsOfDayAndNightAtBothEnds) {
  const StreamRate rate = streamRates(oneStream(stream("s", 1))).at(0);
  EXPECT_NEAR(rate.mean_mbps.low, 1.5 * rate.day_mbps.low, 1e-12);
  EXPECT_NEAR(rate.mean_mbps.typical, 1.5 * rate.day_mbps.typical, 1e-12);
  EXPECT_NEAR(rate.mean_mbps.high, 1.5 * rate.day_mbps.high, 1e-12);
}

}  // namespace
}  // namespace belvedere::services
