#pragma once
// Orders of one worked block for the tests of parts, press and release, and what its parts measure.

#include <array>
#include <string>
#include <vector>

#include "making/form.h"
#include "making/orders.h"
#include "mesh/placement.h"

namespace crownwright::test {

/// Crown 140 / 90.7 / 75, dome 6, edges 20, all as the form measures; collar 15 unless `more` has a [form].
/// Of a plastic that stands steam, so that nothing is warned of.
inline std::string pc_block(const std::string& print = {}, const std::string& more = {}) {
  return "name = \"Worked\"\n[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"569.884908 mm\"\n"
         "rise = \"75 mm\"\ntaken_at = \"form\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n"
         "[mesh]\nchord_tolerance = \"0.2 mm\"\n[print]\nmaterial = \"pc\"\n" +
         print + more;
}

inline std::string on_bed(const std::string& bed) { return "bed = \"" + bed + " mm\"\n"; }

inline Fault refusal_of(const std::string& text) {
  const auto form = making::make_form(read_order(text), own_profiles());
  if (form) throw std::runtime_error("the form was made");
  return form.fault();
}

/// Six times the signed volume of a mesh is the sum of its facets' determinants (divergence theorem).
inline double mesh_volume(const mesh::TriangleMesh& mesh) {
  double six = 0;
  for (const auto& t : mesh.triangles) {
    const mesh::Vertex &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    six += double(a.x) * (double(b.y) * c.z - double(b.z) * c.y) +
           double(a.y) * (double(b.z) * c.x - double(b.x) * c.z) +
           double(a.z) * (double(b.x) * c.y - double(b.y) * c.x);
  }
  return six / 6;
}

inline const mesh::TriangleMesh& mesh_of(const making::Form& form, const making::PrintedPart& part) {
  return part.proven ? part.proven->mesh() : form.proven.mesh();
}

/// A row of twelve numbers applied as 3MF says (core specification 1.3, section 3.3): the point is a row.
inline mesh::Point3 by_twelve(const std::array<double, 12>& m, double x, double y, double z) {
  return {x * m[0] + y * m[3] + z * m[6] + m[9], x * m[1] + y * m[4] + z * m[7] + m[10],
          x * m[2] + y * m[5] + z * m[8] + m[11]};
}

struct BoxOf {
  std::array<double, 3> low{1e9, 1e9, 1e9}, high{-1e9, -1e9, -1e9};
  double size(std::size_t k) const { return high[k] - low[k]; }
  bool overlaps(const BoxOf& other) const {
    for (std::size_t k = 0; k < 3; ++k)
      if (high[k] <= other.low[k] || other.high[k] <= low[k]) return false;
    return true;
  }
};
inline BoxOf placed_box(const mesh::TriangleMesh& mesh, const std::array<double, 12>& place) {
  BoxOf box;
  for (const mesh::Vertex& v : mesh.vertices) {
    const mesh::Point3 p = by_twelve(place, v.x, v.y, v.z);
    const double at[] = {p.x, p.y, p.z};
    for (std::size_t k = 0; k < 3; ++k)
      box.low[k] = std::min(box.low[k], at[k]), box.high[k] = std::max(box.high[k], at[k]);
  }
  return box;
}
inline constexpr std::array<double, 12> as_it_is{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};

}  // namespace crownwright::test
