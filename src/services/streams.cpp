// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/streams.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <unordered_map>

#include "services/stay.h"

namespace belvedere::services {

using design::Stream;

const char* word(Codec codec) {
  static constexpr std::array words{"H.264", "H.265", "AV1", "MJPEG"};
  return words[static_cast<std::size_t>(codec)];
}

const char* word(RateFrom from) {
  static constexpr std::array words{"estimated", "capped", "stated", "measured"};
  return words[static_cast<std::size_t>(from)];
}

std::optional<Codec> codecOf(std::string_view text) {
  std::string plain;
  for (const char c : text)
    if (c != '.' && c != ' ' && c != '-' && c != '+')
      plain += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  static const std::map<std::string, Codec> known{
      {"h264", Codec::h264},  {"avc", Codec::h264}, {"h265", Codec::h265},  {"hevc", Codec::h265},
      {"av1", Codec::av1},    {"mjpeg", Codec::mjpeg}, {"jpeg", Codec::mjpeg}};
  const auto at = known.find(plain);
  if (at == known.end()) return {};
  return at->second;
}

Spread bitsPerPixel(Codec codec, std::string_view activity) {
  const std::size_t row = activity == "low" ? 0 : activity == "high" ? 2 : 1;
  static constexpr std::array<std::array<Spread, 3>, 4> table{
      {{{{0.02, 0.04, 0.06}, {0.04, 0.07, 0.11}, {0.08, 0.13, 0.22}}},
       {{{0.012, 0.024, 0.04}, {0.024, 0.042, 0.07}, {0.05, 0.08, 0.14}}},
       {{{0.01, 0.02, 0.036}, {0.02, 0.036, 0.062}, {0.042, 0.07, 0.125}}},
       {{{0.5, 1, 2}, {0.5, 1, 2}, {0.5, 1, 2}}}}};
  return table[static_cast<std::size_t>(codec)][row];
}

double qualityFactor(std::string_view quality) {
  return quality == "low" ? 0.7 : quality == "high" ? 1.5 : 1;
}

namespace {

Spread atMost(Spread s, double most) {
  return {std::min(s.low, most), std::min(s.typical, most), std::min(s.high, most)};
}

void setKnown(StreamRate& rate, double mbps, RateFrom from) {
  rate.from = from;
  rate.known = true;
  rate.day_mbps = rate.night_mbps = rate.mean_mbps = {mbps, mbps, mbps};
  rate.peak_mbps = mbps;
}

void estimate(StreamRate& rate, const Stream& stream) {
  const auto codec = stream.codec.empty() ? std::optional(Codec::h264) : codecOf(stream.codec);
  if (!codec) {
    rate.known = false;
    return;
  }
  rate.day_mbps = bitsPerPixel(*codec, stream.activity) *
                  (rate.pixels_per_s * qualityFactor(stream.quality) / 1e6);
  // A picture coded frame by frame grows with noise as well, but less is known of it: the same.
  rate.night_mbps = rate.day_mbps * kNightFactor;
  if (stream.rate && stream.rate->kind == "capped" && stream.rate->mbps) {
    rate.from = RateFrom::capped;
    rate.day_mbps = atMost(rate.day_mbps, *stream.rate->mbps);
    rate.night_mbps = atMost(rate.night_mbps, *stream.rate->mbps);
  }
  rate.mean_mbps = (rate.day_mbps + rate.night_mbps) * 0.5;
  rate.peak_mbps = rate.night_mbps.high;
  if (rate.from == RateFrom::capped) {  // the cap is what the encoder may use at any time
    rate.peak_mbps = *stream.rate->mbps;
    rate.mean_mbps.high = *stream.rate->mbps;
  }
}

}  // namespace

std::vector<StreamRate> streamRates(const design::Design& design) {
  std::unordered_map<std::string, const design::ClipFigures*> clips;  // the last one counts
  for (const design::Evidence& evidence : design.evidence)
    if (evidence.clip) clips[evidence.of.text] = &*evidence.clip;
  std::vector<StreamRate> rates;
  for (const design::Housing* housing : stayingHousings(design))
    for (const Stream& stream : housing->streams) {
      StreamRate rate;
      rate.stream = stream.id;
      rate.housing = housing->id;
      rate.slots = stream.from;
      rate.assumed_frames = !stream.frames_per_s;
      rate.frames_per_s = stream.frames_per_s.value_or(kFramesAssumed);
      rate.pixels_per_s =
          static_cast<double>(stream.size_px[0]) * stream.size_px[1] * rate.frames_per_s;
      estimate(rate, stream);
      if (stream.rate && stream.rate->mbps) {
        if (stream.rate->kind == "constant") setKnown(rate, *stream.rate->mbps, RateFrom::stated);
        if (stream.rate->kind == "measured") setKnown(rate, *stream.rate->mbps, RateFrom::measured);
        if (!rate.known) setKnown(rate, *stream.rate->mbps, RateFrom::capped);
      }
      if (const auto clip = clips.find(stream.id.text); clip != clips.end()) {
        setKnown(rate, clip->second->mean_mbps, RateFrom::measured);
        rate.peak_mbps = std::max(rate.peak_mbps, clip->second->p95_mbps.value_or(0));
      }
      rates.push_back(std::move(rate));
    }
  return rates;
}

std::vector<EncoderLoad> encoderLoads(const design::Design& design,
                                      const std::vector<StreamRate>& rates) {
  std::unordered_map<std::string, std::vector<const StreamRate*>> of;
  for (const StreamRate& rate : rates) of[rate.housing.text].push_back(&rate);
  std::vector<EncoderLoad> loads;
  for (const design::Housing* housing : stayingHousings(design)) {
    EncoderLoad load;
    load.housing = housing->id;
    std::map<int, int> streams_of;
    for (const StreamRate* rate : of[housing->id.text]) {
      load.pixels_per_s += rate->pixels_per_s;
      load.peak_mbps += rate->peak_mbps;
      for (const int slot : rate->slots) ++streams_of[slot];
    }
    for (const auto& [slot, count] : streams_of)
      load.streams_of_imager = std::max(load.streams_of_imager, count);
    if (const design::Model* model = design::findModel(design, housing->model)) {
      if (model->capacity) {
        load.pixels_per_s_most = model->capacity->pixels_per_s;
        load.streams_of_imager_most = model->capacity->streams_per_imager;
      }
      for (const design::Shared& shared : model->shared) {
        if (shared.rule != "sum_at_most" || !shared.value) continue;
        if (shared.what == "pixels") load.pixels_per_s_most = shared.value;
        if (shared.what == "link") load.mbps_most = shared.value;
      }
    }
    loads.push_back(load);
  }
  return loads;
}

namespace {

struct Set {
  const Stream* stream;
  std::string size, frames, codec;
};

void compare(const design::Housing& housing, const std::string& use, const char* what,
             const std::vector<Set>& sets, std::string Set::*member,
             std::vector<UnevenSettings>& out) {
  std::map<std::string, std::vector<design::StreamId>> by;
  for (const Set& set : sets) by[set.*member].push_back(set.stream->id);
  if (by.size() < 2) return;
  // The usual value: that of most; of the first stream, where two are equally common.
  const std::string* usual = nullptr;
  for (const Set& set : sets)
    if (!usual || by[set.*member].size() > by[*usual].size()) usual = &(set.*member);
  for (const auto& [value, streams] : by)
    if (value != *usual)
      out.push_back({housing.id, use, what, streams, by[*usual], value, *usual});
}

}  // namespace

std::vector<UnevenSettings> unevenSettings(const design::Design& design) {
  std::vector<UnevenSettings> out;
  for (const design::Housing* housing : stayingHousings(design)) {
    const design::Model* model = design::findModel(design, housing->model);
    if (!model) continue;
    // Whole pictures of one imager each, by use and by the sensor's pixels.
    std::map<std::pair<std::string, std::array<int, 2>>, std::vector<Set>> groups;
    for (const Stream& stream : housing->streams) {
      if (stream.view != design::StreamView::whole || stream.from.size() != 1) continue;
      const design::ModelImager* imager = design::findImager(*model, stream.from[0]);
      if (!imager) continue;
      for (const std::string& use : stream.use)
        groups[{use, imager->pixels}].push_back(
            {&stream, fmt::format("{} x {}", stream.size_px[0], stream.size_px[1]),
             stream.frames_per_s ? fmt::format("{:g} 1/s", *stream.frames_per_s) : "none",
             stream.codec.empty() ? "none" : stream.codec});
    }
    for (const auto& [key, sets] : groups) {
      compare(*housing, key.first, "size", sets, &Set::size, out);
      compare(*housing, key.first, "frame rate", sets, &Set::frames, out);
      compare(*housing, key.first, "codec", sets, &Set::codec, out);
    }
  }
  return out;
}

}  // namespace belvedere::services
