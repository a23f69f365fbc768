// The other half of a panel drawn on a fold.

#include <algorithm>

#include "base/length.h"
#include "pattern/drawn_panel.h"

namespace crownwright::pattern {
namespace {

constexpr double on_the_fold = 0.1;  // mm a point may lie off the fold line

Fault no_fold(Fold fold, double found, double height) {
  const std::string side = fold == Fold::left ? "left" : "right";
  return order_fault({},
                     "there is no fold on the " + side + ": the straight upright edge there is " +
                         number_text(found, 1) + " mm long and the half panel " + number_text(height, 1) +
                         " mm high",
                     "one straight upright edge from the tip to the head line");
}

struct Span {
  double low, high;
};

Span reach(const Outline& outline, double Vec2::*axis) {
  Span span{outline[0].*axis, outline[0].*axis};
  for (const Vec2& p : outline) span = {std::min(span.low, p.*axis), std::max(span.high, p.*axis)};
  return span;
}

// The outline without its fold edge: from one end of the edge round to the other, both put exactly on the
// fold. Points near the fold but beyond the edge's ends (of a sharp tip) stay. Empty when the outline meets
// the fold more than once.
Polyline off_the_fold(const Outline& half, double fold_x) {
  const std::size_t n = half.size();
  const auto at = [&](std::size_t i) { return half[i % n]; };
  const auto on = [&](std::size_t i) { return std::abs(at(i).x - fold_x) <= on_the_fold; };
  std::vector<std::size_t> comes;
  for (std::size_t i = 0; i < n; ++i) {
    if (!on(i) && on(i + 1)) comes.push_back(i + 1);
  }
  if (comes.size() != 1) return {};
  std::size_t low = comes[0], high = comes[0];
  for (std::size_t i = comes[0]; on(i); ++i) {
    if (at(i).y < at(low).y) low = i;
    if (at(i).y > at(high).y) high = i;
  }
  Polyline line;
  for (std::size_t i = std::max(low, high); i <= std::min(low, high) + n; ++i) line.push_back(at(i));
  line.front().x = line.back().x = fold_x;
  return line;
}

}  // namespace

Result<Outline> unfold(const Outline& half, Fold fold) {
  if (half.size() < 3) return no_fold(fold, 0, 0);
  const Span across = reach(half, &Vec2::x);
  const Span along = reach(half, &Vec2::y);
  const double height = along.high - along.low;
  const double fold_x = fold == Fold::left ? across.low : across.high;
  if (across.high - across.low <= 2 * on_the_fold) return no_fold(fold, 0, height);
  const Polyline line = off_the_fold(half, fold_x);
  if (line.empty()) return no_fold(fold, 0, height);
  const double found = std::abs(line.back().y - line.front().y);
  // A bowed head line reaches beyond the fold's end, by less than this.
  if (found < 0.6 * height) return no_fold(fold, found, height);
  Outline whole = line;
  for (std::size_t i = line.size() - 2; i > 0; --i) whole.push_back({2 * fold_x - line[i].x, line[i].y});
  return whole;
}

}  // namespace crownwright::pattern
