// SPDX-License-Identifier: GPL-3.0-or-later
//
// Power: what feeds each housing, in four states, and what that takes of ports, switches and
// supplies (handbook 11).
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "services/network.h"
#include "services/poe.h"
#include "services/services.h"

namespace belvedere::services {

// Day: at rest. Night: lamps on. Cold night: lamps and heater on. Start: what a device draws while
// it starts, at least what it draws at rest; after an outage all of a source start together.
enum class Load { day, night, cold_night, start };
inline constexpr int kLoads = 4;
const char* word(Load load);
using Watts = std::array<double, kLoads>;  // by state

// What a model draws in each state; nothing where it states neither draw nor class. Where only the
// class is stated, the most that it allows.
std::optional<Watts> drawOf(const design::Model& model);

enum class FedBy { nothing, poe, line };

// Another supply that is linked to a housing.
struct OtherSupply {
  std::string feed;                    // "poe", "dc", "ac"
  design::DeviceId source;
  std::vector<design::AnyId> links;    // from the source to the housing
  bool carries = false;                // it alone, the worst state
  bool bears_all = true;               // and its source all that comes upon it if the first fails
};

struct Feeding {
  design::HousingId housing;
  FedBy by = FedBy::nothing;
  std::string feed;                    // "poe", "dc", "ac"
  design::DeviceId source;             // switch, injector or supply
  std::vector<design::AnyId> links;    // from the source to the housing
  double length_m = 0, temperature_c = 20;
  std::optional<Watts> draw_w;         // of the housing
  bool chosen = true;                  // several supplies are linked and the design names none:
                                       // false; the first is taken
  std::string asked;                   // fed_by, where no link offers it: what is linked is taken
  std::vector<OtherSupply> others;     // that are linked as well
  // poe
  std::optional<int> device_class;     // stated, or the least that allows the draw
  std::optional<int> port_class, granted_class;
  double allotted_w = 0;               // at the port, by class
  std::optional<Watts> source_w;       // at the port, with the loss of the channel; nothing where
                                       // a state cannot be supplied
  bool measured_conductor = false;     // the cable states its resistance; else the worst channel's
  // line
  double supply_v = 0;                 // 0: not stated
  // That it works between: as stated, else a tenth below and a fifth above its nominal voltage
  // [practice, no source: a battery floats that high]; least_v 0 where neither is stated.
  double least_v = 0;
  std::optional<double> most_v, nominal_v;
  bool least_stated = true, most_stated = true;
  double ohm_per_km = 0;               // of one conductor at 20 C
  std::optional<LineState> at_worst;   // nothing: cannot be supplied
  double longest_m = 0;                // of such a cable; 0 where least_v is not known
  std::optional<CopperSize> least_size;  // nothing: none of the table carries it
  bool conductor_known = true;
};

// Whether the port gives what the device and its cable take. A cable that states no resistance is
// within what a class allows for; classes close over their worst channel within kClassSlackW.
inline constexpr double kClassSlackW = 0.1;
bool withinPort(const Feeding& f);

inline constexpr double kLeastOfNominal = 0.9, kMostOfNominal = 1.2;

struct Source {
  design::DeviceId device;
  design::ModelKind kind = design::ModelKind::switch_;
  Watts load_w{};                      // at its ports: of housings, and of devices with all they feed
  double allotted_w = 0;               // by class; 0 of a supply
  std::optional<double> budget_w;
  int housings = 0, devices = 0;       // that it feeds itself
  std::vector<design::DeviceId> unstated;  // of those devices, what does not say what it draws
  std::optional<double> volts;
  // standby, where hours are asked for
  std::optional<double> standby_hours, needed_ah, has_ah, bridged_hours;
};

struct Power {
  std::vector<Feeding> feedings;       // of each housing that stays
  std::vector<Source> sources;         // switches, injectors and supplies that feed anything, or
                                       // could: in the order of the devices
};

Power powerOf(const design::Design& design, const Network& network);

}  // namespace belvedere::services
