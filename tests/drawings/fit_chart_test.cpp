// The charts read back from their SVG: every line, its stroke and its points, in millimetres on the sheet.
#include "drawings/fit_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "drawings/chart_canvas.h"
#include "drawings/chart_scale.h"
#include "support/seed.h"

namespace crownwright::drawings {
namespace {

using fit::FitReport;
using fit::FitStation;

constexpr double pi = std::numbers::pi;

// ---- reading the SVG back -----------------------------------------------------------------------

struct DrawnPath {
  double width = 0;  // of the stroke; 0: filled
  std::string dash, colour;
  std::vector<ChartPoint> points;
  double left() const { return std::min_element(points.begin(), points.end(), by_x)->x; }
  double right() const { return std::max_element(points.begin(), points.end(), by_x)->x; }
  static bool by_x(const ChartPoint& p, const ChartPoint& q) { return p.x < q.x; }
};

std::string between(const std::string& text, const std::string& before, const std::string& after) {
  const auto at = text.find(before);
  if (at == std::string::npos) return {};
  const auto from = at + before.size();
  return text.substr(from, text.find(after, from) - from);
}

std::vector<ChartPoint> points_of(const std::string& d, double scale) {
  std::vector<ChartPoint> points;
  const char* at = d.c_str();
  while (*at != 0) {
    char* end = nullptr;
    const double x = std::strtod(at, &end);
    if (end == at) {
      ++at;
      continue;
    }
    const double y = std::strtod(end, &end);
    points.push_back({scale * x, scale * y});
    at = end;
  }
  return points;
}

/// Strokes are written in millimetres under a transform to points, fills in points.
std::vector<DrawnPath> drawn_in(const std::string& svg) {
  std::vector<DrawnPath> all;
  const std::string begin = "<path style=\"";
  for (auto at = svg.find(begin); at != std::string::npos; at = svg.find(begin, at + 1)) {
    const std::string element = svg.substr(at, svg.find("/>", at) - at);
    const std::string style = between(element, "style=\"", "\""), d = between(element, " d=\"", "\"");
    DrawnPath one;
    if (style.find("fill:none") != std::string::npos) {
      one.width = std::strtod(between(style, "stroke-width:", ";").c_str(), nullptr);
      one.dash = between(style, "stroke-dasharray:", ";");
      one.colour = between(style, "stroke:rgb(", ")");
      one.points = points_of(d, 1);
    } else if (style.find("fill:rgb") != std::string::npos) {
      one.colour = between(style, "fill:rgb(", ")");
      one.points = points_of(d, 25.4 / 72);
    }
    if (!one.points.empty()) all.push_back(one);
  }
  return all;
}

struct Box {
  double left, top, right, bottom;
};

/// The frames are the closed rectangles of five points.
std::vector<Box> frames_in(const std::vector<DrawnPath>& all) {
  std::vector<Box> frames;
  for (const DrawnPath& one : all)
    if (one.width > 0 && one.points.size() == 5 && one.points[0].y == one.points[4].y)
      frames.push_back({one.points[0].x, one.points[0].y, one.points[2].x, one.points[2].y});
  return frames;
}

bool is_level_across(const DrawnPath& one, const Box& box) {
  return one.width > 0 && one.points.size() == 2 && one.points[0].y == one.points[1].y &&
         std::abs(one.points[0].x - box.left) < 0.01 && std::abs(one.points[1].x - box.right) < 0.01 &&
         one.points[0].y > box.top - 0.01 && one.points[0].y < box.bottom + 0.01;
}

const std::string limit_grey = "45%,45%,45%", grid_grey = "72%,72%,72%", zero_grey = "20%,20%,20%";

std::vector<double> levels(const std::vector<DrawnPath>& all, const Box& box, const std::string& colour) {
  std::vector<double> ys;
  for (const DrawnPath& one : all)
    if (is_level_across(one, box) && one.colour == colour) ys.push_back(one.points[0].y);
  std::sort(ys.begin(), ys.end());
  return ys;
}

/// Lines with many points from the frame's left to its right, in the order drawn.
std::vector<DrawnPath> curves_in(const std::vector<DrawnPath>& all, const Box& box) {
  std::vector<DrawnPath> curves;
  for (const DrawnPath& one : all)
    if (one.width > 0 && one.points.size() > 40 && one.points[0].y >= box.top - 0.01 &&
        one.points[0].y <= box.bottom + 0.01 && std::abs(one.left() - box.left) < 0.01 &&
        std::abs(one.right() - box.right) < 0.01)
      curves.push_back(one);
  return curves;
}

/// Where a polyline stands at x.
double height_at(const DrawnPath& curve, double x) {
  for (std::size_t i = 1; i < curve.points.size(); ++i) {
    const ChartPoint p = curve.points[i - 1], q = curve.points[i];
    if (x <= q.x + 1e-9) return p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x);
  }
  return curve.points.back().y;
}

// ---- a fit made by hand -------------------------------------------------------------------------

constexpr double meridian = 220, crown_edge = 150;
const fit::ClothLimits limits{0.05, 0.04, 0.03, 2};
const ChartTitles titles{"Market beret, medium", "8 panels, wool felt: fits after steam"};

/// Girths up to 88 cm at the crown edge and 58 at the head line. All lines are curved, so that every station
/// stands in the drawing.
FitReport handmade() {
  FitReport report;
  for (int k = 0; k <= 88; ++k) {
    FitStation s;
    s.s = meridian * k / 88;
    const double u = s.s / meridian;
    s.r_form = (s.s <= crown_edge ? 880 * std::sin(pi / 2 * s.s / crown_edge)
                                  : 580 + 300 * std::cos(pi / 2 * (s.s - crown_edge) / 70)) /
               (2 * pi);
    s.hoop_mean = 0.04 * std::sin(pi * u);
    s.hoop = 0.045 * std::sin(pi * u) * std::sin(pi * u);
    s.r_cloth = s.r_form / (1 + s.hoop);
    s.seam_mean = -0.06 * u * u;
    s.centre_mean = 0.03 * u * u;
    report.stations.push_back(s);
  }
  report.verdict = fit::Verdict::after_steam;
  report.worst = {fit::Strain::seam, meridian, -0.06, -0.07};
  report.work_here = {100, 160};
  return report;
}

struct ReadBack {
  std::vector<DrawnPath> all;
  Box strains, girths;
  double percent = 0, zero = 0;  ///< of the strains, from the limits drawn at +5 and -7 %: mm a percent, y
  double strain_y(double strain) const { return zero - 100 * strain * percent; }
  double x(double s) const { return strains.left + (strains.right - strains.left) * s / meridian; }
};

ReadBack read_back(const FitReport& report, const fit::ClothLimits& cloth = limits) {
  ReadBack read;
  read.all = drawn_in(fit_chart_svg(report, cloth, titles));
  const auto frames = frames_in(read.all);
  EXPECT_EQ(frames.size(), 2u);
  read.strains = frames.at(0);
  read.girths = frames.at(1);
  if (const auto lines = levels(read.all, read.strains, limit_grey); lines.size() == 2) {
    read.percent = (lines[1] - lines[0]) / 12;
    read.zero = lines[0] + 5 * read.percent;
  }
  return read;
}

// The limits give the scale; the line at zero and every curve must agree with it.
TEST(FitChart, StrainsStandWhereTheLimitsSayTheyDo) {
  const FitReport report = handmade();
  const ReadBack read = read_back(report);
  EXPECT_GT(read.percent, 2) << "too small to read";
  const auto zero_lines = levels(read.all, read.strains, zero_grey);
  ASSERT_EQ(zero_lines.size(), 1u);
  EXPECT_NEAR(zero_lines[0], read.zero, 0.01);
  const auto curves = curves_in(read.all, read.strains);
  ASSERT_EQ(curves.size(), 4u);
  for (const FitStation& s : report.stations) {
    const double values[] = {s.hoop, s.seam_mean, s.centre_mean, s.hoop_mean};
    for (std::size_t c = 0; c < 4; ++c)
      EXPECT_NEAR(height_at(curves[c], read.x(s.s)), read.strain_y(values[c]), 0.02) << c << " at " << s.s;
  }
}

TEST(FitChart, GridLinesAreRoundNumbersApart) {
  const ReadBack read = read_back(handmade());
  const auto grid = levels(read.all, read.strains, grid_grey);
  ASSERT_GE(grid.size(), 4u);
  for (const double y : grid) {
    const double steps = (read.zero - y) / read.percent / 2;
    EXPECT_NEAR(steps, std::round(steps), 0.01) << "from -8 to +6 % in steps of 2";
  }
}

TEST(FitChart, ShadesBeginAtTheLimits) {
  const ReadBack read = read_back(handmade());
  std::vector<std::pair<double, double>> beyond, steam;
  for (const DrawnPath& one : read.all) {
    if (one.width > 0 || one.points.size() < 4) continue;
    const double a = one.points[0].y, b = one.points[2].y;
    if (one.colour == "82%,82%,82%") beyond.push_back({std::min(a, b), std::max(a, b)});
    if (one.colour == "94%,94%,94%") steam.push_back({std::min(a, b), std::max(a, b)});
  }
  ASSERT_EQ(beyond.size(), 2u);
  ASSERT_EQ(steam.size(), 1u);
  std::sort(beyond.begin(), beyond.end());
  EXPECT_NEAR(beyond[0].first, read.strains.top, 0.01);
  EXPECT_NEAR(beyond[0].second, read.strain_y(0.05), 0.02);
  EXPECT_NEAR(steam[0].first, read.strain_y(-0.01), 0.02) << "hands alone ease in a hundredth";
  EXPECT_NEAR(steam[0].second, read.strain_y(-0.07), 0.02);
  EXPECT_NEAR(beyond[1].first, read.strain_y(-0.07), 0.02);
  EXPECT_NEAR(beyond[1].second, read.strains.bottom, 0.01);
}

// Grid lines of the girths stand 20 cm apart (0 to 97 cm in at most five steps).
TEST(FitChart, GirthsInCentimetres) {
  const FitReport report = handmade();
  const ReadBack read = read_back(report);
  const auto grid = levels(read.all, read.girths, grid_grey);
  ASSERT_EQ(grid.size(), 4u) << "20, 40, 60, 80 cm";
  const double cm = (read.girths.bottom - grid.back()) / 20;
  EXPECT_NEAR(read.girths.bottom - grid.front(), 80 * cm, 0.02);
  const auto curves = curves_in(read.all, read.girths);
  ASSERT_EQ(curves.size(), 2u);
  for (const FitStation& s : report.stations) {
    const double radii[] = {s.r_form, s.r_cloth};
    for (std::size_t c = 0; c < 2; ++c)
      EXPECT_NEAR(height_at(curves[c], read.x(s.s)), read.girths.bottom - 2 * pi * radii[c] / 10 * cm, 0.02);
  }
}

TEST(FitChart, MarksTheCrownEdgeInBothPanels) {
  const ReadBack read = read_back(handmade());
  int edges = 0;
  for (const DrawnPath& one : read.all) {
    if (one.dash != "0.3,1.2") continue;
    ++edges;
    EXPECT_NEAR(one.points[0].x, read.x(crown_edge), 0.01);
    EXPECT_NEAR(one.points[1].x, read.x(crown_edge), 0.01);
  }
  EXPECT_EQ(edges, 2);
}

TEST(FitChart, MarksTheWorstPlaceAndThoseForTheIron) {
  const ReadBack read = read_back(handmade());
  int rings = 0;
  std::vector<double> irons;
  for (const DrawnPath& one : read.all) {
    if (one.width == 0.3 && one.points.size() >= 10) {
      ++rings;
      // It starts on its right side.
      EXPECT_NEAR(one.points[0].x - 1.3, read.x(meridian), 0.01);
      EXPECT_NEAR(one.points[0].y, read.strain_y(-0.06), 0.01);
    }
    if (one.width == 0 && one.colour == "0%,0%,0%" && one.points.size() == 4)
      irons.push_back(one.points[0].x);
  }
  EXPECT_EQ(rings, 1);
  ASSERT_EQ(irons.size(), 2u);
  EXPECT_NEAR(irons[0], read.x(100), 0.01);
  EXPECT_NEAR(irons[1], read.x(160), 0.01);
}

// In grey print colours are gone: every line of a panel has a dash of its own.
TEST(FitChart, ReadableInGrey) {
  const ReadBack read = read_back(handmade());
  for (const Box& box : {read.strains, read.girths}) {
    std::set<std::string> dashes;
    const auto curves = curves_in(read.all, box);
    for (const DrawnPath& curve : curves) dashes.insert(curve.dash);
    EXPECT_EQ(dashes.size(), curves.size());
    EXPECT_TRUE(dashes.contains("")) << "one line is solid";
  }
}

// Each name stands beside a sample of its stroke, no two samples nearer than a line of text.
TEST(FitChart, NamesDoNotOverlap) {
  FitReport report = handmade();
  for (FitStation& s : report.stations) s.seam_mean *= 0.01, s.centre_mean *= 0.01;  // all end near zero
  const ReadBack read = read_back(report);
  std::vector<double> samples;
  for (const DrawnPath& one : read.all) {
    if (one.width == 0 || one.points.size() != 2 || one.points[0].y != one.points[1].y) continue;
    if (one.points[0].x > read.strains.right + 1 && one.points[0].y < read.strains.bottom)
      samples.push_back(one.points[0].y);
  }
  ASSERT_EQ(samples.size(), 4u);
  std::sort(samples.begin(), samples.end());
  for (std::size_t i = 1; i < samples.size(); ++i) EXPECT_GE(samples[i] - samples[i - 1], 3.99);
}

// Disc and ring: one strain round, one along; lines that would hide one another are drawn once.
TEST(FitChart, DrawsLinesThatSayTheSameOnce) {
  FitReport report = handmade();
  for (FitStation& s : report.stations) s.hoop = s.hoop_mean, s.centre_mean = s.seam_mean;
  const ReadBack read = read_back(report);
  EXPECT_EQ(curves_in(read.all, read.strains).size(), 2u);
}

// A limit far off would flatten the curves; it is named in words instead of drawn.
TEST(FitChart, LeavesOutLimitsThatAreFarOff) {
  const ReadBack read = read_back(handmade(), {0.5, 0.04, 0.03, 2});
  EXPECT_EQ(levels(read.all, read.strains, limit_grey).size(), 1u);
}

TEST(FitChart, SizesAndBytesAreFixed) {
  const FitReport report = handmade();
  const std::string svg = fit_chart_svg(report, limits, titles), png = fit_chart_png(report, limits, titles);
  EXPECT_EQ(fit_chart_svg(report, limits, titles), svg);
  EXPECT_EQ(fit_chart_png(report, limits, titles), png);
  // 190 by 150 mm in points of 1/72 in.
  EXPECT_NEAR(std::strtod(between(svg, "width=\"", "pt\"").c_str(), nullptr), 190 / 25.4 * 72, 1e-3);
  EXPECT_NEAR(std::strtod(between(svg, "height=\"", "pt\"").c_str(), nullptr), 150 / 25.4 * 72, 1e-3);
  EXPECT_TRUE(svg.ends_with("</svg>\n"));
  // PNG (ISO/IEC 15948): signature, then IHDR with the width as its first four bytes, big end first.
  ASSERT_GT(png.size(), 1000u);
  EXPECT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(png.substr(12, 8), std::string("IHDR\0\0\x06\x40", 8)) << "1600 pixels";
}

/// Where the letters stand, from the left in points, as drawn.
std::vector<double> letters_in(const std::string& svg) {
  std::vector<double> xs;
  const std::string begin = "<use xlink:href";
  for (auto at = svg.find(begin); at != std::string::npos; at = svg.find(begin, at + 1))
    xs.push_back(std::strtod(between(svg.substr(at, 200), " x=\"", "\"").c_str(), nullptr));
  return xs;
}

// Titles somewhat too long are written smaller, much too long ones are cut: they end before the sheet does.
TEST(FitChart, LongTitlesFitTheSheet) {
  const auto letters_for = [](std::size_t length) {
    return letters_in(fit_chart_svg(handmade(), limits, {std::string(length, 'M'), "x"}));
  };
  const std::size_t others = letters_for(0).size();
  EXPECT_EQ(letters_for(30).size(), others + 30);
  EXPECT_EQ(letters_for(55).size(), others + 55) << "smaller, but whole";
  for (const std::size_t length : {55, 5000}) {
    const auto letters = letters_for(length);
    const double furthest = *std::max_element(letters.begin(), letters.end());
    EXPECT_GT(furthest, 170 / 25.4 * 72);
    EXPECT_LT(furthest, 186 / 25.4 * 72);
  }
}

TEST(FitChart, TakesAnyTitle) {
  const FitReport report = handmade();
  const pattern::PanelNet net{
      8, pattern::LengthAlong::shared, {{0, 0, 0, 0, 0, 0}, {50, 20, 46, 4, 0.3, 50}}, 50, 50};
  for (const std::string& title :
       {std::string(), std::string("<&>\"'"), std::string("\xff\xfe broken \x01\x02"), std::string(5000, 'W'),
        std::string("B\u00e9ret d\u2019\u00e9t\u00e9"), std::string(300, ' ')}) {
    const std::string svg = fit_chart_svg(report, limits, {title, title});
    EXPECT_TRUE(svg.ends_with("</svg>\n"));
    EXPECT_EQ(svg.find('\x01'), std::string::npos);
    EXPECT_TRUE(nested_chart_svg({{title, net}}, title).ends_with("</svg>\n"));
  }
}

// Numbers beyond every cloth still give a chart whose curves stay in their frame.
TEST(FitChart, SurvivesGreatStrains) {
  FitReport report = handmade();
  for (FitStation& s : report.stations) s.hoop = s.hoop_mean = s.s < 50 ? 10 : -0.9;
  report.worst = {fit::Strain::hoop, 0, 10, 0.05};
  const auto all = drawn_in(fit_chart_svg(report, limits, titles));
  const Box box = frames_in(all).at(0);
  for (const DrawnPath& curve : curves_in(all, box)) {
    for (const ChartPoint& p : curve.points) {
      EXPECT_GE(p.y, box.top - 0.01);
      EXPECT_LE(p.y, box.bottom + 0.01);
    }
  }
}

// ---- scales -------------------------------------------------------------------------------------

TEST(ChartScale, RoundSteps) {
  EXPECT_DOUBLE_EQ(round_step(10, 10), 1);
  EXPECT_DOUBLE_EQ(round_step(10, 8), 2);
  EXPECT_DOUBLE_EQ(round_step(97, 5), 20);
  EXPECT_DOUBLE_EQ(round_step(0.3, 4), 0.1);
  EXPECT_DOUBLE_EQ(round_step(30, 4), 10);
  EXPECT_DOUBLE_EQ(round_step(2.1, 4), 1);
  EXPECT_EQ(ticks(-0.31, 0.2, 0.1).size(), 6u);
  EXPECT_EQ(ticks(-0.31, 0.2, 0.1)[3], 0);
  EXPECT_EQ(ticks(0, 1, 0.1).size(), 11u) << "both ends, rounding forgiven";
}

TEST(ChartScale, SpreadKeepsOrderGapAndBounds) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 500; ++trial) {
    std::vector<double> wanted(1 + random() % 8);
    for (double& w : wanted) w = static_cast<double>(random() % 1000) / 10;
    const auto places = spread(wanted, 4, 10, 90);
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      EXPECT_GE(places[i], 10 - 1e-9);
      EXPECT_LE(places[i], 90 + 1e-9);
      for (std::size_t j = 0; j < i; ++j) {
        EXPECT_GE(std::abs(places[i] - places[j]), 4 - 1e-9);
        if (wanted[i] != wanted[j]) {
          EXPECT_EQ(wanted[i] < wanted[j], places[i] < places[j]);
        }
      }
    }
  }
  EXPECT_EQ(spread({20, 50}, 4, 0, 100), (std::vector<double>{20, 50})) << "nothing moves without need";
}

// ---- nested panels ------------------------------------------------------------------------------

/// A pie of half angle `theta` and radius R: what a flat top's panel is.
pattern::PanelNet pie(double R, double theta) {
  pattern::PanelNet net;
  net.panels = 8;
  for (int k = 0; k <= 10; ++k) {
    const double s = R * k / 10;
    net.points.push_back({s, s * std::sin(theta), s * std::cos(theta), s * (1 - std::cos(theta)), theta, s});
  }
  net.seam_length = net.centre_length = R;
  return net;
}

std::vector<DrawnPath> outlines_in(const std::vector<DrawnPath>& all) {
  std::vector<DrawnPath> outlines;
  for (const DrawnPath& one : all)
    if (one.points.size() > 20 && one.width > 0 && one.colour == "0%,0%,0%") outlines.push_back(one);
  return outlines;
}

TEST(NestedChart, PanelsLieTipOnTipAtOneScale) {
  const double theta = pi / 8;
  const std::vector<NestedPanel> panels{
      {"54 cm", pie(180, theta)}, {"57 cm", pie(200, theta)}, {"60 cm", pie(220, theta)}};
  const auto all = drawn_in(nested_chart_svg(panels, "Three sizes"));
  const auto outlines = outlines_in(all);
  double ten_cm = 0;
  for (const DrawnPath& one : all)
    if (one.width == 0.3 && one.points.size() == 2) ten_cm = one.points[1].x - one.points[0].x;
  ASSERT_EQ(outlines.size(), 3u);
  const double scale = ten_cm / 100;
  EXPECT_NEAR(1 / scale, 1.5, 1e-3) << "168 by 220 mm: a round scale at which they fit";
  std::set<std::string> dashes;
  for (std::size_t i = 0; i < 3; ++i) {
    const double R = panels[i].net.seam_length;
    const ChartPoint tip = outlines[i].points.front();
    EXPECT_NEAR(tip.x, outlines[0].points.front().x, 1e-3);
    EXPECT_NEAR(tip.y, outlines[0].points.front().y, 1e-3);
    EXPECT_NEAR(outlines[i].right() - outlines[i].left(), 2 * R * std::sin(theta) * scale, 0.01);
    double lowest = 0;
    for (const ChartPoint& p : outlines[i].points) {
      lowest = std::max(lowest, p.y);
      // Nothing of a pie is further from its tip than its radius.
      EXPECT_LE(std::hypot(p.x - tip.x, p.y - tip.y), R * scale + 0.01);
    }
    EXPECT_NEAR(lowest - tip.y, R * scale, 0.01) << "the head line bows down to the middle";
    dashes.insert(outlines[i].dash);
  }
  EXPECT_EQ(dashes.size(), 3u);
}

TEST(NestedChart, SameBytesForManySizes) {
  std::vector<NestedPanel> panels;
  for (int k = 0; k < 12; ++k) panels.push_back({std::to_string(50 + k), pie(150 + k, 0.3)});
  const std::string svg = nested_chart_svg(panels, "Run");
  EXPECT_EQ(nested_chart_svg(panels, "Run"), svg);
  std::set<std::pair<std::string, double>> strokes;
  for (const DrawnPath& one : outlines_in(drawn_in(svg))) strokes.insert({one.dash, one.width});
  EXPECT_EQ(strokes.size(), 12u) << "dashes begin again in another width";
}

}  // namespace
}  // namespace crownwright::drawings
