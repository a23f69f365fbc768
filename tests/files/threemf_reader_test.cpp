// Core faults one by one: a good package, broken by the smallest change. Section numbers: 3MF core
// specification 1.3.

#include "files/threemf_reader.h"

#include <gtest/gtest.h>

#include <cmath>

#include "files/mesh_reader.h"
#include "files/packages.h"
#include "files/temp_folder.h"
#include "proof/any_mesh.h"

namespace crownwright::files {
namespace {

using test::archive;
using test::Entries;
using test::good_model;
using test::package_of;
using test::with;

std::string line_of(const Result<ThreemfModel>& read) { return read ? "no fault" : read.fault().line(); }

Result<ThreemfModel> read_bytes(const std::string& bytes, const ThreemfLimits& limits = {}) {
  return parse_threemf(test::as_bytes(bytes), "p", limits);
}

Result<ThreemfModel> read_entries(const Entries& entries) { return read_bytes(archive(entries)); }

Result<ThreemfModel> read_text(const std::string& model) { return read_entries(package_of(model)); }

TEST(ThreemfReader, ReadsTheGoodPackage) {
  const auto read = read_text(good_model());
  ASSERT_TRUE(read) << read.fault().line();
  ASSERT_EQ(read->items.size(), 2u);
  ASSERT_EQ(read->bodies.size(), 2u);
  EXPECT_EQ(read->bodies[0].name, "corner");
  EXPECT_EQ(read->bodies[0].mesh.vertices, test::tetrahedron().vertices);
  EXPECT_EQ(read->bodies[0].mesh.triangles, test::tetrahedron().triangles);
  EXPECT_EQ(read->bodies[1].name, "pair");
  EXPECT_EQ(read->bodies[1].mesh.triangles.size(), 8u);
  EXPECT_EQ(read->items[1].part_number, "p");
  const std::vector<std::pair<std::string, std::string>> said{{"Title", "Corner"}, {"v:Own", "yes"}};
  EXPECT_EQ(read->metadata, said);
  const mesh::TriangleMesh placed = placed_body(*read, read->items[0]);
  EXPECT_EQ(placed.vertices[1], (mesh::Vertex{15, 6, 7}));
  EXPECT_NEAR(test::volume(placed), 1000, 1e-3);
  EXPECT_NEAR(test::volume(read->bodies[1].mesh), 2000, 1e-3);
}

struct Broken {
  std::string from, to, what;
};

TEST(ThreemfReader, EveryBrokenModelHasItsFault) {
  const std::string item = "<item objectid=\"4\" partnumber=\"p\"/>";
  const std::string second = "<component objectid=\"2\"/>";
  const std::vector<Broken> cases{
      // 2.3.2 XML
      {"encoding=\"UTF-8\"", "encoding=\"ISO-8859-1\"",
       "3D/a.model:1: says it is encoded in ISO-8859-1; UTF-8"},
      {"Corner", "Corn\xFF", "3D/a.model: is not encoded in UTF-8"},
      {"Corner", "Corn\x01", "holds a control character"},
      {"Corner", "Cap & ball",
       "3D/a.model:3: is not well-formed XML: an & begins no reference; &amp; stands for it"},
      {"Corner", "&nbsp;", "an & begins no reference"},
      {"Corner", "&#1;", "an & begins no reference"},
      {"Corner", "&#xD800;", "an & begins no reference"},
      {"Corner", "&lt", "an & begins no reference"},
      {"name=\"pair\"", "name=\"a&b\"", "an & begins no reference"},
      {"<model unit", "<!DOCTYPE model><model unit", "has a document type definition (DTD); 3MF allows none"},
      {"</build>", "", "is not well-formed XML: "},
      {"</model>", "</model>x", "has text outside its outermost element"},
      {"</model>", "</model><model/>", "has more than one outermost element"},
      {"<resources>", "<w:resources>", "is not well-formed XML"},
      {"<resources>", "<resources><w:a/>", "<w:a> uses a prefix for which no namespace is declared"},
      {"<build>", "<build w:a=\"1\">",
       "attribute w:a of <build> uses a prefix for which no namespace is declared"},
      {"<build>", "<build xml:lang=\"en\">", "attribute xml:lang of <build> may not be used"},
      {"<model unit", "<model xml:space=\"preserve\" unit", "attribute xml:space of <model> may not be used"},
      {"<build>", "<build xmlns:q=\"http://www.w3.org/2001/XMLSchema-instance\" q:type=\"a\">",
       "attribute q:type of <build> is drawn from the xsi namespace"},
      {"core/2015/02", "core/2099/01", "the outermost element is no <model> of 3MF's core namespace"},
      // 3.4 model
      {"unit=\"millimeter\"", "unit=\"parsec\"",
       "3D/a.model:2: unit=\"parsec\" of <model> is not valid; micron, millimeter, centimeter, inch, foot or "
       "meter"},
      {"unit=\"millimeter\"", "colour=\"red\"", "<model> has the unknown attribute colour"},
      {"unit=\"millimeter\"", "unit=\"millimeter\" unit=\"inch\"", "<model> has the attribute unit twice"},
      {"unit=\"millimeter\"", "requiredextensions=\"v\"",
       "needs the extension urn:vendor, which is not known here"},
      {"unit=\"millimeter\"", "requiredextensions=\"w\"", "the extension w is required but not declared"},
      {"unit=\"millimeter\"",
       "xmlns:mc=\"http://schemas.openxmlformats.org/markup-compatibility/2006\" mc:MustUnderstand=\"v\"",
       "needs the extension urn:vendor"},
      {"<resources>", "some text<resources>", "<model> holds text; 3MF has text in <metadata> alone"},
      {"<build>", "<extra/><build>", "<extra> may not stand in <model> or not here"},
      {"</build>", "</build><build><item objectid=\"2\"/></build>",
       "<build> may not stand in <model> or not here"},
      {"</build>", "</build><metadata name=\"Rating\"/>", "<metadata> may not stand in <model> or not here"},
      // 3.4.1 metadata
      {"name=\"v:Own\"", "name=\"Title\"", "3D/a.model:4: the metadata Title is given twice; once each"},
      {"name=\"v:Own\"", "name=\"w:Own\"",
       "the metadata w:Own uses a prefix for which no namespace is declared"},
      {"name=\"v:Own\"", "", "<metadata> lacks the attribute name"},
      {">yes<", "><b>yes</b><", "<b> may not stand in <metadata>"},
      // 3.4.2 and 5 resources
      {"id=\"3\"", "id=\"2\"", "the resource id 2 is given twice; once each"},
      {"id=\"3\"", "id=\"1\"", "the resource id 1 is given twice"},
      {"id=\"3\"", "id=\"0\"", "id=\"0\" of <object> is not valid; 1 to 2147483647"},
      {"id=\"3\"", "id=\"2147483648\"", "is not valid; 1 to 2147483647"},
      {"id=\"3\"", "", "<object> lacks the attribute id"},
      {"#C0C0C0", "#C0C0C", "displaycolor=\"#C0C0C\" of <base> is not valid; #RRGGBB or #RRGGBBAA"},
      {"#C0C0C0", "#C0C0CG", "is not valid; #RRGGBB or #RRGGBBAA"},
      {" displaycolor=\"#C0C0C0\"", "", "<base> lacks the attribute displaycolor"},
      {"<basematerials", "<v:group id=\"2\"/><basematerials", "the resource id 2 is given twice"},
      // 4 objects
      {"type=\"model\"", "type=\"mode\"",
       "type=\"mode\" of <object> is not valid; model, solidsupport, support, surface or other"},
      {" pid=\"1\"", "", "pindex of <object> is given without the pid it counts in"},
      {" pid=\"1\"", " pid=\"9\"", "<object> refers to the property group 9, which is not defined before it"},
      {"pindex=\"1\"", "pindex=\"2\"", "pindex=\"2\" is beyond the property group 1"},
      {"pindex=\"1\"", "pindex=\"-1\"", "pindex=\"-1\" of <object> is not valid"},
      {"name=\"corner\"", "thumbnail=\"/no.png\"", "the thumbnail /no.png is not in the package"},
      {"name=\"pair\"", "pid=\"1\"", "an object of components has properties of its own"},
      {"<components>", "<mesh/><components>", "<mesh> lacks its <vertices> or its <triangles>"},
      // 4.1 meshes
      {"x=\"10.000000\"", "x=\"1e\"", "x=\"1e\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"1,5\"", "x=\"1,5\" of <vertex> is not valid; a decimal number"},
      {"x=\"10.000000\"", "x=\"nan\"", "x=\"nan\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"inf\"", "x=\"inf\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"1e39\"", "x=\"1e39\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"1e999\"", "x=\"1e999\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"0x10\"", "x=\"0x10\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "x=\"1.\"", "x=\"1.\" of <vertex> is not valid"},
      {"x=\"10.000000\"", "", "<vertex> lacks the attribute x"},
      {"v1=\"1\" v2=\"2\"", "v1=\"4\" v2=\"2\"", "v1=\"4\" names a vertex that is not there; 0 to 3"},
      {"v1=\"1\" v2=\"2\"", "v1=\"-1\" v2=\"2\"", "v1=\"-1\" of <triangle> is not valid; 0 to 2147483647"},
      {"v1=\"1\" v2=\"2\"", "v1=\"2\" v2=\"2\"",
       "a triangle names the same vertex twice; three distinct ones"},
      {"v1=\"1\" v2=\"2\"", "v1=\"99999999999\" v2=\"2\"", "is not valid; 0 to 2147483647"},
      {"v1=\"1\" v2=\"2\"", "v1=\"1\" v2=\"2\" p1=\"2\"", "p1=\"2\" is beyond the property group 1"},
      {"v1=\"1\" v2=\"2\"", "v1=\"1\" v2=\"2\" p1=\"0\" p2=\"1\"", "a triangle blends base materials"},
      {"\n<triangle v1=\"1\" v2=\"2\" v3=\"3\"/>", "", "<triangles> holds only 3; at least 4"},
      // 4.2 components
      {second, "<component objectid=\"4\"/>",
       "<component> refers to object 4, which is not defined before it"},
      {second, "<component objectid=\"7\"/>",
       "<component> refers to object 7, which is not defined before it"},
      {second, "<component/>", "<component> lacks the attribute objectid"},
      {"1 0 0 0 1 0 0 0 1 50 0 0", "1 0 0 0 1 0 0 0 -1 50 0 0",
       "the transform of <component> mirrors what it places; a determinant above 0"},
      // 3.4.3 build
      {"<item objectid=\"2\"", "<item objectid=\"9\"", "<item> refers to object 9, which is not defined"},
      {"<item objectid=\"2\"", "<item objectid=\"3\"",
       "<item> builds object 3, which is or holds one of type"},
      {second, "<component objectid=\"3\"/>", "<item> builds object 4, which is or holds one of type other"},
      {"0 0 0 1 5 6 7", "0 0 0 -1 5 6 7", "the transform of <item> mirrors what it places"},
      {"0 0 0 1 5 6 7", "0 0 0 0 5 6 7", "the transform of <item> flattens what it places"},
      {"0 0 0 1 5 6 7", "0 0 0 1 5 6", "transform=\"1 0 0 0 1 0 0 0 1 5 6\" of <item> is not valid; twelve"},
      {"0 0 0 1 5 6 7", "0 0 0 1 5 6 7e9", "of <item> is not valid; twelve decimal numbers from -1000000"},
      {"<build>", "<build><v:more/>", "<v:more> may not stand in <build>"},
      {item, "<item objectid=\"4\"><mesh/></item>", "<mesh> may not stand in <item>"}};
  for (const Broken& c : cases) {
    const std::string broken = with(good_model(), c.from, c.to);
    ASSERT_NE(broken, good_model()) << c.from;
    const auto read = read_text(broken);
    EXPECT_NE(line_of(read).find(c.what), std::string::npos) << c.to << ": " << line_of(read);
    EXPECT_TRUE(read || read.fault().exit == ExitCode::file);
  }
}

TEST(ThreemfReader, WhatTheSpecificationAllowsPasses) {
  const std::vector<std::pair<std::string, std::string>> cases{
      {"<model unit", "<!-- a comment & more --><model unit"},
      {"Corner", "&lt;&#65;&#x1F452;&amp;&quot;&apos;&gt;<![CDATA[a & b]]>"},
      {"<build>", "<build v:a=\"1\">"},
      {"<resources>", "<resources><v:thing id=\"8\"><v:inner/></v:thing>"},
      {"x=\"10.000000\"", "x=\" +1e1 \""},
      {"0 0 0 1 5 6 7", "0 0 0\n 1  5 6 7 "},
      {"v1=\"1\" v2=\"2\"", "v1=\"1\" v2=\"2\" p1=\"0\" p2=\"0\""},
      {"v1=\"1\" v2=\"2\"", "v1=\" 1 \" v2=\"+2\""},
      {"<components>", "<metadatagroup><metadata name=\"v:Own\">x</metadata></metadatagroup><components>"},
      {"unit=\"millimeter\"",
       "requiredextensions=\"m\" xmlns:m=\"http://schemas.microsoft.com/3dmanufacturing/material/2015/02\""},
      {"</build>", "</build><v:after>text</v:after>"},
      {"name=\"Title\"", "name=\"Colour\""}};
  for (const auto& [from, to] : cases) {
    const std::string changed = with(good_model(), from, to);
    ASSERT_NE(changed, good_model()) << from;
    EXPECT_EQ(line_of(read_text(changed)), "no fault") << to;
  }
}

// Prefixes are names of namespaces, not names in themselves.
TEST(ThreemfReader, PrefixesAreFollowed) {
  const std::string core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
  std::string text = good_model();
  for (const char* name :
       {"model", "metadata", "resources", "basematerials", "base", "object", "mesh", "vertices", "vertex",
        "triangles", "triangle", "components", "component", "build", "item"}) {
    for (const char* end : {" ", ">", "/"}) {
      text = with(text, std::string("<") + name + end, std::string("<c:") + name + end);
      text = with(text, std::string("</") + name + end, std::string("</c:") + name + end);
    }
  }
  text = with(text, "xmlns=\"" + core, "xmlns:c=\"" + core);
  EXPECT_EQ(line_of(read_text(text)), "no fault");
  EXPECT_EQ(
      line_of(read_text(with(text, "<c:build>", "<c:build xmlns:c=\"urn:other\">"))).find("no <build>") !=
          std::string::npos,
      true);
}

TEST(ThreemfReader, Utf16IsRead) {
  std::string wide = "\xFF\xFE";
  for (const char c : with(good_model(), "encoding=\"UTF-8\"", "encoding=\"UTF-16\"")) {
    wide += c;
    wide += '\0';
  }
  EXPECT_EQ(line_of(read_text(wide)), "no fault");
  wide += 'x';
  EXPECT_NE(line_of(read_text(wide)).find("is not encoded in UTF-8"), std::string::npos);
}

// 3.4: the unit counts for places as for vertices. 1 inch = 25.4 mm.
TEST(ThreemfReader, UnitsBecomeMillimetres) {
  const std::pair<std::string, double> units[] = {{"micron", 0.001}, {"millimeter", 1}, {"centimeter", 10},
                                                  {"inch", 25.4},    {"foot", 304.8},   {"meter", 1000}};
  for (const auto& [unit, mm] : units) {
    const auto read = read_text(with(good_model(), "millimeter", unit));
    ASSERT_TRUE(read) << read.fault().line();
    const mesh::TriangleMesh placed = placed_body(*read, read->items[0]);
    EXPECT_NEAR(placed.vertices[3].z, 37 * mm, 4e-6 * mm) << unit;
    EXPECT_NEAR(read->bodies[1].mesh.vertices[5].x, 60 * mm, 6e-6 * mm) << unit;
  }
}

TEST(ThreemfReader, SupportsAndSurfacesAreLeftOutOfTheProof) {
  const auto read = read_text(with(good_model(), "type=\"other\"", "type=\"support\""));
  ASSERT_TRUE(read);
  const auto built = read_text(with(with(good_model(), "type=\"other\"", "type=\"surface\""),
                                    "<item objectid=\"2\"", "<item objectid=\"3\""));
  ASSERT_TRUE(built) << built.fault().line();
  EXPECT_EQ(built->bodies[0].loose, 4u);
  EXPECT_TRUE(built->bodies[0].mesh.triangles.empty());
  const std::string only =
      with(with(good_model(), "type=\"model\"", "type=\"surface\""), "name=\"pair\"", "name=\"q\"");
  EXPECT_NE(line_of(read_text(only)).find("nothing in the build is a solid"), std::string::npos);
}

// Components of components grow twofold a level: a small file, a huge build.
TEST(ThreemfReader, LimitsHoldForWhatComponentsMultiply) {
  std::string levels;
  for (int id = 5; id < 30; ++id) {
    const std::string inner = "<component objectid=\"" + std::to_string(id - 1) + "\"/>";
    levels +=
        "<object id=\"" + std::to_string(id) + "\"><components>" + inner + inner + "</components></object>";
  }
  const std::string text = with(good_model(), "</resources>", levels + "</resources>");
  EXPECT_NE(
      line_of(read_text(text)).find("holds too many triangles, components counted; at most 2000000 are read"),
      std::string::npos)
      << line_of(read_text(text));
  std::string chain;
  for (int id = 5; id < 60; ++id)
    chain += "<object id=\"" + std::to_string(id) + "\"><components><component objectid=\"" +
             std::to_string(id - 1) + "\"/></components></object>";
  EXPECT_NE(line_of(read_text(with(good_model(), "</resources>", chain + "</resources>")))
                .find("components are nested too deeply; at most 32"),
            std::string::npos);
}

// Rows times matrices, the innermost first (3.3): a corner at x = 10 is moved by 50, turned from x to y,
// moved by 7 along z.
TEST(ThreemfReader, PlacesOfComponentsAreChainedFromWithin) {
  const std::string outer =
      "<object id=\"5\"><components><component objectid=\"4\" transform=\"0 1 0 -1 0 0 0 0 1 0 0 "
      "7\"/></components>"
      "</object></resources>";
  const auto read = read_text(
      with(with(good_model(), "</resources>", outer), "<item objectid=\"4\"", "<item objectid=\"5\""));
  ASSERT_TRUE(read) << read.fault().line();
  const mesh::TriangleMesh& body = read->bodies[1].mesh;
  EXPECT_EQ(body.vertices[1], (mesh::Vertex{0, 10, 7}));
  EXPECT_EQ(body.vertices[5], (mesh::Vertex{0, 60, 7}));
  EXPECT_EQ(body.vertices[6], (mesh::Vertex{-20, 50, 7}));
}

TEST(ThreemfReader, BuildOfNothingIsRefused) {
  std::string model = good_model();
  const std::size_t begin = model.find("<item"), end = model.find("</build>");
  model.erase(begin, end - begin);
  EXPECT_EQ(line_of(read_text(model)), "p: 3D/a.model:27: the build holds no item; at least one");
}

// Vertices that no facet uses cost room all the same.
TEST(ThreemfReader, VerticesAreCountedLikeFacets) {
  std::string more;
  for (int k = 0; k < 16; ++k) more += "<vertex x=\"1\" y=\"1\" z=\"1\"/>";
  const std::string heavy = with(good_model(), "</vertices>", more + "</vertices>");
  ThreemfLimits limits;
  limits.model.facets = 14;  // and so 42 vertices
  EXPECT_NE(line_of(read_bytes(archive(package_of(heavy)), limits))
                .find("holds too many vertices, every item counted; at most 42 are read"),
            std::string::npos);
  const std::string inner = "<component objectid=\"2\"/>";
  EXPECT_NE(line_of(read_bytes(archive(package_of(with(heavy, inner, inner + inner))), limits))
                .find("holds too many vertices, components counted; at most 42 are read"),
            std::string::npos);
  limits.model.facets = 13;
  EXPECT_NE(line_of(read_bytes(archive(package_of(heavy)), limits))
                .find("holds too many vertices; at most 39 are read"),
            std::string::npos);
}

TEST(ThreemfReader, EveryLimitIsKept) {
  const std::string bytes = archive(package_of(good_model()));
  const auto limited = [&](auto change) {
    ThreemfLimits limits;
    change(limits);
    return line_of(read_bytes(bytes, limits));
  };
  EXPECT_NE(limited([](auto& l) { l.model.facets = 7; }).find("too many triangles"), std::string::npos);
  EXPECT_NE(limited([](auto& l) {
              l.model.facets = 11;
            }).find("too many triangles, every item counted; at most 11"),
            std::string::npos);
  EXPECT_EQ(limited([](auto& l) { l.model.facets = 12; }), "no fault");
  EXPECT_NE(limited([](auto& l) { l.model.objects = 2; }).find("too many objects; at most 2"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.model.items = 1; }).find("too many items; at most 1"), std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.model.components = 1; }).find("too many components"), std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.model.depth = 1; }).find("components are nested too deeply"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.xml.bytes = 1000; }).find("3D/a.model: is too long"), std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.xml.elements = 30; }).find("has too many elements; at most 30"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.xml.attributes = 30; }).find("has too many attributes"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.xml.depth = 4; }).find("nested too deeply; at most 4"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.zip.entries = 2; }).find("p: holds 3 entries; at most 2"),
            std::string::npos);
  EXPECT_NE(limited([](auto& l) { l.zip.unpacked = 2000; }).find("unpacks to more than 0 MB"),
            std::string::npos);
  EXPECT_EQ(limited([](auto& l) { l.model.facets = 100; }), "no fault");
  const test::TempFolder folder;
  ThreemfLimits small;
  small.bytes = 100;
  EXPECT_NE(line_of(read_threemf(folder.put("a.3mf", bytes), small)).find("MB long; at most"),
            std::string::npos);
}

TEST(ThreemfReader, AMillionAttributesOrNamespacesDoNotTakeAMinute) {
  std::string many;
  for (int k = 0; k < 200; ++k) many += " v:a" + std::to_string(k) + "=\"1\"";
  EXPECT_NE(line_of(read_text(with(good_model(), "<build>", "<build" + many + ">")))
                .find("<build> has too many attributes"),
            std::string::npos);
}

// ---- parts and relationships (chapter 2, Open Packaging Conventions)

TEST(ThreemfReader, EveryBrokenPackageHasItsFault) {
  const std::string model_link =
      "<Relationship Id=\"r1\" Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\" "
      "Target=\"/3D/a.model\"/>";
  const std::string thumbnail =
      "<Relationship Id=\"r2\" Type=\"http://schemas.openxmlformats.org/package/2006/relationships/metadata/"
      "thumbnail\" Target=\"";
  const std::vector<Broken> in_root{
      {"Target=\"/3D/a.model\"", "Target=\"/3D/b.model\"",
       "_rels/.rels:3: the 3D model /3D/b.model is not in the package"},
      {"Target=\"/3D/a.model\"", "Target=\"http://x.org/a.model\"",
       "the relationship r1 leads out of the package"},
      {"Target=\"/3D/a.model\"", "Target=\"//x.org/a.model\"",
       "the relationship r1 leads out of the package"},
      {"Target=\"/3D/a.model\"", "Target=\"../a.model\"", "the relationship r1 leads out of the package"},
      {"Target=\"/3D/a.model\"", "Target=\"/3D/a.model\" TargetMode=\"External\"",
       "leads out of the package"},
      {"Target=\"/3D/a.model\"", "", "is not a relationship with Id, Type and Target"},
      {"Id=\"r1\"", "", "is not a relationship with Id, Type and Target"},
      {"2006/relationships", "2007/relationships", "is no list of relationships"},
      {model_link, "", "the package relates to no 3D model"},
      {model_link, model_link + with(model_link, "r1", "r2"),
       "the package relates to more than one 3D model"},
      {model_link, model_link + thumbnail + "/t.png\"/>", "the thumbnail /t.png is not in the package"},
      {model_link, model_link + thumbnail + "/3D/a.model\"/>",
       "the thumbnail /3D/a.model has the content type "
       "\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"; image/png or image/jpeg"},
      {model_link, model_link + with(model_link, "3dmodel\"", "printticket\""),
       "a print ticket hangs on the package"},
      {model_link, model_link + "<Relationship Id=\"r1\" Type=\"urn:x\" Target=\"/x\"/>",
       "the relationship id r1 is used twice"},
      {model_link,
       model_link +
           "<Relationship Id=\"r5\" Type=\"urn:x\" Target=\"/x\"/><Relationship Id=\"r6\" Type=\"urn:x\" "
           "Target=\"x\"/>",
       "relates to /x twice in the same way"}};
  for (const Broken& c : in_root) {
    Entries entries = package_of(good_model());
    entries[1].second = with(entries[1].second, c.from, c.to);
    ASSERT_NE(entries[1].second, test::root_relationships) << c.from;
    EXPECT_NE(line_of(read_entries(entries)).find(c.what), std::string::npos)
        << c.to << ": " << line_of(read_entries(entries));
  }
  const std::vector<Broken> in_types{
      {"3dmanufacturing-3dmodel", "other", "the 3D model /3D/a.model has the content type"},
      {"Extension=\"model\"", "Extension=\"modell\"", "the 3D model /3D/a.model has the content type \"\""},
      {"Extension=\"png\"", "Extension=\"MODEL\"", "gives a second content type to model; one each"},
      {"2006/content-types", "2007/content-types", "is no list of content types"},
      {"<Default Extension=\"png\"", "<Standard Extension=\"png\"",
       "<Standard> is not known here; Default or Override"}};
  for (const Broken& c : in_types) {
    Entries entries = package_of(good_model());
    entries[0].second = with(entries[0].second, c.from, c.to);
    EXPECT_NE(line_of(read_entries(entries)).find(c.what), std::string::npos)
        << c.to << ": " << line_of(read_entries(entries));
  }
  for (std::size_t missing = 0; missing < 2; ++missing) {
    Entries entries = package_of(good_model());
    entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(missing));
    EXPECT_NE(line_of(read_entries(entries)).find("it is no 3MF package"), std::string::npos);
  }
}

// A damaged picture is a damaged package, though no mesh is in it.
TEST(ThreemfReader, EveryPartIsWhole) {
  Entries entries = package_of(good_model());
  entries.emplace_back("a.png", "a picture");
  const std::string bytes = archive(entries, false);
  EXPECT_EQ(line_of(read_bytes(bytes)), "no fault");
  EXPECT_EQ(line_of(read_bytes(with(bytes, "a picture", "a pictvre"))),
            "p: a.png: cannot be unpacked: its checksum differs; the file is damaged");
}

TEST(ThreemfReader, PartNamesAreTheSameInEitherCase) {
  Entries entries = package_of(good_model());
  entries[2].first = "3d/A.MODEL";
  EXPECT_EQ(line_of(read_entries(entries)), "no fault");
}

// ---- geometry: read, but refused by the proof

TEST(ThreemfReader, BrokenMeshesAreReadAndFailTheirProof) {
  const mesh::TriangleMesh good = test::tetrahedron();
  EXPECT_TRUE(proof::prove_any(read_text(good_model(good))->bodies[0].mesh).passed());
  mesh::TriangleMesh cube{
      {{0, 0, 0}, {9, 0, 0}, {9, 9, 0}, {0, 9, 0}, {0, 0, 9}, {9, 0, 9}, {9, 9, 9}, {0, 9, 9}},
      {{0, 2, 1},
       {0, 3, 2},
       {4, 5, 6},
       {4, 6, 7},
       {0, 1, 5},
       {0, 5, 4},
       {1, 2, 6},
       {1, 6, 5},
       {2, 3, 7},
       {2, 7, 6},
       {3, 0, 4},
       {3, 4, 7}}};
  ASSERT_TRUE(proof::prove_any(cube).passed());
  mesh::TriangleMesh hole = cube, flip = cube, doubled = cube, inside_out = cube, crossing = cube;
  hole.triangles.pop_back();
  std::swap(flip.triangles[3][0], flip.triangles[3][1]);
  doubled.triangles.push_back(doubled.triangles[5]);
  for (mesh::Triangle& t : inside_out.triangles) std::swap(t[0], t[1]);
  crossing.vertices[6] = {-4, -4, -4};
  const std::pair<mesh::TriangleMesh, const char*> cases[] = {
      {hole, "closed, every edge used once each way"},
      {flip, "closed, every edge used once each way"},
      {doubled, "no facet twice"},
      {inside_out, "faces outward and bounds a volume"},
      {crossing, "no two facets cross"}};
  for (const auto& [mesh, check] : cases) {
    const auto read = read_text(good_model(mesh));
    ASSERT_TRUE(read) << read.fault().line();
    const proof::Verdict verdict = proof::prove_any(read->bodies[0].mesh);
    const auto first = std::find_if(verdict.checks.begin(), verdict.checks.end(),
                                    [](const proof::Check& c) { return !c.passed; });
    ASSERT_NE(first, verdict.checks.end()) << check;
    EXPECT_EQ(first->name, check);
  }
}

// ---- through the reader of all meshes

TEST(ThreemfReader, ReadMeshTakesItByContentToo) {
  const test::TempFolder folder;
  const std::string bytes = archive(package_of(good_model()));
  for (const char* name : {"a.3mf", "a.3MF", "package without ending"}) {
    const auto read = read_mesh(folder.put(name, bytes));
    ASSERT_TRUE(read) << read.fault().line();
    EXPECT_EQ(read->triangles.size(), 12u) << name;
    EXPECT_NEAR(test::volume(*read), 3000, 1e-3) << name;
  }
  EXPECT_TRUE(is_threemf(folder.file("a.3mf")));
  EXPECT_TRUE(is_threemf(folder.file("package without ending")));
  EXPECT_FALSE(is_threemf(folder.put("a.stl", "PK")));
  EXPECT_FALSE(is_threemf(folder.file("missing")));
}

}  // namespace
}  // namespace crownwright::files
