// SPDX-License-Identifier: GPL-3.0-or-later
//
// Source of the layout: glTF 2.0 (ISO/IEC 12113:2022).
#include <fmt/format.h>

#include <array>
#include <cstring>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>

#include "scene/mesh.h"

namespace belvedere::scene {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kMostNodes = 200'000;  // visited, instances counted
constexpr std::size_t kDeepest = 64;

// A whole number from 0, as glTF gives offsets and indices.
std::size_t whole(const Json& object, const char* key, std::optional<std::size_t> otherwise = {}) {
  const auto at = object.find(key);
  if (at == object.end()) {
    if (otherwise) return *otherwise;
    throw MeshError(fmt::format("\"{}\" is missing", key));
  }
  if (!at->is_number_integer() || at->get<double>() < 0 || at->get<double>() > 1e15)
    throw MeshError(fmt::format("\"{}\" is not a whole number", key));
  return at->get<std::size_t>();
}

const Json& element(const Json& root, const char* list, std::size_t index) {
  const auto at = root.find(list);
  if (at == root.end() || !at->is_array() || index >= at->size() || !(*at)[index].is_object())
    throw MeshError(fmt::format("there is no entry {} in \"{}\"", index, list));
  return (*at)[index];
}

std::string fromBase64(std::string_view text) {
  std::string out;
  out.reserve(text.size() / 4 * 3);
  std::uint32_t bits = 0;
  int have = 0;
  for (const char c : text) {
    std::uint32_t value = 0;
    if (c >= 'A' && c <= 'Z') value = static_cast<std::uint32_t>(c - 'A');
    else if (c >= 'a' && c <= 'z') value = static_cast<std::uint32_t>(c - 'a' + 26);
    else if (c >= '0' && c <= '9') value = static_cast<std::uint32_t>(c - '0' + 52);
    else if (c == '+' || c == '/') value = c == '+' ? 62 : 63;
    else if (c == '=') break;
    else throw MeshError("a buffer's base64 text is broken");
    bits = (bits << 6) | value;
    have += 6;
    if (have >= 8) {
      have -= 8;
      out.push_back(static_cast<char>((bits >> have) & 0xff));
    }
  }
  return out;
}

// Row-major 3 x 4: child's coordinates to parent's.
struct Placement {
  std::array<double, 12> m{1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0};
  Vec3 operator*(Vec3 p) const {
    return {m[0] * p.x + m[1] * p.y + m[2] * p.z + m[3],
            m[4] * p.x + m[5] * p.y + m[6] * p.z + m[7],
            m[8] * p.x + m[9] * p.y + m[10] * p.z + m[11]};
  }
  Placement operator*(const Placement& b) const {
    Placement r;
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 4; ++j) {
        double sum = j == 3 ? m[4 * i + 3] : 0;
        for (std::size_t k = 0; k < 3; ++k) sum += m[4 * i + k] * b.m[4 * k + j];
        r.m[4 * i + j] = sum;
      }
    return r;
  }
};

template <std::size_t n>
std::array<double, n> numbers(const Json& node, const char* key, std::array<double, n> otherwise) {
  const auto at = node.find(key);
  if (at == node.end()) return otherwise;
  if (!at->is_array() || at->size() != n)
    throw MeshError(fmt::format("a node's \"{}\" is not a list of {} numbers", key, n));
  for (std::size_t i = 0; i < n; ++i) {
    if (!(*at)[i].is_number()) throw MeshError(fmt::format("a node's \"{}\" is not numbers", key));
    otherwise[i] = (*at)[i].get<double>();
  }
  return otherwise;
}

Placement placementOf(const Json& node) {
  Placement p;
  if (node.contains("matrix")) {  // column-major 4 x 4
    const auto c = numbers<16>(node, "matrix", {});
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 4; ++j) p.m[4 * i + j] = c[4 * j + i];
    return p;
  }
  const auto t = numbers<3>(node, "translation", {0, 0, 0});
  const auto [x, y, z, w] = numbers<4>(node, "rotation", {0, 0, 0, 1});
  const auto s = numbers<3>(node, "scale", {1, 1, 1});
  const std::array<double, 9> r{1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w),
                                2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w),
                                2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) p.m[4 * i + j] = r[3 * i + j] * s[j];
    p.m[4 * i + 3] = t[i];
  }
  return p;
}

class Reader {
 public:
  Reader(std::string_view bytes, const std::filesystem::path& folder) : folder_(folder) {
    std::string_view text = bytes;
    if (bytes.starts_with("glTF")) text = unpack(bytes);
    root_ = Json::parse(text.begin(), text.end(), nullptr, false);
    if (!root_.is_object()) throw MeshError("it is not JSON as glTF 2.0 writes it");
    for (const Json& extension : root_.value("extensionsRequired", Json::array())) {
      const std::string name = extension.is_string() ? extension.get<std::string>() : "";
      if (!name.starts_with("KHR_materials_") && !name.starts_with("KHR_texture_") &&
          !name.starts_with("KHR_lights_"))
        throw MeshError(fmt::format("it needs the extension \"{}\"", name.substr(0, 60)));
    }
  }

  Mesh read() {
    std::vector<std::size_t> roots;
    const auto scenes = root_.find("scenes");
    if (scenes != root_.end()) {
      addIndices(element(root_, "scenes", whole(root_, "scene", 0)), "nodes", roots);
    } else {
      const std::size_t n = root_.contains("nodes") ? root_["nodes"].size() : 0;
      std::vector<bool> child(n, false);
      for (std::size_t i = 0; i < n; ++i) {
        std::vector<std::size_t> below;
        addIndices(element(root_, "nodes", i), "children", below);
        for (const std::size_t b : below)
          if (b < n) child[b] = true;
      }
      for (std::size_t i = 0; i < n; ++i)
        if (!child[i]) roots.push_back(i);
    }
    struct Visit {
      std::size_t node, depth;
      Placement placement;
    };
    std::vector<Visit> stack;
    for (auto r = roots.rbegin(); r != roots.rend(); ++r) stack.push_back({*r, 0, {}});
    std::size_t visited = 0;
    while (!stack.empty()) {
      const Visit visit = stack.back();
      stack.pop_back();
      if (++visited > kMostNodes || stack.size() > kMostNodes)
        throw MeshError("it has too many nodes");
      if (visit.depth > kDeepest) throw MeshError("its nodes are nested too deeply, or in a ring");
      const Json& node = element(root_, "nodes", visit.node);
      const Placement placement = visit.placement * placementOf(node);
      if (node.contains("mesh")) addMeshOf(whole(node, "mesh"), placement);
      std::vector<std::size_t> below;
      addIndices(node, "children", below);
      for (auto b = below.rbegin(); b != below.rend(); ++b)
        stack.push_back({*b, visit.depth + 1, placement});
    }
    if (mesh_.triangles.empty()) throw MeshError("it has no triangles");
    for (Vec3& p : mesh_.points) p = {p.x, -p.z, p.y};  // y up to z up
    return std::move(mesh_);
  }

 private:
  static std::uint32_t wordAt(std::string_view bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 4; i-- > 0;)
      value = (value << 8) | static_cast<unsigned char>(bytes[at + i]);
    return value;
  }

  std::string_view unpack(std::string_view bytes) {
    constexpr std::uint32_t kJsonChunk = 0x4E4F534A, kBinaryChunk = 0x004E4942;
    if (bytes.size() < 20 || wordAt(bytes, 4) != 2) throw MeshError("it is not binary glTF 2.0");
    std::string_view text;
    for (std::size_t at = 12; at + 8 <= bytes.size();) {
      const std::size_t size = wordAt(bytes, at);
      const std::uint32_t kind = wordAt(bytes, at + 4);
      if (size > bytes.size() - at - 8) throw MeshError("it ends in the middle of a chunk");
      const std::string_view chunk = bytes.substr(at + 8, size);
      if (kind == kJsonChunk && text.empty()) text = chunk;
      if (kind == kBinaryChunk && binary_.empty()) binary_ = std::string(chunk);
      at += 8 + size;
    }
    return text;
  }

  static void addIndices(const Json& object, const char* key, std::vector<std::size_t>& out) {
    const auto at = object.find(key);
    if (at == object.end()) return;
    if (!at->is_array()) throw MeshError(fmt::format("\"{}\" is not a list", key));
    for (const Json& index : *at) {
      if (!index.is_number_unsigned()) throw MeshError(fmt::format("\"{}\" is not indices", key));
      out.push_back(index.get<std::size_t>());
    }
  }

  const std::string& buffer(std::size_t index) {
    if (const auto known = buffers_.find(index); known != buffers_.end()) return known->second;
    const Json& entry = element(root_, "buffers", index);
    std::string bytes;
    const auto uri = entry.find("uri");
    if (uri == entry.end()) {
      bytes = binary_;
    } else {
      if (!uri->is_string()) throw MeshError("a buffer's \"uri\" is not a text");
      const std::string text = uri->get<std::string>();
      if (text.starts_with("data:")) {
        const std::size_t comma = text.find(";base64,");
        if (comma == std::string::npos) throw MeshError("a buffer is not in base64");
        bytes = fromBase64(std::string_view(text).substr(comma + 8));
      } else {
        bytes = fileBeside(text);
      }
    }
    return buffers_.emplace(index, std::move(bytes)).first->second;
  }

  std::string fileBeside(const std::string& name) const {
    // A plain name in the same folder: no way up, no way elsewhere.
    if (name.empty() || name.find_first_of("/\\:%") != std::string::npos || name == "..")
      throw MeshError("a buffer lies elsewhere than beside the file");
    const std::filesystem::path path = folder_ / name;
    std::error_code error;
    if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(path, error)))
      throw MeshError("a buffer's file is not beside it");
    const auto size = std::filesystem::file_size(path, error);
    if (error || size > kMostFileBytes) throw MeshError("a buffer's file is too large");
    std::string bytes(size, '\0');
    std::ifstream in(path, std::ios::binary);
    if (!in.read(bytes.data(), static_cast<std::streamsize>(size)))
      throw MeshError("a buffer's file cannot be read");
    return bytes;
  }

  // Calls take(bytes of one element) for each element of an accessor.
  template <class Take>
  void eachElement(const Json& accessor, std::size_t element_bytes, const Take& take) {
    if (accessor.contains("sparse")) throw MeshError("it has sparse data");
    const std::size_t count = whole(accessor, "count");
    const Json& view = element(root_, "bufferViews", whole(accessor, "bufferView"));
    const std::string& bytes = buffer(whole(view, "buffer"));
    const std::size_t stride = whole(view, "byteStride", element_bytes);
    const std::size_t view_at = whole(view, "byteOffset", 0);
    const std::size_t view_end = view_at + whole(view, "byteLength");
    const std::size_t from = view_at + whole(accessor, "byteOffset", 0);
    if (count == 0) return;
    if (stride < element_bytes || stride > 4096 || view_end > bytes.size() ||
        count > kMostPoints || from + (count - 1) * stride + element_bytes > view_end)
      throw MeshError("an accessor reaches past its buffer");
    for (std::size_t i = 0; i < count; ++i) take(bytes.data() + from + i * stride);
  }

  void addMeshOf(std::size_t index, const Placement& placement) {
    const Json& mesh = element(root_, "meshes", index);
    const auto primitives = mesh.find("primitives");
    if (primitives == mesh.end() || !primitives->is_array())
      throw MeshError("a mesh has no primitives");
    for (const Json& primitive : *primitives) {
      if (!primitive.is_object()) throw MeshError("a mesh has no primitives");
      const std::size_t mode = whole(primitive, "mode", 4);
      if (mode < 4) continue;  // points and lines hide nothing
      if (mode > 6) throw MeshError("a primitive has an unknown mode");
      const auto attributes = primitive.find("attributes");
      if (attributes == primitive.end() || !attributes->is_object()) continue;
      if (!attributes->contains("POSITION")) continue;
      addPrimitive(primitive, whole(*attributes, "POSITION"), mode, placement);
    }
  }

  void addPrimitive(const Json& primitive, std::size_t positions, std::size_t mode,
                    const Placement& placement) {
    constexpr std::size_t kFloat = 5126, kByte = 5121, kShort = 5123, kInt = 5125;
    const Json& accessor = element(root_, "accessors", positions);
    if (whole(accessor, "componentType") != kFloat || accessor.value("type", "") != "VEC3")
      throw MeshError("points are not three floats each");
    const std::size_t first = mesh_.points.size();
    eachElement(accessor, 12, [&](const char* at) {
      float xyz[3];
      std::memcpy(xyz, at, sizeof xyz);
      mesh_.points.push_back(placement * Vec3{xyz[0], xyz[1], xyz[2]});
    });
    if (mesh_.points.size() > kMostPoints) throw MeshError("it has too many points");
    const std::size_t count = mesh_.points.size() - first;
    std::vector<std::size_t> order;
    if (primitive.contains("indices")) {
      const Json& indices = element(root_, "accessors", whole(primitive, "indices"));
      const std::size_t type = whole(indices, "componentType");
      const std::size_t size = type == kByte ? 1 : type == kShort ? 2 : type == kInt ? 4 : 0;
      if (size == 0) throw MeshError("indices are not whole numbers");
      eachElement(indices, size, [&](const char* at) {
        std::size_t value = 0;
        for (std::size_t b = size; b-- > 0;)
          value = (value << 8) | static_cast<unsigned char>(at[b]);
        if (value >= count) throw MeshError("a triangle names a point that is not there");
        order.push_back(value);
      });
    } else {
      for (std::size_t i = 0; i < count; ++i) order.push_back(i);
    }
    const std::size_t step = mode == 4 ? 3 : 1;
    for (std::size_t i = 0; i + 2 < order.size(); i += step) {
      const std::size_t a = mode == 6 ? order[0] : order[i];
      mesh_.triangles.push_back({static_cast<std::uint32_t>(first + a),
                                 static_cast<std::uint32_t>(first + order[i + 1]),
                                 static_cast<std::uint32_t>(first + order[i + 2])});
    }
    if (mesh_.triangles.size() > kMostTriangles) throw MeshError("it has too many triangles");
  }

  const std::filesystem::path& folder_;
  Json root_;
  std::string binary_;
  std::map<std::size_t, std::string> buffers_;
  Mesh mesh_;
};

}  // namespace

Mesh readGltf(std::string_view bytes, const std::filesystem::path& folder) {
  try {
    return Reader(bytes, folder).read();
  } catch (const Json::exception&) {
    throw MeshError("its JSON is not as glTF 2.0 writes it");
  }
}

}  // namespace belvedere::scene
