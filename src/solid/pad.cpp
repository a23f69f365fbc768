#include "solid/pad.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/length.h"
#include "meridian/extent.h"
#include "meridian/offset.h"
#include "meridian/refusal.h"
#include "solid/walk_builder.h"

namespace crownwright::solid {
namespace {

using meridian::Chain;
using meridian::mm_text;
using meridian::Point;
using meridian::Segment;

// The dish's curve within radius a: cut there, or run on level to it.
Chain within_radius(const Chain& curve, double a) {
  Chain kept;
  for (const Segment& segment : curve) {
    if (segment.to().r < a) {
      kept.push_back(segment);
      continue;
    }
    double low = 0, high = segment.length();
    for (int i = 0; i < 100; ++i) {
      const double middle = (low + high) / 2;
      (segment.at(middle).r < a ? low : high) = middle;
    }
    if (high > 1e-6) {
      const Segment part = segment.part(0, high);
      kept.push_back(part.with_ends(part.from(), {a, part.to().z}));
    }
    return kept;
  }
  const Point rim = kept.back().to();
  if (rim.r < a - 1e-9) kept.push_back(Segment::line(rim, {a, rim.z}));
  return kept;
}

Result<Chain> under_face(const PadPlan& plan, double a) {
  Result<Chain> raised = plan.gap > 0 ? meridian::offset(*plan.dish, plan.gap) : Result<Chain>(*plan.dish);
  if (!raised) return raised;
  const Chain kept = within_radius(*raised, a);
  return meridian::translated(kept, -meridian::extent_of(kept).low);
}

}  // namespace

Result<Solid> build_pad(const PadPlan& plan) {
  WalkBuilder walk(plan.top.front().from());
  walk.along(plan.top, Role::crown);
  const Point edge = walk.at();
  Chain under;
  double foot_edge = plan.foot_edge_size;
  double side_foot = foot_edge;
  if (plan.dish) {
    Result<Chain> fitted = under_face(plan, edge.r);
    if (!fitted) return fitted.fault();
    under = meridian::reversed(*fitted);
    side_foot = under.front().from().z;
    foot_edge = 0;
  }
  if (edge.z - side_foot < least_side) {
    const double more = least_side - (edge.z - side_foot);
    return impossible_fault(
        "the pad's edge would end " + mm_text(std::max(0.0, side_foot - edge.z)) + " below its under face",
        "a rise at least " + meridian::least_text(more) + " greater, or a smaller edge_radius or dome");
  }
  if (foot_edge >= edge.r) {
    return impossible_fault("the foot edge of " + mm_text(foot_edge) + " takes up the whole foot",
                            "a foot_edge_size of at most " + meridian::most_text(edge.r, false));
  }
  walk.line_to({edge.r, side_foot}, Role::side);
  if (plan.dish) {
    walk.along(under, Role::under);
  } else {
    if (foot_edge > 0) {
      const Point end{edge.r - foot_edge, 0};
      if (plan.foot_edge == FootEdge::chamfer) {
        walk.line_to(end, Role::foot);
      } else {
        walk.arc_to(end, {end.r, foot_edge}, -std::numbers::pi / 2, Role::foot);
      }
    }
    walk.line_to({0, 0}, Role::under);
  }
  Solid solid;
  solid.shells.push_back(walk.shell(false));
  solid.has_head_line = false;
  return solid;
}

}  // namespace crownwright::solid
