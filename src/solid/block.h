#pragma once
// From a solved crown to the block: collar, groove, flange, foot, floor, socket and the inner face.

#include <optional>

#include "base/result.h"
#include "solid/solid.h"

namespace crownwright::solid {

enum class FootEdge { chamfer, round };

struct Flange {
  double width = 0, thickness = 0;  ///< how far it stands out from the collar; how high it is
};
struct Groove {
  double width = 0, depth = 0;  ///< its bottom is one round arc: depth <= width / 2
};

/// All lengths in mm.
struct BlockPlan {
  meridian::Chain crown;  ///< pole to head line, the head line at z = 0 (meridian::crown_chain)
  double collar = 0;
  std::optional<double> wall;  ///< nothing: solid
  std::optional<double> floor;
  std::optional<double> socket;        ///< diameter
  std::optional<double> socket_depth;  ///< how deep a stand's post goes in
  std::optional<Groove> groove;
  std::optional<Flange> flange;
  FootEdge foot_edge = FootEdge::chamfer;
  double foot_edge_size = 0;
};

/// The land left between the head line and the groove's upper edge, so that the head line stays a clean edge.
constexpr double groove_land = 1.0;

/// Least height of the room inside a hollow block.
constexpr double least_room = 3.0;

/// Least width of the ring that the foot stands on.
constexpr double least_foot = 0.4;

/// The inner face is the exact offset of crown, collar and foot edge by the wall, so the wall measured square
/// to the surface is nowhere thinner than ordered; behind a groove or a foot chamfer it follows them inwards.
/// A flange adds material only. A floor without a socket closes the cavity (two shells). Faults are
/// `impossible` with the nearest values that fit.
Result<Solid> build_block(const BlockPlan& plan);

}  // namespace crownwright::solid
