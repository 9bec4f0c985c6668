// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any bytes, read as photometry (LM-63 or EULUMDAT, told apart by the reader): refused with an
// InputError, or a table that gives finite light in every direction and no negative one.
#include <cmath>
#include <cstdint>
#include <string_view>

#include "base/check.h"
#include "light/photometry.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace belvedere;
  light::Photometry p;
  try {
    p = light::readPhotometry({reinterpret_cast<const char*>(data), size});
  } catch (const InputError& error) {
    BELVEDERE_CHECK(!error.problems().empty(), "a refusal says why");
    return 0;
  }
  BELVEDERE_CHECK(p.candela.size() == p.across_deg.size() * p.along_deg.size(), "a whole table");
  const double lumens = light::lumensOf(p);
  BELVEDERE_CHECK(std::isfinite(lumens), "a finite flux");
  for (const Vec3 dir : {Vec3{0, 0, 1}, Vec3{0, 0, -1}, Vec3{1, 0, 0}, Vec3{0, -1, 0},
                         Vec3{-0.3, 0.2, 0.9}, Vec3{1, -1, -1}}) {
    const double candela = light::candelaToward(p, dir);
    BELVEDERE_CHECK(std::isfinite(candela) && candela >= 0, "light in every direction");
    const Interval within = light::candelaWithin(p, dir, 0.1);
    BELVEDERE_CHECK(within.low <= candela * (1 + 1e-9) && candela <= within.high * (1 + 1e-9),
                    "the bounds hold the value");
  }
  BELVEDERE_CHECK(std::isfinite(light::tiltFactorAt(p, 45)), "a tilt factor");
  return 0;
}
