#include "files/glb_writer.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>
#include <numbers>
#include <random>
#include <type_traits>

#include "files/maker_mark.h"
#include "files/mesh_reader.h"
#include "files/shapes.h"
#include "files/temp_folder.h"
#include "proof/any_mesh.h"
#include "proof/prover.h"

namespace crownwright::files {
namespace {

using Json = nlohmann::json;

static_assert(!std::is_constructible_v<GlbPart, std::string, mesh::TriangleMesh>);
static_assert(!std::is_constructible_v<GlbPart, std::string, proof::Proven>);

std::vector<GlbMesh> glb_sample() {
  std::mt19937_64 random(3);
  const auto share = [](mesh::TriangleMesh m) {
    return std::make_shared<const mesh::TriangleMesh>(std::move(m));
  };
  return {{"corner \"<1>\"", share(test::tetrahedron()), mesh::moved(0, 0, 0)},
          {"ball", share(test::bumpy_sphere(random, 9, 11)),
           mesh::turned_z(0.5).then(mesh::moved(300, -200, 150))}};
}

std::string glb_text(const std::vector<GlbMesh>& parts) {
  const std::vector<std::byte> bytes = glb_bytes(parts, "order 1");
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::uint32_t word(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  std::memcpy(&value, bytes.data() + at, 4);
  return value;
}

// glTF 2.0, 4.4: magic, version, length; then chunks whose lengths are multiples of 4.
TEST(GlbWriter, ChunksAreLaidOutAsTheSpecificationSays) {
  const std::string bytes = glb_text(glb_sample());
  EXPECT_EQ(bytes, glb_text(glb_sample())) << "same contents, same bytes";
  EXPECT_EQ(bytes.substr(0, 4), "glTF");
  EXPECT_EQ(word(bytes, 4), 2u);
  EXPECT_EQ(word(bytes, 8), bytes.size());
  const std::uint32_t json_length = word(bytes, 12);
  EXPECT_EQ(json_length % 4, 0u);
  EXPECT_EQ(bytes.substr(16, 4), "JSON");
  const std::uint32_t binary_length = word(bytes, 20 + json_length);
  EXPECT_EQ(binary_length % 4, 0u);
  EXPECT_EQ(bytes.substr(24 + json_length, 4), std::string("BIN\0", 4));
  EXPECT_EQ(28 + json_length + binary_length, bytes.size());

  const Json json = Json::parse(bytes.substr(20, json_length));
  EXPECT_EQ(json["asset"]["version"], "2.0");
  EXPECT_EQ(json["buffers"][0]["byteLength"], binary_length);
  EXPECT_EQ(json["nodes"][0]["name"], "corner \"<1>\"");
  EXPECT_EQ(json["meshes"][1]["name"], "ball");
  EXPECT_EQ(mark_in(bytes), "order 1");
  // 3.6.2: views within the buffer, aligned, counts as the meshes have, least and greatest exact.
  for (const Json& accessor : json["accessors"]) {
    const Json& view = json["bufferViews"][accessor["bufferView"].get<std::size_t>()];
    const auto offset = view["byteOffset"].get<std::size_t>(), length = view["byteLength"].get<std::size_t>();
    EXPECT_EQ(offset % 4, 0u);
    EXPECT_LE(offset + length, binary_length);
    const bool positions = accessor["type"] == "VEC3";
    EXPECT_EQ(length, accessor["count"].get<std::size_t>() * (positions ? 12 : 4));
    if (!positions) continue;
    float low = 1e9f;
    for (std::size_t k = 0; k < length; k += 12) {
      float x = 0;
      std::memcpy(&x, bytes.data() + 28 + json_length + offset + k, 4);
      low = std::min(low, x);
    }
    EXPECT_EQ(accessor["min"][0].get<float>(), low);
  }
}

// Read back by Assimp in its child process, which turns metres and Y up into mm and Z up again.
TEST(GlbWriter, AssimpReadsTheSameMeshesWithinFloat32) {
  const test::TempFolder folder;
  const std::vector<GlbMesh> parts = glb_sample();
  const auto read = read_mesh(folder.put("a.glb", glb_text(parts)));
  ASSERT_TRUE(read) << read.fault().line();
  std::size_t corner = 0;
  for (const GlbMesh& part : parts) {
    for (const mesh::Triangle& t : part.mesh->triangles) {
      ASSERT_LT(corner / 3, read->triangles.size());
      for (const std::uint32_t v : t) {
        const mesh::Vertex& own = part.mesh->vertices[v];
        const mesh::Point3 expected = part.place({own.x, own.y, own.z});
        const mesh::Vertex& seen = read->vertices[read->triangles[corner / 3][corner % 3]];
        ++corner;
        // Two roundings to float32 of up to 0.5 m: 2 * 2^-25 m, and one of Assimp's in mm.
        ASSERT_NEAR(seen.x, expected.x, 1e-4);
        ASSERT_NEAR(seen.y, expected.y, 1e-4);
        ASSERT_NEAR(seen.z, expected.z, 1e-4);
      }
    }
  }
  EXPECT_EQ(corner, read->triangles.size() * 3);
  EXPECT_TRUE(proof::prove_any(*read).passed());
}

TEST(GlbWriter, BrokenPromisesAreRefused) {
  std::vector<GlbMesh> empty = glb_sample();
  empty[0].mesh = std::make_shared<const mesh::TriangleMesh>();
  EXPECT_THROW(glb_bytes({}, "m"), std::logic_error);
  EXPECT_THROW(glb_bytes(empty, "m"), std::logic_error);
  EXPECT_THROW(glb_bytes(glb_sample(), "a\"b"), std::logic_error);
  EXPECT_THROW(glb_bytes(glb_sample(), ""), std::logic_error);
}

TEST(GlbWriter, IsWrittenWhole) {
  const test::TempFolder folder;
  const auto proven = proof::Prover::prove_part("corner", test::tetrahedron(), 1, 0);
  ASSERT_TRUE(proven);
  const std::vector<GlbPart> parts{GlbPart("corner", *proven)};
  ASSERT_TRUE(write_glb(parts, folder.file("a.glb"), "order 1"));
  EXPECT_EQ(mark_of(folder.file("a.glb")), "order 1");
  EXPECT_FALSE(write_glb(parts, folder.file("a.glb"), "order 1"));
  EXPECT_TRUE(write_glb(parts, folder.file("a.glb"), "order 1", {.replace = Replace::same_order}));
  EXPECT_FALSE(write_glb(parts, folder.file("a.glb"), "order 2", {.replace = Replace::same_order}));
  EXPECT_EQ(folder.entries(), 1u);
}

}  // namespace
}  // namespace crownwright::files
