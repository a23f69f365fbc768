// `crownwright check FILE.3mf`: the samples of the 3MF Consortium (tests/cases/3mf, BSD 2-Clause) through the
// real program, and packages whose meshes are broken.

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/program.h"
#include "files/packages.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

TEST(CheckThreemf, SamplesPassOrFailAsTheirNamesSay) {
  const TemporaryFolder folder;
  int passed = 0, failed = 0;
  for (const auto& entry : std::filesystem::directory_iterator(CW_TEST_DIR "/cases/3mf")) {
    if (entry.path().extension() != ".3mf") continue;
    const std::string name = entry.path().filename();
    SCOPED_TRACE(name);
    const Outcome outcome = run({"check", entry.path().string(), "--json"}, {.folder = folder.path()});
    if (name.starts_with("MUSTFAIL")) {
      ++failed;
      expect_fault(outcome, 4, name);
      EXPECT_EQ(outcome.out, "");
    } else {
      ++passed;
      EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
      EXPECT_EQ(Json::parse(outcome.out)["passed"], true);
    }
  }
  EXPECT_EQ(passed, 8);
  EXPECT_EQ(failed, 18);
}

TEST(CheckThreemf, JsonHoldsEveryItem) {
  const TemporaryFolder folder;
  write_file(folder.path() / "a.3mf", archive(package_of(good_model())));
  const Outcome outcome = run({"check", "a.3mf", "--json"}, {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json["triangles"], 12);
  EXPECT_EQ(json["shells"], 3);
  EXPECT_NEAR(json["volume_mm3"].get<double>(), 3000, 1e-3);
  ASSERT_EQ(json["items"].size(), 2u);
  EXPECT_EQ(json["items"][0]["name"], "corner");
  EXPECT_EQ(json["items"][1]["name"], "pair");
  EXPECT_EQ(json["items"][1]["triangles"], 8);
  EXPECT_EQ(json["items"][1]["passed"], true);
  // Items at 5..15 and 0..60 in x, 0..26 in y, 0..37 in z.
  EXPECT_EQ(json["size"], Json::parse("[60.0, 26.0, 37.0]"));
  const Outcome text = run({"check", "a.3mf"}, {.folder = folder.path()});
  EXPECT_NE(text.out.find("Item       corner: 10 x 20 x 30 mm, 1 cm3"), std::string::npos) << text.out;
  EXPECT_NE(text.out.find("Proved"), std::string::npos);
}

TEST(CheckThreemf, OneBrokenItemFailsThePackage) {
  const TemporaryFolder folder;
  mesh::TriangleMesh flipped = tetrahedron();
  std::swap(flipped.triangles[2][0], flipped.triangles[2][1]);
  const std::string good = mesh_markup(tetrahedron()), bad = mesh_markup(flipped);
  std::string model = good_model();
  const std::string second = "<object id=\"7\" name=\"lid\">" + bad + "</object></resources>";
  model = with(with(model, "</resources>", second), "</build>",
               "<item objectid=\"7\" transform=\"1 0 0 0 1 0 0 0 1 200 0 0\"/></build>");
  write_file(folder.path() / "a.3mf", archive(package_of(model)));
  const Outcome outcome = run({"check", "a.3mf", "--json"}, {.folder = folder.path()});
  expect_fault(outcome, 5, "a.3mf: the proof failed, closed, every edge used once each way: lid: ");
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json["passed"], false);
  EXPECT_EQ(json["items"][0]["passed"], true);
  EXPECT_EQ(json["items"][2]["passed"], false);
}

TEST(CheckThreemf, HostilePackagesAreRefused) {
  const TemporaryFolder folder;
  const std::string good = archive(package_of(good_model()));
  const std::pair<std::string, std::string> cases[] = {
      {good.substr(0, good.size() / 2), "is no whole ZIP archive"},
      {with(good, "3D/a.model", "../a.model"), "which leads out of the package"},
      {archive(package_of(with(good_model(), "0 0 0 1 5 6 7", "0 0 0 -1 5 6 7"))), "mirrors what it places"},
      {archive(package_of(with(good_model(), "v3=\"3\"", "v3=\"9\""))), "names a vertex that is not there"},
      {"PK\3\4 but no more", "is no whole ZIP archive"}};
  for (const auto& [bytes, what] : cases) {
    write_file(folder.path() / "a.3mf", bytes);
    const Outcome outcome = run({"check", "a.3mf"}, {.folder = folder.path()});
    expect_fault(outcome, 4, what);
  }
}

}  // namespace
}  // namespace crownwright::test
