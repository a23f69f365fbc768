#include <gtest/gtest.h>

#include <numbers>

#include "drawings/compare_lines.h"
#include "drawings/dxf_text.h"
#include "drawings/read_drawing.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;
using test::dxf;

Lines read(const std::string& text, const DrawingRules& rules = {}) {
  const auto lines = read_lines(text, "panel.dxf", rules);
  EXPECT_TRUE(lines.ok()) << lines.fault().line();
  return lines.ok() ? *lines : Lines{};
}

Outline only_loop(const std::string& text, const DrawingRules& rules = {}) {
  const Lines lines = read(text, rules);
  EXPECT_EQ(lines.closed.size(), 1u);
  EXPECT_TRUE(lines.open.empty());
  return lines.closed.size() == 1 ? lines.closed[0] : Outline{};
}

constexpr const char* square_entity =
    "0 LWPOLYLINE|8 cut|90 4|70 1|10 0|20 0|10 50|20 0|10 50|20 30|10 0|20 30";

TEST(Dxf, YRunsDownTheSheetOnceRead) {
  const Outline loop = only_loop(dxf(square_entity));
  EXPECT_EQ(loop, (Outline{{0, 0}, {50, 0}, {50, -30}, {0, -30}}));
}

TEST(Dxf, LinesInAnyOrderAndDirectionMakeALoop) {
  const Outline loop =
      only_loop(dxf("0 LINE|8 0|10 0|20 0|11 50|21 0|0 LINE|8 0|10 0|20 30|11 50|21 30|"
                    "0 LINE|8 0|10 50|20 30|11 50.006|21 0|0 LINE|8 0|10 0|20 0|11 0|21 30"));
  EXPECT_EQ(loop.size(), 4u);
  EXPECT_NEAR(std::abs(signed_area(loop)), 1500, 0.2);
}

// DXF reference: $INSUNITS 1 inch, 2 foot, 4 mm, 5 cm, 6 m, 14 dm.
TEST(Dxf, ScaleFollowsTheUnits) {
  for (const auto& [code, mm] :
       {std::pair{1, 25.4}, {2, 304.8}, {4, 1.0}, {5, 10.0}, {6, 1000.0}, {14, 100.0}}) {
    EXPECT_NEAR(only_loop(dxf(square_entity, code))[1].x, 50 * mm, 1e-9) << code;
  }
  DrawingRules rules;
  rules.unit_mm = 25.4;
  EXPECT_NEAR(only_loop(dxf(square_entity, -1), rules)[1].x, 50 * 25.4, 1e-9);
}

// DXF reference: bulge is the tangent of a quarter of the arc's angle; 1 is a half circle; positive runs
// counter-clockwise, so a counter-clockwise outline bulges outward.
TEST(Dxf, BulgesAreArcs) {
  const Outline round = only_loop(dxf("0 LWPOLYLINE|90 2|70 1|10 -10|20 0|42 1|10 10|20 0|42 1"));
  for (const Vec2 p : round) EXPECT_NEAR(norm(p), 10, 1e-9);
  const double quarter = std::tan(std::numbers::pi / 8);
  const Outline lens = only_loop(
      dxf("0 LWPOLYLINE|90 3|70 1|10 0|20 0|10 10|20 0|42 " + std::to_string(quarter) + "|10 0|20 10"));
  // Right angle at the origin, the far side a quarter circle about it: area pi r^2 / 4.
  EXPECT_NEAR(std::abs(signed_area(lens)), std::numbers::pi * 25, 0.01);
  const Outline hollow = only_loop(
      dxf("0 LWPOLYLINE|90 3|70 1|10 0|20 0|10 10|20 0|42 " + std::to_string(-quarter) + "|10 0|20 10"));
  EXPECT_NEAR(std::abs(signed_area(hollow)), 100 - std::numbers::pi * 25, 0.01);
}

TEST(Dxf, OldPolylinesAreReadToo) {
  const std::string r12 =
      dxf("0 POLYLINE|8 sew|66 1|70 1|0 VERTEX|8 sew|10 -10|20 0|42 1|0 VERTEX|8 sew|10 10|20 0|"
          "42 1|0 SEQEND|8 sew",
          -1);
  DrawingRules rules;
  rules.unit_mm = 1;
  rules.layer = "SEW";  // layer names do not mind their case
  for (const Vec2 p : only_loop(r12, rules)) EXPECT_NEAR(norm(p), 10, 1e-9);
}

TEST(Dxf, FrameVerticesOfFittedPolylinesAreLeftOut) {
  const Outline loop =
      only_loop(dxf("0 POLYLINE|66 1|70 5|0 VERTEX|10 0|20 0|0 VERTEX|10 99|20 99|70 16|0 VERTEX|10 9|"
                    "20 0|0 VERTEX|10 0|20 9|0 SEQEND"));
  EXPECT_EQ(loop.size(), 3u);
}

TEST(Dxf, ArcsCirclesAndEllipses) {
  for (const Vec2 p : only_loop(dxf("0 CIRCLE|10 3|20 4|40 12")))
    EXPECT_NEAR(std::hypot(p.x - 3, p.y + 4), 12, 1e-9);
  // Arcs run counter-clockwise, here over 0 degrees, closed by a line.
  const Outline half = only_loop(dxf("0 ARC|10 0|20 0|40 10|50 270|51 90|0 LINE|10 0|20 10|11 0|21 -10"));
  double right = 0;
  for (const Vec2 p : half) right = std::max(right, p.x);
  EXPECT_NEAR(right, 10, 1e-3);
  EXPECT_NEAR(std::abs(signed_area(half)), std::numbers::pi * 50, 0.02);
  const Outline oval = only_loop(dxf("0 ELLIPSE|10 0|20 0|11 0|21 20|40 0.5|41 0|42 6.283185307179586"));
  for (const Vec2 p : oval) EXPECT_NEAR(std::hypot(p.x / 10, p.y / 20), 1, 1e-9);
}

TEST(Dxf, FiguresSeenFromBelowAreMirrored) {
  const Outline loop = only_loop(dxf("0 CIRCLE|10 30|20 4|40 5|210 0|220 0|230 -1"));
  for (const Vec2 p : loop) EXPECT_NEAR(std::hypot(p.x + 30, p.y + 4), 5, 1e-9);
}

// Piegl and Tiller, The NURBS Book: a circle of nine points, weights 1 and sqrt 1/2 in turn.
TEST(Dxf, RationalSplinesDrawTrueCircles) {
  std::string text = "0 SPLINE|70 4|71 2|72 12|73 9|74 0";
  for (const char* k : {"0", "0", "0", "1", "1", "2", "2", "3", "3", "4", "4", "4"})
    text += "|40 " + std::string(k);
  const double x[] = {1, 1, 0, -1, -1, -1, 0, 1, 1}, y[] = {0, 1, 1, 1, 0, -1, -1, -1, 0};
  for (int i = 0; i < 9; ++i) {
    text += "|10 " + std::to_string(80 * x[i]) + "|20 " + std::to_string(80 * y[i]);
    text += i % 2 ? "|41 0.70710678118654752" : "|41 1";
  }
  const Outline loop = only_loop(dxf(text));
  EXPECT_GT(loop.size(), 200u);
  for (const Vec2 p : loop) EXPECT_NEAR(norm(p), 80, 1e-6);
  EXPECT_NEAR(std::abs(signed_area(loop)), std::numbers::pi * 6400, 2 * std::numbers::pi * 80 * 0.001);
}

// One span of degree 3 is a Bezier curve: the same as SVG draws.
TEST(Dxf, CubicSplineOfFourPointsIsABezier) {
  const Outline spline =
      only_loop(dxf("0 SPLINE|71 3|72 8|73 4|40 0|40 0|40 0|40 0|40 1|40 1|40 1|40 1|10 0|20 0|10 10|"
                    "20 -80|10 90|20 -60|10 100|20 0|0 LINE|10 0|20 0|11 100|21 0"));
  const auto bezier = read_lines(test::svg("<path d='M0,0 C10,80 90,60 100,0 Z'/>"), "a.svg", {});
  ASSERT_TRUE(bezier.ok());
  EXPECT_LT(test::furthest_apart(spline, bezier->closed[0]), 0.002);
}

// A uniform quadratic spline on a square's corners is made of parabolas that touch its sides' middles
// (Chaikin 1974); 5/6 of the square's area lies in it.
TEST(Dxf, UnclampedSplinesClose) {
  std::string text = "0 SPLINE|70 1|71 2|72 9|73 6";
  for (int i = 0; i < 9; ++i) text += "|40 " + std::to_string(i);
  for (const char* p :
       {"|10 0|20 0", "|10 60|20 0", "|10 60|20 60", "|10 0|20 60", "|10 0|20 0", "|10 60|20 0"})
    text += p;
  EXPECT_NEAR(std::abs(signed_area(only_loop(dxf(text)))), 3600 * 5.0 / 6, 0.2);
}

TEST(Dxf, WritingPaperSpaceBlocksAndHiddenLayersAreNotRead) {
  const std::string text = dxf(
      "0 TEXT|8 0|10 1|20 1|40 2|1 Panel|0 MTEXT|8 0|1 x|0 POINT|8 0|10 5|20 5|0 CIRCLE|8 off|10 0|20 0|40 5|"
      "0 CIRCLE|8 0|67 1|10 0|20 0|40 6|" +
          std::string(square_entity),
      4, "0 TABLE|2 LAYER|0 LAYER|2 OFF|70 0|62 -7|0 LAYER|2 cut|70 0|62 7|0 ENDTAB");
  EXPECT_EQ(only_loop(text).size(), 4u);
}

TEST(Dxf, LayersChoose) {
  const std::string text =
      dxf("0 CIRCLE|8 1|10 0|20 0|40 5|0 INSERT|8 3|2 b|10 0|20 0|0 CIRCLE|8 14|10 0|20 0|40 4");
  DrawingRules rules;
  rules.layer = "14";
  for (const Vec2 p : only_loop(text, rules)) EXPECT_NEAR(norm(p), 4, 1e-9);
}

TEST(Dxf, IsKnownByItsFirstBytesToo) {
  EXPECT_TRUE(read_lines(dxf(square_entity), "panel", {}).ok());
  EXPECT_TRUE(read_lines("999\nmade by hand\n" + dxf(square_entity), "panel", {}).ok());
  EXPECT_TRUE(read_lines("\xEF\xBB\xBF" + test::svg("<circle r='3'/>"), "panel", {}).ok());
}

}  // namespace
}  // namespace crownwright::drawings
