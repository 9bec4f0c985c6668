// SPDX-License-Identifier: GPL-3.0-or-later
//
// What each stream carries (handbook 10). Estimated as pixels, times frames a second, times bits
// per pixel of the codec, the activity and the quality: a range, never a promise. A stated rate
// wins over the estimate, and a measured one over both.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/design.h"
#include "services/services.h"

namespace belvedere::services {

enum class Codec { h264, h265, av1, mjpeg };
const char* word(Codec codec);
// "H.265", "hevc", "H265" ...; nothing for a word that is not known.
std::optional<Codec> codecOf(std::string_view text);

// Of fixed cameras, low to high [common practice, no source; for edited film of good quality the
// published rule is 0.07 times a motion rank of 1, 2 or 4: K. Amerasinghe, H.264 Primer, 2010].
// activity: "low", "medium" or "" (the same), "high".
Spread bitsPerPixel(Codec codec, std::string_view activity);
// Of the picture's quality against medium: 0.7, 1, 1.5 [practice, no source].
double qualityFactor(std::string_view quality);
// Noise of a dark picture makes an estimated rate so many times larger [practice, no source].
inline constexpr double kNightFactor = 2;
// Frame rate and codec where a stream states none [practice, no source].
inline constexpr double kFramesAssumed = 12.5;

enum class RateFrom { estimate, capped, stated, measured };
const char* word(RateFrom from);

struct StreamRate {
  design::StreamId stream;
  design::HousingId housing;
  std::vector<int> slots;
  double pixels_per_s = 0;
  double frames_per_s = 0;
  RateFrom from = RateFrom::estimate;
  bool known = true;        // false: the codec is not known and nothing else tells the rate
  Spread day_mbps, night_mbps;  // mean over the hours of that light
  Spread mean_mbps;         // over a day: half of it night, where estimated; what is stored
  double peak_mbps = 0;     // what links are sized for
  bool assumed_frames = false;
};

// Every stream of the housings that stay, in the order of the file.
//   constant, measured  the stated rate, three times
//   capped              the estimate, nowhere above the cap; peak and high are the cap
//   a clip as evidence  its mean; peak: its 95th percentile
std::vector<StreamRate> streamRates(const design::Design& design);

// What one housing asks of its encoder, beside what its model can do.
struct EncoderLoad {
  design::HousingId housing;
  double pixels_per_s = 0;
  std::optional<double> pixels_per_s_most;
  int streams_of_imager = 0;  // the most that one imager gives
  std::optional<double> streams_of_imager_most;
  double peak_mbps = 0;
  std::optional<double> mbps_most;  // of what its imagers share: the link
};
std::vector<EncoderLoad> encoderLoads(const design::Design& design,
                                      const std::vector<StreamRate>& rates);

// Imagers of one housing with like sensors whose streams for the same use differ.
struct UnevenSettings {
  design::HousingId housing;
  std::string use;
  std::string what;                        // "size", "frame rate", "codec"
  std::vector<design::StreamId> odd, usual;  // those that differ from most
  std::string odd_value, usual_value;
};
std::vector<UnevenSettings> unevenSettings(const design::Design& design);

}  // namespace belvedere::services
