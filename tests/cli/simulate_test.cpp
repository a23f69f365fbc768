// crownwright simulate, and make with a [mill], as a person runs them.
#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

const std::string pad_to_mill =
    "name = \"Small pad\"\n[measure]\ncrown_diameter = \"100 mm\"\nrise = \"18 mm\"\ntaken_at = \"form\"\n"
    "[shape]\ndome = \"4 mm\"\nedge_radius = \"9 mm\"\n[form]\nkind = \"pad\"\n"
    "[mesh]\nchord_tolerance = \"0.2 mm\"\n[mill]\nmaterial = \"xps\"\nstock_sheets = \"20 mm\"\n";

class Simulate : public ::testing::Test {
 protected:
  void SetUp() override {
    write_file(folder_.path() / "pad.toml", pad_to_mill);
    made_ = run({"make", "pad.toml", "--json"}, {.folder = folder_.path()});
    ASSERT_EQ(made_.exit_code, 0) << made_.err;
  }
  Outcome simulate(std::vector<std::string> words) {
    words.insert(words.begin(), "simulate");
    return run(words, {.folder = folder_.path()});
  }
  std::string program(const std::string& pass) { return "out/pad/pad." + pass + ".ngc"; }
  TemporaryFolder folder_;
  Outcome made_;
};

TEST_F(Simulate, MakeWritesProgramsAndSaysWhatTheyDo) {
  const Json mill = Json::parse(made_.out)["mill"];
  EXPECT_LE(mill["gouge_max_mm"].get<double>(), 0.02);
  EXPECT_LE(mill["scallop_max_mm"].get<double>(), 0.06);
  EXPECT_EQ(mill["rapids_in_stock"], 0);
  EXPECT_EQ(mill["sheets"], 1);
  ASSERT_EQ(mill["setups"].size(), 1u);
  const Json& setup = mill["setups"][0];
  EXPECT_EQ(setup["files"].size(), 2u);
  for (const Json& file : setup["files"])
    EXPECT_TRUE(fs::exists(folder_.path() / file.get<std::string>())) << file;
  EXPECT_EQ(setup["tool"], "6 mm ball");
  EXPECT_EQ(setup["face_down_z_mm"], 0);
  EXPECT_EQ(setup["flipped"], false);
  EXPECT_DOUBLE_EQ(setup["stock_max_mm"][2].get<double>(), 20);
  EXPECT_GT(mill["path_mm"].get<double>(), mill["air_mm"].get<double>());
  const Outcome text = run({"make", "pad.toml"}, {.folder = folder_.path()});
  EXPECT_NE(text.out.find("Trial cut"), std::string::npos) << text.out;
  EXPECT_NE(text.out.find("eye protection"), std::string::npos);
}

TEST_F(Simulate, PassesWhatMakeWrote) {
  const Outcome outcome = simulate({program("rough"), program("finish"), "--order", "pad.toml", "--json"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const Json trial = Json::parse(outcome.out);
  const Json mill = Json::parse(made_.out)["mill"];
  EXPECT_EQ(trial["within_limits"], true);
  EXPECT_EQ(trial["gouge_max_mm"], mill["gouge_max_mm"]);
  EXPECT_EQ(trial["rest_max_mm"], mill["scallop_max_mm"]);
  const Outcome text = simulate({program("rough"), program("finish"), "--order", "pad.toml"});
  EXPECT_NE(text.out.find("all kept"), std::string::npos) << text.out;
  EXPECT_NE(text.out.find("between two samples nothing is looked at"), std::string::npos);
  EXPECT_EQ(
      simulate({program("rough"), program("finish"), "--order", "pad.toml", "--setup", "one", "--quiet"}).out,
      "");
}

TEST_F(Simulate, TellsAGougeWithExitFive) {
  std::string text = read_file(folder_.path() / program("finish"));
  const auto end = text.rfind("G0 Z");
  text.insert(end, "G1 X0 Y0 Z5\n");
  write_file(folder_.path() / "bad.finish.ngc", text);
  const Outcome outcome = simulate({program("rough"), "bad.finish.ngc", "--order", "pad.toml"});
  expect_fault(outcome, 5, "into the form");
  EXPECT_NE(outcome.out.find("bad.finish.ngc"), std::string::npos);
}

TEST_F(Simulate, TellsWhatCannotBeReadWithItsLine) {
  write_file(folder_.path() / "odd.ngc", "G21 G17 G90 G94\nG0 Z30\nG5 X1\nM2\n");
  expect_fault(simulate({"odd.ngc", "--order", "pad.toml"}), 2, "odd.ngc:3");
  expect_fault(simulate({"none.ngc", "--order", "pad.toml"}), 4, "none.ngc");
  expect_fault(simulate({program("finish"), "--order", "none.toml"}), 4, "none.toml");
  expect_fault(simulate({program("finish")}), 2, "--order");
  expect_fault(simulate({program("finish"), "--order", "pad.toml", "--setup", "tier-3"}), 2, "tier-3");
}

TEST_F(Simulate, AnOrderThatIsRefusedWritesNothing) {
  write_file(folder_.path() / "short.toml", pad_to_mill + "flute = \"6 mm\"\nstick_out = \"9 mm\"\n");
  const Outcome outcome = run({"make", "short.toml"}, {.folder = folder_.path()});
  expect_fault(outcome, 3, "short.toml");
  EXPECT_FALSE(fs::exists(folder_.path() / "out/short"));
  EXPECT_NE(outcome.err.find("24"), std::string::npos) << outcome.err;  // 20 high, 3 below, 1 clear
}

// Roughing that leaves 3 mm makes the finishing tool go straight down into them at the pole: the trial cut
// finds it, and no file is written.
TEST_F(Simulate, ProgramsThatFailTheirTrialAreNotWritten) {
  fs::copy(CW_SOURCE_DIR "/profiles", folder_.path() / "profiles", fs::copy_options::recursive);
  const fs::path foam = folder_.path() / "profiles/materials/xps.toml";
  std::string text = read_file(foam);
  const auto at = text.find("value", text.find("leave"));
  text.replace(at, text.find(',', at) - at, "value = 3.0");
  write_file(foam, text);
  write_file(folder_.path() / "thick.toml", pad_to_mill);
  const Outcome outcome = run({"make", "thick.toml", "--profiles", "profiles"}, {.folder = folder_.path()});
  expect_fault(outcome, 5, "thick.toml");
  EXPECT_NE(outcome.err.find("straight down"), std::string::npos) << outcome.err;
  EXPECT_FALSE(fs::exists(folder_.path() / "out/thick"));
}

}  // namespace
}  // namespace crownwright::test
