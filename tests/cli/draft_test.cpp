// The draft command, and pieces that `make` writes beside the form.
#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

class Draft : public testing::Test {
 protected:
  void put(const std::string& name, const std::string& text) { write_file(folder_.path() / name, text); }
  std::string get(const std::string& name) { return read_file(folder_.path() / name); }
  Names made(const std::string& folder = "out") { return files_in(folder_.path() / folder); }
  Outcome command(Names words) { return run(words, {.folder = folder_.path()}); }
  TemporaryFolder folder_;
};

std::string eight_panels(const std::string& more = {}) {
  return small_order("[pattern]\npanels = 8\n" + more);
}
Names panel_files(const std::string& stem) {
  Names names;
  for (const char* ending : {"a4.pdf", "dxf", "letter.pdf", "sheet.pdf", "svg"})
    names.push_back(stem + "/" + stem + ".panel." + ending);
  return names;
}

// The names of the files are the command's contract: a drawing for a cutter, paper for everyone else.
TEST_F(Draft, WritesThePanelAsDrawingsAndOnPaper) {
  put("b.toml", eight_panels());
  const Outcome outcome = command({"draft", "b.toml"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  EXPECT_EQ(made(), panel_files("b"));
  EXPECT_NE(outcome.out.find("Panel: cut 8"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("out/b/b.panel.svg"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("Print at 100 %"), std::string::npos) << outcome.out;
}

TEST_F(Draft, PutsTheBandInADrawingOfItsOwn) {
  put("b.toml", eight_panels("[band]\n"));
  ASSERT_EQ(command({"draft", "b.toml", "-q"}).exit_code, 0);
  EXPECT_TRUE(fs::exists(folder_.path() / "out/b/b.band.svg"));
  EXPECT_TRUE(fs::exists(folder_.path() / "out/b/b.band.dxf"));
  EXPECT_EQ(made().size(), 7u);
}

TEST_F(Draft, PrintsNothingButJsonWithJson) {
  put("b.toml", eight_panels("[band]\nstrips = 2\n"));
  const Outcome outcome = command({"draft", "b.toml", "--json", "--into", "patterns"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json all = Json::parse(outcome.out);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0]["name"], "Small block");
  EXPECT_EQ(all[0]["pieces"][0], (Json{{"name", "Panel"}, {"size", "57 cm"}, {"count", 8}}));
  int strips = 0;
  for (const Json& piece : all[0]["pieces"])
    if (piece["name"].get<std::string>().starts_with("Band")) strips += piece["count"].get<int>();
  EXPECT_EQ(strips, 2);
  EXPECT_EQ(all[0]["files"].size(), made("patterns").size());
  for (const Json& file : all[0]["files"]) EXPECT_TRUE(fs::exists(folder_.path() / file.get<std::string>()));
}

TEST_F(Draft, DraftsTopAndRing) {
  put("b.toml", small_order("[draft]\npieces = \"discs\"\n"));
  const Outcome outcome = command({"draft", "b.toml"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_NE(outcome.out.find("Top: cut 1"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("Ring: cut 1"), std::string::npos) << outcome.out;
  EXPECT_EQ(made(), panel_files("b"));
}

TEST_F(Draft, DraftsTheCoverOfAPad) {
  const std::string pad =
      "[measure]\ncrown_diameter = \"26 cm\"\nrise = \"55 mm\"\n[form]\nkind = \"pad\"\n[mesh]\n"
      "chord_tolerance = \"0.5 mm\"\n[draft]\n";
  put("p.toml", pad + "[cover]\n");
  ASSERT_EQ(command({"draft", "p.toml", "-q"}).exit_code, 0);
  EXPECT_EQ(made(), (Names{"p/p.cover.a4.pdf", "p/p.cover.dxf", "p/p.cover.letter.pdf", "p/p.cover.sheet.pdf",
                           "p/p.cover.svg"}));
  ASSERT_EQ(command({"make", "p.toml", "-q", "--into", "all"}).exit_code, 0);
  EXPECT_EQ(made("all").size(), 5u + form_files("p").size());
  put("bare.toml", pad);
  expect_fault(command({"draft", "bare.toml"}), 2, "[cover]");
}

// A run of sizes gets a folder a size, as `make` gives it.
TEST_F(Draft, DraftsEverySize) {
  put("b.toml", eight_panels("[sizes]\nsmaller = 1\nlarger = 0\nhead_step = \"2 cm\"\n"));
  ASSERT_EQ(command({"draft", "b.toml", "-q"}).exit_code, 0);
  EXPECT_EQ(made().size(), 10u);
  EXPECT_TRUE(fs::exists(folder_.path() / "out/b/b-55cm/b-55cm.panel.svg"));
  EXPECT_TRUE(fs::exists(folder_.path() / "out/b/b-57cm/b-57cm.panel.a4.pdf"));
}

// ---- faults ----------------------------------------------------------------------------------

TEST_F(Draft, WithoutPanelsTheOrderIsWrong) {
  put("b.toml", small_order());
  expect_fault(command({"draft", "b.toml"}), 2, "panels");
  EXPECT_EQ(made(), Names{});
}

// A rise so low and an edge so tight that four panels, lengths along the seam, cross their own arcs.
TEST_F(Draft, WhereTheLawHasNoPanelItNamesTheLeastCount) {
  const std::string tight =
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"30 cm\"\nrise = \"5 cm\"\n[shape]\ndome = \"2 "
      "mm\"\nedge_radius = \"5 mm\"\n[pattern]\nlength_along = \"seam\"\npanels = ";
  put("four.toml", tight + "4\n");
  const Outcome refused = command({"draft", "four.toml"});
  expect_fault(refused, 3, "the least panel count that works is ");
  EXPECT_EQ(made(), Names{});
  const std::string words = "least panel count that works is ";
  const int least = std::stoi(refused.err.substr(refused.err.find(words) + words.size()));
  put("least.toml", tight + std::to_string(least) + "\n");
  EXPECT_EQ(command({"draft", "least.toml", "-q"}).exit_code, 0);
  put("fewer.toml", tight + std::to_string(least - 1) + "\n");
  expect_fault(command({"draft", "fewer.toml"}), least - 1 < 4 ? 2 : 3, "panel");
}

TEST_F(Draft, AFormThatIsImpossibleIsRefused) {
  put("b.toml", impossible_order() + "[pattern]\npanels = 8\n");
  expect_fault(command({"draft", "b.toml"}), 3, "b.toml");
  expect_fault(command({"draft", "missing.toml"}), 4, "missing.toml");
}

TEST_F(Draft, OneBadOrderDoesNotStopTheOthers) {
  put("bad.toml", "x = 1\n");
  put("good.toml", eight_panels());
  const Outcome outcome = command({"draft", "bad.toml", "good.toml"});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_EQ(made(), panel_files("good"));
}

TEST_F(Draft, ReplacesItsOwnFilesAndLeavesForeignOnes) {
  put("b.toml", eight_panels());
  ASSERT_EQ(command({"draft", "b.toml", "-q"}).exit_code, 0);
  const std::string first = get("out/b/b.panel.svg"), pdf = get("out/b/b.panel.a4.pdf");
  ASSERT_EQ(command({"draft", "b.toml", "-q"}).exit_code, 0);
  EXPECT_EQ(get("out/b/b.panel.svg"), first);
  EXPECT_TRUE(get("out/b/b.panel.a4.pdf") == pdf) << "the same bytes";
  put("out/b/b.panel.dxf", "somebody else's");
  expect_fault(command({"draft", "b.toml"}), 4, "--force");
  EXPECT_EQ(get("out/b/b.panel.dxf"), "somebody else's");
  ASSERT_EQ(command({"draft", "b.toml", "--force", "-q"}).exit_code, 0);
  EXPECT_NE(get("out/b/b.panel.dxf"), "somebody else's");
}

// ---- make ------------------------------------------------------------------------------------

TEST_F(Draft, MakeWritesThePiecesWhenTheOrderAsks) {
  put("b.toml", eight_panels("[draft]\n"));
  ASSERT_EQ(command({"make", "b.toml", "-q"}).exit_code, 0);
  Names expected = panel_files("b");
  for (const std::string& more : form_files("b/b", {".fit.png", ".fit.svg"})) expected.push_back(more);
  std::sort(expected.begin(), expected.end());
  EXPECT_EQ(made(), expected);
  const Json report = Json::parse(get("out/b/b.report.json"));
  EXPECT_EQ(report["files"].size(), expected.size());
  // The same pieces as the draft command's.
  ASSERT_EQ(command({"draft", "b.toml", "-q", "--into", "again"}).exit_code, 0);
  EXPECT_TRUE(get("out/b/b.panel.dxf") == get("again/b/b.panel.dxf"));
}

TEST_F(Draft, MakeWritesTheChartAloneWithoutADraft) {
  put("b.toml", eight_panels());
  ASSERT_EQ(command({"make", "b.toml", "-q"}).exit_code, 0);
  EXPECT_EQ(made(), form_files("b/b", {".fit.png", ".fit.svg"}));
}

}  // namespace
}  // namespace crownwright::test
