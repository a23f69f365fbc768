#include "proof/grid_check.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "mesh/grid.h"

namespace crownwright::proof {
namespace {

bool on_grid(float value) {
  return std::abs(value) < mesh::grid_reach && mesh::snap(value) == value &&
         !(value == 0 && std::signbit(value));
}

}  // namespace

Check coordinates_on_grid(const mesh::TriangleMesh& mesh) {
  const auto off = std::count_if(mesh.vertices.begin(), mesh.vertices.end(), [](const mesh::Vertex& v) {
    return !(on_grid(v.x) && on_grid(v.y) && on_grid(v.z));
  });
  return {"coordinates are exact in float32", off == 0,
          off == 0 ? "multiples of 2^-15 mm"
                   : count_text(static_cast<std::size_t>(off)) + " vertices off the grid"};
}

}  // namespace crownwright::proof
