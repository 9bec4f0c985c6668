// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/conductors.h"

#include <array>

namespace belvedere::services {

std::span<const CopperSize> copperSizes() {
  static constexpr std::array<CopperSize, 9> sizes{{{0.5, 36.0, 39.0},
                                                    {0.75, 24.5, 26.0},
                                                    {1, 18.1, 19.5},
                                                    {1.5, 12.1, 13.3},
                                                    {2.5, 7.41, 7.98},
                                                    {4, 4.61, 4.95},
                                                    {6, 3.08, 3.30},
                                                    {10, 1.83, 1.91},
                                                    {16, 1.15, 1.21}}};
  return sizes;
}

std::span<const WireGauge> wireGauges() {
  static constexpr std::array<WireGauge, 15> gauges{{{24, 0.20473, 84.219},
                                                     {23, 0.25816, 66.798},
                                                     {22, 0.32553, 52.953},
                                                     {21, 0.41049, 41.995},
                                                     {20, 0.51762, 33.301},
                                                     {19, 0.65271, 26.414},
                                                     {18, 0.82305, 20.948},
                                                     {17, 1.0378, 16.614},
                                                     {16, 1.3087, 13.176},
                                                     {15, 1.6502, 10.446},
                                                     {14, 2.0809, 8.2841},
                                                     {13, 2.624, 6.5715},
                                                     {12, 3.3088, 5.21},
                                                     {11, 4.1723, 4.1339},
                                                     {10, 5.2612, 3.2772}}};
  return gauges;
}

}  // namespace belvedere::services
