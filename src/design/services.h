// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a design says of services: devices, links, recording, screens.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "design/ids.h"
#include "geometry/vec.h"

namespace belvedere::design {

struct Setting {
  std::string key, value;
  bool operator==(const Setting&) const = default;
};
struct Disks {
  ModelId model;
  int count = 1;                         // in all, hot spares among them
  std::string raid;                      // "single", "jbod", "0", "1", "5", "6", "10", "50", "60"
  int groups = 1;                        // of 50 and 60
  int spares = 0;                        // hot spares
  double reserve = 0.1;                  // share kept free by the file system (practice)
  bool operator==(const Disks&) const = default;
};
struct Device {
  DeviceId id;
  std::string title;
  ModelId model;
  std::optional<Vec3> at_m;
  std::vector<Setting> settings;
  std::optional<Disks> disks;            // of a recorder
  std::optional<double> standby_hours;   // of a supply or switch: to be bridged by its battery
  bool operator==(const Device&) const = default;
};
struct Link {
  AnyId id, from, to;                    // housings and devices
  ModelId cable;
  std::vector<AnyId> route;              // containment
  double slack_m = 0;
  std::optional<double> temperature_c;
  std::vector<Vec3> path;                // its own way, which wins over a route: where it bends between
                                         // its ends, site coordinates; empty: the way is found
  bool operator==(const Link&) const = default;
};
struct Recording {
  AnyId id;
  StreamId stream;
  DeviceId device;
  double days = 0;
  std::string schedule;                  // "always", "activity", or hours "07:00-19:00"
  std::optional<double> active_share;
  bool operator==(const Recording&) const = default;
};
struct Screen {
  AnyId id;
  StreamId stream;
  DeviceId device;                       // the viewer that shows it; empty: not said
  std::array<int, 2> tile_px{0, 0};
  bool operator==(const Screen&) const = default;
};
struct Services {
  std::vector<Device> devices;
  std::vector<Link> links;
  std::vector<Recording> recording;
  std::vector<Screen> screens;
  bool operator==(const Services&) const = default;
};

}  // namespace belvedere::design
