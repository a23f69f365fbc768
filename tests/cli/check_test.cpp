#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

std::string facet(const char* a, const char* b, const char* c) {
  return std::string("facet normal 0 0 0\nouter loop\nvertex ") + a + "\nvertex " + b + "\nvertex " + c +
         "\nendloop\nendfacet\n";
}

// A corner of a box: the tetrahedron of volume 10 * 20 * 30 / 6 = 1000 mm3.
std::string stl_corner(bool is_whole) {
  const char *o = "0 0 0", *x = "10 0 0", *y = "0 20 0", *z = "0 0 30";
  return "solid t\n" + facet(o, y, x) + facet(o, x, z) + facet(o, z, y) + (is_whole ? facet(x, y, z) : "") +
         "endsolid t\n";
}

TEST(Check, ProvesAGoodFile) {
  const TemporaryFolder folder;
  write_file(folder.path() / "t.stl", stl_corner(true));
  const Outcome outcome = run({"check", "t.stl", "--json"}, {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json["passed"], true);
  EXPECT_EQ(json["triangles"], 4);
  EXPECT_EQ(json["vertices"], 4);
  EXPECT_EQ(json["genus"], 0);
  EXPECT_NEAR(json["volume_mm3"].get<double>(), 1000, 1e-3);
  EXPECT_NE(run({"check", "t.stl"}, {.folder = folder.path()}).out.find("Proved"), std::string::npos);
}

TEST(Check, RefusesAnOpenOneWithExitFive) {
  const TemporaryFolder folder;
  write_file(folder.path() / "t.stl", stl_corner(false));
  const Outcome outcome = run({"check", "t.stl"}, {.folder = folder.path()});
  expect_fault(outcome, 5, "t.stl: the proof failed");
  EXPECT_NE(outcome.out.find("FAILED"), std::string::npos) << outcome.out;
  const Outcome quiet = run({"check", "t.stl", "--quiet"}, {.folder = folder.path()});
  EXPECT_EQ(quiet.out, "");
  expect_fault(quiet, 5, "t.stl");
  EXPECT_EQ(Json::parse(run({"check", "t.stl", "--json"}, {.folder = folder.path()}).out)["passed"], false);
}

TEST(Check, ReadsOtherFormatsInAChild) {
  const TemporaryFolder folder;
  write_file(folder.path() / "t.off",
             "OFF\n4 4 6\n0 0 0\n10 0 0\n0 20 0\n0 0 30\n3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n");
  const Outcome outcome = run({"check", "t.off", "--json"}, {.folder = folder.path()});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err << outcome.out;
  EXPECT_NEAR(Json::parse(outcome.out)["volume_mm3"].get<double>(), 1000, 1e-3);
}

TEST(Check, SaysWhatCannotBeRead) {
  const TemporaryFolder folder;
  const RunRules here{.folder = folder.path()};
  write_file(folder.path() / "empty.stl", "");
  write_file(folder.path() / "words.stl", "these are only words\n");
  write_file(folder.path() / "broken.ply",
             "ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\n"
             "element face 9\nproperty list uchar int vertex_index\nend_header\n0 0 0\n");
  fs::create_directory(folder.path() / "folder.stl");
  fs::create_symlink("loop.stl", folder.path() / "loop.stl");
  for (const std::string name :
       {"missing.stl", "empty.stl", "words.stl", "broken.ply", "folder.stl", "loop.stl"}) {
    SCOPED_TRACE(name);
    const Outcome outcome = run({"check", name}, here);
    expect_fault(outcome, 4, name);
    EXPECT_EQ(outcome.out, "");
  }
}

TEST(Check, ProvesWhatMakeWrote) {
  const TemporaryFolder folder;
  const RunRules here{.folder = folder.path()};
  write_file(
      folder.path() / "v.toml",
      small_order(
          "formats = [\"stl\", \"obj\", \"ply\"]\n[vents]\ndiameter = \"4 mm\"\nspacing = \"40 mm\"\n"));
  ASSERT_EQ(run({"make", "v.toml", "-q"}, here).exit_code, 0);
  const Json report = Json::parse(read_file(folder.path() / "out/v/v.report.json"));
  for (const std::string ending : {"stl", "obj", "ply"}) {
    const Outcome outcome = run({"check", "out/v/v." + ending, "--json"}, here);
    ASSERT_EQ(outcome.exit_code, 0) << ending << outcome.err;
    const Json json = Json::parse(outcome.out);
    EXPECT_EQ(json["triangles"], report["mesh"]["triangles"]) << ending;
    EXPECT_EQ(json["genus"], report["mesh"]["genus"]) << ending;
    EXPECT_NEAR(json["volume_mm3"].get<double>(), report["measured"]["volume_mm3"].get<double>(), 0.5)
        << ending;
  }
}

}  // namespace
}  // namespace crownwright::test
