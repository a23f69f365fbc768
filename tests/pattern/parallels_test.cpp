#include "pattern/parallels.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "drawn.h"
#include "support/seed.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;

/// Edges sharp and round, tip flat and domed.
const BeretValues berets[] = {
    {135, 91, 62, 5, 22, 22}, {140, 90.7, 75, 0, 20, 12}, {120, 80, 40, 6, 0, 0}, {110, 85, 90, 60, 30, 10}};

// Against the chain walked as a curve in the plane (meridian::at, another way to the same point).
TEST(Parallels, OfAChainAreItsRadii) {
  for (const BeretValues& values : berets) {
    const meridian::Chain chain = meridian::crown_chain(values).value();
    const Parallels crown = Parallels::of(chain);
    ASSERT_NEAR(crown.length(), meridian::length(chain), 1e-12);
    for (double s = 0; s <= crown.length(); s += 0.37)
      EXPECT_NEAR(crown.r(s), meridian::at(chain, s).r, 1e-9);
  }
}

TEST(Parallels, SlopeIsTheDifferenceOfRadii) {
  const Parallels crown = test::parallels_of(berets[0]);
  for (double s = 0.5; s < crown.length(); s += 0.73)
    EXPECT_NEAR(crown.slope(s), (crown.r(s + 1e-5) - crown.r(s - 1e-5)) / 2e-5, 1e-6) << s;
}

TEST(Parallels, OddPastTheTipStraightPastTheHeadLine) {
  for (const BeretValues& values : berets) {
    const Parallels crown = test::parallels_of(values);
    const double end = crown.length();
    EXPECT_EQ(crown.r(0), 0);
    EXPECT_EQ(crown.r(-17), -crown.r(17));
    EXPECT_NEAR(crown.r(end), values.b, 1e-9);
    EXPECT_NEAR(crown.r(end + 10) - crown.r(end), 10 * crown.slope(end), 1e-9);
  }
}

TEST(Parallels, JointsAreWhereSegmentsMeet) {
  // Tip, upper edge, lower edge, underside.
  EXPECT_EQ(test::parallels_of(berets[0]).joints().size(), 3U);
  // Sharp edge: tip and underside alone.
  const Parallels sharp = test::parallels_of(berets[2]);
  ASSERT_EQ(sharp.joints().size(), 1U);
  EXPECT_GT(sharp.slope(sharp.joints()[0] - 1e-6), 0);
  EXPECT_LT(sharp.slope(sharp.joints()[0]), 0);
}

// Closed form: a sine, read every 2 mm. Akima's slope at a reading is a mean of those of the chords beside
// it, so it is right within the turn of one chord, 2 / 100.
TEST(Parallels, ThroughReadingsOfASphere) {
  std::vector<double> s, r;
  for (double at = 0; at <= 150; at += 2) {
    s.push_back(at);
    r.push_back(100 * std::sin(at / 100));
  }
  const Parallels crown = Parallels::through(s, r);
  for (double at = 0; at <= 150; at += 0.5) {
    EXPECT_NEAR(crown.r(at), 100 * std::sin(at / 100), 2e-3);
    EXPECT_NEAR(crown.slope(at), std::cos(at / 100), 0.02);
  }
}

TEST(Parallels, ThroughReadingsNeverSwingsOutBeyondThem) {
  const Parallels step = Parallels::through({0, 10, 20, 30, 40, 50}, {0, 10, 20, 20, 20, 20});
  for (double s = 20; s <= 50; s += 0.1) EXPECT_NEAR(step.r(s), 20, 1e-9);
  // Three readings are enough.
  EXPECT_NEAR(Parallels::through({0, 10, 20}, {0, 10, 20}).r(15), 15, 1e-9);
}

TEST(Parallels, OfDiscsRiseAndFallByTheirRadii) {
  const Parallels discs = Parallels::of_discs(140, 140, 91);
  EXPECT_EQ(discs.length(), 189);
  EXPECT_EQ(discs.r(70), 70);
  EXPECT_EQ(discs.r(160), 120);
  EXPECT_EQ(discs.r(189), 91);
  EXPECT_EQ(discs.slope(139), 1);
  EXPECT_EQ(discs.slope(141), -1);
}

}  // namespace
}  // namespace crownwright::pattern
