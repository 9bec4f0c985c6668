// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which imagers could matter at all, so that a large site does not ask each of its thousands about
// every zone.
#pragma once

#include <cstdint>
#include <vector>

#include "proof/judge.h"

namespace belvedere::proof {

// No point of the picture is denser than this over its slant distance: pixels per radian of the
// judged picture. Nothing for calibrated lenses, which are never left out.
std::optional<double> densestPxPerRad(const design::PosedImager& view);

// Whether a place lies in the frame of a view; what stands between, and an unrolled view's span, are not asked.
bool framesPlace(const design::PosedImager& view, const Vec3& at_m);

// Indices of the views that are near enough to reach the needed density, over `slack`, somewhere
// in the question's region; in order.
std::vector<std::uint32_t> viewsInRange(const Question& question, double slack = 1);

// The question with only the imagers of which a view is in range: its answer is the same.
Question nearQuestion(const Question& question);

}  // namespace belvedere::proof
