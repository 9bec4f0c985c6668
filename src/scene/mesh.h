// SPDX-License-Identifier: GPL-3.0-or-later
//
// Foreign shapes as plain triangles, and what bodies they make. Readers get bytes and give points
// or a sentence about what is wrong; they touch no file but a glTF's own buffers, trust nothing in
// what they read, and know nothing of a design, so that they can live in a process of their own.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/vec.h"
#include "scene/scene.h"

namespace belvedere::scene {

// z up, metres, as the file has it: not yet placed.
struct Mesh {
  std::vector<Vec3> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;
};

// A file that cannot be used; what() is a sentence for people.
class MeshError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

inline constexpr std::size_t kMostFileBytes = 512u << 20;
inline constexpr std::size_t kMostTriangles = 10'000'000;
inline constexpr std::size_t kMostPoints = 3 * kMostTriangles;
inline constexpr double kFarthestM = 1e7;  // a coordinate beyond this is not a building's

// Wavefront OBJ text: v and f lines (faces of any number of corners, negative indices too); all
// else is passed over. Taken to be z up and in metres.
Mesh readObj(std::string_view text);

// glTF 2.0, text (.gltf) or binary (.glb): every triangle of the default scene, y up turned to z
// up. `folder`: where buffers beside the file lie. No compressed or sparse data.
Mesh readGltf(std::string_view bytes, const std::filesystem::path& folder);

// ESRI ASCII grid: heights at cell centres, two triangles between each four; cells without data
// are left out. `cell_m`: side of a cell, instead of the file's own.
Mesh readTerrain(std::string_view text, std::optional<double> cell_m = {});

// Throws MeshError when the mesh is larger or farther away than the limits above, or an index
// names no point.
void checkMesh(const Mesh& mesh);

// Adds the mesh's bodies: each connected part that is closed and convex (to within
// kConvexToleranceM) as one convex body, however its triangles are turned; all else as triangles.
inline constexpr double kConvexToleranceM = 1e-6;
void addMesh(Scene& scene, const Mesh& mesh, std::uint32_t source);

}  // namespace belvedere::scene
