#include "milling/ngc_grid.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>

#include "base/numbers.h"
#include "milling/arcs.h"

namespace crownwright::milling {
namespace {

constexpr double counts_in_mm = 10000;
constexpr double farthest = 100000;          // mm; whole products of two coordinates stay within 64 bits
constexpr Count shortest_chord = 100;        // 0.01 mm
constexpr double radii_agree = 0.002;        // mm, NISTIR 6556 section 3.5.3.2
constexpr double helix_chord_error = 0.005;  // mm

[[noreturn]] void broken(const std::string& what) { throw std::logic_error("a path for a program: " + what); }

Count count_of(double mm) {
  if (!(std::abs(mm) <= farthest)) broken("a coordinate is no number, or over 100 m");
  return std::llround(mm * counts_in_mm);
}

struct Spot {
  Count x = 0, y = 0;
};
Count cross(const Spot& a, const Spot& b) { return a.x * b.y - a.y * b.x; }
double size_of(const Spot& a) { return std::hypot(static_cast<double>(a.x), static_cast<double>(a.y)); }

/// An arc as the path has it.
struct TrueArc {
  double radius, begin, turn;  ///< turn > 0 counterclockwise
};

TrueArc true_arc(const Move& from, const Move& arc) {
  const double ax = from.x - arc.cx, ay = from.y - arc.cy, bx = arc.x - arc.cx, by = arc.y - arc.cy;
  return {(std::hypot(ax, ay) + std::hypot(bx, by)) / 2, std::atan2(ay, ax), turn_of(from, arc)};
}

Move part_way(const Move& from, const Move& arc, const TrueArc& whole, double share) {
  const double angle = whole.begin + whole.turn * share;
  Move move = arc;
  move.x = arc.cx + whole.radius * std::cos(angle);
  move.y = arc.cy + whole.radius * std::sin(angle);
  move.z = from.z + (arc.z - from.z) * share;
  return move;
}

// The point of the grid near the true centre from which start and end are equally far, as nearly as can be,
// and the turn is no more than a half.
std::optional<Spot> centre_on_grid(const Spot& start, const Spot& end, const Move& arc) {
  const Spot middle{count_of(arc.cx), count_of(arc.cy)};
  std::optional<Spot> best;
  double best_difference = radii_agree * counts_in_mm, best_shift = 0;
  for (Count dx = -1; dx <= 1; ++dx) {
    for (Count dy = -1; dy <= 1; ++dy) {
      const Spot centre{middle.x + dx, middle.y + dy};
      const Spot a{start.x - centre.x, start.y - centre.y}, b{end.x - centre.x, end.y - centre.y};
      const Count side = cross(a, b);
      if (arc.kind == MoveKind::arc_ccw ? side < 0 : side > 0) continue;
      const double difference = std::abs(size_of(a) - size_of(b));
      const double shift = std::hypot(static_cast<double>(centre.x) - arc.cx * counts_in_mm,
                                      static_cast<double>(centre.y) - arc.cy * counts_in_mm);
      const bool better =
          !best || difference < best_difference || (difference == best_difference && shift < best_shift);
      if (difference > radii_agree * counts_in_mm || !better) continue;
      best = centre;
      best_difference = difference;
      best_shift = shift;
    }
  }
  return best;
}

class GridWriter {
 public:
  GridWriter(const Move& first, Dialect dialect) : dialect_(dialect), before_(first) {
    if (first.kind != MoveKind::rapid) broken("it does not begin with a rapid");
    at_.z = count_of(first.z);
    moves_.push_back(at_);
  }

  void add(const Move& move) {
    if (move.kind != MoveKind::rapid && !(move.feed > 0)) broken("a line or an arc has no feed");
    if (is_arc(move.kind)) {
      add_arc(move);
    } else {
      add_straight(move);
    }
    before_ = move;
  }

  std::vector<GridMove> take() { return std::move(moves_); }

 private:
  /// The end of `move` on the grid.
  GridMove end_of(const Move& move) const {
    GridMove end;
    end.kind = move.kind;
    end.x = count_of(move.x);
    end.y = count_of(move.y);
    end.z = count_of(move.z);
    end.feed = move.kind == MoveKind::rapid ? 0 : move.feed;
    return end;
  }
  void put(const GridMove& move) {
    moves_.push_back(move);
    at_ = move;
  }

  // Where the tool is before the second move no program knows: that one is always written.
  void add_straight(const Move& move) {
    const GridMove end = end_of(move);
    const bool placed = moves_.size() > 1;
    const bool flat = !placed || end.x != at_.x || end.y != at_.y, upright = end.z != at_.z;
    if (!placed && (move.kind != MoveKind::rapid || upright)) broken("its second move is no level rapid");
    if (move.kind == MoveKind::rapid && flat && upright) broken("a rapid changes z beside x or y");
    if (flat || upright) put(end);
  }

  void add_arc(const Move& arc) {
    if (moves_.size() < 2) broken("its second move is no level rapid");
    const TrueArc whole = true_arc(before_, arc);
    const bool helix = count_of(arc.z) != at_.z;
    if (helix && dialect_ == Dialect::plain) return add_chords(arc, whole);
    if (std::abs(whole.turn) > pi + 1e-9) {
      add_half(part_way(before_, arc, whole, 0.5));
    }
    add_half(arc);
  }

  // Precondition: half a turn at most.
  void add_half(const Move& arc) {
    GridMove end = end_of(arc);
    const Spot from{at_.x, at_.y}, to{end.x, end.y};
    if (size_of({to.x - from.x, to.y - from.y}) < static_cast<double>(shortest_chord)) {
      Move line = arc;
      line.kind = MoveKind::line;
      return add_straight(line);
    }
    const auto centre = centre_on_grid(from, to, arc);
    if (!centre) broken("the radii at the ends of an arc differ by more than 0.002 mm");
    end.i = centre->x - from.x;
    end.j = centre->y - from.y;
    put(end);
  }

  void add_chords(const Move& arc, const TrueArc& whole) {
    const double step =
        whole.radius > helix_chord_error ? 2 * std::acos(1 - helix_chord_error / whole.radius) : pi;
    const auto count = static_cast<int>(std::ceil(std::abs(whole.turn) / step));
    for (int n = 1; n < count; ++n) {
      Move chord = part_way(before_, arc, whole, static_cast<double>(n) / count);
      chord.kind = MoveKind::line;
      add_straight(chord);
    }
    Move last = arc;
    last.kind = MoveKind::line;
    add_straight(last);
  }

  Dialect dialect_;
  Move before_;  ///< as the path has it
  GridMove at_;
  std::vector<GridMove> moves_;
};

}  // namespace

std::vector<GridMove> on_grid(const Path& path, Dialect dialect) {
  if (path.empty()) broken("it has no moves");
  GridWriter writer(path.front(), dialect);
  for (std::size_t i = 1; i < path.size(); ++i) writer.add(path[i]);
  return writer.take();
}

}  // namespace crownwright::milling
