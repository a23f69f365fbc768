#include "milling/finish.h"

#include <algorithm>
#include <cmath>

#include "milling/finish_curve.h"
#include "milling/finish_round.h"
#include "milling/finish_turns.h"

namespace crownwright::milling {
namespace {

/// Chords may stand off by no more than this share of the cusp, or fine orders would be spent on them.
constexpr double chord_share = 0.1;
/// Of the cusp, kept for what the chords shift along the surface.
constexpr double cusp_slack = 0.01;
/// mm above the stock that roughing leaves: so far goes the rapid down.
constexpr double finish_approach = 0.5;

double chord_error(const Job& job) { return std::min(finish_chord_error, chord_share * job.scallop); }

/// The middle of the ball first stands over the pole, or over the edge of a face that is not cut.
double beginning(const Setup& setup, const CutterCurve& curve) {
  return setup.top_is_face ? curve.pieces().front().end() : 0;
}

FinishLimits limits_of(const Setup& setup, const Job& job, const FinishCurve& finish) {
  FinishLimits limits;
  limits.cusp = job.scallop * (1 - cusp_slack) - chord_error(job);
  limits.step_down = job.step_down;
  limits.begin = beginning(setup, finish.curve);
  limits.end = finish.end;
  return limits;
}

/// How high stock may stand over the target's top when roughing is done: its rings are a step-over apart, and
/// between the rings of a ball there are cusps.
double stock_left_above(const Setup& setup, const Job& job) {
  const double R = job.rough.radius(), half = std::min(job.step_over / 2, R);
  const double cusp = job.rough.shape == ToolShape::ball ? R - std::sqrt(R * R - half * half) : 0;
  return std::min(setup.stock.z1, setup.target.front().from().z + job.leave + cusp);
}

}  // namespace

Path finish_path(const Setup& setup, const Job& job) {
  const FinishCurve finish = finish_curve(setup, job.finish.radius());
  const FinishTurns turns = finish_turns(finish.curve, limits_of(setup, job, finish));
  const FinishRound round =
      finish_round(finish.curve, turns, {chord_error(job), least_move}, job.finish_feeds.cut);
  const Move& start = round.start;
  Path path;
  path.push_back({MoveKind::rapid, start.x, start.y, setup.safe});
  path.push_back({MoveKind::rapid, start.x, start.y, setup.safe});
  const double near = std::min(setup.safe, stock_left_above(setup, job) + finish_approach);
  path.push_back({MoveKind::rapid, start.x, start.y, near});
  path.push_back({MoveKind::line, start.x, start.y, start.z, 0, 0, job.finish_feeds.plunge});
  path.insert(path.end(), round.moves.begin(), round.moves.end());
  // Straight up a tool goes through nothing but the room it stands in already, on slopes too.
  const Move& last = path.back();
  path.push_back({MoveKind::rapid, last.x, last.y, setup.safe});
  return path;
}

}  // namespace crownwright::milling
