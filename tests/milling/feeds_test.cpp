// Feeds from a profile's figures.

#include "milling/feeds.h"

#include <gtest/gtest.h>

using namespace crownwright;
using namespace crownwright::milling;

namespace {

workshop::CuttingFigures figures_of(double chip_load, double spindle, double plunge) {
  workshop::CuttingFigures figures;
  figures.chip_load.value = chip_load;
  figures.spindle.value = spindle;
  figures.plunge.value = plunge;
  return figures;
}

}  // namespace

// cncshop.eu, worked example: 2 edges x 0.1 mm x 18000 turns a minute = 3600 mm/min.
TEST(Feeds, AreThoseOfTheWorkedExample) {
  const Feeds feeds = feeds_for(figures_of(0.1, 18000, 0.5), Tool());
  EXPECT_EQ(feeds.spindle, 18000);
  EXPECT_NEAR(feeds.cut, 3600, 1e-9);
  EXPECT_NEAR(feeds.plunge, 1800, 1e-9);
}

// Half the chip load for a tool of half the width (costcalculator.calculator.city: half for 1/8 in).
TEST(Feeds, GoWithTheDiameterAndTheEdges) {
  Tool thin;
  thin.diameter = 3;
  EXPECT_NEAR(feeds_for(figures_of(0.1, 18000, 0.25), thin).cut, 1800, 1e-9);
  EXPECT_NEAR(feeds_for(figures_of(0.1, 18000, 0.25), thin).plunge, 450, 1e-9);
  Tool single;
  single.edges = 1;
  EXPECT_NEAR(feeds_for(figures_of(0.1, 18000, 0.5), single).cut, 1800, 1e-9);
  Tool wide;
  wide.diameter = 12;
  wide.edges = 3;
  EXPECT_NEAR(feeds_for(figures_of(0.1, 10000, 0.5), wide).cut, 6000, 1e-9);
}

TEST(Feeds, OfADrillCountItsTwoLips) {
  Drill drill;
  drill.diameter = 3;
  const Feeds feeds = feeds_for(figures_of(0.1, 12000, 0.5), drill);
  EXPECT_NEAR(feeds.cut, 1200, 1e-9);
  EXPECT_NEAR(feeds.plunge, 600, 1e-9);
}
