// SPDX-License-Identifier: GPL-3.0-or-later
//
// From a data sheet's fields of view to a lens of the radial family, and back to fields of view.
// For a lens known only from its data sheet; one that was calibrated needs no fit.
//
// The picture's middle is the principal point and r(HFOV/2) = W/2, likewise height and diagonal.
// Near k = 0 the departure from equidistant grows with k squared, so k itself is ill-determined
// there: the fit searches the signed square k|k| and is to be judged by its residuals in degrees,
// never by k (handbook 3).
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "optics/lens.h"

namespace belvedere::optics {

// Full angles, degrees: across the middle row, the middle column, corner to corner.
struct FieldOfView {
  std::optional<double> hfov_deg = {}, vfov_deg = {}, dfov_deg = {};
  bool operator==(const FieldOfView&) const = default;
};

struct LensFit {
  RadialLens lens;
  FieldOfView residual_deg;  // of each stated field: the lens's own less the stated
  double largest_residual_deg() const;
};

// The words for a family of fixed k ("rectilinear", "stereographic", "equidistant", "equisolid",
// "orthographic") and its k; nothing for any other word.
std::optional<double> familyK(std::string_view family);
std::span<const std::string_view> familyWords();

// F alone, for a family of known k: from HFOV, or where that is not stated VFOV, or DFOV. Residuals
// tell how far the other stated fields are from it. Nothing when no field is stated, or when the
// family does not reach the stated angle (rectilinear from 180 deg).
std::optional<LensFit> fitFocal(std::array<int, 2> pixels, const FieldOfView& stated, double k);

// F and k: exact with two stated fields (unless they contradict each other so far that no k between
// -1 and 1 gives both: then residuals remain), least squares of the residuals in degrees with
// three. Nothing when fewer than two are stated, or one lies outside (0, 360).
std::optional<LensFit> fitFocalAndK(std::array<int, 2> pixels, const FieldOfView& stated);

// A varifocal lens: its two ends. Between them F is linear in the focal length and so is k: an
// approximation, to be said where the result is shown. `share` runs from 0 (wide) to 1 (tele);
// where focal lengths are stated, share is linear in them.
struct Zoom {
  RadialLens wide, tele;
  std::optional<std::array<double, 2>> focal_mm;
};
RadialLens lensAtShare(const Zoom& zoom, double share);
std::optional<double> focalAtShare(const Zoom& zoom, double share);
// The share at a focal length, or at which the lens has a field of view. Nothing outside the
// lens's range (kZoomSlack of it allowed, and brought back to the end), or without focal lengths.
std::optional<double> shareAtFocal(const Zoom& zoom, double focal_mm);
std::optional<double> shareAtHfov(const Zoom& zoom, int width_px, double hfov_deg);
inline constexpr double kZoomSlack = 1e-4;  // data sheets round: 31 deg may be 31.0003 by the fit

// The fields of view of any lens: the angles from the ray of the picture's middle out to the rays
// of the two edge midpoints (for DFOV: two opposite corners), added. Exact for a lens whose
// principal point is the middle. A field is absent when no ray reaches its ends.
FieldOfView fieldsOfView(const Lens& lens, std::array<int, 2> pixels);

}  // namespace belvedere::optics
