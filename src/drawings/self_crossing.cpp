#include "drawings/self_crossing.h"

#include <algorithm>
#include <compare>
#include <cstdint>
#include <set>

#include "base/int128.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;

constexpr double grid = 1e-6;

struct CrossingPoint {
  std::int64_t x = 0, y = 0;
  friend auto operator<=>(const CrossingPoint&, const CrossingPoint&) = default;
};

struct Side {
  CrossingPoint a, b;  // a < b
};

Vec2 place(CrossingPoint p) { return {static_cast<double>(p.x) * grid, static_cast<double>(p.y) * grid}; }

// Differences reach 2e12, products 4e24: far inside 128 bits.
int turn(CrossingPoint a, CrossingPoint b, CrossingPoint c) {
  const Int128 area =
      static_cast<Int128>(b.x - a.x) * (c.y - a.y) - static_cast<Int128>(b.y - a.y) * (c.x - a.x);
  return area > 0 ? 1 : area < 0 ? -1 : 0;
}

bool within(CrossingPoint a, CrossingPoint b, CrossingPoint p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}

bool meet(const Side& s, const Side& t) {
  const int a = turn(s.a, s.b, t.a), b = turn(s.a, s.b, t.b), c = turn(t.a, t.b, s.a),
            d = turn(t.a, t.b, s.b);
  if (a * b < 0 && c * d < 0) return true;
  return (a == 0 && within(s.a, s.b, t.a)) || (b == 0 && within(s.a, s.b, t.b)) ||
         (c == 0 && within(t.a, t.b, s.a)) || (d == 0 && within(t.a, t.b, s.b));
}

// Precondition: they meet.
Vec2 meeting_place(const Side& s, const Side& t) {
  const Vec2 p = place(s.a), along = place(s.b) - p, q = place(t.a), other = place(t.b) - q;
  const double area = cross(along, other);
  const double f = area == 0 ? 0 : std::clamp(cross(q - p, other) / area, 0.0, 1.0);
  return p + f * along;
}

std::vector<CrossingPoint> on_grid(const Outline& outline) {
  std::vector<CrossingPoint> points;
  for (const Vec2 p : outline) {
    const CrossingPoint q{std::llround(p.x / grid), std::llround(p.y / grid)};
    if (points.empty() || points.back() != q) points.push_back(q);
  }
  while (points.size() > 1 && points.back() == points.front()) points.pop_back();
  return points;
}

// Corners that turn straight back, and corners met twice: what the sweep takes for granted.
std::optional<Vec2> bad_corner(const std::vector<CrossingPoint>& points) {
  const std::size_t n = points.size();
  for (std::size_t i = 0; i < n; ++i) {
    const CrossingPoint a = points[(i + n - 1) % n], b = points[i], c = points[(i + 1) % n];
    if (turn(a, b, c) != 0) continue;
    const Vec2 in = place(b) - place(a), out = place(c) - place(b);
    if (dot(in, out) < 0) return place(b);
  }
  std::vector<CrossingPoint> sorted = points;
  std::sort(sorted.begin(), sorted.end());
  const auto twice = std::adjacent_find(sorted.begin(), sorted.end());
  if (twice != sorted.end()) return place(*twice);
  return std::nullopt;
}

class Sweep {
 public:
  explicit Sweep(const std::vector<CrossingPoint>& points) : n_(points.size()), status_(Below{&sides_}) {
    for (std::size_t i = 0; i < n_; ++i) {
      const CrossingPoint p = points[i], q = points[(i + 1) % n_];
      sides_.push_back(p < q ? Side{p, q} : Side{q, p});
    }
    where_.resize(n_, status_.end());
  }

  std::optional<Vec2> crossing() {
    for (const Event& event : events()) {
      if (const auto found = event.starts ? start(event.side) : stop(event.side)) return found;
    }
    return std::nullopt;
  }

 private:
  struct Event {
    CrossingPoint at;
    bool starts;
    std::size_t side;
  };

  // Which of two sides lies lower where both are under the sweep. Holds as long as none have crossed.
  struct Below {
    const std::vector<Side>* sides;
    bool operator()(std::size_t s, std::size_t t) const {
      if (s == t) return false;
      const Side& first = (*sides)[s];
      const Side& second = (*sides)[t];
      if (second.a < first.a) return !before(second, first, t, s);
      return before(first, second, s, t);
    }
    // Precondition: first.a <= second.a.
    static bool before(const Side& first, const Side& second, std::size_t s, std::size_t t) {
      int side = turn(first.a, first.b, second.a);
      if (side == 0) side = turn(first.a, first.b, second.b);
      return side == 0 ? s < t : side > 0;
    }
  };

  std::vector<Event> events() const {
    std::vector<Event> all;
    all.reserve(2 * n_);
    for (std::size_t i = 0; i < n_; ++i) {
      all.push_back({sides_[i].a, true, i});
      all.push_back({sides_[i].b, false, i});
    }
    std::sort(all.begin(), all.end(), [](const Event& a, const Event& b) {
      if (a.at != b.at) return a.at < b.at;
      if (a.starts != b.starts) return !a.starts;
      return a.side < b.side;
    });
    return all;
  }

  std::optional<Vec2> check(std::size_t s, std::size_t t) const {
    const std::size_t apart = s > t ? s - t : t - s;
    const bool neighbours = apart == 1 || apart == n_ - 1;
    if (neighbours || !meet(sides_[s], sides_[t])) return std::nullopt;
    return meeting_place(sides_[s], sides_[t]);
  }

  std::optional<Vec2> start(std::size_t side) {
    const auto [at, fresh] = status_.insert(side);
    if (!fresh) return place(sides_[side].a);
    where_[side] = at;
    if (at != status_.begin()) {
      if (const auto found = check(*std::prev(at), side)) return found;
    }
    if (std::next(at) != status_.end()) return check(side, *std::next(at));
    return std::nullopt;
  }

  std::optional<Vec2> stop(std::size_t side) {
    const auto at = where_[side];
    const auto after = status_.erase(at);
    if (after == status_.begin() || after == status_.end()) return std::nullopt;
    return check(*std::prev(after), *after);
  }

  std::size_t n_;
  std::vector<Side> sides_;
  std::set<std::size_t, Below> status_;
  std::vector<std::set<std::size_t, Below>::iterator> where_;
};

}  // namespace

std::optional<Vec2> self_crossing(const Outline& outline) {
  const std::vector<CrossingPoint> points = on_grid(outline);
  if (points.size() < 3) return points.empty() ? Vec2{} : place(points[0]);
  if (const auto bad = bad_corner(points)) return bad;
  return Sweep(points).crossing();
}

}  // namespace crownwright::drawings
