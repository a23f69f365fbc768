#include "files/dish_axis.h"

#include <Eigen/Dense>
#include <cmath>
#include <vector>

// A circle about (cx, cy) is x^2 + y^2 = 2 cx x + 2 cy y + k with k = r^2 - cx^2 - cy^2: linear in (cx, cy,
// k). All planes share cx and cy and have a k each, so one small linear system fits them together (Kasa,
// 1976). Cuts are weighted by their length, so that a finely meshed part of the wall does not pull the
// centre.

namespace crownwright::files {
namespace {

constexpr int plane_count = 16;  // chosen
constexpr std::size_t most_cuts =
    20'000;  // a plane's cuts beyond it are thinned; a hostile file must not take hours

struct Cut {
  double x, y, length;
};

// The stretch in which the plane cuts the triangle, if it does and the triangle falls towards the guess.
std::optional<Cut> cut_of(const mesh::TriangleMesh& mesh, const mesh::Triangle& triangle, double z,
                          AxisPlace guess) {
  Eigen::Vector2d ends[2];
  int found = 0;
  for (std::size_t k = 0; k < 3 && found < 2; ++k) {
    const mesh::Vertex &a = mesh.vertices[triangle[k]], &b = mesh.vertices[triangle[(k + 1) % 3]];
    const bool a_below = double{a.z} < z, b_below = double{b.z} < z;
    if (a_below == b_below) continue;
    const double w = (z - double{a.z}) / (double{b.z} - double{a.z});
    ends[found++] = {double{a.x} + w * (double{b.x} - double{a.x}),
                     double{a.y} + w * (double{b.y} - double{a.y})};
  }
  if (found < 2) return std::nullopt;
  const Eigen::Vector2d middle = (ends[0] + ends[1]) / 2;
  const mesh::Vertex &a = mesh.vertices[triangle[0]], &b = mesh.vertices[triangle[1]],
                     &c = mesh.vertices[triangle[2]];
  const Eigen::Vector3d u(double{b.x} - double{a.x}, double{b.y} - double{a.y}, double{b.z} - double{a.z});
  const Eigen::Vector3d v(double{c.x} - double{a.x}, double{c.y} - double{a.y}, double{c.z} - double{a.z});
  Eigen::Vector3d normal = u.cross(v);
  if (normal.z() < 0) normal = -normal;
  if (normal.head<2>().dot(middle - Eigen::Vector2d(guess.x, guess.y)) >= 0) return std::nullopt;
  return Cut{middle.x(), middle.y(), (ends[1] - ends[0]).norm()};
}

bool is_on_top(const HeightMap& map, const Cut& cut, double z, double slack) {
  const std::optional<double> top = map.height(cut.x, cut.y);
  return top && std::abs(*top - z) <= slack;
}

std::vector<Cut> cuts_at(const mesh::TriangleMesh& mesh, const HeightMap& map, double z, AxisPlace guess,
                         double slack) {
  std::vector<Cut> all, seen;
  for (const mesh::Triangle& triangle : mesh.triangles) {
    if (const std::optional<Cut> cut = cut_of(mesh, triangle, z, guess)) all.push_back(*cut);
  }
  const std::size_t stride = 1 + all.size() / most_cuts;
  for (std::size_t i = 0; i < all.size(); i += stride) {
    if (is_on_top(map, all[i], z, slack)) seen.push_back(all[i]);
  }
  return seen;
}

}  // namespace

std::optional<AxisPlace> fit_axis(const mesh::TriangleMesh& mesh, const HeightMap& map, AxisPlace guess,
                                  double floor, double rim) {
  constexpr int unknowns = 2 + plane_count;
  Eigen::Matrix<double, unknowns, unknowns> normal_matrix = Eigen::Matrix<double, unknowns, unknowns>::Zero();
  Eigen::Matrix<double, unknowns, 1> right = Eigen::Matrix<double, unknowns, 1>::Zero();
  std::size_t count = 0;
  for (int plane = 0; plane < plane_count; ++plane) {
    const double z = floor + (rim - floor) * (plane + 0.5) / plane_count;
    normal_matrix(2 + plane, 2 + plane) = 1e-9;  // a plane without cuts stays harmless
    for (const Cut& cut : cuts_at(mesh, map, z, guess, 1e-6 * (1 + std::abs(rim - floor)))) {
      Eigen::Matrix<double, unknowns, 1> row = Eigen::Matrix<double, unknowns, 1>::Zero();
      const double x = cut.x - guess.x, y = cut.y - guess.y;
      row(0) = 2 * x, row(1) = 2 * y, row(2 + plane) = 1;
      normal_matrix += cut.length * row * row.transpose();
      right += cut.length * (x * x + y * y) * row;
      ++count;
    }
  }
  if (count < 12) return std::nullopt;
  const Eigen::Matrix<double, unknowns, 1> solved = normal_matrix.ldlt().solve(right);
  if (!std::isfinite(solved(0)) || !std::isfinite(solved(1))) return std::nullopt;
  return AxisPlace{guess.x + solved(0), guess.y + solved(1)};
}

}  // namespace crownwright::files
