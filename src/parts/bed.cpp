#include "parts/bed.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "meridian/refusal.h"
#include "solid/faces.h"

namespace crownwright::parts {
namespace {

using meridian::least_text;
using meridian::mm_text;

// Support of a sector of radius 1 about angle 0, half angle alpha, apex at the origin.
double support_of_sector(double alpha, double angle) {
  const double off = std::abs(std::remainder(angle, 2 * pi));
  return off <= alpha ? 1.0 : std::max(0.0, std::cos(off - alpha));
}

double sector_width(int sectors, double angle) {
  const double alpha = pi / sectors;
  return support_of_sector(alpha, angle) + support_of_sector(alpha, angle + pi);
}

// Least value of a function of the angle over half a turn: looked at every half degree, then the best look's
// neighbourhood narrowed down.
template <class Function>
PlanTurn least_over_angles(Function share_at) {
  constexpr int looks = 360;
  PlanTurn best{0, share_at(0)};
  for (int k = 1; k < looks; ++k) {
    const double angle = pi * k / looks, share = share_at(angle);
    if (share < best.share - 1e-12) best = {angle, share};
  }
  double low = best.angle - pi / looks, high = best.angle + pi / looks;
  for (int i = 0; i < 60; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (share_at(a) <= share_at(b) ? high : low) = share_at(a) <= share_at(b) ? b : a;
  }
  const double middle = (low + high) / 2;
  if (share_at(middle) < best.share) best = {middle, share_at(middle)};
  return best;
}

bool stands_on_foot(int sectors, const meridian::Extent& form, double width, double depth) {
  return best_turn_of_sector(sectors, form.outer, width, depth).share <= 1 + 1e-12;
}

// On its joint face a sector's plan is a rectangle: what it spans along that face by the form's height.
bool stands_on_joint(int sectors, const meridian::Extent& form, double width, double depth, double height) {
  if (sectors == 1) return false;
  const double angle = 2 * pi / sectors;
  const double span = form.outer * (1 - std::min(0.0, std::cos(angle)));
  const double tall = form.outer * (angle >= pi / 2 ? 1.0 : std::sin(angle));
  if (tall > height) return false;
  const auto turned = [&](double t) {
    const double c = std::abs(std::cos(t)), s = std::abs(std::sin(t));
    return std::max((span * c + form.high * s) / width, (span * s + form.high * c) / depth);
  };
  return least_over_angles(turned).share <= 1 + 1e-12;
}

std::vector<mesh::Point3> placed_points(const mesh::TriangleMesh& mesh, const mesh::Placement& place) {
  std::vector<mesh::Point3> points;
  points.reserve(mesh.vertices.size());
  for (const mesh::Vertex& v : mesh.vertices) points.push_back(place({v.x, v.y, v.z}));
  return points;
}

// Corners of the convex hull in plan (monotone chain, Andrew 1979).
std::vector<mesh::Point3> hull_in_plan(std::vector<mesh::Point3> points) {
  const auto turn = [](const mesh::Point3& a, const mesh::Point3& b, const mesh::Point3& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  };
  std::sort(points.begin(), points.end(), [](const mesh::Point3& a, const mesh::Point3& b) {
    return std::pair(a.x, a.y) < std::pair(b.x, b.y);
  });
  std::vector<mesh::Point3> hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const mesh::Point3& p : points) {
      while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0) hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

// The shortest turn that brings the unit vector `down` to -z.
mesh::Placement stood_on(const mesh::Point3& down) {
  const double flat = std::hypot(down.x, down.y);
  if (flat < 1e-12) return down.z < 0 ? mesh::Placement{} : mesh::turned_x(pi);
  const double heading = std::atan2(down.y, down.x);
  // Turn the normal into the x-z plane, then about y down to -z.
  return mesh::turned_z(-heading).then(mesh::turned_y(std::atan2(flat, -down.z)));
}

}  // namespace

PlanTurn best_turn_of_sector(int sectors, double radius, double width, double depth) {
  if (sectors == 1) return {0, 2 * radius / std::min(width, depth)};
  return least_over_angles([&](double angle) {
    return radius *
           std::max(sector_width(sectors, angle) / width, sector_width(sectors, angle + pi / 2) / depth);
  });
}

double least_square_bed(int sectors) { return best_turn_of_sector(sectors, 1, 1, 1).share; }

Result<BedPlan> plan_for_bed(const solid::Solid& solid, const Bed& bed) {
  const meridian::Extent form = solid::extent_of(solid);
  const double width = bed.width - 2 * bed.margin, depth = bed.depth - 2 * bed.margin;
  const double collar = solid.has_head_line ? solid.head_line.z : 0;
  if (width <= 0 || depth <= 0 || bed.height <= 0) {
    return impossible_fault("the bed leaves no room between its margins of " + mm_text(bed.margin),
                            "a bed of at least " + least_text(2 * bed.margin + 1) + " each way");
  }
  if (bed.height < collar) {
    return impossible_fault(
        "the printer, " + mm_text(bed.height) + " high, is lower than the collar of " + mm_text(collar),
        "a printer at least " + least_text(collar) + " high, or a lower collar");
  }
  const int tiers = std::max(1, static_cast<int>(std::ceil(form.high / bed.height - 1e-9)));
  std::optional<BedPlan> best;
  const auto offer = [&](const BedPlan& plan) {
    if (!best || plan.sectors * plan.tiers < best->sectors * best->tiers ||
        (plan.sectors * plan.tiers == best->sectors * best->tiers && plan.tiers < best->tiers))
      best = plan;
  };
  for (int sectors = 1; sectors <= most_sectors; ++sectors) {
    if (stands_on_foot(sectors, form, width, depth)) offer({sectors, tiers, Stand::foot});
    if (stands_on_joint(sectors, form, width, depth, bed.height)) offer({sectors, 1, Stand::joint});
  }
  if (best) return *best;
  const double least = least_square_bed(most_sectors) * form.outer + 2 * bed.margin;
  return impossible_fault("even a twelfth of the form, " + mm_text(form.outer) +
                              " long, does not fit on a bed of " + mm_text(bed.width) + " by " +
                              mm_text(bed.depth),
                          "a bed of at least " + least_text(least) + " by " + least_text(least));
}

std::optional<mesh::Placement> laid_on_bed(const mesh::TriangleMesh& mesh, const mesh::Point3& down,
                                           const Bed& bed) {
  const mesh::Placement stood = stood_on(down);
  const auto points = placed_points(mesh, stood);
  const auto [lowest, highest] = std::minmax_element(
      points.begin(), points.end(), [](const mesh::Point3& a, const mesh::Point3& b) { return a.z < b.z; });
  const double width = bed.width - 2 * bed.margin, depth = bed.depth - 2 * bed.margin;
  if (highest->z - lowest->z > bed.height || width <= 0 || depth <= 0) return std::nullopt;
  const double floor = lowest->z;
  const auto hull = hull_in_plan(points);
  struct Extents {
    double x0, x1, y0, y1;
  };
  const auto extents = [&](double angle) {
    Extents e{1e300, -1e300, 1e300, -1e300};
    const double c = std::cos(angle), s = std::sin(angle);
    for (const mesh::Point3& p : hull) {
      const double x = c * p.x - s * p.y, y = s * p.x + c * p.y;
      e = {std::min(e.x0, x), std::max(e.x1, x), std::min(e.y0, y), std::max(e.y1, y)};
    }
    return e;
  };
  const PlanTurn best = least_over_angles([&](double angle) {
    const Extents e = extents(angle);
    return std::max((e.x1 - e.x0) / width, (e.y1 - e.y0) / depth);
  });
  if (best.share > 1 + 1e-9) return std::nullopt;
  const Extents e = extents(best.angle);
  return stood.then(mesh::turned_z(best.angle))
      .then(mesh::moved(bed.margin - e.x0, bed.margin - e.y0, -floor));
}

}  // namespace crownwright::parts
