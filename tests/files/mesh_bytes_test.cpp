// The bytes we write, against the published layouts and against Assimp's and the C library's reading of them.

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <gtest/gtest.h>

#include <assimp/Importer.hpp>
#include <cmath>
#include <cstring>
#include <limits>
#include <locale>
#include <sstream>

#include "files/facet_normal.h"
#include "files/mesh_writer.h"
#include "files/obj_ply_bytes.h"
#include "files/shapes.h"
#include "files/stl_bytes.h"
#include "files/stl_reader.h"
#include "files/temp_folder.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using test::bytes_of;

float float_at(const std::string& bytes, std::size_t place) {
  float value = 0;
  std::memcpy(&value, bytes.data() + place, 4);
  return value;
}

std::uint32_t count_at(const std::string& bytes, std::size_t place) {
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[place + i]));
  };
  return byte(0) | byte(1) << 8 | byte(2) << 16 | byte(3) << 24;
}

mesh::Vertex vertex_at(const std::string& bytes, std::size_t place) {
  return {float_at(bytes, place), float_at(bytes, place + 4), float_at(bytes, place + 8)};
}

// Layout: StereoLithography Interface Specification, 3D Systems, October 1989 (as in Burns, Automated
// Fabrication, 6.5).
TEST(StlBytes, HaveThePublishedLayout) {
  const mesh::TriangleMesh mesh = test::tetrahedron();
  const std::string bytes = bytes_of(mesh, put_stl, "abc");
  ASSERT_EQ(bytes.size(), 84u + 50u * 4u);
  EXPECT_EQ(bytes.substr(0, 15), "crownwright abc");
  EXPECT_EQ(bytes.substr(15, 65), std::string(65, '\0'));
  EXPECT_EQ(count_at(bytes, 80), 4u);
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t facet = 84 + 50 * i;
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_EQ(vertex_at(bytes, facet + 12 + 12 * k), mesh.vertices[mesh.triangles[i][k]]);
    EXPECT_EQ(bytes.substr(facet + 48, 2), std::string(2, '\0'));
  }
  // First facet lies in z = 0 and looks down; the second in y = 0, the third in x = 0.
  EXPECT_EQ(vertex_at(bytes, 84), (mesh::Vertex{0, 0, -1}));
  EXPECT_EQ(vertex_at(bytes, 134), (mesh::Vertex{0, -1, 0}));
  EXPECT_EQ(vertex_at(bytes, 184), (mesh::Vertex{-1, 0, 0}));
  // The fourth through (10,0,0), (0,20,0), (0,0,30): normal along (1/10, 1/20, 1/30) = (6, 3, 2)/7.
  EXPECT_NEAR(float_at(bytes, 234), 6.0 / 7, 1e-7);
  EXPECT_NEAR(float_at(bytes, 238), 3.0 / 7, 1e-7);
  EXPECT_NEAR(float_at(bytes, 242), 2.0 / 7, 1e-7);
}

TEST(StlBytes, NormalsAreUnitOutwardAndNeverMinusZero) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 20; ++trial) {
    const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 12, 17);
    const std::string bytes = bytes_of(mesh, put_stl);
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
      const mesh::Vertex n = vertex_at(bytes, 84 + 50 * i);
      const mesh::Vertex a = vertex_at(bytes, 84 + 50 * i + 12), b = vertex_at(bytes, 84 + 50 * i + 24);
      EXPECT_NEAR(std::hypot(double{n.x}, double{n.y}, double{n.z}), 1, 1e-6);
      const double along = double{n.x} * (double{b.x} - double{a.x}) +
                           double{n.y} * (double{b.y} - double{a.y}) +
                           double{n.z} * (double{b.z} - double{a.z});
      EXPECT_NEAR(along, 0, 1e-5) << "square to its edges";
      EXPECT_GT(double{n.x} * double{a.x} + double{n.y} * double{a.y} + double{n.z} * double{a.z}, 0)
          << "outward";
      for (const float value : {n.x, n.y, n.z}) EXPECT_FALSE(value == 0 && std::signbit(value));
    }
  }
}

TEST(FacetNormal, KeepsTinyAndHugeFacetsAndNamesFlatOnesZero) {
  const float tiny = 1e-38f, huge = 3e38f;
  EXPECT_EQ(facet_normal({0, 0, 0}, {tiny, 0, 0}, {0, tiny, 0}), (mesh::Vertex{0, 0, 1}));
  EXPECT_EQ(facet_normal({0, 0, 0}, {huge, 0, 0}, {0, huge, 0}), (mesh::Vertex{0, 0, 1}));
  EXPECT_EQ(facet_normal({0, 0, 0}, {1, 1, 1}, {2, 2, 2}), (mesh::Vertex{0, 0, 0}));
  EXPECT_FALSE(std::signbit(facet_normal({0, 0, 0}, {1, 0, 0}, {0, 1, -1}).x)) << "0 * -1 - 0 * 1 is -0";
}

TEST(StlBytes, LargeMeshesCrossTheBlocksOfTheSink) {
  std::mt19937_64 random(7);
  const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 60, 120);  // 14,160 facets: three blocks
  ASSERT_GT(mesh.triangles.size() * 50, 2 * ByteSink::block_size);
  const std::string bytes = bytes_of(mesh, put_stl);
  ASSERT_EQ(bytes.size(), 84 + 50 * mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k)
      ASSERT_EQ(vertex_at(bytes, 84 + 50 * i + 12 + 12 * k), mesh.vertices[mesh.triangles[i][k]]) << i;
  }
}

TEST(MeshBytes, ABrokenPromiseIsThrown) {
  constexpr float nan = std::numeric_limits<float>::quiet_NaN(), inf = std::numeric_limits<float>::infinity();
  for (const float bad : {nan, inf, -inf, -0.0f}) {
    for (int axis = 0; axis < 3; ++axis) {
      mesh::TriangleMesh mesh = test::tetrahedron();
      (axis == 0 ? mesh.vertices[2].x : axis == 1 ? mesh.vertices[2].y : mesh.vertices[2].z) = bad;
      for (const auto put : {put_stl, put_stl_ascii, put_obj, put_ply, put_ply_ascii})
        EXPECT_THROW(bytes_of(mesh, put), std::logic_error) << bad;
    }
  }
  mesh::TriangleMesh mesh = test::tetrahedron();
  mesh.triangles[3][1] = 4;
  for (const auto put : {put_stl, put_stl_ascii, put_obj, put_ply, put_ply_ascii}) {
    EXPECT_THROW(bytes_of(mesh, put), std::logic_error);
    EXPECT_THROW(bytes_of(test::tetrahedron(), put, "two\nlines"), std::logic_error);
  }
}

// Every number in the text, read by the C library, is the float32 it came from.
TEST(MeshBytes, TextNumbersReadBackAsTheSameFloats) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed_note());
  const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 9, 11);
  std::istringstream obj(bytes_of(mesh, put_obj)), stl(bytes_of(mesh, put_stl_ascii));
  std::string word, x, y, z;
  std::size_t vertices = 0, corners = 0;
  const auto same = [&](const mesh::Vertex& v) {
    return std::strtof(x.c_str(), nullptr) == v.x && std::strtof(y.c_str(), nullptr) == v.y &&
           std::strtof(z.c_str(), nullptr) == v.z;
  };
  while (obj >> word) {
    if (word != "v") continue;
    obj >> x >> y >> z;
    EXPECT_TRUE(same(mesh.vertices[vertices++])) << x << y << z;
  }
  while (stl >> word) {
    if (word != "vertex") continue;
    stl >> x >> y >> z;
    EXPECT_TRUE(same(mesh.vertices[mesh.triangles[corners / 3][corners % 3]])) << x << y << z;
    ++corners;
  }
  EXPECT_EQ(vertices, mesh.vertices.size());
  EXPECT_EQ(corners, 3 * mesh.triangles.size());
}

TEST(MeshBytes, TextOfATetrahedron) {
  EXPECT_EQ(bytes_of(test::tetrahedron(), put_obj, "abc"),
            "# crownwright abc\n# millimetres\nv 0 0 0\nv 10 0 0\nv 0 20 0\nv 0 0 30\n"
            "f 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4\n");
  EXPECT_EQ(bytes_of(test::tetrahedron(), put_ply_ascii, "abc"),
            "ply\nformat ascii 1.0\ncomment crownwright abc\ncomment millimetres\nelement vertex 4\n"
            "property float x\nproperty float y\nproperty float z\nelement face 4\n"
            "property list uchar int vertex_indices\nend_header\n0 0 0\n10 0 0\n0 20 0\n0 0 30\n"
            "3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n");
}

struct CommaForPoint : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST(MeshBytes, AreTheSameTwiceAndInEveryLocale) {
  std::mt19937_64 random(3);
  const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 6, 7);
  for (const auto put : {put_stl, put_stl_ascii, put_obj, put_ply, put_ply_ascii}) {
    const std::string first = bytes_of(mesh, put);
    const std::locale before = std::locale::global(std::locale(std::locale(), new CommaForPoint));
    EXPECT_EQ(bytes_of(mesh, put), first);
    std::locale::global(before);
  }
}

struct Kind {
  MeshKind kind;
  const char* ending;
  double tolerance;  // Assimp's own reading of decimal text is not correctly rounded
};

// A second opinion on our own files: Assimp finds the same corners in the same order.
TEST(MeshBytes, AssimpReadsTheSameTriangles) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const test::TempFolder folder;
  for (const Kind& k : {Kind{MeshKind::stl, "stl", 0}, Kind{MeshKind::stl_ascii, "stl", 1e-4},
                        Kind{MeshKind::obj, "obj", 1e-4}, Kind{MeshKind::ply, "ply", 0},
                        Kind{MeshKind::ply_ascii, "ply", 1e-4}}) {
    const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 10, 13);
    MemorySink sink;
    put_mesh(mesh, k.kind, "test", sink);
    const std::vector<std::byte> bytes = sink.take();
    const std::string path =
        folder.put(std::string("a.") + k.ending, {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
    Assimp::Importer importer;
    const aiScene* scene = importer.ReadFile(path, 0);
    ASSERT_NE(scene, nullptr) << importer.GetErrorString();
    ASSERT_EQ(scene->mNumMeshes, 1u);
    const aiMesh& read = *scene->mMeshes[0];
    ASSERT_EQ(read.mNumFaces, mesh.triangles.size()) << k.ending;
    for (unsigned i = 0; i < read.mNumFaces; ++i) {
      ASSERT_EQ(read.mFaces[i].mNumIndices, 3u);
      for (unsigned c = 0; c < 3; ++c) {
        const aiVector3D& v = read.mVertices[read.mFaces[i].mIndices[c]];
        const mesh::Vertex& ours = mesh.vertices[mesh.triangles[i][c]];
        ASSERT_NEAR(v.x, ours.x, k.tolerance);
        ASSERT_NEAR(v.y, ours.y, k.tolerance);
        ASSERT_NEAR(v.z, ours.z, k.tolerance);
      }
    }
  }
}

}  // namespace
}  // namespace crownwright::files
