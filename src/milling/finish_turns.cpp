// If the first turn of a stretch goes from its start to the place next(start) that leaves just the cusp, in
// any way that rises, and every later turn goes at each azimuth to next() of the turn before, then the cusp
// is met at every azimuth and the turns join without a step. next() is taken at knots; as it never falls, a
// turn that lags one knot behind it is safe between the knots too. Laying rings and slanting from one to the
// next is the cheap way: it is wrong wherever the step changes from turn to turn. On one line or arc next()
// is the law of milling/scallop.h; where it leads across a joint, the place is sought at which the two
// circles' crossing stands just so high over the target.
#include "milling/finish_turns.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "meridian/plane.h"
#include "meridian/root.h"
#include "milling/scallop.h"

namespace crownwright::milling {
namespace {

constexpr double least_wall = 1e-3;      // mm; a shorter wall is a joint
constexpr double least_stretch = 1e-6;   // mm between closed turns
constexpr double sharp = 0.01;           // radians that make a hollow joint a corner
constexpr double least_ring = 0.25;      // mm from the pole to a closed turn
constexpr double least_advance = 0.005;  // mm a turn: bounds the number of turns
constexpr double least_turns = 0.25;     // between closed turns, so that no move gets too short

class Stepper {
 public:
  Stepper(const CutterCurve& curve, const FinishLimits& limits)
      : curve_(curve), limits_(limits), flat_step_(surface_step(curve.radius(), 0, limits.cusp)) {
    for (const CutterPiece& piece : curve.pieces()) law_steps_.push_back(law_step(piece));
  }

  /// The furthest place that leaves no more than the cusp and lies no more than the step down lower.
  double next(double s) const { return no_lower(s, std::max(by_cusp(s), s + least_advance)); }

  double flat_step() const { return flat_step_; }
  /// The most to go on from knot to knot; to lag is safe.
  double knot_step() const { return std::max(limits_.step_down, 3 * flat_step_) / finish_knots; }

 private:
  double by_cusp(double s) const {
    const CutterPiece& piece = curve_.piece_at(s);
    const auto place = static_cast<std::size_t>(&piece - curve_.pieces().data());
    const double by_law = s + law_steps_[place];
    if (by_law <= piece.end()) return by_law;
    const auto too_high = [&](double to) { return curve_.cusp(s, to) - limits_.cusp; };
    const double met = meridian::rising_root(too_high, s, curve_.length());
    return met < curve_.length() ? met : std::max(met, std::min(by_law, met + flat_step_));
  }

  double no_lower(double s, double to) const {
    const double lowest = curve_.centre(s).z - limits_.step_down;
    if (curve_.centre(to).z >= lowest) return to;
    return meridian::rising_root([&](double at) { return lowest - curve_.centre(at).z; }, s, to);
  }

  /// Along the cutter curve, as if the piece went on for ever.
  double law_step(const CutterPiece& piece) const {
    if (piece.corner || piece.upright) return std::numeric_limits<double>::infinity();
    const double surface = surface_step(curve_.radius(), piece.curvature, limits_.cusp);
    return surface * (1 - piece.curvature * curve_.radius());
  }

  const CutterCurve& curve_;
  const FinishLimits& limits_;
  double flat_step_;
  std::vector<double> law_steps_;
};

struct Wall {
  double from, to;
};

std::vector<Wall> walls_of(const CutterCurve& curve, const FinishLimits& limits) {
  std::vector<Wall> walls;
  for (const CutterPiece& piece : curve.pieces()) {
    const double from = std::max(piece.start, limits.begin), to = std::min(piece.end(), limits.end);
    if (!piece.upright || to <= from) continue;
    if (!walls.empty() && walls.back().to == from)
      walls.back().to = to;
    else
      walls.push_back({from, to});
  }
  std::erase_if(walls, [](const Wall& wall) { return wall.to - wall.from < least_wall; });
  return walls;
}

/// Does the ball roll round an edge so sharp that one pass would do for it? Of the target it is no longer
/// than half a step, of the curve longer.
bool is_edge(const CutterPiece& piece, double radius, double flat_step) {
  const double along = piece.centres.length(), turned = -piece.centres.turn();
  return turned > 0 && along > flat_step / 2 && along - radius * turned < flat_step / 2;
}

/// Hollow corners and both ends of sharp edges.
std::vector<double> corners_of(const CutterCurve& curve, double flat_step) {
  using namespace meridian;
  std::vector<double> corners;
  for (const CutterPiece& piece : curve.pieces())
    if (is_edge(piece, curve.radius(), flat_step)) {
      corners.push_back(piece.start);
      corners.push_back(piece.end());
    }
  for (std::size_t i = 1; i < curve.pieces().size(); ++i) {
    const Segment &before = curve.pieces()[i - 1].centres, &after = curve.pieces()[i].centres;
    if (cross(before.tangent_at(before.length()), after.tangent_at(0)) > sharp)
      corners.push_back(curve.pieces()[i].start);
  }
  return corners;
}

double fastest_of(const FinishStretch& stretch) {
  double fastest = stretch.knots.empty() ? (stretch.to - stretch.from) / stretch.turns : 0;
  for (std::size_t i = 1; i < stretch.knots.size(); ++i)
    fastest = std::max(fastest, (stretch.knots[i] - stretch.knots[i - 1]) * finish_knots);
  return fastest;
}

FinishStretch stretch_between(double from, double to) {
  FinishStretch stretch;
  stretch.from = from;
  stretch.to = to;
  return stretch;
}

FinishStretch wall_stretch(const Wall& wall, double step) {
  FinishStretch stretch = stretch_between(wall.from, wall.to);
  stretch.wall = true;
  stretch.turns = std::max(1.0, std::ceil((wall.to - wall.from) / step - 1e-9));
  return stretch;
}

FinishStretch spiral_stretch(const Stepper& stepper, double from, double to) {
  FinishStretch stretch = stretch_between(from, to);
  const double first = stepper.next(from);
  std::vector<double>& knots = stretch.knots;
  for (std::size_t i = 0; knots.empty() || knots.back() < to; ++i)
    if (i <= finish_knots)
      knots.push_back(from + (first - from) * static_cast<double>(i) / finish_knots);
    else
      knots.push_back(std::clamp(stepper.next(knots[i - finish_knots - 1]), knots.back(),
                                 knots.back() + stepper.knot_step()));
  const double last = knots.back(), before = knots[knots.size() - 2];
  const double share = (to - before) / (last - before);
  stretch.turns = (static_cast<double>(knots.size() - 2) + share) / finish_knots;
  if (stretch.turns < least_turns) {
    stretch.turns = least_turns;
    knots.clear();
  }
  stretch.fastest = fastest_of(stretch);
  return stretch;
}

/// The places of closed turns after the first, in order.
std::vector<double> stops_of(const CutterCurve& curve, const std::vector<Wall>& walls, double flat_step,
                             const FinishLimits& limits) {
  std::vector<double> stops = corners_of(curve, flat_step);
  for (const Wall& wall : walls) {
    stops.push_back(wall.from);
    stops.push_back(wall.to);
  }
  stops.push_back(limits.end);
  std::sort(stops.begin(), stops.end());
  return stops;
}

}  // namespace

double FinishStretch::at(double turn) const {
  if (turn <= 0) return from;
  if (turn >= turns) return to;
  if (knots.empty()) return from + (to - from) * turn / turns;
  const double place = turn * finish_knots;
  const auto before = std::min(static_cast<std::size_t>(place), knots.size() - 2);
  const double share = place - static_cast<double>(before);
  return std::min(to, knots[before] + share * (knots[before + 1] - knots[before]));
}

FinishTurns finish_turns(const CutterCurve& curve, const FinishLimits& limits) {
  const Stepper stepper(curve, limits);
  const std::vector<Wall> walls = walls_of(curve, limits);
  const std::vector<double> stops = stops_of(curve, walls, stepper.flat_step(), limits);
  FinishTurns turns;
  turns.begin = limits.begin;
  const auto stop_after = [&](double s) {
    return std::find_if(stops.begin(), stops.end(), [&](double stop) { return stop > s + least_stretch; });
  };
  double from = limits.begin;
  if (from == 0) {
    const auto stop = stop_after(least_ring);
    from = std::min({stepper.next(0), limits.end, stop == stops.end() ? limits.end : *stop});
  }
  turns.first = from;
  for (auto stop = stop_after(from); stop != stops.end() && *stop <= limits.end; stop = stop_after(from)) {
    const auto wall = std::find_if(walls.begin(), walls.end(), [&](const Wall& one) {
      return one.from <= from + least_stretch && one.to >= *stop - least_stretch;
    });
    turns.stretches.push_back(wall != walls.end() ? wall_stretch({from, *stop}, limits.step_down)
                                                  : spiral_stretch(stepper, from, *stop));
    from = *stop;
  }
  return turns;
}

}  // namespace crownwright::milling
