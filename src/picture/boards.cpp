// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/boards.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "base/units.h"

namespace belvedere::picture {
namespace {

constexpr Colour kWhite{0.80f, 0.80f, 0.79f}, kBlack{0.03f, 0.03f, 0.03f};

// Letters of five by seven squares, ours.
struct Glyph {
  char letter;
  std::array<std::uint8_t, 7> rows;  // bits from the left
};
constexpr std::array<Glyph, 7> kGlyphs{{
    {'B', {0b11110, 0b10001, 0b10001, 0b11110, 0b10001, 0b10001, 0b11110}},
    {'V', {0b10001, 0b10001, 0b10001, 0b10001, 0b01010, 0b01010, 0b00100}},
    {'7', {0b11111, 0b00001, 0b00010, 0b00010, 0b00100, 0b00100, 0b00100}},
    {'3', {0b11110, 0b00001, 0b00001, 0b01110, 0b00001, 0b00001, 0b11110}},
    {'8', {0b01110, 0b10001, 0b10001, 0b01110, 0b10001, 0b10001, 0b01110}},
    {'K', {0b10001, 0b10010, 0b10100, 0b11000, 0b10100, 0b10010, 0b10001}},
    {'D', {0b11110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b11110}},
}};
constexpr std::string_view kPlateText = "BV 738 KD";

Colour plateAt(Vec2 at) {
  const double edge = std::max(std::abs(at.x) - 0.252, std::abs(at.y) - 0.047);
  if (edge > 0.003) return kWhite;
  if (edge > 0) return kBlack;
  // Letters 75 mm high, 45 mm wide, 53 mm apart; a gap counts half.
  constexpr double kSquareX = 0.0090, kSquareY = 0.0107, kStep = 0.0555, kGap = 0.022;
  double x = -0.5 * (7 * kStep - (kStep - 5 * kSquareX) + 2 * kGap);
  for (const char letter : kPlateText) {
    if (letter == ' ') {
      x += kGap;
      continue;
    }
    const double u = (at.x - x) / kSquareX, v = (0.5 * 7 * kSquareY - at.y) / kSquareY;
    x += kStep;
    if (u < 0 || u >= 5 || v < 0 || v >= 7) continue;
    for (const Glyph& glyph : kGlyphs)
      if (glyph.letter == letter)
        return (glyph.rows[static_cast<std::size_t>(v)] >> (4 - static_cast<int>(u)) & 1) != 0
                   ? kBlack
                   : kWhite;
  }
  return kWhite;
}

Colour chartAt(Vec2 at) {
  const double edge = std::max(std::abs(at.x), std::abs(at.y));
  if (edge > 0.19) return kWhite;
  if (edge > 0.185) return kBlack;
  // A star below, on the left.
  const Vec2 from_star = at - Vec2{-0.085, -0.085};
  const double r = norm(from_star);
  if (r < 0.085) {
    if (r < 0.003) return kBlack;
    const double turn = std::atan2(from_star.y, from_star.x) / (2 * kPi) * 36;
    return turn - std::floor(turn) < 0.5 ? kBlack : kWhite;
  }
  // Bars: five groups of five, level and upright side by side.
  constexpr std::array<double, 5> kDensity{125, 250, 500, 1000, 2000};
  double top = 0.17;
  for (const double px_per_m : kDensity) {
    const double bar = 1 / px_per_m, side = 9 * bar;
    if (at.y <= top && at.y > top - side) {
      const double down = top - at.y;
      for (const bool upright : {true, false}) {
        const double u = at.x - (upright ? -0.17 : -0.08);
        if (u < 0 || u >= side) continue;
        const int bars = static_cast<int>((upright ? u : down) / bar);
        return bars % 2 == 0 ? kBlack : kWhite;
      }
    }
    top -= side + 0.008;
  }
  // Grey steps on the right, from black to white.
  if (at.x > 0.06 && at.x < 0.17 && std::abs(at.y) < 0.17) {
    const int step = static_cast<int>((at.y + 0.17) / 0.34 * 8);
    const float grey = 0.03f + 0.11f * static_cast<float>(step);
    return {grey, grey, grey};
  }
  return kWhite;
}

}  // namespace

Vec2 boardSizeM(Pattern pattern) {
  return pattern == Pattern::plate ? Vec2{0.52, 0.11} : Vec2{0.4, 0.4};
}

scene::Scene boardScene(std::span<const Board> boards) {
  scene::Scene made;
  for (std::size_t i = 0; i < boards.size(); ++i) {
    const Board& board = boards[i];
    made.sources.push_back({fmt::format("board {}", i + 1), 0, 0});
    const double turn = degToRad(board.facing_deg), s = std::sin(turn), c = std::cos(turn);
    const Vec2 half = boardSizeM(board.pattern) * 0.5;
    const Vec2 middle = board.middle_m.xy(), aside = Vec2{c, -s} * half.x,
               back = Vec2{s, c} * kBoardThickM;
    const double low = board.middle_m.z - half.y, high = board.middle_m.z + half.y;
    const Ring outline{middle - aside, middle - aside - back, middle + aside - back,
                       middle + aside};
    scene::addPrism(made, outline, std::vector<double>(4, low), std::vector<double>(4, high),
                    static_cast<std::uint32_t>(i));
  }
  return made;
}

Colour boardAlbedo(Pattern pattern, Vec2 at_m) {
  return pattern == Pattern::plate ? plateAt(at_m) : chartAt(at_m);
}

}  // namespace belvedere::picture
