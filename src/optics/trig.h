// SPDX-License-Identifier: GPL-3.0-or-later
//
// The few angle functions that projection needs, written once for a double and for a Pack of two,
// so that one direction and an array of them give the same bytes on any machine: the C library's
// own pick other instructions, and so other last digits, from one processor to the next.
// For the ranges stated only; elsewhere take <cmath>. Within 1e-15 of the exact value, relative.
#pragma once

#include <cmath>
#if defined(__SSE2__)
#include <emmintrin.h>
#endif

namespace belvedere::optics::trig {

// Two doubles side by side: what every 64-bit x86 processor computes at once.
using Pack = double __attribute__((vector_size(16)));

inline double squareRoot(double x) { return std::sqrt(x); }
inline Pack squareRoot(Pack x) {
#if defined(__SSE2__)
  return _mm_sqrt_pd(x);
#else
  return Pack{std::sqrt(x[0]), std::sqrt(x[1])};
#endif
}

inline double absolute(double x) { return std::fabs(x); }
inline double withSign(double size, double sign) { return std::copysign(size, sign); }
#if defined(__SSE2__)
inline Pack absolute(Pack x) { return _mm_andnot_pd(Pack{-0.0, -0.0}, x); }
inline Pack withSign(Pack size, Pack sign) {
  const Pack bit{-0.0, -0.0};
  return _mm_or_pd(_mm_andnot_pd(bit, size), _mm_and_pd(bit, sign));
}
#else
inline Pack absolute(Pack x) { return Pack{std::fabs(x[0]), std::fabs(x[1])}; }
inline Pack withSign(Pack size, Pack sign) {
  return Pack{std::copysign(size[0], sign[0]), std::copysign(size[1], sign[1])};
}
#endif

template <class T>
T constant(double c) {
  return T{} + c;
}

// pi/2 in two parts, so that taking an angle from it loses nothing.
inline constexpr double kHalfPiHigh = 0x1.921fb54442d18p+0;
inline constexpr double kHalfPiLow = 0x1.1a62633145c07p-54;

// The angle of (along, across) from `along`, across >= 0: 0 to pi. NaN when both are zero.
// Taken from the nearest of the quarter turns and their halves, so that the slope from there is
// within tan(pi/8) of 0; the polynomial is our own fit of (atan(sqrt w)/sqrt w - 1)/w there, of
// least largest error (3.2e-17).
template <class T>
inline T angleOf(const T& across, const T& along) {
  constexpr double kTanPi8 = 0.41421356237309503, kTan3Pi8 = 2.414213562373095;
  const T length = absolute(along);
  const auto steep = across > length * kTan3Pi8;
  const auto flat = across <= length * kTanPi8;
  const T over = steep ? -along : (flat ? across : across - length);
  const T under = steep ? across : (flat ? along : withSign(across + length, along));
  // Eighths of a turn from pi/2: 0, 1 or 2, towards 0 or, backwards, towards pi.
  const T eighths = withSign(steep ? T{} : (flat ? constant<T>(2) : constant<T>(1)), along);
  const T base_high = kHalfPiHigh - eighths * (0.5 * kHalfPiHigh);
  const T base_low = kHalfPiLow - eighths * (0.5 * kHalfPiLow);
  const T q = over / under;
  const T w = q * q;
  // In pairs, then pairs of pairs: the terms do not wait for one another.
  const T w2 = w * w, w4 = w2 * w2;
  const T p01 = 0.19999999999995516 * w - 0.3333333333333333;
  const T p23 = 0.11111111015187018 * w - 0.14285714284665682;
  const T p45 = 0.07692183125376892 * w - 0.0909090457530649;
  const T p67 = 0.05858140904866328 * w - 0.06664510525508936;
  const T p89 = 0.03923044778479309 * w - 0.050854078345894844;
  const T p = (p01 + p23 * w2) + w4 * ((p45 + p67 * w2) + w4 * (p89 - 0.019175404711104935 * w2));
  return base_high + (q + (q * w * p + base_low));
}

// Sine and cosine of an angle in [0, pi/2] (Taylor on [0, pi/4], the rest by the complement).
template <class T>
inline void sineCosine(const T& angle, T& sine, T& cosine) {
  const auto large = angle > 0.5 * kHalfPiHigh;
  const T a = large ? (kHalfPiHigh - angle) + kHalfPiLow : angle;
  const T w = a * a;
  T s = constant<T>(1.0 / 355687428096000.0);
  s = s * w - 1.0 / 1307674368000.0;
  s = s * w + 1.0 / 6227020800.0;
  s = s * w - 1.0 / 39916800.0;
  s = s * w + 1.0 / 362880.0;
  s = s * w - 1.0 / 5040.0;
  s = s * w + 1.0 / 120.0;
  s = s * w - 1.0 / 6.0;
  s = a + a * w * s;
  T c = constant<T>(1.0 / 20922789888000.0);
  c = c * w - 1.0 / 87178291200.0;
  c = c * w + 1.0 / 479001600.0;
  c = c * w - 1.0 / 3628800.0;
  c = c * w + 1.0 / 40320.0;
  c = c * w - 1.0 / 720.0;
  c = c * w + 1.0 / 24.0;
  c = c * w - 0.5;
  c = 1.0 + w * c;
  sine = large ? c : s;
  cosine = large ? s : c;
}

template <class T>
inline T tangent(const T& angle) {
  T s, c;
  sineCosine(angle, s, c);
  return s / c;
}

}  // namespace belvedere::optics::trig
