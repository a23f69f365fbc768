// The swept cutter at single cells: closed forms, and positions tried one by one.

#include "simulation/sweep.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/light.h"
#include "support/random_number.h"
#include "support/seed.h"

namespace {

using namespace crownwright;
using simulation::ArcPiece;
using simulation::Cutter;
using simulation::HeightMap;
using simulation::LinePiece;
using simulation::Motion;
using simulation::Piece;
using simulation::Stroke;
using simulation::Tip;

constexpr double sweep_pi = std::numbers::pi;
const Cutter ball6{Cutter::Kind::ball, 6, 50, 60, 25};
const Cutter flat6{Cutter::Kind::flat, 6, 50, 60, 25};

/// A map about the origin with a cell's middle on it.
HeightMap map_round_origin(double half, double top, double cell) {
  const double side = (std::floor(half / cell) + 0.5) * cell;
  return HeightMap({-side, -side, side, side, top}, cell);
}

template <class Formula>
void expect_heights(const HeightMap& map, Formula formula, double tolerance = 1e-9) {
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column)
      ASSERT_NEAR(map.heights[map.index(column, row)], formula(map.x(column), map.y(row)), tolerance)
          << map.x(column) << ", " << map.y(row);
  }
}

TEST(Sweep, StraightPassLeavesAHalfCylinder) {
  HeightMap map = map_round_origin(10, 5, 0.25);
  const auto bite = cut(map, ball6, LinePiece{{-20, 1, 2}, {20, 1, 2}});
  expect_heights(map, [](double, double y) {
    const double c = y - 1;
    return std::abs(c) <= 3 ? std::min(5.0, 2 + 3 - std::sqrt(9 - c * c)) : 5;
  });
  EXPECT_NEAR(bite.depth, 3, 1e-9);
}

// A cylinder about a line that rises by m: square to it the groove is a half circle, so the depth under the
// line of the middles is (R / cos) sqrt(1 - (c / R)^2) where the whole line is swept.
TEST(Sweep, SlopedPassLeavesASlopedCylinder) {
  for (const double m : {0.1, -0.5, 2.0}) {
    HeightMap map = map_round_origin(2, 500, 0.25);
    cut(map, ball6, LinePiece{{-40, 0, 100 - 40 * m}, {40, 0, 100 + 40 * m}});
    expect_heights(map, [&](double x, double y) {
      return 100 + 3 + m * x - std::sqrt(9 - y * y) * std::sqrt(1 + m * m);
    });
  }
}

TEST(Sweep, EndsOfAPassAreHalfBalls) {
  HeightMap map = map_round_origin(8, 4, 0.25);
  // A little off the cells' middles, so that none lies on the rim.
  cut(map, ball6, LinePiece{{0.013, 0, 0}, {3.013, 4, 0}});
  expect_heights(map, [](double from_middle, double y) {
    const double x = from_middle - 0.013;
    const double s = std::clamp((3 * x + 4 * y) / 5, 0.0, 5.0);
    const double d2 = (x - 0.6 * s) * (x - 0.6 * s) + (y - 0.8 * s) * (y - 0.8 * s);
    return d2 <= 9 ? 3 - std::sqrt(9 - d2) : 4;
  });
}

TEST(Sweep, BallStraightDownLeavesABall) {
  HeightMap map = map_round_origin(5, 10, 0.1);
  cut(map, ball6, LinePiece{{0.03, 0.04, 20}, {0.03, 0.04, 1}});
  expect_heights(map, [](double x, double y) {
    const double d2 = (x - 0.03) * (x - 0.03) + (y - 0.04) * (y - 0.04);
    return d2 <= 9 ? 1 + 3 - std::sqrt(9 - d2) : 10;
  });
}

TEST(Sweep, OldHeightsAreKept) {
  HeightMap map = map_round_origin(5, 10, 0.25);
  cut(map, flat6, LinePiece{{-20, 0, 2}, {20, 0, 2}});
  ASSERT_EQ(map.heights[map.index(0, map.rows / 2)], 2);
  const HeightMap once = map;
  EXPECT_EQ(cut(map, ball6, LinePiece{{-20, 0, 2}, {20, 0, 2}}).depth, 0);
  EXPECT_EQ(cut(map, flat6, LinePiece{{0, 0, 30}, {0, 0, 3}}).depth, 0);
  EXPECT_EQ(map.heights, once.heights);
}

TEST(Sweep, FlatToolLeavesAFlatSlot) {
  HeightMap map = map_round_origin(10, 5, 0.25);
  cut(map, flat6, LinePiece{{-4.01, 0, 1.5}, {4.01, 0, 1.5}});
  expect_heights(map, [](double x, double y) {
    const double over = std::max(0.0, std::abs(x) - 4.01);
    return over * over + y * y <= 9 ? 1.5 : 5;
  });
}

// Down a ramp the lowest place over a column is that of the disc's trailing edge.
TEST(Sweep, FlatToolOnARamp) {
  HeightMap map = map_round_origin(2, 50, 0.25);
  cut(map, flat6, LinePiece{{-40, 0, 20}, {40, 0, 4}});
  expect_heights(map, [](double x, double y) { return 12 - 0.2 * (x + std::sqrt(9 - y * y)); });
}

TEST(Sweep, LevelArcIsAHalfTorus) {
  for (const double radius : {8.0, 1.0}) {
    for (const double turn : {-2 * sweep_pi, 1.2}) {
      HeightMap map = map_round_origin(13, 6, 0.25);
      Stroke stroke{turn < 0 ? Motion::clockwise : Motion::counterclockwise, 0, 0, 1, 0, 0, turn, 600, 1};
      stroke.x = radius * std::cos(turn);
      stroke.y = radius * std::sin(turn);
      for_pieces({radius, 0, 1}, stroke, [&](const Piece& piece) { cut(map, ball6, piece); });
      expect_heights(
          map,
          [&](double x, double y) {
            double d = std::abs(std::hypot(x, y) - radius);
            const double angle = std::atan2(y, x);
            if (turn > 0 && !(angle >= 0 && angle <= turn))
              d = std::min(std::hypot(x - radius, y), std::hypot(x - stroke.x, y - stroke.y));
            return d <= 3 ? std::min(6.0, 1 + 3 - std::sqrt(std::max(0.0, 9 - d * d))) : 6;
          },
          1e-7);
    }
  }
}

// Dormer Pramet, milling catalogue 2021-22, p. 114, table 3b: line offset fe that leaves Rth, printed to 0.01
// mm.
TEST(Sweep, TwoPassesLeaveThePublishedCusp) {
  struct Row {
    double diameter, steps[8];
  };
  const Row rows[] = {{6, {0.22, 0.31, 0.44, 0.62, 0.87, 1.22, 1.71, 2.40}},
                      {10, {0.28, 0.40, 0.57, 0.80, 1.13, 1.58, 2.22, 3.12}},
                      {20, {0.40, 0.57, 0.80, 1.13, 1.60, 2.24, 3.15, 4.44}},
                      {25, {0.45, 0.63, 0.89, 1.26, 1.79, 2.51, 3.53, 4.97}}};
  const double cusps[] = {0.002, 0.004, 0.008, 0.016, 0.032, 0.063, 0.125, 0.25};
  const auto cusp_of = [](double diameter, double step, double cell) {
    HeightMap map = map_round_origin(3, 30, cell);
    const Cutter ball{Cutter::Kind::ball, diameter, 50, 60, 25};
    for (const double x : {-step / 2, step / 2}) cut(map, ball, LinePiece{{x, -30, 0}, {x, 30, 0}});
    return map.heights[map.index(map.columns / 2, map.rows / 2)];
  };
  for (const Row& row : rows) {
    for (int i = 0; i < 8; ++i) {
      const double s = row.steps[i], R = row.diameter / 2;
      for (const double cell : {0.5, 0.25, 0.1})
        EXPECT_NEAR(cusp_of(row.diameter, s, cell), R - std::sqrt(R * R - s * s / 4), 1e-12);
      EXPECT_LE(cusp_of(row.diameter, s - 0.0051, 0.25), cusps[i]) << row.diameter << " " << s;
      EXPECT_GE(cusp_of(row.diameter, s + 0.0051, 0.25), cusps[i]) << row.diameter << " " << s;
    }
  }
}

TEST(Sweep, FluteIsMeasuredWhereTheToolComesOver) {
  const Cutter low{Cutter::Kind::ball, 6, 4, 60, 25};
  HeightMap map = map_round_origin(10, 10, 0.25);
  EXPECT_NEAR(cut(map, low, LinePiece{{-20, 0, 3.5}, {20, 0, 3.5}}).above_flute, 2.5, 1e-9);
  // Once more deeper: only what the first pass left beside it stands as high.
  EXPECT_NEAR(cut(map, low, LinePiece{{-20, 0, 3}, {20, 0, 3}}).above_flute, 0, 1e-9);
  // Straight down the edges meet everything first; down a ramp the rim comes late over what lies beside it.
  HeightMap other = map_round_origin(10, 10, 0.25);
  EXPECT_EQ(cut(other, low, LinePiece{{0, 0, 12}, {0, 0, 2}}).above_flute, 0);
  HeightMap third = map_round_origin(20, 10, 0.25);
  EXPECT_NEAR(cut(third, low, LinePiece{{-10, 0, 10}, {10, 0, 2}}).above_flute, 10 - 2 - 4, 0.05);
  // Over the middle of the line the tool comes a radius early: 0.4 * 3 higher than when it is lowest there.
  HeightMap small = map_round_origin(0.1, 10, 0.25);
  const Cutter lower{Cutter::Kind::ball, 6, 2, 60, 25};
  EXPECT_NEAR(cut(small, lower, LinePiece{{-10, 0, 10}, {10, 0, 2}}).above_flute, 10 - (6 + 0.4 * 3) - 2,
              1e-9);
}

TEST(Sweep, CylinderIsMeasuredFromItsLowerFace) {
  HeightMap map = map_round_origin(10, 10, 0.25);
  EXPECT_NEAR(depth_into_cylinder(map, LinePiece{{0, 0, 1}, {2, 0, 1}}, 4, 8), 1, 1e-12);
  EXPECT_EQ(depth_into_cylinder(map, LinePiece{{0, 0, 1}, {2, 0, 1}}, 4, 9), 0);
}

// Of a long diagonal only cells near it are looked at; and all of them.
TEST(Sweep, DiagonalsAreCutWhole) {
  HeightMap map = map_round_origin(60, 10, 0.5);
  cut(map, flat6, LinePiece{{-70, -50, 1}, {65, 55, 1}});
  const double tx = 135 / std::hypot(135, 105), ty = 105 / std::hypot(135, 105);
  expect_heights(map,
                 [&](double x, double y) { return std::abs((x + 70) * ty - (y + 50) * tx) <= 3 ? 1 : 10; });
}

// ---- positions tried one by one ----

struct RandomMove {
  Tip from;
  Stroke stroke;
};

/// Where the tip is after a share of the move: written once more, by the angle.
Tip place_at(const RandomMove& move, double share) {
  const Stroke& to = move.stroke;
  const double z = move.from.z + share * (to.z - move.from.z);
  if (to.turn == 0)
    return {move.from.x + share * (to.x - move.from.x), move.from.y + share * (to.y - move.from.y), z};
  const double radius = std::hypot(move.from.x - to.cx, move.from.y - to.cy);
  const double angle = std::atan2(move.from.y - to.cy, move.from.x - to.cx) + share * to.turn;
  return {to.cx + radius * std::cos(angle), to.cy + radius * std::sin(angle), z};
}

/// Of a tool that is `more` larger all round about the same middle.
double height_under(const Cutter& cutter, Tip tip, double x, double y, double more) {
  const double d2 = (x - tip.x) * (x - tip.x) + (y - tip.y) * (y - tip.y), R = cutter.radius(),
               wide = R + more;
  if (d2 > wide * wide) return 1e9;
  return cutter.kind == Cutter::Kind::ball ? tip.z + R - std::sqrt(wide * wide - d2) : tip.z - more;
}

double lowest_tried(const Cutter& cutter, const RandomMove& move, double x, double y, double more) {
  constexpr int tries = 2000;
  double best = 1e9;
  for (int i = 0; i <= tries; ++i)
    best = std::min(best, height_under(cutter, place_at(move, i / 2000.0), x, y, more));
  return best;
}

RandomMove random_move(std::mt19937_64& random) {
  const auto within = [&](double a) { return test::uniform(random, -a, a); };
  RandomMove move{{within(6), within(6), within(3)}, {}};
  const std::size_t kind = test::pick(random, 5);
  Stroke& to = move.stroke;
  to = Stroke{Motion::feed, within(6), within(6), within(3), 0, 0, 0, 600, 1};
  if (kind == 0) to.z = move.from.z;
  if (kind == 1) to.x = move.from.x, to.y = move.from.y;
  if (kind < 3) return move;
  to.turn = within(2 * sweep_pi);
  to.motion = to.turn < 0 ? Motion::clockwise : Motion::counterclockwise;
  to.cx = move.from.x + within(5);
  to.cy = move.from.y + within(5);
  if (kind == 3) to.z = move.from.z;
  const Tip last = place_at(move, 1);
  to.x = last.x;
  to.y = last.y;
  return move;
}

TEST(Sweep, AgreesWithPositionsTriedOneByOne) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const int moves = test::light() ? 20 : 150;
  std::size_t compared = 0;
  for (int i = 0; i < moves; ++i) {
    const RandomMove move = random_move(random);
    const Cutter cutter = i % 2 == 0 ? ball6 : flat6;
    HeightMap map = map_round_origin(9, 50, 1.7);
    for_pieces(move.from, move.stroke, [&](const Piece& piece) { cut(map, cutter, piece); });
    // A tool that is as much larger as the places tried are apart holds every place between them; one smaller
    // than the closed form by the chords of helices lies within it.
    const double chords = move.stroke.turn != 0 ? 0.00051 : 0;
    const double between = length_of(move.from, move.stroke) / 2000 / 2 + chords;
    for (int row = 0; row < map.rows; ++row) {
      for (int column = 0; column < map.columns; ++column) {
        const double closed = map.heights[map.index(column, row)], x = map.x(column), y = map.y(row);
        ASSERT_LE(closed, std::min(50.0, lowest_tried(cutter, move, x, y, -chords)) + 1e-9) << "move " << i;
        if (closed == 50) continue;
        ++compared;
        ASSERT_GE(closed, lowest_tried(cutter, move, x, y, between) - 1e-9) << "move " << i;
      }
    }
  }
  EXPECT_GT(compared, static_cast<std::size_t>(10 * moves));
}

}  // namespace
