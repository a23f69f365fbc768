#pragma once
// A revolved face with any outline and any holes: a smooth stretch of meridian turned about the axis, between
// boundary polylines that its neighbours own.
//
// The face is laid out in a plane in which its facets keep the chord tolerance when they are round: with
// steps `along` and `across` allowed there (density.h), the metric ds^2 / along^2 + r^2 dt^2 / across^2 is
// conformal to the polar map
//   w(s) (cos t, sin t),   log w = integral of (across / along) ds / r,
// so a Delaunay triangulation of the map is, step by step, one of the face in that metric. (On a sphere or
// plane it is the stereographic map.) Full circles, poles and arcs are alike there.

#include <vector>

#include "meridian/chain.h"
#include "meridian/prepared.h"
#include "mesh/density.h"
#include "mesh/patchwork.h"

namespace crownwright::mesh {

/// A vertex on a revolved face: arc length on the stretch and angle about the axis (radians, any turn). On
/// the axis the angle says nothing.
struct Mark {
  std::uint32_t vertex = 0;
  double s = 0, theta = 0;
};

/// The greatest steps allowed at s, neither more than three times the other (infinite on a plane).
Steps even_steps_at(const meridian::PreparedChain& chain, double s, double budget);

/// Adds the facets between the edges. `chain` is one smooth stretch (no corner inside), air on its left;
/// at most one of its ends lies on the axis. The edges (open polylines, or closed ones with the first mark
/// repeated) together bound the face; direction and order are free. No edge may span half a turn between two
/// marks. A pole that lies inside and is no mark gets its vertex here. Facets are refined until the samples
/// of each lie within `tolerance`; no facet's inner side joins two vertices of one edge's plane: edges with
/// the same `plane` number (not negative) count as lying in one plane.
/// Fault (impossible): the edges cross, or lie nearer together than the grid can tell.
struct FaceEdge {
  std::vector<Mark> marks;
  int plane = -1;
};
Result<Done> add_revolved_face(Patchwork& work, const meridian::Chain& chain,
                               const std::vector<FaceEdge>& edges, double tolerance);

}  // namespace crownwright::mesh
