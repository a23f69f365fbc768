#include "making/dish.h"

#include "files/dish_mesh.h"
#include "files/mesh_reader.h"
#include "meridian/fit_arcs.h"

namespace crownwright::making {
namespace {

using meridian::Point;

Result<std::vector<Point>> points_of(const order::Dish& dish) {
  std::vector<Point> points;
  for (const order::Reading& reading : dish.readings)
    points.push_back({reading.radius.mm(), reading.height.mm()});
  if (dish.file.empty()) return points;
  const auto mesh = files::read_mesh(dish.file);
  if (!mesh) return mesh.fault();
  const auto found = files::dish_readings(*mesh);
  if (!found) return found.fault().within(dish.file);
  return *found;
}

// At most 200 points: the fit's time grows with their square, and a dish has no finer detail.
std::vector<Point> thinned(const std::vector<Point>& points) {
  constexpr std::size_t most = 200;
  if (points.size() <= most) return points;
  std::vector<Point> kept;
  for (std::size_t k = 0; k < most; ++k) kept.push_back(points[k * (points.size() - 1) / (most - 1)]);
  return kept;
}

}  // namespace

Result<meridian::Chain> dish_meridian(const order::Dish& dish) {
  const auto points = points_of(dish);
  if (!points) return points.fault();
  auto chain = meridian::fit_arcs(thinned(*points), dish_fit_tolerance);
  if (!chain) return chain.fault().where.empty() ? chain.fault().within("dish") : chain.fault();
  return meridian::translated(*chain, -chain->front().from().z);
}

}  // namespace crownwright::making
