// True size seen from outside: PDF pages drawn by poppler (pdftoppm), SVG by librsvg (rsvg-convert), at 254
// dots an inch, ten to the millimetre, and measured in the picture.

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "drawings/read_drawing.h"
#include "drawings/sample_pieces.h"
#include "drawings/sheet.h"
#include "drawings/write_pieces.h"
#include "support/grey_picture.h"
#include "support/outside_program.h"

namespace crownwright::drawings {
namespace {

namespace fs = std::filesystem;
using pattern::Piece;
using pattern::Vec2;

class TrueSize : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("crownwright_true_size_" + std::to_string(getpid()));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string put(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return (folder_ / name).string();
  }
  std::string at(const std::string& name) const { return (folder_ / name).string(); }

  fs::path folder_;
};

using crownwright::test::GreyPicture;
using crownwright::test::output_of;
using crownwright::test::read_pgm;

Piece plain_rectangle(double width, double height) {
  Piece piece;
  piece.name = "Strip";
  piece.cut = {{0, 0}, {width, 0}, {width, height}, {0, height}};
  piece.sew = {piece.cut};
  piece.text_at = {width / 2, height / 2};
  piece.sew.clear();
  return piece;
}

// A square's or strip's sides, met on lines through its middle.
void expect_size(const GreyPicture& picture, Vec2 low, Vec2 high, const char* what) {
  SCOPED_TRACE(what);
  const double y = low.y + 0.2 * (high.y - low.y), x = low.x + 0.2 * (high.x - low.x);
  EXPECT_NEAR(picture.line_at(high.x, y, false) - picture.line_at(low.x, y, false), high.x - low.x, 0.05);
  EXPECT_NEAR(picture.line_at(high.y, x, true) - picture.line_at(low.y, x, true), high.y - low.y, 0.05);
}

TEST_F(TrueSize, PagesAreA4AndLetter) {
  const auto pieces = test::every_piece();
  const auto sizes = [&](Paper paper, const std::string& name) {
    const std::string info = output_of("pdfinfo -f 1 -l 999 " + put(name, tiled_pdf(pieces, "Beret", paper)));
    std::vector<std::string> lines;
    std::istringstream in(info);
    for (std::string line; std::getline(in, line);) {
      if (line.find(" size:") != std::string::npos && line.rfind("Page", 0) == 0) lines.push_back(line);
    }
    return lines;
  };
  // ISO 216: 210 x 297 mm = 595.276 x 841.89 pt. Letter: 8 1/2 x 11 in = 612 x 792 pt.
  const auto a4 = sizes(Paper::a4, "a4.pdf"), letter = sizes(Paper::letter, "letter.pdf");
  EXPECT_GT(a4.size(), 8u);
  EXPECT_GT(letter.size(), 8u);
  for (const std::string& line : a4)
    EXPECT_NE(line.find("595.276 x 841.89 pts (A4)"), std::string::npos) << line;
  for (const std::string& line : letter)
    EXPECT_NE(line.find("612 x 792 pts (letter)"), std::string::npos) << line;
}

TEST_F(TrueSize, TestSquaresMeasureOnTheFirstPage) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = put("t.pdf", tiled_pdf({plain_rectangle(60, 200)}, "Beret", paper));
    output_of("pdftoppm -r 254 -gray -f 1 -l 1 -singlefile " + pdf + " " + at("t"));
    const GreyPicture page = read_pgm(at("t.pgm"));
    expect_size(page, {10, 32}, {110, 132}, "100 mm");
    expect_size(page, {10, 142}, {10 + 101.6, 142 + 101.6}, "4 in");
  }
}

TEST_F(TrueSize, TwoHundredMillimetresOnOnePage) {
  const std::string pdf = put("t.pdf", tiled_pdf({plain_rectangle(60, 200)}, "Beret", Paper::a4));
  output_of("pdftoppm -r 254 -gray -f 2 -l 2 -singlefile " + pdf + " " + at("t"));
  expect_size(read_pgm(at("t.pgm")), {13, 13}, {73, 213}, "strip");
}

// 200 mm are wider than a page: from page A1 to A2, laid together at their register marks, whose places are
// measured too. A page's inner width is 190 mm, and 10 mm of it are shared.
TEST_F(TrueSize, TwoHundredMillimetresAcrossAJoin) {
  const std::string pdf = put("t.pdf", tiled_pdf({plain_rectangle(200, 60)}, "Beret", Paper::a4));
  // Finer than elsewhere, the page's top 60 mm: poppler moves thin lines onto whole dots.
  output_of("pdftoppm -r 1016 -gray -f 2 -l 3 -x 0 -y 0 -W 8400 -H 2400 " + pdf + " " + at("t"));
  GreyPicture first = read_pgm(at("t-2.pgm")), second = read_pgm(at("t-3.pgm"));
  first.dots_a_mm = second.dots_a_mm = 40;
  // The register marks' upright strokes, above the frame.
  const double join_on_first = first.line_at(10 + 180, 8, false),
               join_on_second = second.line_at(10, 8, false);
  const double left = first.line_at(13, 40, false), right = second.line_at(10 + 23, 40, false);
  EXPECT_NEAR((join_on_first - left) + (right - join_on_second), 200, 0.1);
}

TEST_F(TrueSize, SheetIsTrueToo) {
  const std::string pdf = put("t.pdf", sheet_pdf({plain_rectangle(200, 200)}, "Beret"));
  output_of("pdftoppm -r 254 -gray -singlefile " + pdf + " " + at("t"));
  const GreyPicture page = read_pgm(at("t.pgm"));
  expect_size(page, {10, 16}, {210, 216}, "piece");
  expect_size(page, {10, 230}, {110, 330}, "100 mm");
  expect_size(page, {122, 230}, {122 + 101.6, 230 + 101.6}, "4 in");
}

TEST_F(TrueSize, SvgIsTrueToo) {
  const std::string svg = put("t.svg", svg_of({plain_rectangle(200, 200)}, "Beret"));
  output_of("rsvg-convert -f pdf -o " + at("s.pdf") + " " + svg);
  output_of("pdftoppm -r 254 -gray -singlefile " + at("s.pdf") + " " + at("t"));
  const GreyPicture page = read_pgm(at("t.pgm"));
  EXPECT_NEAR(page.width / page.dots_a_mm, 220, 0.2);
  expect_size(page, {10, 10}, {210, 210}, "piece");
  // The scale's end ticks, 4 mm high, above the bar 20 mm below the piece.
  EXPECT_NEAR(page.line_at(110, 217.5, false) - page.line_at(10, 217.5, false), 100, 0.05);
}

// The reader against librsvg: a shape of every path command under nested transforms, filled by librsvg, has
// the area and the centre the read outline has.
TEST_F(TrueSize, WhatIsReadIsWhatLibrsvgFills) {
  const std::string text =
      "<svg xmlns='http://www.w3.org/2000/svg' width='120mm' height='120mm' viewBox='0 0 480 480'>"
      "<rect width='480' height='480' fill='white'/><g transform='translate(20,40) skewX(8)'>"
      "<g transform='rotate(12 100 100) scale(1.5,1.25)'><path id='sew' transform='matrix(1 .1 -.05 1 8 3)' "
      "fill='black' "
      "d='M60,20 c20-30 60,0 80,10 s50,10 60,40 q20,30 0,50 t-20,45 h-30 v20 L130 210 a45 25 20 1 1-60-40 "
      "A30 60 -15 0 0 40,110 H30 V70 z'/></g></g></svg>";
  DrawingRules rules;
  rules.layer = "sew";
  const auto outline = read_outline(text, "t.svg", rules);
  ASSERT_TRUE(outline.ok()) << outline.fault().line();
  output_of("rsvg-convert -f pdf -o " + at("s.pdf") + " " + put("t.svg", text));
  output_of("pdftoppm -r 254 -gray -singlefile " + at("s.pdf") + " " + at("t"));
  const GreyPicture page = read_pgm(at("t.pgm"));
  double area = 0;
  Vec2 centre;
  for (int y = 0; y < page.height; ++y) {
    for (int x = 0; x < page.width; ++x) {
      area += page.ink(x, y) / 100;
      centre = centre + page.ink(x, y) / 100 * Vec2{(x + 0.5) / 10, (y + 0.5) / 10};
    }
  }
  centre = (1 / area) * centre;
  Vec2 moment;
  double twice = 0;
  for (std::size_t i = 0; i < outline->size(); ++i) {
    const Vec2 a = (*outline)[i], b = (*outline)[(i + 1) % outline->size()];
    twice += cross(a, b);
    moment = moment + cross(a, b) * (a + b);
  }
  EXPECT_GT(area, 1000);
  EXPECT_NEAR(std::abs(twice) / 2 / area, 1, 1e-3);
  EXPECT_NEAR(norm((1 / (3 * twice)) * moment - centre), 0, 0.02);
}

TEST_F(TrueSize, FontIsInTheFile) {
  const std::string fonts =
      output_of("pdffonts " + put("t.pdf", tiled_pdf({plain_rectangle(60, 60)}, "Beret", Paper::a4)));
  EXPECT_NE(fonts.find("DejaVuSans"), std::string::npos) << fonts;
}

TEST_F(TrueSize, PagesSayHowToPrint) {
  const std::string text = output_of(
      "pdftotext -layout " + put("t.pdf", tiled_pdf(test::every_piece(), "Market beret", Paper::a4)) + " -");
  for (const char* words : {"Market beret", "Print at 100 % (actual size), on A4", "100 mm", "4 in",
                            "Page A1", "Page B2", "join A2", "Panel: cut 8", "cut line", "sew line"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
}

}  // namespace
}  // namespace crownwright::drawings
