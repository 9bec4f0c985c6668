// SPDX-License-Identifier: GPL-3.0-or-later
//
// Stops and neighbours in the housing's frame: what aim.cpp and aim_limits.cpp share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "edit/aim.h"

namespace belvedere::edit {

inline constexpr double kSlackDeg = 1e-9;  // beyond a stop by less than this is at it
inline constexpr double kTurnDeg = 360;

// In [0, 360), whatever rounding does.
double bearing(double deg);
bool level(const design::Mount& mount);
bool allRound(const design::Range& limits);
// The angle itself within an arc, else its nearer end.
double intoArc(double deg, const design::Range& arc);
bool inArc(double deg, const design::Range& arc);
// Adds a sentence to those that a stop has; nothing where `stop` is null.
void say(std::string* stop, const std::string& sentence);

design::PanTilt inHousing(const ImagerParts& parts, const design::Aim& aim);
design::Aim fromHousing(const ImagerParts& parts, design::Aim aim, design::PanTilt in_housing);
// Near the base's axis an imager has no pan.
bool hasPan(const design::PanTilt& in_housing);

// The imagers that one may not come near to on a ring; none for one with several aims.
struct Neighbour {
  int slot = 0;
  double pan_deg = 0, apart_deg = 0;  // housing's frame
};
std::vector<Neighbour> neighboursOf(const ImagerParts& parts);
bool shares(const design::Shared& shared, int slot);

// How far an imager can turn either way from a pan of the housing's frame before a stop or a
// neighbour; negative where it stands too near already.
struct Way {
  double back_deg = kTurnDeg, on_deg = kTurnDeg;
  int back_slot = 0, on_slot = 0;  // the neighbour that bounds it; 0: none
};
Way wayFrom(const ImagerParts& parts, const std::vector<Neighbour>& neighbours, double pan_deg);

}  // namespace belvedere::edit
