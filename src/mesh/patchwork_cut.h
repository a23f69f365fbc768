#pragma once
// A solid of revolution cut by upright planes (half planes in plan) and level planes, built as a patchwork.
//
// The caller names the planes and adds stretches of meridian, each with the region of the plan in which its
// revolved face exists. Everything else follows: where the planes cut a revolved face its edge is made once,
// for the face and for the plane; where two planes meet, straight edges join the corners found on that line;
// and finish() closes every plane with a plane face whose outline is what was left open there. Circles that
// turn into arcs, arcs that split, and pieces that vanish where r(s) passes a plane are all found by looking
// at the region between such places.
//
//   CutBody body(tolerance);
//   const int east = body.half_plane({1, 0, 40});            // keeps x <= 40
//   const int foot = body.level(0);
//   body.add({chain, {.within = {east}}, .last_plane = foot});   // open chain, ends on the foot
//   Result<TriangleMesh> mesh = body.finish();
//
// A sector takes its two joint planes with d = -gap / 2 (or 0: the planes then meet in the axis itself); a
// half takes one. Level segments of a chain (foot, floor) become plane faces of their own and need no name.

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "mesh/patchwork.h"
#include "mesh/patchwork_revolved.h"
#include "mesh/plan_arcs.h"

namespace crownwright::mesh {

/// The part of the plan that lies within all planes of the first list and not within all of the second
/// (unless that is empty). Both empty: everything.
struct PlanRegion {
  std::vector<int> within, without;
};

/// A hole in the revolved face (a vent's mouth): s counted along the chain it is in, either direction.
struct FaceHole {
  std::vector<Mark> marks;  ///< first not repeated
};

/// A run of meridian with the air on its left. `first_plane` and `last_plane` are level planes that its free
/// ends lie in; an end on the axis has none. A closed chain (a vent at the pole) ends where it starts.
struct CutChain {
  meridian::Chain chain;
  PlanRegion region;
  std::optional<int> first_plane = {}, last_plane = {};
  std::vector<FaceHole> holes = {};
};

class CutBody {
 public:
  /// Facets stay within `tolerance` mm of the true surface.
  explicit CutBody(double tolerance);

  /// `facing` says which side the air is on where the plane's whole outline is straight edges between planes
  /// (elsewhere the edges' own directions say it): 1 for the side that n or +z points to, -1 for the other.
  int half_plane(const HalfPlane& plane, int facing = 1);
  int level(double z, int facing = 1);

  /// Fault (impossible): a plane only just touches the face (within 1e-4 mm), or edges too close to each
  /// other.
  Result<Done> add(const CutChain& run);

  /// Notes the corners that two half planes make on a level plane inside the region, from radius r0 to r1:
  /// needed only for levels made by level() on which half planes meet (level segments of chains do it
  /// themselves).
  void add_level_corners(int level, const PlanRegion& region, double r0, double r1);

  /// A loop already made lies in this plane, in the direction in which the plane's face must walk it
  /// (clockwise seen from the air for a hole).
  void add_loop(int plane, EdgeLoop loop);

  /// The first level plane at this height with the air on this side (level segments of chains included, once
  /// added).
  std::optional<int> level_at(double z, int facing) const;

  /// Vertices, strips and other faces that the caller makes himself.
  Patchwork& work() { return work_; }

  /// Loops of each plane face as finish() closes it: outer counter-clockwise seen from the air, holes
  /// clockwise. Fault (impossible): what was left open does not join into loops.
  Result<std::vector<EdgeLoop>> outline(int plane) const;

  /// Closes all planes and gives the mesh. Faults as Patchwork's.
  Result<TriangleMesh> finish();

 private:
  friend class CutRun;
  struct PlaneRecord {
    bool upright = true;
    HalfPlane half;
    double z = 0;
    int facing = 1;
    std::vector<EdgeLine> lines;  ///< in the plane face's direction; closed ones repeat their first vertex
  };
  std::vector<PlanLine> lines(const std::vector<int>& planes) const;
  /// Notes that a vertex lies on the line where two planes meet.
  void note_corner(int one, int other, std::uint32_t vertex);

  struct Straight {
    std::uint32_t a = 0, b = 0;
    bool used = false;
  };
  Result<std::vector<Straight>> straights_of(int plane) const;
  bool runs_right(const PlaneRecord& plane, const EdgeLoop& loop) const;

  double tolerance_;
  Patchwork work_;
  std::vector<PlaneRecord> planes_;
  std::map<std::pair<int, int>, std::vector<std::uint32_t>> corners_;
};

/// The parts of a chain that lie above (or below) a level, in order, with whether each end was made by the
/// cut. Fault (impossible): a level segment or a turning point lies on the level itself, within 1e-4 mm.
struct ChainPart {
  meridian::Chain chain;
  bool first_cut = false, last_cut = false;
};
Result<std::vector<ChainPart>> part_above(const meridian::Chain& chain, double z);
Result<std::vector<ChainPart>> part_below(const meridian::Chain& chain, double z);

}  // namespace crownwright::mesh
