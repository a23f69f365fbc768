#include "printing/print.h"

#include <algorithm>

namespace crownwright::printing {
namespace {

mesh::Point3 size_of(const std::vector<mesh::Point3>& points) {
  mesh::Point3 low = points.at(0), high = low;
  for (const mesh::Point3& p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
  return {high.x - low.x, high.y - low.y, high.z - low.z};
}

}  // namespace

PrintJudgement judge_print(const mesh::TriangleMesh& mesh, const PrintQuestion& question,
                           const mesh::Placement& placement) {
  PrintJudgement out;
  out.size = size_of(placed_points(mesh, placement));
  out.body = body_of(mesh, placement);
  out.overhang = overhang_of(mesh, placement);
  const Section layer = first_layer(mesh, placement);
  out.first_layer_area = layer.area;
  out.stand = stand_of(out.body, layer);
  out.amount = amount_of(out.body.volume, out.body.area, question.density, question.settings);
  out.wall = wall_lines(question.smallest_wall, question.settings.nozzle);
  return out;
}

}  // namespace crownwright::printing
