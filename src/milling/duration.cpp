#include "milling/duration.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "milling/arcs.h"

namespace crownwright::milling {
namespace {

struct Direction {
  double x = 0, y = 0, z = 0;
};

/// A move that takes time.
struct Leg {
  double length = 0;
  double top = 0;         ///< mm/s, no faster
  Direction first, last;  ///< which way it begins and ends
  double enter = 0;       ///< mm/s
};

Direction along(double x, double y, double z) {
  const double length = std::hypot(x, y, z);
  return {x / length, y / length, z / length};
}

Leg arc_leg(const Move& from, const Move& arc, const MachinePace& pace) {
  const double radius = std::hypot(from.x - arc.cx, from.y - arc.cy), turn = turn_of(from, arc);
  const double flat = radius * std::abs(turn), rise = arc.z - from.z;
  Leg leg;
  leg.length = std::hypot(flat, rise);
  leg.top = std::min(arc.feed / 60, std::sqrt(pace.accel * radius));
  // Square to the radius, to the side it turns to.
  const double side = (turn < 0 ? -1 : 1) * flat / radius;
  leg.first = along(-(from.y - arc.cy) * side, (from.x - arc.cx) * side, rise);
  leg.last = along(-(arc.y - arc.cy) * side, (arc.x - arc.cx) * side, rise);
  return leg;
}

Leg straight_leg(const Move& from, const Move& to, const MachinePace& pace) {
  const double x = to.x - from.x, y = to.y - from.y, z = to.z - from.z;
  Leg leg;
  leg.length = std::hypot(x, y, z);
  leg.top = (to.kind == MoveKind::rapid ? pace.rapid : to.feed) / 60;
  if (leg.length > 0) leg.first = leg.last = along(x, y, z);
  return leg;
}

Leg leg_of(const Move& from, const Move& to, const MachinePace& pace) {
  const bool turns = is_arc(to.kind) && (to.x != from.x || to.y != from.y);
  return turns ? arc_leg(from, to, pace) : straight_leg(from, to, pace);
}

// With |a + b| = 2 sin(h) and |a - b| = 2 cos(h), 1 - sin(h) is told without loss for nearly straight
// corners.
double corner_speed(const Leg& before, const Leg& after, const MachinePace& pace) {
  constexpr double straight = 1e-12;  // of 1 - sin(h): a bend by 0.00016 degrees is none
  const Direction &a = before.last, &b = after.first;
  const double sine = std::hypot(a.x + b.x, a.y + b.y, a.z + b.z) / 2;
  const double cosine = std::hypot(a.x - b.x, a.y - b.y, a.z - b.z) / 2;
  const double rest = cosine * cosine / (1 + sine);
  if (rest < straight) return std::numeric_limits<double>::infinity();
  return std::sqrt(pace.accel * pace.junction_deviation * sine / rest);
}

// What is left when a speed is lost, or won, over the whole leg.
double reached(double speed, const Leg& leg, double accel) {
  return std::sqrt(speed * speed + 2 * accel * leg.length);
}

void set_corners(std::vector<Leg>& legs, const MachinePace& pace) {
  for (std::size_t i = 1; i < legs.size(); ++i) {
    legs[i].enter = std::min({legs[i - 1].top, legs[i].top, corner_speed(legs[i - 1], legs[i], pace)});
  }
}

// No corner is passed faster than one can slow down from, nor than one can have got up to.
void look_ahead(std::vector<Leg>& legs, double accel) {
  double after = 0;
  for (std::size_t i = legs.size(); i-- > 0;) {
    legs[i].enter = std::min(legs[i].enter, reached(after, legs[i], accel));
    after = legs[i].enter;
  }
  for (std::size_t i = 1; i < legs.size(); ++i) {
    legs[i].enter = std::min(legs[i].enter, reached(legs[i - 1].enter, legs[i - 1], accel));
  }
}

// Up from `enter`, along at the top, down to `leave`; without the middle where the leg is too short.
double seconds_of(const Leg& leg, double leave, double accel) {
  const double ends = (leg.enter * leg.enter + leave * leave) / 2;
  const double top = std::min(leg.top, std::sqrt(accel * leg.length + ends));
  const double ramps = (top * top - ends) / accel;
  return (2 * top - leg.enter - leave) / accel + std::max(0.0, leg.length - ramps) / top;
}

}  // namespace

Duration duration_of(const Path& path, const MachinePace& pace) {
  Duration all;
  std::vector<Leg> legs;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Leg leg = leg_of(path[i - 1], path[i], pace);
    if (leg.length <= 0) continue;
    all.path_mm += leg.length;
    if (path[i].kind == MoveKind::rapid) all.rapid_mm += leg.length;
    legs.push_back(leg);
  }
  set_corners(legs, pace);
  look_ahead(legs, pace.accel);
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const double leave = i + 1 < legs.size() ? legs[i + 1].enter : 0;
    all.seconds += seconds_of(legs[i], leave, pace.accel);
  }
  return all;
}

}  // namespace crownwright::milling
