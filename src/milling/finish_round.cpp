// Why no chord gouges. Let a chord lead from radius a to radius b, and put its ends at a / cos(h), b / cos(k)
// with h + k the angle between them. Seen along the direction that is h from the one and k from the other,
// the ends lie at just a and b, so every point of the chord is at least as far from the axis as the straight
// mean of a and b: the chord is outside the surface that the straight line in the half plane sweeps, and as
// the target falls outwards, further out is never nearer. h = k is the usual vertex; an end that must lie on
// the circle itself has h = 0, and its chord is half as long.
//
// The same in the half plane: where the curve of centres bends away, the line from place to place cuts off
// part of it, so the places are put outwards by the height of that part.
#include "milling/finish_round.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"

namespace crownwright::milling {
namespace {

using meridian::Point;

/// Of the error that chords may leave: how much round the axis and along the meridian; the rest is slack.
constexpr double share_round = 0.8, share_along = 0.15;
constexpr double push_slack = 1.1;    // on a sagitta, for bends that change between two places
constexpr double chord_slack = 1.05;  // on the least move, as vertices are put outwards
constexpr double pole_chord = 0.3;    // mm, from the pole to the first ring
constexpr int fewest_chords = 8;      // in a turn
constexpr int legs_in_turn = 4;       // each with chords of its own: near the pole the radius grows fast

struct Vertex {
  double turn = 0;  ///< turns made from the start
  double s = 0;     ///< along the cutter curve
};

/// Vertices one after the other; an exact end lies on the true curve.
struct Run {
  std::vector<Vertex> vertices;
  bool exact_start = false, exact_end = false;
};

/// The tightest bends of the centres between two places, convex and any; 0: none.
struct Bends {
  double convex = 0, any = 0;
};
Bends bends_between(const CutterCurve& curve, double from, double to) {
  Bends bends;
  for (const CutterPiece& piece : curve.pieces()) {
    if (piece.end() < from || piece.start > to) continue;
    const double bend = piece.centres.curvature();
    bends.convex = std::max(bends.convex, -bend);
    bends.any = std::max(bends.any, std::abs(bend));
  }
  return bends;
}

class RunPlacer {
 public:
  RunPlacer(const CutterCurve& curve, const Run& run) : curve_(curve), run_(run) {}

  /// Where the tip is at a vertex.
  Point tip(std::size_t i) const {
    const Vertex& vertex = run_.vertices[i];
    Point centre = curve_.centre(vertex.s);
    if (is_exact(i)) return lowered(centre);
    const Reach reach = reach_of(i);
    const double bend = bends_between(curve_, reach.from, reach.to).convex;
    if (bend > 0) {
      using namespace meridian;
      centre = centre + push_slack * bend * reach.along * reach.along / 8 * normal(vertex.s);
    }
    centre.r /= std::cos(pi * reach.round);
    return lowered(centre);
  }
  double angle(std::size_t i) const { return -2 * pi * run_.vertices[i].turn; }

 private:
  /// Of both chords at a vertex: the longer turn and the longer advance (twice that of a chord to an exact
  /// end), and what part of the curve they cover.
  struct Reach {
    double round = 0, along = 0, from, to;
  };

  bool is_exact(std::size_t i) const {
    return (i == 0 && run_.exact_start) || (i + 1 == run_.vertices.size() && run_.exact_end);
  }

  Reach reach_of(std::size_t i) const {
    const Vertex& here = run_.vertices[i];
    Reach reach{0, 0, here.s, here.s};
    const auto add = [&](std::size_t other) {
      const Vertex& there = run_.vertices[other];
      const double whole = is_exact(other) ? 2 : 1;
      reach.round = std::max(reach.round, whole * std::abs(there.turn - here.turn));
      reach.along = std::max(reach.along, whole * std::abs(there.s - here.s));
      reach.from = std::min(reach.from, there.s);
      reach.to = std::max(reach.to, there.s);
    };
    if (i > 0) add(i - 1);
    if (i + 1 < run_.vertices.size()) add(i + 1);
    return reach;
  }

  /// At a corner the vector that leads out by one along the normals of both sides.
  Point normal(double s) const {
    using namespace meridian;
    const CutterPiece& piece = curve_.piece_at(s);
    const Point after = piece.centres.normal_at(s - piece.start);
    if (s > piece.start || piece.start == 0) return after;
    const Segment& last = (&piece - 1)->centres;
    const Point before = last.normal_at(last.length());
    return (1 / (1 + dot(before, after))) * (before + after);
  }
  Point lowered(Point centre) const { return {centre.r, centre.z - curve_.radius()}; }

  const CutterCurve& curve_;
  const Run& run_;
};

class RoundBuilder {
 public:
  RoundBuilder(const CutterCurve& curve, const ChordRoom& room, double feed)
      : curve_(curve), room_(room), feed_(feed) {}

  void begin(double s) { run_.vertices.push_back({0, s}); }

  /// From the pole straight out to the first ring. The pole is touched, not passed at a distance, so the
  /// first chord is level, and short.
  void out_from_pole(double ring, bool exact_end) {
    run_.exact_start = true;
    run_.exact_end = exact_end;
    const double first = chord_slack * room_.least_move, rest = ring - first;
    if (rest >= first) {
      const double bend = bends_between(curve_, 0, ring).convex;
      const double flat = bend > 0 ? std::sqrt(8 * share_along * room_.error / bend) : pole_chord;
      const int count = static_cast<int>(
          std::clamp(std::ceil(rest / std::min(pole_chord, flat)), 1.0, std::floor(rest / first)));
      for (int i = 0; i < count; ++i) run_.vertices.push_back({0, first + rest * i / count});
    }
    run_.vertices.push_back({0, ring});
  }

  void closed_turn(double s, bool before_wall, bool after_wall) {
    if (after_wall || before_wall)
      circle(s);
    else
      chords(s, s, 1, 0, false, [s](double) { return s; });
  }

  void spiral(const FinishStretch& stretch, bool before_wall) {
    const int legs = std::max(1, static_cast<int>(stretch.turns * legs_in_turn));
    const double each = stretch.turns / legs;
    for (int leg = 0; leg < legs; ++leg) {
      const double done = leg * each;
      const double from = stretch.at(done), to = leg + 1 == legs ? stretch.to : stretch.at(done + each);
      chords(from, to, each, stretch.fastest, before_wall && leg + 1 == legs,
             [&](double turn) { return stretch.at(done + turn); });
    }
  }

  void helix(const FinishStretch& stretch) {
    const int halves = 2 * static_cast<int>(stretch.turns);
    for (int i = 1; i <= halves; ++i) half_circle(stretch.from + (stretch.to - stretch.from) * i / halves);
  }

  FinishRound take() && {
    flush();
    return std::move(done_);
  }

 private:
  /// A leg of chords, each turning by the same angle, but half of it to an end that is exact.
  template <class Place>
  void chords(double from, double to, double turns, double fastest, bool exact_end, Place place) {
    const bool exact_start = run_.vertices.size() == 1 && run_.exact_start;
    const double halves = (exact_start ? 0.5 : 0) + (exact_end ? 0.5 : 0);
    const int count = chord_count(from, to, turns, fastest, halves);
    const double each = turns / (count - halves), first = exact_start ? each / 2 : each;
    const double begun = run_.vertices.back().turn;
    for (int i = 1; i < count; ++i) {
      const double turn = first + (i - 1) * each;
      run_.vertices.push_back({begun + turn, place(turn)});
    }
    run_.vertices.push_back({begun + turns, to});
    if (exact_end) {
      run_.exact_end = true;
      flush();
    }
  }

  /// Chords of a leg: as many as the error asks for, but no shorter than they may be.
  int chord_count(double from, double to, double turns, double fastest, double halves) const {
    const Range radii = radii_between(from, to);
    const double round = std::acos(1 / (1 + share_round * room_.error / radii.most)) / pi;
    double widest = std::min(round, 1.0 / fewest_chords);
    if (const double bend = bends_between(curve_, from, to).any; bend > 0 && fastest > 0)
      widest = std::min(widest, std::sqrt(8 * share_along * room_.error / (push_slack * bend)) / fastest);
    const double shortest = (halves > 0 ? 2 : 1) * chord_slack * room_.least_move / (2 * pi * radii.least);
    const double asked = std::ceil(turns / widest + halves), most = std::floor(turns / shortest + halves);
    return std::max(1 + static_cast<int>(2 * halves), static_cast<int>(std::min(asked, most)));
  }

  struct Range {
    double least, most;
  };
  /// The centres' r never falls by more than rounding.
  Range radii_between(double from, double to) const {
    const double a = curve_.centre(from).r, b = curve_.centre(to).r;
    return {std::max(std::min(a, b), 1e-6), std::max({a, b, 1e-6})};
  }

  void circle(double s) {
    half_circle(s);
    half_circle(s);
  }

  /// Half a turn on from the last vertex, which lies on the circle itself.
  void half_circle(double s) {
    flush();
    Vertex& vertex = run_.vertices.front();
    vertex.turn += 0.5;
    vertex.s = s;
    Move move = line_to(RunPlacer(curve_, run_).tip(0), -2 * pi * vertex.turn);
    move.kind = MoveKind::arc_cw;
    done_.moves.push_back(move);
  }

  /// Writes down the run and begins the next one at its end.
  void flush() {
    const RunPlacer placer(curve_, run_);
    if (!begun_) done_.start = line_to(placer.tip(0), placer.angle(0));
    begun_ = true;
    for (std::size_t i = 1; i < run_.vertices.size(); ++i)
      done_.moves.push_back(line_to(placer.tip(i), placer.angle(i)));
    run_ = {{run_.vertices.back()}, true, false};
  }

  Move line_to(Point tip, double angle) const {
    return {MoveKind::line, tip.r * std::cos(angle), tip.r * std::sin(angle), tip.z, 0, 0, feed_};
  }

  const CutterCurve& curve_;
  ChordRoom room_;
  double feed_;
  Run run_;
  FinishRound done_;
  bool begun_ = false;
};

}  // namespace

FinishRound finish_round(const CutterCurve& curve, const FinishTurns& turns, const ChordRoom& room,
                         double feed) {
  RoundBuilder builder(curve, room, feed);
  builder.begin(turns.begin);
  if (turns.begin < turns.first)
    builder.out_from_pole(turns.first, !turns.stretches.empty() && turns.stretches.front().wall);
  bool after_wall = false;
  double s = turns.first;
  for (const FinishStretch& stretch : turns.stretches) {
    builder.closed_turn(s, stretch.wall, after_wall);
    if (stretch.wall)
      builder.helix(stretch);
    else {
      const bool more = &stretch != &turns.stretches.back();
      builder.spiral(stretch, more && (&stretch + 1)->wall);
    }
    after_wall = stretch.wall;
    s = stretch.to;
  }
  builder.closed_turn(s, false, after_wall);
  return std::move(builder).take();
}

}  // namespace crownwright::milling
