#include "order/saver.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "order/order_support.h"
#include "order/reader.h"
#include "support/seed.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

void expect_saved_and_read_again(const Order& order, const std::string& folder, const std::string& name) {
  const std::string saved = order_text(order, folder);
  const auto again = read_order_text(saved, name);
  ASSERT_TRUE(again.ok()) << again.fault().line() << "\n" << saved;
  EXPECT_EQ(*again, order) << saved;
  EXPECT_EQ(order_text(*again, folder), saved) << "same order, same bytes";
}

Order read_as(const std::string& text, const std::string& name) {
  const auto order = read_order_text(text, name);
  EXPECT_TRUE(order.ok()) << (order.ok() ? "" : order.fault().line());
  return order.ok() ? *order : Order();
}

const std::string dish_pad =
    "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\n[form]\nkind = \"pad\"\n[dish]\nfile = "
    "\"dish.stl\"\n";

}  // namespace

TEST(Saver, SavesEverySampleSoThatItReadsBackEqual) {
  for (const auto& file : test::files_in(std::filesystem::path(CW_SOURCE_DIR) / "samples")) {
    SCOPED_TRACE(file.string());
    const auto order = read_order_file(file.string());
    ASSERT_TRUE(order.ok()) << order.fault().line();
    expect_saved_and_read_again(*order, file.parent_path().string(), file.string());
  }
}

TEST(Saver, SavesRandomOrdersSoThatTheyReadBackEqual) {
  SCOPED_TRACE(test::seed_note());
  test::OrderWriter writer(test::seed());
  int read = 0;
  for (int i = 0; i < 2000; ++i) {
    const std::string text = writer.next();
    SCOPED_TRACE(text);
    const auto order = read_order_text(text, "random.toml");
    if (!order.ok()) {
      ASSERT_EQ(order.fault().exit, ExitCode::order);
      continue;
    }
    ++read;
    expect_saved_and_read_again(*order, "", "random.toml");
    if (HasFatalFailure()) return;
  }
  EXPECT_GT(read, 200) << "the trial is about orders that are read";
}

TEST(Saver, LeavesDefaultsOut) {
  const Order order = read_as(test::plain_block, "plain.toml");
  EXPECT_EQ(order_text(order),
            "name = \"plain\"\n\n[measure]\nhead_girth = \"570 mm\"\ncrown_diameter = \"280 mm\"\nrise = "
            "\"75 mm\"\n");
}

TEST(Saver, KeepsAnEmptyVentTableAndAPadsKind) {
  EXPECT_NE(order_text(read_as(test::plain_block + "[vents]\n", "a.toml")).find("[vents]\n"),
            std::string::npos);
  EXPECT_NE(order_text(read_as(dish_pad, "a.toml")).find("kind = \"pad\"\n"), std::string::npos);
}

// Every new key set to something that is not its default.
TEST(Saver, SavesPatternsPiecesAndSizesSoThatTheyReadBackEqual) {
  const std::string panel =
      "[pattern]\nkind = \"stations\"\npanels = 8\nseam_allowance = \"3/8 in\"\nincludes_allowance = true\n"
      "stations = [[\"0 mm\", \"0 mm\"], [\"1/3 in\", \"47.123 mm\"], [\"5 1/7 in\", \"106 mm\"], [\"205 "
      "mm\", "
      "\"71 mm\"]]\nlength_along = \"seam\"\nseam_tape = \"1/2 in\"\nseam_tape_thickness = \"0.7 mm\"\n";
  const std::string outline =
      "[pattern]\nkind = \"outline\"\npanels = 6\nseam_allowance = \"0 mm\"\nincludes_allowance = "
      "false\nfile = "
      "\"a \\\"b\\\".dxf\"\nlayer = \"14\"\nfold = \"left\"\ndrawing_unit = \"in\"\nlength_along = "
      "\"centre\"\n";
  const std::string discs =
      "[measure]\nhead_girth = \"56 cm\"\n[pattern]\nkind = \"discs\"\ntop_diameter = \"12 1/3 "
      "in\"\nring_diameter "
      "= \"30 cm\"\nring_opening = \"16 cm\"\nseam_allowance = \"1 cm\"\n[draft]\npieces = \"discs\"\n";
  const std::string pieces =
      "[pattern]\npanels = 12\n[draft]\n[band]\ndepth = \"30 mm\"\nstrips = 2\nelastic = \"10 cm\"\n"
      "elastic_stretched = \"1/7 m\"\nstretch = 0.1\n";
  const std::string cover = "[cover]\ntuck = \"2 in\"\ncasing = \"1/2 in\"\n";
  const std::string rows =
      "[sizes]\nlist = [[\"S\", \"55 cm\", \"10 1/3 in\"], [\"large-1_b\", \"57 cm\", \"28 cm\", \"75 "
      "mm\"]]\n";
  const std::string hats = "[sizes]\nhat_sizes = [\"us 7 1/8\", \"57.5 cm\"]\n";
  const std::string steps =
      "[sizes]\nsmaller = 0\nlarger = 3\nhead_step = \"3/8 in\"\ncrown_step = \"0 mm\"\nrise_step = \"1 "
      "mm\"\n";
  const std::string plain = test::plain_block;
  for (const std::string& text :
       {panel, outline, discs, plain + pieces, plain + "[band]\n", dish_pad + cover, dish_pad + "[cover]\n",
        plain + rows, plain + hats, plain + steps, dish_pad + rows}) {
    SCOPED_TRACE(text);
    expect_saved_and_read_again(read_as(text, "orders/a.toml"), "orders", "orders/a.toml");
  }
}

TEST(Saver, SavesPrintPuzzleStackMarksAndPressSoThatTheyReadBackEqual) {
  const std::string print =
      "[print]\nmaterial = \"pc\"\nbed = \"8.7 x 8 2/3 x 10 in\"\nnozzle = \"0.6 mm\"\ninfill = 0.35\n"
      "licence = \"CC BY-SA 4.0\"\nsplit = \"none\"\ndowel = \"1/4 in\"\ndowel_clearance = \"0.3 mm\"\n"
      "glue_gap = \"0 mm\"\n";
  const std::string puzzle = "[puzzle]\npieces = 7\ncap = \"stiff\"\nclearance = \"1/64 in\"\n";
  const std::string rest =
      "[stack]\nsheet = \"3/8 in\"\noutline = \"outside\"\nhole = \"0 mm\"\n[marks]\ntext = \"n° 5\"\n"
      "depth = \"1 mm\"\n[press]\nheat = \"dry\"\niron = \"200\"\npress_cloth = \"1.5 mm\"\n"
      "steam_flow = \"1/3 g/min\"\nload = \"72.5004 N\"\naccept_risk = \"one trial, then the bin\"\n";
  const std::string posts = "[form]\nposts = 3\npost_diameter = \"1/2 in\"\n";
  const std::string no_posts = "[form]\nposts = 0\npost_diameter = \"1/2 in\"\n";
  const std::string plain = test::plain_block;
  for (const std::string& text : {plain + print + puzzle + rest, plain + posts + print + rest,
                                  plain + no_posts, plain + "[print]\nprinter = \"bed-220\"\n",
                                  dish_pad + print + rest, plain + "[puzzle]\npieces = \"auto\"\n"}) {
    SCOPED_TRACE(text);
    expect_saved_and_read_again(read_as(text, "orders/a.toml"), "orders", "orders/a.toml");
  }
}

TEST(Saver, SavesMillSoThatItReadsBackEqual) {
  const std::string all =
      "[mill]\nmaterial = \"mdf\"\ntool = \"1/4 in ball\"\nrough_tool = \"1/3 in flat\"\ndrill = \"1/8 in "
      "drill\"\nflute = \"1 in\"\nstick_out = \"2 1/3 in\"\nholder = \"3/4 in\"\ndrill_flute = \"30 mm\"\n"
      "edges = 1\nstock_sheets = \"24.7 mm\"\nstock_size = \"12 x 12 1/3 in\"\nsetup = "
      "\"turn-over\"\nscallop = "
      "\"1/30 mm\"\nstep_down = \"3 mm\"\nstep_over = \"2 mm\"\nfeed = \"1000.5 mm/min\"\nspindle = \"12000 "
      "1/min\"\naccel = \"100/3 mm/s²\"\ntravel = \"8 2/3x12x3 in\"\nspoilboard = \"0 mm\"\ndialect = "
      "\"plain\"\ncell = \"0.1 mm\"\n";
  const std::string made = "[mill]\naccel = \"500 mm/s2\"\nsetup = \"tiers\"\n";
  for (const std::string& text :
       {test::plain_block + all, dish_pad + all, test::plain_block + made, dish_pad + "[mill]\n"}) {
    SCOPED_TRACE(text);
    expect_saved_and_read_again(read_as(text, "orders/a.toml"), "orders", "orders/a.toml");
  }
}

// The unit that was written is the one in which all three numbers are exact.
TEST(Saver, WritesABedInOneUnit) {
  const auto saved = [](const std::string& bed) {
    return order_text(read_as(test::plain_block + "[print]\nbed = \"" + bed + "\"\n", "a.toml"));
  };
  EXPECT_NE(saved("22 x 22.05 x 25cm").find("bed = \"220x220.5x250 mm\""), std::string::npos);
  EXPECT_NE(saved("8 2/3x9x10 in").find("bed = \"220 2/15x228.6x254 mm\""), std::string::npos);
}

TEST(Saver, KeepsEmptyTablesThatAskForSomething) {
  for (const char* table : {"puzzle", "stack", "marks", "press", "mill"}) {
    const std::string line = std::string("\n[") + table + "]\n";
    EXPECT_NE(order_text(read_as(test::plain_block + line, "a.toml")).find(line), std::string::npos) << table;
    EXPECT_EQ(order_text(read_as(test::plain_block, "a.toml")).find(line), std::string::npos) << table;
  }
  const std::string saved =
      order_text(read_as(test::plain_block + "[pattern]\npanels = 8\n[draft]\n[band]\n", "a.toml"));
  EXPECT_NE(saved.find("\n[draft]\n"), std::string::npos);
  EXPECT_NE(saved.find("\n[band]\n"), std::string::npos);
  EXPECT_EQ(saved.find("[cover]"), std::string::npos);
  EXPECT_EQ(saved.find("[sizes]"), std::string::npos);
}

TEST(Saver, WritesADrawingSoThatItIsFoundFromTheNewFolder) {
  const Order order =
      read_as("[pattern]\nkind = \"outline\"\npanels = 8\nfile = \"panel.svg\"\n", "orders/a.toml");
  EXPECT_NE(order_text(order, "orders").find("file = \"panel.svg\""), std::string::npos);
  const Order moved = read_as(order_text(order, "elsewhere"), "elsewhere/a.toml");
  EXPECT_EQ(moved.pattern.file, std::filesystem::absolute("orders/panel.svg").string());
}

TEST(Saver, WritesADishSoThatItIsFoundFromTheNewFolder) {
  const Order order = read_as(dish_pad, "orders/pad.toml");
  EXPECT_NE(order_text(order, "orders").find("file = \"dish.stl\""), std::string::npos);
  EXPECT_NE(order_text(order).find("file = \"orders/dish.stl\""), std::string::npos);
  const Order moved = read_as(order_text(order, "elsewhere"), "elsewhere/pad.toml");
  EXPECT_EQ(moved.dish->file, std::filesystem::absolute("orders/dish.stl").string());
}

TEST(Saver, WritesAHatSizeAsAHatSize) {
  const Order order =
      read_as("[measure]\nhat_size = \"UK 7\"\ncrown_diameter = \"28 cm\"\nrise = \"75 mm\"\n", "a.toml");
  const std::string saved = order_text(order);
  EXPECT_NE(saved.find("hat_size = \"UK 7\""), std::string::npos);
  EXPECT_EQ(saved.find("head_girth"), std::string::npos);
}

// 3/8 in = 9.525 mm and 1/3 in = 127/15 mm, from 1 in = 25.4 mm exactly (1959).
TEST(ExactText, IsADecimalOfMillimetresWhereThereIsOne) {
  EXPECT_EQ(exact_text(Length(75, 1)), "75 mm");
  EXPECT_EQ(exact_text(Length(9525, 1000)), "9.525 mm");
  EXPECT_EQ(exact_text(Length(-1, 2)), "-0.5 mm");
  EXPECT_EQ(exact_text(Length()), "0 mm");
  EXPECT_EQ(exact_text(Length(127, 15)), "8 7/15 mm");
}

TEST(ExactText, ReadsBackExactlyWhateverCouldBeWritten) {
  for (const char* written :
       {"1/3 in", "10 1/7 in", "1/999999937 in", "0.000000001 m", "123456.123456789 mm", "1/999999937 cm",
        "7/999999937 m", "-3/7 in", "999999 999999936/999999937 mm"}) {
    const auto length = parse_length(written);
    ASSERT_TRUE(length.ok()) << length.fault().line();
    const auto again = parse_length(exact_text(*length));
    ASSERT_TRUE(again.ok()) << exact_text(*length);
    EXPECT_EQ(*again, *length) << written << " became " << exact_text(*length);
  }
}
