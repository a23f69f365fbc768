#include "files/threemf_writer.h"

#include <gtest/gtest.h>
#include <zip.h>

#include <cerrno>
#include <cmath>
#include <numbers>
#include <pugixml.hpp>
#include <random>
#include <type_traits>

#include "files/lib3mf_reading.h"
#include "files/maker_mark.h"
#include "files/packages.h"
#include "files/reader_child.h"
#include "files/shapes.h"
#include "files/temp_folder.h"
#include "files/threemf_reader.h"
#include "mesh/grid.h"
#include "proof/any_mesh.h"
#include "proof/prover.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using mesh::Placement;
using test::TempFolder;

// What cannot be written without proof is held by the compiler.
static_assert(!std::is_constructible_v<ThreemfPart, std::string, mesh::TriangleMesh>);
static_assert(!std::is_constructible_v<ThreemfPart, ThreemfMesh>);
static_assert(!std::is_constructible_v<ThreemfPart, std::string, proof::Proven>,
              "it would not live long enough");
static_assert(std::is_constructible_v<ThreemfPart, std::string, const proof::Proven&>);

const std::string odd_name = "key <1> & \"side\" \xC3\xA9";

// The start of any PNG picture; no reader here looks further.
const std::string png("\x89PNG\r\n\x1a\n....", 12);

std::shared_ptr<const mesh::TriangleMesh> shared(mesh::TriangleMesh mesh) {
  return std::make_shared<const mesh::TriangleMesh>(std::move(mesh));
}

mesh::TriangleMesh on_grid(mesh::TriangleMesh mesh) {
  for (mesh::Vertex& v : mesh.vertices) v = mesh::snapped(v.x, v.y, v.z);
  return mesh;
}

Placement at(double x, double y, double z) { return mesh::moved(x, y, z); }

// Two parts, three items: one of them turned by 30 degrees, one standing on another face.
ThreemfContents sample_contents() {
  std::mt19937_64 random(11);
  ThreemfContents contents;
  contents.parts = {{"corner", shared(test::tetrahedron())},
                    {odd_name, shared(on_grid(test::bumpy_sphere(random, 12, 16)))}};
  const double quarter = std::numbers::pi / 2;
  contents.items = {{0, at(0, 0, 0)},
                    {1, mesh::turned_z(std::numbers::pi / 6).then(at(200, 300, 150))},
                    {0, mesh::turned_x(quarter).then(at(20, 30, 0))}};
  contents.notes = {"A hat & <more>", "order 0123456789abcdef", "1.2.3", "CC BY 4.0"};
  contents.thumbnail_png = png;
  return contents;
}

std::string text_of(const std::vector<std::byte>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::string package_text(const ThreemfContents& contents) { return text_of(threemf_bytes(contents)); }

TEST(ThreemfWriter, SameContentsSameBytes) {
  const std::string once = package_text(sample_contents());
  EXPECT_EQ(package_text(sample_contents()), once);
  ThreemfContents other = sample_contents();
  other.notes.title = "Another";
  EXPECT_NE(package_text(other), once);
}

TEST(ThreemfWriter, OurReaderReadsTheSameMeshesAndProvesThem) {
  const ThreemfContents contents = sample_contents();
  const auto read = parse_threemf(threemf_bytes(contents), "p");
  ASSERT_TRUE(read) << read.fault().line();
  EXPECT_EQ(read->unit, "millimeter");
  ASSERT_EQ(read->bodies.size(), 2u);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_EQ(read->bodies[k].name, contents.parts[k].name);
    EXPECT_EQ(read->bodies[k].mesh.vertices, contents.parts[k].mesh->vertices) << "bit for bit";
    EXPECT_EQ(read->bodies[k].mesh.triangles, contents.parts[k].mesh->triangles);
    EXPECT_TRUE(proof::prove_any(read->bodies[k].mesh).passed());
  }
  ASSERT_EQ(read->items.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_EQ(read->items[k].body, contents.items[k].part);
    for (std::size_t n = 0; n < 12; ++n)
      EXPECT_NEAR(read->items[k].place[n], contents.items[k].place.m[n], 1e-9);
    for (const mesh::Vertex& v : placed_body(*read, read->items[k]).vertices)
      EXPECT_TRUE(v.x >= 0 && v.y >= 0 && v.z >= 0) << k;
  }
  const std::vector<std::pair<std::string, std::string>> said{{"Title", "A hat & <more>"},
                                                              {"Application", "crownwright 1.2.3"},
                                                              {"LicenseTerms", "CC BY 4.0"},
                                                              {"cw:Order", "order 0123456789abcdef"}};
  EXPECT_EQ(read->metadata, said);
}

// lib3mf 1.8.1, an independent reader: no warning, manifold and oriented, names, places, unit. It keeps
// numbers as float32.
TEST(ThreemfWriter, Lib3mfReadsItWithoutAWarning) {
  const TempFolder folder;
  const ThreemfContents contents = sample_contents();
  const auto seen = test::read_by_lib3mf(folder.put("a.3mf", package_text(contents)));
  ASSERT_TRUE(seen.read) << seen.error;
  EXPECT_EQ(seen.warnings, 0u);
  EXPECT_TRUE(seen.is_millimetre);
  ASSERT_EQ(seen.items.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    const ThreemfMesh& part = contents.parts[contents.items[k].part];
    EXPECT_TRUE(seen.items[k].manifold_and_oriented && seen.items[k].valid);
    EXPECT_EQ(seen.items[k].name, part.name);
    EXPECT_EQ(seen.items[k].part_number, part.name);
    EXPECT_EQ(seen.items[k].mesh.vertices, part.mesh->vertices);
    EXPECT_EQ(seen.items[k].mesh.triangles, part.mesh->triangles);
    EXPECT_TRUE(proof::prove_any(seen.items[k].mesh).passed());
    for (std::size_t n = 0; n < 12; ++n)
      EXPECT_NEAR(seen.items[k].place[n], contents.items[k].place.m[n],
                  1e-6 * std::max(1.0, std::abs(seen.items[k].place[n])));
  }
  // This version hands metadata out as they stand in the file, escapes and all (it writes them unescaped,
  // too).
  EXPECT_EQ(seen.metadata.at("Title"), "A hat &amp; &lt;more&gt;");
  EXPECT_EQ(seen.metadata.at("LicenseTerms"), "CC BY 4.0");
  EXPECT_EQ(seen.metadata.at("Application"), "crownwright 1.2.3");
  EXPECT_FALSE(seen.metadata.contains("Designer"));
}

// lib3mf is no yes-man: it sees the hole in an open mesh.
TEST(ThreemfWriter, Lib3mfSeesAHole) {
  const TempFolder folder;
  ThreemfContents contents = sample_contents();
  mesh::TriangleMesh open = *contents.parts[1].mesh;
  open.triangles.pop_back();
  contents.parts[1].mesh = shared(open);
  const auto seen = test::read_by_lib3mf(folder.put("a.3mf", package_text(contents)));
  ASSERT_EQ(seen.items.size(), 3u);
  EXPECT_TRUE(seen.items[0].manifold_and_oriented);
  EXPECT_FALSE(seen.items[1].manifold_and_oriented);
}

// Assimp, in a child process as always: all items where they stand, as one mesh, float32 all the way. Without
// the thumbnail: version 5.2.5 dies of any package with a picture in it, the consortium's samples too.
TEST(ThreemfWriter, AssimpReadsTheSameSolid) {
  const TempFolder folder;
  ThreemfContents contents = sample_contents();
  contents.thumbnail_png.clear();
  const std::string path = folder.put("a.3mf", package_text(contents));
  const auto read = read_in_child(path, {});
  ASSERT_TRUE(read) << read.fault().line();
  double volume = 0;
  std::size_t triangles = 0;
  for (const ThreemfPlace& item : contents.items) {
    volume += test::volume(*contents.parts[item.part].mesh);
    triangles += contents.parts[item.part].mesh->triangles.size();
  }
  EXPECT_EQ(read->triangles.size(), triangles);
  EXPECT_NEAR(test::volume(*read), volume, 1e-5 * volume);
  EXPECT_TRUE(proof::prove_any(*read).passed());
}

std::string part_text(const std::string& package, const std::string& name) {
  const auto zip = ZipReader::open(test::as_bytes(package), "p");
  return zip->read(zip->find(name).value()).value();
}

// The shape of the XML against the schema's order of elements and attributes (3MF core specification 1.3,
// appendix B.1), by pugixml alone.
TEST(ThreemfWriter, MarkupHasTheShapeOfTheSchema) {
  ThreemfContents contents = sample_contents();
  contents.items[0].place.m[1] = -0.0;
  const std::string text = part_text(package_text(contents), "3D/3dmodel.model");
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(text.c_str()));
  const pugi::xml_node model = document.child("model");
  EXPECT_STREQ(model.attribute("unit").value(), "millimeter");
  EXPECT_STREQ(model.attribute("xmlns").value(), "http://schemas.microsoft.com/3dmanufacturing/core/2015/02");
  std::string order;
  for (const pugi::xml_node& child : model.children()) order += std::string(child.name()) + " ";
  EXPECT_EQ(order, "metadata metadata metadata metadata resources build ");
  int id = 0;
  for (const pugi::xml_node& object : model.child("resources").children()) {
    EXPECT_STREQ(object.name(), "object");
    EXPECT_EQ(object.attribute("id").as_int(), ++id);
    EXPECT_STREQ(object.attribute("type").value(), "model");
    EXPECT_STREQ(object.first_child().name(), "mesh");
    EXPECT_STREQ(object.child("mesh").first_child().name(), "vertices");
    EXPECT_STREQ(object.child("mesh").last_child().name(), "triangles");
  }
  EXPECT_EQ(id, 2);
  EXPECT_EQ(std::distance(model.child("build").begin(), model.child("build").end()), 3);
  EXPECT_EQ(text.find('\r'), std::string::npos);
  EXPECT_EQ(text.find("-0 "), std::string::npos) << "no minus zero in a transform";
}

TEST(ThreemfWriter, EntriesAreDated1980AndTheThumbnailIsThere) {
  const std::string package = package_text(sample_contents());
  zip_error_t error;
  zip_source_t* source = zip_source_buffer_create(package.data(), package.size(), 0, &error);
  zip_t* zip = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error);
  ASSERT_NE(zip, nullptr);
  std::string names;
  for (zip_int64_t k = 0; k < zip_get_num_entries(zip, 0); ++k) {
    zip_stat_t stat;
    ASSERT_EQ(zip_stat_index(zip, static_cast<zip_uint64_t>(k), 0, &stat), 0);
    names += std::string(stat.name) + " ";
  }
  zip_discard(zip);
  EXPECT_EQ(names, "[Content_Types].xml _rels/.rels 3D/3dmodel.model Metadata/thumbnail.png ");
  // MS-DOS date of 1980-01-01 is 0x0021, at byte 10 of a local and 12 of a central header (APPNOTE.TXT 4.3).
  int headers = 0;
  for (const auto& [mark, offset] :
       {std::pair(std::string("PK\3\4"), 10), std::pair(std::string("PK\1\2"), 12)}) {
    for (std::size_t k = package.find(mark); k != std::string::npos; k = package.find(mark, k + 4)) {
      ++headers;
      EXPECT_EQ(package.substr(k + static_cast<std::size_t>(offset), 4), std::string("\0\0\x21\0", 4));
    }
  }
  EXPECT_EQ(headers, 8);
  EXPECT_EQ(part_text(package, "Metadata/thumbnail.png"), png);
  ThreemfContents bare = sample_contents();
  bare.thumbnail_png.clear();
  bare.notes.licence.reset();
  const std::string less = package_text(bare);
  EXPECT_EQ(part_text(less, "_rels/.rels").find("thumbnail"), std::string::npos);
  EXPECT_EQ(part_text(less, "3D/3dmodel.model").find("LicenseTerms"), std::string::npos);
  EXPECT_TRUE(parse_threemf(test::as_bytes(less), "p"));
}

TEST(ThreemfWriter, TextOfAnyKindIsWrittenSafely) {
  ThreemfContents contents = sample_contents();
  contents.notes.title = std::string("a\0b\x1F\xFF]]>--\xEF\xBF\xBF", 13);
  contents.notes.licence = "\"quoted\"\n& 'more'";
  const auto read = parse_threemf(threemf_bytes(contents), "p");
  ASSERT_TRUE(read) << read.fault().line();
  EXPECT_EQ(read->metadata[0].second, "a\\x00b\\x1f\\xff]]>--\xEF\xBF\xBD");
  EXPECT_EQ(read->metadata[2].second, "\"quoted\"\\x0a& 'more'");
}

TEST(ThreemfWriter, BrokenPromisesAreRefused) {
  const auto refused = [](auto change) {
    ThreemfContents contents = sample_contents();
    change(contents);
    EXPECT_THROW(threemf_bytes(contents), std::logic_error);
  };
  refused([](ThreemfContents& c) { c.items.clear(); });
  refused([](ThreemfContents& c) { c.parts.clear(); });
  refused([](ThreemfContents& c) { c.items[0].part = 2; });
  refused([](ThreemfContents& c) { c.parts[0].name = c.parts[1].name; });
  refused([](ThreemfContents& c) { c.parts[0].name = ""; });
  refused([](ThreemfContents& c) { c.parts[0].mesh = nullptr; });
  refused([](ThreemfContents& c) {
    mesh::TriangleMesh bad = test::tetrahedron();
    bad.vertices[0].x = NAN;
    c.parts[0].mesh = shared(bad);
  });
  refused([](ThreemfContents& c) { c.notes.mark = ""; });
  refused([](ThreemfContents& c) { c.notes.mark = "a--b"; });
  refused([](ThreemfContents& c) { c.notes.mark = "a-"; });
  refused([](ThreemfContents& c) { c.thumbnail_png = "GIF89a"; });
  refused([](ThreemfContents& c) { c.items[0].place = at(-0.001, 0, 0); });
  refused([](ThreemfContents& c) { c.items[0].place = at(0, 0, -5); });
  refused([](ThreemfContents& c) { c.items[2] = c.items[0]; });
  refused([](ThreemfContents& c) { c.items[2].place = at(9.99, 0, 0); });
  refused([](ThreemfContents& c) {  // mirrored where nothing else is wrong
    c.items[0].place.m[0] = -1;
    c.items[0].place.m[9] = 10;
  });
  refused([](ThreemfContents& c) { c.items[0].place.m[0] = 1.001; });
  refused([](ThreemfContents& c) { c.items[0].place.m[3] = 0.1; });
  refused([](ThreemfContents& c) { c.items[0].place.m[9] = INFINITY; });
  ThreemfContents touching = sample_contents();
  touching.items[2].place = at(10, 0, 0);
  EXPECT_NO_THROW(threemf_bytes(touching));
}

// What sines leave below zero is lifted, so that no reader finds an item below the bed.
TEST(ThreemfWriter, RoundingBelowZeroIsLifted) {
  ThreemfContents contents = sample_contents();
  for (int turn = 1; turn < 12; ++turn) {
    const Placement turned = mesh::turned_z(turn * std::numbers::pi / 6);
    double low_x = 1e9, low_y = 1e9;
    for (const mesh::Vertex& v : contents.parts[0].mesh->vertices) {
      const mesh::Point3 p = turned({v.x, v.y, v.z});
      low_x = std::min(low_x, p.x), low_y = std::min(low_y, p.y);
    }
    contents.items = {{0, turned.then(at(-low_x - 3e-7, -low_y, 0))}};
    const auto read = parse_threemf(threemf_bytes(contents), "p");
    ASSERT_TRUE(read);
    const ThreemfTransform& m = read->items[0].place;
    for (const mesh::Vertex& v : contents.parts[0].mesh->vertices) {
      EXPECT_GE(v.x * m[0] + v.y * m[3] + v.z * m[6] + m[9], 0);
      EXPECT_GE(v.x * m[1] + v.y * m[4] + v.z * m[7] + m[10], 0);
    }
  }
}

// ---- to disk

struct Full {
  static ssize_t write(int, const void*, size_t) {
    errno = ENOSPC;
    return -1;
  }
};

ThreemfPackage sample_package(const proof::Proven& proven) {
  ThreemfPackage package{{ThreemfPart("corner", proven)}, {{0, at(1, 2, 3)}}, sample_contents().notes, png};
  return package;
}

TEST(ThreemfWriter, IsWrittenWholeOrNotAtAll) {
  const TempFolder folder;
  const auto proven = proof::Prover::prove_part("corner", test::tetrahedron(), 1, 0);
  ASSERT_TRUE(proven) << proven.fault().line();
  const ThreemfPackage package = sample_package(*proven);
  const std::string path = folder.file("a.3mf");
  ASSERT_TRUE(write_threemf(package, path));
  EXPECT_EQ(folder.entries(), 1u);
  EXPECT_EQ(mark_of(path), "order 0123456789abcdef");
  const std::string whole = test::content_of(path);
  const auto read = read_threemf(path);
  ASSERT_TRUE(read) << read.fault().line();
  EXPECT_EQ(read->bodies[0].mesh.vertices, test::tetrahedron().vertices);

  EXPECT_FALSE(write_threemf(package, path)) << "never over a file without leave";
  WriteRules same{.replace = Replace::same_order};
  EXPECT_TRUE(write_threemf(package, path, same));
  ThreemfPackage other = package;
  other.notes.mark = "order f";
  EXPECT_FALSE(write_threemf(other, path, same)) << "not over another order's";

  SystemCalls full = libc_calls();
  full.write = Full::write;
  WriteRules rules{.replace = Replace::force, .calls = &full};
  const auto failed = write_threemf(package, path, rules);
  ASSERT_FALSE(failed);
  EXPECT_NE(failed.fault().line().find("No space left on device"), std::string::npos)
      << failed.fault().line();
  EXPECT_EQ(test::content_of(path), whole);
  EXPECT_EQ(folder.entries(), 1u) << "nothing half-written stays behind";
}

}  // namespace
}  // namespace crownwright::files
