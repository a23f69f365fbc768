#include "drawings/picture.h"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <memory>
#include <numbers>
#include <stdexcept>

// Light comes from the upper left in front of the eye, so it turns with the eye and no side of a form is ever
// lost in the dark. A facet's brightness is ambient + diffuse, where diffuse falls with the cosine softened
// as (1 + cos)/2: plain cosine leaves half a dome flat black in print. A contour is where depth jumps between
// neighbouring samples or another mesh begins.

namespace crownwright::drawings {
namespace {

using mesh::Point3;

constexpr int samples = 4;  // along each side of a pixel
constexpr double ambient = 0.25, contour_tone = 0.35;
constexpr double contour_jump = 0.02;  // of the height of what is seen

Point3 minus(const Point3& a, const Point3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
double dot_of(const Point3& a, const Point3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Point3 cross_of(const Point3& a, const Point3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

// To the right, upwards and towards the eye.
class Eye {
 public:
  explicit Eye(const PictureRules& rules) {
    const double up = rules.up * std::numbers::pi / 180, round = rules.round * std::numbers::pi / 180;
    right_ = {std::cos(round), std::sin(round), 0};
    towards_ = {std::sin(round) * std::cos(up), -std::cos(round) * std::cos(up), std::sin(up)};
    upwards_ = cross_of(towards_, right_);
  }
  Point3 see(const Point3& p) const { return {dot_of(p, right_), dot_of(p, upwards_), dot_of(p, towards_)}; }

 private:
  Point3 right_, upwards_, towards_;
};

struct Window {
  double low_x = std::numeric_limits<double>::max(), low_y = low_x, high_x = -low_x, high_y = -low_x;
  void hold(const Point3& p) {
    low_x = std::min(low_x, p.x), high_x = std::max(high_x, p.x);
    low_y = std::min(low_y, p.y), high_y = std::max(high_y, p.y);
  }
};

struct Sample {
  float depth = -std::numeric_limits<float>::max();
  float tone = 1;
  std::int32_t mesh = -1;
};

class Picture {
 public:
  explicit Picture(const PictureRules& rules)
      : width_(rules.width * samples),
        height_(rules.height * samples),
        samples_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_)) {}

  int width() const { return width_; }
  int height() const { return height_; }

  // Corners in samples, x to the right and y down, z towards the eye.
  void fill(const Point3 (&p)[3], float tone, std::int32_t mesh) {
    const double area = (p[1].x - p[0].x) * (p[2].y - p[0].y) - (p[2].x - p[0].x) * (p[1].y - p[0].y);
    if (!(area < 0)) return;  // turned away; y points down, so facets towards the eye run clockwise
    const int top = std::max(0, static_cast<int>(std::ceil(std::min({p[0].y, p[1].y, p[2].y}) - 0.5)));
    const int bottom =
        std::min(height_ - 1, static_cast<int>(std::floor(std::max({p[0].y, p[1].y, p[2].y}) - 0.5)));
    const int left = std::max(0, static_cast<int>(std::ceil(std::min({p[0].x, p[1].x, p[2].x}) - 0.5)));
    const int right =
        std::min(width_ - 1, static_cast<int>(std::floor(std::max({p[0].x, p[1].x, p[2].x}) - 0.5)));
    for (int y = top; y <= bottom; ++y) {
      for (int x = left; x <= right; ++x) {
        const double dx = x + 0.5 - p[0].x, dy = y + 0.5 - p[0].y;
        const double u = (dx * (p[2].y - p[0].y) - (p[2].x - p[0].x) * dy) / area;
        const double v = ((p[1].x - p[0].x) * dy - dx * (p[1].y - p[0].y)) / area;
        if (u < -1e-9 || v < -1e-9 || u + v > 1 + 1e-9) continue;
        const auto depth = static_cast<float>(p[0].z + u * (p[1].z - p[0].z) + v * (p[2].z - p[0].z));
        Sample& sample = at(x, y);
        if (depth > sample.depth) sample = {depth, tone, mesh};
      }
    }
  }

  // Half a pixel to either side of a jump of more than `jump` in depth, or of another mesh's beginning.
  void draw_contours(float jump) {
    std::vector<std::pair<int, int>> found;
    for (int y = 0; y + 1 < height_; ++y) {
      for (int x = 0; x + 1 < width_; ++x) {
        if (parts(at(x, y), at(x + 1, y), jump) || parts(at(x, y), at(x, y + 1), jump))
          found.emplace_back(x, y);
      }
    }
    for (const auto& [x, y] : found) {
      for (int dy = -1; dy <= 2; ++dy) {
        for (int dx = -1; dx <= 2; ++dx) darken(x + dx, y + dy);
      }
    }
  }

  std::string png() const {
    const int across = width_ / samples, down = height_ / samples;
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down));
    cairo_surface_flush(surface.get());
    unsigned char* const data = cairo_image_surface_get_data(surface.get());
    if (data == nullptr) throw std::bad_alloc();
    const int stride = cairo_image_surface_get_stride(surface.get());
    for (int y = 0; y < down; ++y) {
      auto* const row = reinterpret_cast<std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride);
      for (int x = 0; x < across; ++x) row[x] = pixel(x, y) * 0x010101u;
    }
    cairo_surface_mark_dirty(surface.get());
    std::string bytes;
    const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
    if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
    return bytes;
  }

 private:
  struct Destroy {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  };
  using Surface = std::unique_ptr<cairo_surface_t, Destroy>;

  static cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  }

  Sample& at(int x, int y) {
    return samples_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                    static_cast<std::size_t>(x)];
  }
  const Sample& at(int x, int y) const { return const_cast<Picture*>(this)->at(x, y); }

  static bool parts(const Sample& a, const Sample& b, float jump) {
    if (a.mesh < 0 && b.mesh < 0) return false;
    return a.mesh != b.mesh || std::abs(a.depth - b.depth) > jump;
  }

  void darken(int x, int y) {
    if (x < 0 || y < 0 || x >= width_ || y >= height_) return;
    Sample& sample = at(x, y);
    sample.tone = std::min(sample.tone, static_cast<float>(contour_tone));
  }

  std::uint32_t pixel(int x, int y) const {
    double sum = 0;
    for (int k = 0; k < samples * samples; ++k)
      sum += static_cast<double>(at(x * samples + k % samples, y * samples + k / samples).tone);
    return static_cast<std::uint32_t>(sum / (samples * samples) * 255 + 0.5);
  }

  int width_, height_;
  std::vector<Sample> samples_;
};

void require_picture(const std::vector<PicturedMesh>& meshes, const PictureRules& rules) {
  const auto is_size = [](int pixels) { return pixels >= 16 && pixels <= 4096; };
  if (!is_size(rules.width) || !is_size(rules.height) || !(rules.margin >= 0 && rules.margin < 0.5))
    throw std::logic_error("a picture of a size that is none");
  bool seen = false;
  for (const PicturedMesh& one : meshes) {
    if (one.mesh == nullptr || !(one.tone >= 0 && one.tone <= 1))
      throw std::logic_error("a picture of no mesh");
    seen = seen || !one.mesh->triangles.empty();
  }
  if (!seen) throw std::logic_error("a picture of nothing");
}

Point3 corner_of(const PicturedMesh& one, std::uint32_t v) {
  const mesh::Vertex& vertex = one.mesh->vertices.at(v);
  return one.place({vertex.x, vertex.y, vertex.z});
}

Window window_of(const std::vector<PicturedMesh>& meshes, const Eye& eye) {
  Window window;
  for (const PicturedMesh& one : meshes) {
    for (const mesh::Triangle& t : one.mesh->triangles) {
      for (const std::uint32_t v : t) window.hold(eye.see(corner_of(one, v)));
    }
  }
  if (!std::isfinite(window.high_x - window.low_x) || !std::isfinite(window.high_y - window.low_y))
    throw std::logic_error("a picture of a mesh without end");
  return window;
}

float tone_of(const Point3& a, const Point3& b, const Point3& c, double tone) {
  const Point3 light{-0.45, 0.62, 0.64};  // of length 1, near enough
  const Point3 normal = cross_of(minus(b, a), minus(c, a));
  const double length = std::sqrt(dot_of(normal, normal));
  const double cosine = length > 0 ? dot_of(normal, light) / length : 0;
  const double soft = std::max(0.0, (1 + cosine) / 2);
  return static_cast<float>(tone * std::min(1.0, ambient + (1 - ambient) * soft * soft));
}

}  // namespace

std::string picture_png(const std::vector<PicturedMesh>& meshes, const PictureRules& rules) {
  require_picture(meshes, rules);
  const Eye eye(rules);
  const Window window = window_of(meshes, eye);
  Picture picture(rules);
  const double wide = std::max(window.high_x - window.low_x, 1e-9);
  const double high = std::max(window.high_y - window.low_y, 1e-9);
  const double scale = (1 - 2 * rules.margin) * std::min(picture.width() / wide, picture.height() / high);
  const double middle_x = (window.low_x + window.high_x) / 2, middle_y = (window.low_y + window.high_y) / 2;
  const auto on_picture = [&](const Point3& seen) -> Point3 {
    return {picture.width() / 2.0 + scale * (seen.x - middle_x),
            picture.height() / 2.0 - scale * (seen.y - middle_y), seen.z};
  };
  for (std::size_t k = 0; k < meshes.size(); ++k) {
    for (const mesh::Triangle& t : meshes[k].mesh->triangles) {
      const Point3 a = eye.see(corner_of(meshes[k], t[0])), b = eye.see(corner_of(meshes[k], t[1])),
                   c = eye.see(corner_of(meshes[k], t[2]));
      picture.fill({on_picture(a), on_picture(b), on_picture(c)}, tone_of(a, b, c, meshes[k].tone),
                   static_cast<std::int32_t>(k));
    }
  }
  picture.draw_contours(static_cast<float>(contour_jump * std::max(wide, high)));
  return picture.png();
}

}  // namespace crownwright::drawings
