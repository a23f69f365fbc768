#include "drawings/write_pieces.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "drawings/compare_lines.h"
#include "drawings/read_drawing.h"
#include "drawings/sample_pieces.h"
#include "drawings/sheet.h"
#include "pattern/allowance.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Piece;
using pattern::Vec2;

struct PartBox {
  Vec2 low, high;
};

PartBox box_of(const SheetPart& part) {
  PartBox box{{1e9, 1e9}, {-1e9, -1e9}};
  for (const SheetLine& line : part.lines) {
    for (const Vec2 p : line.points) {
      box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y)};
      box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y)};
    }
  }
  return box;
}

TEST(Sheet, HoldsEveryPieceClearOfTheOthers) {
  const Sheet sheet = lay_out(test::every_piece());
  ASSERT_EQ(sheet.parts.size(), test::every_piece().size());
  std::vector<PartBox> boxes;
  for (const SheetPart& part : sheet.parts) boxes.push_back(box_of(part));
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    EXPECT_GE(boxes[i].low.x, -1e-9);
    EXPECT_GE(boxes[i].low.y, -1e-9);
    EXPECT_LE(boxes[i].high.x, sheet.width + 1e-9);
    EXPECT_LE(boxes[i].high.y, sheet.height + 1e-9);
    for (std::size_t k = 0; k < i; ++k) {
      const bool apart = boxes[i].low.x > boxes[k].high.x + 10 || boxes[k].low.x > boxes[i].high.x + 10 ||
                         boxes[i].low.y > boxes[k].high.y + 10 || boxes[k].low.y > boxes[i].high.y + 10;
      EXPECT_TRUE(apart) << i << " and " << k;
    }
  }
}

// Writing overlaps neither writing nor lines, at the width DejaVu Sans is reckoned with, on panels of every
// count.
TEST(Sheet, WritingIsClearOfLinesAndOfItself) {
  std::vector<Piece> pieces = test::every_piece();
  for (const int n : {3, 4, 5, 6, 7, 12, 16, 24}) pieces.push_back(test::hand_panel(n, 6));
  for (const SheetPart& part : lay_out(pieces).parts) {
    SCOPED_TRACE(part.id);
    std::vector<PartBox> boxes;
    for (const SheetText& text : part.texts) {
      double w = text_width(text.text, text.size, text.bold) / 2, h = 0.5 * text.size;
      if (text.upright) std::swap(w, h);
      boxes.push_back({text.at - Vec2{w, h}, text.at + Vec2{w, h}});
    }
    EXPECT_GE(boxes.size(), 4u);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        EXPECT_FALSE(boxes[i].low.x < boxes[k].high.x && boxes[k].low.x < boxes[i].high.x &&
                     boxes[i].low.y < boxes[k].high.y && boxes[k].low.y < boxes[i].high.y)
            << part.texts[i].text << " on " << part.texts[k].text;
      }
      for (const SheetLine& line : part.lines) {
        for (std::size_t k = 0; k < line.points.size(); ++k) {
          const Vec2 p = line.points[k];
          EXPECT_FALSE(boxes[i].low.x < p.x && p.x < boxes[i].high.x && boxes[i].low.y < p.y &&
                       p.y < boxes[i].high.y)
              << part.texts[i].text;
        }
      }
    }
  }
}

TEST(Sheet, SaysNameCountSizeAndNotes) {
  for (const SheetPart& part : lay_out(test::every_piece()).parts) {
    const auto says = [&](const std::string& words) {
      return std::any_of(part.texts.begin(), part.texts.end(),
                         [&](const SheetText& t) { return t.text == words; });
    };
    EXPECT_TRUE(says(part.name)) << part.id;
    EXPECT_TRUE(says("cut " + std::to_string(part.count))) << part.id;
  }
}

TEST(Sheet, IdsAreUnique) {
  std::vector<Piece> pieces = {test::hand_panel(6, 6), test::hand_panel(8, 6)};
  const Sheet sheet = lay_out(pieces);
  EXPECT_EQ(sheet.parts[0].id, "panel");
  EXPECT_EQ(sheet.parts[1].id, "panel-2");
}

TEST(Writers, GiveTheSameBytesTwice) {
  const auto pieces = test::every_piece();
  EXPECT_EQ(svg_of(pieces, "Beret"), svg_of(pieces, "Beret"));
  EXPECT_EQ(dxf_of(pieces), dxf_of(pieces));
  EXPECT_EQ(tiled_pdf(pieces, "Beret", Paper::a4), tiled_pdf(pieces, "Beret", Paper::a4));
  EXPECT_EQ(sheet_pdf(pieces, "Beret"), sheet_pdf(pieces, "Beret"));
}

TEST(Writers, EscapeWhatPeopleCallTheirBerets) {
  Piece piece = test::hand_panel(8, 6);
  piece.size = "<57> & \"é\"";
  const std::string svg = svg_of({piece}, "A & B <c>");
  EXPECT_NE(svg.find("<title>A &amp; B &lt;c&gt;</title>"), std::string::npos);
  EXPECT_NE(svg.find("&lt;57&gt; &amp; &quot;é&quot;"), std::string::npos);
  EXPECT_TRUE(read_lines(svg, "a.svg", {}).ok());
  EXPECT_NE(dxf_of({piece}).find("size <57> & \"\\U+00E9\""), std::string::npos);
}

// --- read back

Outline read_back(const std::string& bytes, const std::string& name, const std::string& layer) {
  DrawingRules rules;
  rules.layer = layer;
  const auto outline = read_outline(bytes, name, rules);
  EXPECT_TRUE(outline.ok()) << outline.fault().line();
  return outline.ok() ? *outline : Outline{{0, 0}};
}

TEST(RoundTrip, SewLinesComeBackAsTheyWere) {
  for (const int n : {3, 4, 5, 6, 7, 8, 10, 12, 16, 24, 48}) {
    SCOPED_TRACE(n);
    const Piece piece = test::hand_panel(n, 9.525);
    const Outline sew = test::at_origin(piece.sew[0]);
    const Outline svg = test::at_origin(read_back(svg_of({piece}, "Beret"), "p.svg", "panel-sew"));
    const Outline dxf = test::at_origin(read_back(dxf_of({piece}), "p.dxf", "14"));
    EXPECT_LT(test::furthest_apart(sew, svg), 0.002);
    EXPECT_LT(test::furthest_apart(sew, dxf), 0.002);
  }
}

TEST(RoundTrip, CutLinesLessTheirAllowanceAreTheSewLine) {
  for (const int n : {4, 6, 8, 12, 24}) {
    for (const double allowance : {3.0, 6.0, 9.525}) {
      SCOPED_TRACE(std::to_string(n) + " panels, " + std::to_string(allowance) + " mm");
      const Piece piece = test::hand_panel(n, allowance);
      const Outline sew = test::at_origin(piece.sew[0]);
      for (const Outline& cut : {read_back(svg_of({piece}, "Beret"), "p.svg", "panel-cut"),
                                 read_back(dxf_of({piece}), "p.dxf", "1")}) {
        const auto back = pattern::take_allowance_off(cut, allowance);
        ASSERT_TRUE(back.ok()) << back.fault().line();
        EXPECT_LT(test::furthest_apart(sew, test::at_origin(*back)), 0.002);
      }
    }
  }
}

TEST(RoundTrip, EveryLineOfEveryPieceIsThere) {
  const auto pieces = test::every_piece();
  const Sheet sheet = lay_out(pieces);
  std::size_t closed = 0, open = 0;
  for (const SheetPart& part : sheet.parts) {
    for (const SheetLine& line : part.lines) {
      // A mark that ends where it began comes back closed.
      const bool round = line.closed || norm(line.points.front() - line.points.back()) < 1e-9;
      ++(round ? closed : open);
    }
  }
  const auto dxf = read_lines(dxf_of(pieces), "p.dxf", {});
  ASSERT_TRUE(dxf.ok());
  EXPECT_EQ(dxf->closed.size(), closed);
  for (const SheetPart& part : sheet.parts) {
    DrawingRules rules;
    rules.layer = part.id + "-cut";
    const auto cut = read_outline(svg_of(pieces, "Beret"), "p.svg", rules);
    ASSERT_TRUE(cut.ok()) << cut.fault().line();
    EXPECT_LT(test::furthest_apart(*cut, part.lines[0].points), 2e-6);
  }
}

TEST(RoundTrip, RingsHaveTheirOpeningOnALayerOfItsOwn) {
  const auto ring = pattern::disc_pieces({140, 142, 91, 9.525, ""})[1];
  for (const auto& [bytes, name, layer] :
       {std::tuple{svg_of({ring}, "r"), "r.svg", "ring-opening"}, {dxf_of({ring}), "r.dxf", "11"}}) {
    const Outline opening = read_back(bytes, name, layer);
    EXPECT_LT(test::furthest_apart(test::at_origin(opening), test::at_origin(ring.cut_holes[0])), 0.002);
  }
}

}  // namespace
}  // namespace crownwright::drawings
