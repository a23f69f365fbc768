#include "drawings/merge_loops.h"

// g++ 12 sees a number unset that is not, within Boost.Geometry.
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include "drawings/outline_distance.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;
using MergePoint = boost::geometry::model::d2::point_xy<double>;
using MergePolygon = boost::geometry::model::polygon<MergePoint, false, false>;  // counter-clockwise, open
using MergePolygons = boost::geometry::model::multi_polygon<MergePolygon>;

std::vector<MergePoint> ring_of(const Outline& loop) {
  std::vector<MergePoint> ring;
  for (const Vec2 p : loop) ring.emplace_back(p.x, p.y);
  return ring;
}

Outline loop_of(const std::vector<MergePoint>& ring) {
  Outline loop;
  for (const MergePoint& p : ring) loop.push_back({p.x(), p.y()});
  return loop;
}

// The largest loop is an outer line; what goes round as it does is one too.
std::vector<Outline> parts_first(std::vector<Outline> loops, std::size_t& outer_lines) {
  const auto size = [](const Outline& loop) { return std::abs(pattern::signed_area(loop)); };
  std::stable_sort(loops.begin(), loops.end(),
                   [&](const Outline& a, const Outline& b) { return size(a) > size(b); });
  const bool way = pattern::signed_area(loops.front()) > 0;
  const auto holes = std::stable_partition(loops.begin(), loops.end(), [&](const Outline& loop) {
    return (pattern::signed_area(loop) > 0) == way;
  });
  outer_lines = static_cast<std::size_t>(holes - loops.begin());
  return loops;
}

// Each hole in the smallest part that holds it.
std::vector<MergePolygon> polygons_of(const std::vector<Outline>& unsorted) {
  std::size_t count = 0;
  const std::vector<Outline> loops = parts_first(unsorted, count);
  std::vector<MergePolygon> polygons(count);
  for (std::size_t i = 0; i < count; ++i) {
    const auto ring = ring_of(loops[i]);
    polygons[i].outer().assign(ring.begin(), ring.end());
  }
  for (std::size_t hole = count; hole < loops.size(); ++hole) {
    for (std::size_t i = count; i-- > 0;) {
      if (!outline_holds(loops[i], loops[hole].front())) continue;
      const auto ring = ring_of(loops[hole]);
      polygons[i].inners().emplace_back(ring.begin(), ring.end());
      break;
    }
  }
  for (MergePolygon& polygon : polygons) boost::geometry::correct(polygon);
  return polygons;
}

}  // namespace

std::vector<Outline> merge_loops(const std::vector<Outline>& loops) {
  if (loops.empty()) return {};
  MergePolygons merged;
  for (const MergePolygon& part : polygons_of(loops)) {
    MergePolygons with;
    boost::geometry::union_(merged, part, with);
    merged = std::move(with);
  }
  std::vector<Outline> lines;
  for (const MergePolygon& polygon : merged) {
    lines.push_back(loop_of({polygon.outer().begin(), polygon.outer().end()}));
    for (const auto& hole : polygon.inners()) lines.push_back(loop_of({hole.begin(), hole.end()}));
  }
  return lines;
}

}  // namespace crownwright::drawings
