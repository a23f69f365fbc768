#include "order/reader.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <sstream>

#include "order/keys.h"
#include "order/order_support.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

Order read(const std::string& text, const std::string& name = "test.toml") {
  const auto order = read_order_text(text, name);
  EXPECT_TRUE(order.ok()) << (order.ok() ? "" : order.fault().line());
  return order.ok() ? *order : Order();
}

std::string line_of(const std::string& text) {
  const auto order = read_order_text(text, "test.toml");
  return order.ok() ? "no fault" : order.fault().line();
}

std::string one_length(const Key& key, double mm) {
  std::ostringstream text;
  text << "[" << key.table << "]\n" << key.name << " = \"" << number_text(mm, 6) << " mm\"\n";
  return text.str();
}

const std::string pad = "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\n[form]\nkind = \"pad\"\n";

const std::string panel =
    "[pattern]\nkind = \"stations\"\npanels = 8\nstations = [[\"0 mm\", \"0 mm\"], [\"2 in\", \"47 mm\"], "
    "[\"135 mm\", \"106 mm\"], [\"205 mm\", \"2 3/4 in\"]]\n";
const std::string drawn_discs =
    "[pattern]\nkind = \"discs\"\ntop_diameter = \"30 cm\"\nring_diameter = \"31 cm\"\nring_opening = \"16 "
    "cm\"\n";

}  // namespace

// The figures written in the sample, by hand; 1 in = 25.4 mm exactly (1959).
TEST(Reader, TakesTheFiguresAsWritten) {
  const auto order = read_order_file(std::string(CW_SOURCE_DIR) + "/samples/parade-narrow-edge.toml");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  EXPECT_EQ(order->name, "Parade beret, crisp edge");
  EXPECT_EQ(order->measure.head_girth, Length(5588, 10));
  EXPECT_EQ(order->measure.crown_diameter, Length(269875, 1000));
  EXPECT_EQ(order->measure.rise, Length(53975, 1000));
  EXPECT_EQ(order->measure.taken_at, TakenAt::form);
  EXPECT_EQ(order->shape.profile, "narrow-edge");
  EXPECT_EQ(order->shape.edge_radius, Length(3175, 1000));
  EXPECT_EQ(order->form.wall, Length(396875, 100000));
  EXPECT_EQ(order->form.collar, Length(1905, 100));
  EXPECT_EQ(order->form.groove_depth, Length(15875, 10000));
  EXPECT_EQ(order->form.flange_width, Length(127, 10));
  EXPECT_EQ(order->form.foot_edge, FootEdge::round);
  EXPECT_FALSE(order->vents);
}

TEST(Reader, TakesLengthsOfPanelsWithoutARise) {
  const auto order = read_order_file(std::string(CW_SOURCE_DIR) + "/samples/drafted-panels.toml");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  ASSERT_TRUE(order->panel_lengths);
  EXPECT_EQ(order->panel_lengths->top, Length(1516, 10));
  EXPECT_EQ(order->panel_lengths->under, Length(715, 10));
  EXPECT_FALSE(order->measure.rise);
  EXPECT_FALSE(order->form.wall) << "solid";
  EXPECT_EQ(order->pattern.panels, 6);
}

// Published table (Wikipedia, "Hat", section "Hat size"): US 7 1/4 is 58 cm.
TEST(Reader, TurnsAHatSizeIntoAGirth) {
  const auto order = read_order_file(std::string(CW_SOURCE_DIR) + "/samples/winter-deep-block.toml");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  EXPECT_EQ(order->measure.head_girth, Length(580, 1));
  EXPECT_EQ(order->measure.hat_size, "US 7 1/4");
}

TEST(Reader, EverySampleIsGoodAndSaysWhatItShows) {
  const auto files = test::files_in(std::filesystem::path(CW_SOURCE_DIR) / "samples");
  ASSERT_GE(files.size(), 5u);
  for (const auto& file : files) {
    const auto order = read_order_file(file.string());
    ASSERT_TRUE(order.ok()) << order.fault().line();
    EXPECT_TRUE(order->warnings.empty()) << file;
    EXPECT_EQ(test::bytes_of(file).rfind("# ", 0), 0u) << file;
  }
}

// The defaults are those of the contract: wall 4 mm, collar 15 mm, chamfer 0.5 mm, tolerance 0.02 mm, STL.
TEST(Reader, FillsInWhatABlockLeavesOut) {
  const Order order = read(test::plain_block, "folder/my beret.toml");
  EXPECT_EQ(order.name, "my beret");
  EXPECT_EQ(order.form.kind, FormKind::block);
  EXPECT_EQ(order.form.wall, Length(4, 1));
  EXPECT_EQ(order.form.collar, Length(15, 1));
  EXPECT_EQ(order.form.foot_edge, FootEdge::chamfer);
  EXPECT_EQ(order.form.foot_edge_size, Length(5, 10));
  EXPECT_EQ(order.mesh.chord_tolerance, Length(2, 100));
  EXPECT_EQ(order.mesh.formats, std::vector<MeshFormat>{MeshFormat::stl});
  EXPECT_EQ(order.measure.taken_at, TakenAt::outside);
  EXPECT_EQ(order.shape.profile, "soft-dome");
  EXPECT_EQ(order.print.material, "petg");
  EXPECT_FALSE(order.mesh.ascii);
  EXPECT_FALSE(order.measure.before_steam);
  EXPECT_FALSE(order.vents);
}

TEST(Reader, FillsInVentsOnlyWhereTheTableStands) {
  const Order order = read(test::plain_block + "[vents]\n");
  ASSERT_TRUE(order.vents);
  EXPECT_EQ(order.vents->diameter, Length(3, 1));
  EXPECT_EQ(order.vents->spacing, Length(25, 1));
  EXPECT_EQ(order.vents->rim, Length(5, 10));
  EXPECT_EQ(order.vents->rim_style, RimStyle::round);
  EXPECT_FALSE(order.vents->margin);
}

// Band 35 mm from one strip, no stretch; cover 40 mm and 15 mm; panels: the contract of these tables.
TEST(Reader, FillsInOtherTablesOnlyWhereTheyStand) {
  EXPECT_FALSE(read(test::plain_block).draft);
  EXPECT_FALSE(read(test::plain_block).band);
  EXPECT_FALSE(read(pad).cover);
  const Order block = read(test::plain_block + "[pattern]\npanels = 8\n[draft]\n[band]\nstrips = 2\n");
  ASSERT_TRUE(block.draft);
  EXPECT_EQ(block.draft->pieces, DraftPieces::panels);
  EXPECT_EQ(block.band, (Band{Length(35, 1), 2, std::nullopt, std::nullopt, 0}));
  EXPECT_FALSE(block.vents);
  EXPECT_EQ(read(pad + "[cover]\n").cover, (Cover{Length(40, 1), Length(15, 1)}));
  EXPECT_TRUE(read(pad + "[cover]\n[draft]\n").draft) << "a pad's pattern is its cover, which has no panels";
  EXPECT_TRUE(read(pad + "[cover]\n[draft]\n[pattern]\npanels = 3\n").draft);
}

TEST(Reader, TakesAPanelByItsStationsWithoutMeasures) {
  const Order order = read(panel + "seam_allowance = \"3/8 in\"\nincludes_allowance = false\n");
  EXPECT_EQ(order.pattern.kind, PatternKind::stations);
  EXPECT_EQ(order.pattern.panels, 8);
  EXPECT_EQ(order.pattern.seam_allowance, Length(9525, 1000));
  EXPECT_EQ(order.pattern.includes_allowance, false);
  ASSERT_EQ(order.pattern.stations.size(), 4u);
  EXPECT_EQ(order.pattern.stations[1], (PanelWidth{Length(508, 10), Length(47, 1)}));
  EXPECT_EQ(order.pattern.stations[3], (PanelWidth{Length(205, 1), Length(6985, 100)}));
  EXPECT_EQ(order.pattern.length_along, LengthAlong::shared);
  EXPECT_EQ(order.pattern.seam_tape_thickness, Length(1, 2));
  EXPECT_FALSE(order.measure.crown_diameter);
  EXPECT_FALSE(read(panel).pattern.includes_allowance) << "neither true nor false";
}

TEST(Reader, TakesFiguresBesideADrawnPatternAtTheClothsMiddle) {
  EXPECT_EQ(read(panel).measure.taken_at, TakenAt::cloth_middle);
  EXPECT_EQ(read("[measure]\ntaken_at = \"cloth middle\"\nrise = \"6 cm\"\nbefore_steam = true\n" + panel)
                .measure.rise,
            Length(60, 1));
  EXPECT_EQ(read(test::plain_block + "[pattern]\npanels = 8\n").measure.taken_at, TakenAt::outside);
  EXPECT_EQ(read(panel + "[shape]\ndome = \"5 mm\"\n").shape.dome, Length(5, 1));
}

TEST(Reader, TakesDiscsWithEdgesAndPadsWithAThickness) {
  const Order order = read(drawn_discs + "[shape]\nedge_radius = \"15 mm\"\n");
  EXPECT_EQ(order.pattern.ring_diameter, Length(310, 1));
  EXPECT_EQ(order.shape.edge_radius, Length(15, 1));
  const Order thick = read("[measure]\nrise = \"3 cm\"\n[form]\nkind = \"pad\"\n" + panel);
  EXPECT_EQ(thick.measure.rise, Length(30, 1));
  EXPECT_FALSE(thick.measure.crown_diameter);
}

// As cut, two allowances must fit into the ring's width; on the sew line none is taken off.
TEST(Reader, TakesDiscsOnTheirSewLinesWithAnyAllowance) {
  const std::string ring =
      "[pattern]\nkind = \"discs\"\ntop_diameter = \"30 cm\"\nring_diameter = \"20 cm\"\nring_opening = \"13 "
      "cm\"\nseam_allowance = \"2 cm\"\n";
  EXPECT_NE(line_of(ring).find("wider than the ring"), std::string::npos);
  EXPECT_EQ(line_of(ring + "includes_allowance = false\n"), "no fault");
}

TEST(Reader, FindsADrawingFromTheOrdersFolder) {
  const std::string text =
      "[pattern]\nkind = \"outline\"\npanels = 8\nfile = \"panel.svg\"\nlayer = \"sew\"\nfold = "
      "\"right\"\ndrawing_unit = \"cm\"\n";
  const Order order = read(text, "orders/beret.toml");
  EXPECT_EQ(order.pattern.file, "orders/panel.svg");
  EXPECT_EQ(order.pattern.layer, "sew");
  EXPECT_EQ(order.pattern.fold, FoldSide::right);
  EXPECT_EQ(order.pattern.drawing_unit, DrawingUnit::cm);
  EXPECT_EQ(read(text, "beret.toml").pattern.file, "panel.svg");
}

TEST(Reader, TakesAListOfSizesWithoutAMeasure) {
  const Order order = read(
      "[sizes]\nlist = [[\"S\", \"55 cm\", \"27 cm\", \"73 mm\"], [\"M 2\", \"57 cm\", \"11 in\", \"75 "
      "mm\"]]\n");
  ASSERT_TRUE(order.sizes);
  ASSERT_EQ(order.sizes->list.size(), 2u);
  EXPECT_EQ(order.sizes->list[1], (SizeRow{"M 2", Length(570, 1), Length(2794, 10), Length(75, 1)}));
}

TEST(Reader, MakesAPadSolidAndAsksForNoHead) {
  const Order order = read(pad);
  EXPECT_EQ(order.form.kind, FormKind::pad);
  EXPECT_FALSE(order.form.wall);
  EXPECT_EQ(order.form.collar, Length());
  EXPECT_FALSE(order.measure.head_girth);
  EXPECT_FALSE(read(pad + "wall = \"solid\"\n").form.wall);
  EXPECT_TRUE(read(pad + "[vents]\nspacing = \"30 mm\"\n").vents);
}

TEST(Reader, AlwaysMakesTheStl) {
  const Order order = read(test::plain_block + "[mesh]\nformats = [\"ply\"]\n");
  EXPECT_EQ(order.mesh.formats, (std::vector<MeshFormat>{MeshFormat::stl, MeshFormat::ply}));
}

TEST(Reader, FindsADishFromTheOrdersFolder) {
  const std::string text = pad + "[dish]\nfile = \"dish.stl\"\n";
  EXPECT_EQ(read(text, "orders/pad.toml").dish->file, "orders/dish.stl");
  EXPECT_EQ(read(text, "/pad.toml").dish->file, "/dish.stl");
  EXPECT_EQ(read(text, "pad.toml").dish->file, "dish.stl");
  EXPECT_EQ(read(pad + "[dish]\nfile = \"/srv/dish.stl\"\n", "orders/pad.toml").dish->file, "/srv/dish.stl");
}

TEST(Reader, KeepsDishReadings) {
  const Order order = read(pad + "[dish]\nreadings = [[\"0 mm\", \"0 mm\"], [\"9 cm\", \"2 mm\"]]\n");
  ASSERT_EQ(order.dish->readings.size(), 2u);
  EXPECT_EQ(order.dish->readings[1], (Reading{Length(90, 1), Length(2, 1)}));
}

// 633 and 635 mm were the largest men's and women's heads of ANSUR II (2012); the 99th percentile is 614.2
// mm.
TEST(Reader, WarnsOfHeadsNoOneHas) {
  EXPECT_TRUE(read(test::plain_block).warnings.empty());
  const std::string huge =
      "[measure]\nhead_girth = \"640 mm\"\ncrown_diameter = \"28 cm\"\nrise = \"75 mm\"\n";
  ASSERT_EQ(read(huge).warnings.size(), 1u);
  EXPECT_NE(read(huge).warnings[0].find("614.2"), std::string::npos);
}

TEST(Reader, WarnsOfVentsThatMarkTheCloth) {
  EXPECT_TRUE(read(test::plain_block + "[vents]\ndiameter = \"4 mm\"\n").warnings.empty());
  EXPECT_EQ(read(test::plain_block + "[vents]\ndiameter = \"4.1 mm\"\n").warnings.size(), 1u);
}

TEST(Reader, TakesBothEndsOfEveryRange) {
  for (const Key& key : all_keys()) {
    if (key.type != KeyType::length || key.table == "panel_lengths" || key.table == "dish") continue;
    SCOPED_TRACE(key.path());
    for (const double end : {key.range->low, key.range->high}) {
      EXPECT_EQ(line_of(one_length(key, end)).find("out of range"), std::string::npos) << end;
    }
    for (const double beyond : {key.range->low - 0.001, key.range->high + 0.001}) {
      EXPECT_NE(line_of(one_length(key, beyond)).find("out of range"), std::string::npos) << beyond;
    }
  }
}

TEST(Reader, SaysWhereInCharactersNotBytes) {
  EXPECT_EQ(
      line_of("name = \"é\" # é\npattern = { panels = 2 }\n").rfind("test.toml:2:22: pattern.panels: ", 0),
      0u)
      << line_of("name = \"é\" # é\npattern = { panels = 2 }\n");
}

TEST(Options, MakeTheOrderThatAFileWouldMake) {
  const std::vector<WrittenKey> options = {{"measure.head_girth", "57 cm", "--head-girth"},
                                           {"measure.crown_diameter", "28 cm", "--crown-diameter"},
                                           {"measure.rise", "75 mm", "--rise"},
                                           {"cloth.heat_shrink", "0.02", "--heat-shrink"},
                                           {"pattern.panels", "8", "--panels"},
                                           {"mesh.formats", "stl, ply", "--formats"},
                                           {"mesh.ascii", "true", "--ascii"}};
  const auto order = order_from_options(options, {"vents"}, "block");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  EXPECT_EQ(*order, read(test::plain_block + "[cloth]\nheat_shrink = 0.02\n[pattern]\npanels = 8\n[vents]\n"
                                             "[mesh]\nformats = [\"stl\", \"ply\"]\nascii = true\n",
                         "block"));
}

TEST(Options, ReadDishReadings) {
  const auto order = order_from_options({{"form.kind", "pad", "pad"},
                                         {"measure.crown_diameter", "24 cm", "--crown-diameter"},
                                         {"measure.rise", "3 cm", "--rise"},
                                         {"dish.readings", "0 mm=0 mm, 90 mm=2 mm", "--dish"}},
                                        {}, "pad");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  EXPECT_EQ(order->dish->readings.at(1), (Reading{Length(90, 1), Length(2, 1)}));
}

TEST(Options, ReadStationsAndSizes) {
  const auto drawn = order_from_options(
      {{"pattern.kind", "stations", "--set"},
       {"pattern.panels", "8", "--panels"},
       {"pattern.stations", "0 mm=0 mm, 2 in=47 mm, 135 mm=106 mm, 205 mm=2 3/4 in", "--set"}},
      {}, "block");
  ASSERT_TRUE(drawn.ok()) << drawn.fault().line();
  EXPECT_EQ(drawn->pattern, read(panel).pattern);
  const auto sized = order_from_options(
      {{"sizes.list", "S=55 cm=27 cm=73 mm, M 2=57 cm=11 in=75 mm", "--set"}}, {}, "block");
  ASSERT_TRUE(sized.ok()) << sized.fault().line();
  EXPECT_EQ(sized->sizes->list.at(1), (SizeRow{"M 2", Length(570, 1), Length(2794, 10), Length(75, 1)}));
  const auto hats = order_from_options({{"measure.head_girth", "57 cm", "--head-girth"},
                                        {"measure.crown_diameter", "28 cm", "--crown-diameter"},
                                        {"measure.rise", "75 mm", "--rise"},
                                        {"sizes.hat_sizes", "EU 57, US 7 1/4", "--set"}},
                                       {}, "block");
  ASSERT_TRUE(hats.ok()) << hats.fault().line();
  EXPECT_EQ(hats->sizes->hat_sizes, (std::vector<std::string>{"EU 57", "US 7 1/4"}));
}

TEST(Options, NameTheOptionInAFault) {
  const auto bad = order_from_options({{"measure.rise", "75", "--rise"}}, {}, "block");
  ASSERT_FALSE(bad.ok());
  EXPECT_EQ(bad.fault().exit, ExitCode::order);
  EXPECT_EQ(bad.fault().where, "--rise");
  const auto words = order_from_options({{"pattern.panels", "eight", "--panels"}}, {}, "block");
  ASSERT_FALSE(words.ok());
  EXPECT_NE(words.fault().line().find("whole number"), std::string::npos);
  const auto nan = order_from_options({{"cloth.heat_shrink", "nan", "--heat-shrink"}}, {}, "block");
  ASSERT_FALSE(nan.ok());
  EXPECT_EQ(nan.fault().where, "--heat-shrink");
}
