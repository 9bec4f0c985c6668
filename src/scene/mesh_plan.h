// SPDX-License-Identifier: GPL-3.0-or-later
//
// A mesh in plan: what it takes of a floor, and where targets stand on it. Meshes are placed: on the
// site, z up, metres.
#pragma once

#include <optional>

#include "geometry/polygon.h"
#include "scene/mesh.h"

namespace belvedere::scene {

// Plan of all that the mesh fills at some height between low_m and high_m, as far as it may meet
// `within`. Each connected part is filled whose section halfway up is made of closed outlines (in
// outlines, out again within the next one in); what a section does not show, sloped and level
// surfaces between the two heights, counts by its own plan. A sheet fills nothing.
// Throws MeshError where a section that is more than a straight sheet stays open: nobody can tell
// what is inside it.
Region filledPlan(const Mesh& mesh, double low_m, double high_m, const Box2& within);

// The plane that is the mesh's top over all of a region. Throws MeshError where there is none: the
// region reaches over the mesh's edge, or its top is of several planes there, or something hangs
// over it.
inline constexpr double kTopToleranceM = 1e-3;
Floor topOver(const Mesh& mesh, const Region& region);

}  // namespace belvedere::scene
