// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small designs for the tests of services, put together in code.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"

// Models state what the test is about and leave the rest out.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace belvedere::services {

using namespace design;

inline Model housingModel(const std::string& id, int imagers = 1) {
  Model model;
  model.id = {id};
  model.kind = ModelKind::housing;
  for (int slot = 1; slot <= imagers; ++slot) {
    ModelImager imager;
    imager.slot = slot;
    imager.pixels = {2592, 1944};
    imager.lens.hfov_deg = {95};
    model.imagers.push_back(imager);
  }
  return model;
}

inline Housing housing(const std::string& id, const std::string& model, Vec3 at, int imagers = 1) {
  Housing h;
  h.id = {id};
  h.model = {model};
  h.mount.fixing_m = at;
  for (int slot = 1; slot <= imagers; ++slot) {
    HousingImager imager;
    imager.slot = slot;
    imager.aims.push_back({});
    h.imagers.push_back(imager);
  }
  return h;
}

inline Stream stream(const std::string& id, int slot, std::array<int, 2> size = {1920, 1080}) {
  Stream s;
  s.id = {id};
  s.from = {slot};
  s.size_px = size;
  s.frames_per_s = 10;
  s.codec = "H.265";
  s.use = {"recorded"};
  return s;
}

inline Model part(const std::string& id, ModelKind kind, const Capacity& capacity) {
  Model model;
  model.id = {id};
  model.kind = kind;
  model.capacity = capacity;
  return model;
}

inline Device device(const std::string& id, const std::string& model, std::optional<Vec3> at = {}) {
  Device d;
  d.id = {id};
  d.model = {model};
  d.at_m = at;
  return d;
}

inline Link link(const std::string& id, const std::string& from, const std::string& to,
                 const std::string& cable = {}) {
  Link l;
  l.id = {id};
  l.from = {from};
  l.to = {to};
  l.cable = {cable};
  return l;
}

// A hall of 20 by 10 m, 4 m high, walls all round, on the site's own axes.
inline Storey hall(const std::string& id = "g", double floor_m = 0) {
  Storey storey;
  storey.id = {id};
  storey.floor_m = floor_m;
  storey.height_m = 4;
  storey.outline = {{0, 0}, {20, 0}, {20, 10}, {0, 10}};
  Wall wall;
  wall.id = {id + "_wall"};
  wall.path = {{0, 0}, {20, 0}, {20, 10}, {0, 10}, {0, 0}};
  storey.walls.push_back(wall);
  return storey;
}

inline Design designWith(std::vector<Storey> storeys) {
  Design design;
  Building building;
  building.id = {"b"};
  building.storeys = std::move(storeys);
  design.site.buildings.push_back(building);
  return design;
}

}  // namespace belvedere::services
