#include "files/maker_mark.h"

#include <gtest/gtest.h>

#include "files/mesh_writer.h"
#include "files/shapes.h"
#include "files/temp_folder.h"

namespace crownwright::files {
namespace {

const std::string digest(64, 'a');

TEST(MakerMark, IsFoundInEveryKindOfFileWeWrite) {
  for (const MeshKind kind :
       {MeshKind::stl, MeshKind::stl_ascii, MeshKind::obj, MeshKind::ply, MeshKind::ply_ascii}) {
    for (const std::string& mark : {std::string("x"), digest, std::string(68, '~'), std::string("a b")}) {
      MemorySink sink;
      put_mesh(test::tetrahedron(), kind, mark, sink);
      const std::vector<std::byte> bytes = sink.take();
      EXPECT_EQ(mark_in({reinterpret_cast<const char*>(bytes.data()), bytes.size()}), mark)
          << static_cast<int>(kind);
    }
  }
}

TEST(MakerMark, ForeignFilesHaveNone) {
  for (const std::string_view text :
       {"", "solid thing\nfacet", "# made by hand\nv 0 0 0", "ply\nformat ascii 1.0\n", "crownwright",
        "crownwright ", "crownwright\tx", "ply\nformat ascii 1.0"})
    EXPECT_EQ(mark_in(text), std::nullopt) << text;
  EXPECT_EQ(mark_of("/nowhere/at/all"), std::nullopt);
  EXPECT_EQ(mark_of("/"), std::nullopt);
}

TEST(MakerMark, OfAFile) {
  const test::TempFolder folder;
  EXPECT_EQ(mark_of(folder.put("a.obj", "# crownwright abc\r\nv 0 0 0\n")), "abc");
  EXPECT_EQ(mark_of(folder.put("b.obj", "# other abc\n")), std::nullopt);
}

TEST(MakerMark, MustFitItsPlace) {
  EXPECT_TRUE(is_mark(digest));
  EXPECT_TRUE(is_mark(std::string(68, 'm')));
  EXPECT_FALSE(is_mark(std::string(69, 'm')));
  EXPECT_FALSE(is_mark(""));
  EXPECT_FALSE(is_mark(" a"));
  EXPECT_FALSE(is_mark("a "));
  EXPECT_FALSE(is_mark("a\nb"));
  EXPECT_FALSE(is_mark("\xC3\xA9"));
}

}  // namespace
}  // namespace crownwright::files
