#include "files/mesh_writer.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "files/shapes.h"
#include "files/stl_bytes.h"

namespace crownwright::files {
namespace {

// What cannot be written without proof is held by the compiler: no mesh turns into a proven one, and the
// writer takes nothing else.
static_assert(!std::is_constructible_v<proof::Proven, mesh::TriangleMesh>);
static_assert(!std::is_constructible_v<proof::Proven, mesh::TriangleMesh, proof::Verdict, proof::Readings>);
static_assert(!std::is_default_constructible_v<proof::Proven>);
static_assert(!std::is_invocable_v<decltype(write_mesh), const mesh::TriangleMesh&, const std::string&,
                                   MeshKind, const std::string&, WriteRules>);
static_assert(std::is_invocable_v<decltype(write_mesh), const proof::Proven&, const std::string&, MeshKind,
                                  const std::string&, WriteRules>);

TEST(MeshWriter, KindsStartAsTheirReadersExpect) {
  const std::pair<MeshKind, std::string> starts[] = {
      {MeshKind::stl, "crownwright m"},
      {MeshKind::stl_ascii, "solid crownwright m\nfacet normal "},
      {MeshKind::obj, "# crownwright m\n"},
      {MeshKind::ply, "ply\nformat binary_little_endian 1.0\n"},
      {MeshKind::ply_ascii, "ply\nformat ascii 1.0\n"}};
  for (const auto& [kind, start] : starts) {
    MemorySink sink;
    put_mesh(test::tetrahedron(), kind, "m", sink);
    const std::vector<std::byte> bytes = sink.take();
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    EXPECT_TRUE(text.starts_with(start)) << text.substr(0, 40);
  }
}

}  // namespace
}  // namespace crownwright::files
