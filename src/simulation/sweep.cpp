#include "simulation/sweep.h"

#include <algorithm>
#include <cmath>

#include "simulation/stadium.h"

namespace crownwright::simulation {
namespace {

Stadium stadium_of(const LinePiece& line, double reach) {
  return Stadium(line.from.x, line.from.y, line.to.x, line.to.y, reach);
}

ArcWay way_of(const ArcPiece& arc) { return ArcWay(arc.cx, arc.cy, arc.radius, arc.start, arc.turn); }

/// Round the chord, as much wider as the arc bulges.
Stadium stadium_of(const ArcWay& way, double reach) {
  return Stadium(way.ax, way.ay, way.bx, way.by, reach + way.bulge());
}

/// Calls act(stadium, tool) with the closed form for a tool and a piece. `reach`: how far from the axis it
/// looks.
template <class Act>
void with_ball(const Piece& piece, double radius, double reach, Act act) {
  if (const auto* line = std::get_if<LinePiece>(&piece))
    return act(stadium_of(*line, reach), BallLine(line->from, line->to, radius));
  const auto& arc = std::get<ArcPiece>(piece);
  const ArcWay way = way_of(arc);
  act(stadium_of(way, reach), BallArc(way, arc.z, radius));
}

template <class Act>
void with_flat(const Piece& piece, double radius, double reach, Act act) {
  if (const auto* line = std::get_if<LinePiece>(&piece))
    return act(stadium_of(*line, reach), FlatLine(line->from, line->to, radius));
  const auto& arc = std::get<ArcPiece>(piece);
  const ArcWay way = way_of(arc);
  act(stadium_of(way, reach), FlatArc(way, arc.z, radius));
}

template <class Act>
void with_tool(const Piece& piece, const Cutter& cutter, double reach, Act act) {
  if (cutter.kind == Cutter::Kind::ball) return with_ball(piece, cutter.radius(), reach, act);
  with_flat(piece, cutter.radius(), reach, act);
}

}  // namespace

bool in_bore(const Bore& bore, double x, double y) {
  return std::hypot(x - bore.x, y - bore.y) <= bore.radius + bore_slack;
}

Bite cut(HeightMap& map, const Cutter& cutter, const Piece& piece) {
  Bite bite;
  const double edges_end = lowest_tip_of(piece) + cutter.flute;
  with_tool(piece, cutter, cutter.radius(), [&](const Stadium& stadium, const auto& tool) {
    for_cells(map, stadium, tool, [&](std::size_t index, double x, double y, double low) {
      double& height = map.heights[index];
      if (low >= height) return;
      bite.depth = std::max(bite.depth, height - low);
      if (height > edges_end)
        bite.above_flute = std::max(bite.above_flute, height - tool.entry(x, y) - cutter.flute);
      height = low;
    });
  });
  return bite;
}

double depth_in_the_middle(const HeightMap& map, const Cutter& cutter, const Piece& piece) {
  double depth = 0;
  const double reach = std::max(cutter.radius() / 2, 0.75 * map.cell);
  with_tool(piece, cutter, reach, [&](const Stadium& stadium, const auto& tool) {
    for_cells(map, stadium, tool, [&](std::size_t index, double, double, double low) {
      depth = std::max(depth, map.heights[index] - low);
    });
  });
  return depth;
}

double depth_outside(const HeightMap& map, const Cutter& cutter, const Piece& piece,
                     const std::vector<Bore>& bores) {
  double depth = 0;
  with_tool(piece, cutter, cutter.radius(), [&](const Stadium& stadium, const auto& tool) {
    for_cells(map, stadium, tool, [&](std::size_t index, double x, double y, double low) {
      if (low >= map.heights[index]) return;
      if (std::any_of(bores.begin(), bores.end(), [&](const Bore& bore) { return in_bore(bore, x, y); }))
        return;
      depth = std::max(depth, map.heights[index] - low);
    });
  });
  return depth;
}

double rim_above_flute(const HeightMap& map, const Cutter& drill, const Piece& piece) {
  double rim = out_of_reach;
  const double hole = drill.radius(), ring = hole + 1.5 * map.cell;
  with_flat(piece, ring, ring, [&](const Stadium& stadium, const auto& tool) {
    const auto& line = std::get<LinePiece>(piece);
    for_cells(map, stadium, tool, [&](std::size_t index, double x, double y, double) {
      if (std::hypot(x - line.to.x, y - line.to.y) > hole) rim = std::min(rim, map.heights[index]);
    });
  });
  return rim < out_of_reach ? std::max(0.0, rim - lowest_tip_of(piece) - drill.flute) : 0;
}

double depth_into_cylinder(const HeightMap& map, const Piece& piece, double radius, double up) {
  double depth = 0;
  with_flat(piece, radius, radius, [&](const Stadium& stadium, const auto& tool) {
    for_cells(map, stadium, tool, [&](std::size_t index, double, double, double low) {
      depth = std::max(depth, map.heights[index] - (low + up));
    });
  });
  return depth;
}

}  // namespace crownwright::simulation
