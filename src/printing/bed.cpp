#include "printing/bed.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "base/numbers.h"

namespace crownwright::printing {
namespace {

constexpr double kFits = 1e-6;   // mm, rounding
constexpr double kEqual = 1e-9;  // mm, of two turns equally good

// While the same corners of the hull touch the box, its width is p.x cos - p.y sin and its depth q.x sin +
// q.y cos.
struct Touching {
  PlanPoint p, q;
};

double excess(const BedTurn& turn, double width, double depth) {
  return std::max(turn.width - width, turn.depth - depth);
}

// Turns in [0, pi) that lay an edge along x or y, sorted; always at least 0.
std::vector<double> square_turns(const std::vector<PlanPoint>& hull) {
  std::vector<double> turns{0};
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const PlanPoint &a = hull[i], &b = hull[(i + 1) % hull.size()];
    if (a == b) continue;
    double turn = std::fmod(-std::atan2(b.y - a.y, b.x - a.x), pi / 2);
    if (turn < 0) turn += pi / 2;
    turns.push_back(turn);
    turns.push_back(turn + pi / 2);
  }
  std::sort(turns.begin(), turns.end());
  turns.erase(std::unique(turns.begin(), turns.end()), turns.end());
  return turns;
}

// Corners of the hull farthest left, right, near and far after a turn. Round a convex outline the distance in
// any direction rises to one corner and falls again, so each is found by climbing, from the last turn's
// corner in few steps.
class Extremes {
 public:
  explicit Extremes(const std::vector<PlanPoint>& hull) : hull_(hull) {}

  Touching at(double angle) {
    const PlanPoint right{std::cos(angle), -std::sin(angle)}, far{std::sin(angle), std::cos(angle)};
    climb(corners_[0], {-right.x, -right.y});
    climb(corners_[1], right);
    climb(corners_[2], {-far.x, -far.y});
    climb(corners_[3], far);
    return {between(corners_[0], corners_[1]), between(corners_[2], corners_[3])};
  }
  BedTurn box(double angle) {
    const Touching t = at(angle);
    const double c = std::cos(angle), s = std::sin(angle);
    return {angle, t.p.x * c - t.p.y * s, t.q.x * s + t.q.y * c};
  }

 private:
  double reach(std::size_t corner, const PlanPoint& way) const {
    return hull_[corner].x * way.x + hull_[corner].y * way.y;
  }
  void climb(std::size_t& corner, const PlanPoint& way) const {
    const std::size_t count = hull_.size();
    for (const std::size_t step : {std::size_t{1}, count - 1}) {
      for (std::size_t tried = 0; tried < count; ++tried) {
        const std::size_t next = (corner + step) % count;
        if (!(reach(next, way) > reach(corner, way))) break;
        corner = next;
      }
    }
  }
  PlanPoint between(std::size_t from, std::size_t to) const {
    return {hull_[to].x - hull_[from].x, hull_[to].y - hull_[from].y};
  }

  const std::vector<PlanPoint>& hull_;
  std::array<std::size_t, 4> corners_{0, 0, 0, 0};
};

// Turns at which width - depth = difference: A cos + B sin = difference.
std::array<double, 2> equal_excess(const Touching& t, double difference) {
  const double a = t.p.x - t.q.y, b = -t.p.y - t.q.x, size = std::hypot(a, b);
  if (size == 0 || std::abs(difference) > size) return {-1, -1};
  const double middle = std::atan2(b, a), half = std::acos(difference / size);
  const auto in_turn = [](double x) {
    x = std::fmod(x, pi);
    return x < 0 ? x + pi : x;
  };
  // A root beyond half a turn comes back as another turn: it is judged by its box like any.
  return {in_turn(middle - half), in_turn(middle + half)};
}

class TurnSearch {
 public:
  TurnSearch(const std::vector<PlanPoint>& hull, double width, double depth)
      : hull_(hull), extremes_(hull), width_(width), depth_(depth) {}

  BedTurn run() {
    const std::vector<double> turns = square_turns(hull_);
    for (std::size_t i = 0; i < turns.size(); ++i) {
      const double from = turns[i], to = i + 1 < turns.size() ? turns[i + 1] : pi;
      look(from);
      for (const double angle : equal_excess(extremes_.at((from + to) / 2), width_ - depth_)) {
        if (angle > from && angle < to) look(angle);
      }
    }
    return best_;
  }

 private:
  void look(double angle) {
    const BedTurn turn = extremes_.box(angle);
    const double sticks_out = excess(turn, width_, depth_);
    if (sticks_out < least_ - kEqual) {
      least_ = sticks_out;
      best_ = turn;
    }
  }

  const std::vector<PlanPoint>& hull_;
  Extremes extremes_;
  double width_, depth_;
  double least_ = std::numeric_limits<double>::infinity();
  BedTurn best_;
};

void expect_point(const std::vector<PlanPoint>& hull) {
  if (hull.empty()) throw std::logic_error("an outline without a point was laid on the bed");
}

}  // namespace

BedTurn turned_box(const std::vector<PlanPoint>& hull, double angle) {
  expect_point(hull);
  return Extremes(hull).box(angle);
}

BedTurn best_turn(const std::vector<PlanPoint>& hull, double width, double depth) {
  expect_point(hull);
  return TurnSearch(hull, width, depth).run();
}

// The least rectangle has a side along an edge of the hull (H. Freeman and R. Shapira, Comm. ACM 18 (1975)).
BedTurn tightest_turn(const std::vector<PlanPoint>& hull) {
  expect_point(hull);
  Extremes extremes(hull);
  BedTurn best = extremes.box(0);
  for (const double angle : square_turns(hull)) {
    const BedTurn turn = extremes.box(angle);
    if (turn.width * turn.depth < best.width * best.depth - kEqual) best = turn;
  }
  return best;
}

std::optional<BedTurn> fitting_turn(const std::vector<PlanPoint>& hull, const Bed& bed) {
  for (const BedTurn& turn : {turned_box(hull, 0), best_turn(hull, bed.free_width(), bed.free_depth())}) {
    if (excess(turn, bed.free_width(), bed.free_depth()) <= kFits) return turn;
  }
  return std::nullopt;
}

double smallest_square(const std::vector<PlanPoint>& hull) { return excess(best_turn(hull, 0, 0), 0, 0); }

}  // namespace crownwright::printing
