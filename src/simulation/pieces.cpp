#include "simulation/pieces.h"

#include <algorithm>
#include <cmath>

namespace crownwright::simulation {
namespace {

constexpr double most_arc = 0.5;  // radians a piece: keeps the cells that it looks at near the arc

bool is_straight(const Stroke& stroke) {
  return stroke.motion == Motion::rapid || stroke.motion == Motion::feed;
}

void line_pieces(Tip from, const Stroke& stroke, const std::function<void(const Piece&)>& take) {
  const double count = std::max(1.0, std::ceil(length_of(from, stroke) / longest_piece));
  const auto at = [&](double share) {
    if (share >= 1) return Tip{stroke.x, stroke.y, stroke.z};
    return Tip{from.x + share * (stroke.x - from.x), from.y + share * (stroke.y - from.y),
               from.z + share * (stroke.z - from.z)};
  };
  for (double i = 0; i < count; ++i) take(LinePiece{at(i / count), at((i + 1) / count)});
}

struct Round {
  double r0, r1, start;
};
Round round_of(Tip from, const Stroke& stroke) {
  return {std::hypot(from.x - stroke.cx, from.y - stroke.cy),
          std::hypot(stroke.x - stroke.cx, stroke.y - stroke.cy),
          std::atan2(from.y - stroke.cy, from.x - stroke.cx)};
}

void arc_pieces(Tip from, const Stroke& stroke, const std::function<void(const Piece&)>& take) {
  const Round round = round_of(from, stroke);
  // The two radii of a written arc differ by its rounding.
  const double radius = (round.r0 + round.r1) / 2;
  const double most = std::min(most_arc, longest_piece / std::max(radius, 1e-9));
  const double count = std::max(1.0, std::ceil(std::abs(stroke.turn) / most));
  for (double i = 0; i < count; ++i)
    take(ArcPiece{stroke.cx, stroke.cy, radius, round.start + stroke.turn * (i / count), stroke.turn / count,
                  from.z});
}

void helix_pieces(Tip from, const Stroke& stroke, const std::function<void(const Piece&)>& take) {
  const Round round = round_of(from, stroke);
  const double sag = helix_chord / std::max(round.r0, round.r1);
  const double most = sag < 0.03 ? 2 * std::acos(1 - sag) : most_arc;
  const double count = std::max(1.0, std::ceil(std::abs(stroke.turn) / std::min(most, most_arc)));
  Tip last = from;
  for (double i = 1; i <= count; ++i) {
    const double share = i / count, angle = round.start + share * stroke.turn;
    const double radius = round.r0 + share * (round.r1 - round.r0);
    Tip next{stroke.cx + radius * std::cos(angle), stroke.cy + radius * std::sin(angle),
             from.z + share * (stroke.z - from.z)};
    if (i == count) next = {stroke.x, stroke.y, stroke.z};
    take(LinePiece{last, next});
    last = next;
  }
}

}  // namespace

void for_pieces(Tip from, const Stroke& stroke, const std::function<void(const Piece&)>& take) {
  if (is_straight(stroke)) return line_pieces(from, stroke, take);
  if (from.z == stroke.z) return arc_pieces(from, stroke, take);
  helix_pieces(from, stroke, take);
}

double length_of(Tip from, const Stroke& stroke) {
  if (is_straight(stroke)) return std::hypot(stroke.x - from.x, stroke.y - from.y, stroke.z - from.z);
  const Round round = round_of(from, stroke);
  return std::hypot(std::abs(stroke.turn) * (round.r0 + round.r1) / 2, stroke.z - from.z);
}

double length_of(const Piece& piece) {
  if (const auto* arc = std::get_if<ArcPiece>(&piece)) return arc->radius * std::abs(arc->turn);
  const auto& line = std::get<LinePiece>(piece);
  return std::hypot(line.to.x - line.from.x, line.to.y - line.from.y, line.to.z - line.from.z);
}

double lowest_tip_of(const Piece& piece) {
  if (const auto* arc = std::get_if<ArcPiece>(&piece)) return arc->z;
  const auto& line = std::get<LinePiece>(piece);
  return std::min(line.from.z, line.to.z);
}

bool dives(const Piece& piece) {
  const auto* line = std::get_if<LinePiece>(&piece);
  return line != nullptr &&
         line->from.z - line->to.z > std::hypot(line->to.x - line->from.x, line->to.y - line->from.y);
}

bool rises_straight(const Piece& piece) {
  const auto* line = std::get_if<LinePiece>(&piece);
  return line != nullptr && line->to.x == line->from.x && line->to.y == line->from.y;
}

}  // namespace crownwright::simulation
