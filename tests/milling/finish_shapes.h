#pragma once
// Targets and set-ups that the tests of the paths go through.

#include <algorithm>
#include <string>
#include <vector>

#include "base/numbers.h"
#include "meridian/beret.h"
#include "meridian/cut.h"
#include "milling/job.h"
#include "milling/setup.h"
#include "support/form_table.h"
#include "support/random_number.h"

namespace crownwright::milling::shapes {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

struct Shape {
  std::string name;
  Setup setup;
  Job job;
};

inline Job plain_job(double finish = 6, double scallop = 0.05) {
  Job job;
  job.finish.diameter = finish;
  job.rough.diameter = finish;
  job.step_over = 0.4 * finish;
  job.step_down = finish;
  job.scallop = scallop;
  job.finish_feeds = job.rough_feeds = job.drill_feeds = {18000, 2400, 600};
  return job;
}

/// Stock to the next whole 5 mm over the top, or to the top itself.
inline Setup setup_of(const Chain& target, const Job& job, bool top_is_face = false) {
  Setup setup;
  setup.target = target;
  setup.top_is_face = top_is_face;
  const double top = target.front().from().z, foot = target.back().to().r;
  setup.stock.z1 = top_is_face ? top : 5 * std::floor(top / 5 + 1);
  setup.trench = foot + std::max(2 * job.rough.radius() + job.leave, 2 * job.finish.radius()) + 1;
  const double side = setup.trench + 5;
  setup.stock.x0 = setup.stock.y0 = -side;
  setup.stock.x1 = setup.stock.y1 = side;
  setup.lowest = -job.finish.radius();
  setup.safe = setup.stock.z1 + safe_height;
  return setup;
}

inline Shape shape_of(const std::string& name, const Chain& target, const Job& job, bool face = false) {
  return {name, setup_of(target, job, face), job};
}

/// Straight down from the chain's end.
inline Chain walled(Chain chain, double z) {
  const Point end = chain.back().to();
  chain.push_back(Segment::line(end, {end.r, z}));
  return chain;
}

inline Chain polyline(const std::vector<Point>& points) {
  Chain chain;
  for (std::size_t i = 1; i < points.size(); ++i) chain.push_back(Segment::line(points[i - 1], points[i]));
  return chain;
}

inline Chain pad_125() { return walled(test::pad_top(125, 30, 6, 20), 0); }

/// The block of the worked case (140, 90.7, 75, 6, 20): what lies between two heights, turned over when it
/// lies under the equator.
inline Chain block_crown() { return meridian::crown_chain({140, 90.7, 75, 6, 20, 20}).value(); }
inline Chain block_tip_tier() { return meridian::translated(meridian::cut_below(block_crown(), 50), -50); }
inline Chain turned_over(const Chain& chain, double z) {
  Chain over;
  const auto turn = [z](Point p) { return Point{p.r, z - p.z}; };
  for (const Segment& s : meridian::reversed(chain))
    over.push_back(s.is_arc()
                       ? Segment::arc(turn(s.from()), turn(s.to()), turn(s.centre()), s.radius(), -s.turn())
                       : Segment::line(turn(s.from()), turn(s.to())));
  return over;
}
/// From the head line (z = 0) to the equator, face up.
inline Chain block_under_tier() {
  const Chain crown = block_crown();
  const Chain under(crown.begin() + 2, crown.end());
  Chain over = turned_over(under, under.front().from().z);
  over.insert(over.begin(), Segment::line({0, over.front().from().z}, over.front().from()));
  return over;
}

inline Chain sharp_flat() { return polyline({{0, 20}, {60, 20}, {60, 0}}); }
inline Chain flanged() { return polyline({{0, 30}, {40, 30}, {40, 8}, {60, 8}, {60, 0}}); }
inline Chain cone() { return polyline({{0, 40}, {20, 32}, {45, 0}}); }
/// Half a ball on a hollow fillet.
inline Chain filleted(double fillet) {
  Chain chain = {Segment::arc_about({0, 30 + fillet}, {0, 10 + fillet}, -pi / 2)};
  chain.push_back(Segment::arc_about(chain.back().to(), {20 + fillet, 10 + fillet}, pi / 2));
  chain.push_back(Segment::line(chain.back().to(), {50, chain.back().to().z}));
  return walled(chain, 0);
}
/// Thinner than the tool.
inline Chain peg() { return polyline({{0, 20}, {2, 20}, {2, 6}, {30, 4}, {30, 0}}); }

inline std::vector<Shape> all() {
  const Job job = plain_job();
  return {
      shape_of("pad", pad_125(), job),
      shape_of("tip tier", block_tip_tier(), job),
      shape_of("under tier", block_under_tier(), job, true),
      shape_of("collar", polyline({{0, 25}, {90.7, 25}, {90.7, 0}}), job, true),
      shape_of("sharp and flat", sharp_flat(), job),
      shape_of("flange", flanged(), job),
      shape_of("cone", cone(), job),
      shape_of("ball on a fillet", filleted(10), job),
      shape_of("ball on a fillet hardly wider than the tool", filleted(3.2), job),
      shape_of("ball on a fillet narrower than the tool", filleted(2), job),
      shape_of("peg", peg(), job),
      shape_of("pad, coarse", pad_125(), plain_job(12, 0.3)),
      shape_of("small and fine", walled(test::pad_top(20, 12, 2, 5), 0), plain_job(2, 0.01)),
  };
}

/// A falling chain of lines and arcs drawn by lot.
inline Chain random_target(std::mt19937_64& random) {
  using test::uniform;
  std::vector<Point> points = {{0, uniform(random, 15, 50)}};
  const int count = 2 + static_cast<int>(test::pick(random, 4));
  for (int i = 0; i < count; ++i) {
    const Point last = points.back();
    const double dr = test::pick(random, 4) == 0 && i > 0 ? 0 : uniform(random, 3, 30);
    const double dz = i + 1 == count                         ? last.z
                      : test::pick(random, 4) == 0 && dr > 0 ? 0
                                                             : uniform(random, 0.1, 0.8) * last.z;
    points.push_back({last.r + dr, last.z - dz});
  }
  Chain chain = polyline(points);
  // Some lines bend, no further than the quarter turn between level and upright.
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const Point from = chain[i].from(), to = chain[i].to();
    const double slope = std::atan2(from.z - to.z, to.r - from.r), room = 2 * std::min(slope, pi / 2 - slope);
    if (room > 0.1 && test::pick(random, 2))
      chain[i] = Segment::arc_through(from, to,
                                      uniform(random, i == 0 ? -0.95 : -0.95, i == 0 ? -0.1 : 0.95) * room);
  }
  return chain;
}

}  // namespace crownwright::milling::shapes
