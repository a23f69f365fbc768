#include <gtest/gtest.h>

#include <numbers>

#include "drawings/dxf_text.h"
#include "drawings/read_drawing.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;
using test::svg;

Lines read_svg_lines(const std::string& text, const DrawingRules& rules = {}) {
  const auto lines = read_lines(text, "panel.svg", rules);
  EXPECT_TRUE(lines.ok()) << lines.fault().line();
  return lines.ok() ? *lines : Lines{};
}

Outline only_svg_loop(const std::string& text, const DrawingRules& rules = {}) {
  const Lines lines = read_svg_lines(text, rules);
  EXPECT_EQ(lines.closed.size(), 1u);
  EXPECT_TRUE(lines.open.empty());
  return lines.closed.size() == 1 ? lines.closed[0] : Outline{};
}

const Outline square_loop = {{10, 20}, {60, 20}, {60, 70}, {10, 70}};

TEST(SvgPaths, SameSquareInManyWords) {
  for (const char* d :
       {"M10 20H60V70H10Z", "m10,20 50,0 0,50 -50,0z", "M10,20 L60,20 60,70 10,70 Z",
        "M 10 20 h 50 v 50 h -50 v -50", "M1e1+20L6.e1.2e2 60 70,10 70z", "M10 20 h20 h30 v50 H10 z"}) {
    SCOPED_TRACE(d);
    const Outline loop = only_svg_loop(svg("<path d=\"" + std::string(d) + "\"/>"));
    EXPECT_NEAR(std::abs(signed_area(loop)), 2500, 1e-9);
    EXPECT_EQ(loop.front(), (Vec2{10, 20}));
  }
}

TEST(SvgPaths, ShapesGiveTheirOutlines) {
  EXPECT_EQ(only_svg_loop(svg("<polygon points=\"10,20 60,20 60,70 10,70\"/>")), square_loop);
  EXPECT_EQ(only_svg_loop(svg("<rect x=\"10\" y=\"20\" width=\"50\" height=\"50\"/>")), square_loop);
  EXPECT_EQ(only_svg_loop(svg("<polyline points=\"10,20 60,20 60,70 10,70 10,20\"/>")), square_loop);
  EXPECT_EQ(
      only_svg_loop(svg("<line x1='10' y1='20' x2='60' y2='20'/><line x2='60' y2='20' x1='60' y1='70'/>"
                        "<line x1='60' y1='70' x2='10' y2='70'/><line x1='10' y1='20.004' x2='10' y2='70'/>"))
          .size(),
      4u);  // joined end to end, within 0.01 mm
}

TEST(SvgPaths, RoundedCornersTakeFourLessPiRSquaredAway) {
  const Outline loop = only_svg_loop(svg("<rect x='0' y='0' width='80' height='40' rx='10'/>"));
  EXPECT_NEAR(std::abs(signed_area(loop)), 80 * 40 - (4 - std::numbers::pi) * 100, 0.1);
  const Outline wide = only_svg_loop(svg("<rect x='0' y='0' width='80' height='40' rx='100' ry='5'/>"));
  EXPECT_NEAR(std::abs(signed_area(wide)), 80 * 40 - (4 - std::numbers::pi) * 40 * 5, 0.1);
}

TEST(SvgPaths, CirclesAndEllipsesLieOnTheirEquations) {
  for (const Vec2 p : only_svg_loop(svg("<circle cx='50' cy='60' r='45'/>"))) {
    EXPECT_NEAR(std::hypot(p.x - 50, p.y - 60), 45, 1e-9);
  }
  const Outline loop = only_svg_loop(svg("<ellipse cx='50' cy='60' rx='45' ry='20'/>"));
  for (const Vec2 p : loop) EXPECT_NEAR(std::hypot((p.x - 50) / 45, (p.y - 60) / 20), 1, 1e-12);
  EXPECT_NEAR(std::abs(signed_area(loop)), std::numbers::pi * 45 * 20, 0.1);
}

// A chord of a circle of radius r at the tolerance t spans 2 acos(1 - t/r): the loop's area falls short by no
// more than two thirds of the sagitta times the girth.
TEST(SvgPaths, CurvesKeepTheirTolerance) {
  for (const double tolerance : {0.1, 0.01, 0.001}) {
    DrawingRules rules;
    rules.curve_tolerance = tolerance;
    const double area = std::abs(signed_area(only_svg_loop(svg("<circle cx='50' cy='60' r='45'/>"), rules)));
    const double whole = std::numbers::pi * 45 * 45;
    EXPECT_LT(whole - area, 2 * std::numbers::pi * 45 * tolerance * 2 / 3 + 1e-9);
    EXPECT_GT(whole - area, 0);
  }
}

// The four arcs of SVG 1.1, 8.3.8: from (125, 75) to (225, 125) on ellipses of half axes 100 and 50.
TEST(SvgPaths, ArcFlagsChooseTheArcOfTheStandard) {
  const struct {
    const char* flags;
    Vec2 centre;
    double share;  // of the ellipse passed
  } cases[] = {{"0,0", {225, 75}, 0.25},
               {"0,1", {125, 125}, 0.25},
               {"1,0", {125, 125}, 0.75},
               {"1,1", {225, 75}, 0.75}};
  for (const auto& c : cases) {
    SCOPED_TRACE(c.flags);
    const Outline loop =
        only_svg_loop(svg("<path d='M 125,75 a100,50 0 " + std::string(c.flags) + " 100,50 Z'/>"));
    for (const Vec2 p : loop) {
      EXPECT_NEAR(std::hypot((p.x - c.centre.x) / 100, (p.y - c.centre.y) / 50), 1, 1e-9);
    }
    // The segment between arc and chord, as on the unit circle.
    const double angle = 2 * std::numbers::pi * c.share;
    EXPECT_NEAR(std::abs(signed_area(loop)), 100 * 50 * (angle - std::sin(angle)) / 2, 0.2);
  }
}

TEST(SvgPaths, ArcFlagsMayStandTogetherAndSmallRadiiGrow) {
  const Outline tight = only_svg_loop(svg("<path d='M125,75a100,50 0 01100,50z'/>"));
  EXPECT_GT(tight.size(), 50u);
  // Radii too small for their ends: a half circle over the chord (SVG 1.1, F.6.6).
  for (const Vec2 p : only_svg_loop(svg("<path d='M20,50 A1,1 0 0 1 60,50 Z'/>"))) {
    EXPECT_NEAR(std::hypot(p.x - 40, p.y - 50), 20, 1e-9);
  }
}

// A cubic with handles 0.5522847498 r bulges from the quarter circle by at most 0.000273 r (well known; from
// memory).
TEST(SvgPaths, CubicsBendAsAQuarterCircleDoes) {
  const Outline loop = only_svg_loop(svg("<path d='M100,0 C100,55.22847498 55.22847498,100 0,100 L0,0 Z'/>"));
  double most = 0;
  for (const Vec2 p : loop) {
    if (norm(p) < 1) continue;
    most = std::max(most, norm(p) - 100);
    EXPECT_GT(norm(p), 100 - 1e-6);
  }
  EXPECT_NEAR(most, 0.0273, 0.0005);
}

// A parabola: Q from (0,0) over (50,100) to (100,0) is y = 2 x (100 - x) / 100; area 2/3 of its box of 50.
TEST(SvgPaths, QuadraticsAreParabolas) {
  const Outline loop = only_svg_loop(svg("<path d='M0,0 Q50,100 100,0 Z'/>"));
  for (const Vec2 p : loop) EXPECT_NEAR(p.y, 2 * p.x * (100 - p.x) / 100, 1e-9);
  EXPECT_NEAR(std::abs(signed_area(loop)), 2.0 / 3 * 100 * 50, 0.2);
}

TEST(SvgPaths, SmoothCommandsMirrorTheirHandles) {
  const Outline s = only_svg_loop(svg("<path d='M0,0 C0,30 20,50 50,50 S100,30 100,0 Z'/>"));
  const Outline c = only_svg_loop(svg("<path d='M0,0 C0,30 20,50 50,50 C80,50 100,30 100,0 Z'/>"));
  EXPECT_EQ(s, c);
  const Outline t = only_svg_loop(svg("<path d='M0,0 Q25,50 50,50 T100,0 L50,-50 Z'/>"));
  const Outline q = only_svg_loop(svg("<path d='M0,0 Q25,50 50,50 Q75,50 100,0 L50,-50 Z'/>"));
  EXPECT_EQ(t, q);
  // With nothing before it to mirror, the handle is the point itself.
  EXPECT_EQ(only_svg_loop(svg("<path d='M0,0 S100,50 100,0 L50,-9z'/>")),
            only_svg_loop(svg("<path d='M0,0 C0,0 100,50 100,0 L50,-9z'/>")));
}

TEST(SvgPaths, SubpathsAreLinesOfTheirOwn) {
  const Lines lines = read_svg_lines(svg("<path d='M0,0 h10 v10 z m20,0 h10 v10 z M50,50 L60,60'/>"));
  ASSERT_EQ(lines.closed.size(), 2u);
  EXPECT_EQ(lines.closed[1].front(), (Vec2{20, 0}));
  ASSERT_EQ(lines.open.size(), 1u);
}

TEST(SvgPaths, GoOnFromTheStartAfterClosing) {
  const Lines lines = read_svg_lines(svg("<path d='M5,5 h10 v10 z l -3,-3'/>"));
  ASSERT_EQ(lines.open.size(), 1u);
  EXPECT_EQ(lines.open[0].front(), (Vec2{5, 5}));
}

// --- scale and place

double width_of(const std::string& head) {
  const Outline loop = only_svg_loop("<svg xmlns='http://www.w3.org/2000/svg' " + head +
                                     "><rect x='0' y='0' width='96' height='48'/></svg>");
  return loop.size() == 4 ? loop[1].x - loop[0].x : 0;
}

// CSS Values 5.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc.
TEST(SvgScale, FollowsTheUnitsOfWidthAndHeight) {
  EXPECT_NEAR(width_of("width='2in' height='2in'"), 25.4, 1e-9);  // user units are px
  EXPECT_NEAR(width_of("width='960mm' height='960mm' viewBox='0 0 960 960'"), 96, 1e-9);
  EXPECT_NEAR(width_of("width='96cm' height='96cm' viewBox='0 0 960 960'"), 96, 1e-9);
  EXPECT_NEAR(width_of("width='1in' height='1in' viewBox='0 0 96 96'"), 25.4, 1e-9);
  EXPECT_NEAR(width_of("width='72pt' height='72pt' viewBox='0 0 96 96'"), 25.4, 1e-9);
  EXPECT_NEAR(width_of("width='6pc' height='6pc' viewBox='0 0 96 96'"), 25.4, 1e-9);
  EXPECT_NEAR(width_of("width='96px' height='96px' viewBox='0 0 96 96'"), 25.4, 1e-9);
  EXPECT_NEAR(width_of("width='96mm' viewBox='0 0 96 96'"), 96, 1e-9);
}

TEST(SvgScale, OfABoxOfAnotherShapeIsTheSmallerUnlessSliced) {
  EXPECT_NEAR(width_of("width='96mm' height='192mm' viewBox='0 0 96 96'"), 96, 1e-9);
  EXPECT_NEAR(
      width_of("width='96mm' height='192mm' viewBox='0 0 96 96' preserveAspectRatio='xMidYMid slice'"), 192,
      1e-9);
}

TEST(SvgScale, MayBeStated) {
  DrawingRules rules;
  rules.unit_mm = 2;
  const Outline loop =
      only_svg_loop("<svg width='10' height='10'><rect width='96' height='48'/></svg>", rules);
  EXPECT_NEAR(loop[1].x, 192, 1e-12);
}

TEST(SvgPlace, TransformsNest) {
  const Outline loop =
      only_svg_loop(svg("<g transform='translate(10,20)'><g transform='rotate(90) scale(2)'>"
                        "<rect transform='matrix(1 0 0 1 1 0)' width='5' height='3'/></g></g>"));
  // (1, 0) doubled, turned to (0, 2), moved to (10, 22).
  EXPECT_NEAR(loop[0].x, 10, 1e-9);
  EXPECT_NEAR(loop[0].y, 22, 1e-9);
  EXPECT_NEAR(loop[2].x, 10 - 6, 1e-9);
  EXPECT_NEAR(loop[2].y, 20 + 12, 1e-9);
  EXPECT_NEAR(std::abs(signed_area(only_svg_loop(svg("<rect transform='skewX(45) rotate(30 4 4) skewY(-20)' "
                                                     "width='5' height='3'/>")))),
              15, 1e-9);  // shears and turns keep areas
}

TEST(SvgLayers, AreIdsOfElementsGroupsOrLabels) {
  const std::string two =
      svg("<g id='cut'><rect width='10' height='10'/></g>"
          "<g id='l2' inkscape:label='sew' xmlns:inkscape='x'><rect id='r' width='7' height='7'/></g>");
  DrawingRules rules;
  for (const auto& [layer, side] : {std::pair{"cut", 10.0}, {"l2", 7.0}, {"sew", 7.0}, {"r", 7.0}}) {
    rules.layer = layer;
    EXPECT_NEAR(std::abs(signed_area(only_svg_loop(two, rules))), side * side, 1e-9) << layer;
  }
}

TEST(SvgLayers, WhatIsNotDrawnIsNotRead) {
  EXPECT_EQ(
      only_svg_loop(svg("<defs><circle r='5'/></defs><symbol><circle r='6'/></symbol>"
                        "<clipPath><circle r='7'/></clipPath><g display='none'><circle r='8'/></g>"
                        "<g style='fill:red; display : none'><circle r='9'/></g><text x='1'>Panel</text>"
                        "<title>x</title><rect x='10' y='20' width='50' height='50'/>"))
          .size(),
      4u);
}

TEST(SvgLayers, ForeignThingsOnOtherLayersDoNotMatter) {
  DrawingRules rules;
  rules.layer = "sew";
  EXPECT_EQ(
      only_svg_loop(svg("<image href='x.png'/><use href='#a'/><rect id='sew' width='9' height='9'/>"), rules)
          .size(),
      4u);
}

TEST(SvgText, MayBeUtf16OrPrefixed) {
  EXPECT_EQ(only_svg_loop("<?xml version='1.0'?><!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' 'x.dtd'>"
                          "<svg:svg xmlns:svg='http://www.w3.org/2000/svg' width='200mm' height='300mm' "
                          "viewBox='0 0 200 300'><svg:rect width='9' height='9'/></svg:svg>")
                .size(),
            4u);
}

}  // namespace
}  // namespace crownwright::drawings
