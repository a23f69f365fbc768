// [mill] as it is read. Defaults and words are those of the keys' contract; 1 in = 25.4 mm exactly (1959).

#include <gtest/gtest.h>

#include "order/order_support.h"
#include "order/reader.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

Mill milled(const std::string& lines) {
  const auto order = read_order_text(test::plain_block + "[mill]\n" + lines, "test.toml");
  EXPECT_TRUE(order.ok()) << (order.ok() ? "" : order.fault().line()) << "\n" << lines;
  EXPECT_TRUE(!order.ok() || order->warnings.empty());
  return order.ok() ? order->mill.value_or(Mill()) : Mill();
}

std::string mill_refusal(const std::string& lines) {
  const auto order = read_order_text(test::plain_block + "[mill]\n" + lines, "test.toml");
  return order.ok() ? "taken" : order.fault().line();
}

Cutter tool_of(const std::string& text) { return milled("tool = '" + text + "'\n").tool; }

}  // namespace

TEST(MillKeys, StandOnlyWhereTheirTableDoes) {
  const auto order = read_order_text(test::plain_block, "test.toml");
  ASSERT_TRUE(order.ok());
  EXPECT_FALSE(order->mill);
}

TEST(MillKeys, HaveTheirDefaults) {
  Mill mill;
  mill.material = "pu-board-200";
  mill.tool = {Length(6, 1), CutterShape::ball};
  mill.flute = Length(25, 1);
  mill.stick_out = Length(60, 1);
  mill.holder = Length(25, 1);
  mill.edges = 2;
  mill.stock_sheets = Length(25, 1);
  mill.scallop = Length(5, 100);
  mill.accel = 200;
  mill.travel = {Length(300, 1), Length(300, 1), Length(80, 1)};
  mill.spoilboard = Length(18, 1);
  mill.cell = Length(25, 100);
  EXPECT_EQ(milled(""), mill);
}

TEST(MillKeys, TakeEveryKey) {
  const Mill mill = milled(
      "material = \"mdf\"\ntool = \"8 mm ball\"\nrough_tool = \"10 mm flat\"\ndrill = \"4 mm\"\n"
      "flute = \"30 mm\"\nstick_out = \"50 mm\"\nholder = \"20 mm\"\ndrill_flute = \"45 mm\"\nedges = 1\n"
      "stock_sheets = \"19 mm\"\nstock_size = \"400x350 mm\"\nsetup = \"tiers\"\nscallop = \"0.1 mm\"\n"
      "step_down = \"4 mm\"\nstep_over = \"3 mm\"\nfeed = \"900 mm/min\"\nspindle = \"12000 rpm\"\n"
      "accel = \"500 mm/s2\"\ntravel = \"600x400x100 mm\"\nspoilboard = \"12 mm\"\ndialect = \"plain\"\n"
      "cell = \"0.1 mm\"\n");
  Mill all;
  all.material = "mdf";
  all.tool = {Length(8, 1), CutterShape::ball};
  all.rough_tool = Cutter{Length(10, 1), CutterShape::flat};
  all.drill = Length(4, 1);
  all.flute = Length(30, 1);
  all.stick_out = Length(50, 1);
  all.holder = Length(20, 1);
  all.drill_flute = Length(45, 1);
  all.edges = 1;
  all.stock_sheets = Length(19, 1);
  all.stock_size = SheetSize{Length(400, 1), Length(350, 1)};
  all.setup = MillSetup::tiers;
  all.scallop = Length(1, 10);
  all.step_down = Length(4, 1);
  all.step_over = Length(3, 1);
  all.feed = 900;
  all.spindle = 12000;
  all.accel = 500;
  all.travel = {Length(600, 1), Length(400, 1), Length(100, 1)};
  all.spoilboard = Length(12, 1);
  all.dialect = NgcDialect::plain;
  all.cell = Length(1, 10);
  EXPECT_EQ(mill, all);
}

TEST(MillKeys, TakeACutterHoweverItIsWritten) {
  const Cutter quarter = {Length(635, 100), CutterShape::ball};
  for (const char* text :
       {"6.35 mm ball", "6.35mm ball", "1/4 in ball", "1/4\" ball", "¼ in  ball", "  0.635 cm ball "})
    EXPECT_EQ(tool_of(text), quarter) << text;
  EXPECT_EQ(milled("rough_tool = \"6 mm ball\"\n").rough_tool->shape, CutterShape::ball);
}

TEST(MillKeys, TakeADrillWithAndWithoutTheWord) {
  for (const char* text : {"3 mm", "3 mm drill", "3mm drill", "0.3 cm  drill "})
    EXPECT_EQ(milled("drill = \"" + std::string(text) + "\"\n").drill, Length(3, 1)) << text;
}

TEST(MillKeys, TakeTurnsAndAccelerationHoweverTheirUnitIsWritten) {
  for (const char* text : {"18000 rpm", "18000rpm", "18000 1/min", " 18000  1/min ", "36000/2 rpm"})
    EXPECT_EQ(milled("spindle = \"" + std::string(text) + "\"\n").spindle, 18000) << text;
  for (const char* text : {"250 mm/s2", "250 mm/s²", "250mm/s^2", "250 mm/s² "})
    EXPECT_EQ(milled("accel = \"" + std::string(text) + "\"\n").accel, 250) << text;
  EXPECT_NE(mill_refusal("spindle = \"180001/min\"\n").find("mill.spindle"), std::string::npos);
}

TEST(MillKeys, TakeEveryWordForWhatItSays) {
  EXPECT_EQ(milled("setup = \"auto\"\n").setup, MillSetup::automatic);
  EXPECT_EQ(milled("setup = \"one\"\n").setup, MillSetup::one);
  EXPECT_EQ(milled("setup = \"tiers\"\n").setup, MillSetup::tiers);
  EXPECT_EQ(milled("setup = \"turn-over\"\n").setup, MillSetup::turn_over);
  EXPECT_EQ(milled("dialect = \"rs274\"\n").dialect, NgcDialect::rs274);
  EXPECT_EQ(milled("dialect = \"plain\"\n").dialect, NgcDialect::plain);
}

// Each limit from both its sides.
TEST(MillKeys, AreRefusedJustBeyondWhatGoesTogether) {
  const std::vector<std::pair<std::string, std::string>> good_and_bad = {
      {"flute = \"40 mm\"\nstick_out = \"40 mm\"\n", "flute = \"40.1 mm\"\nstick_out = \"40 mm\"\n"},
      {"tool = \"10 mm ball\"\nholder = \"10 mm\"\n", "tool = \"10 mm ball\"\nholder = \"9.9 mm\"\n"},
      {"rough_tool = \"10 mm flat\"\nholder = \"10 mm\"\n",
       "rough_tool = \"10 mm flat\"\nholder = \"9.9 mm\"\n"},
      {"drill = \"7 mm\"\nholder = \"7 mm\"\n", "drill = \"7 mm\"\nholder = \"6.9 mm\"\n"},
      {"drill = \"3 mm\"\ndrill_flute = \"60 mm\"\n", "drill = \"3 mm\"\ndrill_flute = \"60.1 mm\"\n"},
      {"tool = \"20 mm ball\"\nflute = \"10 mm\"\n", "tool = \"20 mm ball\"\nflute = \"9.9 mm\"\n"},
      {"rough_tool = \"20 mm flat\"\nflute = \"9.9 mm\"\n",
       "rough_tool = \"20 mm ball\"\nflute = \"9.9 mm\"\n"},
      {"tool = \"1 mm ball\"\nscallop = \"0.49 mm\"\n", "tool = \"1 mm ball\"\nscallop = \"0.5 mm\"\n"},
      {"step_down = \"25 mm\"\n", "step_down = \"25.1 mm\"\n"},
      {"step_over = \"5.9 mm\"\n", "step_over = \"6 mm\"\n"},
      {"rough_tool = \"8 mm flat\"\nstep_over = \"7.9 mm\"\n",
       "rough_tool = \"8 mm flat\"\nstep_over = \"8 mm\"\n"},
  };
  for (const auto& [good, bad] : good_and_bad) {
    EXPECT_EQ(mill_refusal(good), "taken") << good;
    EXPECT_NE(mill_refusal(bad), "taken") << bad;
  }
}

TEST(MillKeys, SayThePlaceOfAFault) {
  EXPECT_EQ(mill_refusal("stick_out = \"20 mm\"\n").rfind("test.toml:6:1: mill.stick_out: a flute of 25", 0),
            0u)
      << mill_refusal("stick_out = \"20 mm\"\n");
  EXPECT_EQ(mill_refusal("tool = \"30 mm ball\"\n").rfind("test.toml:6:1: mill.tool: a holder of 25", 0), 0u)
      << mill_refusal("tool = \"30 mm ball\"\n");
  const std::string endless(5000, '9');
  for (const char* key : {"tool", "drill", "feed", "travel", "stock_size"}) {
    const std::string line = mill_refusal(std::string(key) + " = \"" + endless + " ball\"\n");
    EXPECT_LT(line.size(), 1200u) << key;
    EXPECT_NE(line.find(std::string("mill.") + key), std::string::npos) << line;
  }
}

TEST(MillKeys, AreGivenOnTheCommandLineToo) {
  const std::vector<WrittenKey> options = {{"measure.head_girth", "57 cm", "--head-girth"},
                                           {"measure.crown_diameter", "28 cm", "--crown-diameter"},
                                           {"measure.rise", "75 mm", "--rise"},
                                           {"mill.tool", "4 mm ball", "--set mill.tool"},
                                           {"mill.edges", "1", "--set mill.edges"},
                                           {"mill.spindle", "9000 1/min", "--set mill.spindle"}};
  const auto order = order_from_options(options, {}, "beret");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  ASSERT_TRUE(order->mill);
  EXPECT_EQ(order->mill->tool.diameter, Length(4, 1));
  EXPECT_EQ(order->mill->edges, 1);
  EXPECT_EQ(order->mill->spindle, 9000);
  EXPECT_EQ(order->mill->holder, Length(25, 1));
}
