// Facets are sorted by the direction of their normals into coarse bins; the fullest bins give seeds, and
// round each seed's plane all facets in it are counted. Looking round every facet instead would take its
// square.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "base/length.h"
#include "printing/vector.h"
#include "printing/way_up.h"

namespace crownwright::printing {
namespace {

constexpr double kBinsEach = 12;  // of the normal's -1 to 1, half of them
constexpr std::size_t kMostSeeds = 200, kMostFaces = 12;
constexpr double kOffsetBin = 5;      // mm
constexpr double kInPlane = 0.01;     // mm
constexpr double kParallel = 0.9999;  // cosine, of normals that count as one
constexpr double kLevel = 0.9999;     // beyond it a face is foot or crown

struct Facet {
  std::array<mesh::Point3, 3> corners;
  mesh::Point3 normal;  // unit
  double area = 0;
};

struct PlaneFace {
  mesh::Point3 normal;
  double offset = 0, area = 0;
};

std::vector<Facet> facets_of(const mesh::TriangleMesh& mesh) {
  const auto points = placed_points(mesh, {});
  std::vector<Facet> facets;
  for (const auto& t : mesh.triangles) {
    Facet facet{{points[t[0]], points[t[1]], points[t[2]]}, {}, 0};
    const mesh::Point3 n =
        cross(minus(facet.corners[1], facet.corners[0]), minus(facet.corners[2], facet.corners[0]));
    const double size = length(n);
    if (size == 0) continue;
    facet.normal = {n.x / size, n.y / size, n.z / size};
    facet.area = size / 2;
    facets.push_back(facet);
  }
  return facets;
}

double offset_of(const Facet& facet) { return dot(facet.corners[0], facet.normal); }

// Largest facet of each of the fullest bins.
std::vector<const Facet*> seeds_of(const std::vector<Facet>& facets) {
  struct Bin {
    double area = 0;
    const Facet* largest = nullptr;
  };
  std::map<std::array<std::int64_t, 4>, Bin> bins;
  for (const Facet& facet : facets) {
    const auto part = [](double x) { return static_cast<std::int64_t>(std::llround(x * kBinsEach)); };
    Bin& bin = bins[{part(facet.normal.x), part(facet.normal.y), part(facet.normal.z),
                     static_cast<std::int64_t>(std::llround(offset_of(facet) / kOffsetBin))}];
    bin.area += facet.area;
    if (bin.largest == nullptr || facet.area > bin.largest->area) bin.largest = &facet;
  }
  std::vector<Bin> fullest;
  for (const auto& [place, bin] : bins) fullest.push_back(bin);
  std::stable_sort(fullest.begin(), fullest.end(),
                   [](const Bin& one, const Bin& other) { return one.area > other.area; });
  std::vector<const Facet*> seeds;
  for (const Bin& bin : fullest) {
    if (seeds.size() < kMostSeeds) seeds.push_back(bin.largest);
  }
  return seeds;
}

bool lies_in(const Facet& facet, const PlaneFace& plane) {
  return dot(facet.normal, plane.normal) > kParallel &&
         std::all_of(facet.corners.begin(), facet.corners.end(), [&](const mesh::Point3& p) {
           return std::abs(dot(p, plane.normal) - plane.offset) <= kInPlane;
         });
}

PlaneFace grown_from(const Facet& seed, const std::vector<Facet>& facets) {
  PlaneFace plane{seed.normal, offset_of(seed), 0};
  for (const Facet& facet : facets) {
    if (lies_in(facet, plane)) plane.area += facet.area;
  }
  return plane;
}

bool all_behind(const mesh::TriangleMesh& mesh, const PlaneFace& plane) {
  return std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [&](const mesh::Vertex& v) {
    return dot({v.x, v.y, v.z}, plane.normal) <= plane.offset + kInPlane;
  });
}

bool is_known(const std::vector<PlaneFace>& faces, const PlaneFace& plane) {
  return std::any_of(faces.begin(), faces.end(), [&](const PlaneFace& face) {
    return dot(face.normal, plane.normal) > kParallel;  // all is behind both: they are one
  });
}

}  // namespace

std::vector<DownFace> plane_faces(const mesh::TriangleMesh& mesh, double least_share) {
  const std::vector<Facet> facets = facets_of(mesh);
  double whole = 0;
  for (const Facet& facet : facets) whole += facet.area;
  std::vector<PlaneFace> faces;
  for (const Facet* seed : seeds_of(facets)) {
    if (std::abs(seed->normal.z) > kLevel) continue;
    const PlaneFace bare{seed->normal, offset_of(*seed), 0};
    if (is_known(faces, bare) || !all_behind(mesh, bare)) continue;
    const PlaneFace plane = grown_from(*seed, facets);
    if (plane.area >= least_share * whole) faces.push_back(plane);
  }
  std::stable_sort(faces.begin(), faces.end(),
                   [](const PlaneFace& one, const PlaneFace& other) { return one.area > other.area; });
  std::vector<DownFace> named;
  for (const PlaneFace& face : faces) {
    if (named.size() == kMostFaces) break;
    named.push_back({"plane face " + count_text(named.size() + 1), face.normal});
  }
  return named;
}

}  // namespace crownwright::printing
