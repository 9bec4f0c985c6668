// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which lamp follows which imager, when they run in pairs: solved exactly. Lamps are few (one or two
// to a housing), so all pairings can be looked at.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace belvedere::light {

inline constexpr int kNoImager = -1;

struct Pairing {
  std::vector<int> imager_of;   // per lamp: index of the imager, or kNoImager
  std::vector<int> without;     // imagers that no lamp follows, ascending
  double value = 0;
};

// The pairing with the greatest sum of value[lamp][imager], no imager followed by two lamps unless
// there are more lamps than imagers: then every imager is followed, and the lamps to spare go where
// they are worth most. Of equals, the one whose list of imagers comes first.
//   value  all rows of one length; finite. At most kMostPaired imagers and lamps each
Pairing bestPairing(const std::vector<std::vector<double>>& value);
inline constexpr int kMostPaired = 16;

// The same for a value that hangs on the whole pairing (the least margin of the brief's night
// requirements, the number that hold). `value_of` is asked for each pairing that bestPairing may
// choose: at most `most_asked`, else nothing comes back. How many there would be: pairingCount.
std::optional<Pairing> bestPairing(int lamps, int imagers,
                                   const std::function<double(std::span<const int>)>& value_of,
                                   double most_asked = 1e5);
double pairingCount(int lamps, int imagers);

}  // namespace belvedere::light
