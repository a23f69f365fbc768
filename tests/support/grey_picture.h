#pragma once
// Pictures as other programs' libraries read them: PNG through cairo, PGM ("P5") as pdftoppm writes it.

#include <cairo/cairo.h>
#include <gtest/gtest.h>

#include <cstddef>
#include <cstring>
#include <fstream>
#include <string>
#include <vector>

namespace crownwright::test {

/// One grey a pixel, 0 black to 255 white. A picture that could not be read has no size.
struct GreyPicture {
  int width = 0, height = 0;
  std::vector<unsigned char> grey;
  bool all_grey = true;   ///< no pixel has a colour
  double dots_a_mm = 10;  ///< of a page drawn at 254 dots an inch

  int at(int x, int y) const { return grey.at(static_cast<std::size_t>(y * width + x)); }
  /// 0 white to 1 black; beyond the picture 0.
  double ink(int x, int y) const {
    return x < 0 || y < 0 || x >= width || y >= height ? 0 : 1 - at(x, y) / 255.0;
  }
  /// The middle of the ink within 1.2 mm of `along` (mm), weighed by its darkness: across a row at height
  /// `other`, or down a column.
  double line_at(double along, double other, bool down) const {
    double sum = 0, moment = 0;
    const int fixed = static_cast<int>(other * dots_a_mm);
    const int from = static_cast<int>((along - 1.2) * dots_a_mm);
    const int to = static_cast<int>((along + 1.2) * dots_a_mm);
    for (int i = from; i <= to; ++i) {
      const double dark = down ? ink(fixed, i) : ink(i, fixed);
      sum += dark, moment += dark * (i + 0.5);
    }
    EXPECT_GT(sum, 0.5) << "no line near " << along << " on " << other;
    return moment / sum / dots_a_mm;
  }
};

inline GreyPicture read_png(const std::string& png) {
  struct Source {
    const std::string* bytes;
    std::size_t at = 0;
    static cairo_status_t read(void* self, unsigned char* data, unsigned length) {
      auto& from = *static_cast<Source*>(self);
      if (from.bytes->size() - from.at < length) return CAIRO_STATUS_READ_ERROR;
      std::memcpy(data, from.bytes->data() + from.at, length);
      from.at += length;
      return CAIRO_STATUS_SUCCESS;
    }
  } source{&png};
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(Source::read, &source);
  GreyPicture picture;
  EXPECT_EQ(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
  if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
    picture.width = cairo_image_surface_get_width(surface);
    picture.height = cairo_image_surface_get_height(surface);
    const unsigned char* const data = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < picture.height; ++y) {
      for (int x = 0; x < picture.width; ++x) {
        const unsigned char* const pixel = data + y * stride + 4 * x;
        picture.all_grey = picture.all_grey && pixel[0] == pixel[1] && pixel[1] == pixel[2];
        picture.grey.push_back(pixel[1]);
      }
    }
  }
  cairo_surface_destroy(surface);
  return picture;
}

inline GreyPicture read_pgm(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::string magic;
  int most = 0;
  GreyPicture picture;
  in >> magic >> picture.width >> picture.height >> most;
  EXPECT_EQ(magic, "P5") << path;
  EXPECT_EQ(most, 255) << path;
  in.get();
  picture.grey.resize(static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
  in.read(reinterpret_cast<char*>(picture.grey.data()), static_cast<std::streamsize>(picture.grey.size()));
  EXPECT_TRUE(in.good()) << path;
  return picture;
}

}  // namespace crownwright::test
