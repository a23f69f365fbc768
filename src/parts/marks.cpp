#include "parts/marks.h"

#include <algorithm>
#include <cmath>

#include "meridian/refusal.h"
#include "parts/sectors.h"

namespace crownwright::parts {
namespace {

using meridian::mm_text;

constexpr double least_marked_collar = 4;  // mm

double twice_area(const MarkLoop& loop) {
  double sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto &a = loop[i], &b = loop[(i + 1) % loop.size()];
    sum += a[0] * b[1] - a[1] * b[0];
  }
  return sum;
}

bool surrounds(const MarkLoop& loop, const std::array<double, 2>& p) {
  bool inside = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto &a = loop[i], &b = loop[(i + 1) % loop.size()];
    if ((a[1] > p[1]) == (b[1] > p[1])) continue;
    if (a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) > p[0]) inside = !inside;
  }
  return inside;
}

// Radii of the level foot at z = 0.
struct FootRing {
  double inner = 1e9, outer = 0;
};

FootRing foot_ring(const solid::Solid& solid) {
  FootRing ring;
  for (const solid::Shell& shell : solid.shells) {
    for (const meridian::Segment& segment : shell.walk) {
      if (segment.is_arc() || std::abs(segment.from().z) > 1e-9 || std::abs(segment.to().z) > 1e-9) continue;
      ring.inner = std::min({ring.inner, segment.from().r, segment.to().r});
      ring.outer = std::max({ring.outer, segment.from().r, segment.to().r});
    }
  }
  return ring;
}

std::optional<Fault> refuse_mark_depth(const solid::Solid& solid, double depth) {
  const double most = solid.wall > 0 ? std::min(most_mark_depth, solid.wall / 2) : most_mark_depth;
  if (depth > 0 && depth <= most) return std::nullopt;
  return impossible_fault("a mark " + mm_text(depth) + " deep does not suit this form",
                          "a depth above 0 and of at most " + meridian::most_text(most));
}

// Nearest and farthest of a side from the axis.
std::pair<double, double> reach_of_side(const std::array<double, 2>& a, const std::array<double, 2>& b) {
  const double dx = b[0] - a[0], dy = b[1] - a[1], square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp(-(a[0] * dx + a[1] * dy) / square, 0.0, 1.0) : 0.0;
  return {std::hypot(a[0] + t * dx, a[1] + t * dy), std::max(std::hypot(a[0], a[1]), std::hypot(b[0], b[1]))};
}

bool lies_between(const MarkLoop& loop, const FootRing& ring) {
  if (loop.size() < 3 || ring.outer <= 0) return false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto [nearest, farthest] = reach_of_side(loop[i], loop[(i + 1) % loop.size()]);
    if (!(farthest <= ring.outer - mark_margin)) return false;
    if (ring.inner > 0 && !(nearest >= ring.inner + mark_margin)) return false;
  }
  return true;
}

std::optional<Fault> refuse_off_collar(const Marks& marks, const CollarRoom& room) {
  for (const MarkShape& shape : marks.collar) {
    for (const MarkLoop& loop : shape.loops) {
      const bool lies = loop.size() >= 3 && std::all_of(loop.begin(), loop.end(), [&](const auto& p) {
                          return p[1] >= room.low - 1e-9 && p[1] <= room.high + 1e-9;
                        });
      if (lies) continue;
      return impossible_fault(
          "a mark does not lie on the collar",
          "marks between " + mm_text(room.low) + " and " + mm_text(room.high) + " above the foot");
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<CollarRoom> collar_room(const solid::Solid& solid) {
  if (!solid.has_head_line || solid.head_line.z < least_marked_collar) return std::nullopt;
  CollarRoom best;
  for (const meridian::Segment& segment : solid.shells.front().walk) {
    if (!is_collar(segment, solid)) continue;
    const double high = segment.from().z - mark_margin, low = segment.to().z + mark_margin;
    if (high - low > best.high - best.low) best = {segment.from().r, low, high};
  }
  if (!(best.high - best.low > mark_margin)) return std::nullopt;
  return best;
}

FootRoom foot_room(const solid::Solid& solid) {
  const FootRing ring = foot_ring(solid);
  const double inner = ring.inner > 0 ? ring.inner + mark_margin : 0;
  return {inner, std::max(inner, ring.outer - mark_margin)};
}

bool is_collar(const meridian::Segment& segment, const solid::Solid& solid) {
  return !segment.is_arc() && std::abs(segment.from().r - solid.head_line.r) < 1e-9 &&
         std::abs(segment.to().r - segment.from().r) < 1e-9 && segment.from().z < solid.head_line.z + 1e-9 &&
         segment.to().z < segment.from().z;
}

MarkShape oriented(const MarkShape& shape) {
  MarkShape turned = shape;
  for (std::size_t i = 0; i < shape.loops.size(); ++i) {
    int depth = 0;
    for (std::size_t j = 0; j < shape.loops.size(); ++j)
      depth += j != i && surrounds(shape.loops[j], shape.loops[i].front()) ? 1 : 0;
    MarkLoop& loop = turned.loops[i];
    if ((twice_area(loop) > 0) != (depth % 2 == 0)) std::reverse(loop.begin(), loop.end());
  }
  return turned;
}

Result<Done> check_marks(const solid::Solid& solid, const Marks& marks) {
  if (!marks.foot.empty()) {
    if (auto fault = refuse_mark_depth(solid, marks.foot_depth)) return *fault;
  }
  const FootRing ring = foot_ring(solid);
  for (const MarkShape& shape : marks.foot) {
    for (const MarkLoop& loop : shape.loops) {
      if (lies_between(loop, ring)) continue;
      return impossible_fault("a mark does not lie on the foot",
                              "marks between the radii " + mm_text(ring.inner + mark_margin) + " and " +
                                  mm_text(ring.outer - mark_margin) + " of the foot");
    }
  }
  if (marks.collar_lines.empty() && marks.collar.empty()) return Done{};
  if (auto fault = refuse_mark_depth(solid, marks.line_depth)) return *fault;
  const auto room = collar_room(solid);
  if (!room) return impossible_fault("there is no collar to mark", "a collar of at least 4 mm");
  if (auto fault = refuse_off_collar(marks, *room)) return *fault;
  if (!(marks.line_width >= 0.2) || marks.line_width > 3)
    return impossible_fault("a line " + mm_text(marks.line_width) + " wide is none",
                            "a width from 0.2 to 3 mm");
  return Done{};
}

Result<Part> marked_form(const solid::Solid& solid, const Marks& marks, double tolerance) {
  const auto checked = check_marks(solid, marks);
  if (!checked) return checked.fault();
  auto parts = cut_level(solid, {}, 0, tolerance, {marks, {}});
  if (!parts) return parts.fault();
  Part part = std::move(parts->front().part);
  part.name = "form";
  return part;
}

}  // namespace crownwright::parts
