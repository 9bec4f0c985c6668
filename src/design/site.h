// SPDX-License-Identifier: GPL-3.0-or-later
//
// The site of a design: people and papers, buildings, solids, lights, zones, mountings, containment, underlays.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "design/ids.h"
#include "geometry/vec.h"

namespace belvedere::design {

using Range = std::array<double, 2>;  // [least, most], or [wide, tele]

struct Person {
  AnyId id;
  std::string role, name;
  bool operator==(const Person&) const = default;
};
struct Revision {
  AnyId id;
  std::string date, by, says, sha256;
  bool operator==(const Revision&) const = default;
};
struct Attachment {
  std::string path;    // relative to the design's folder
  std::string sha256;  // of the file's bytes, lower-case hex
  bool operator==(const Attachment&) const = default;
};

struct Place {
  double lat_deg = 0, lon_deg = 0;
  std::string crs;                      // "EPSG:25832", empty: none
  std::array<double, 3> origin_m{};     // of the site's (0,0,0) in that system
  double north_deg = 0;                 // bearing on the drawing of true north
  std::string time_zone;                // "Europe/Berlin"
  bool operator==(const Place&) const = default;
};

// How much of a band of light passes: "passes", "blocks", or a share in (0,1) of the rays.
struct Passage {
  double share = 0;  // 0 blocks, 1 passes
  bool operator==(const Passage&) const = default;
};
struct Material {
  MaterialId id;
  std::string title;
  Passage light, infrared, mirror;  // mirror: share thrown back like a mirror
  bool operator==(const Material&) const = default;
};

struct Opening {
  OpeningId id;
  std::string title;
  double from_m = 0;   // along the wall's path from its start
  double width_m = 0;
  double sill_m = 0;   // above the storey's floor
  double head_m = 0;   // above the storey's floor
  MaterialId material;  // what fills it; empty: nothing
  bool operator==(const Opening&) const = default;
};
struct Wall {
  WallId id;
  std::string title;
  std::vector<Vec2> path;               // centre line, building coordinates
  double thickness_m = 0.1;
  std::optional<double> height_m;       // above the floor; absent: the storey's height
  double base_m = 0;                    // above the floor (a parapet on a kerb, a hanging beam)
  MaterialId material;                  // empty: blocks
  std::vector<Opening> openings;
  bool operator==(const Wall&) const = default;
};
// What a device has to stand where it hangs; of a storey, or of one housing instead.
struct Surroundings {
  std::string place;                    // "indoors", "sheltered", "open"
  std::optional<Range> temperature_c;   // least and most of the air over the years
  std::string corrosion;                // ISO 12944 category of the place, such as C3
  std::optional<double> wind_mps;       // gust that is designed for
  std::optional<double> reach_m;        // of hands above the floor
  bool operator==(const Surroundings&) const = default;
};
struct Storey {
  StoreyId id;
  std::string title;
  double floor_m = 0;                   // finished floor, site z
  double slab_m = 0.2;                  // thickness of the floor slab, below floor_m; 0: none
  double height_m = 3.0;                // floor to the underside of what is above
  double roof_m = 0;                    // thickness of a slab on top (last storey); 0: open
  std::vector<Vec2> outline;            // of the slab, building coordinates
  std::vector<std::vector<Vec2>> voids; // stair wells and atria cut out of the slab
  std::vector<Wall> walls;
  std::optional<Surroundings> surroundings;
  bool operator==(const Storey&) const = default;
};
struct Building {
  BuildingId id;
  std::string title;
  Vec2 origin_m;                        // of building coordinates, on the site
  double turn_deg = 0;                  // clockwise, site from building
  std::vector<Storey> storeys;
  bool operator==(const Building&) const = default;
};

enum class SolidKind {
  stock, column, counter, furniture, ramp, stair, beam, canopy, vehicle, foliage, sign, mesh, other
};
// A prism over an outline, from base to top, with a sloped top if `slope` is given; or a mesh file.
struct Slope {
  double toward_deg = 0;   // bearing on the site in which the top rises
  double rise_m = 0;       // over the whole extent of the outline in that bearing; top_m is its low end
  bool operator==(const Slope&) const = default;
};
struct Solid {
  SolidId id;
  std::string title;
  StoreyId storey;                       // whose floor base_m and top_m count from; empty: site z = 0
  SolidKind kind = SolidKind::other;
  std::vector<Vec2> outline;             // site coordinates
  std::optional<Attachment> file;        // OBJ or glTF, metres; with place_m and turn_deg
  std::optional<Vec3> place_m;           // of the file's origin, above the storey's floor
  double turn_deg = 0;                   // of the file, clockwise
  double base_m = 0, top_m = 0;          // above the storey's floor
  std::optional<Slope> slope;
  MaterialId material;                   // empty: blocks
  bool operator==(const Solid&) const = default;
};
struct Terrain {
  AnyId id;
  Attachment file;                       // text grid (ESRI ASCII)
  std::optional<double> cell_m;
  MaterialId material;
  bool operator==(const Terrain&) const = default;
};

struct Light {
  LightId id;
  std::string title;
  std::string kind;                      // "ambient" or "luminaire"
  std::optional<Vec3> at_m;              // site
  double pan_deg = 0, tilt_deg = 90;     // of its axis; tilt 90 shines down
  std::optional<double> lux;             // ambient
  std::optional<Attachment> photometry;
  double factor = 1;                     // dimming and maintenance
  bool operator==(const Light&) const = default;
};
struct Zone {
  ZoneId id;
  std::string title;
  StoreyId storey;                       // required
  std::vector<Vec2> outline;             // site coordinates
  std::vector<std::vector<Vec2>> holes;
  std::string use;                       // "floor" (default), "counter_top", "window", "outside"
  SolidId surface;                       // whose (sloped) top the target stands on; empty: the floor
  double base_m = 0;                     // height of what the target stands on above that surface
  bool operator==(const Zone&) const = default;
};
struct Mounting {
  MountingId id;
  std::string title, on;                 // "ceiling", "wall", "pole", "beam", "column"
  StoreyId storey;
  std::vector<Vec2> path;                // site coordinates
  Range heights_m{0, 0};                 // of the fixing point above the storey's floor
  std::vector<Range> excluded;           // stretches of the path, m from its start
  std::optional<double> width_m;         // of the pole, column or beam, as the wind meets it
  bool operator==(const Mounting&) const = default;
};
struct Containment {
  ContainmentId id;
  std::string title;
  StoreyId storey;
  std::vector<Vec3> path;
  bool operator==(const Containment&) const = default;
};
struct Pin {
  Vec2 picture;                          // in the file's own units
  Vec2 site_m;
  bool operator==(const Pin&) const = default;
};
struct Underlay {
  UnderlayId id;
  Attachment file;
  StoreyId storey;
  int page = 1;
  std::vector<Pin> pins;
  bool operator==(const Underlay&) const = default;
};
struct Site {
  std::optional<Place> place;
  std::vector<Building> buildings;
  std::vector<Solid> solids;
  std::optional<Terrain> terrain;
  std::vector<Material> materials;
  std::vector<Light> lights;
  double mains_hz = 50;                 // on which lights burn: they pulse at twice that
  std::vector<Zone> zones;
  std::vector<Mounting> mounting;
  std::vector<Containment> containment;
  std::vector<Underlay> underlays;
  bool operator==(const Site&) const = default;
};

}  // namespace belvedere::design
