#include "press/stiffen.h"

#include <algorithm>
#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/beret.h"

namespace crownwright::press {
namespace {

constexpr double kThickestWall = 40;  // mm; beyond it the form is called solid
constexpr double kShallowDome =
    0.25;  // of the crown radius: rise of an eighth of the base, Reissner's own bound
constexpr int kFewestOnRing = 3, kMostOnRing = 12;
constexpr int kRingSteps = 90;  // ring radii tried between the axis and 0.9 of the crown radius
constexpr double kWidestRing = 0.9;
constexpr int kLineSteps = 200;

double deflection_of(const StiffnessQuestion& q, double plate_radius, double wall, double dome) {
  return crown_deflection(q.load, {plate_radius, dome_radius_of(q.crown_radius, q.edge_radius, dome), wall},
                          q.elastic);
}

// The least x in [low, high] with f(x) <= good; f falls. Nothing when f(high) is still too much.
template <class Deflection>
std::optional<double> least_good(double low, double high, Deflection f) {
  const auto over = [&](double x) { return f(x) - good_deflection; };
  if (!(low < high) || over(high) > 0) return std::nullopt;
  if (over(low) <= 0) return low;
  std::uintmax_t steps = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      over, low, high, boost::math::tools::eps_tolerance<double>(40), steps);
  return bracket.second;
}

std::optional<double> least_wall_for(const StiffnessQuestion& q, double plate_radius) {
  return least_good(q.wall, kThickestWall,
                    [&](double wall) { return deflection_of(q, plate_radius, wall, q.dome); });
}

// A flat tip is the limit of low domes, and begins just above it.
std::optional<double> least_dome_for(const StiffnessQuestion& q, double plate_radius) {
  const double least = std::max(q.dome, 1e-6 * q.crown_radius);
  return least_good(least, kShallowDome * q.crown_radius,
                    [&](double dome) { return deflection_of(q, plate_radius, q.wall, dome); });
}

PostPlan with_figures(const StiffnessQuestion& q, PostPlan plan) {
  plan.free_radius = largest_free_circle(plan.spots(), q.crown_radius).radius;
  plan.deflection = deflection_of(q, plan.free_radius, q.wall, q.dome);
  return plan;
}

// The largest free circle round a ring of posts in a circle of radius 1 lies, by symmetry, on the line from
// the axis halfway between two of them. Looked for there it is found much sooner than by the search, which
// has the last word.
double free_beside_ring(int on_ring, double ring, bool in_middle) {
  const double across = ring * std::cos(pi / on_ring), along = ring * std::sin(pi / on_ring);
  double most = 0;
  for (int step = 0; step <= kLineSteps; ++step) {
    const double x = static_cast<double>(step) / kLineSteps;
    const double to_post = std::sqrt((x - across) * (x - across) + along * along);
    most = std::max(most, std::min({1 - x, to_post, in_middle ? x : 1.0}));
  }
  return most;
}

struct Ring {
  double radius = 0, free = 2;  // of the ring, and of the largest free circle beside it; crown radius 1
};

// The ring radius that leaves the smallest free circle, of those tried.
Ring best_of_rings(int on_ring, bool in_middle) {
  Ring best;
  for (int step = 1; step <= kRingSteps; ++step) {
    const double ring = kWidestRing * step / kRingSteps;
    const double free = free_beside_ring(on_ring, ring, in_middle);
    if (free < best.free) best = {ring, free};
  }
  return best;
}

PostPlan on_ring_of(const StiffnessQuestion& q, const Ring& ring, int on_ring, bool in_middle) {
  return with_figures(q, {on_ring, ring.radius * q.crown_radius, in_middle, 0, 0});
}

PostPlan best_ring(const StiffnessQuestion& q, int on_ring, bool in_middle) {
  return on_ring_of(q, best_of_rings(on_ring, in_middle), on_ring, in_middle);
}

// Of one count, on a ring alone or with one in the middle: what leaves less to span.
PostPlan best_of(const StiffnessQuestion& q, int count) {
  if (count == 1) return with_figures(q, {0, 0, true, 0, 0});
  const PostPlan ring = best_ring(q, count, false), around = best_ring(q, count - 1, true);
  return around.free_radius < ring.free_radius ? around : ring;
}

// Where posts stand best does not hang on what the crown is made of.
StiffnessQuestion crown_alone(int count, double crown_radius) {
  if (count < 1 || !(crown_radius > 0)) throw std::logic_error("posts need a count and a crown");
  StiffnessQuestion q;
  q.elastic = {1, 0.3};
  q.crown_radius = crown_radius;
  q.wall = 1;
  return q;
}

// What the search will find is no smaller than what was found beside the ring, but for its own tolerance: a
// crown that gives way too far over so much less is not held.
bool may_hold(const StiffnessQuestion& q, double least_free) {
  constexpr double surely = 1 - 1e-3;
  const double free = surely * least_free * q.crown_radius;
  return deflection_of(q, free, q.wall, q.dome) <= good_deflection;
}

// The same for every crown, so they are looked for once.
struct Rings {
  std::array<std::array<Ring, 2>, kMostOnRing + 1> best;  // by posts on the ring; without and with one amid
};
const Rings& rings_looked_for() {
  static const Rings rings = [] {
    Rings all;
    for (int on_ring = kFewestOnRing; on_ring <= kMostOnRing; ++on_ring)
      for (const bool in_middle : {false, true})
        all.best[static_cast<std::size_t>(on_ring)][in_middle] = best_of_rings(on_ring, in_middle);
    return all;
  }();
  return rings;
}

std::optional<PostPlan> fewest_posts(const StiffnessQuestion& q) {
  if (constexpr double beside_one = 0.5; !q.axis_taken && may_hold(q, beside_one)) {
    const PostPlan middle = with_figures(q, {0, 0, true, 0, 0});
    if (middle.deflection <= good_deflection) return middle;
  }
  for (int on_ring = kFewestOnRing; on_ring <= kMostOnRing; ++on_ring) {
    for (const bool in_middle : {false, true}) {
      if (in_middle && q.axis_taken) continue;
      const Ring& ring = rings_looked_for().best[static_cast<std::size_t>(on_ring)][in_middle];
      if (!may_hold(q, ring.free)) continue;
      const PostPlan plan = on_ring_of(q, ring, on_ring, in_middle);
      if (plan.deflection <= good_deflection) return plan;
    }
  }
  return std::nullopt;
}

StiffnessGrade grade_of(double deflection) {
  if (deflection <= good_deflection) return StiffnessGrade::good;
  return deflection <= most_deflection ? StiffnessGrade::note : StiffnessGrade::weak;
}

}  // namespace

std::optional<double> dome_radius_of(double crown_radius, double edge_radius, double dome) {
  if (dome <= 0) return std::nullopt;
  const double f = meridian::tip_angle(crown_radius, dome, edge_radius);
  return (crown_radius - edge_radius * (1 - std::sin(f))) / std::sin(f);
}

std::vector<Spot> best_spots(int count, double crown_radius) {
  return best_of(crown_alone(count, crown_radius), count).spots();
}

std::vector<Spot> best_ring_spots(int count, double crown_radius) {
  return best_ring(crown_alone(count, crown_radius), count, false).spots();
}

StiffnessAnswer judge_stiffness(const StiffnessQuestion& q) {
  StiffnessAnswer answer;
  answer.plate_radius = largest_free_circle(q.posts, q.crown_radius).radius;
  answer.deflection = deflection_of(q, answer.plate_radius, q.wall, q.dome);
  answer.grade = grade_of(answer.deflection);
  if (answer.grade == StiffnessGrade::good) return answer;
  answer.least_wall = least_wall_for(q, answer.plate_radius);
  answer.least_dome = least_dome_for(q, answer.plate_radius);
  answer.posts = fewest_posts(q);
  return answer;
}

}  // namespace crownwright::press
