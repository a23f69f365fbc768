// The middle of the ball goes along the target's offset, so the surface of all that it can cut is a ball's
// radius from there: the rest at a place is its distance to the middle's way, less the radius.
#include "milling/unreached.h"

#include <algorithm>
#include <cmath>

#include "meridian/chain.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

constexpr double touched = 1e-7;  // mm: distances to the offset are good to less
constexpr double sample_step = 0.5;

std::string corner_words(const Outline& outline, double z) {
  if (!outline.head_line) return "a hollow corner of the outside";
  if (std::abs(z - *outline.head_line) < 0.1) return "the head-line corner";
  return z < *outline.head_line ? "the corner above the flange" : "a hollow place of the crown";
}

std::string undercut_words(const Outline& outline, const Point& at) {
  if (at.z <= 1e-9) return "the foot edge";
  if (outline.head_line && at.z >= *outline.head_line - 1e-9) return "the edge beside the widest place";
  return "the cord groove";
}

class RestAlong {
 public:
  RestAlong(const Chain& centres, double radius) : centres_(centres), radius_(radius) {}

  double at(Point p) const { return std::max(0.0, meridian::distance_to(centres_, p) - radius_); }

  // The greatest between two arc lengths round a sample that beats its neighbours.
  Point worst_near(const Segment& segment, double low, double high) const {
    for (int i = 0; i < 60; ++i) {
      const double one = low + (high - low) / 3, two = high - (high - low) / 3;
      if (at(segment.at(one)) < at(segment.at(two)))
        low = one;
      else
        high = two;
    }
    return segment.at((low + high) / 2);
  }

 private:
  const Chain& centres_;
  double radius_;
};

struct RestSample {
  Point at;
  double rest;
};

std::vector<RestSample> rests_along(const Chain& target, const RestAlong& rest) {
  std::vector<RestSample> samples;
  const auto add = [&](Point p) { samples.push_back({p, rest.at(p)}); };
  for (const Segment& segment : target) {
    const int parts = std::clamp(static_cast<int>(segment.length() / sample_step), 8, 400);
    const double step = segment.length() / parts;
    add(segment.from());
    for (int i = 1; i < parts; ++i) {
      add(segment.at(i * step));
      if (samples.back().rest > touched) add(rest.worst_near(segment, (i - 1) * step, (i + 1) * step));
    }
    add(segment.to());
  }
  return samples;
}

}  // namespace

std::vector<Unreached> tight_corners(const Piece& piece, const Outline& outline, double radius) {
  std::vector<Unreached> places;
  RestSample worst{{}, 0};
  const auto close_run = [&] {
    if (worst.rest > least_rest) {
      const double z = form_height(piece.setup, worst.at.z);
      places.push_back({worst.at.r, z, worst.rest, corner_words(outline, z)});
    }
    worst.rest = 0;
  };
  for (const RestSample& sample : rests_along(piece.setup.target, RestAlong(piece.centres, radius))) {
    if (sample.rest <= touched) close_run();
    if (sample.rest > worst.rest) worst = sample;
  }
  close_run();
  return places;
}

std::vector<Unreached> undercuts(const Piece& piece, const Outline& outline) {
  std::vector<Unreached> places;
  for (const Bridge& bridge : piece.bridges) {
    if (bridge.depth <= least_rest) continue;
    places.push_back(
        {bridge.deepest.r, bridge.deepest.z, bridge.depth, undercut_words(outline, bridge.deepest)});
  }
  return places;
}

}  // namespace crownwright::milling
