// SPDX-License-Identifier: GPL-3.0-or-later
//
// Network: the length of every cable, what a channel of its kind may be, the load of every link,
// port, recorder and viewer, and what is cut off when a link fails (handbook 10).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "services/services.h"
#include "services/streams.h"
#include "services/ways.h"

namespace belvedere::services {

// Twisted pair: 90 m of fixed cable and 10 m of cords at 20 C [ISO/IEC 11801-1:2017, recalled];
// warm cable is shorter by the rise of its loss: 0.4 % a K to 40 C and 0.6 % to 60 C, screened
// 0.2 % [ANSI/TIA-568-C.2 (2009), clause 6.4.7].
inline constexpr double kFixedCableM = 90;
inline constexpr double kCordsM = 10;
double longestFixedCableM(double temperature_c, bool screened);
// Of a link, above which it is called full [practice, no source].
inline constexpr double kFullShare = 0.7;

enum class Media { twisted_pair, fibre, power };
const char* word(Media media);
// Of a cable model; twisted pair where none is chosen.
Media mediaOf(const design::Model* cable);

// What a stream adds to the load of a cable: all copies of it, where several take it.
struct Carried {
  design::StreamId stream;
  double mbps = 0;
};

struct Cable {
  design::AnyId link;
  design::AnyId from, to;
  const design::Model* model = nullptr;  // of the design, which stays; null: not chosen
  Media media = Media::twisted_pair;
  std::optional<Way> way;           // none: an end has no place, or no way joins them
  std::optional<Parted> parted;     // where no way joins them: what does not join
  bool drawn = false;               // the way is the link's own, not found
  bool placed = true;               // both ends have a place
  double length_m = 0;              // way and slack
  double temperature_c = 20;        // as stated, else the warmest air at its ends, at least 20 C
  std::optional<double> longest_m;  // of a channel, less what lies before a repeater
  double channel_m = 0;             // this cable and those it goes on through (mid-span injectors)
  // load at its fuller direction: high end of the rates
  double load_mbps = 0;
  std::vector<Carried> carries;     // what it is made of, in the order of the streams' ids
  Spread mean_mbps;
  std::optional<double> rate_mbps;  // least of what both ends and the cable state
  std::vector<design::HousingId> cut_off;  // if it fails: housings that reach none of their sinks
};

struct PartLoad {                   // of a switch, recorder or viewer
  design::DeviceId device;
  int ports_used = 0, uplinks_used = 0;
  std::optional<int> ports, uplinks;
  double in_mbps = 0;               // recorder, viewer: taken in
  std::optional<double> in_mbps_most;
};

struct Unreached {
  design::StreamId stream;
  design::DeviceId sink;
};

struct Network {
  std::vector<Cable> cables;        // in the order of the links
  std::vector<PartLoad> parts;      // in the order of the devices
  std::vector<Unreached> unreached; // streams and the recorder or viewer that they do not reach
  std::vector<design::HousingId> unlinked;  // housings without any link, where there are links
};

Network networkOf(const design::Design& design, const std::vector<StreamRate>& rates);

}  // namespace belvedere::services
