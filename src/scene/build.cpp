// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/problem.h"
#include "base/units.h"
#include "design/attachment.h"
#include "scene/mesh_plan.h"
#include "scene/presence.h"
#include "scene/scene.h"
#include "scene/wall_pieces.h"

namespace belvedere::scene {
namespace {

class Builder {
 public:
  Builder(const design::Design& design, const design::Situation& situation,
          const std::filesystem::path& folder)
      : design_(design), folder_(folder), presence_(design, situation) {
    for (const design::Material& m : design.site.materials) materials_[m.id.text] = &m;
  }

  Scene build() {
    for (const design::Building& building : design_.site.buildings)
      for (std::size_t s = 0; s < building.storeys.size(); ++s)
        addStorey(building, building.storeys[s]);
    for (std::size_t i = 0; i < design_.site.solids.size(); ++i) addSolid(i);
    addTerrain();
    if (!problems_.empty()) throw InputError(std::move(problems_));
    return std::move(scene_);
  }

 private:
  // The source for a body of this material; nothing for what passes all light.
  std::optional<std::uint32_t> source(const std::string& id, const design::MaterialId& material) {
    Source made{id, 0, 0};
    if (const auto found = materials_.find(material.text); found != materials_.end()) {
      made.light = found->second->light.share;
      made.infrared = found->second->infrared.share;
    }
    if (made.light >= 1 && made.infrared >= 1) return std::nullopt;
    scene_.sources.push_back(std::move(made));
    return static_cast<std::uint32_t>(scene_.sources.size() - 1);
  }

  void addLevelPrism(const Ring& outline, double bottom_m, double top_m, std::uint32_t source) {
    addPrism(scene_, outline, std::vector<double>(outline.size(), bottom_m),
             std::vector<double>(outline.size(), top_m), source);
  }

  void addStorey(const design::Building& building, const design::Storey& storey) {
    const double floor = storey.floor_m;
    if (storey.slab_m > 0 || storey.roof_m > 0) {
      const auto slab = source(storey.id.text, {});
      if (storey.slab_m > 0) addSlab(slabOf(building, storey), floor - storey.slab_m, floor, *slab);
      if (storey.roof_m > 0 && storey.outline.size() >= 3)
        addSlab({{onSite(building, storey.outline), {}}}, floor + storey.height_m,
                floor + storey.height_m + storey.roof_m, *slab);
    }
    for (const design::Wall& wall : storey.walls) {
      if (!presence_.holds(wall.id.text)) continue;
      const auto own = source(wall.id.text, wall.material);
      std::map<const design::Opening*, std::optional<std::uint32_t>> filled;
      for (const WallPiece& piece : wallPieces(building, storey, wall)) {
        std::optional<std::uint32_t> of = own;
        if (piece.filling) {
          if (!presence_.holds(piece.filling->id.text)) continue;
          const auto [at, first] = filled.try_emplace(piece.filling);
          if (first) at->second = source(piece.filling->id.text, piece.filling->material);
          of = at->second;
        }
        if (of) addLevelPrism(piece.outline, floor + piece.bottom_m, floor + piece.top_m, *of);
      }
    }
  }

  // Grown on all sides: over its own seams, and at its edge into the walls that stand flush there.
  void addSlab(const Region& region, double bottom_m, double top_m, std::uint32_t source) {
    for (const Polygon& polygon : region)
      for (const Ring& piece : convexPieces(polygon))
        addLevelPrism(grownConvex(piece, kSeamOverlapM), bottom_m, top_m, source);
  }

  void addSolid(std::size_t index) {
    const design::Solid& solid = design_.site.solids[index];
    if (!presence_.holds(solid.id.text)) return;
    const auto own = source(solid.id.text, solid.material);
    if (solid.file) addMeshFile(solid, index, own);  // what lets all light pass stands there too
    else if (own && solid.outline.size() >= 3) addOutlined(solid, *own);
  }

  void addOutlined(const design::Solid& solid, std::uint32_t source) {
    const double floor = floorUnder(design_, solid);
    const Top top = topOf(solid);
    // What stands on the floor reaches a little into it.
    const double bottom_m = solid.base_m == 0 ? -kSeamOverlapM : solid.base_m;
    for (Ring ring : overlappingPieces({anticlockwise(solid.outline), {}}, kSeamOverlapM)) {
      if (std::any_of(ring.begin(), ring.end(), [&](Vec2 p) { return top.at(p) < bottom_m; }))
        ring = clipHalfPlane(ring, -top.gradient,
                             top.low_m - bottom_m - dot(top.gradient, top.from));
      std::vector<double> bottoms, tops;
      for (const Vec2 p : ring) {
        bottoms.push_back(floor + bottom_m);
        tops.push_back(floor + std::max(bottom_m, top.at(p)));
      }
      addPrism(scene_, ring, bottoms, tops, source);
    }
  }

  void addMeshFile(const design::Solid& solid, std::size_t index, std::optional<std::uint32_t> source) {
    const std::string where = fmt::format("/site/solids/{}/file/path", index);
    const std::filesystem::path path = folder_ / solid.file->path;
    try {
      const std::string bytes = design::readWholeFile(path, kMostFileBytes);
      std::string ending = path.extension().string();
      std::transform(ending.begin(), ending.end(), ending.begin(),
                     [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
      Mesh mesh;
      if (ending == ".obj") mesh = readObj(bytes);
      else if (ending == ".gltf" || ending == ".glb") mesh = readGltf(bytes, path.parent_path());
      else throw MeshError("its ending is not one of .obj, .gltf and .glb");
      checkMesh(mesh);
      const double turn = degToRad(solid.turn_deg), c = std::cos(turn), s = std::sin(turn);
      const Vec3 place =
          solid.place_m.value_or(Vec3{}) + Vec3{0, 0, floorUnder(design_, solid)};
      for (Vec3& p : mesh.points)
        p = Vec3{c * p.x + s * p.y, c * p.y - s * p.x, p.z} + place;
      if (source) addMesh(scene_, mesh, *source);
      addFootprints(solid, mesh);
      addTops(solid, mesh);
    } catch (const MeshError& error) {
      problems_.push_back({"mesh_unusable", where,
                           fmt::format("the mesh \"{}\" cannot be used: {}", solid.file->path,
                                       error.what()),
                           "give an OBJ or glTF file of plain triangles, in metres"});
    } catch (const InputError& error) {
      unreadable(error, where);
    }
  }

  // What the mesh takes of the floors that zones lie on. It stands on a storey as a prism would.
  void addFootprints(const design::Solid& solid, const Mesh& mesh) {
    std::map<std::string, Box2> floors;  // storey, box around its floor zones
    for (const design::Zone& zone : design_.site.zones)
      if (onFloor(zone))
        for (const Vec2 p : zone.outline) floors[zone.storey.text].add(p);
    for (const auto& [id, box] : floors) {
      const design::Storey* storey = findStorey(design_, {id});
      if (!storey) continue;
      const double lift_m = floorUnder(design_, solid) - storey->floor_m;
      if (solid.storey.text != id && !solid.storey.empty() && lift_m > -kSeamOverlapM) continue;
      Region region = filledPlan(mesh, storey->floor_m + kSeamOverlapM,
                                 storey->floor_m + kStandsBelowM, box);
      if (!region.empty()) scene_.mesh_footprints.push_back({id, std::move(region)});
    }
  }

  void addTops(const design::Solid& solid, const Mesh& mesh) {
    for (std::size_t i = 0; i < design_.site.zones.size(); ++i) {
      const design::Zone& zone = design_.site.zones[i];
      if (zone.surface != solid.id || zone.outline.size() < 3) continue;
      Region region{{zone.outline, {}}};
      if (!zone.holes.empty()) region = differenceOf(region, unionOf(zone.holes));
      try {
        scene_.mesh_tops.push_back({zone.id.text, topOver(mesh, region)});
      } catch (const MeshError& error) {
        problems_.push_back({"surface_unclear", fmt::format("/site/zones/{}/surface", i),
                             fmt::format("the mesh \"{}\" is no surface for the zone: {}",
                                         solid.id.text, error.what()),
                             "give a solid with an outline to stand on, or several zones, each over "
                             "one plane of the mesh"});
      }
    }
  }

  // The grid's coordinates are the site's, or, where the site has a place, those of the place's
  // reference system: less its origin, and turned to the drawing.
  void addTerrain() {
    if (!design_.site.terrain) return;
    const design::Terrain& terrain = *design_.site.terrain;
    if (!presence_.holds(terrain.id.text)) return;
    const auto own = source(terrain.id.text, terrain.material);
    if (!own) return;
    const std::string where = "/site/terrain/file/path";
    try {
      const std::string bytes =
          design::readWholeFile(folder_ / terrain.file.path, kMostFileBytes);
      Mesh mesh = readTerrain(bytes, terrain.cell_m);
      if (const auto& place = design_.site.place; place && !place->crs.empty()) {
        const double turn = degToRad(place->north_deg), c = std::cos(turn), s = std::sin(turn);
        for (Vec3& p : mesh.points) {
          const Vec3 d = p - Vec3{place->origin_m[0], place->origin_m[1], place->origin_m[2]};
          p = {c * d.x + s * d.y, c * d.y - s * d.x, d.z};
        }
      }
      checkMesh(mesh);
      addMesh(scene_, mesh, *own);
    } catch (const MeshError& error) {
      problems_.push_back({"terrain_unusable", where,
                           fmt::format("the terrain \"{}\" cannot be used: {}", terrain.file.path,
                                       error.what()),
                           "give a text grid as ESRI ASCII describes it"});
    } catch (const InputError& error) {
      unreadable(error, where);
    }
  }

  void unreadable(const InputError& error, const std::string& where) {
    for (Problem problem : error.problems()) {
      problem.where = where;
      problems_.push_back(std::move(problem));
    }
  }

  const design::Design& design_;
  const std::filesystem::path& folder_;
  Presence presence_;
  std::map<std::string, const design::Material*> materials_;
  std::vector<Problem> problems_;
  Scene scene_;
};

}  // namespace

Scene buildScene(const design::Design& design, const design::Situation& situation,
                 const std::filesystem::path& folder) {
  return Builder(design, situation, folder).build();
}

}  // namespace belvedere::scene
