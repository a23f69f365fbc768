#include "pattern/seam.h"

#include <algorithm>
#include <cmath>

namespace crownwright::pattern {
namespace {

constexpr int most_halvings = 24;

/// Gauss-Lobatto with four points: the ends with weight 1/6, +-1/sqrt(5) with 5/6 (of half the length).
struct Gains {
  double y = 0, along = 0;
};
Gains gains(const DraftLaw& law, const CrossArc& from, const CrossArc& to) {
  const double half = (to.s - from.s) / 2, middle = from.s + half, inner = half / std::sqrt(5.0);
  Gains sum;
  const auto add = [&sum](const CrossArc& arc, double weight) {
    sum.y += weight * arc.dy;
    sum.along += weight * std::sqrt(arc.dx * arc.dx + arc.dy * arc.dy);
  };
  add(from, half / 6);
  add(law.at(middle - inner), half * 5 / 6);
  add(law.at(middle + inner), half * 5 / 6);
  add(to, half / 6);
  return sum;
}

class Walker {
 public:
  Walker(const DraftLaw& law, const FineEnough& fine_enough) : law_(law), fine_enough_(fine_enough) {}

  void walk(const CrossArc& from, const CrossArc& to, int halvings = 0) {
    const Gains gained = gains(law_, from, to);
    const SeamPiece piece{from, to, y_, y_ + gained.y, along_, along_ + gained.along};
    if (fine_enough_ && halvings < most_halvings && !fine_enough_(piece)) {
      const CrossArc middle = law_.at(from.s + (to.s - from.s) / 2);
      walk(from, middle, halvings + 1);
      walk(middle, to, halvings + 1);
      return;
    }
    y_ = piece.y_to;
    along_ = piece.along_to;
    pieces_.push_back(piece);
  }

  std::vector<SeamPiece> pieces() && { return std::move(pieces_); }

 private:
  const DraftLaw& law_;
  const FineEnough& fine_enough_;
  double y_ = 0, along_ = 0;
  std::vector<SeamPiece> pieces_;
};

/// Value and slope of the cubic with ends p, q and end slopes u, v (over the whole piece) at 0 <= t <= 1.
struct Cubic {
  double p, q, u, v;
  double at(double t) const {
    const double t2 = t * t, t3 = t2 * t;
    return (2 * t3 - 3 * t2 + 1) * p + (t3 - 2 * t2 + t) * u + (3 * t2 - 2 * t3) * q + (t3 - t2) * v;
  }
  double slope(double t) const {
    const double t2 = t * t;
    return 6 * (t2 - t) * (p - q) + (3 * t2 - 4 * t + 1) * u + (3 * t2 - 2 * t) * v;
  }
};

Cubic x_of(const SeamPiece& piece) {
  const double ds = piece.to.s - piece.from.s;
  return {piece.from.x, piece.to.x, ds * piece.from.dx, ds * piece.to.dx};
}
Cubic y_of(const SeamPiece& piece) {
  const double ds = piece.to.s - piece.from.s;
  return {piece.y_from, piece.y_to, ds * piece.from.dy, ds * piece.to.dy};
}

/// Where the rising cubic reaches y.
double parameter_at(const Cubic& cubic, double y) {
  double low = 0, high = 1, t = cubic.q > cubic.p ? (y - cubic.p) / (cubic.q - cubic.p) : 0.5;
  for (int i = 0; i < 40; ++i) {
    const double off = cubic.at(t) - y;
    (off < 0 ? low : high) = t;
    const double step = off / cubic.slope(t);
    if (std::abs(step) < 1e-13) break;
    t -= step;
    if (!(t >= low && t <= high)) t = low + (high - low) / 2;
  }
  return t;
}

/// Slope changing by this much a mm is bent: an edge of 50 mm radius.
constexpr double bent = 0.02;

double piece_length(const DraftLaw& law, double low, double high, PieceLength pieces) {
  const double change =
      std::abs(law.crown().slope(high + law.half_width(high)) - law.crown().slope(low - law.half_width(low)));
  return std::clamp(pieces.bent * bent * (high - low) / std::max(change, 1e-9), pieces.bent, pieces.calm);
}

SeamPlace straight_on(const CrossArc& arc, double y_of_arc, double y) {
  const double ds = arc.dy > 1e-6 ? (y - y_of_arc) / arc.dy : 0;
  return {arc.s + ds, arc.x + ds * arc.dx, y, arc.dx, arc.dy};
}

}  // namespace

std::vector<SeamPiece> walk_seam(const DraftLaw& law, PieceLength pieces, const FineEnough& fine_enough) {
  Walker walker(law, fine_enough);
  const std::vector<double> breaks = law.breaks();
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    const double low = breaks[i], high = breaks[i + 1];
    const int count =
        std::max(2, static_cast<int>(std::ceil((high - low) / piece_length(law, low, high, pieces))));
    CrossArc from = law.just_after(low);
    for (int k = 1; k <= count; ++k) {
      const CrossArc to = k == count ? law.just_before(high) : law.at(low + (high - low) * k / count);
      walker.walk(from, to);
      from = to;
    }
  }
  return std::move(walker).pieces();
}

SeamPlace Seam::at_height(double y) const {
  if (y < 0) return straight_on(pieces_.front().from, 0, y);
  if (y > pieces_.back().y_to) return straight_on(pieces_.back().to, pieces_.back().y_to, y);
  const auto piece = std::lower_bound(pieces_.begin(), pieces_.end() - 1, y,
                                      [](const SeamPiece& p, double height) { return p.y_to < height; });
  const Cubic xs = x_of(*piece), ys = y_of(*piece);
  const double ds = piece->to.s - piece->from.s, t = parameter_at(ys, y);
  return {piece->from.s + t * ds, xs.at(t), y, xs.slope(t) / ds, ys.slope(t) / ds};
}

SeamPlace Seam::end() const {
  const SeamPiece& last = pieces_.back();
  return {last.to.s, last.to.x, last.y_to, last.to.dx, last.to.dy};
}

}  // namespace crownwright::pattern
