#pragma once
// Several parts on as few beds as they fit: each turned about the vertical, side by side in rows, none
// overlapping.

#include <string>
#include <vector>

#include "base/result.h"
#include "printing/bed.h"

namespace crownwright::printing {

/// A part as it is printed, way up already chosen.
struct PartOnBed {
  std::string name;
  std::vector<PlanPoint> outline;  ///< seen from above; its convex hull counts
  double low = 0, high = 0;        ///< least and greatest z
};
PartOnBed part_on_bed(const std::string& name, const mesh::TriangleMesh& mesh,
                      const mesh::Placement& placement = {});

struct PlateSpot {
  std::size_t plate = 0;  ///< 0, 1, ...
  mesh::Placement
      placement;  ///< from the part as printed to the bed: x and y from the bed's near left corner, z = 0
  double x = 0, y = 0, width = 0, depth = 0;  ///< of its box on the bed
};

struct Plates {
  std::vector<PlateSpot> spots;  ///< in the order of the parts
  std::size_t count = 0;
};

/// mm between the boxes of two parts; common practice.
inline constexpr double part_gap = 5;

/// Rows of boxes, larger parts first; several orders and turns are tried and the fewest beds taken. Every
/// part that fits a bed in some turn finds a place. Fault (impossible) naming the first that fits none, with
/// the smallest square bed or the height it needs.
Result<Plates> lay_on_plates(const std::vector<PartOnBed>& parts, const Bed& bed);

/// The same place with bed number n moved n times the bed's width and a little to the right: all parts in one
/// scene.
mesh::Placement in_a_row(const PlateSpot& spot, const Bed& bed);

}  // namespace crownwright::printing
