// Drawn patterns through the program: what is read, and what broken drawings say.
#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

class DrawnPattern : public testing::Test {
 protected:
  void SetUp() override {
    // The drawing is the program's own, of the cloth's middle on a crown of 280 mm.
    put("beret.toml",
        "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"75 mm\"\ntaken_at = \"cloth "
        "middle\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n[pattern]\npanels = 8\nseam_allowance "
        "= "
        "\"10 mm\"\n");
    ASSERT_EQ(command({"draft", "beret.toml", "-q", "--into", "."}).exit_code, 0);
  }

  void put(const std::string& name, const std::string& text) { write_file(folder_.path() / name, text); }
  std::string get(const std::string& name) { return read_file(folder_.path() / name); }
  Outcome command(Names words) { return run(words, {.folder = folder_.path()}); }
  Names made() { return files_in(folder_.path() / "out"); }

  /// An order of the drawing; its fault with nothing written.
  void refuses(const std::string& pattern, int exit_code, const std::string& part) {
    SCOPED_TRACE(pattern);
    put("read.toml", reading(pattern));
    for (const char* word : {"make", "draft"}) expect_fault(command({word, "read.toml"}), exit_code, part);
    EXPECT_EQ(made(), Names{}) << "nothing is left half-written";
  }

  static std::string reading(const std::string& pattern) {
    return "[shape]\ndome = \"6 mm\"\n[cloth]\nname = \"fleece\"\n[mesh]\nchord_tolerance = \"0.4 mm\"\n"
           "[pattern]\nkind = \"outline\"\npanels = 8\n" +
           pattern;
  }
  TemporaryFolder folder_;
};

const char svg_head[] =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"300mm\" "
    "viewBox=\"0 0 100 300\">";

TEST_F(DrawnPattern, IsReadAndItsFormMade) {
  put("read.toml", reading("file = \"beret/beret.panel.dxf\"\nlayer = \"14\"\n"));
  const Outcome outcome = command({"make", "read.toml"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(made(), form_files("read/read", {".fit.png", ".fit.svg"}));
  const Json report = Json::parse(get("out/read/read.report.json"));
  // The cloth's middle less half of 3 mm all round.
  EXPECT_NEAR(report["form"]["crown_diameter"].get<double>(), 280 - 3, 0.1);
  EXPECT_NEAR(report["form"]["head_girth"].get<double>(), 570 - 2 * 3.14159265 * 1.5, 0.1);
  EXPECT_NEAR(report["pattern"]["values"]["rise"]["mm"].get<double>(), 75, 0.5);
  EXPECT_EQ(report["fit"]["drafted"], false);
  EXPECT_NE(outcome.out.find("8 panels sew up to a crown"), std::string::npos) << outcome.out;
}

// The path is found from the order's folder, not from where the program is called.
TEST_F(DrawnPattern, IsFoundBesideItsOrder) {
  put("beret/read.toml", reading("file = \"beret.panel.svg\"\nlayer = \"panel-sew\"\n"));
  EXPECT_EQ(command({"make", "beret/read.toml", "-q"}).exit_code, 0);
}

TEST_F(DrawnPattern, CutLineWithItsAllowanceGivesTheSameForm) {
  put("sew.toml", reading("file = \"beret/beret.panel.svg\"\nlayer = \"panel-sew\"\n"));
  put("cut.toml", reading("file = \"beret/beret.panel.svg\"\nlayer = \"panel-cut\"\nseam_allowance = \"10 "
                          "mm\"\nincludes_allowance = true\n"));
  ASSERT_EQ(command({"make", "sew.toml", "cut.toml", "-q"}).exit_code, 0);
  const Json sew = Json::parse(get("out/sew/sew.report.json")),
             cut = Json::parse(get("out/cut/cut.report.json"));
  for (const char* figure : {"crown_diameter", "head_girth", "rise"})
    EXPECT_NEAR(sew["form"][figure].get<double>(), cut["form"][figure].get<double>(), 0.1) << figure;
}

// ---- broken ----------------------------------------------------------------------------------

TEST_F(DrawnPattern, AMissingFileIsAFileFault) {
  refuses("file = \"nowhere.svg\"\n", 4, "nowhere.svg");
  refuses("file = \"beret\"\n", 4, "beret");  // a folder
}

TEST_F(DrawnPattern, WhatIsNoDrawingIsRefused) {
  put("text.svg", "Dear tailor,\n");
  refuses("file = \"text.svg\"\n", 2, "text.svg");
  put("cut.svg", get("beret/beret.panel.svg").substr(0, 500));
  refuses("file = \"cut.svg\"\n", 2, "cut.svg");
  put("empty.dxf", "");
  refuses("file = \"empty.dxf\"\n", 2, "empty.dxf");
}

TEST_F(DrawnPattern, AWrongLayerIsRefusedWithThoseThereAre) {
  refuses("file = \"beret/beret.panel.svg\"\nlayer = \"panel-sow\"\n", 2, "panel-sew");
  refuses("file = \"beret/beret.panel.dxf\"\nlayer = \"sew\"\n", 2, "14");
}

TEST_F(DrawnPattern, TwoOutlinesAreRefused) {
  put("two.svg", std::string(svg_head) +
                     "<path d=\"M50 0 L70 200 L30 200 Z\"/><path d=\"M50 210 L70 290 L30 "
                     "290 Z\"/></svg>");
  refuses("file = \"two.svg\"\n", 2, "two.svg");
  // Cut line and sew line of the whole drawing.
  refuses("file = \"beret/beret.panel.svg\"\n", 2, "beret.panel.svg");
}

TEST_F(DrawnPattern, ADrawingWithoutUnitsIsRefused) {
  std::string bare = get("beret/beret.panel.svg");
  for (const char* side : {"width=\"", "height=\""}) {
    const auto at = bare.find(side), end = bare.find('"', at + std::string(side).size());
    bare.erase(at, end + 1 - at);
  }
  put("bare.svg", bare);
  refuses("file = \"bare.svg\"\nlayer = \"panel-sew\"\n", 2, "carry no unit");
  put("read.toml", reading("file = \"bare.svg\"\nlayer = \"panel-sew\"\ndrawing_unit = \"mm\"\n"));
  EXPECT_EQ(command({"make", "read.toml", "-q"}).exit_code, 0) << "the order may say the unit";
}

TEST_F(DrawnPattern, WhatIsNoPanelIsRefusedWithThePlace) {
  const auto drawing = [&](const std::string& path) {
    put("drawn.svg", svg_head + ("<path d=\"" + path + "\"/></svg>"));
    return "file = \"drawn.svg\"\n";
  };
  refuses(drawing("M50 0 L70 200 L30 200"), 2, "drawn.svg: the outline is open: an end at (50, 0) mm");
  // y = 10 (x - 50) and y = 200 - 2.5 (x - 30) meet at x = 62.
  refuses(drawing("M50 0 L70 200 L30 200 L70 100 Z"), 2,
          "drawn.svg: the outline crosses or touches itself at (62, 120) mm");
  const std::string unlike = drawing("M50 0 L90 150 L70 200 L30 200 L40 150 Z");
  refuses(unlike, 2, "drawn.svg: the outline is not mirror-symmetric");
  refuses(unlike, 2, " mm at (");
}

// Panels 100 mm wide at 30 mm from the tip: eight of them have 800 mm of girth where a circle of 30 mm has
// 188.
TEST_F(DrawnPattern, MoreClothThanAnyFormTakesIsImpossible) {
  put("wide.toml",
      "[pattern]\nkind = \"stations\"\npanels = 8\nstations = [[\"0 mm\", \"0 mm\"], [\"15 mm\", \"60 mm\"], "
      "[\"30 mm\", \"100 mm\"], [\"60 mm\", \"100 mm\"], [\"120 mm\", \"100 mm\"], [\"200 mm\", \"70 "
      "mm\"]]\n");
  const Outcome outcome = command({"make", "wide.toml"});
  expect_fault(outcome, 3, "mm from the tip");
  EXPECT_EQ(made(), Names{});
}

TEST_F(DrawnPattern, StationsThatLeaveNoClothAreRefused) {
  put("eaten.toml",
      "[pattern]\nkind = \"stations\"\npanels = 8\nseam_allowance = \"20 mm\"\nincludes_allowance = true\n"
      "stations = [[\"0 mm\", \"0 mm\"], [\"50 mm\", \"35 mm\"], [\"100 mm\", \"39 mm\"], [\"150 mm\", \"35 "
      "mm\"]]\n");
  expect_fault(command({"make", "eaten.toml"}), 2, "eaten.toml:4:1: pattern.seam_allowance");
  put("narrow.toml",
      "[pattern]\nkind = \"stations\"\npanels = 8\nseam_allowance = \"12 mm\"\nincludes_allowance = true\n"
      "stations = [[\"0 mm\", \"0 mm\"], [\"50 mm\", \"60 mm\"], [\"100 mm\", \"20 mm\"], [\"150 mm\", \"60 "
      "mm\"]]\n");
  expect_fault(command({"make", "narrow.toml"}), 2, "is wider than the panel 100 mm from the tip");
  EXPECT_EQ(made(), Names{});
}

TEST_F(DrawnPattern, AWideRingIsWarnedOf) {
  put("discs.toml",
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\n[shape]\ndome = \"6 "
      "mm\"\n[cloth]\nname "
      "= \"fleece\"\n[mesh]\nchord_tolerance = \"0.4 mm\"\n[pattern]\nkind = \"discs\"\nincludes_allowance = "
      "false\ntop_diameter = \"300 mm\"\nring_diameter = \"320 mm\"\nring_opening = \"184 mm\"\n");
  const Outcome outcome = command({"make", "discs.toml", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json report = Json::parse(outcome.out);
  // pi 184 = 578 mm for a head of 570: general rule of the trade (common practice, no source).
  EXPECT_EQ(report["fit"]["opening"]["within_head_girth"], false);
  EXPECT_NE(report["warnings"].dump().find("head girth"), std::string::npos) << report["warnings"];
}

}  // namespace
}  // namespace crownwright::test
