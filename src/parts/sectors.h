#pragma once
// A form in equal sectors, in tiers, or both: closed bodies with dowel holes, made by construction.
//
// Sectors: n planes through the axis. Half the glue gap is taken off every joint face, so that the glued
// form has its ordered girth. A hollow form's wall is thickened at the joints to a flange on the inside,
// `dowel
// + clearance + flange_walls` thick and `flange_width` wide, ended by a plane parallel to the joint; dowel
// holes stand square to the joint in it: two in the crown zone, one below the widest circle where it fits.
// Solid forms take the dowels straight into the joint face. A floor of at least `least_keyed_floor` has a
// slot for a loose flat key in every joint face. Tiers: level planes. Upright dowels stand in the flanges
// beside the joints; a hollow form in tiers but not in sectors has a wall as thick as a flange all round.
// Vents stay where they keep clear of joints, flanges and level cuts; there is none at the pole.
// Joints lie at the angles phase + 2 pi k / n: under the seams (angles 2 pi k / panels) with phase 0 whenever
// n divides the panels.

#include <vector>

#include "base/result.h"
#include "mesh/placement.h"
#include "parts/marks.h"
#include "parts/part.h"
#include "parts/posts.h"
#include "solid/solid.h"

namespace crownwright::parts {

constexpr double flange_width = 12;      ///< mm from the joint plane (chosen)
constexpr double flange_walls = 4.8;     ///< mm of wall on both sides of a dowel hole together (chosen)
constexpr double hole_depth = 10.4;      ///< mm; leaves 1.6 mm of the flange
constexpr double least_skin = 1.2;       ///< mm of material left round a hole: three lines of a 0.4 mm nozzle
constexpr double vent_joint_margin = 1;  ///< mm between a vent's mouth and flange
constexpr double least_keyed_floor = 3.6;
constexpr double least_glue_gap =
    0.005;  ///< mm; narrower ones are taken as none: no printer tells them apart

struct SplitPlan {
  int sectors = 1;
  std::vector<double> level_cuts;  ///< z of the cuts between tiers, rising
  double phase = 0;                ///< radians
  double dowel = 6;                ///< diameter
  double dowel_clearance = 0.2;    ///< the hole is wider by this
  double glue_gap = 0.1;
};

/// A dowel's hole in the joint faces of sectors: centre at this radius and height.
struct DowelPlace {
  double r = 0, z = 0;
};
struct UprightDowel {
  double x = 0, y = 0, z = 0;  ///< on the level cut
  double depth = 0;            ///< of each of its two holes
};
/// A slot in the floor's part of each joint face.
struct KeySlot {
  double from_r = 0, to_r = 0, z = 0, thickness = 0, depth = 0;
};

/// What a form may carry besides its walks.
struct Extras {
  Marks marks;
  std::vector<Post> posts;
};

struct SplitPart {
  Part part;
  mesh::Point3 foot_down{0, 0, -1};   ///< outward normal of the face it stands on, foot down
  mesh::Point3 joint_down{0, 0, -1};  ///< the same, standing on a joint face (with n > 1)
  int vents = 0;
  int marks = 0;  ///< shapes and lines engraved in it
  std::size_t posts = 0;
};

struct Split {
  std::vector<SplitPart> parts;      ///< "sector-1", "tier-1", "tier-1-sector-2", from the foot up
  std::vector<double> joint_angles;  ///< radians
  std::vector<DowelPlace> dowels;    ///< in every joint
  std::vector<UprightDowel> uprights;
  std::vector<KeySlot> slots;  ///< in every joint
  double hole_diameter = 0, dowel_length = 0;
  double flange = 0;  ///< thickness of the wall at the joints; 0: solid
  int vents_left_out = 0;
};

/// Precondition: sectors >= 1, and more than one part. Facets stay within `tolerance` mm. Faults
/// (impossible): a dowel whose flange does not fit (with the thickest that does), a glue gap larger than 1 mm
/// or negative, a level cut outside the form or through its foot, collar edge or widest circle's touching
/// point.
/// Marks that would lie across a joint, or within mark_margin of one, are left out; a post that stands in a
/// joint or its flange, or in a form with level cuts, is refused.
Result<Split> split_form(const solid::Solid& solid, const SplitPlan& plan, double tolerance,
                         const Extras& extras = {});

/// The form cut level and nothing else: no dowels, nothing thickened, a vent at the pole kept. `gap` is taken
/// off, half on each side of a cut. Names "tier-1", "tier-2", ... from the foot up. Fault (impossible): a cut
/// that only touches a face.
Result<std::vector<SplitPart>> cut_level(const solid::Solid& solid, const std::vector<double>& cuts,
                                         double gap, double tolerance, const Extras& extras = {});

/// The loose key for a slot, in its place in the joint at that angle (radians), smaller than two slots by the
/// clearance.
Part floor_key(const KeySlot& slot, const SplitPlan& plan, double joint);

}  // namespace crownwright::parts
