#include "report/meridian_picture.h"

#include <algorithm>
#include <cmath>

namespace crownwright::report {
namespace {

// A raster of square dots; a braille character holds 2 x 4 of them, an ASCII one 1 x 2.
class Raster {
 public:
  Raster(int width, int height)
      : width_(width),
        height_(height),
        dots_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height)) {}
  void set(int x, int y) {
    if (x >= 0 && x < width_ && y >= 0 && y < height_) dots_[index(x, y)] = 1;
  }
  bool at(int x, int y) const {
    return x >= 0 && x < width_ && y >= 0 && y < height_ && dots_[index(x, y)] != 0;
  }
  int width() const { return width_; }
  int height() const { return height_; }

 private:
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
  }
  int width_, height_;
  std::vector<char> dots_;
};

struct Heights {
  double low = 0, high = 0;
};

Heights heights_of(const meridian::Chain& chain, double step) {
  Heights range{chain.front().from().z, chain.front().from().z};
  const double whole = meridian::length(chain);
  const int steps = static_cast<int>(std::ceil(whole / step));
  for (int i = 0; i <= steps; ++i) {
    const double z = meridian::at(chain, std::min(whole, i * step)).z;
    range = {std::min(range.low, z), std::max(range.high, z)};
  }
  return range;
}

Raster drawn(const meridian::Chain& chain, int dots_wide, double millimetres) {
  const double dot = millimetres / dots_wide;
  const double step = dot / 4;  // fine enough to leave no gap
  const Heights heights = heights_of(chain, step);
  Raster raster(dots_wide, static_cast<int>(std::floor((heights.high - heights.low) / dot)) + 1);
  const double whole = meridian::length(chain);
  const int steps = static_cast<int>(std::ceil(whole / step));
  for (int i = 0; i <= steps; ++i) {
    const meridian::Point p = meridian::at(chain, std::min(whole, i * step));
    const int x = static_cast<int>(std::floor(p.r / dot));
    const int y = static_cast<int>(std::floor((heights.high - p.z) / dot));
    raster.set(dots_wide / 2 + x, y);
    raster.set(dots_wide / 2 - 1 - x, y);
  }
  return raster;
}

// The eight dots of a braille character by column and row (Unicode 15, section 21.1).
std::string braille(const Raster& raster, int x, int y) {
  constexpr int bits[2][4] = {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}};
  int pattern = 0;
  for (int dx = 0; dx < 2; ++dx) {
    for (int dy = 0; dy < 4; ++dy) pattern |= raster.at(x + dx, y + dy) ? bits[dx][dy] : 0;
  }
  if (pattern == 0) return " ";
  return {static_cast<char>(0xE2), static_cast<char>(0xA0 | (pattern >> 6)),
          static_cast<char>(0x80 | (pattern & 0x3F))};
}

std::string ascii(const Raster& raster, int x, int y) {
  const bool upper = raster.at(x, y), lower = raster.at(x, y + 1);
  if (upper && lower) return "|";
  return upper ? "\"" : lower ? "_" : " ";
}

}  // namespace

std::vector<std::string> meridian_picture(const meridian::Chain& chain, int columns, double millimetres,
                                          Glyphs glyphs) {
  if (chain.empty()) return {};
  const int wide = glyphs == Glyphs::braille ? 2 : 1, high = 2 * wide;
  const Raster raster = drawn(chain, columns / 2 * 2 * wide, millimetres);
  std::vector<std::string> lines;
  for (int y = 0; y < raster.height(); y += high) {
    std::string line;
    for (int x = 0; x < raster.width(); x += wide) {
      line += glyphs == Glyphs::braille ? braille(raster, x, y) : ascii(raster, x, y);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    lines.push_back(line);
  }
  return lines;
}

}  // namespace crownwright::report
