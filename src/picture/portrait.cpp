// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/portrait.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "picture/coats.h"

namespace belvedere::picture {
namespace {

struct Looks {
  Colour skin, hair, jacket, trousers;
};
constexpr std::array<Looks, 5> kLooks{{
    {{0.56f, 0.36f, 0.26f}, {0.055f, 0.032f, 0.02f}, {0.06f, 0.13f, 0.24f}, {0.05f, 0.052f, 0.06f}},
    {{0.36f, 0.20f, 0.125f}, {0.012f, 0.01f, 0.01f}, {0.40f, 0.11f, 0.07f}, {0.07f, 0.085f, 0.13f}},
    {{0.63f, 0.43f, 0.33f}, {0.22f, 0.135f, 0.06f}, {0.16f, 0.24f, 0.15f}, {0.13f, 0.12f, 0.10f}},
    {{0.18f, 0.095f, 0.06f},
     {0.01f, 0.009f, 0.009f},
     {0.52f, 0.42f, 0.20f},
     {0.04f, 0.045f, 0.06f}},
    {{0.50f, 0.33f, 0.235f}, {0.27f, 0.26f, 0.25f}, {0.33f, 0.34f, 0.36f}, {0.06f, 0.07f, 0.10f}},
}};

float inside(double distance, double edge) {
  const double t = std::clamp(0.5 + 0.5 * distance / edge, 0.0, 1.0);
  return static_cast<float>(t * t * (3 - 2 * t));
}
double ellipse(double x, double y, double rx, double ry) {  // about the distance inside its edge
  return (1 - std::hypot(x / rx, y / ry)) * std::min(rx, ry);
}

// The face as an artist's manual lays it out: eyes halfway down the head, mouth a third below the
// nose. x to the figure's right, y up; shares of its height.
Colour face(const Looks& looks, double x, double y) {
  constexpr double kSoft = 0.0006;
  const Colour skin = looks.skin;
  Colour c = skin;
  const double ax = std::abs(x);
  // Soft tones first: sockets, cheeks, the nose's sides, under the lip and the chin.
  c = mix(c, skin * 0.62f, 0.75f * inside(ellipse(ax - 0.0175, y - 0.9365, 0.0135, 0.0085), 0.006));
  c = mix(c, Colour{skin.red * 1.04f, skin.green * 0.82f, skin.blue * 0.78f},
          0.6f * inside(ellipse(ax - 0.022, y - 0.911, 0.0105, 0.008), 0.006));
  c = mix(c, skin * 0.70f, 0.7f * inside(ellipse(ax - 0.0085, y - 0.917, 0.003, 0.013), 0.003));
  c = mix(c, skin * 0.66f, 0.7f * inside(ellipse(x, y - 0.8855, 0.009, 0.0022), 0.002));
  c = mix(c, skin * 0.6f, 0.8f * inside(ellipse(ax - 0.0048, y - 0.9042, 0.0026, 0.0014), kSoft));
  // Eyes.
  const double lid = ellipse(ax - 0.0177, y - 0.9345, 0.0083, 0.0037);
  c = mix(c, Colour{0.72f, 0.70f, 0.67f}, inside(lid, kSoft));
  const float in_lid = inside(lid, kSoft);
  c = mix(c, Colour{0.07f, 0.045f, 0.03f},
          in_lid * inside(ellipse(ax - 0.0177, y - 0.9348, 0.0037, 0.0037), kSoft));
  c = mix(c, Colour{0.004f, 0.004f, 0.004f},
          in_lid * inside(ellipse(ax - 0.0177, y - 0.9348, 0.0017, 0.0017), kSoft));
  c = mix(c, looks.hair * 0.5f,
          inside(0.0011 - std::abs(y - 0.9378 + 28 * (ax - 0.0177) * (ax - 0.0177)), kSoft) *
              inside(0.0092 - std::abs(ax - 0.0177), kSoft));
  // Brows: a bow, thinner to the outside.
  const double bow = 0.9458 - 14 * (ax - 0.0165) * (ax - 0.0165);
  c = mix(c, mix(looks.hair, skin, 0.15f),
          inside(0.0019 - 0.05 * std::max(0.0, ax - 0.016) - std::abs(y - bow), kSoft) *
              inside(0.0105 - std::abs(ax - 0.0178), kSoft));
  // Mouth: two lips and the line between.
  const Colour lips{skin.red * 0.86f, skin.green * 0.52f, skin.blue * 0.5f};
  const double line = 0.8925 + 5 * x * x;
  c = mix(c, lips, inside(ellipse(x, y - 0.8938, 0.0142, 0.0026), kSoft));
  c = mix(c, lips, inside(ellipse(x, y - 0.8908, 0.0115, 0.003), kSoft));
  c = mix(c, skin * 0.28f, inside(0.0006 - std::abs(y - line), kSoft) * inside(0.0145 - ax, kSoft));
  return c;
}

Colour head(const Looks& looks, const Vec3& at, std::uint32_t seed) {
  const double x = at.x, ahead = at.y, y = at.z;
  const Colour skin = ahead > 0 ? face(looks, x, y) : looks.skin;
  // The hair's edge: over the brow, down before the ears, round the neck.
  const double part = 0.004 * (shareOf(mixed(seed, 4)) - 0.5);
  const double brow = 0.9735 + 0.3 * part - 9 * (x - part) * (x - part);
  const double edge = ahead > 0.026    ? brow
                      : ahead > 0.0    ? brow - (0.026 - ahead) * 1.35
                      : ahead > -0.012 ? 0.938 + 0.9 * ahead
                                       : 0.893;
  const double strands = noiseAt(900 * x, 900 * ahead, 220 * y);
  const Colour hair = looks.hair * static_cast<float>(0.7 + 0.6 * strands);
  return mix(skin, hair, inside(y - edge + 0.003 * (strands - 0.5), 0.0012));
}

}  // namespace

Colour figureAlbedo(const FigureBody& body, const Vec3& at, std::uint32_t seed) {
  const Looks& looks = kLooks[seed % kLooks.size()];
  switch (body.limb) {
    case Limb::shoe:
      return at.z < 0.008 ? Colour{0.16f, 0.15f, 0.14f} : Colour{0.03f, 0.025f, 0.022f};
    case Limb::leg:
      return looks.trousers;
    case Limb::hand:
    case Limb::neck:
    case Limb::ear:
    case Limb::nose:
      return looks.skin;
    case Limb::head:
      return head(looks, at, seed);
    case Limb::arm:
      return looks.jacket * (at.z < 0.487 ? 0.55f : 0.95f);
    case Limb::trunk:
      break;
  }
  if (at.z < 0.487) return looks.trousers;
  if (at.z < 0.5) return {0.03f, 0.022f, 0.018f};  // a belt
  Colour c = looks.jacket;
  if (at.y > 0) {
    // Collar and shirt, zip and pockets.
    const double opening = 0.022 * std::clamp((at.z - 0.775) / 0.07, 0.0, 1.0);
    c = mix(c, Colour{0.62f, 0.62f, 0.60f}, inside(opening - std::abs(at.x), 0.001));
    c = mix(c, looks.jacket * 0.4f, inside(0.0012 - std::abs(std::abs(at.x) - opening), 0.0006));
    c = mix(c, looks.jacket * 0.55f,
            inside(0.001 - std::abs(at.z - 0.6 - 0.25 * (std::abs(at.x) - 0.06)), 0.0006) *
                inside(0.022 - std::abs(std::abs(at.x) - 0.058), 0.0006));
  }
  return c;
}

}  // namespace belvedere::picture
