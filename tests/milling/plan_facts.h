#pragma once
// What a plan must keep, looked at again from the solid and the job alone: by sampling and by plain sums,
// without the plan's own sources.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "milling/plan.h"
#include "solid/solid.h"

namespace crownwright::milling::facts {

using meridian::Chain;
using meridian::Point;

/// The outside, pole to foot, as a fine row of points from the solid's walk (a vent at the pole left open).
inline std::vector<Point> outside_points(const solid::Solid& solid, int parts = 64) {
  using enum solid::Role;
  std::vector<Point> points;
  const solid::Shell& shell = solid.shells.front();
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const solid::Role role = shell.roles[i];
    if (points.empty() && role != crown) continue;
    if (role == inner || role == floor || role == socket || role == under || role == pole_vent) break;
    const meridian::Segment& s = shell.walk[i];
    for (int k = 0; k <= parts; ++k) points.push_back(s.at(s.length() * k / parts));
    if (std::abs(points.back().z) < 1e-9) break;
  }
  return points;
}

inline double form_z(const Setup& setup, double z) {
  return setup.flipped ? setup.face_down_z - z : setup.face_down_z + z;
}
inline double piece_z(const Setup& setup, double z) {
  return setup.flipped ? setup.face_down_z - z : z - setup.face_down_z;
}

inline std::vector<Point> target_points(const Chain& target, int parts = 64) {
  std::vector<Point> points;
  for (const auto& s : target)
    for (int k = 0; k <= parts; ++k) points.push_back(s.at(s.length() * k / parts));
  return points;
}

/// Greatest radius of the target at or above a height.
inline double target_radius(const std::vector<Point>& points, double z) {
  double radius = 0;
  for (const Point p : points)
    if (p.z >= z - 1e-9) radius = std::max(radius, p.r);
  return radius;
}

inline void expect_seen_from_above(const Setup& setup) {
  ASSERT_FALSE(setup.target.empty());
  EXPECT_EQ(setup.target.front().from().r, 0);
  EXPECT_EQ(meridian::greatest_gap(setup.target), 0);
  Point last = setup.target.front().from();
  for (const Point p : target_points(setup.target)) {
    EXPECT_GE(p.r, last.r - 1e-9);
    EXPECT_LE(p.z, last.z + 1e-9);
    last = p;
  }
}

/// Radius of the samples' polyline at a height, on the level stretch's side that the piece has.
inline double section_of(const std::vector<Point>& outside, double z, bool piece_above) {
  double radius = outside.front().z - z < 1e-6 ? 0 : -1;
  for (std::size_t i = 1; i < outside.size(); ++i) {
    const Point a = outside[i - 1], b = outside[i];
    if (a.z <= b.z + 1e-10 || z > a.z + 1e-9 || z < b.z - 1e-9) continue;
    const bool ends_here = std::abs(z - (piece_above ? b.z : a.z)) < 1e-9;
    const bool begins_here = std::abs(z - (piece_above ? a.z : b.z)) < 1e-9;
    if (begins_here && !ends_here) continue;
    radius = std::max(radius, a.r + (b.r - a.r) * (a.z - z) / (a.z - b.z));
  }
  return radius;
}

/// The form's points that lie on this piece and that nothing above them hides lie on the target; hidden ones
/// lie inside it. `low`, `high`: form z of the slab.
inline void expect_is_form(const Setup& setup, const std::vector<Point>& outside, double low, double high) {
  std::vector<Point> here;
  for (const Point p : outside)
    if (p.z > low + 1e-6 && p.z < high - 1e-6) here.push_back({p.r, piece_z(setup, p.z)});
  std::sort(here.begin(), here.end(),
            [](Point one, Point two) { return one.z > two.z || (one.z == two.z && one.r > two.r); });
  // Samples stop short of the plane on top: the section there is taken from the target, after a look at it.
  const double plane = setup.flipped ? low : high;
  double widest = setup.target.front().is_arc() ? 0 : setup.target.front().to().r;
  EXPECT_NEAR(widest, section_of(outside, plane, setup.flipped), 0.3) << "within a chord of the samples";
  for (const Point p : here) {
    if (p.r > widest - 1e-9) {
      EXPECT_NEAR(meridian::distance_to(setup.target, p), 0, 2e-7) << p.r << " " << p.z;
    }
    widest = std::max(widest, p.r);
  }
}

/// How far the form's farthest hidden point above a height lies behind the target.
inline double deepest_hidden(const Setup& setup, const std::vector<Point>& outside, double low, double high) {
  double deepest = 0;
  for (const Point p : outside)
    if (p.z > low + 1e-6 && p.z < high - 1e-6)
      deepest = std::max(deepest, meridian::distance_to(setup.target, {p.r, piece_z(setup, p.z)}));
  return deepest;
}

/// What hides, and where a ball that touches would cut elsewhere, is told.
inline void expect_unreached_told(const Plan& plan, const Setup& setup, double hidden, double R) {
  double told = 0;
  for (const Unreached& place : plan.unreached) told = std::max(told, place.rest);
  EXPECT_GE(told, hidden > 0.0051 ? hidden - 1e-6 : 0);
  for (const auto& s : setup.target) {
    for (int k = 0; k <= 32; ++k) {
      const double at = s.length() * k / 32;
      const Point p = s.at(at), n = s.normal_at(at);
      const double room = meridian::distance_to(setup.target, {p.r + R * n.r, p.z + R * n.z});
      if (room > 0.9 * R) continue;
      EXPECT_TRUE(std::any_of(plan.unreached.begin(), plan.unreached.end(),
                              [&](const Unreached& place) {
                                return std::hypot(place.r - p.r, piece_z(setup, place.z) - p.z) < 2 * R;
                              }))
          << p.r << " " << p.z;
    }
  }
}

/// The other way round: what the target shows is the form's outside, the level face on top, or an upright
/// wall that bridges.
inline void expect_nothing_else(const Setup& setup, const Chain& outside) {
  for (const auto& s : setup.target) {
    const bool upright = s.from().r == s.to().r, face = !s.is_arc() && s.from().r == 0;
    if (upright || face) continue;
    for (int k = 0; k <= 16; ++k) {
      const Point p = s.at(s.length() * k / 16);
      EXPECT_NEAR(meridian::distance_to(outside, {p.r, form_z(setup, p.z)}), 0, 2e-7);
    }
  }
}

inline void expect_bed_rules(const Setup& setup, const Job& job) {
  const double r_end = setup.target.back().to().r, R = job.finish.radius();
  const double half = std::min(setup.stock.x1, setup.stock.y1);
  EXPECT_EQ(setup.stock.x0, -setup.stock.x1);
  EXPECT_EQ(setup.stock.z0, 0);
  EXPECT_EQ(setup.safe, setup.stock.z1 + 5);
  EXPECT_GE(setup.stock.z1, setup.target.front().from().z - 1e-9) << "the stock is as high as the target";
  EXPECT_GE(setup.trench, r_end + R + R + 0.5 - 1e-9) << "the finishing tool keeps off the trench's wall";
  EXPECT_GE(setup.trench - job.rough.radius(), r_end + job.rough.radius() + job.leave - 1e-9);
  EXPECT_GE(half, r_end - 1e-9) << "the stock holds the form";
  if (!job.stock_size) {
    EXPECT_GE(half, setup.trench + 5 - 1e-9);
  }
  EXPECT_NEAR(setup.lowest, setup.target.back().to().z - R, 1e-9) << "the ball rolls round the foot's edge";
}

inline void expect_in_reach(const Setup& setup, const Job& job) {
  const double R = job.finish.radius();
  const double depth = setup.stock.z1 - setup.lowest;
  for (const Tool& tool : {job.finish, job.rough}) {
    if (tool.holder > tool.diameter) {
      EXPECT_GE(tool.stick_out, depth + 1 - 1e-9);
    }
    const double rough_ball = job.rough.shape == ToolShape::ball ? job.rough.radius() : 0;
    EXPECT_GE(tool.flute, job.step_down + job.leave + std::max(R, rough_ball) - 1e-9);
    EXPECT_GE(tool.stick_out, tool.flute - 1e-9);
  }
  const double r_end = setup.target.back().to().r;
  const double span = 2 * std::max(r_end + job.finish.radius(), setup.trench - job.rough.radius());
  EXPECT_GE(job.travel.x, span - 1e-9);
  EXPECT_GE(job.travel.y, span - 1e-9);
  const double low = setup.holes.empty() ? setup.lowest : std::min(setup.lowest, -1.0);
  EXPECT_GE(job.travel.z, setup.safe - low - 1e-9);
  EXPECT_LE(-low, std::max(0.0, job.spoilboard - 3) + 1e-9);
}

inline void expect_holes_drillable(const Setup& setup, const Job& job) {
  if (setup.holes.empty()) return;
  ASSERT_TRUE(job.drill);
  const auto points = target_points(setup.target);
  for (const Hole& hole : setup.holes) {
    EXPECT_NEAR(2 * hole.radius, job.drill->diameter, 1e-12);
    EXPECT_GE(hole.bottom, -1 - 1e-12);
    double top = 0;
    for (const Point p : points)
      if (p.r >= std::hypot(hole.x, hole.y)) top = std::max(top, p.z);
    EXPECT_LE(top - hole.bottom, job.drill->flute + 0.5) << "within a sample's height";
    if (job.drill->holder > job.drill->diameter) {
      EXPECT_GE(job.drill->stick_out, setup.stock.z1 - hole.bottom + 1 - 1e-9);
    }
  }
}

inline void expect_slabs_fill(const Plan& plan, double height, double sheet) {
  ASSERT_FALSE(plan.slabs.empty());
  EXPECT_EQ(plan.slabs.front().top, height);
  EXPECT_EQ(plan.slabs.back().bottom, 0);
  for (std::size_t i = 0; i < plan.slabs.size(); ++i) {
    if (i > 0) {
      EXPECT_EQ(plan.slabs[i].top, plan.slabs[i - 1].bottom);
    }
    if (plan.slabs.size() > 1) {
      EXPECT_LE(plan.slabs[i].top - plan.slabs[i].bottom, sheet + 1e-9);
    }
  }
}

using Places = std::vector<Point>;  // x, y of holes as r, z

inline bool same_set(const Places& a, const Places& b) {
  return a.size() == b.size() && std::all_of(a.begin(), a.end(), [&](Point p) {
           return std::any_of(b.begin(), b.end(),
                              [&](Point q) { return std::hypot(p.r - q.r, p.z - q.z) < 0.5; });
         });
}

/// How many turns about the axis, and turns with a turning over, bring the holes within 0.5 mm of themselves.
inline int ways_on(const Places& holes) {
  int ways = 0;
  for (const bool over : {false, true}) {
    for (const Point to : holes) {
      const Point first{holes[0].r, over ? -holes[0].z : holes[0].z};
      const double turn = std::atan2(to.z, to.r) - std::atan2(first.z, first.r);
      Places moved;
      for (const Point p : holes) {
        const double x = p.r, y = over ? -p.z : p.z;
        moved.push_back({x * std::cos(turn) - y * std::sin(turn), x * std::sin(turn) + y * std::cos(turn)});
      }
      ways += same_set(moved, holes) ? 1 : 0;
    }
  }
  return ways;
}

inline Places places_of(const std::vector<Hole>& holes) {
  Places places;
  for (const Hole& hole : holes) places.push_back({hole.x, hole.y});
  return places;
}

/// Where a piece's holes of these places lie once it is back in the form.
inline Places back_in_form(const Setup& setup) {
  Places places;
  for (const Hole& hole : setup.holes) places.push_back({hole.x, setup.flipped ? -hole.y : hole.y});
  return places;
}

inline void expect_dowels(const Plan& plan, const std::vector<Point>& outside, const Job& job) {
  const StockPlan& stock = plan.stock;
  if (stock.dowel == 0) return;
  ASSERT_EQ(stock.dowels.size(), 3u);
  EXPECT_EQ(ways_on(places_of(stock.dowels)), 1);
  double least = INFINITY;
  for (const Point p : outside)
    if (p.z <= plan.slabs.front().bottom + 1e-9) least = std::min(least, p.r);
  for (const Hole& hole : stock.dowels) {
    EXPECT_EQ(2 * hole.radius, stock.dowel);
    EXPECT_LE(std::hypot(hole.x, hole.y) + hole.radius + 2 * stock.dowel, least + 0.01);
  }
  EXPECT_LE(stock.dowel_length, std::max(plan.slabs.front().bottom, plan.slabs.front().top - 3) + 1e-9);
  for (std::size_t i = 1; i < plan.setups.size(); ++i) {
    if (!job.drill || plan.setups[i].holes.empty()) continue;
    for (const Point hole : places_of(stock.dowels)) {
      const auto back = back_in_form(plan.setups[i]);
      const bool there = std::any_of(back.begin(), back.end(),
                                     [&](Point p) { return std::hypot(p.r - hole.r, p.z - hole.z) < 1e-9; });
      // Holes of vents alone may be there when dowels are drilled by hand.
      if (stock.dowel == job.drill->diameter && back.size() >= 3 && plan.vents.drilled == 0) {
        EXPECT_TRUE(there);
      }
    }
  }
}

/// Everything at once. `outside_chain`: the same outside as a chain.
inline void expect_plan_keeps_rules(const Plan& plan, const solid::Solid& solid, const Chain& outside_chain,
                                    const Job& job) {
  const auto outside = outside_points(solid);
  expect_slabs_fill(plan, outside_chain.front().from().z, job.sheet);
  const bool tiers = plan.slabs.size() > 1;
  EXPECT_EQ(plan.setups.size(), tiers ? plan.slabs.size() : plan.setups.size());
  for (std::size_t i = 0; i < plan.setups.size(); ++i) {
    const Setup& setup = plan.setups[i];
    SCOPED_TRACE("set-up " + setup.name);
    expect_seen_from_above(setup);
    const double a = form_z(setup, setup.target.front().from().z);
    const double b = form_z(setup, setup.target.back().to().z);
    if (tiers) {
      EXPECT_NEAR(std::max(a, b), plan.slabs[i].top, 1e-9);
      EXPECT_NEAR(std::min(a, b), plan.slabs[i].bottom, 1e-9);
    }
    expect_is_form(setup, outside, std::min(a, b), std::max(a, b));
    expect_nothing_else(setup, outside_chain);
    expect_unreached_told(plan, setup, deepest_hidden(setup, outside, std::min(a, b), std::max(a, b)),
                          job.finish.radius());
    if (tiers) {
      const double from = std::max(std::min(a, b), solid.has_head_line ? solid.head_line.z : 1.0);
      EXPECT_LE(deepest_hidden(setup, outside, from, std::max(a, b)), job.scallop + 1e-6) << "wide face down";
    }
    expect_bed_rules(setup, job);
    expect_in_reach(setup, job);
    expect_holes_drillable(setup, job);
  }
  if (tiers) expect_dowels(plan, outside, job);
}

}  // namespace crownwright::milling::facts
