#include "milling/arcs.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"

namespace crownwright::milling {
namespace {

// About (3, 4), radius 5, from the angle of 20 degrees.
double turn_by(MoveKind kind, double degrees) {
  const auto at = [](double angle) {
    Move move;
    move.x = 3 + 5 * std::cos(angle * pi / 180), move.y = 4 + 5 * std::sin(angle * pi / 180);
    return move;
  };
  Move arc = at(20 + degrees);
  arc.kind = kind, arc.cx = 3, arc.cy = 4;
  return turn_of(at(20), arc) * 180 / pi;
}

TEST(Arcs, TurnTheWayTheySay) {
  for (const double degrees : {1.0, 90.0, 179.0, 181.0, 270.0, 359.0}) {
    EXPECT_NEAR(turn_by(MoveKind::arc_ccw, degrees), degrees, 1e-9);
    EXPECT_NEAR(turn_by(MoveKind::arc_cw, degrees), degrees - 360, 1e-9);
    EXPECT_NEAR(turn_by(MoveKind::arc_cw, -degrees), -degrees, 1e-9);
  }
  EXPECT_EQ(turn_by(MoveKind::arc_ccw, 0), 0);
  EXPECT_EQ(turn_by(MoveKind::arc_cw, 0), 0);
}

TEST(Arcs, AreTwoKindsOfMove) {
  EXPECT_TRUE(is_arc(MoveKind::arc_cw) && is_arc(MoveKind::arc_ccw));
  EXPECT_FALSE(is_arc(MoveKind::line) || is_arc(MoveKind::rapid));
}

}  // namespace
}  // namespace crownwright::milling
