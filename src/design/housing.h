// SPDX-License-Identifier: GPL-3.0-or-later
//
// The housings of a design: where they hang, how their imagers are aimed, lamps, streams.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "design/site.h"

namespace belvedere::design {

enum class Life { existing, new_, removed };
struct Mount {
  ModelId model;                         // a mount of the catalogue; empty: none (fixing = origin)
  AnyId on;                              // mounting line, wall, solid or storey
  Vec3 fixing_m;                         // site
  double base_bearing_deg = 0;           // site bearing of the housing's zero
  double base_tilt_deg = 0;              // of the base plane, forwards below the horizontal
  bool operator==(const Mount&) const = default;
};
struct Aim {
  double pan_deg = 0, tilt_deg = 0, roll_deg = 0;  // site frame
  std::optional<double> hfov_deg, focal_mm;        // of a varifocal lens, at most one
  std::optional<double> focus_m;
  double time_share = 1;
  bool operator==(const Aim&) const = default;
};
enum class ImagerMode { by_light, colour, mono };
struct HousingImager {
  int slot = 1;
  ImagerMode mode = ImagerMode::by_light;
  bool locked = false;
  double margin_px = 0;                  // captured pixels along each edge that do not count
  std::vector<std::vector<Vec2>> masks;  // outlines in shares of the picture, y down
  std::vector<Aim> aims;                 // one, or several with time shares
  std::optional<double> exposure_s;
  std::optional<double> f_number;        // stopped down to; absent: as wide as the lens opens
  bool operator==(const HousingImager&) const = default;
};
struct HousingLamp {
  int slot = 1;
  std::optional<int> follows;            // imager slot when paired, 0: off; absent: with the group
  bool operator==(const HousingLamp&) const = default;
};
enum class StreamView { whole, crop, unrolled, stitched };
struct Rate {
  std::string kind;                      // "constant", "capped", "measured"
  std::optional<double> mbps;
  bool operator==(const Rate&) const = default;
};
struct Stream {
  StreamId id;
  std::vector<int> from;                 // imager slots
  StreamView view = StreamView::whole;
  std::optional<std::array<double, 4>> region;   // crop: x0 y0 x1 y1 in shares of the picture
  std::optional<std::array<double, 2>> span_deg; // unrolled and stitched: width and height in degrees
  std::array<int, 2> size_px{0, 0};
  std::optional<double> frames_per_s;
  std::string codec;
  std::optional<Rate> rate;
  std::string activity, quality;         // for an estimate of the rate: low, medium, high
  std::string delivery;                  // "unicast" (default), "multicast"
  std::vector<std::string> use;          // "recorded", "viewed", "phone", "analytics"
  bool operator==(const Stream&) const = default;
};
struct Housing {
  HousingId id;
  std::string title;
  ModelId model;
  Life life = Life::new_;
  StoreyId storey;                       // on whose plan it is drawn; empty: by height
  Mount mount;
  std::vector<HousingImager> imagers;
  std::vector<HousingLamp> lamps;
  std::vector<Stream> streams;
  ModelId card;                          // in it, shared by its imagers; empty: none
  std::string fed_by;                    // "poe", "dc", "ac": which of several supplies carries it
  std::optional<Surroundings> surroundings;  // instead of the storey's
  bool operator==(const Housing&) const = default;
};

}  // namespace belvedere::design
