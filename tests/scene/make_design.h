// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small designs for the scene's tests.
#pragma once

#include <filesystem>
#include <fstream>
#include <string>

#include "scene/scene.h"
#include "scene/sightline.h"

namespace belvedere::scene {

// One storey, floor at z = 0, 3 m high, slab 0.2 m, in a building at the site's origin.
inline design::Design oneStorey(const Ring& outline) {
  design::Storey storey;
  storey.id.text = "S0";
  storey.outline = outline;
  design::Building building;
  building.id.text = "B";
  building.storeys = {storey};
  design::Design design;
  design.site.buildings = {building};
  return design;
}
inline design::Storey& storey(design::Design& design) {
  return design.site.buildings[0].storeys[0];
}

inline design::Wall wall(const std::string& id, const Ring& path, double thickness_m = 0.2) {
  design::Wall made;
  made.id.text = id;
  made.path = path;
  made.thickness_m = thickness_m;
  return made;
}

inline design::Opening opening(const std::string& id, double from_m, double width_m, double sill_m,
                               double head_m, const std::string& material = {}) {
  design::Opening made;
  made.id.text = id;
  made.from_m = from_m;
  made.width_m = width_m;
  made.sill_m = sill_m;
  made.head_m = head_m;
  made.material.text = material;
  return made;
}

inline design::Solid box(const std::string& id, const Ring& outline, double base_m, double top_m) {
  design::Solid made;
  made.id.text = id;
  made.outline = outline;
  made.base_m = base_m;
  made.top_m = top_m;
  return made;
}

inline Ring rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline Scene build(const design::Design& design, const design::Situation& situation = {},
                   const std::filesystem::path& folder = {}) {
  return buildScene(design, situation, folder);
}

// A scene with its tree: does b show from a?
struct Seeing {
  Scene scene;
  BodyTree tree = buildTree(scene);
  bool sees(const Vec3& a, const Vec3& b) const {
    return !blockerOf(scene, tree, a, b, Blocking::see);
  }
};

// A folder of its own for a test's files, gone afterwards.
struct Folder {
  std::filesystem::path path;
  explicit Folder(const std::string& name)
      : path(std::filesystem::temp_directory_path() / ("belvedere_" + name)) {
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path / name, std::ios::binary) << bytes;
  }
};

}  // namespace belvedere::scene
