// The samples of the 3MF Consortium (tests/cases/3mf, BSD 2-Clause, their licence beside them): five that
// must pass, three core examples, eighteen that must fail, each for the fault in its name.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "files/shapes.h"
#include "files/temp_folder.h"
#include "files/threemf_reader.h"
#include "proof/any_mesh.h"

namespace crownwright::files {
namespace {

const std::string samples = CW_TEST_DIR "/cases/3mf/";

// What the fault must say, so that each file fails for its own reason.
const std::map<std::string, std::string> must_fail{
    {"MUSTFAIL_Chapter2.1.1a_PartsRelationships_NonExist3DModelPart",
     "_rels/.rels: the package relates to no 3D model; exactly one"},
    {"MUSTFAIL_Chapter2.1.1b_PartsRelationships_LinkToExternal",
     "3D/_rels/3dmodel.model.rels:10: the relationship rel7 leads out of the package, to "
     "\"C:/Metadata/thumbnail.png\""},
    {"MUSTFAIL_Chapter2.1.2_PartsRelationships_MoreThanOne3DModelPart",
     "_rels/.rels:6: the package relates to more than one 3D model"},
    {"MUSTFAIL_Chapter2.1.3_PartsRelationships_NonExistThumbnailPart",
     "_rels/.rels:5: the thumbnail /Metadata/nothumbnailfile.png is not in the package"},
    {"MUSTFAIL_Chapter2.1.4_PartsRelationships_MoreThanOnePrintTicket",
     "3D/_rels/3dmodel.model.rels:4: the 3D model has more than one print ticket"},
    {"MUSTFAIL_Chapter2.3.2a_NonUTF_Encoding", "3D/3dmodel.model: is not encoded in UTF-8"},
    {"MUSTFAIL_Chapter2.3.2b_DataTypeDefinitionInXMLMarkup",
     "3D/3dmodel.model:2: has a document type definition (DTD)"},
    {"MUSTFAIL_Chapter2.3.2d_UndefinedXMLXSIInXSDSchema",
     "3D/3dmodel.model:3: attribute xsi:type of <dcterms:created> is drawn from the xsi namespace"},
    {"MUSTFAIL_Chapter2.3.4_WhiteSpace",
     "3D/3dmodel.model:2: attribute xml:space of <model> may not be used"},
    {"MUSTFAIL_Chapter3.4.1b_DuplicatedMetadataName",
     "3D/3dmodel.model:4: the metadata Title is given twice"},
    {"MUSTFAIL_Chapter3.4.3.1a_NotMatchingObjectIdInBuildItem",
     "3D/3dmodel.model:85: <item> refers to object 14, which is not defined before it"},
    {"MUSTFAIL_Chapter3.4.3.1b_BuildItemReferToObjectOfTypeOther",
     "<item> builds object 8, which is or holds one of type other"},
    {"MUSTFAIL_Chapter3.4a_MoreThanOneModel",
     "3D/3dmodel.model:88: has more than one outermost element, the second is <model>"},
    {"MUSTFAIL_Chapter3.4b_MissingBuildElement", "3D/3dmodel.model:2: the model has no <build>"},
    {"MUSTFAIL_Chapter3.4c_MissingResourceElement",
     "3D/3dmodel.model:11: the model has no <resources> before its <build>"},
    {"MUSTFAIL_Chapter4a_InvalidObjectType", "type=\"invalidtype\" of <object> is not valid"},
    {"MUSTFAIL_Chapter4b_PID_IsNotSpecified", "pindex of <object> is given without the pid it counts in"},
    {"MUSTFAIL_Chapter5a_DuplicatedBaseMaterials", "3D/3dmodel.model:16: the resource id 1 is given twice"}};

TEST(ThreemfSamples, EveryMustFailFailsForItsOwnReason) {
  EXPECT_EQ(must_fail.size(), 18u);
  for (const auto& [name, what] : must_fail) {
    const std::string path = samples + name + ".3mf";
    const auto read = read_threemf(path);
    ASSERT_FALSE(read) << name;
    EXPECT_EQ(read.fault().exit, ExitCode::file) << name;
    EXPECT_TRUE(read.fault().line().starts_with(path + ": ")) << read.fault().line();
    EXPECT_NE(read.fault().line().find(what), std::string::npos) << name << ": " << read.fault().line();
  }
}

struct Passing {
  std::string name;
  std::size_t items, bodies, loose;
  double volume;  // mm3, of all items
};

// Volumes: cubes of 10 mm, the box of 10 x 20 x 30; the stepped block of 2c is 20 x 6 x 8 + 10 x 6 x 24 + 10
// x 12 x 8 = 3360, twice stretched by 1.666667 x 1.25; the others were summed once from the corners in the
// files by a script of its own (divergence theorem, Python's decimal reading), 4.1 without its support.
const std::vector<Passing> must_pass{
    {"MUSTPASS_Chapter2.3a_IgnorableMarkup", 1, 1, 0, 1000},
    {"MUSTPASS_Chapter3.2b_UnitsMeasurementMM", 1, 1, 0, 1000},
    {"MUSTPASS_Chapter3.2c_MultipleItemsTransform", 2, 1, 0, 2 * 3360 * 1.666667 * 1.25},
    {"MUSTPASS_Chapter4.1_ExplicitSupport", 2, 2, 80, 10988.360860},
    {"MUSTPASS_Chapter4.2_Components", 1, 1, 0, 2 * 3360 * 1.666667 * 1.25},
    {"box", 1, 1, 0, 6000},
    {"multiple_cylinders", 6, 1, 0, 37188.557254},
    {"torus", 1, 1, 0, 776.8308}};

TEST(ThreemfSamples, EveryMustPassIsReadAndProved) {
  for (const Passing& sample : must_pass) {
    SCOPED_TRACE(sample.name);
    const auto read = read_threemf(samples + sample.name + ".3mf");
    ASSERT_TRUE(read) << read.fault().line();
    EXPECT_EQ(read->items.size(), sample.items);
    EXPECT_EQ(read->bodies.size(), sample.bodies);
    std::size_t loose = 0;
    for (const ThreemfBody& body : read->bodies) {
      loose += body.loose;
      if (body.mesh.triangles.empty()) continue;
      EXPECT_TRUE(proof::prove_any(body.mesh).passed()) << body.name;
    }
    EXPECT_EQ(loose, sample.loose);
    double volume = 0;
    for (const ThreemfItem& item : read->items) volume += test::volume(placed_body(*read, item));
    EXPECT_NEAR(volume, sample.volume, 1e-6 * sample.volume);
  }
}

TEST(ThreemfSamples, AreAllThere) {
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(samples)) {
    if (entry.path().extension() != ".3mf") continue;
    ++count;
    const std::string name = entry.path().stem();
    const bool passes =
        std::any_of(must_pass.begin(), must_pass.end(), [&](const Passing& p) { return p.name == name; });
    EXPECT_TRUE(passes || must_fail.contains(name)) << name;
  }
  EXPECT_EQ(count, 26u);
}

}  // namespace
}  // namespace crownwright::files
