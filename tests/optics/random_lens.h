// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random lenses of every model, seeded, for property tests.
#pragma once

#include <cmath>
#include <random>

#include "optics/lens.h"

namespace belvedere::optics {

struct RandomLenses {
  std::mt19937_64 engine;
  explicit RandomLenses(unsigned seed) : engine(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1p-53;
  }
  RadialLens radial() {
    static constexpr double kNamed[] = {1, 0.5, 0, -0.5, -1};
    const double k = engine() % 2 ? kNamed[engine() % 5] : between(-1, 1);
    return {between(200, 6000), k, {between(900, 1100), between(500, 600)}};
  }
  BrownConradyLens brownConrady() {
    const double f = between(700, 3000);
    return makeBrownConrady({f, f * between(0.98, 1.02)}, {between(900, 1100), between(500, 600)},
                            {between(-0.35, 0.2), between(-0.05, 0.1), between(-2e-3, 2e-3),
                             between(-2e-3, 2e-3), between(-0.02, 0.02)});
  }
  KannalaBrandtLens kannalaBrandt() {
    const double f = between(300, 1500);
    return makeKannalaBrandt({f, f * between(0.98, 1.02)}, {between(900, 1100), between(500, 600)},
                             {between(-0.08, 0.08), between(-0.02, 0.02), between(-0.005, 0.005),
                              between(-0.001, 0.001)});
  }
  Lens any() {
    switch (engine() % 3) {
      case 0: return radial();
      case 1: return brownConrady();
      default: return kannalaBrandt();
    }
  }
  // A direction at `angle` from the axis, or anywhere within it.
  Vec3 directionAt(double angle) {
    const double turn = between(0, 6.283185307179586);
    return {std::sin(angle) * std::cos(turn), std::sin(angle) * std::sin(turn), std::cos(angle)};
  }
};

}  // namespace belvedere::optics
