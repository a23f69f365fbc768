// draw_form MESH.stl PICTURE.png: the form seen from above its side, and beside it the same cut open along
// its axis. Prints how much of the picture the form covers, in per cent.

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <vector>

#include "files/mesh_reader.h"

namespace {

using crownwright::mesh::TriangleMesh;

struct Vec {
  double x, y, z;
};
Vec sub(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
Vec cross(Vec a, Vec b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

constexpr int width = 480, height = 320, finer = 3;

class Canvas {
 public:
  Canvas() : depth_(pixels(), -1e300), shade_(pixels(), -1) {}
  static std::size_t pixels() { return std::size_t{width} * finer * 2 * height * finer; }
  static int across() { return width * finer * 2; }

  // Corners in picture coordinates, z towards the eye, and their depth behind the axis, below 0 in front of
  // it; shade 0..1 for the outside, 2..3 for the inside of the material.
  void fill(const Vec (&p)[3], const double (&depth)[3], bool cut, double shade) {
    const double area = (p[1].x - p[0].x) * (p[2].y - p[0].y) - (p[2].x - p[0].x) * (p[1].y - p[0].y);
    if (std::abs(area) < 1e-12) return;
    const auto low = [](double a, double b, double c) {
      return static_cast<int>(std::floor(std::min({a, b, c})));
    };
    const auto high = [](double a, double b, double c) {
      return static_cast<int>(std::ceil(std::max({a, b, c})));
    };
    for (int y = std::max(0, low(p[0].y, p[1].y, p[2].y));
         y <= std::min(height * finer - 1, high(p[0].y, p[1].y, p[2].y)); ++y) {
      for (int x = std::max(0, low(p[0].x, p[1].x, p[2].x));
           x <= std::min(across() - 1, high(p[0].x, p[1].x, p[2].x)); ++x) {
        const double u = ((x - p[0].x) * (p[2].y - p[0].y) - (p[2].x - p[0].x) * (y - p[0].y)) / area;
        const double v = ((p[1].x - p[0].x) * (y - p[0].y) - (x - p[0].x) * (p[1].y - p[0].y)) / area;
        if (u < -1e-9 || v < -1e-9 || u + v > 1 + 1e-9) continue;
        if (cut && depth[0] + u * (depth[1] - depth[0]) + v * (depth[2] - depth[0]) < 0) continue;
        const double z = p[0].z + u * (p[1].z - p[0].z) + v * (p[2].z - p[0].z);
        const std::size_t i =
            static_cast<std::size_t>(y) * static_cast<std::size_t>(across()) + static_cast<std::size_t>(x);
        if (z <= depth_[i]) continue;
        depth_[i] = z;
        shade_[i] = shade;
      }
    }
  }

  // Averages finer x finer samples into each pixel; a warm grey for faces, a terracotta for the cut material.
  double paint(cairo_surface_t* picture) const {
    cairo_surface_flush(picture);
    unsigned char* data = cairo_image_surface_get_data(picture);
    const int stride = cairo_image_surface_get_stride(picture);
    std::size_t covered = 0;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < 2 * width; ++x) {
        double sum[3] = {0, 0, 0};
        for (int k = 0; k < finer * finer; ++k) {
          const std::size_t i =
              static_cast<std::size_t>((y * finer + k / finer) * across() + x * finer + k % finer);
          const double s = shade_[i];
          covered += s >= 0 ? 1 : 0;
          const double inside = s >= 2 ? 1 : 0, light = s < 0 ? 1 : s - 2 * inside;
          const double colour[3] = {s < 0 ? 1 : light * (inside > 0 ? 0.80 : 0.93),
                                    s < 0 ? 1 : light * (inside > 0 ? 0.52 : 0.90),
                                    s < 0 ? 1 : light * (inside > 0 ? 0.40 : 0.84)};
          for (int c = 0; c < 3; ++c) sum[c] += colour[c];
        }
        std::uint32_t pixel = 0xFF;
        for (const double c : sum)
          pixel = pixel << 8 | static_cast<std::uint32_t>(c / (finer * finer) * 255 + 0.5);
        reinterpret_cast<std::uint32_t*>(data + y * stride)[x] = pixel;
      }
    }
    cairo_surface_mark_dirty(picture);
    return 100.0 * static_cast<double>(covered) / static_cast<double>(pixels());
  }

 private:
  std::vector<double> depth_, shade_;
};

// Eye above the side: 32 degrees up. `cut`: what lies nearer than the axis is left out.
void draw(const TriangleMesh& mesh, bool cut, double left, double scale, double middle, Canvas& canvas) {
  const double up = 0.56, s = std::sin(up), c = std::cos(up);
  const Vec light{-0.45, 0.35, 0.82};
  for (const auto& t : mesh.triangles) {
    Vec p[3], q[3];
    double depth[3];
    for (std::size_t i = 0; i < 3; ++i) {
      const auto& v = mesh.vertices[t[i]];
      p[i] = {v.x, v.y, v.z - middle};
      depth[i] = p[i].y;
      // The eye looks along +y and down.
      const Vec seen{p[i].x, p[i].z * c + p[i].y * s, p[i].z * s - p[i].y * c};
      q[i] = {left + scale * seen.x, height * finer / 2.0 - scale * seen.y, seen.z};
    }
    Vec n = cross(sub(p[1], p[0]), sub(p[2], p[0]));
    const double length = std::sqrt(dot(n, n));
    n = {n.x / length, n.z * c + n.y * s, n.z * s - n.y * c};
    n.y /= length;
    n.z /= length;
    const bool from_behind = n.z < 0;
    const double lit = 0.35 + 0.65 * std::max(0.0, std::abs(dot(n, light)));
    canvas.fill(q, depth, cut, (from_behind ? 2 : 0) + std::min(lit, 0.999));
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const auto mesh = crownwright::files::read_mesh(argv[1]);
  if (!mesh) {
    std::fprintf(stderr, "%s\n", mesh.fault().line().c_str());
    return static_cast<int>(mesh.fault().exit);
  }
  double reach = 0, top = 0;
  for (const auto& v : mesh->vertices) {
    reach = std::max(reach, std::hypot(double(v.x), double(v.y)));
    top = std::max(top, double(v.z));
  }
  const double scale =
      finer * std::min(0.46 * width / reach, 0.92 * height / (2 * reach * 0.53 + top * 0.85));
  Canvas canvas;
  draw(*mesh, false, width * finer * 0.5, scale, top / 2, canvas);
  draw(*mesh, true, width * finer * 1.5, scale, top / 2, canvas);
  cairo_surface_t* picture = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 2 * width, height);
  const double share = canvas.paint(picture);
  const bool written = cairo_surface_write_to_png(picture, argv[2]) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(picture);
  std::printf("%.1f\n", share);
  return written ? 0 : 4;
}
