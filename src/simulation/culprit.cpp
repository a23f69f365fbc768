#include "simulation/culprit.h"

#include <cmath>

#include "base/length.h"
#include "simulation/pieces.h"
#include "simulation/sweep.h"

namespace crownwright::simulation {
namespace {

/// A map of one cell with its middle at the place.
HeightMap map_of_one(const Bench& bench, const Judged& place) {
  constexpr double side = 0.5;
  return HeightMap(
      {place.x - side / 2, place.y - side / 2, place.x + side / 2, place.y + side / 2, bench.stock.z1}, side);
}

bool place_known(const Stroke& stroke) { return stroke.known_x && stroke.known_y && stroke.known_z; }

void cut_stroke(HeightMap& map, const Cutter& cutter, const Stroke& before, const Stroke& stroke) {
  const Tip end{stroke.x, stroke.y, stroke.z};
  if (!place_known(before)) {
    cut(map, cutter, LinePiece{end, end});
    return;
  }
  for_pieces({before.x, before.y, before.z}, stroke, [&](const Piece& piece) { cut(map, cutter, piece); });
}

}  // namespace

FirstLine first_gouge(const Bench& bench, const std::vector<Cut>& cuts, const Limits& limits,
                      const Target& target, const Judged& place) {
  HeightMap map = map_of_one(bench, place);
  const double r = std::hypot(place.x, place.y);
  for (const Cut& one : cuts) {
    Stroke before;
    before.known_x = before.known_y = before.known_z = false;
    for (const Stroke& stroke : one.program.strokes) {
      if (place_known(stroke)) cut_stroke(map, one.cutter, before, stroke);
      before = stroke;
      const double depth = -target.deviation(r, map.heights.front());
      if (depth > limits.gouge)
        return {one.name + ":" + std::to_string(stroke.line),
                std::string("cuts ") + number_text(depth, 3) + " mm into the form"};
    }
  }
  return {};
}

}  // namespace crownwright::simulation
