// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/mesh.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <random>

#include "base/problem.h"
#include "make_design.h"

namespace belvedere::scene {
namespace {

// A box written out as OBJ text of six four-cornered faces, seen anticlockwise from outside.
std::string boxObj(Vec3 low, Vec3 high, int first = 1) {
  std::string text;
  for (const double z : {low.z, high.z})
    for (const Vec2 p : {Vec2{low.x, low.y}, Vec2{high.x, low.y}, Vec2{high.x, high.y},
                         Vec2{low.x, high.y}})
      text += fmt::format("v {} {} {}\n", p.x, p.y, z);
  const int faces[6][4] = {{3, 2, 1, 0}, {4, 5, 6, 7}, {0, 1, 5, 4},
                           {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}};
  for (const auto& f : faces)
    text += fmt::format("f {}//1 {}//1 {}//1 {}//1\n", first + f[0], first + f[1], first + f[2],
                        first + f[3]);
  return text;
}

Scene sceneOf(const Mesh& mesh) {
  Scene scene;
  scene.sources.resize(1);
  addMesh(scene, mesh, 0);
  return scene;
}

template <class T, class Less>
std::vector<T> ordered(std::vector<T> values, Less less) {
  std::sort(values.begin(), values.end(), less);
  return values;
}
std::vector<Vec3> orderedPoints(const Scene& scene) {
  return ordered(scene.vertices, [](const Vec3& a, const Vec3& b) {
    return std::tie(a.x, a.y, a.z) < std::tie(b.x, b.y, b.z);
  });
}
std::vector<Plane> orderedPlanes(const Scene& scene) {
  return ordered(scene.planes, [](const Plane& a, const Plane& b) {
    return std::tie(a.normal.x, a.normal.y, a.normal.z) <
           std::tie(b.normal.x, b.normal.y, b.normal.z);
  });
}

void expectBox(const Scene& scene, Vec3 low, Vec3 high) {
  Scene prism;
  prism.sources.resize(1);
  addPrism(prism, {{low.x, low.y}, {high.x, low.y}, {high.x, high.y}, {low.x, high.y}},
           std::vector<double>(4, low.z), std::vector<double>(4, high.z), 0);
  ASSERT_EQ(scene.bodies.size(), 1u);
  EXPECT_EQ(scene.bodies[0].plane_count, 6u);
  EXPECT_EQ(scene.bodies[0].edge_count, 12u);
  EXPECT_EQ(orderedPoints(scene), orderedPoints(prism));
  const auto planes = orderedPlanes(scene), wanted = orderedPlanes(prism);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(planes[i].normal, wanted[i].normal);
    EXPECT_EQ(planes[i].offset, wanted[i].offset);
  }
}

// Closed form: a written-out box is the same body as the prism over its outline.
TEST(ReadObj, MakesABoxTheSameBodyAsAPrism) {
  expectBox(sceneOf(readObj(boxObj({1, 2, 0.5}, {3, 5, 2}))), {1, 2, 0.5}, {3, 5, 2});
}

// Property: which way faces are turned, whether they are drawn twice, and whether they share their
// points makes no difference.
TEST(AddMesh, KnowsABoxHoweverItIsWritten) {
  const Mesh mesh = readObj(boxObj({0, 0, 0}, {2, 1, 1}));
  Mesh inward = mesh, mixed = mesh, twice = mesh, apart;
  for (auto& t : inward.triangles) std::swap(t[0], t[1]);
  for (std::size_t t = 0; t < mixed.triangles.size(); t += 3)
    std::swap(mixed.triangles[t][0], mixed.triangles[t][1]);
  for (const auto& t : mesh.triangles) twice.triangles.push_back({t[1], t[0], t[2]});
  for (const auto& t : mesh.triangles) {
    const auto n = static_cast<std::uint32_t>(apart.points.size());
    for (const auto p : t) apart.points.push_back(mesh.points[p]);
    apart.triangles.push_back({n, n + 1, n + 2});
  }
  for (const Mesh& m : {inward, mixed, twice, apart}) expectBox(sceneOf(m), {0, 0, 0}, {2, 1, 1});
}

// Closed form: parts that do not touch are bodies of their own; a box without a lid, an L and two
// boxes that share an edge are no convex bodies.
TEST(AddMesh, MakesABodyOfEachConvexPart) {
  const std::string two = boxObj({0, 0, 0}, {1, 1, 1}) + boxObj({2, 0, 0}, {3, 1, 1}, 9);
  EXPECT_EQ(sceneOf(readObj(two)).bodies.size(), 2u);
  Mesh open = readObj(boxObj({0, 0, 0}, {1, 1, 1}));
  open.triangles.pop_back();
  EXPECT_EQ(sceneOf(open).bodies.size(), 11u);
  const std::string el =
      "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\n"
      "v 0 0 1\nv 2 0 1\nv 2 1 1\nv 1 1 1\nv 1 2 1\nv 0 2 1\n"
      "f 6 5 4 3 2 1\nf 7 8 9 10 11 12\nf 1 2 8 7\nf 2 3 9 8\nf 3 4 10 9\nf 4 5 11 10\n"
      "f 5 6 12 11\nf 6 1 7 12\n";
  const Scene scene = sceneOf(readObj(el));
  EXPECT_EQ(scene.bodies.size(), 20u);
  EXPECT_TRUE(scene.bodies[0].triangle());
  // Its concave faces are cut inside their outline: 3 of 4 square metres.
  double top_m2 = 0;
  for (const Body& b : scene.bodies)
    if (b.box.low.z == 1) {
      const Vec3* v = &scene.vertices[b.first_vertex];
      top_m2 += 0.5 * norm(cross(v[1] - v[0], v[2] - v[0]));
    }
  EXPECT_NEAR(top_m2, 3, 1e-12);
}

// Closed form: a ball of 80 triangles (an icosahedron split once) is one body of 80 planes.
TEST(AddMesh, KeepsABallWhole) {
  Mesh mesh;
  constexpr double kGolden = 1.6180339887498949;
  const auto point = [&](Vec3 p) {
    mesh.points.push_back(normalized(p));
    return static_cast<std::uint32_t>(mesh.points.size() - 1);
  };
  const Vec3 ico[12] = {{-1, kGolden, 0}, {1, kGolden, 0},   {-1, -kGolden, 0}, {1, -kGolden, 0},
                        {0, -1, kGolden}, {0, 1, kGolden},   {0, -1, -kGolden}, {0, 1, -kGolden},
                        {kGolden, 0, -1}, {kGolden, 0, 1},   {-kGolden, 0, -1}, {-kGolden, 0, 1}};
  const int faces[20][3] = {{0, 11, 5}, {0, 5, 1},  {0, 1, 7},   {0, 7, 10}, {0, 10, 11},
                            {1, 5, 9},  {5, 11, 4}, {11, 10, 2}, {10, 7, 6}, {7, 1, 8},
                            {3, 9, 4},  {3, 4, 2},  {3, 2, 6},   {3, 6, 8},  {3, 8, 9},
                            {4, 9, 5},  {2, 4, 11}, {6, 2, 10},  {8, 6, 7},  {9, 8, 1}};
  for (const auto& f : faces) {
    const Vec3 a = ico[f[0]], b = ico[f[1]], c = ico[f[2]];
    const auto pa = point(a), pb = point(b), pc = point(c), ab = point(a + b), bc = point(b + c),
               ca = point(c + a);
    mesh.triangles.insert(mesh.triangles.end(),
                          {{pa, ab, ca}, {pb, bc, ab}, {pc, ca, bc}, {ab, bc, ca}});
  }
  const Scene scene = sceneOf(mesh);
  ASSERT_EQ(scene.bodies.size(), 1u);
  EXPECT_EQ(scene.bodies[0].plane_count, 80u);
  EXPECT_EQ(scene.bodies[0].vertex_count, 42u);
}

std::string le32(std::uint32_t v) {
  std::string s;
  for (int i = 0; i < 4; ++i) s.push_back(static_cast<char>((v >> (8 * i)) & 0xff));
  return s;
}

std::string base64(const std::string& bytes) {
  const char* digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t v = 0;
    for (std::size_t k = 0; k < 3; ++k)
      v = (v << 8) | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (int k = 3; k >= 0; --k) out.push_back(digits[(v >> (6 * k)) & 63]);
  }
  const std::size_t padding = (3 - bytes.size() % 3) % 3;
  out.replace(out.size() - padding, padding, padding, '=');
  return out;
}

// A box of y-up points (low to high) in a buffer of floats and short indices, under a node that
// moves it by `shift` and doubles it.
struct GltfBox {
  std::string buffer, json;
  explicit GltfBox(const std::string& uri_member, const std::string& node = "") {
    const Mesh mesh = readObj(boxObj({0, 0, 0}, {1, 2, 3}));
    for (const Vec3& p : mesh.points)
      for (const double v : {p.x, p.y, p.z}) {
        const auto f = static_cast<float>(v);
        std::uint32_t bits;
        std::memcpy(&bits, &f, 4);
        buffer += le32(bits);
      }
    for (const auto& t : mesh.triangles)
      for (const auto i : t) buffer += le32(i).substr(0, 2);
    std::string uri = uri_member;
    if (uri == "data")
      uri = "\"uri\": \"data:application/octet-stream;base64," + base64(buffer) + "\", ";
    json = R"({"asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],)"
           R"("nodes": [{"children": [1], "scale": [2, 2, 2]}, {"mesh": 0)" + node + "}],"
           R"("meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],)"
           R"("accessors": [{"bufferView": 0, "componentType": 5126, "count": 8, "type": "VEC3"},)"
           R"({"bufferView": 1, "componentType": 5123, "count": 36, "type": "SCALAR"}],)"
           R"("bufferViews": [{"buffer": 0, "byteLength": 96},)"
           R"({"buffer": 0, "byteOffset": 96, "byteLength": 72}],)"
           R"("buffers": [{)" + uri + R"("byteLength": 168}]})";
  }
};

// Closed form: a y-up box of 1 x 2 x 3, moved by (10, 0, 0) and doubled, is z up 2 x 6 x 4: depth
// -z becomes +y. From text with data inside, text with a file beside it, and binary.
TEST(ReadGltf, TurnsYUpToZUp) {
  const std::string move = R"(, "translation": [10, 0, 0])";
  const GltfBox inside("data", move), beside(R"("uri": "b.bin", )", move), binary("", move);
  const Folder folder("gltf");
  folder.write("b.bin", beside.buffer);
  std::string text = binary.json;
  while (text.size() % 4) text += ' ';
  const std::size_t size = 28 + text.size() + binary.buffer.size();
  const std::string glb = "glTF" + le32(2) + le32(static_cast<std::uint32_t>(size)) +
                          le32(static_cast<std::uint32_t>(text.size())) + le32(0x4E4F534A) + text +
                          le32(static_cast<std::uint32_t>(binary.buffer.size())) +
                          le32(0x004E4942) + binary.buffer;
  for (const std::string& bytes : {inside.json, beside.json, glb})
    expectBox(sceneOf(readGltf(bytes, folder.path)), {20, -6, 0}, {22, 0, 4});
}

// Closed form: a quarter turn about y takes x to -z, which is +y here; a matrix does the same.
TEST(ReadGltf, FollowsRotationsAndMatrices) {
  const double h = std::sqrt(0.5);
  const GltfBox turned("data", fmt::format(R"(, "rotation": [0, {}, 0, {}])", h, h));
  const GltfBox matrix("data", R"(, "matrix": [0,0,-1,0, 0,1,0,0, 1,0,0,0, 0,0,0,1])");
  for (const GltfBox* box : {&turned, &matrix}) {
    Box3 bounds;
    for (const Vec3& p : readGltf(box->json, {}).points) bounds.add(p);
    EXPECT_NEAR(bounds.low.x, 0, 1e-9);
    EXPECT_NEAR(bounds.high.x, 6, 1e-9);
    EXPECT_NEAR(bounds.low.y, 0, 1e-9);
    EXPECT_NEAR(bounds.high.y, 2, 1e-9);
    EXPECT_NEAR(bounds.high.z, 4, 1e-9);
  }
}

// Property: whatever cannot be used is refused with a sentence, before it costs memory.
TEST(Readers, RefuseWhatCannotBeUsed) {
  for (const char* text :
       {"", "v 0 0 0\n", "f 1 2 3\n", "v 0 0\nf 1 1 1\n", "v 0 0 nan\nf 1 1 1\n",
        "v 0 0 1e999\nf 1 1 1\n", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n",
        "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 -4\n", "v 0 0 0\nv 1 0 0\nf 1 2\n",
        "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 99999999999999999999\n"})
    EXPECT_THROW(checkMesh(readObj(text)), MeshError) << text;
  EXPECT_THROW(checkMesh(readObj("v 1e9 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n")), MeshError);
  for (const char* text :
       {"", "ncols 3\nnrows 2\n", "ncols 1\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 1",
        "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 1 1",
        "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 0\n1 1 1 1",
        "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 1 x 1",
        "ncols 2\nncols 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 1 1 1",
        "ncols 4000000000\nnrows 4000000000\nxllcorner 0\nyllcorner 0\ncellsize 1\n1",
        "ncols 2.5\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 1 1 1",
        "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value 1\n1 1 1 1"})
    EXPECT_THROW(readTerrain(text), MeshError) << text;
  const GltfBox good("data");
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good.json;
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  };
  for (const std::string& text :
       {std::string(), std::string("glTF"), std::string("[1, 2"),
        with("\"count\": 8", "\"count\": 9"),
        with("\"count\": 36", "\"count\": 1e18"), with("\"count\": 8", "\"count\": -8"),
        with("\"byteLength\": 96", "\"byteLength\": 96000"),
        with("\"byteOffset\": 96", "\"byteOffset\": 9007199254740991"),
        with("\"children\": [1]", "\"children\": [0]"),
        with("\"children\": [1]", "\"children\": [7]"),
        with("\"children\": [1]", "\"children\": 1"),
        with("\"children\": [1]", "\"mesh\": 9"),
        with("\"POSITION\": 0", "\"POSITION\": 1"),
        with("\"buffer\": 0", "\"buffer\": 3"),
        with("data:application", "../../etc/passwd:"),
        with("\"scene\": 0", "\"extensionsRequired\": [\"KHR_draco_mesh_compression\"]")})
    EXPECT_THROW(readGltf(text, "/nowhere"), MeshError) << text.substr(0, 300);
}

// Property: files damaged at random places are read or refused, nothing else.
TEST(Readers, SurviveRandomDamage) {
  std::mt19937 random(17);
  const std::string terrain =
      "ncols 3\nnrows 3\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value -9\n"
      "1 2 3 4 5 6 -9 8 9\n";
  const std::string originals[3] = {boxObj({0, 0, 0}, {1, 1, 1}), GltfBox("data").json, terrain};
  const std::string pool = "0123456789-+.eE \n\t/{}[]\",:nvf";
  for (int round = 0; round < 6000; ++round) {
    std::string bytes = originals[round % 3];
    const int changes = 1 + static_cast<int>(random() % 4);
    for (int c = 0; c < changes; ++c) {
      const std::size_t at = random() % bytes.size();
      switch (random() % 4) {
        case 0: bytes[at] = pool[random() % pool.size()]; break;
        case 1: bytes.erase(at, 1 + random() % 9); break;
        case 2: bytes.insert(at, bytes.substr(random() % bytes.size(), random() % 12)); break;
        default: bytes[at] = static_cast<char>(random());
      }
      if (bytes.empty()) bytes = " ";
    }
    try {
      Mesh mesh = round % 3 == 0   ? readObj(bytes)
                  : round % 3 == 1 ? readGltf(bytes, "/nowhere")
                                   : readTerrain(bytes);
      checkMesh(mesh);
      sceneOf(mesh);
    } catch (const MeshError&) {
    }
  }
}

// Closed form: a flat grid of 3 x 2 cells with a hill in the middle of the north row, at the
// centres of cells of 10 m; a cell without data leaves its corners' triangles out.
TEST(ReadTerrain, PutsHeightsAtCellCentres) {
  const Mesh mesh = readTerrain(
      "NCOLS 3\nNROWS 2\nXLLCORNER 100\nYLLCORNER 200\nCELLSIZE 10\n1 5 1\n1 1 1\n");
  ASSERT_EQ(mesh.points.size(), 6u);
  EXPECT_EQ(mesh.points[1], (Vec3{115, 215, 5}));
  EXPECT_EQ(mesh.points[5], (Vec3{125, 205, 1}));
  EXPECT_EQ(mesh.triangles.size(), 4u);
  const Mesh holed = readTerrain(
      "ncols 3\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 10\nnodata_value -1\n-1 5 1\n1 1 1\n");
  EXPECT_EQ(holed.points[1], (Vec3{10, 10, 5}));
  EXPECT_EQ(holed.triangles.size(), 2u);
  EXPECT_EQ(readTerrain("ncols 2\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 10\n1 1 1 1", 5.0)
                .points[1],
            (Vec3{5, 5, 1}));
}

design::Design withMesh(const std::string& file) {
  design::Design design;
  design::Solid solid;
  solid.id.text = "M";
  solid.file = design::Attachment{file, ""};
  design.site.solids = {solid};
  return design;
}

// Closed form: the file's origin goes to place_m, turned clockwise by turn_deg (x to -y).
TEST(BuildScene, PlacesMeshes) {
  const Folder folder("mesh");
  folder.write("box.obj", boxObj({0, 0, 0}, {2, 1, 3}));
  design::Design design = withMesh("box.obj");
  design.site.solids[0].place_m = Vec3{10, 20, 1};
  design.site.solids[0].turn_deg = 90;
  const Scene scene = build(design, {}, folder.path);
  ASSERT_EQ(scene.bodies.size(), 1u);
  EXPECT_NEAR(scene.bodies[0].box.low.x, 10, 1e-12);
  EXPECT_NEAR(scene.bodies[0].box.high.x, 11, 1e-12);
  EXPECT_NEAR(scene.bodies[0].box.low.y, 18, 1e-12);
  EXPECT_NEAR(scene.bodies[0].box.high.y, 20, 1e-12);
  EXPECT_NEAR(scene.bodies[0].box.low.z, 1, 1e-12);
}

// Property: all unusable files are told at once, each with its place in the design.
TEST(BuildScene, TellsAllUnusableFilesAtOnce) {
  const Folder folder("bad_mesh");
  folder.write("bad.obj", "f 1 2 3\n");
  folder.write("bad.step", "whatever");
  folder.write("bad.asc", "ncols 2\n");
  design::Design design = withMesh("bad.obj");
  design.site.solids.push_back(design.site.solids[0]);
  design.site.solids.push_back(design.site.solids[0]);
  design.site.solids[1].file->path = "bad.step";
  design.site.solids[2].file->path = "missing.obj";
  design.site.terrain = design::Terrain{{"T"}, {"bad.asc", ""}, {}, {}};
  try {
    build(design, {}, folder.path);
    FAIL() << "no error";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 4u);
    EXPECT_EQ(error.problems()[0].where, "/site/solids/0/file/path");
    EXPECT_EQ(error.problems()[0].code, "mesh_unusable");
    EXPECT_EQ(error.problems()[1].where, "/site/solids/1/file/path");
    EXPECT_EQ(error.problems()[2].where, "/site/solids/2/file/path");
    EXPECT_EQ(error.problems()[3].code, "terrain_unusable");
  }
}

// Closed form: behind a ridge 5 m high, 30 m off, a lens at 2 m over flat ground sees above
// 2 + 3/30 per metre: at 60 m what is higher than 8 m.
TEST(BuildScene, HidesBehindTerrain) {
  const Folder folder("terrain");
  std::string text = "ncols 7\nnrows 3\nxllcenter 0\nyllcenter 0\ncellsize 10\n";
  for (int r = 0; r < 3; ++r) text += "0 0 0 5 0 0 0\n";
  folder.write("ridge.asc", text);
  design::Design design;
  design.site.terrain = design::Terrain{{"T"}, {"ridge.asc", ""}, {}, {}};
  const Seeing seeing{build(design, {}, folder.path)};
  for (const double y : {10.0, 7.3, 13.9}) {  // along a grid line and off it
    EXPECT_FALSE(seeing.sees({0, y, 2}, {60, y, 7.99}));
    EXPECT_TRUE(seeing.sees({0, y, 2}, {60, y, 8.01}));
  }
  EXPECT_FALSE(seeing.sees({10, 10, 2}, {10, 10, -1}));  // straight down through a grid point
}

// Closed form: where the site has a reference system, the grid's origin is taken off and the grid
// turned to the drawing's north.
TEST(BuildScene, BringsTerrainToTheSite) {
  const Folder folder("terrain_place");
  folder.write("t.asc", "ncols 2\nnrows 2\nxllcenter 500000\nyllcenter 5000000\ncellsize 10\n"
                        "120 120 120 120\n");
  design::Design design;
  design.site.terrain = design::Terrain{{"T"}, {"t.asc", ""}, {}, {}};
  design::Place place;
  place.crs = "EPSG:25832";
  place.origin_m = {500000, 5000000, 100};
  place.north_deg = 90;
  design.site.place = place;
  Box3 box;
  for (const Body& body : build(design, {}, folder.path).bodies) box.add(body.box);
  EXPECT_NEAR(box.low.x, 0, 1e-9);
  EXPECT_NEAR(box.high.x, 10, 1e-9);
  EXPECT_NEAR(box.low.y, -10, 1e-9);
  EXPECT_NEAR(box.high.y, 0, 1e-9);
  EXPECT_NEAR(box.high.z, 20, 1e-9);
}

// Bound: a million triangles become bodies in a few seconds (seen: 1.5 to 2.7; the bound
// leaves room for sanitizers and neighbours), as one open sheet and as boxes.
TEST(AddMesh, TakesTimeInProportionToTheTriangles) {
  Mesh sheet, boxes;
  constexpr std::uint32_t kSide = 708;
  for (std::uint32_t r = 0; r < kSide; ++r)
    for (std::uint32_t c = 0; c < kSide; ++c) {
      sheet.points.push_back({double(c), double(r), double((r * 7 + c * 13) % 5)});
      if (r + 1 == kSide || c + 1 == kSide) continue;
      const std::uint32_t p = r * kSide + c;
      sheet.triangles.push_back({p, p + 1, p + kSide});
      sheet.triangles.push_back({p + 1, p + kSide + 1, p + kSide});
    }
  const Mesh box = readObj(boxObj({0, 0, 0}, {0.5, 0.5, 0.5}));
  for (std::uint32_t i = 0; i < 83334; ++i) {
    const auto first = static_cast<std::uint32_t>(boxes.points.size());
    const Vec3 place{double(i % 300), double(i / 300), 0};
    for (const Vec3& p : box.points) boxes.points.push_back(p + place);
    for (const auto& t : box.triangles)
      boxes.triangles.push_back({first + t[0], first + t[1], first + t[2]});
  }
  for (const Mesh* mesh : {&sheet, &boxes}) {
    const auto start = std::chrono::steady_clock::now();
    const Scene scene = sceneOf(*mesh);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    EXPECT_EQ(scene.bodies.size(), mesh == &sheet ? sheet.triangles.size() : 83334u);
    EXPECT_LT(took.count(), 60);
    RecordProperty(mesh == &sheet ? "sheet_ms" : "boxes_ms", static_cast<int>(1000 * took.count()));
    std::printf("%zu triangles in %.2f s\n", mesh->triangles.size(), took.count());
  }
}

}  // namespace
}  // namespace belvedere::scene
