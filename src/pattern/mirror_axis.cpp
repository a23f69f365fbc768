#include "pattern/mirror_axis.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace crownwright::pattern {
namespace {

// The axis as two numbers: its angle, and its distance from a fixed point along its normal.
struct Pose {
  double angle = 0, shift = 0;
};

struct Nearest {
  Vec2 at, normal;
  double distance = 0;
};

Vec2 direction_of(double angle) { return {std::cos(angle), std::sin(angle)}; }
Vec2 left_of(Vec2 v) { return {-v.y, v.x}; }

Vec2 mirrored(Vec2 p, Vec2 centre, const Pose& pose) {
  const Vec2 n = left_of(direction_of(pose.angle));
  return p - 2 * (dot(p - centre, n) - pose.shift) * n;
}

Vec2 nearest_on(Vec2 a, Vec2 b, Vec2 p) {
  const Vec2 along = b - a;
  const double square = dot(along, along);
  return a + (square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0.0) * along;
}

double square_of(Vec2 v) { return dot(v, v); }

// An outline in runs of edges, each run with a circle round it, and bundles of runs likewise, so that most of
// them need no look.
class Edges {
 public:
  explicit Edges(const Outline& outline) : outline_(outline) {
    for (std::size_t from = 0; from < outline.size(); from += run)
      runs_.push_back(circle_round(from, std::min(from + run, outline.size())));
    for (std::size_t from = 0; from < outline.size(); from += run * bundle)
      bundles_.push_back(circle_round(from, std::min(from + run * bundle, outline.size())));
  }

  /// `near_run`: where to look first, and afterwards where it was found. Neighbours are near each other: that
  /// look rules out nearly all others.
  Nearest nearest(Vec2 p, std::size_t& near_run) const {
    Found found = looked_at(near_run, p);
    search(p, found);
    near_run = found.run;
    return {found.at, normal_of(found.edge), std::sqrt(found.square)};
  }

  /// The same distance, or any that is no more than `enough` when that is.
  double distance(Vec2 p, double enough, std::size_t& near_run) const {
    Found found = looked_at(near_run, p);
    if (!(found.square <= enough * enough)) search(p, found);
    near_run = found.run;
    return std::sqrt(found.square);
  }

 private:
  static constexpr std::size_t run = 12, bundle = 8;
  struct Circle {
    Vec2 centre;
    double radius = 0;
  };
  struct Found {
    Vec2 at;
    std::size_t edge = 0, run = 0;
    double square = std::numeric_limits<double>::infinity();
  };

  Vec2 end(std::size_t i) const { return outline_[i + 1 == outline_.size() ? 0 : i + 1]; }

  Circle circle_round(std::size_t from, std::size_t stop) const {
    Circle circle{0.5 * (outline_[from] + end(stop - 1)), 0};
    for (std::size_t i = from; i < stop; ++i)
      circle.radius =
          std::max({circle.radius, norm(outline_[i] - circle.centre), norm(end(i) - circle.centre)});
    return circle;
  }

  static bool may_hold(const Circle& circle, Vec2 p, const Found& found) {
    const double within = std::sqrt(found.square) + circle.radius;
    return square_of(p - circle.centre) < within * within;
  }

  Found looked_at(std::size_t first, Vec2 p) const {
    Found found;
    look(first, p, found);
    return found;
  }

  void search(Vec2 p, Found& found) const {
    const std::size_t first = found.run;
    for (std::size_t group = 0; group < bundles_.size(); ++group) {
      if (!may_hold(bundles_[group], p, found)) continue;
      const std::size_t last = std::min((group + 1) * bundle, runs_.size());
      for (std::size_t i = group * bundle; i < last; ++i)
        if (i != first && may_hold(runs_[i], p, found)) look(i, p, found);
    }
  }

  void look(std::size_t which, Vec2 p, Found& found) const {
    const std::size_t stop = std::min((which + 1) * run, outline_.size());
    for (std::size_t i = which * run; i < stop; ++i) {
      const Vec2 q = nearest_on(outline_[i], end(i), p);
      const double away = square_of(p - q);
      if (away < found.square) found = {q, i, which, away};
    }
  }

  Vec2 normal_of(std::size_t edge) const {
    const Vec2 along = end(edge) - outline_[edge];
    const double side = norm(along);
    return side > 0 ? (1 / side) * left_of(along) : Vec2{0, 1};
  }

  const Outline& outline_;
  std::vector<Circle> runs_, bundles_;
};

Vec2 centre_of_area(const Outline& outline) {
  Vec2 sum;
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i] - outline[0];
    const Vec2 b = outline[(i + 1) % outline.size()] - outline[0];
    const double part = cross(a, b);
    twice += part;
    sum = sum + part * (a + b);
  }
  return twice == 0 ? outline[0] : outline[0] + (1 / (3 * twice)) * sum;
}

double mismatch(const Edges& edges, const Outline& samples, Vec2 centre, const Pose& pose) {
  double sum = 0;
  std::size_t near_run = 0;
  for (const Vec2 p : samples) {
    const double away = edges.nearest(mirrored(p, centre, pose), near_run).distance;
    sum += away * away;
  }
  return std::sqrt(sum / static_cast<double>(samples.size()));
}

// The best few of all directions through the centre: local minima of the coarse mismatch.
std::vector<Pose> likely_poses(const Outline& outline, Vec2 centre) {
  constexpr std::size_t directions = 120;
  const Outline coarse = evenly_spaced(outline, 240);
  const Edges edges(coarse);
  const Outline samples = evenly_spaced(outline, 80);
  std::vector<double> off(directions);
  const auto pose_of = [](std::size_t i) {
    return Pose{std::numbers::pi * static_cast<double>(i) / directions, 0};
  };
  for (std::size_t i = 0; i < directions; ++i) off[i] = mismatch(edges, samples, centre, pose_of(i));
  std::vector<std::size_t> lowest;
  for (std::size_t i = 0; i < directions; ++i) {
    if (off[i] <= off[(i + 1) % directions] && off[i] <= off[(i + directions - 1) % directions]) {
      lowest.push_back(i);
    }
  }
  std::sort(lowest.begin(), lowest.end(), [&](std::size_t a, std::size_t b) { return off[a] < off[b]; });
  std::vector<Pose> poses;
  for (std::size_t i = 0; i < std::min<std::size_t>(lowest.size(), 3); ++i)
    poses.push_back(pose_of(lowest[i]));
  return poses;
}

// One Gauss-Newton step on the distances, measured square to the outline at the nearest points.
Pose improved(const Edges& edges, const Outline& samples, Vec2 centre, const Pose& pose) {
  const Vec2 u = direction_of(pose.angle);
  const Vec2 n = left_of(u);
  double aa = 0, as = 0, ss = 0, ra = 0, rs = 0;
  std::size_t near_run = 0;
  for (const Vec2 p : samples) {
    const Vec2 image = mirrored(p, centre, pose);
    const Nearest near = edges.nearest(image, near_run);
    const double residual = dot(near.normal, image - near.at);
    const double by_shift = 2 * dot(near.normal, n);
    const Vec2 swing = 2 * dot(p - centre, u) * n + 2 * (dot(p - centre, n) - pose.shift) * u;
    const double by_angle = dot(near.normal, swing);
    aa += by_angle * by_angle, as += by_angle * by_shift, ss += by_shift * by_shift;
    ra += by_angle * residual, rs += by_shift * residual;
  }
  const double determinant = aa * ss - as * as;
  if (!(determinant > 1e-12 * aa * ss)) return pose;
  return {pose.angle - (ra * ss - rs * as) / determinant, pose.shift - (rs * aa - ra * as) / determinant};
}

// A step this small changes no coordinate of a drawing that matters: rad, mm.
constexpr double no_turn = 1e-13, no_shift = 1e-11;
constexpr int most_steps = 8;

Pose best_pose(const Outline& outline, Vec2 centre) {
  const Outline samples = evenly_spaced(outline, 400);
  const Edges edges(outline);
  Pose best;
  double least = std::numeric_limits<double>::infinity();
  for (Pose pose : likely_poses(outline, centre)) {
    for (int i = 0; i < most_steps; ++i) {
      const Pose before = std::exchange(pose, improved(edges, samples, centre, pose));
      if (std::abs(pose.angle - before.angle) < no_turn && std::abs(pose.shift - before.shift) < no_shift)
        break;
    }
    const double off = mismatch(edges, samples, centre, pose);
    if (off < least) least = off, best = pose;
  }
  return best;
}

}  // namespace

Outline evenly_spaced(const Outline& outline, std::size_t count) {
  Polyline closed = outline;
  closed.push_back(outline.front());
  const double step = length(closed) / static_cast<double>(count);
  Outline points;
  double passed = 0;
  for (std::size_t i = 1; i < closed.size() && points.size() < count; ++i) {
    const double side = norm(closed[i] - closed[i - 1]);
    for (double at = step * static_cast<double>(points.size()); points.size() < count && at < passed + side;
         at = step * static_cast<double>(points.size())) {
      points.push_back(closed[i - 1] + (at - passed) / side * (closed[i] - closed[i - 1]));
    }
    passed += side;
  }
  return points;
}

MirrorAxis mirror_axis(const Outline& outline) {
  constexpr std::size_t enough = 3000;
  const Outline reference = outline.size() <= enough ? outline : evenly_spaced(outline, enough);
  const Vec2 centre = centre_of_area(reference);
  const Pose pose = best_pose(reference, centre);
  const Vec2 u = direction_of(pose.angle);
  MirrorAxis axis{centre + pose.shift * left_of(u), u, 0, -1, {}};
  const Outline samples = evenly_spaced(reference, 1000);
  const Edges edges(reference);
  axis.rms = mismatch(edges, samples, centre, pose);
  for (const Outline* points : {&samples, &reference}) {
    std::size_t near_run = 0;
    for (const Vec2 p : *points) {
      const double off = edges.distance(mirrored(p, centre, pose), std::max(axis.worst, 0.0), near_run);
      if (off > axis.worst) axis.worst = off, axis.worst_at = p;
    }
  }
  return axis;
}

}  // namespace crownwright::pattern
