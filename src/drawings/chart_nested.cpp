// Panels of a run over one another, tip on tip, all at one round scale. The names stand on the right, joined
// to the corners of the head line, where panels of different sizes part most.
#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "drawings/chart_canvas.h"
#include "drawings/chart_frame.h"
#include "drawings/fit_chart.h"

namespace crownwright::drawings {
namespace {

using pattern::PanelNet;

constexpr double sheet_width = 190, top = 22, most_width = 120, most_height = 200;
constexpr double name_gap = 4.2, names_apart = 14, sample_length = 9;
const std::array<std::vector<double>, 6> dashes{
    {{}, {2.6, 1.0}, {0.6, 0.9}, {4, 0.8, 0.6, 0.8}, {5, 1.6}, {1.2, 1.2}}};

/// Half of the net, tip to head line along the seam and on to the middle, x to the right.
std::vector<ChartPoint> right_half(const PanelNet& net) {
  std::vector<ChartPoint> half;
  for (const auto& p : net.points) half.push_back({p.x, p.y});
  const auto& end = net.points.back();
  if (std::abs(end.theta) < 1e-9) {
    half.push_back({0, end.y});
    return half;
  }
  const double radius = end.x / std::sin(end.theta), centre = end.y + end.bow - radius;
  for (int k = 1; k <= 24; ++k) {
    const double angle = end.theta * (1 - k / 24.0);
    half.push_back({radius * std::sin(angle), centre + radius * std::cos(angle)});
  }
  return half;
}

struct Extent {
  double half_width = 0, height = 0;
};

Extent extent_of(const std::vector<NestedPanel>& panels) {
  Extent extent;
  for (const NestedPanel& panel : panels) {
    for (const ChartPoint& p : right_half(panel.net)) {
      extent.half_width = std::max(extent.half_width, p.x);
      extent.height = std::max(extent.height, p.y);
    }
  }
  return extent;
}

/// mm of cloth to a mm of paper: the least round one at which the largest panel fits.
double reduction_for(const Extent& extent) {
  const double least = std::max(2 * extent.half_width / most_width, extent.height / most_height);
  for (const double round : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 10.0, 20.0})
    if (round >= least) return round;
  return std::ceil(least);
}

struct Paper {
  double middle, reduction;
  ChartPoint at(ChartPoint p) const { return {middle + p.x / reduction, top + p.y / reduction}; }
};

std::vector<ChartPoint> outline_of(const PanelNet& net, const Paper& paper) {
  const std::vector<ChartPoint> half = right_half(net);
  std::vector<ChartPoint> outline;
  for (const ChartPoint& p : half) outline.push_back(paper.at(p));
  for (auto p = half.rbegin(); p != half.rend(); ++p) outline.push_back(paper.at({-p->x, p->y}));
  return outline;
}

ChartStroke stroke_of(std::size_t i) {
  return {i / dashes.size() % 2 == 0 ? 0.35 : 0.7, dashes[i % dashes.size()], {}};
}

void draw_names(ChartCanvas& canvas, const std::vector<NestedPanel>& panels, const Paper& paper, double low) {
  const double names_at = paper.at({extent_of(panels).half_width, 0}).x + names_apart;
  std::vector<ChartPoint> corners;
  std::vector<double> wanted;
  for (const NestedPanel& panel : panels) {
    const auto& end = panel.net.points.back();
    corners.push_back(paper.at({end.x, end.y}));
    wanted.push_back(corners.back().y);
  }
  const std::vector<double> places = spread(wanted, name_gap, top, low);
  for (std::size_t i = 0; i < panels.size(); ++i) {
    canvas.line({{corners[i].x + 0.6, corners[i].y}, {names_at - 1, places[i]}}, {0.12, {}, grey(0.5)});
    canvas.line({{names_at, places[i]}, {names_at + sample_length, places[i]}}, stroke_of(i));
    fitted_text(canvas, {names_at + sample_length + 1.5, places[i] + 0.9}, panels[i].size, {},
                sheet_width - names_at - sample_length - 4);
  }
}

void draw_measure(ChartCanvas& canvas, double y, double reduction) {
  const double length = 100 / reduction, left = 6;
  canvas.line({{left, y}, {left + length, y}}, {0.3, {}, {}});
  for (int k = 0; k <= 10; ++k) {
    const double x = left + length * k / 10;
    canvas.line({{x, y}, {x, y - (k % 5 == 0 ? 2 : 1)}}, {0.2, {}, {}});
  }
  canvas.text({left + length + 2, y}, "10 cm, drawn 1 : " + number_text(reduction, 1), {});
}

}  // namespace

std::string nested_chart_svg(const std::vector<NestedPanel>& panels, const std::string& title) {
  if (panels.empty()) throw std::logic_error("a nested chart was asked of no panels");
  const Extent extent = extent_of(panels);
  const double reduction = reduction_for(extent);
  const double drawn = std::max(extent.height / reduction, name_gap * static_cast<double>(panels.size()));
  const double bottom = top + drawn;
  ChartCanvas canvas(ChartCanvas::Kind::svg, sheet_width, bottom + 18);
  fitted_text(canvas, {6, 9}, title, {4.4, true, Anchor::start, {}}, sheet_width - 12);
  canvas.text({6, 15}, "Panels without allowances, tip on tip", {3.0, false, Anchor::start, {}});
  const Paper paper{8 + most_width / 2, reduction};
  for (std::size_t i = 0; i < panels.size(); ++i) canvas.line(outline_of(panels[i].net, paper), stroke_of(i));
  draw_names(canvas, panels, paper, bottom);
  draw_measure(canvas, bottom + 12, reduction);
  return canvas.finish();
}

}  // namespace crownwright::drawings
