#include "pattern/draft.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/geometry/algorithms/distance.hpp>
#include <boost/geometry/algorithms/length.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>
#include <random>

#include "drawn.h"
#include "meridian/random_beret.h"
#include "pattern/draft_law.h"
#include "support/seed.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;
using test::pi;
namespace bg = boost::geometry;
using BgPoint = bg::model::d2::point_xy<double>;
using BgLine = bg::model::linestring<BgPoint>;

using test::laws;
using test::study;

BgLine seam_of(const PanelNet& net) {
  BgLine line;
  for (const PanelPoint& p : net.points) line.emplace_back(p.x, p.y);
  return line;
}
BgLine centre_of(const PanelNet& net) {
  BgLine line;
  for (const PanelPoint& p : net.points) line.emplace_back(0, p.y + p.bow);
  return line;
}

double length_of(const BgLine& line) { return static_cast<double>(bg::length(line)); }

// Lengths of the seam and the centre line against the meridian's 207.4 mm, worked out apart from this
// program, in per cent: +- 17.7 with 4 panels, 8.24 with 6, 4.65 with 8, 2.06 with 12, 0.51 with 24. Measured
// on the polylines by Boost.Geometry.
TEST(Draft, SeamAndCentrePartMoreTheFewerPanels) {
  const Parallels crown = test::parallels_of(study);
  EXPECT_NEAR(crown.length(), 207.4, 0.05);
  const struct {
    int panels;
    double per_cent, within;
  } figures[] = {{4, 17.7, 0.05}, {6, 8.24, 0.005}, {8, 4.65, 0.005}, {12, 2.06, 0.005}, {24, 0.51, 0.005}};
  for (const auto& figure : figures) {
    const auto net = draft_panel(crown, {figure.panels, LengthAlong::shared, 0.001});
    ASSERT_TRUE(net.ok()) << net.fault().line();
    EXPECT_NEAR(100 * (length_of(seam_of(*net)) / crown.length() - 1), figure.per_cent, figure.within);
    EXPECT_NEAR(100 * (length_of(centre_of(*net)) / crown.length() - 1), -figure.per_cent, figure.within);
  }
}

// The length law summed up: w seam + (1 - w) centre = meridian, the last from the chain's closed form.
TEST(Draft, LengthsKeepTheLawForRandomBerets) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int drafted = 0;
  for (int i = 0; i < 60; ++i) {
    const BeretValues values = meridian::random_beret(random);
    const meridian::Chain chain = meridian::crown_chain(values).value();
    const LengthAlong along = laws[random() % 3];
    const auto net = draft_panel(Parallels::of(chain), {4 + static_cast<int>(random() % 21), along, 0.001});
    if (!net) continue;
    ++drafted;
    const double seam = length_of(seam_of(*net)), centre = length_of(centre_of(*net));
    const double w = seam_share(along);
    // A chord as fine as that is short of its arc by less than 3e-5.
    EXPECT_NEAR(w * seam + (1 - w) * centre, meridian::length(chain), 0.01);
    EXPECT_NEAR(seam, net->seam_length, 0.01);
    EXPECT_NEAR(centre, net->centre_length, 1e-9);
    EXPECT_NEAR(net->points.back().x, pi / net->panels * values.b, 0.2 * net->points.back().x);
  }
  EXPECT_GT(drafted, 15);
}

// And at every place, not only in sum.
TEST(Draft, LengthsToAPlaceKeepTheLaw) {
  for (const LengthAlong along : laws) {
    const auto net = draft_panel(test::parallels_of(study), {8, along, 0.001});
    ASSERT_TRUE(net.ok());
    const double w = seam_share(along);
    for (double s = 0; s <= net->points.back().s; s += 3.1) {
      const NetLengths lengths = lengths_to(*net, s);
      EXPECT_NEAR(w * lengths.seam + (1 - w) * lengths.centre, s, 0.002) << s;
    }
  }
}

TEST(Draft, PolylineLiesWithinItsToleranceOfTheLawsCurve) {
  for (const LengthAlong along : laws)
    for (const BeretValues& values :
         {study, BeretValues{140, 90.7, 75, 6, 4, 4}, BeretValues{140, 90.7, 40, 0, 0, 0}})
      for (const int panels : {6, 11}) {
        const Parallels crown = test::parallels_of(values);
        const auto net = draft_panel(crown, {panels, along, 0.001});
        const auto fine = draft_panel(crown, {panels, along, 1e-6});
        if (!net || !fine) continue;
        const BgLine coarse = seam_of(*net);
        double worst = 0;
        for (std::size_t i = 0; i < fine->points.size(); i += 7)
          worst = std::max(worst, bg::distance(BgPoint(fine->points[i].x, fine->points[i].y), coarse));
        EXPECT_LE(worst, 0.001 + 1e-6);
        EXPECT_LT(net->points.size(), 600U);
      }
}

TEST(Draft, StartsAtTheTipAndRunsToTheHeadLine) {
  const Parallels crown = test::parallels_of(study);
  const PanelNet net = draft_panel(crown, {8, LengthAlong::shared, 0.001}).value();
  const PanelPoint tip = net.points.front();
  EXPECT_EQ(tip.s, 0);
  EXPECT_EQ(tip.x, 0);
  EXPECT_EQ(tip.y, 0);
  EXPECT_EQ(net.points.back().s, crown.length());
  for (std::size_t i = 1; i < net.points.size(); ++i) EXPECT_GT(net.points[i].s, net.points[i - 1].s);
}

// The law's own half width at a corner of the meridian (edge radius 0), by hand: both flat discs, r falls
// from 140 at slope -1, so r(s + h) - r(s - h) = 0 there and theta = 0, x = pi 140 / n.
TEST(Draft, RazorEdgeHasAStraightCrossLineAtTheEdge) {
  const Parallels discs = Parallels::of_discs(140, 140, 90);
  for (const int panels : {8, 12}) {
    const auto net = draft_panel(discs, {panels, LengthAlong::shared, 0.001});
    ASSERT_TRUE(net.ok()) << net.fault().line();
    const auto edge = std::find_if(net->points.begin(), net->points.end(),
                                   [](const PanelPoint& p) { return std::abs(p.s - 140) < 1e-9; });
    ASSERT_NE(edge, net->points.end());
    EXPECT_NEAR(edge->x, pi * 140 / panels, 1e-6);
    EXPECT_NEAR(edge->theta, 0, 1e-9);
  }
}

void expect_refusal_below_least(const Parallels& crown, LengthAlong along) {
  const int least = least_panels(crown, along);
  ASSERT_GE(least, 4);
  const auto refused = draft_panel(crown, {least - 1, along, 0.001});
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  EXPECT_NE(refused.fault().what.find(" mm from the tip"), std::string::npos) << refused.fault().line();
  EXPECT_NE(refused.fault().allowed.find("is " + std::to_string(least)), std::string::npos);
  EXPECT_TRUE(draft_panel(crown, {least, along, 0.001}).ok());
  EXPECT_EQ(least_panels(crown, along, least + 1), least + 1);
}

TEST(Draft, RefusesWherePanelsCannotBeCutAndNamesTheLeastCount) {
  // Tight edges under wide crowns: along the seam few panels have no room.
  for (const BeretValues& values : {BeretValues{140, 90, 70, 0, 1, 1}, BeretValues{160, 60, 9, 2, 1, 1}})
    expect_refusal_below_least(test::parallels_of(values), LengthAlong::seam);
  // Cloth that widens three times as fast as a disc, as some drawing might.
  const Parallels flaring = Parallels::through({0, 20, 40, 50, 75, 100}, {0, 20, 40, 70, 70, 70});
  for (const LengthAlong along : laws) expect_refusal_below_least(flaring, along);
}

TEST(Draft, SaysSoWhenNoCountWorks) {
  const Parallels folded = Parallels::through({0, 20, 40, 41, 75, 100}, {0, 20, 40, 90, 90, 90});
  EXPECT_EQ(least_panels(folded, LengthAlong::seam), 0);
  const auto refused = draft_panel(folded, {8, LengthAlong::seam, 0.001});
  ASSERT_FALSE(refused.ok());
  EXPECT_NE(refused.fault().allowed.find("no panel count"), std::string::npos) << refused.fault().line();
}

// A draft does not ask every place where the law is far from an obstacle: here all are asked, a tenth of a
// millimetre apart. Tight edges along the seam are what is refused most.
TEST(Draft, DraftsWhereNoPlaceHasAnObstacle) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int drafted = 0, refused = 0;
  for (int i = 0; i < 200; ++i) {
    BeretValues values = meridian::random_beret(random);
    const bool is_tight = i % 2 == 0;
    if (is_tight) values = {140, 90, 70, 0, test::uniform(random, 0.3, 4), 1};
    if (is_tight) values.e_l = values.e_u;
    const Parallels crown = test::parallels_of(values);
    const LengthAlong along = is_tight ? LengthAlong::seam : laws[random() % 3];
    const int panels = 3 + static_cast<int>(random() % (is_tight ? 5 : 14));
    const DraftLaw law(crown, panels, along);
    int obstacles = 0;
    for (double s = 0.05; s < crown.length(); s += 0.1) obstacles += law.obstacle(s) != Obstacle::none;
    const bool is_drafted = draft_panel(crown, {panels, along, 0.01}).ok();
    // A run so short may lie between two places that a draft asks.
    const int shortest_seen = 3;
    EXPECT_FALSE(is_drafted && obstacles > shortest_seen) << panels << " panels, " << obstacles;
    EXPECT_FALSE(!is_drafted && obstacles == 0 && values.e_u > 1) << panels << " panels";
    ++(is_drafted ? drafted : refused);
  }
  EXPECT_GT(drafted, 30);
  EXPECT_GT(refused, 15);
}

/// Between neighbouring cross arcs there must be cloth: as chords they must not meet within the panel. Asked
/// of the points of the net, not of the law.
TEST(Draft, CrossArcsOfADraftedPanelDoNotCross) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 40; ++i) {
    const Parallels crown = test::parallels_of(meridian::random_beret(random));
    const int panels = least_panels(crown, LengthAlong::shared);
    if (panels == 0) continue;
    const PanelNet net = draft_panel(crown, {panels, LengthAlong::shared, 0.001}).value();
    for (std::size_t k = 1; k < net.points.size(); ++k) {
      const PanelPoint &p = net.points[k - 1], &q = net.points[k];
      EXPECT_GE(q.y, p.y) << k;
      EXPECT_GE(q.y + q.bow, p.y + p.bow) << k;
    }
  }
}

}  // namespace
}  // namespace crownwright::pattern
