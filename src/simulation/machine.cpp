#include "simulation/machine.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"

namespace crownwright::simulation {
namespace {

constexpr double something = 1e-6;  // mm: a cell lowered by no more was not cut
constexpr double touch = 0.005;     // mm: holder and flute, as rapids
constexpr double written = 1e-4;    // mm: the last decimal of a program

const Stroke nowhere{Motion::rapid, 0, 0, 0, 0, 0, 0, 0, 0, false, false, false};

Tip tip_of(const Stroke& stroke) { return {stroke.x, stroke.y, stroke.z}; }
bool is_known(const Stroke& stroke) { return stroke.known_x && stroke.known_y && stroke.known_z; }
std::string mm_text(double mm) { return number_text(mm, 3) + " mm"; }

}  // namespace

Machine::Machine(const Bench& bench, const Limits& limits, double cell, Findings& findings)
    : bench_(bench),
      limits_(limits),
      findings_(findings),
      map_(bench.stock, cell),
      standing_(map_),
      lowest_tip_(out_of_reach),
      lowest_drill_(out_of_reach) {}

void Machine::note(Trouble kind, const std::string& words) {
  FirstLine& first = findings_.first[static_cast<std::size_t>(kind)];
  if (!first.place.empty()) return;
  first.place = cut_->name + ":" + std::to_string(line_);
  first.words = words;
}

void Machine::run(const Cut& cut) {
  cut_ = &cut;
  dive_ = 0;
  Stroke before = nowhere;
  for (const Stroke& stroke : cut.program.strokes) {
    line_ = stroke.line;
    look_for_blind(before, stroke);
    note_extent(before, stroke);
    if (is_known(stroke)) run_stroke(before, stroke);
    before = stroke;
  }
}

// Straight up to a safe height is how a program may begin; anything else from an unknown place is blind.
void Machine::look_for_blind(const Stroke& before, const Stroke& stroke) {
  const bool sideways = (stroke.known_x && (!before.known_x || stroke.x != before.x)) ||
                        (stroke.known_y && (!before.known_y || stroke.y != before.y)) || stroke.turn != 0;
  const bool height_unknown = sideways && !before.known_z;
  const bool place_unknown =
      (!before.known_x || !before.known_y) && stroke.known_z && stroke.z < bench_.stock.z1;
  if (!height_unknown && !place_unknown) return;
  findings_.blind_moves = true;
  note(Trouble::blind, height_unknown ? "moves sideways before its height is known"
                                      : "goes below the stock's top before its x and y are known");
}

void Machine::note_extent(const Stroke& before, const Stroke& stroke) {
  extent_.widen(tip_of(before), stroke);
  const double travel[3] = {limits_.travel_x, limits_.travel_y, limits_.travel_z};
  const Trouble kinds[3] = {Trouble::travel_x, Trouble::travel_y, Trouble::travel_z};
  for (int axis = 0; axis < 3; ++axis) {
    if (extent_.span(axis) > travel[axis] + written)
      note(kinds[axis],
           std::string("all moves so far span ") + mm_text(extent_.span(axis)) + " along " + "xyz"[axis]);
  }
  if (!stroke.known_z) return;
  const bool drill = cut_->cutter.kind == Cutter::Kind::drill;
  double& lowest = drill ? lowest_drill_ : lowest_tip_;
  lowest = std::min(lowest, stroke.z);
  if (lowest < (drill ? limits_.lowest_drill : limits_.lowest) - written)
    note(Trouble::depth, std::string("the tip goes down to z = ") + mm_text(lowest));
}

void Machine::run_stroke(const Stroke& before, const Stroke& stroke) {
  // From an unknown place only the end of the move can be cut.
  if (!is_known(before)) {
    run_piece(LinePiece{tip_of(stroke), tip_of(stroke)});
    return;
  }
  double deepest = 0;
  for_pieces(tip_of(before), stroke, [&](const Piece& piece) {
    const double depth = run_piece(piece);
    deepest = std::max(deepest, depth);
    count_length(stroke, piece, depth);
  });
  if (stroke.motion != Motion::rapid || deepest <= limits_.rapid_cut) return;
  ++findings_.rapids_in_stock;
  note(Trouble::rapid, std::string("a rapid cuts ") + mm_text(deepest) + " into the stock");
}

void Machine::count_length(const Stroke& stroke, const Piece& piece, double depth) {
  const bool cuts = stroke.motion != Motion::rapid && depth > something;
  (cuts ? findings_.cutting_mm : findings_.air_mm) += length_of(piece);
}

/// How deep it cuts.
double Machine::run_piece(const Piece& piece) {
  look_for_holder(piece);
  look_for_plunge(piece);
  if (lowest_tip_of(piece) >= bench_.stock.z1) return 0;
  const bool drill = cut_->cutter.kind == Cutter::Kind::drill;
  if (drill) {
    const double stray = depth_outside(map_, cut_->cutter, piece, bench_.bores);
    findings_.bore_strays = std::max(findings_.bore_strays, stray);
    if (stray > limits_.gouge)
      note(Trouble::stray, std::string("the drill cuts ") + mm_text(stray) + " outside the bores");
  }
  Bite bite = cut(map_, cut_->cutter, piece);
  if (drill) look_at_drill(piece, bite);
  findings_.above_flute = std::max(findings_.above_flute, bite.above_flute);
  if (bite.above_flute > touch)
    note(Trouble::flute,
         std::string("cuts ") + mm_text(bite.above_flute) + " above the tool's cutting edges");
  return bite.depth;
}

void Machine::look_at_drill(const Piece& piece, const Bite& bite) {
  if (bite.depth <= something || !std::holds_alternative<LinePiece>(piece)) return;
  const double over = rim_above_flute(map_, cut_->cutter, piece);
  findings_.above_flute = std::max(findings_.above_flute, over);
  if (over > touch)
    note(Trouble::flute, std::string("the hole is ") + mm_text(over) + " deeper than the drill's flute");
}

// Against what stood before this piece: a holder wider than the cutter comes over a place before the cutter
// does.
void Machine::look_for_holder(const Piece& piece) {
  const Cutter& cutter = cut_->cutter;
  const double radius = cutter.holder / 2, lowest = lowest_tip_of(piece) + cutter.stick_out;
  if (!(radius > 0) || lowest >= bench_.stock.z1) return;
  Extent box;
  if (const auto* line = std::get_if<LinePiece>(&piece)) {
    for (const Tip& tip : {line->from, line->to}) {
      box.widen(0, tip.x);
      box.widen(1, tip.y);
    }
  } else {
    const auto& arc = std::get<ArcPiece>(piece);
    const ArcWay way(arc.cx, arc.cy, arc.radius, arc.start, arc.turn);
    for (const double side : {-way.bulge(), way.bulge()}) {
      box.widen(0, way.ax + side);
      box.widen(0, way.bx + side);
      box.widen(1, way.ay + side);
      box.widen(1, way.by + side);
    }
  }
  if (!standing_.above(map_, box.low[0] - radius, box.low[1] - radius, box.high[0] + radius,
                       box.high[1] + radius, lowest))
    return;
  const double depth = depth_into_cylinder(map_, piece, radius, cutter.stick_out);
  findings_.holder_contact = std::max(findings_.holder_contact, depth);
  if (depth > touch)
    note(Trouble::holder, std::string("the holder goes ") + mm_text(depth) + " into what stands");
}

void Machine::look_for_plunge(const Piece& piece) {
  if (cut_->cutter.kind == Cutter::Kind::drill) return;
  if (!dives(piece)) {
    if (!rises_straight(piece)) dive_ = 0;
    return;
  }
  dive_ += depth_in_the_middle(map_, cut_->cutter, piece);
  findings_.deepest_plunge = std::max(findings_.deepest_plunge, dive_);
  if (dive_ > limits_.plunge)
    note(Trouble::plunge, std::string("goes ") + mm_text(dive_) + " straight down into the stock");
}

void Machine::finish() {
  for (int axis = 0; axis < 3; ++axis) {
    findings_.low[axis] = extent_.known(axis) ? extent_.low[axis] : 0;
    findings_.high[axis] = extent_.known(axis) ? extent_.high[axis] : 0;
  }
  findings_.lowest_tip = lowest_tip_ < out_of_reach ? lowest_tip_ : 0;
  findings_.lowest_drill = lowest_drill_ < out_of_reach ? lowest_drill_ : 0;
}

}  // namespace crownwright::simulation
