// SPDX-License-Identifier: GPL-3.0-or-later
//
// The grid's format: "ESRI ASCII raster format", as its publisher's public help pages describe it.
#include <fmt/format.h>

#include <algorithm>

#include "scene/mesh.h"
#include "scene/text_scan.h"

namespace belvedere::scene {
namespace {

struct Header {
  std::optional<double> columns, rows, x, y, cell, no_data;
  bool x_is_centre = false, y_is_centre = false;
};

// Takes "word number" pairs off the text up to the first number that stands alone.
Header takeHeader(std::string_view& text) {
  Header header;
  for (;;) {
    std::string_view rest = text;
    std::string word(takeWord(rest));
    if (word.empty() || numberOf<double>(word)) return header;
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    std::optional<double>* value = nullptr;
    if (word == "ncols") value = &header.columns;
    else if (word == "nrows") value = &header.rows;
    else if (word == "xllcorner" || word == "xllcenter") value = &header.x;
    else if (word == "yllcorner" || word == "yllcenter") value = &header.y;
    else if (word == "cellsize") value = &header.cell;
    else if (word == "nodata_value") value = &header.no_data;
    if (!value || value->has_value())
      throw MeshError(fmt::format("its head has the line \"{}\"", word.substr(0, 40)));
    const auto number = numberOf<double>(takeWord(rest));
    if (!number) throw MeshError(fmt::format("its head gives no number for {}", word));
    *value = number;
    if (word == "xllcenter") header.x_is_centre = true;
    if (word == "yllcenter") header.y_is_centre = true;
    text = rest;
  }
}

std::size_t count(const std::optional<double>& value, const char* word) {
  if (!value || *value < 2 || *value > double(kMostTriangles) ||
      *value != static_cast<double>(static_cast<std::size_t>(*value)))
    throw MeshError(fmt::format("its head gives no usable {} (a whole number from 2)", word));
  return static_cast<std::size_t>(*value);
}

}  // namespace

Mesh readTerrain(std::string_view text, std::optional<double> cell_m) {
  const Header header = takeHeader(text);
  const std::size_t columns = count(header.columns, "ncols"), rows = count(header.rows, "nrows");
  if (columns > kMostTriangles / 2 / rows) throw MeshError("it has too many cells");
  const double cell = cell_m.value_or(header.cell.value_or(0));
  if (!(cell > 0) || !header.x || !header.y)
    throw MeshError("its head lacks cellsize, xllcorner or yllcorner");
  const double x0 = *header.x + (header.x_is_centre ? 0 : 0.5 * cell);
  const double y0 = *header.y + (header.y_is_centre ? 0 : 0.5 * cell);
  Mesh mesh;
  std::vector<bool> there(columns * rows, true);
  mesh.points.reserve(columns * rows);
  for (std::size_t r = 0; r < rows; ++r) {  // from the north
    for (std::size_t c = 0; c < columns; ++c) {
      const std::string_view word = takeWord(text);
      const auto height = numberOf<double>(word);
      if (!height)
        throw MeshError(word.empty()
                            ? fmt::format("it ends after {} of {} heights", r * columns + c,
                                          columns * rows)
                            : fmt::format("height {} of row {} is not a number", c + 1, r + 1));
      there[r * columns + c] = !header.no_data || *height != *header.no_data;
      mesh.points.push_back({x0 + cell * static_cast<double>(c),
                             y0 + cell * static_cast<double>(rows - 1 - r),
                             there[r * columns + c] ? *height : 0.0});
    }
  }
  for (std::size_t r = 0; r + 1 < rows; ++r)
    for (std::size_t c = 0; c + 1 < columns; ++c) {
      const auto nw = static_cast<std::uint32_t>(r * columns + c), ne = nw + 1;
      const auto sw = static_cast<std::uint32_t>(nw + columns), se = sw + 1;
      if (there[sw] && there[se] && there[nw]) mesh.triangles.push_back({sw, se, nw});
      if (there[se] && there[ne] && there[nw]) mesh.triangles.push_back({se, ne, nw});
    }
  if (mesh.triangles.empty()) throw MeshError("it has no cells with data");
  return mesh;
}

}  // namespace belvedere::scene
