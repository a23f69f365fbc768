#include "proof/free_readings.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "base/numbers.h"
#include "proof/readings.h"
#include "proof/space.h"
#include "solid/stretch_distance.h"

namespace crownwright::proof {
namespace {

using meridian::Point;
using solid::Role;

constexpr double on_face = 1e-4;  // mm: three grid steps
constexpr std::size_t most_segments = 64;

struct Face {
  meridian::Segment segment;
  solid::StretchDistance carried_on;  ///< as facets beside a joint see it
  Role role;
};

std::vector<Face> faces_of(const solid::Solid& solid) {
  std::vector<Face> faces;
  for (const solid::Shell& shell : solid.shells)
    for (std::size_t i = 0; i < shell.walk.size(); ++i)
      faces.push_back({shell.walk[i], solid::StretchDistance(shell, {shell.starts[i], shell.starts[i + 1]}),
                       shell.roles[i]});
  if (faces.size() > most_segments) throw std::logic_error("a walk of more segments than can be told apart");
  return faces;
}

Point in_half_plane(const Vec& p) { return {std::hypot(p.x, p.y), p.z}; }

bool is_wall(Role role) { return role == Role::crown || role == Role::collar || role == Role::groove; }

class FreeReader {
 public:
  FreeReader(const mesh::TriangleMesh& mesh, const solid::Solid& solid)
      : mesh_(mesh), solid_(solid), faces_(faces_of(solid)) {
    masks_.reserve(mesh.vertices.size());
    for (std::uint32_t v = 0; v < mesh.vertices.size(); ++v) masks_.push_back(mask_of(place(mesh, v)));
  }

  Readings read() {
    const FacetFigures figures = measure_facets(mesh_);
    Readings readings;
    readings.volume = figures.volume;
    readings.area = figures.area;
    readings.smallest_angle = figures.smallest_angle;
    for (const mesh::Triangle& t : mesh_.triangles) look_at(t);
    readings.chord_error_max = chord_;
    if (solid_.wall > 0 && wall_ < 1e300) readings.wall_min = wall_ - chord_;
    read_crown(readings);
    if (solid_.has_head_line) readings.head_girth = girth();
    return readings;
  }

 private:
  std::uint64_t mask_of(const Vec& p) const {
    std::uint64_t mask = 0;
    for (std::size_t i = 0; i < faces_.size(); ++i)
      if (faces_[i].segment.distance_to(in_half_plane(p)) < on_face) mask |= std::uint64_t{1} << i;
    return mask;
  }

  // Of facets that two segments claim, the nearer counts.
  double off_face(std::uint64_t mask, const Vec& p) const {
    double least = 1e300;
    for (std::size_t i = 0; i < faces_.size(); ++i)
      if (mask >> i & 1) least = std::min(least, faces_[i].carried_on.of(std::hypot(p.x, p.y), p.z));
    return least;
  }

  bool has(std::uint64_t mask, Role role) const {
    for (std::size_t i = 0; i < faces_.size(); ++i)
      if ((mask >> i & 1) && faces_[i].role == role) return true;
    return false;
  }

  double to_outer(const Vec& p) const {
    double least = 1e300;
    for (const Face& face : faces_)
      if (is_wall(face.role)) least = std::min(least, face.segment.distance_to(in_half_plane(p)));
    return least;
  }

  void look_at(const mesh::Triangle& t) {
    const std::uint64_t mask = masks_[t[0]] & masks_[t[1]] & masks_[t[2]];
    if (mask == 0) return;
    const Vec a = place(mesh_, t[0]), b = place(mesh_, t[1]), c = place(mesh_, t[2]);
    const Vec middle = (1.0 / 3) * (a + b + c);
    for (const Vec& p : {middle, 0.5 * (a + b), 0.5 * (b + c), 0.5 * (c + a)})
      chord_ = std::max(chord_, off_face(mask, p));
    if (has(mask, Role::inner)) wall_ = std::min(wall_, to_outer(middle));
  }

  void read_crown(Readings& readings) const {
    double widest = 0, top = -1e300;
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
      if (!has(masks_[v], Role::crown)) continue;
      const Point p = in_half_plane(place(mesh_, v));
      widest = std::max(widest, p.r);
      top = std::max(top, p.z);
    }
    readings.crown_diameter = 2 * widest;
    readings.rise = top - solid_.head_line.z;
  }

  std::optional<double> girth() const {
    std::vector<std::pair<double, Vec>> corners;
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
      const Vec p = place(mesh_, v);
      const Point at = in_half_plane(p);
      if (std::hypot(at.r - solid_.head_line.r, at.z - solid_.head_line.z) > 10 * on_face) continue;
      corners.emplace_back(std::atan2(p.y, p.x), p);
    }
    if (corners.size() < 3) return std::nullopt;
    std::sort(corners.begin(), corners.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    double length = 0;
    for (std::size_t i = 0; i < corners.size(); ++i)
      length += norm(corners[(i + 1) % corners.size()].second - corners[i].second);
    return length;
  }

  const mesh::TriangleMesh& mesh_;
  const solid::Solid& solid_;
  std::vector<Face> faces_;
  std::vector<std::uint64_t> masks_;
  double chord_ = 0, wall_ = 1e300;
};

}  // namespace

Readings read_freely(const mesh::TriangleMesh& mesh, const solid::Solid& solid) {
  return FreeReader(mesh, solid).read();
}

}  // namespace crownwright::proof
