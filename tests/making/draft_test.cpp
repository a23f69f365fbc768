// The pieces that an order gives to cut.
#include "making/draft.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "making/drafted.h"

namespace crownwright::making {
namespace {

using pattern::Piece;
using Pieces = std::vector<Piece>;

using std::numbers::pi;

Result<Pieces> try_draft(const std::string& text) {
  return draft_order(test::read_order(text), test::own_profiles());
}

Pieces draft(const std::string& text) {
  auto pieces = try_draft(text);
  if (!pieces) throw std::runtime_error("not drafted: " + pieces.fault().line());
  return *std::move(pieces);
}

struct Size {
  double width = 0, height = 0;
};
Size size_of(const pattern::Outline& outline) {
  double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
  for (const pattern::Vec2& p : outline) {
    left = std::min(left, p.x), right = std::max(right, p.x);
    top = std::min(top, p.y), bottom = std::max(bottom, p.y);
  }
  return {right - left, bottom - top};
}

/// Crown 280, head radius 90.7, rise 75, dome 6, edges 20. Its top is 151.609 mm long, its underside 71.471
/// (closed forms worked by hand).
std::string block_140(const std::string& more, const std::string& measure = "taken_at = \"cloth middle\"\n") {
  return "[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"569.884908 mm\"\nrise = \"75 mm\"\n" +
         measure + "[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n" + more;
}

// ---- panels ----------------------------------------------------------------------------------

// The widest half width is at the crown edge, where the meridian stands upright: pi 140 / 8 along the arc,
// and flat within a percent or so, for the arc is nearly straight there.
TEST(Draft, EightPanelsReachRoundTheCrown) {
  const Pieces pieces = draft(block_140("[pattern]\npanels = 8\nseam_allowance = \"12 mm\"\n[draft]\n"));
  ASSERT_EQ(pieces.size(), 1u);
  const Piece& panel = pieces[0];
  EXPECT_EQ(panel.name, "Panel");
  EXPECT_EQ(panel.count, 8);
  EXPECT_EQ(panel.size, "57 cm");
  ASSERT_EQ(panel.sew.size(), 1u);
  EXPECT_NEAR(size_of(panel.sew[0]).width, 2 * pi * 140 / 8, 1.2);
  // The seam's tangent is upright at the widest place, so that the allowance lies square to it.
  EXPECT_NEAR(size_of(panel.cut).width - size_of(panel.sew[0]).width, 24, 0.01);
}

TEST(Draft, WithoutAnAllowanceItIsThreeEighthsOfAnInch) {
  const Piece panel = draft(block_140("[pattern]\npanels = 8\n[draft]\n"))[0];
  EXPECT_NEAR(size_of(panel.cut).width - size_of(panel.sew[0]).width, 2 * 0.375 * 25.4, 0.01);
}

TEST(Draft, WithNoAllowanceTheSewLineIsCut) {
  const Piece panel = draft(block_140("[pattern]\npanels = 8\nseam_allowance = \"0 mm\"\n[draft]\n"))[0];
  EXPECT_NEAR(size_of(panel.cut).width, size_of(panel.sew[0]).width, 1e-9);
}

// Seam and centre length of the sew line by adding up its points: the meridian's 223.080 mm stays along the
// line that the order names.
TEST(Draft, TheOrderSaysWhichLineKeepsItsLength) {
  for (const char* along : {"seam", "centre"}) {
    SCOPED_TRACE(along);
    const Piece panel = draft(
        block_140(std::string("[pattern]\npanels = 12\nlength_along = \"") + along + "\"\n[draft]\n"))[0];
    const auto& sew = panel.sew[0];
    const auto tip = std::min_element(sew.begin(), sew.end(), [](auto p, auto q) { return p.y < q.y; });
    if (std::string(along) == "centre") {
      // Under the tip, in the middle of the head line's edge.
      double middle = 0, off = INFINITY;
      for (const pattern::Vec2& p : sew)
        if (p.y > tip->y + 150 && std::abs(p.x - tip->x) < off) off = std::abs(p.x - tip->x), middle = p.y;
      ASSERT_LT(off, 1);
      EXPECT_NEAR(middle - tip->y, 151.609 + 71.471, 0.01);
    } else {
      // Down the right seam to its corner, where the head line's edge turns level.
      double seam = 0;
      const auto n = sew.size(), start = static_cast<std::size_t>(tip - sew.begin());
      const bool rightwards = sew[(start + 1) % n].x > tip->x;
      const double end_half_width = pi * 90.7 / 12;
      for (std::size_t i = start;;) {
        const std::size_t next = rightwards ? (i + 1) % n : (i + n - 1) % n;
        if (sew[next].y > tip->y + 150 && std::abs(sew[next].x - tip->x) < end_half_width * 0.985) break;
        seam += std::hypot(sew[next].x - sew[i].x, sew[next].y - sew[i].y);
        i = next;
      }
      EXPECT_NEAR(seam, 151.609 + 71.471, 1.0);
    }
  }
}

TEST(Draft, FewerThanFourPanelsOrMoreThanTwentyFourAreRefused) {
  for (const char* panels : {"3", "25", "48"}) {
    const auto pieces = try_draft(block_140("[pattern]\npanels = " + std::string(panels) + "\n"));
    ASSERT_FALSE(pieces.ok()) << panels;
    EXPECT_EQ(pieces.fault().exit, ExitCode::order);
    EXPECT_NE(pieces.fault().line().find("4 to 24"), std::string::npos) << pieces.fault().line();
  }
  EXPECT_TRUE(try_draft(block_140("[pattern]\npanels = 24\n")).ok());
}

TEST(Draft, WithoutANumberOfPanelsTheOrderIsRefused) {
  const auto pieces = try_draft(block_140(""));
  ASSERT_FALSE(pieces.ok());
  EXPECT_EQ(pieces.fault().exit, ExitCode::order);
  EXPECT_NE(pieces.fault().line().find("pattern.panels"), std::string::npos) << pieces.fault().line();
}

// ---- steam and cloth -------------------------------------------------------------------------

// What is measured on the sewn beret before steam is what is cut: the same lengths again.
TEST(Draft, IsCutLargerByWhatSteamWillTake) {
  const Pieces pieces =
      draft(block_140("[cloth]\nname = \"boiled-wool\"\nthickness = \"0 mm\"\n[draft]\npieces = \"discs\"\n",
                      "taken_at = \"cloth middle\"\nbefore_steam = true\n"));
  EXPECT_NEAR(size_of(pieces[0].sew[0]).width, 2 * 151.609, 0.01);
}

// Figures of the outside, cloth of 3 mm: the middle lies 1.5 mm further in, and the top is 1.5 pi / 2
// shorter.
TEST(Draft, IsThatOfTheClothsMiddle) {
  const Pieces pieces = draft(
      block_140("[cloth]\nname = \"fleece\"\n[draft]\npieces = \"discs\"\n", "taken_at = \"outside\"\n"));
  EXPECT_NEAR(size_of(pieces[0].sew[0]).width, 2 * (151.609 - 1.5 * pi / 2), 0.01);
}

// ---- discs, band, cover ----------------------------------------------------------------------

TEST(Draft, TopAndRingAreAsLongAsTipEdgeAndUnderside) {
  const Pieces pieces =
      draft(block_140("[pattern]\nseam_allowance = \"10 mm\"\n[draft]\npieces = \"discs\"\n"));
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0].name, "Top");
  EXPECT_EQ(pieces[1].name, "Ring");
  EXPECT_NEAR(size_of(pieces[0].cut).width, 2 * (151.609 + 10), 0.01);
  EXPECT_NEAR(size_of(pieces[1].cut).width, 2 * (90.7 + 71.471 + 10), 0.01);
  ASSERT_EQ(pieces[1].cut_holes.size(), 1u);
  EXPECT_NEAR(size_of(pieces[1].cut_holes[0]).width, 2 * (90.7 - 10), 0.01);
}

// 570 mm round the head and two allowances; twice the depth and two allowances (common practice, no source).
TEST(Draft, TheBandGoesRoundTheHead) {
  const Pieces pieces = draft(
      "[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"57 cm\"\nrise = \"75 mm\"\n[cloth]\nname = "
      "\"fleece\"\n[pattern]\npanels = 8\nseam_allowance = \"10 mm\"\n[band]\ndepth = \"30 mm\"\n[draft]\n");
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[1].name, "Band");
  const Size size = size_of(pieces[1].cut);
  EXPECT_NEAR(std::max(size.width, size.height), 570 + 20, 0.01);
  EXPECT_NEAR(std::min(size.width, size.height), 2 * 30 + 20, 0.01);
}

// A pad of 260 mm, 55 mm thick, dome 6, edge 18: the tip angle f from (a - e (1 - sin f)) tan(f/2) = t by
// halving, its arc and the edge's quarter less f in closed form, then straight down to the foot.
TEST(Draft, ThePadsCoverReachesOverFaceEdgeAndTuck) {
  const double a = 130, t = 6, e = 18, thickness = 55;
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double f = (low + high) / 2;
    ((a - e * (1 - std::sin(f))) * std::tan(f / 2) < t ? low : high) = f;
  }
  const double rho = (a - e * (1 - std::sin(low))) / std::sin(low);
  const double face = rho * low + e * (pi / 2 - low) + (thickness - t - e * std::cos(low));
  const Pieces pieces = draft(
      "[measure]\ncrown_diameter = \"260 mm\"\nrise = \"55 mm\"\ntaken_at = \"form\"\n[shape]\ndome = "
      "\"6 mm\"\nedge_radius = \"18 mm\"\n[form]\nkind = \"pad\"\n[cover]\ntuck = \"40 mm\"\ncasing = "
      "\"15 mm\"\n[draft]\n");
  ASSERT_EQ(pieces.size(), 1u);
  EXPECT_EQ(pieces[0].name, "Cover");
  EXPECT_NEAR(size_of(pieces[0].cut).width, 2 * (face + 40 + 15), 0.01);
}

TEST(Draft, APadWithoutACoverHasNoPattern) {
  const auto pieces =
      try_draft("[measure]\ncrown_diameter = \"260 mm\"\nrise = \"55 mm\"\n[form]\nkind = \"pad\"\n");
  ASSERT_FALSE(pieces.ok());
  EXPECT_EQ(pieces.fault().exit, ExitCode::order);
  EXPECT_NE(pieces.fault().line().find("[cover]"), std::string::npos) << pieces.fault().line();
}

}  // namespace
}  // namespace crownwright::making
