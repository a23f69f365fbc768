#include "pattern/allowance.h"

#include <algorithm>
#include <polyclipping/clipper.hpp>

#include "base/length.h"

// Clipper moves every edge and mitres between them. On fine polylines it works, but each point where the
// moved line turns inward leaves a spike for its union to clear away, and the union's time grows with the
// square of their number; so points that say nothing within the grid's noise are dropped first.

namespace crownwright::pattern {
namespace {

constexpr double grid = 1e-6;          // mm
constexpr double mitre_limit = 2.0;    // reach of a mitre, in allowances
constexpr double says_nothing = 1e-5;  // mm a point may lie off the chord and be dropped
constexpr std::size_t most_corners = 20'000;

ClipperLib::Path on_grid(const Outline& outline) {
  ClipperLib::Path path;
  path.reserve(outline.size());
  for (const Vec2 p : outline) {
    path.emplace_back(static_cast<ClipperLib::cInt>(std::llround(p.x / grid)),
                      static_cast<ClipperLib::cInt>(std::llround(p.y / grid)));
  }
  return path;
}

Outline off_grid(const ClipperLib::Path& path) {
  Outline outline;
  outline.reserve(path.size());
  for (const ClipperLib::IntPoint p : path) {
    outline.push_back({static_cast<double>(p.X) * grid, static_cast<double>(p.Y) * grid});
  }
  return outline;
}

double distance_to(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  const double square = dot(along, along);
  const double f = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0.0;
  return norm(p - (a + f * along));
}

// True when all points between the two lie within `says_nothing` of the chord.
bool straight_between(const Outline& outline, std::size_t from, std::size_t to) {
  for (std::size_t i = from + 1; i < to; ++i) {
    if (distance_to(outline[i], outline[from], outline[to]) > says_nothing) return false;
  }
  return true;
}

// Chords as long as the points allow, over at most `reach` points so that the work stays in proportion.
Outline thinned(const Outline& outline) {
  constexpr std::size_t reach = 60;
  if (outline.size() < 4) return outline;
  Outline kept = {outline.front()};
  std::size_t from = 0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    if (i - from < reach && straight_between(outline, from, i + 1)) continue;
    kept.push_back(outline[i]);
    from = i;
  }
  kept.push_back(outline.back());
  return kept;
}

// Clipper calls a loop outer when its area is positive; either way round is welcome here.
Outline turned_positive(Outline outline) {
  if (signed_area(outline) < 0) std::reverse(outline.begin(), outline.end());
  return outline;
}

std::vector<Outline> moved(const Outline& outline, double d) {
  ClipperLib::ClipperOffset offset(mitre_limit);
  offset.AddPath(on_grid(turned_positive(thinned(outline))), ClipperLib::jtMiter,
                 ClipperLib::etClosedPolygon);
  ClipperLib::Paths paths;
  offset.Execute(paths, d / grid);
  std::vector<Outline> loops;
  for (const ClipperLib::Path& path : paths) loops.push_back(turned_positive(off_grid(path)));
  return loops;
}

// Loops of less than a hundredth of a square millimetre are what rounding leaves in a sharp corner.
std::vector<Outline> worth_cutting(std::vector<Outline> loops) {
  std::erase_if(loops, [](const Outline& loop) { return std::abs(signed_area(loop)) < 0.01; });
  return loops;
}

}  // namespace

Outline add_allowance(const Outline& sew, double d) {
  if (d <= 0) return sew;
  const std::vector<Outline> loops = moved(sew, d);
  const auto largest = std::max_element(loops.begin(), loops.end(), [](const Outline& a, const Outline& b) {
    return std::abs(signed_area(a)) < std::abs(signed_area(b));
  });
  return largest == loops.end() ? sew : *largest;
}

Result<Outline> take_allowance_off(const Outline& cut, double d) {
  if (d <= 0) return cut;
  const Outline corners = thinned(cut);
  if (corners.size() > most_corners) {
    return order_fault({},
                       "the outline has " + std::to_string(corners.size()) +
                           " corners, too many to take "
                           "an allowance off",
                       "at most " + std::to_string(most_corners) + "; smooth the drawing");
  }
  std::vector<Outline> loops = worth_cutting(moved(corners, -d));
  const std::string allowance = "the allowance of " + number_text(d, 3) + " mm";
  if (loops.empty()) {
    return order_fault({}, allowance + " is wider than the piece: nothing is left inside it",
                       "an allowance of less than half the piece's least width");
  }
  if (loops.size() > 1) {
    return order_fault(
        {},
        "the piece falls into " + std::to_string(loops.size()) + " parts when " + allowance + " is taken off",
        "a piece wider than two allowances everywhere");
  }
  return std::move(loops.front());
}

}  // namespace crownwright::pattern
