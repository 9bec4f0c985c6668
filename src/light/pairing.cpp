// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/pairing.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

#include "base/check.h"

namespace belvedere::light {
namespace {

Pairing finished(std::vector<int> imager_of, int imagers, double value) {
  Pairing out{std::move(imager_of), {}, value};
  for (int i = 0; i < imagers; ++i)
    if (std::find(out.imager_of.begin(), out.imager_of.end(), i) == out.imager_of.end())
      out.without.push_back(i);
  return out;
}

// All pairings, those whose list comes first first: each lamp in turn takes an imager.
class Pairings {
 public:
  Pairings(int lamps, int imagers) : lamps_(lamps), imagers_(imagers), taken_(size(imagers)) {}
  template <class Visit>
  void each(Visit visit) {
    next(visit);
  }

 private:
  static std::size_t size(int n) { return static_cast<std::size_t>(n); }
  template <class Visit>
  void next(Visit& visit) {
    const int left = lamps_ - static_cast<int>(list_.size());
    if (left == 0) {
      visit(list_);
      return;
    }
    const int free = imagers_ - followed_;
    for (int i = 0; i < imagers_; ++i) {
      // An imager is followed twice only by a lamp that no other imager needs.
      if (taken_[size(i)] > 0 && left <= free) continue;
      take(i, 1);
      next(visit);
      take(i, -1);
    }
  }
  void take(int i, int by) {
    int& taken = taken_[size(i)];
    if (by > 0) {
      followed_ += taken == 0;
      list_.push_back(i);
    } else {
      followed_ -= taken == 1;
      list_.pop_back();
    }
    taken += by;
  }

  int lamps_, imagers_, followed_ = 0;
  std::vector<int> taken_, list_;
};

}  // namespace

double pairingCount(int lamps, int imagers) {
  if (lamps <= imagers) {
    double count = 1;
    for (int i = 0; i < lamps; ++i) count *= imagers - i;
    return count;
  }
  // Maps of the lamps onto all imagers (inclusion and exclusion).
  double count = 0, choose = 1;
  for (int k = 0; k <= imagers; ++k) {
    count += (k % 2 ? -1 : 1) * choose * std::pow(imagers - k, lamps);
    choose = choose * (imagers - k) / (k + 1);
  }
  return count;
}

std::optional<Pairing> bestPairing(int lamps, int imagers,
                                   const std::function<double(std::span<const int>)>& value_of,
                                   double most_asked) {
  if (imagers == 0) return Pairing{std::vector<int>(static_cast<std::size_t>(lamps), kNoImager), {}, 0};
  if (pairingCount(lamps, imagers) > most_asked) return {};
  std::optional<Pairing> best;
  Pairings(lamps, imagers).each([&](const std::vector<int>& list) {
    const double value = value_of(list);
    if (!best || value > best->value) best = finished(list, imagers, value);
  });
  return best;
}

Pairing bestPairing(const std::vector<std::vector<double>>& value) {
  const std::size_t lamps = value.size(), imagers = lamps ? value.front().size() : 0;
  BELVEDERE_CHECK(lamps <= kMostPaired && imagers <= kMostPaired, "few lamps and imagers");
  for (const std::vector<double>& row : value)
    BELVEDERE_CHECK(row.size() == imagers, "a value for each lamp and imager");
  if (imagers == 0) return finished(std::vector<int>(lamps, kNoImager), 0, 0);
  // best[k][set]: the most that lamps k and later are worth when those before follow `set`. Exact,
  // in lamps * 2^imagers * imagers steps.
  constexpr double kNever = -1e300;
  const std::size_t sets = std::size_t{1} << imagers;
  std::vector<std::vector<double>> best(lamps + 1, std::vector<double>(sets, kNever));
  std::vector<std::vector<int>> choice(lamps, std::vector<int>(sets, kNoImager));
  for (std::size_t set = 0; set < sets; ++set) {
    const auto followed = static_cast<std::size_t>(std::popcount(set));
    if (followed == std::min(lamps, imagers)) best[lamps][set] = 0;
  }
  for (std::size_t k = lamps; k-- > 0;)
    for (std::size_t set = 0; set < sets; ++set) {
      const auto followed = static_cast<std::size_t>(std::popcount(set));
      if (followed > k) continue;
      const bool twice = lamps - k > imagers - followed;
      for (std::size_t i = 0; i < imagers; ++i) {
        const std::size_t bit = std::size_t{1} << i;
        if ((set & bit) && !twice) continue;
        const double rest = best[k + 1][set | bit];
        if (rest > kNever && value[k][i] + rest > best[k][set]) {
          best[k][set] = value[k][i] + rest;
          choice[k][set] = static_cast<int>(i);
        }
      }
    }
  std::vector<int> list;
  for (std::size_t k = 0, set = 0; k < lamps; ++k) {
    list.push_back(choice[k][set]);
    set |= std::size_t{1} << list.back();
  }
  return finished(std::move(list), static_cast<int>(imagers), best[0][0]);
}

}  // namespace belvedere::light
