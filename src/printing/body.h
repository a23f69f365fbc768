#pragma once
// Volume, area and centre of gravity of a closed mesh, and whether it stands on its first layer.

#include <vector>

#include "printing/plan.h"

namespace crownwright::printing {

struct Body {
  double volume = 0;    ///< mm3, by tetrahedra to one point (divergence theorem)
  double area = 0;      ///< mm2, of both faces of a wall
  mesh::Point3 centre;  ///< of gravity, of the massive body
};
/// Precondition: closed, facets counter-clockwise seen from the air, volume > 0 (else std::logic_error).
Body body_of(const mesh::TriangleMesh& mesh, const mesh::Placement& placement = {});

/// The body cut level at height z: area, and hull of the outline.
struct Section {
  double area = 0;
  std::vector<PlanPoint> hull;
};
/// Closed mesh. Vertices at just that height count as above it.
Section section_at(const mesh::TriangleMesh& mesh, double z, const mesh::Placement& placement = {});

/// The first layer, cut in its middle, where a slicer cuts it.
Section first_layer(const mesh::TriangleMesh& mesh, const mesh::Placement& placement = {});

struct Stand {
  bool stands = false;   ///< the centre of gravity lies above the hull of the first layer
  double margin = 0;     ///< mm from its foot point to the hull's edge; negative outside
  double tip_angle = 0;  ///< degrees the part may be leant before it falls; 0 when it does not stand
};
Stand stand_of(const Body& body, const Section& layer);

}  // namespace crownwright::printing
