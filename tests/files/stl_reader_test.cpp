#include "files/stl_reader.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmath>
#include <cstring>

#include "files/obj_ply_bytes.h"
#include "files/shapes.h"
#include "files/stl_bytes.h"
#include "files/temp_folder.h"
#include "files/vertex_joiner.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using test::as_bytes;
using test::bytes_of;

Result<mesh::TriangleMesh> parse(std::string_view text, const ReadLimits& limits = {}) {
  return parse_stl(as_bytes(text), "t.stl", limits);
}

// Corner by corner: numbering may differ, places may not.
void expect_same_corners(const mesh::TriangleMesh& a, const mesh::TriangleMesh& b) {
  ASSERT_EQ(a.triangles.size(), b.triangles.size());
  for (std::size_t i = 0; i < a.triangles.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k)
      ASSERT_EQ(a.vertices[a.triangles[i][k]], b.vertices[b.triangles[i][k]]) << i;
  }
}

TEST(StlReader, ReadsBackWhatWasWritten) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 20; ++trial) {
    const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 5 + trial, 7 + 3 * trial);
    for (const auto put : {put_stl, put_stl_ascii}) {
      const Result<mesh::TriangleMesh> read = parse(bytes_of(mesh, put));
      ASSERT_TRUE(read) << read.fault().line();
      expect_same_corners(*read, mesh);
      EXPECT_EQ(read->vertices.size(), mesh.vertices.size());
      EXPECT_EQ(bytes_of(*read, put), bytes_of(mesh, put)) << "and writes the same bytes again";
    }
  }
}

TEST(StlReader, NumbersVerticesAsFirstSeen) {
  const Result<mesh::TriangleMesh> read = parse(bytes_of(test::tetrahedron(), put_stl));
  ASSERT_TRUE(read);
  const std::vector<mesh::Triangle> expected{{0, 1, 2}, {0, 2, 3}, {0, 3, 1}, {2, 1, 3}};
  EXPECT_EQ(read->triangles, expected);
}

TEST(StlReader, HeaderThatSaysSolidIsStillBinary) {
  std::string bytes = bytes_of(test::tetrahedron(), put_stl);
  bytes.replace(0, 80, "solid " + std::string(74, 'x'));
  const Result<mesh::TriangleMesh> read = parse(bytes);
  ASSERT_TRUE(read) << read.fault().line();
  expect_same_corners(*read, test::tetrahedron());
}

TEST(StlReader, MinusZeroJoinsZero) {
  std::string bytes = bytes_of(test::tetrahedron(), put_stl);
  const float minus_zero = -0.0f;
  std::memcpy(bytes.data() + 84 + 12, &minus_zero, 4);
  const Result<mesh::TriangleMesh> read = parse(bytes);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->vertices.size(), 4u);
  EXPECT_FALSE(std::signbit(read->vertices[0].x));
}

TEST(StlReader, NormalsInTheFileAreNotUsed) {
  std::string bytes = bytes_of(test::tetrahedron(), put_stl);
  bytes.replace(84, 12, std::string(12, '\xFF'));  // NaN thrice
  EXPECT_TRUE(parse(bytes));
}

TEST(StlReader, FlatFacetsAreKept) {
  mesh::TriangleMesh mesh = test::tetrahedron();
  mesh.triangles.push_back({1, 1, 2});
  const Result<mesh::TriangleMesh> read = parse(bytes_of(mesh, put_stl));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->triangles.size(), 5u);
}

TEST(StlReader, AsciiIsReadInEitherCaseWithAnyBlanks) {
  const Result<mesh::TriangleMesh> read = parse(
      "\n SOLID a b c\r\nFacet normal 0 0 1 outer\tloop VERTEX 0 0 0\n\n\nvertex +1.5 0 0 vertex 0 1e-60 "
      "-2.5E1\r\n"
      "endloop endfacet\r\nendsolid\r\nsolid second\nendsolid second\n");
  ASSERT_TRUE(read) << read.fault().line();
  ASSERT_EQ(read->triangles.size(), 1u);
  EXPECT_EQ(read->vertices[1], (mesh::Vertex{1.5f, 0, 0}));
  EXPECT_EQ(read->vertices[2], (mesh::Vertex{0, 0, -25}));
}

TEST(StlReader, NumbersAtTheEdgesOfFloat) {
  const auto with = [](const std::string& number) {
    return parse(std::string("solid a\nfacet normal 0 0 1\nouter loop\nvertex ") + number +
                 " 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid a\n");
  };
  EXPECT_EQ(with("3.4028234e38")->vertices[0].x, 3.4028234e38f);
  EXPECT_EQ(with("1e-45")->vertices[0].x, 1e-45f);
  EXPECT_EQ(with("1e-400")->vertices[0].x, 0.0f);
  EXPECT_EQ(with(std::string("0.").append(500, '0').append("1"))->vertices[0].x, 0.0f);
  for (const std::string bad : {"3.5e38", "1e309", "1e99999999999", "inf", "-INF", "nan", "nan(1)"})
    EXPECT_NE(with(bad).fault().what.find("is not a finite number"), std::string::npos) << bad;
  EXPECT_FALSE(with(std::string("1").append(500, '0')));
  for (const std::string bad : {"0x10", "--1", "+-1", "1f", ".", "-", "e5", "1_0"})
    EXPECT_NE(with(bad).fault().what.find("expected a number"), std::string::npos) << bad;
}

TEST(StlReader, LimitsAreKept) {
  for (const auto put : {put_stl, put_stl_ascii}) {
    const std::string bytes = bytes_of(test::tetrahedron(), put);
    EXPECT_TRUE(parse(bytes, {1000, 4}));
    const auto read = parse(bytes, {1000, 3});
    ASSERT_FALSE(read);
    EXPECT_EQ(read.fault().allowed, "at most 3 are read");
  }
  const test::TempFolder folder;
  const std::string path = folder.put("a.stl", bytes_of(test::tetrahedron(), put_stl));
  EXPECT_TRUE(read_stl(path, {284, 4}));
  EXPECT_FALSE(read_stl(path, {283, 4}));
}

TEST(StlReader, HugeSparseFileIsRefusedUnread) {
  const test::TempFolder folder;
  const std::string path = folder.put("a.stl", "x");
  ASSERT_EQ(::truncate(path.c_str(), 300'000'000), 0);
  const auto read = read_stl(path);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.fault().line(), path + ": is 300 MB long; at most 200 MB are read");
}

TEST(StlReader, VeryLongLineIsShownShort) {
  const auto read = parse("solid " + std::string(5'000'000, 'n') + "\n" + std::string(5'000'000, 'f'));
  ASSERT_FALSE(read);
  EXPECT_EQ(read.fault().where, "t.stl:2");
  EXPECT_LT(read.fault().line().size(), 200u);
}

TEST(StlReader, AnyDamageGivesAMeshOrAFault) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const std::string good[] = {bytes_of(test::tetrahedron(), put_stl),
                              bytes_of(test::tetrahedron(), put_stl_ascii)};
  int refused = 0;
  for (int trial = 0; trial < 4000; ++trial) {
    std::string bytes = good[trial % 2];
    for (std::uint64_t flips = 1 + random() % 4; flips > 0; --flips)
      bytes[random() % bytes.size()] = static_cast<char>(random());
    if (random() % 4 == 0) bytes.resize(random() % bytes.size());
    const auto read = parse(bytes);
    if (!read) {
      ++refused;
      EXPECT_EQ(read.fault().exit, ExitCode::file);
      EXPECT_TRUE(read.fault().where.starts_with("t.stl"));
      continue;
    }
    for (const mesh::Triangle& t : read->triangles) {
      for (const std::uint32_t corner : t) ASSERT_LT(corner, read->vertices.size());
    }
    for (const mesh::Vertex& v : read->vertices)
      ASSERT_TRUE(std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z));
  }
  EXPECT_GT(refused, 1000);
  EXPECT_LT(refused, 4000);
}

TEST(VertexJoiner, GrowsAndKeepsEveryNumber) {
  VertexJoiner joiner(0);
  for (int round = 0; round < 2; ++round) {
    for (std::uint32_t i = 0; i < 50'000; ++i)
      ASSERT_EQ(joiner.index_of({static_cast<float>(i), static_cast<float>(i % 7), 1}), i);
  }
  EXPECT_EQ(joiner.take_vertices().size(), 50'000u);
}

TEST(VertexJoiner, NeighboursInFloatStayApart) {
  VertexJoiner joiner(10);
  const float next = std::nextafter(1.0f, 2.0f);
  EXPECT_EQ(joiner.index_of({1, 1, 1}), 0u);
  EXPECT_EQ(joiner.index_of({1, 1, next}), 1u);
  EXPECT_EQ(joiner.index_of({next, 1, 1}), 2u);
  EXPECT_EQ(joiner.index_of({1, next, 1}), 3u);
  EXPECT_EQ(joiner.index_of({1, 1, 1}), 0u);
}

}  // namespace
}  // namespace crownwright::files
