// Pictures on the pages of a drawing, as poppler draws them.
#include "drawings/work_drawing.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "drawings/milling_pages.h"

namespace crownwright::drawings {
namespace {

// Twice as wide as high.
std::string black_png() {
  ChartCanvas canvas(ChartCanvas::Kind::png, 40, 20, 80);
  canvas.fill({{0, 0}, {40, 0}, {40, 20}, {0, 20}}, grey(0));
  return canvas.finish();
}

// In a box of 100 by 100 at (20, 20) it is 100 wide and 50 high, from 45 to 95 down.
TEST(WorkDrawing, PicturesFillTheirBoxFromItsMiddle) {
  WorkDrawing drawing(150, 140);
  drawing.picture(black_png(), {20, 20}, 100, 100);
  const auto page = printed::PrintedSheet(drawing.pdf("Black")).picture(1);
  for (const double x : {20.5, 70.0, 119.5})
    for (const double y : {45.5, 70.0, 94.5})
      EXPECT_GT(page.ink(static_cast<int>(10 * x), static_cast<int>(10 * y)), 0.9) << x << ", " << y;
  for (const double y : {44.0, 96.0, 25.0, 115.0})
    EXPECT_LT(page.ink(700, static_cast<int>(10 * y)), 0.1) << y;
  for (const double x : {19.0, 121.0}) EXPECT_LT(page.ink(static_cast<int>(10 * x), 700), 0.1) << x;
}

TEST(WorkDrawing, WhatIsNoPictureIsRefused) {
  for (const std::string& bytes : {std::string(), std::string("no PNG"), black_png().substr(0, 60)}) {
    WorkDrawing drawing(100, 100);
    drawing.picture(bytes, {0, 0}, 50, 50);
    EXPECT_THROW(drawing.pdf("None"), std::runtime_error) << bytes.size();
  }
}

}  // namespace
}  // namespace crownwright::drawings
