#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

class Make : public testing::Test {
 protected:
  void put(const std::string& name, const std::string& text) { write_file(folder_.path() / name, text); }
  std::string get(const std::string& name) { return read_file(folder_.path() / name); }
  Names files() { return files_in(folder_.path()); }
  Outcome make(Names words, const std::string& input = {}) {
    words.insert(words.begin(), "make");
    return run(words, {.folder = folder_.path(), .input = input});
  }
  TemporaryFolder folder_;
};

TEST_F(Make, WritesMeshAndReportIntoOut) {
  put("market.toml", small_order());
  const Outcome outcome = make({"market.toml"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");  // no progress where nobody sees it
  fs::remove(folder_.path() / "market.toml");
  EXPECT_EQ(files(), form_files("out/market/market"));
  EXPECT_NE(outcome.out.find("Small block (block)"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("out/market/market.stl"), std::string::npos) << outcome.out;
  const Json report = Json::parse(get("out/market/market.report.json"));
  EXPECT_EQ(report["files"],
            (Names{"market.stl", "market.3mf", "market.glb", "market.profile.svg", "market.profile.dxf",
                   "market.sheet.a4.pdf", "market.sheet.html", "market.picture.png", "market.report.json"}));
  // The binary STL's own count (bytes 80 to 83, little-endian) against the report's and the file's size.
  const std::string stl = get("out/market/market.stl");
  ASSERT_GE(stl.size(), 84u);
  std::size_t count = 0;
  for (std::size_t i = 0; i < 4; ++i)
    count |= static_cast<std::size_t>(static_cast<unsigned char>(stl[80 + i])) << (8 * i);
  EXPECT_EQ(stl.size(), 84 + 50 * count);
  EXPECT_EQ(report["mesh"]["triangles"], count);
}

TEST_F(Make, WritesEveryFormatThatWasOrdered) {
  put("all.toml", small_order("formats = [\"stl\", \"obj\", \"ply\"]\n"));
  ASSERT_EQ(make({"all.toml", "--into", "forms/new", "--quiet"}).exit_code, 0);
  EXPECT_EQ(files_in(folder_.path() / "forms"), form_files("new/all/all", {".obj", ".ply"}));
}

TEST_F(Make, GivesTheSameBytesEveryTime) {
  put("a.toml", small_order("[vents]\ndiameter = \"3 mm\"\n"));
  ASSERT_EQ(make({"a.toml", "--into", "one", "-q"}).exit_code, 0);
  ASSERT_EQ(make({"a.toml", "--into", "two", "-q"}).exit_code, 0);
  ASSERT_EQ(make({"a.toml", "--into", "two", "-q"}).exit_code, 0)
      << "its own files are replaced without --force";
  EXPECT_EQ(get("one/a/a.stl"), get("two/a/a.stl"));
  EXPECT_EQ(get("one/a/a.report.json"), get("two/a/a.report.json"));
  EXPECT_FALSE(get("one/a/a.stl").empty());
}

TEST_F(Make, IsSilentWhenQuiet) {
  put("a.toml", small_order());
  const Outcome outcome = make({"a.toml", "--quiet"});
  EXPECT_EQ(outcome.exit_code, 0);
  EXPECT_EQ(outcome.out + outcome.err, "");
  const Outcome json = make({"a.toml", "--quiet", "--json"});
  EXPECT_EQ(json.out + json.err, "");
}

TEST_F(Make, PrintsNothingButJsonWithJson) {
  put("a.toml", small_order());
  const Outcome outcome = make({"a.toml", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  Json printed = Json::parse(outcome.out);
  EXPECT_EQ(printed["files"], (Names{"out/a/a.stl", "out/a/a.3mf", "out/a/a.glb", "out/a/a.profile.svg",
                                     "out/a/a.profile.dxf", "out/a/a.sheet.a4.pdf", "out/a/a.sheet.html",
                                     "out/a/a.picture.png", "out/a/a.report.json"}));
  Json kept = Json::parse(get("out/a/a.report.json"));
  // Paths there, names here: of the part too.
  EXPECT_EQ(printed["parts"][0]["file"], "out/a/a.stl");
  EXPECT_EQ(kept["parts"][0]["file"], "a.stl");
  for (Json* report : {&printed, &kept}) report->erase("files"), (*report)["parts"][0].erase("file");
  EXPECT_EQ(printed, kept);
}

TEST_F(Make, ReadsStandardInput) {
  const Outcome outcome = make({"-", "-q"}, small_order());
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(files(), form_files("out/order/order"));
  expect_fault(make({"-"}, "[measure]\nrise = 7\n"), 2, "order:2:");
}

TEST_F(Make, ColoursOnlyWhenAsked) {
  put("a.toml", small_order());
  EXPECT_EQ(make({"a.toml"}).out.find('\x1b'), std::string::npos);  // a pipe is no terminal
  EXPECT_NE(make({"a.toml", "--color", "always"}).out.find('\x1b'), std::string::npos);
  EXPECT_EQ(make({"a.toml", "--color", "never"}).out.find('\x1b'), std::string::npos);
}

TEST_F(Make, OneBadOrderDoesNotStopTheOthers) {
  put("bad.toml", "[measure]\nrise = \"7.5 parsec\"\n");
  put("good.toml", small_order());
  put("hopeless.toml", impossible_order());
  const Outcome outcome = make({"hopeless.toml", "bad.toml", "missing.toml", "good.toml"});
  EXPECT_EQ(outcome.exit_code, 3);  // of the first that failed
  EXPECT_EQ(std::count(outcome.err.begin(), outcome.err.end(), '\n'), 3) << outcome.err;
  EXPECT_NE(outcome.err.find("hopeless.toml"), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("bad.toml:2:8: measure.rise"), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("missing.toml"), std::string::npos) << outcome.err;
  EXPECT_TRUE(fs::exists(folder_.path() / "out/good/good.stl"));
  EXPECT_FALSE(fs::exists(folder_.path() / "out/bad"));
  EXPECT_FALSE(fs::exists(folder_.path() / "out/hopeless"));
}

TEST_F(Make, GivesTheCautionsOnceBelowAllReports) {
  put("a.toml", small_order());
  put("b.toml", small_order());
  const std::string out = make({"a.toml", "b.toml"}).out;
  const auto care = out.find("\nCare ");
  ASSERT_NE(care, std::string::npos) << out;
  EXPECT_EQ(out.find("\nCare ", care + 1), std::string::npos) << out;
  EXPECT_GT(care, out.find("out/b/b.report.json")) << out;
}

TEST_F(Make, GivesOneArrayForSeveralOrders) {
  put("a.toml", small_order());
  put("bad.toml", "x = 1\n");
  const Outcome outcome = make({"a.toml", "bad.toml", "--json"});
  EXPECT_EQ(outcome.exit_code, 2);
  const Json array = Json::parse(outcome.out);
  ASSERT_EQ(array.size(), 2u);
  EXPECT_EQ(array[0]["name"], "Small block");
  EXPECT_EQ(array[1]["order"], "bad.toml");
  EXPECT_EQ(array[1]["fault"]["exit"], 2);
}

TEST_F(Make, EveryKindOfFaultHasItsExitCode) {
  put("wrong.toml", "[measure]\nhead_girth = \"57\"\n");
  put("hopeless.toml", impossible_order());
  expect_fault(make({"wrong.toml"}), 2, "wrong.toml:2:14: measure.head_girth");
  expect_fault(make({"hopeless.toml"}), 3, "hopeless.toml");
  expect_fault(make({"missing.toml"}), 4, "missing.toml");
  expect_fault(make({"."}), 2, "not the name of an order file");
  put("cloth.toml", small_order("[shape]\nprofile = \"softdome\"\n"));
  expect_fault(make({"cloth.toml"}), 2, "soft-dome");
  EXPECT_EQ(files_in(folder_.path() / "out"), Names{});
}

TEST_F(Make, LeavesAForeignFileAlone) {
  put("a.toml", small_order());
  fs::create_directories(folder_.path() / "out/a");
  put("out/a/a.stl", "somebody else's");
  expect_fault(make({"a.toml"}), 4, "--force");
  EXPECT_EQ(get("out/a/a.stl"), "somebody else's");
  EXPECT_EQ(files_in(folder_.path() / "out"), (Names{"a/a.stl"}));
  EXPECT_EQ(make({"a.toml", "--force", "-q"}).exit_code, 0);
  EXPECT_GT(get("out/a/a.stl").size(), 1000u);
}

TEST_F(Make, SaysWhenTheFolderCannotBeMade) {
  put("a.toml", small_order());
  put("out", "a file in the way");
  expect_fault(make({"a.toml"}), 4, "out");
  EXPECT_EQ(get("out"), "a file in the way");
  EXPECT_EQ(files(), (Names{"a.toml", "out"}));
}

TEST_F(Make, LeavesNothingHalfWrittenWhenInterrupted) {
  put("a.toml",
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"7.5 cm\"\n[vents]\nspacing = "
      "\"6 mm\"\n"
      "[mesh]\nchord_tolerance = \"0.003 mm\"\nformats = [\"stl\", \"obj\", \"ply\"]\n");
  int interrupted = 0;
  for (const int milliseconds : {50, 300, 1200}) {
    for (const int signal : {SIGINT, SIGTERM}) {
      Process process({"make", "a.toml", "--into", "broken"}, {.folder = folder_.path()});
      std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
      ::kill(process.id(), signal);
      const Outcome outcome = process.finish();
      if (outcome.exit_code == 0) continue;     // was quicker than the signal
      if (outcome.exit_code >= 1000) continue;  // not yet begun: the handler was not in place
      EXPECT_EQ(outcome.exit_code, 130) << outcome.err;
      expect_one_line(outcome.err);
      ++interrupted;
      // Whole files may stand there, never one under an unfinished name.
      for (const std::string& name : files_in(folder_.path() / "broken")) {
        EXPECT_TRUE(name == "a/a.stl" || name == "a/a.obj" || name == "a/a.ply" || name == "a/a.report.json")
            << name;
      }
    }
  }
  EXPECT_GT(interrupted, 0);
}

}  // namespace
}  // namespace crownwright::test
