#include "pattern/pieces.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "pattern/hand_net.h"

namespace crownwright::pattern {
namespace {

constexpr double three_eighths_inch = 9.525;

std::vector<Notch> called(const Piece& piece, const std::string& says) {
  std::vector<Notch> found;
  for (const Notch& n : piece.notches) {
    if (n.says == says) found.push_back(n);
  }
  return found;
}

Piece panel(int panels = 8, double crown_edge = 130) {
  return panel_piece(test::hand_net({}, panels), {three_eighths_inch, crown_edge, "57 cm"});
}

TEST(PanelPiece, SaysWhatAndHowMany) {
  const Piece piece = panel();
  EXPECT_EQ(piece.name, "Panel");
  EXPECT_EQ(piece.size, "57 cm");
  EXPECT_EQ(piece.count, 8);
  EXPECT_NE(std::find(piece.notes.begin(), piece.notes.end(), "seam allowance 9.5 mm"), piece.notes.end());
}

TEST(PanelPiece, HeadLineIsAnArcThroughCornersAndMiddle) {
  const test::HandSeam seam;
  const Vec2 corner = seam.at(seam.length());
  const double radius = corner.x / std::sin(0.2), centre_y = corner.y + radius * std::cos(0.2);
  int on_arc = 0;
  const Piece piece = panel();
  for (const Vec2 p : piece.sew.front()) {
    if (std::abs(p.x) >= corner.x || p.y < corner.y - 10) continue;
    EXPECT_NEAR(std::hypot(p.x, p.y - centre_y), radius, 1e-9);
    ++on_arc;
  }
  EXPECT_GT(on_arc, 20);
}

// The crown edge's notch is square to the seam where s = 130 falls on the arc; closed form of the arc.
TEST(PanelPiece, CrownEdgeNotchesStandSquareToTheSeamOnTheCutLine) {
  const test::HandSeam seam;
  const double lean = seam.beta - (130 - seam.first) / seam.radius;
  const Vec2 sewn = seam.at(130);
  const auto notches = called(panel(), "crown edge");
  ASSERT_EQ(notches.size(), 2u);
  EXPECT_NEAR(notches[0].on_cut.x, sewn.x + three_eighths_inch * std::cos(lean), 0.02);
  EXPECT_NEAR(notches[0].on_cut.y, sewn.y - three_eighths_inch * std::sin(lean), 0.02);
  EXPECT_NEAR(notches[1].on_cut.x, -notches[0].on_cut.x, 1e-12);
  EXPECT_LT(norm(notches[0].inward), three_eighths_inch);
  EXPECT_LT(norm(notches[0].on_cut + notches[0].inward - sewn), three_eighths_inch);
}

TEST(PanelPiece, MiddleNotchesHalveTheSeam) {
  const test::HandSeam seam;
  const auto notches = called(panel(), "middle");
  ASSERT_EQ(notches.size(), 2u);
  const Vec2 half = seam.at(seam.length() / 2);
  EXPECT_NEAR(norm(notches[0].on_cut - half), three_eighths_inch, 1e-3);
}

TEST(PanelPiece, OpeningQuartersAreNotchedWhereTheyFallOnAPanel) {
  EXPECT_TRUE(called(panel(8), "quarter").empty());  // on the seams
  EXPECT_EQ(called(panel(6), "quarter").size(), 1u);
  EXPECT_EQ(called(panel(7), "half").size(), 1u);
  EXPECT_NEAR(called(panel(6), "quarter")[0].on_cut.x, 0, 1e-12);
}

TEST(PanelPiece, WithoutAllowanceIsCutOnTheSewLine) {
  const Piece piece = panel_piece(test::hand_net(), {});
  EXPECT_EQ(piece.cut, piece.sew.front());
  EXPECT_TRUE(called(piece, "crown edge").empty());  // not asked for
}

TEST(DiscPieces, AreRoundWithTheAllowanceOnBothEdges) {
  const auto pieces = disc_pieces({140, 142, 91, three_eighths_inch, "57 cm"});
  ASSERT_EQ(pieces.size(), 2u);
  for (const Vec2 p : pieces[0].cut) EXPECT_NEAR(norm(p), 140 + three_eighths_inch, 1e-9);
  for (const Vec2 p : pieces[1].cut) EXPECT_NEAR(norm(p), 142 + three_eighths_inch, 1e-9);
  ASSERT_EQ(pieces[1].cut_holes.size(), 1u);
  for (const Vec2 p : pieces[1].cut_holes[0]) EXPECT_NEAR(norm(p), 91 - three_eighths_inch, 1e-9);
  EXPECT_NEAR(std::abs(signed_area(pieces[0].sew[0])), std::numbers::pi * 140 * 140, 0.5);
  EXPECT_EQ(called(pieces[0], "quarter").size(), 4u);
  EXPECT_EQ(called(pieces[1], "quarter").size(), 8u);
}

TEST(DiscPieces, OpeningNotchesPointIntoTheCloth) {
  const auto pieces = disc_pieces({140, 142, 91, three_eighths_inch, ""});
  for (const Notch& n : pieces[1].notches) {
    const double from = norm(n.on_cut), to = norm(n.on_cut + n.inward);
    if (from < 100) {
      EXPECT_GT(to, from);
      EXPECT_LT(to, 91);
    } else {
      EXPECT_LT(to, from);
      EXPECT_GT(to, 142);
    }
  }
}

// Common practice, no source: a trade set's band in two strips of 42.5 and 18.5 cm, joined twice with 3/8 in
// allowances, is 57.2 cm round when finished.
TEST(Band, OfTheTradesTwoStripsIsItsHeadGirth) {
  EXPECT_NEAR(joined_length({425, 185}, three_eighths_inch), 572, 0.5);
  EXPECT_NEAR(joined_length({425, 185}, three_eighths_inch), 425 + 185 - 4 * 9.525, 1e-9);
}

TEST(Band, StripsSewUpToTheHeadGirth) {
  for (int strips = 1; strips <= 4; ++strips) {
    const auto pieces = band_pieces({570, 30, three_eighths_inch, strips, std::nullopt, ""});
    ASSERT_TRUE(pieces.ok());
    ASSERT_EQ(pieces->size(), 1u);
    const Piece& band = pieces->front();
    EXPECT_EQ(band.count, strips);
    const double cut = band.cut[1].x - band.cut[0].x;
    EXPECT_NEAR(joined_length(std::vector<double>(static_cast<std::size_t>(strips), cut), three_eighths_inch),
                570, 1e-9);
    EXPECT_NEAR(band.cut[2].y - band.cut[1].y, 60 + 2 * three_eighths_inch, 1e-9);
    EXPECT_EQ(band.marks.front().says, "fold");
    EXPECT_NEAR(band.marks.front().line.front().y, 30, 1e-9);
  }
}

TEST(Band, WithElasticMarksTheClothItGathers) {
  const auto pieces = band_pieces({570, 30, 10, 2, BandPlan::Elastic{60, 95}, ""});
  ASSERT_TRUE(pieces.ok());
  ASSERT_EQ(pieces->size(), 2u);
  std::vector<double> ends;
  for (const Mark& m : pieces->front().marks) {
    if (m.says == "elastic") ends.push_back(m.line.front().x);
  }
  ASSERT_EQ(ends.size(), 2u);
  EXPECT_NEAR(ends[1] - ends[0], 95, 1e-9);
  EXPECT_EQ(pieces->front().count + pieces->back().count, 2);
}

TEST(Band, ThatCannotBeMadeIsRefused) {
  const auto refused = [](const BandPlan& plan, const std::string& words) {
    const auto pieces = band_pieces(plan);
    ASSERT_FALSE(pieces.ok());
    EXPECT_NE(pieces.fault().line().find(words), std::string::npos) << pieces.fault().line();
  };
  refused({0, 30, 10, 1, std::nullopt, ""}, "cannot be cut");
  refused({570, 0, 10, 1, std::nullopt, ""}, "cannot be cut");
  refused({570, 30, -1, 1, std::nullopt, ""}, "negative");
  refused({570, 30, 10, 0, std::nullopt, ""}, "0 strips");
  refused({570, 30, 10, 1, BandPlan::Elastic{90, 60}, ""}, "relaxed");
  refused({570, 30, 10, 2, BandPlan::Elastic{90, 300}, ""}, "longer than the strip");
}

TEST(Cover, ReachesOverTheFaceRoundTheEdgeAndUnder) {
  const Piece cover = cover_piece({150, 40, 15});
  for (const Vec2 p : cover.cut) EXPECT_NEAR(norm(p), 205, 1e-9);
  ASSERT_EQ(cover.marks.size(), 2u);
  EXPECT_EQ(cover.marks[0].says, "fold");
  for (const Vec2 p : cover.marks[0].line) EXPECT_NEAR(norm(p), 190, 1e-9);
  for (const Vec2 p : cover.sew.front()) EXPECT_NEAR(norm(p), 175, 1e-9);
}

}  // namespace
}  // namespace crownwright::pattern
