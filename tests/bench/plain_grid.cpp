#include "bench/plain_grid.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace crownwright::bench {
namespace {

using mesh::Vertex;

// Each direction may take half the tolerance: sagitta of one step = tolerance / 2.
std::size_t parts_of(const meridian::Segment& segment, double tolerance) {
  if (!segment.is_arc()) return 1;
  const double step = 2 * std::acos(1 - std::min(1.0, tolerance / 2 / segment.radius()));
  return std::max<std::size_t>(1, std::size_t(std::ceil(std::abs(segment.turn()) / step)));
}

std::vector<meridian::Point> rows_of(const solid::Solid& solid, double tolerance) {
  std::vector<meridian::Point> rows;
  for (const solid::Shell& shell : solid.shells) {
    for (const meridian::Segment& segment : shell.walk) {
      const std::size_t parts = parts_of(segment, tolerance);
      for (std::size_t k = 0; k < parts; ++k)
        rows.push_back(segment.at(segment.length() * double(k) / double(parts)));
    }
    rows.push_back(shell.walk.back().to());
  }
  return rows;
}

std::vector<Vertex> grid_of(const std::vector<meridian::Point>& rows, std::size_t columns) {
  std::vector<double> cosine(columns), sine(columns);
  for (std::size_t j = 0; j < columns; ++j) {
    const double angle = 2 * std::numbers::pi * double(j) / double(columns);
    cosine[j] = std::cos(angle);
    sine[j] = std::sin(angle);
  }
  std::vector<Vertex> grid;
  grid.reserve(rows.size() * columns);
  for (const meridian::Point& row : rows) {
    for (std::size_t j = 0; j < columns; ++j) {
      grid.push_back({float(row.r * cosine[j]), float(row.r * sine[j]), float(row.z)});
    }
  }
  return grid;
}

char* put_facet(char* at, const Vertex& a, const Vertex& b, const Vertex& c) {
  const float ux = b.x - a.x, uy = b.y - a.y, uz = b.z - a.z, vx = c.x - a.x, vy = c.y - a.y, vz = c.z - a.z;
  float nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
  const float length = std::sqrt(nx * nx + ny * ny + nz * nz);
  if (length > 0) nx /= length, ny /= length, nz /= length;
  const float numbers[12] = {nx, ny, nz, a.x, a.y, a.z, b.x, b.y, b.z, c.x, c.y, c.z};
  std::memcpy(at, numbers, sizeof numbers);
  std::memset(at + sizeof numbers, 0, 2);
  return at + 50;
}

template <class Visit>
void each_facet(std::size_t rows, std::size_t columns, Visit visit) {
  for (std::size_t i = 0; i + 1 < rows; ++i) {
    for (std::size_t j = 0; j < columns; ++j) {
      const std::size_t k = j + 1 < columns ? j + 1 : 0;
      const std::size_t a = i * columns + j, b = i * columns + k, c = a + columns, d = b + columns;
      visit(a, c, d);
      visit(a, d, b);
    }
  }
}

}  // namespace

PlainGrid::PlainGrid(const solid::Solid& solid, double tolerance, std::size_t triangles)
    : solid_(solid), rows_(rows_of(solid, tolerance).size()), tolerance_(tolerance) {
  columns_ = std::max<std::size_t>(3, triangles / (2 * (rows_ - 1)));
}

std::size_t PlainGrid::triangles() const { return 2 * (rows_ - 1) * columns_; }

void PlainGrid::write(const std::string& path) const {
  const auto grid = grid_of(rows_of(solid_, tolerance_), columns_);
  const std::size_t size = 84 + 50 * triangles();
  const auto bytes = std::make_unique_for_overwrite<char[]>(size);
  std::memset(bytes.get(), 0, 80);
  const auto count = static_cast<std::uint32_t>(triangles());
  std::memcpy(bytes.get() + 80, &count, 4);
  char* at = bytes.get() + 84;
  each_facet(rows_, columns_, [&](std::size_t a, std::size_t b, std::size_t c) {
    at = put_facet(at, grid[a], grid[b], grid[c]);
  });
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0666);
  if (file < 0) throw std::runtime_error("cannot open " + path);
  const bool whole = ::write(file, bytes.get(), size) == ssize_t(size) && ::ftruncate(file, off_t(size)) == 0;
  ::close(file);
  if (!whole) throw std::runtime_error("cannot write " + path);
}

mesh::TriangleMesh PlainGrid::mesh() const {
  mesh::TriangleMesh mesh;
  mesh.vertices = grid_of(rows_of(solid_, tolerance_), columns_);
  each_facet(rows_, columns_, [&](std::size_t a, std::size_t b, std::size_t c) {
    mesh.triangles.push_back({std::uint32_t(a), std::uint32_t(b), std::uint32_t(c)});
  });
  return mesh;
}

}  // namespace crownwright::bench
