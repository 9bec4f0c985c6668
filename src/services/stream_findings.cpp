// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "services/findings.h"
#include "services/stay.h"

namespace belvedere::services {
namespace {

std::vector<std::string> texts(const std::vector<design::StreamId>& ids) {
  std::vector<std::string> out;
  for (const design::StreamId& id : ids) out.push_back(id.text);
  return out;
}

// What a stream states that is not counted as it reads.
void stated(const design::Design& design, std::vector<Finding>& out) {
  std::vector<std::string> extended;
  for (const design::Housing* housing : stayingHousings(design))
    for (const design::Stream& stream : housing->streams) {
      const bool clip = std::ranges::any_of(design.evidence, [&](const design::Evidence& evidence) {
        return evidence.clip && evidence.of.text == stream.id.text;
      });
      if (stream.rate && !stream.rate->mbps && !clip)
        out.push_back({"rate_without_figure", Severity::caution, {stream.id.text, housing->id.text}, {},
                       {},
                       fmt::format("{}: its rate is called {} and no figure (mbps) is stated, so that it is "
                                   "estimated as if nothing were said.", stream.id.text,
                                   stream.rate->kind),
                       "10"});
      if (stream.codec.find('+') != std::string::npos && codecOf(stream.codec))
        extended.push_back(stream.id.text);
    }
  if (!extended.empty())
    out.push_back({"codec_plain", Severity::note, extended, {}, {},
                   fmt::format("{} stream{} a maker's extension of a codec (\"+\"): counted as the plain "
                               "codec, no saving is assumed. Measure a clip to count what it saves.",
                               extended.size(), extended.size() == 1 ? " names" : "s name"),
                   "10"});
}

void rates(const Sizes& sizes, std::vector<Finding>& out) {
  std::size_t estimated = 0, assumed = 0;
  for (const StreamRate& rate : sizes.rates) {
    estimated += rate.known && rate.from == RateFrom::estimate;
    assumed += rate.assumed_frames;
    if (!rate.known)
      out.push_back({"rate_unknown", Severity::caution, {rate.stream.text, rate.housing.text}, {},
                     {},
                     fmt::format("{}: its codec is not known and no rate is stated, so that "
                                 "nothing is counted for it.", rate.stream.text),
                     "10"});
  }
  if (estimated > 0)
    out.push_back({"rate_estimated", Severity::note, {}, {}, {},
                   fmt::format("The rates of {} of {} streams are estimates: measure a clip of each "
                               "kind of scene before disks are ordered.", estimated,
                               sizes.rates.size()),
                   "10"});
  if (assumed > 0)
    out.push_back({"frames_assumed", Severity::note, {}, {}, {},
                   fmt::format("{} of {} streams state no frame rate; {:g} a second are assumed.",
                               assumed, sizes.rates.size(), kFramesAssumed),
                   "10"});
}

void limits(const Sizes& sizes, std::vector<Finding>& out) {
  for (const EncoderLoad& load : sizes.encoders) {
    const std::string id = load.housing.text;
    if (load.pixels_per_s_most && load.pixels_per_s > *load.pixels_per_s_most * (1 + 1e-9))
      out.push_back({"encoder_over_limit", Severity::shortfall, {id},
                     Quantity{*load.pixels_per_s_most / 1e6, "Mpx/s"},
                     Quantity{load.pixels_per_s / 1e6, "Mpx/s"},
                     fmt::format("{}: its streams ask for {:.1f} million pixels a second; its model "
                                 "encodes {:.1f} at most.", id, load.pixels_per_s / 1e6,
                                 *load.pixels_per_s_most / 1e6),
                     "10"});
    if (load.streams_of_imager_most && load.streams_of_imager > *load.streams_of_imager_most)
      out.push_back({"streams_too_many", Severity::shortfall, {id},
                     Quantity{*load.streams_of_imager_most, "streams"},
                     Quantity{static_cast<double>(load.streams_of_imager), "streams"},
                     fmt::format("{}: {} streams are taken from one imager; its model gives {:g}.", id,
                                 load.streams_of_imager, *load.streams_of_imager_most),
                     "10"});
    if (load.mbps_most && load.peak_mbps > *load.mbps_most)
      out.push_back({"housing_link_full", Severity::shortfall, {id},
                     Quantity{*load.mbps_most, "Mbit/s"}, Quantity{load.peak_mbps, "Mbit/s"},
                     fmt::format("{}: its streams may reach {:.1f} Mbit/s together; the link that its "
                                 "imagers share carries {:g}.", id, load.peak_mbps, *load.mbps_most),
                     "10"});
  }
}

void uneven(const Sizes& sizes, std::vector<Finding>& out) {
  for (const UnevenSettings& one : sizes.uneven) {
    std::vector<std::string> about = texts(one.odd);
    about.push_back(one.housing.text);
    out.push_back({"settings_uneven", Severity::caution, about, {}, {},
                   fmt::format("{}: {} of its {} streams differs: {} where {} has {}.",
                               one.housing.text, one.what, one.use,
                               fmt::format("{} has {}", fmt::join(texts(one.odd), ", "),
                                           one.odd_value),
                               fmt::join(texts(one.usual), ", "), one.usual_value),
                   "10"});
  }
}

// Frames a second that a requirement asks for, against the recorded streams of those that serve it;
// of all where that is not proven.
void frames(const design::Design& design, const Sizes& sizes, const Seen& seen,
            std::vector<Finding>& out) {
  for (const design::Requirement& r : design.brief) {
    if (!r.frames_per_s) continue;
    const auto served = std::ranges::find(seen.served, r.id, &ServedBy::requirement);
    for (const StreamRate& rate : sizes.rates) {
      const bool serves = served == seen.served.end() || std::ranges::any_of(rate.slots, [&](int slot) {
        return std::ranges::find(served->imagers, fmt::format("{}.{}", rate.housing.text, slot)) !=
               served->imagers.end();
      });
      if (serves && isRecorded(rate.stream, sizes.recording) && rate.frames_per_s < *r.frames_per_s - 1e-9)
        out.push_back({"frames_short", Severity::shortfall, {r.id.text, rate.stream.text},
                       Quantity{*r.frames_per_s, "1/s"}, Quantity{rate.frames_per_s, "1/s"},
                       fmt::format("{}: {} gives {:g} frames a second where {:g} are asked for.",
                                   r.id.text, rate.stream.text, rate.frames_per_s, *r.frames_per_s),
                       "10"});
    }
  }
}

}  // namespace

std::vector<Finding> streamFindings(const design::Design& design, const Sizes& sizes,
                                    const Seen& seen) {
  std::vector<Finding> out;
  rates(sizes, out);
  stated(design, out);
  limits(sizes, out);
  uneven(sizes, out);
  frames(design, sizes, seen, out);
  return out;
}

std::vector<Finding> findingsOf(const design::Design& design, const Sizes& sizes,
                                const Seen& seen) {
  std::vector<Finding> out = streamFindings(design, sizes, seen);
  const auto add = [&](std::vector<Finding> more) {
    out.insert(out.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
  };
  add(networkFindings(design, sizes));
  add(powerFindings(design, sizes));
  add(recordingFindings(design, sizes));
  add(analyticsFindings(sizes));
  add(surroundingsFindings(design, sizes));
  add(billFindings(sizes));
  return out;
}

}  // namespace belvedere::services
