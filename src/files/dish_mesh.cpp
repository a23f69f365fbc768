#include "files/dish_mesh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/length.h"
#include "files/dish_axis.h"
#include "files/height_map.h"

namespace crownwright::files {
namespace {

constexpr std::size_t directions = 72;  // chosen: every 5 degrees; an oval, a dent of 10 mm at 90 mm are seen
constexpr std::size_t fine_steps = 512;     // chosen: from the axis to the edge of the mesh
constexpr std::size_t readings = 64;        // chosen: from the axis to the rim
constexpr std::size_t fullest_cell = 5000;  // chosen: no dish has that many facets over one spot

// Heights along one direction from the axis, out to where the mesh ends.
struct Ray {
  std::vector<double> heights;  ///< every `step`
  double cosine = 1, sine = 0;
  double rim_height = 0;
  double rim = 0;    ///< radius at which the highest point is first reached, mm
  double floor = 0;  ///< lowest height from the axis to the rim
};

struct Rays {
  std::array<Ray, directions> rays;
  double step = 0;  ///< mm
  double floor = 0, rim_height = 0;
  double rim = 0;  ///< nearest rim of all directions, mm
};

std::optional<double> height_at(const HeightMap& map, AxisPlace axis, const Ray& ray, double r) {
  return map.height(axis.x + r * ray.cosine, axis.y + r * ray.sine);
}

// The corner of the rim lies within the step before its first highest height: halve that step until it is
// found.
double rim_radius(const HeightMap& map, AxisPlace axis, const Ray& ray, double below, double above,
                  double slack) {
  for (int i = 0; i < 20; ++i) {
    const double middle = (below + above) / 2;
    const std::optional<double> z = height_at(map, axis, ray, middle);
    (z && *z >= ray.rim_height - slack ? above : below) = middle;
  }
  return above;
}

Ray cast(const HeightMap& map, AxisPlace axis, std::size_t direction, double step) {
  const double angle = 2 * std::numbers::pi * static_cast<double>(direction) / directions;
  Ray ray{{}, std::cos(angle), std::sin(angle)};
  for (std::size_t i = 0; i <= fine_steps; ++i) {
    const std::optional<double> z = height_at(map, axis, ray, step * static_cast<double>(i));
    if (!z) break;
    ray.heights.push_back(*z);
  }
  if (ray.heights.empty()) return ray;
  const double slack = 1e-5 * step;  // float32 wobble on a level rim
  ray.rim_height = *std::max_element(ray.heights.begin(), ray.heights.end());
  const auto rim = std::find_if(ray.heights.begin(), ray.heights.end(),
                                [&](double z) { return z >= ray.rim_height - slack; });
  ray.floor = *std::min_element(ray.heights.begin(), rim + 1);
  const double outside = step * static_cast<double>(rim - ray.heights.begin());
  ray.rim = outside > 0 ? rim_radius(map, axis, ray, outside - step, outside, slack) : 0;
  return ray;
}

Fault no_hollow(const std::string& what) {
  return impossible_fault(what, "give a dish that stands on its foot with its hollow up, at least " +
                                    number_text(least_hollow) + " mm deep; leave it out for a flat table");
}

Result<Rays> cast_all(const HeightMap& map, AxisPlace axis) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Rays all;
  all.step = std::hypot(map.high_x() - map.low_x(), map.high_y() - map.low_y()) / fine_steps;
  all.floor = all.rim_height = all.rim = far;
  for (std::size_t k = 0; k < directions; ++k) {
    const Ray& ray = all.rays[k] = cast(map, axis, k, all.step);
    if (ray.heights.empty()) return no_hollow("the dish has a hole at its middle");
    all.rim = std::min(all.rim, ray.rim);
    all.rim_height = std::min(all.rim_height, ray.rim_height);
    all.floor = std::min(all.floor, ray.floor);
  }
  if (all.rim < all.step) return no_hollow("the dish is highest at its middle");
  if (all.rim_height - all.floor < least_hollow)
    return no_hollow("the dish is only " + number_text(all.rim_height - all.floor) + " mm deep");
  return all;
}

Result<AxisPlace> find_axis(const mesh::TriangleMesh& mesh, const HeightMap& map) {
  AxisPlace axis{(map.low_x() + map.high_x()) / 2, (map.low_y() + map.high_y()) / 2};
  for (int round = 0; round < 3; ++round) {
    const Result<Rays> rays = cast_all(map, axis);
    if (!rays) return rays.fault();
    const std::optional<AxisPlace> better = fit_axis(mesh, map, axis, rays->floor, rays->rim_height);
    if (!better) return no_hollow("the dish has no hollow side that a level plane could cut");
    axis = *better;
  }
  return axis;
}

// Steps from the axis at which the ray passes the height, the place nearest to `near`; none when it never
// does.
std::optional<double> passes(const Ray& ray, double height, double near) {
  std::optional<double> best;
  for (std::size_t i = 1; i < ray.heights.size(); ++i) {
    const double a = ray.heights[i - 1], b = ray.heights[i];
    if ((a < height) == (b < height)) continue;
    const double place = static_cast<double>(i - 1) + (height - a) / (b - a);
    if (!best || std::abs(place - near) < std::abs(*best - near)) best = place;
  }
  return best;
}

struct Spread {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  void add(double value) { low = std::min(low, value), high = std::max(high, value); }
  double size() const { return high - low; }
};

// The spread of the surface square to itself: the height of the right triangle whose legs are the spread
// upright and the spread outwards. Upright alone would call every steep wall out of round, outwards every
// flat floor.
double out_of_round(const Rays& all, double radius, double mean, double upright) {
  Spread outwards;
  for (const Ray& ray : all.rays) {
    const std::optional<double> place = passes(ray, mean, radius / all.step);
    if (!place) return upright;
    outwards.add(*place * all.step);
  }
  const double diagonal = std::hypot(upright, outwards.size());
  return diagonal > 0 ? upright * outwards.size() / diagonal : 0;
}

Fault not_round(double radius, double amount) {
  return impossible_fault(
      "at radius " + number_text(radius, 0) + " mm the dish is " + number_text(amount, 1) +
          " mm out of round",
      "at most " + number_text(most_out_of_round, 1) + " mm is taken up by cover and foam");
}

DishReadings read_heights(const HeightMap& map, AxisPlace axis, const Rays& all, double& worst_radius) {
  DishReadings dish;
  for (std::size_t j = 0; j <= readings; ++j) {
    const double radius = all.rim * static_cast<double>(j) / readings;
    double sum = 0;
    Spread upright;
    for (const Ray& ray : all.rays) {
      const double z = height_at(map, axis, ray, radius).value_or(ray.rim_height);
      sum += z;
      upright.add(z);
    }
    const double mean = sum / directions;
    dish.points.push_back({radius, mean});
    const double amount = out_of_round(all, radius, mean, upright.size());
    if (amount > dish.out_of_round) dish.out_of_round = amount, worst_radius = radius;
  }
  return dish;
}

void measure_from_lowest(std::vector<meridian::Point>& points) {
  const auto lower = [](const meridian::Point& a, const meridian::Point& b) { return a.z < b.z; };
  const double lowest = std::min_element(points.begin(), points.end(), lower)->z;
  for (meridian::Point& p : points) p.z -= lowest;
}

}  // namespace

Result<DishReadings> read_dish(const mesh::TriangleMesh& mesh) {
  if (mesh.triangles.empty()) return no_hollow("the dish has no triangles");
  const HeightMap map(mesh);
  if (map.fullest_cell() > fullest_cell) return no_hollow("the dish has thousands of facets over one spot");
  const Result<AxisPlace> axis = find_axis(mesh, map);
  if (!axis) return axis.fault();
  const Result<Rays> rays = cast_all(map, *axis);
  if (!rays) return rays.fault();
  double worst_radius = 0;
  DishReadings dish = read_heights(map, *axis, *rays, worst_radius);
  if (dish.out_of_round > most_out_of_round) return not_round(worst_radius, dish.out_of_round);
  measure_from_lowest(dish.points);
  dish.centre_x = axis->x;
  dish.centre_y = axis->y;
  return dish;
}

Result<std::vector<meridian::Point>> dish_readings(const mesh::TriangleMesh& mesh) {
  Result<DishReadings> dish = read_dish(mesh);
  if (!dish) return dish.fault();
  return std::move(dish->points);
}

}  // namespace crownwright::files
