// SPDX-License-Identifier: GPL-3.0-or-later
//
// Designs for the document's tests: tests/design/data/whole.json has every key of the format; the
// small one below is edited text by text.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "design/read.h"

namespace belvedere::design {

inline std::filesystem::path dataFolder() {
  return std::filesystem::path(BELVEDERE_SOURCE_DIR) / "tests/design/data";
}

inline std::string textOf(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

inline std::string wholeText() { return textOf(dataFolder() / "whole.json"); }

// `text` with `from`, which must stand in it once, replaced.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos)
    throw std::runtime_error("not once in the sample: " + from);
  return text.replace(at, from.size(), to);
}

// A room of 10 by 6 m, one wall with a door, one zone, one camera with a zoom lens.
inline const std::string kSmall = R"({
  "format": "belvedere.design",
  "version": 1,
  "title": "Small",
  "site": {
    "buildings": [
      {
        "id": "b",
        "storeys": [
          {
            "id": "g",
            "height_m": 3,
            "outline": [[0, 0], [10, 0], [10, 6], [0, 6]],
            "walls": [
              {
                "id": "w",
                "path": [[0, 0], [10, 0]],
                "openings": [{"id": "door", "from_m": 1, "width_m": 1, "head_m": 2.1}]
              }
            ]
          }
        ]
      }
    ],
    "solids": [
      {"id": "rack", "storey": "g", "outline": [[4, 3], [6, 3], [6, 4], [4, 4]], "top_m": 2}
    ],
    "zones": [{"id": "z", "storey": "g", "outline": [[1, 1], [3, 1], [3, 3], [1, 3]]}]
  },
  "brief": [{"id": "r", "zone": "z", "target": {"kind": "face"}, "task": "identify"}],
  "catalogue": {
    "models": [
      {
        "id": "cam",
        "imagers": [
          {
            "slot": 1,
            "pixels": [1920, 1080],
            "lens": {"focal_mm": [3, 9], "hfov_deg": [95, 31]},
            "pan_deg": [-90, 90],
            "tilt_deg": [0, 60]
          },
          {"slot": 2, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}, "pan_deg": [-90, 90]}
        ],
        "shared": [{"what": "ring", "rule": "apart_deg", "value": 30}]
      }
    ]
  },
  "housings": [
    {
      "id": "C1",
      "model": "cam",
      "mount": {"fixing_m": [5, 5, 2.8]},
      "imagers": [
        {"slot": 1, "aims": [{"pan_deg": 20, "tilt_deg": 25, "hfov_deg": 60}]},
        {"slot": 2, "aims": [{"pan_deg": -20, "tilt_deg": 0}]}
      ],
      "streams": [{"id": "v", "from": [1], "size_px": [960, 540]}]
    }
  ]
}
)";

}  // namespace belvedere::design
