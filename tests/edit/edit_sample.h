// SPDX-License-Identifier: GPL-3.0-or-later
//
// Designs for the tests of editing: a made-up house, and every example of the repository.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "design/read.h"
#include "design/write.h"
#include "edit/object.h"

namespace belvedere::edit {

inline const std::filesystem::path kRoot = BELVEDERE_SOURCE_DIR;

// Every design of examples/ and the one that has every key.
inline std::vector<std::filesystem::path> allDesigns() {
  std::vector<std::filesystem::path> paths{kRoot / "tests/design/data/whole.json"};
  for (const auto& entry : std::filesystem::recursive_directory_iterator(kRoot / "examples"))
    if (entry.path().extension() == ".json" && entry.path().filename() != "quillmere.json")
      paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

// Throws InputError where the design could not be read back.
inline void readBack(const design::Design& design, const std::filesystem::path& folder) {
  const design::DesignFile file{design, nullptr, {}, {}};
  const design::Design read = design::readDesignText(design::writeDesign(file), folder).design;
  if (!(read == design)) throw std::runtime_error("what was read is not what was written");
}

// A hall of 20 by 10 m turned by a quarter and set at (100, 50): its corners lie at (100, 50),
// (110, 50), (110, 30) and (100, 30) on the site. A wall with a door, a counter with a zone on it,
// a zone of the floor with a requirement, a beam with a two-headed camera.
inline const std::string kHall = R"({
  "format": "belvedere.design", "version": 1,
  "site": {
    "buildings": [{"id": "B1", "origin_m": [100, 50], "turn_deg": 90, "storeys": [{
      "id": "F1", "floor_m": 1, "height_m": 4, "outline": [[0, 0], [20, 0], [20, 10], [0, 10]],
      "walls": [
        {"id": "W1", "path": [[2, 0], [2, 10]], "thickness_m": 0.2, "openings": [
          {"id": "O1", "title": "Door", "from_m": 4, "width_m": 1, "head_m": 2.1}]},
        {"id": "W2", "path": [[0, 0], [20, 0], [20, 10]], "thickness_m": 0.3}]}]}],
    "solids": [
      {"id": "S1", "title": "Counter", "storey": "F1", "kind": "counter",
       "outline": [[104, 40], [106, 40], [106, 41], [104, 41]], "top_m": 1.1},
      {"id": "S2", "storey": "F1", "kind": "stock",
       "outline": [[103, 39], [107, 39], [107, 42], [103, 42]], "top_m": 0.5},
      {"id": "S3", "title": "Truck", "storey": "F1", "kind": "vehicle",
       "outline": [[101, 32], [103, 32], [103, 35], [101, 35]], "top_m": 2}],
    "zones": [
      {"id": "Z1", "title": "Floor", "storey": "F1",
       "outline": [[101, 43], [108, 43], [108, 46], [101, 46]]},
      {"id": "Z2", "title": "Till", "storey": "F1", "surface": "S1",
       "outline": [[104.5, 40.2], [105.5, 40.2], [105.5, 40.8], [104.5, 40.8]]}],
    "mounting": [{"id": "M1", "on": "beam", "storey": "F1", "path": [[100, 38], [110, 38]],
                  "heights_m": [3.5, 3.5]}]
  },
  "situations": [{"id": "day"}, {"id": "market", "present": ["S3"]}],
  "brief": [{"id": "R1", "zone": "Z1", "task": "observe", "facings": [{"bearing_deg": 10}]}],
  "catalogue": {"models": [
    {"id": "twin", "imagers": [
      {"slot": 1, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}, "offset_m": [0.5, 0, 0],
       "pan_deg": [-180, 180], "tilt_deg": [0, 90]},
      {"slot": 2, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}, "offset_m": [0.5, 0, 0],
       "pan_deg": [-180, 180], "tilt_deg": [0, 90]}],
     "lamps": [{"slot": 1}],
     "shared": [{"what": "ring", "rule": "apart_deg", "value": 60}]}]},
  "housings": [{"id": "C1", "model": "twin", "life": "existing", "storey": "F1",
    "mount": {"on": "M1", "fixing_m": [105, 38, 4.5], "base_bearing_deg": 30},
    "imagers": [
      {"slot": 1, "aims": [{"pan_deg": 0, "tilt_deg": 20, "roll_deg": 0}]},
      {"slot": 2, "aims": [{"pan_deg": 90, "tilt_deg": 20}]}],
    "streams": [{"id": "V1", "from": [1], "size_px": [960, 540]}]}]
})";
inline design::Design hall() { return design::readDesignText(kHall, {}).design; }

}  // namespace belvedere::edit
