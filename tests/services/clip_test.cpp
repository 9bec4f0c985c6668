// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/clip.h"

#include <gtest/gtest.h>

#include <string>

#include "base/problem.h"

namespace belvedere::services {
namespace {

// So many seconds of 10 frames; the first of each second is a key frame of `key` bytes.
std::string listed(int seconds, int key, int other) {
  std::string text;
  for (int i = 0; i < seconds * 10; ++i)
    text += "packet|pts_time=" + std::to_string(i / 10.0) + "|dts_time=" + std::to_string(i / 10.0) +
            "|duration_time=0.100000|size=" + std::to_string(i % 10 == 0 ? key : other) +
            "|flags=" + (i % 10 == 0 ? "K__" : "___") + "\n";
  return text + "stream|codec_name=hevc|width=1920|height=1080|avg_frame_rate=10/1\n";
}

// Closed form: a key frame of 50 000 bytes and nine of 5 000 a second: 95 000 bytes, 0.76 Mbit/s.
TEST(Clip, FiguresFollowFromPackets) {
  const design::ClipFigures f = clipFigures(listed(20, 50'000, 5'000), "x");
  EXPECT_EQ(f.codec, "hevc");
  EXPECT_EQ(f.size_px, (std::array{1920, 1080}));
  EXPECT_EQ(f.frames_per_s, 10);
  EXPECT_NEAR(f.seconds, 20, 1e-9);
  EXPECT_NEAR(f.mean_mbps, 0.76, 1e-9);
  EXPECT_NEAR(*f.p95_mbps, 0.76, 1e-9);
  EXPECT_EQ(*f.gop_frames, 10);
}

// Closed form: of 20 windows, 19 quiet and one loud, the 19th in order is quiet.
TEST(Clip, PercentileLeavesOutTheLoudestTwentieth) {
  std::string text = listed(19, 1000, 1000);
  for (int i = 0; i < 10; ++i)
    text += "packet|dts_time=" + std::to_string(19 + i / 10.0) +
            "|duration_time=0.1|size=100000|flags=___\n";
  EXPECT_NEAR(*clipFigures(text, "x").p95_mbps, 0.08, 1e-9);
}

TEST(Clip, BrokenClipsAreRefused) {
  for (const std::string& text :
       {std::string(), std::string("rubbish"), std::string("packet|dts_time=N/A|size=12\n"),
        std::string("packet|dts_time=1|size=12\npacket|dts_time=1|size=12\n"),
        std::string("packet|dts_time=1|size=-12\npacket|dts_time=1e300|size=12\n")})
    EXPECT_THROW(clipFigures(text, "x"), InputError) << text;
  EXPECT_THROW(measureClip("/no/such/clip.mp4", {}, Progress{}), InputError);
}

}  // namespace
}  // namespace belvedere::services
