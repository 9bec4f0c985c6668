// SPDX-License-Identifier: GPL-3.0-or-later
//
// scene: the design's solids as convex bodies and triangles with materials, immutable once built.
// Answers whether a sightline passes (ray_caster.h, in single precision, for previews and
// pictures; sightline.h, in double) and whether a whole shaft is clear (shaft.h, for proofs).
//
// Bodies are open: touching one does not hide (handbook 19). So that nothing leaks along a joint,
// pieces that belong together overlap by kSeamOverlapM or more: walls reach into the slabs under and
// above them, a wall's pieces into each other, a slab's pieces into each other. Faces that targets
// and lenses may touch (walls' sides, floors, soffits) are never grown; a slab's edges are, all
// round, since facades may hang before them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "geometry/polygon.h"
#include "geometry/vec.h"

namespace belvedere::scene {

inline constexpr double kSeamOverlapM = 1e-6;

struct Plane {
  Vec3 normal;       // unit, outward
  double offset = 0; // dot(normal, x) <= offset inside
};

// What a body belongs to.
struct Source {
  std::string id;    // of the wall, opening, storey (its slab), solid or terrain
  double light = 0;     // share of visible light that passes: 0 blocks, 1 passes
  double infrared = 0;  // likewise near infrared
};

// A convex polyhedron, or (plane_count = 0) one triangle, which hides from both sides.
// Indices into the scene's pools.
struct Body {
  std::uint32_t first_plane = 0, plane_count = 0;
  std::uint32_t first_vertex = 0, vertex_count = 0;
  std::uint32_t first_edge = 0, edge_count = 0;
  std::uint32_t source = 0;
  Box3 box;
  bool triangle() const { return plane_count == 0; }
};
struct Edge {
  std::uint32_t a = 0, b = 0;  // absolute indices into vertices
};

// What a zone's targets stand on: z = z0 + slope . (p - p0) on the site. A level floor, or the top
// of the zone's `surface`.
struct Floor {
  double z0 = 0;
  Vec2 p0, slope;
  double at(Vec2 p) const { return z0 + dot(slope, p - p0); }
};

// What the meshes of a scene mean for zones: they are read once, when it is built.
struct MeshFootprint {
  std::string storey;
  Region region;  // what a mesh takes of that storey's floor, as far as zones reach
};
struct MeshTop {
  std::string zone;
  Floor floor;    // the mesh's top over that zone
};

struct Scene {
  std::vector<MeshFootprint> mesh_footprints;
  std::vector<MeshTop> mesh_tops;
  std::vector<Source> sources;
  std::vector<Body> bodies;
  std::vector<Plane> planes;
  std::vector<Vec3> vertices;
  std::vector<Edge> edges;
};

// Adds a convex body: the hull of a convex plan outline (anticlockwise) between two heights given
// at each corner (a prism, or one with sloped ends). Faces are planes: heights must be planar.
void addPrism(Scene& scene, const Ring& outline, const std::vector<double>& bottom_m,
              const std::vector<double>& top_m, std::uint32_t source);
void addTriangle(Scene& scene, const Vec3& a, const Vec3& b, const Vec3& c, std::uint32_t source);

// Everything that stands in a situation: walls with openings, slabs, roofs, solids, meshes,
// terrain. `folder` is where attachments lie. Bodies that pass both bands of light are left out.
// Throws InputError (with pointers) for a mesh or terrain file that cannot be used, for one that
// stands on a zone's floor without saying what is inside it, and for a zone on a mesh whose top is
// no one plane there.
Scene buildScene(const design::Design& design, const design::Situation& situation,
                 const std::filesystem::path& folder);

// True when two situations have the same solids, so that one scene serves both.
bool sameSolids(const design::Design& design, const design::Situation& a,
                const design::Situation& b);

// Plan outlines (site) of all that stands on a storey's floor: walls and solids whose base is
// below kStandsBelowM (handbook 19), in a situation; of meshes those of the situation's scene. No
// part of a zone on the floor. `within`: what lies apart from this box may be left out.
inline constexpr double kStandsBelowM = 0.2;
Region standingFootprints(const design::Design& design, const design::StoreyId& storey,
                          const design::Situation& situation, const Scene* scene = nullptr,
                          const std::optional<Box2>& within = {});
// A storey's slab outline on the site, less its voids.
Region slabOutline(const design::Design& design, const design::StoreyId& storey);

// The floor of a zone; `scene` is asked for the top of a mesh.
Floor floorOf(const design::Design& design, const design::Zone& zone, const Scene* scene = nullptr);

}  // namespace belvedere::scene
