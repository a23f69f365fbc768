// Templates for sheets: true size by what is read back and by what librsvg draws.
#include "making/stack_files.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "drawings/read_drawing.h"
#include "files/temp_folder.h"
#include "making/orders.h"
#include "making/write.h"
#include "support/outside_program.h"

namespace crownwright::making {
namespace {

using pattern::Piece;

/// Crown 280, head radius 90.7, rise 75, collar 15: 90 high.
const std::string stack_block =
    "name = \"Beret <1>\"\n[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"569.884908 mm\"\n"
    "rise = \"75 mm\"\ntaken_at = \"form\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n";
const std::string stack_pad =
    "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\ntaken_at = \"form\"\n[form]\nkind = \"pad\"\n";

solid::Solid solid_of(const order::Order& order) { return plan_solid(order, test::own_profiles()).value(); }

std::vector<Piece> pieces_of(const std::string& text) {
  const order::Order order = test::read_order(text);
  return stack_pieces(order, plan_stack(order, solid_of(order)).value());
}

std::vector<ExtraFile> files_of(const std::string& text) {
  const order::Order order = test::read_order(text);
  auto files = stack_files(order, solid_of(order), test::own_profiles());
  if (!files) throw std::runtime_error(files.fault().line());
  return *std::move(files);
}

double radius_of(const pattern::Outline& outline) {
  pattern::Vec2 middle;
  for (const pattern::Vec2 p : outline) middle = middle + (1.0 / static_cast<double>(outline.size())) * p;
  double most = 0;
  for (const pattern::Vec2 p : outline) most = std::max(most, pattern::norm(p - middle));
  return most;
}

std::string words_of(const Piece& piece) {
  std::string words;
  for (const std::string& note : piece.notes) words.append(note).append("|");
  return words;
}

}  // namespace

// The collar's 15 mm are cut from five sheets of 3 mm; with the chamfer of 0.5 mm the lowest differs.
TEST(StackFiles, EqualSheetsAreDrawnOnce) {
  const auto pieces = pieces_of(stack_block + "[stack]\nsheet = \"3 mm\"\n");
  EXPECT_EQ(pieces[0].name, "Sheet 1");
  EXPECT_EQ(pieces[0].count, 1);
  EXPECT_EQ(pieces[1].name, "Sheets 2, 3, 4, 5");
  EXPECT_EQ(pieces[1].count, 4);
  EXPECT_NEAR(radius_of(pieces[1].cut), 90.7, 1e-6);
  EXPECT_EQ(words_of(pieces[1]).rfind("Sheets 2, 3, 4, 5 of 30, 3 mm|diameter 181.4 mm|", 0), 0u)
      << words_of(pieces[1]);
  int sheets = 0;
  for (const Piece& piece : pieces) sheets += piece.count;
  EXPECT_EQ(sheets, 30);
}

TEST(StackFiles, EverySheetHasItsMarksToLineUp) {
  const auto pieces = pieces_of(stack_block + "[stack]\nhole = \"5 mm\"\n");
  ASSERT_EQ(pieces.size(), 9u);
  for (const Piece& piece : pieces) {
    SCOPED_TRACE(piece.name);
    ASSERT_EQ(piece.cut_holes.size(), 1u);
    EXPECT_NEAR(radius_of(piece.cut_holes[0]), 2.5, 1e-9);
    ASSERT_EQ(piece.notches.size(), 4u);
    EXPECT_EQ(piece.notches[0].says, "centre front");
    EXPECT_EQ(piece.notches[0].on_cut.x, 0);
    EXPECT_NEAR(piece.notches[0].on_cut.y, radius_of(piece.cut), 1e-6);
    EXPECT_GE(piece.marks.size(), 4u) << "the cross";
  }
  EXPECT_EQ(pieces[2].notes[0], "Sheet 3 of 9, 10 mm");
  EXPECT_TRUE(pieces_of(stack_block + "[stack]\nhole = \"0 mm\"\n")[0].cut_holes.empty());
}

// 90 mm from sheets of 8: eleven, and the twelfth thinned to 2.
TEST(StackFiles, SaysHowFarTheLastSheetIsThinned) {
  const auto pieces = pieces_of(stack_block + "[stack]\nsheet = \"8 mm\"\n");
  EXPECT_NE(words_of(pieces.back()).find("Sheet 12 of 12, 8 mm|"), std::string::npos);
  EXPECT_NE(words_of(pieces.back()).find("thin it to 2 mm|"), std::string::npos) << words_of(pieces.back());
}

TEST(StackFiles, TheFirstSheetBearsTheCautions) {
  const auto pieces = pieces_of(stack_block + "[stack]\n");
  for (const char* words :
       {"Knife", "fumes", "data sheet", "m2 of sheet", "of one 1000 mm wide", "steps reach"})
    EXPECT_NE(words_of(pieces[0]).find(words), std::string::npos) << words;
}

// The widest sheet holds the equator: with the edges outside it is the crown's own diameter, read back.
TEST(StackFiles, ReadBackTheCrownIsAsWideAsOrdered) {
  const auto files = files_of(stack_block + "[stack]\noutline = \"outside\"\n");
  ASSERT_EQ(files.size(), 3u);
  EXPECT_EQ(files[0].ending, ".stack.svg");
  EXPECT_EQ(files[1].ending, ".stack.a4.pdf");
  EXPECT_EQ(files[2].ending, ".stack.letter.pdf");
  double widest = 0;
  for (int k = 1; k <= 9; ++k) {
    drawings::DrawingRules rules;
    rules.layer = "sheet-" + std::to_string(k) + "-cut";
    const auto outline = drawings::read_outline(files[0].bytes, "stack.svg", rules);
    if (outline.ok()) widest = std::max(widest, radius_of(*outline));
  }
  EXPECT_NEAR(widest, 140, 1e-5);
}

TEST(StackFiles, APadsCoverIsThereToo) {
  const auto with = files_of(stack_pad + "[cover]\n[stack]\n"), without = files_of(stack_pad + "[stack]\n");
  EXPECT_NE(with[0].bytes.find("id=\"cover-cut\""), std::string::npos);
  EXPECT_EQ(without[0].bytes.find("id=\"cover-cut\""), std::string::npos);
}

TEST(StackFiles, NoneWithoutAStack) { EXPECT_TRUE(files_of(stack_block).empty()); }

TEST(StackFiles, BearTheirMarkAndAreTheSameAgain) {
  const std::string text = stack_block + "[stack]\nsheet = \"25 mm\"\n";
  const auto files = files_of(text), again = files_of(text);
  const std::string mark = "crownwright " + order_mark(test::read_order(text));
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_NE(files[i].bytes.find(mark), std::string::npos) << files[i].ending;
    EXPECT_EQ(files[i].bytes, again[i].bytes) << files[i].ending;
  }
}

// One disc of 100 mm drawn by librsvg, ten dots a mm, and a page by poppler.
TEST(StackFiles, AreTrueToSizeToOthers) {
  const test::TempFolder folder;
  const std::string text =
      "[measure]\ncrown_diameter = \"100 mm\"\nrise = \"20 mm\"\ntaken_at = \"form\"\n[shape]\nedge_radius = "
      "\"0 mm\"\n"
      "dome = \"0 mm\"\n[form]\nkind = \"pad\"\nfoot_edge_size = \"0 mm\"\n[stack]\nsheet = \"20 mm\"\n";
  const auto files = files_of(text);
  const std::string svg = folder.put("s.svg", files[0].bytes), pdf = folder.put("s.pdf", files[1].bytes);
  test::output_of("rsvg-convert -f pdf -o " + folder.file("t.pdf") + " " + svg);
  test::output_of("pdftoppm -r 254 -gray -singlefile " + folder.file("t.pdf") + " " + folder.file("t"));
  std::ifstream in(folder.file("t.pgm"), std::ios::binary);
  std::string magic;
  int width = 0, height = 0, most = 0;
  in >> magic >> width >> height >> most;
  in.get();
  std::vector<int> rows(static_cast<std::size_t>(height), 0);
  int left = width, right = 0;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      if (in.get() < 128 && y < 1110) left = std::min(left, x), right = std::max(right, x);
    }
  }
  // Between the outer edges of a line 0.7 mm wide.
  EXPECT_NEAR((right - left + 1) / 10.0, 100.7, 0.15);
  const std::string words = test::output_of("pdftotext -layout " + pdf + " -");
  for (const char* part : {"Sheet 1 of 1, 20 mm", "centre front", "Print at 100 %"})
    EXPECT_NE(words.find(part), std::string::npos) << part;
}

TEST(StackFiles, WhatCannotBeStackedIsSaidWithItsTable) {
  const order::Order order =
      test::read_order(stack_pad + "[stack]\nsheet = \"100 mm\"\noutline = \"inside\"\n");
  const auto files = stack_files(order, solid_of(order), test::own_profiles());
  ASSERT_FALSE(files.ok());
  EXPECT_EQ(files.fault().exit, ExitCode::impossible);
  EXPECT_EQ(files.fault().line().rfind("stack: ", 0), 0u) << files.fault().line();
}

}  // namespace crownwright::making
