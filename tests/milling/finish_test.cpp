// The finishing path judged by geometry of its own: every move sampled, and the passes cut by half planes
// through the axis.
#include "milling/finish.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "milling/finish_shapes.h"
#include "support/light.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using shapes::Shape;

struct Spot3 {
  double x, y, z;
};

/// The path's cutting moves without the way down at the start and up at the end.
struct CutMoves {
  Spot3 start;
  std::vector<Move> moves;
};

CutMoves cut_moves(const Path& path) {
  CutMoves cut{{path[3].x, path[3].y, path[3].z}, {path.begin() + 4, path.end() - 1}};
  return cut;
}

Spot3 on_move(const Spot3& from, const Move& move, double share) {
  const double z = from.z + share * (move.z - from.z);
  if (move.kind == MoveKind::line)
    return {from.x + share * (move.x - from.x), from.y + share * (move.y - from.y), z};
  const double a = std::atan2(from.y - move.cy, from.x - move.cx);
  double turn = std::atan2(move.y - move.cy, move.x - move.cx) - a;
  if (move.kind == MoveKind::arc_cw && turn >= -1e-9) turn -= 2 * pi;
  if (move.kind == MoveKind::arc_ccw && turn <= 1e-9) turn += 2 * pi;
  const double radius = std::hypot(from.x - move.cx, from.y - move.cy);
  return {move.cx + radius * std::cos(a + share * turn), move.cy + radius * std::sin(a + share * turn), z};
}

template <class Visit>
void for_moves(const CutMoves& cut, Visit visit) {
  Spot3 at = cut.start;
  for (const Move& move : cut.moves) {
    visit(at, move);
    at = {move.x, move.y, move.z};
  }
}

Point ball_over(const Spot3& tip, double R) { return {std::hypot(tip.x, tip.y), tip.z + R}; }

/// The ball's nearest and furthest distance from the target over all moves, less its radius.
std::pair<double, double> stand_off(const Shape& shape, const CutMoves& cut) {
  const double R = shape.job.finish.radius();
  double least = 1e9, most = -1e9;
  for_moves(cut, [&](const Spot3& from, const Move& move) {
    const int parts = move.kind == MoveKind::line ? 6 : 90;
    for (int i = 0; i <= parts; ++i) {
      const double off =
          distance_to(shape.setup.target, ball_over(on_move(from, move, i / double(parts)), R)) - R;
      least = std::min(least, off);
      most = std::max(most, off);
    }
  });
  return {least, most};
}

double turn_of(const Spot3& from, const Move& move) {
  if (move.kind != MoveKind::line) {
    const Spot3 half = on_move(from, move, 0.5);
    return 2 * std::atan2(from.x * half.y - from.y * half.x, from.x * half.x + from.y * half.y);
  }
  return std::atan2(from.x * move.y - from.y * move.x, from.x * move.x + from.y * move.y);
}

/// Where the ball's middle goes through the half plane at this angle, in the order of the path.
std::vector<Point> passes(const CutMoves& cut, double angle, double R) {
  std::vector<Point> found;
  if (std::hypot(cut.start.x, cut.start.y) < 1e-9) found.push_back(ball_over(cut.start, R));
  const double c = std::cos(angle), s = std::sin(angle);
  const auto side = [&](const Spot3& p) { return c * p.y - s * p.x; };
  for_moves(cut, [&](const Spot3& from, const Move& move) {
    double low = 0, high = 1;
    const double before = side(from), after = side(on_move(from, move, 1));
    if (!(before > 0 && after <= 0)) return;  // clockwise: from left of the half plane to its right
    for (int i = 0; i < 60; ++i) {
      const double middle = (low + high) / 2;
      (side(on_move(from, move, middle)) > 0 ? low : high) = middle;
    }
    const Spot3 p = on_move(from, move, high);
    if (c * p.x + s * p.y > 0) found.push_back(ball_over(p, R));
  });
  return found;
}

/// Is this point of the half plane cut by a ball, or by its shank above it?
bool is_cut(Point p, const std::vector<Point>& balls, double R) {
  using namespace meridian;
  for (const Point& ball : balls)
    if (norm(p - ball) <= R + 1e-9 || (p.z >= ball.z && std::abs(p.r - ball.r) <= R + 1e-9)) return true;
  return false;
}

/// Places of the target, every so many mm, that the ball can touch; a cusp's height outside them.
std::vector<Point> over_the_surface(const Shape& shape, double spacing) {
  using namespace meridian;
  const Chain& target = shape.setup.target;
  const double R = shape.job.finish.radius();
  std::vector<Point> points;
  for (std::size_t i = shape.setup.top_is_face ? 1 : 0; i < target.size(); ++i) {
    const int parts = static_cast<int>(target[i].length() / spacing) + 2;
    for (int k = 0; k <= parts; ++k) {
      const double s = target[i].length() * k / parts;
      const Point on = target[i].at(s), out = target[i].normal_at(s);
      const Point middle = on + R * out;
      if (middle.r >= 0 && distance_to(target, middle) > R - 1e-9)
        points.push_back(on + (shape.job.scallop + 1e-9) * out);
    }
  }
  return points;
}

/// The height over the target at which two circles cross on its side.
double cusp_between(const Chain& target, Point a, Point b, double R) {
  using namespace meridian;
  const Point step = b - a, middle = 0.5 * (a + b);
  const double h = std::sqrt(R * R - dot(step, step) / 4);
  const Point one = middle + h * unit(left(step)), two = middle - h * unit(left(step));
  return std::min(distance_to(target, one), distance_to(target, two));
}

struct Cusps {
  double least = 1e9, most = 0;  ///< least: where it is asked for
  int asked = 0;
  Point where, where_least;
  double deepest = 0;  ///< of all steps down from pass to pass
};

/// Is this place of the chain further than that from all its joints and ends, and under 75 degrees?
bool is_quiet(const Chain& target, Point ball, double away) {
  using namespace meridian;
  double least = 1e9;
  const Segment* nearest = nullptr;
  for (const Segment& s : target) {
    if (const double d = s.distance_to(ball); d < least) {
      least = d;
      nearest = &s;
    }
  }
  const double s = nearest->nearest(ball);
  const Point out = nearest->normal_at(s);
  return s > away && s < nearest->length() - away && std::atan2(out.r, out.z) < 75 * pi / 180;
}

Cusps cusps(const Shape& shape, const std::vector<Point>& balls, double away) {
  using namespace meridian;
  Cusps cusps;
  const double R = shape.job.finish.radius();
  for (std::size_t i = 1; i < balls.size(); ++i) {
    cusps.deepest = std::max(cusps.deepest, balls[i - 1].z - balls[i].z);
    // Where two balls nearly coincide it is not their circles' crossing that stands: see over_the_surface().
    if (norm(balls[i] - balls[i - 1]) < away / 10) continue;
    if (std::abs(balls[i].r - balls[i - 1].r) < 1e-6) continue;  // an upright wall has no cusp
    const double cusp = cusp_between(shape.setup.target, balls[i - 1], balls[i], R);
    if (cusp > cusps.most) cusps.where = balls[i - 1];
    cusps.most = std::max(cusps.most, cusp);
    if (!is_quiet(shape.setup.target, balls[i - 1], away) || !is_quiet(shape.setup.target, balls[i], away))
      continue;
    if (balls[i - 1].z - balls[i].z > 0.95 * shape.job.step_down) continue;  // no deeper, whatever the cusp
    if (cusp < cusps.least) cusps.where_least = balls[i - 1];
    cusps.least = std::min(cusps.least, cusp);
    ++cusps.asked;
  }
  return cusps;
}

void expect_sound(const Shape& shape) {
  SCOPED_TRACE(shape.name);
  const Path path = finish_path(shape.setup, shape.job);
  const CutMoves cut = cut_moves(path);
  const double R = shape.job.finish.radius(), scallop = shape.job.scallop;

  const auto [least, most] = stand_off(shape, cut);
  EXPECT_GE(least, -1e-6);
  EXPECT_LE(most, finish_chord_error + 1e-6);

  double turned = 0;
  int backward = 0, shorter = 0;
  std::size_t n = 0;
  for_moves(cut, [&](const Spot3& from, const Move& move) {
    const double turn = turn_of(from, move);
    turned += turn;
    if (turn > 1e-12) ++backward;
    const double long_ = std::hypot(move.x - from.x, move.y - from.y, move.z - from.z);
    if (++n < cut.moves.size() && long_ < least_move) ++shorter;
  });
  EXPECT_EQ(backward, 0);
  EXPECT_EQ(shorter, 0);

  const std::vector<Point> surface = over_the_surface(shape, 0.05);
  const double step = 2 * std::sqrt(2 * R * scallop);
  double low = 1e9, high = 0;
  int uncut = 0, asked = 0;
  Point where, highest, lowest;
  for (int i = 0; i < (test::light() ? 2 : 7); ++i) {
    const auto balls = passes(cut, 0.3 + 0.9 * i, R);
    const Cusps found = cusps(shape, balls, R + 2.2 * step);
    if (found.least < low) lowest = found.where_least;
    low = std::min(low, found.least);
    if (found.most > high) highest = found.where;
    high = std::max(high, found.most);
    asked += found.asked;
    EXPECT_LE(found.deepest, shape.job.step_down + finish_chord_error);
    for (const Point& p : surface)
      if (!is_cut(p, balls, R)) {
        ++uncut;
        where = p;
      }
  }
  EXPECT_EQ(uncut, 0) << "first of them at r " << where.r << ", z " << where.z;
  EXPECT_LE(high, scallop) << "between the ball at r " << highest.r << ", z " << highest.z << " and the next";
  if (asked > 0) {
    EXPECT_GE(low, 0.8 * scallop) << "between the ball at r " << lowest.r << ", z " << lowest.z
                                  << " and the next";
  }
}

TEST(Finish, LeavesTheCuspAndNeverCutsIn) {
  for (const Shape& shape : shapes::all()) expect_sound(shape);
}

TEST(Finish, FourDecimalsDoNotCutIn) {
  for (const Shape& shape : shapes::all()) {
    SCOPED_TRACE(shape.name);
    CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
    const auto written = [](double& v) { v = std::round(v * 1e4) / 1e4; };
    for (double* v : {&cut.start.x, &cut.start.y, &cut.start.z}) written(*v);
    for (Move& move : cut.moves)
      for (double* v : {&move.x, &move.y, &move.z}) written(*v);
    EXPECT_GE(stand_off(shape, cut).first, -1e-4);
  }
}

/// The order's own words on the ways in and out (milling/path.h).
void expect_ways_in_and_out(const Shape& shape, const Path& path) {
  const Setup& setup = shape.setup;
  ASSERT_GE(path.size(), 6u);
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}, std::size_t{2}, path.size() - 1})
    EXPECT_EQ(path[i].kind, MoveKind::rapid);
  EXPECT_EQ(path[0].z, setup.safe);
  EXPECT_EQ(path[1].z, setup.safe);
  EXPECT_EQ(path.back().z, setup.safe);
  EXPECT_EQ(path.back().x, path[path.size() - 2].x);
  for (std::size_t i = 3; i + 1 < path.size(); ++i) ASSERT_NE(path[i].kind, MoveKind::rapid);
  for (const std::size_t i : {std::size_t{2}, std::size_t{3}}) {
    EXPECT_EQ(path[i].x, path[1].x);
    EXPECT_EQ(path[i].y, path[1].y);
  }
  EXPECT_EQ(path[3].feed, shape.job.finish_feeds.plunge);
  const double left = std::min(setup.stock.z1, setup.target.front().from().z + shape.job.leave);
  EXPECT_GE(path[2].z, left + 0.5 - 1e-9);
}

TEST(Finish, ComesDownAndGoesUpClear) {
  for (const Shape& shape : shapes::all()) {
    SCOPED_TRACE(shape.name);
    expect_ways_in_and_out(shape, finish_path(shape.setup, shape.job));
  }
}

TEST(Finish, TouchesThePole) {
  const Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  const CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
  EXPECT_EQ(cut.start.x, 0);
  EXPECT_EQ(cut.start.y, 0);
  EXPECT_DOUBLE_EQ(cut.start.z, 30);
}

TEST(Finish, BeginsOverTheEdgeOfAFace) {
  const Shape shape = shapes::shape_of("collar", shapes::polyline({{0, 25}, {90.7, 25}, {90.7, 0}}),
                                       shapes::plain_job(), true);
  const CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
  EXPECT_NEAR(std::hypot(cut.start.x, cut.start.y), 90.7, 0.005);
  EXPECT_DOUBLE_EQ(cut.start.z, 25);
}

/// Heights of whole turns that stay within 0.0001 mm of one height.
std::vector<double> level_turns(const CutMoves& cut) {
  std::vector<double> heights;
  double turned = 0, level = 1e9;
  for_moves(cut, [&](const Spot3& from, const Move& move) {
    if (std::abs(move.z - level) > 1e-4) {
      level = move.z;
      turned = 0;
    } else {
      turned -= turn_of(from, move);
    }
    if (turned > 2 * pi - 1e-6) {
      heights.push_back(move.z);
      turned = 0;
    }
  });
  return heights;
}

TEST(Finish, ClosedTurnsWhereAWallStartsAndEnds) {
  // The pad's edge is upright where its arc, radius 20, ends; the wall goes down to the foot.
  const Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  const double wall = shape.setup.target.back().from().z;
  const auto heights = level_turns(cut_moves(finish_path(shape.setup, shape.job)));
  ASSERT_EQ(heights.size(), 3u);  // the first round the pole
  EXPECT_NEAR(heights[0], 30, 0.001);
  EXPECT_NEAR(heights[1], wall - 3, 1e-9);
  EXPECT_NEAR(heights[2], -3, 1e-9);
}

TEST(Finish, WallsAreHelicesOfTheStepDown) {
  const Shape shape = shapes::shape_of("collar", shapes::polyline({{0, 25}, {90.7, 25}, {90.7, 0}}),
                                       shapes::plain_job(), true);
  double steepest = 0;
  int arcs = 0;
  for_moves(cut_moves(finish_path(shape.setup, shape.job)), [&](const Spot3& from, const Move& move) {
    if (move.kind == MoveKind::line) return;
    ++arcs;
    EXPECT_NEAR(std::hypot(move.x, move.y), 93.7, 1e-9);
    steepest = std::max(steepest, 2 * (from.z - move.z));
  });
  EXPECT_EQ(arcs, 14);  // halves: a closed turn, five down 25 mm, a closed turn
  EXPECT_NEAR(steepest, 5, 1e-9);
}

TEST(Finish, GoesNoLowerThanItMay) {
  Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  shape.setup.lowest = -1.25;
  const CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
  double lowest = 0;
  for (const Move& move : cut.moves) lowest = std::min(lowest, move.z);
  EXPECT_NEAR(lowest, -1.25, 1e-9);
  EXPECT_NEAR(level_turns(cut).back(), -1.25, 1e-9);
}

TEST(Finish, RollsRoundTheFootOfASlope) {
  // The dome's rim alone, 4 degrees steep at its foot: a ball that stopped on the rim's normal, 0.2 mm
  // further out, would leave a fin of stock round it.
  Shape shape =
      shapes::shape_of("rim", shapes::polyline({{0, 4}, {30, 3}, {60, 1}, {75, 0}}), shapes::plain_job());
  const CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
  EXPECT_NEAR(cut.moves.back().z, -3, 1e-6);
  EXPECT_NEAR(std::hypot(cut.moves.back().x, cut.moves.back().y), 78, 0.005);
  expect_sound(shape);
  // Where it may go no lower than to pass the normal, it does not.
  const double slope = std::atan2(1, 15);
  shape.setup.lowest = 3 * std::cos(slope) - 3;
  EXPECT_NEAR(cut_moves(finish_path(shape.setup, shape.job)).moves.back().z, shape.setup.lowest, 1e-4);
  expect_sound(shape);
}

TEST(Finish, AFormTurnedOverEndsAtItsEquator) {
  Chain target = test::pad_top(125, 30, 6, 20);  // ends upright, above z = 0
  const double equator = target.back().to().z;
  const Shape shape = shapes::shape_of("top", target, shapes::plain_job());
  const CutMoves cut = cut_moves(finish_path(shape.setup, shape.job));
  EXPECT_NEAR(cut.moves.back().z, equator - 3, 1e-9);
  EXPECT_NEAR(std::hypot(cut.moves.back().x, cut.moves.back().y), 128, 0.005);
}

TEST(Finish, ALargePadTakesSoManyMoves) {
  // 250 mm at 0.05 mm: 105 mm of tip and 32 mm of edge, a turn for each 1 mm or so, chords of about 2 mm.
  const Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  const std::size_t moves = finish_path(shape.setup, shape.job).size();
  EXPECT_GT(moves, 30000u);
  EXPECT_LT(moves, 45000u);
}

TEST(Finish, RandomShapes) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < (test::light() ? 10 : 60); ++i) {
    Job job = shapes::plain_job(test::uniform(random, 3, 12), test::uniform(random, 0.02, 0.3));
    job.step_down = test::uniform(random, 2, 8);
    expect_sound(shapes::shape_of("shape " + std::to_string(i), shapes::random_target(random), job));
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace crownwright::milling
