// Times of paths against closed forms of uniformly accelerated motion, and random ones against the greatest
// speed that every limit along the way allows.

#include "milling/duration.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/random_number.h"
#include "support/seed.h"

using namespace crownwright;
using namespace crownwright::milling;

namespace {

constexpr double half_turn = std::numbers::pi;

Move feed_to(double x, double y, double z, double feed) { return {MoveKind::line, x, y, z, 0, 0, feed}; }
Move arc_to(MoveKind kind, double x, double y, double z, double cx, double cy, double feed) {
  return {kind, x, y, z, cx, cy, feed};
}
const Move at_origin{};

MachinePace pace_of(double accel, double deviation) {
  MachinePace pace;
  pace.accel = accel;
  pace.junction_deviation = deviation;
  return pace;
}

double seconds(const Path& path, double accel, double deviation) {
  return duration_of(path, pace_of(accel, deviation)).seconds;
}

// Along `length` from one speed to another at most `top` fast, which is reached.
double closed_form(double length, double from, double to, double top, double accel) {
  const double ramps = (2 * top * top - from * from - to * to) / (2 * accel);
  return (2 * top - from - to) / accel + (length - ramps) / top;
}

}  // namespace

TEST(Duration, OfALongMoveIsATrapezoid) {
  EXPECT_NEAR(seconds({at_origin, feed_to(100, 0, 0, 1200)}, 200, 0.01), 5.1, 1e-9);
  EXPECT_NEAR(seconds({at_origin, feed_to(60, 0, -80, 1200)}, 200, 0.01), 5.1, 1e-9);
}

TEST(Duration, OfAShortMoveIsATriangle) {
  EXPECT_NEAR(seconds({at_origin, feed_to(0, 1, 0, 6000)}, 100, 0.01), 0.2, 1e-9);
}

TEST(Duration, WithoutDeviationEveryCornerIsAStop) {
  const Path path = {at_origin, feed_to(100, 0, 0, 1200), feed_to(100, 100, 0, 1200)};
  EXPECT_NEAR(seconds(path, 200, 0), 10.2, 1e-9);
}

TEST(Duration, WithoutDeviationABendByADegreeIsAStopToo) {
  const double bend = half_turn / 180;
  const Path path = {at_origin, feed_to(100, 0, 0, 1200),
                     feed_to(100 + 100 * std::cos(bend), 100 * std::sin(bend), 0, 1200)};
  EXPECT_NEAR(seconds(path, 200, 0), 10.2, 1e-9);
}

// Right angle: sin(45 degrees) / (1 - sin(45 degrees)) = 2.414214, so v = sqrt(200 x 0.01 x 2.414214)
// = 2.197368.
TEST(Duration, PassesACornerAtItsJunctionSpeed) {
  const Path path = {at_origin, feed_to(100, 0, 0, 1200), feed_to(100, 100, 0, 1200)};
  EXPECT_NEAR(seconds(path, 200, 0.01), 2 * closed_form(100, 0, 2.197368227, 20, 200), 1e-8);
}

// A turn by 60 degrees: h = 60, sin(h) / (1 - sin(h)) = 6.464102; in the room just as in the plane.
TEST(Duration, PassesABluntCornerFaster) {
  const double speed = std::sqrt(200 * 0.01 * 6.464101615);
  const double x = 100 + 100 * std::cos(half_turn / 3), rest = 100 * std::sin(half_turn / 3);
  EXPECT_NEAR(seconds({at_origin, feed_to(100, 0, 0, 1200), feed_to(x, rest, 0, 1200)}, 200, 0.01),
              2 * closed_form(100, 0, speed, 20, 200), 1e-8);
  EXPECT_NEAR(seconds({at_origin, feed_to(100, 0, 0, 1200), feed_to(x, 0, -rest, 1200)}, 200, 0.01),
              2 * closed_form(100, 0, speed, 20, 200), 1e-8);
}

TEST(Duration, StopsWhereTheWayTurnsBack) {
  const Path path = {at_origin, feed_to(100, 0, 0, 1200), feed_to(0, 0, 0, 1200)};
  EXPECT_NEAR(seconds(path, 200, 10), 10.2, 1e-9);
}

// sqrt(200 x 10) = 44.72 mm/s although the feed is 100 mm/s; two halves of one circle are passed in one go.
TEST(Duration, OnAnArcIsLimitedByItsRadius) {
  for (const MoveKind kind : {MoveKind::arc_ccw, MoveKind::arc_cw}) {
    const Path circle = {feed_to(10, 0, 0, 0), arc_to(kind, -10, 0, 0, 0, 0, 6000),
                         arc_to(kind, 10, 0, 0, 0, 0, 6000)};
    const double speed = std::sqrt(200.0 * 10);
    EXPECT_NEAR(seconds(circle, 200, 0), closed_form(2 * half_turn * 10, 0, 0, speed, 200), 1e-6);
    EXPECT_NEAR(duration_of(circle, MachinePace()).path_mm, 2 * half_turn * 10, 1e-9);
  }
}

TEST(Duration, OnAWideArcIsLimitedByItsFeed) {
  const Path arc = {feed_to(100, 0, 0, 0), arc_to(MoveKind::arc_ccw, 0, 100, 0, 0, 0, 1200)};
  EXPECT_NEAR(seconds(arc, 200, 0.01), closed_form(half_turn / 2 * 100, 0, 0, 20, 200), 1e-9);
  const Path rest = {feed_to(100, 0, 0, 0), arc_to(MoveKind::arc_cw, 0, 100, 0, 0, 0, 1200)};
  EXPECT_NEAR(seconds(rest, 200, 0.01), closed_form(1.5 * half_turn * 100, 0, 0, 20, 200), 1e-9)
      << "the other way round is three times as long";
}

TEST(Duration, OfAHelixCountsItsSlope) {
  const Path helix = {feed_to(10, 0, 0, 0), arc_to(MoveKind::arc_ccw, -10, 0, -10 * half_turn, 0, 0, 600)};
  const double length = 10 * half_turn * std::sqrt(2.0);
  EXPECT_NEAR(duration_of(helix, MachinePace()).path_mm, length, 1e-9);
  EXPECT_NEAR(seconds(helix, 200, 0.01), closed_form(length, 0, 0, 10, 200), 1e-9);
}

// Line, arc and line without a corner, either way round.
TEST(Duration, GoesThroughTangentsWithoutSlowing) {
  for (const double side : {1.0, -1.0}) {
    const MoveKind kind = side > 0 ? MoveKind::arc_ccw : MoveKind::arc_cw;
    const Path path = {at_origin, feed_to(50, 0, 0, 1200),
                       arc_to(kind, 90, side * 40, 0, 50, side * 40, 1200), feed_to(90, side * 90, 0, 1200)};
    EXPECT_NEAR(seconds(path, 200, 0), closed_form(100 + 20 * half_turn, 0, 0, 20, 200), 1e-9);
  }
}

TEST(Duration, OfManyMovesInLineIsThatOfOne) {
  for (const double deviation : {0.0, 0.01}) {
    Path path = {at_origin};
    for (int i = 1; i <= 1000; ++i) path.push_back(feed_to(0.06 * i, 0.08 * i, 0, 1200));
    EXPECT_NEAR(seconds(path, 200, deviation), 5.1, 1e-6) << deviation;
  }
}

// 100 mm/s need 25 mm to stop; the last 10 mm are cut into moves of 0.1 mm, round a corner.
TEST(Duration, BrakesInTimeForWhatComesLater) {
  Path path = {at_origin, feed_to(200, 0, 0, 6000)};
  for (int i = 1; i <= 100; ++i) path.push_back(feed_to(200 + 0.1 * i, 0, 0, 6000));
  path.push_back(feed_to(210, 100, 0, 6000));
  EXPECT_NEAR(seconds(path, 200, 0), closed_form(210, 0, 0, 100, 200) + closed_form(100, 0, 0, 100, 200),
              1e-6);
}

TEST(Duration, CountsRapidsAtTheirOwnPaceAndApart) {
  MachinePace pace = pace_of(200, 0);
  pace.rapid = 3000;
  const Path path = {
      {MoveKind::rapid, 7, 8, 9, 0, 0, 0}, {MoveKind::rapid, 107, 8, 9, 0, 0, 0}, feed_to(107, 8, -1, 600)};
  const Duration duration = duration_of(path, pace);
  EXPECT_NEAR(duration.seconds, closed_form(100, 0, 0, 50, 200) + closed_form(10, 0, 0, 10, 200), 1e-9);
  EXPECT_NEAR(duration.path_mm, 110, 1e-12);
  EXPECT_NEAR(duration.rapid_mm, 100, 1e-12);
}

TEST(Duration, OfNothingIsNothing) {
  EXPECT_EQ(duration_of({}, MachinePace()).seconds, 0);
  EXPECT_EQ(duration_of({feed_to(1, 2, 3, 100)}, MachinePace()).seconds, 0);
  const Duration still = duration_of({feed_to(1, 2, 3, 100), feed_to(1, 2, 3, 100)}, MachinePace());
  EXPECT_EQ(still.seconds, 0);
  EXPECT_EQ(still.path_mm, 0);
}

// Moves of 0.5 mm round a circle of 100 mm: their corners allow 28 mm/s and more (half a degree's turn), so
// the feed rules, and the whole is a trapezoid over all the length.
TEST(Duration, OfTwoHundredThousandMovesIsStillRight) {
  Path path;
  constexpr int moves = 200'000;
  for (int i = 0; i <= moves; ++i)
    path.push_back(feed_to(100 * std::cos(0.005 * i), 100 * std::sin(0.005 * i), 0, 1200));
  const double length = moves * 200 * std::sin(0.0025);
  EXPECT_NEAR(seconds(path, 200, 0.01), closed_form(length, 0, 0, 20, 200), 1e-4);
}

// The fastest way: at every place as fast as each corner's speed and the braking way to it allow.
TEST(Duration, OfRandomPathsIsTheFastestThatTheLimitsAllow) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto between = [&](double low, double high) { return test::uniform(random, low, high); };
  for (int trial = 0; trial < 40; ++trial) {
    const double accel = between(50, 500), deviation = between(0, 0.05);
    Path path = {at_origin};
    std::vector<double> ends = {0}, tops;
    for (int i = 0; i < 12; ++i) {
      const Move last = path.back();
      const double reach = between(0, 1) < 0.5 ? 1 : 20;
      path.push_back(feed_to(last.x + between(-reach, reach), last.y + between(-reach, reach),
                             last.z + between(-reach, reach), between(300, 6000)));
      ends.push_back(ends.back() +
                     std::hypot(path.back().x - last.x, path.back().y - last.y, path.back().z - last.z));
      tops.push_back(path.back().feed / 60);
    }
    // Squares of the speeds at the corners, from the angle between the legs.
    std::vector<double> squares(ends.size(), 0);
    for (std::size_t i = 1; i + 1 < ends.size(); ++i) {
      const Move &a = path[i - 1], &b = path[i], &c = path[i + 1];
      const double cosine =
          -((b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) + (b.z - a.z) * (c.z - b.z)) /
          ((ends[i] - ends[i - 1]) * (ends[i + 1] - ends[i]));
      const double sine = std::sin(std::acos(cosine) / 2);
      squares[i] = accel * deviation * sine / (1 - sine);
      for (const double top : {tops[i - 1], tops[i]}) squares[i] = std::min(squares[i], top * top);
    }
    // Steps that grow from both ends of a leg take the standstill there in.
    double time = 0;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
      constexpr int steps = 4000;
      const double length = ends[i + 1] - ends[i];
      for (int k = 0; k < steps; ++k) {
        const auto place = [&](double share) { return length * (1 - std::cos(half_turn * share)) / 2; };
        const double s = ends[i] + place((k + 0.5) / steps);
        double square = tops[i] * tops[i];
        for (std::size_t j = 0; j < ends.size(); ++j)
          square = std::min(square, squares[j] + 2 * accel * std::abs(s - ends[j]));
        time += (place((k + 1.0) / steps) - place(k * 1.0 / steps)) / std::sqrt(square);
      }
    }
    EXPECT_NEAR(seconds(path, accel, deviation) / time, 1, 1e-4) << trial;
  }
}
