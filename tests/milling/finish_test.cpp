// The finishing path judged by geometry of its own: every move sampled, and the passes cut by half planes
// through the axis.
#include "milling/finish.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

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
  Point where;  ///< of the most
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
    // Where two balls nearly coincide it is not their circles' crossing that stands: see over_the_surface().
    if (norm(balls[i] - balls[i - 1]) < away / 10) continue;
    if (std::abs(balls[i].r - balls[i - 1].r) < 1e-6) continue;  // an upright wall has no cusp
    const double cusp = cusp_between(shape.setup.target, balls[i - 1], balls[i], R);
    if (cusp > cusps.most) cusps.where = balls[i - 1];
    cusps.most = std::max(cusps.most, cusp);
    if (!is_quiet(shape.setup.target, balls[i - 1], away) || !is_quiet(shape.setup.target, balls[i], away))
      continue;
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
  Point where, highest;
  for (int i = 0; i < (test::light() ? 2 : 7); ++i) {
    const auto balls = passes(cut, 0.3 + 0.9 * i, R);
    const Cusps found = cusps(shape, balls, R + 2.2 * step);
    low = std::min(low, found.least);
    if (found.most > high) highest = found.where;
    high = std::max(high, found.most);
    asked += found.asked;
    for (const Point& p : surface)
      if (!is_cut(p, balls, R)) {
        ++uncut;
        where = p;
      }
  }
  EXPECT_EQ(uncut, 0) << "first of them at r " << where.r << ", z " << where.z;
  EXPECT_LE(high, scallop) << "between the ball at r " << highest.r << ", z " << highest.z << " and the next";
  if (asked > 0) {
    EXPECT_GE(low, 0.8 * scallop);
  }
  std::cout << shape.name << ": " << cut.moves.size() << " moves, " << -turned / (2 * pi) << " turns, off "
            << least << " to " << most << ", cusps " << low << " (" << asked << ") to " << high << "\n";
}

TEST(Finish, LeavesTheCuspAndNeverCutsIn) {
  for (const Shape& shape : shapes::all()) expect_sound(shape);
}

TEST(Finish, RandomShapes) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < (test::light() ? 10 : 100); ++i) {
    Job job = shapes::plain_job(test::uniform(random, 3, 12), test::uniform(random, 0.02, 0.3));
    job.step_down = test::uniform(random, 2, 8);
    expect_sound(shapes::shape_of("shape " + std::to_string(i), shapes::random_target(random), job));
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace crownwright::milling
