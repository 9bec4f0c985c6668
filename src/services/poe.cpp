// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/poe.h"

#include <array>

#include "base/check.h"

namespace belvedere::services {

const PoeClass& poeClass(int number) {
  static constexpr std::array<PoeClass, 9> classes{{{0, 1, 2, 15.4, 12.95, 44, 20},
                                                    {1, 1, 2, 4, 3.84, 44, 20},
                                                    {2, 1, 2, 7, 6.49, 44, 20},
                                                    {3, 1, 2, 15.4, 12.95, 44, 20},
                                                    {4, 2, 2, 30, 25.5, 50, 12.5},
                                                    {5, 3, 4, 45, 40, 50, 6.25},
                                                    {6, 3, 4, 60, 51, 50, 6.25},
                                                    {7, 4, 4, 75, 62, 52, 6.25},
                                                    {8, 4, 4, 90, 71.3, 52, 6.25}}};
  BELVEDERE_CHECK(number >= 0 && number <= kPoeClassMost, "classes run from 0 to 8");
  return classes[static_cast<std::size_t>(number)];
}

std::optional<int> classFor(double device_w) {
  for (int number = 1; number <= kPoeClassMost; ++number)
    if (device_w <= poeClass(number).device_w) return number;
  return {};
}

}  // namespace belvedere::services
