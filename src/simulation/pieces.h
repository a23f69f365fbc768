#pragma once
// A move in short pieces: straight ones and level arcs. Helices become chords.

#include <functional>
#include <variant>

#include "simulation/height_map.h"
#include "simulation/lowest_arc.h"
#include "simulation/ngc_reader.h"

namespace crownwright::simulation {

struct LinePiece {
  Tip from, to;
};
struct ArcPiece {
  double cx = 0, cy = 0, radius = 0, start = 0, turn = 0, z = 0;
};
using Piece = std::variant<LinePiece, ArcPiece>;

constexpr double longest_piece = 10;    ///< mm: what is air and what is cut is told piece by piece
constexpr double helix_chord = 0.0005;  ///< mm between a helix and its chords

/// Every piece of the stroke that starts at `from`, in order.
void for_pieces(Tip from, const Stroke& stroke, const std::function<void(const Piece&)>& take);

/// Way of the tip, mm.
double length_of(Tip from, const Stroke& stroke);
double length_of(const Piece& piece);

double lowest_tip_of(const Piece& piece);
/// Goes down more steeply than 45 degrees.
bool dives(const Piece& piece);
/// Goes straight up.
bool rises_straight(const Piece& piece);

}  // namespace crownwright::simulation
