#pragma once
// What the panels of a chart have in common: the frame with its grid and numbers, and lines that carry their
// names at their ends.

#include <string>
#include <vector>

#include "drawings/chart_canvas.h"
#include "drawings/chart_scale.h"

namespace crownwright::drawings {

struct Frame {
  Scale x, y;  ///< paper_from of y is the lower edge
  double left() const { return x.paper_from; }
  double right() const { return x.paper_to; }
  double top() const { return y.paper_to; }
  double bottom() const { return y.paper_from; }
};

/// A band over the whole width between two values, cut to the frame.
void shade(ChartCanvas& canvas, const Frame& frame, double from, double to, Ink ink);

/// Grid lines with numbers on the left; the line at zero stronger. Then the frame itself.
void draw_grid(ChartCanvas& canvas, const Frame& frame, int most_ticks);

/// Numbers and a title under the frame.
void draw_x_axis(ChartCanvas& canvas, const Frame& frame, const std::string& title);

struct Curve {
  std::string name;
  std::vector<ChartPoint> values;  ///< x and value, in the frame's scales
  ChartStroke stroke;
};

/// Precondition: the scales take in all values. The curves in order, then their names right of the frame,
/// each beside a sample of its stroke and joined to its curve's end, pushed apart where ends meet.
void draw_curves(ChartCanvas& canvas, const Frame& frame, const std::vector<Curve>& curves);

/// Words made smaller until they fit, down to two thirds, then cut short.
void fitted_text(ChartCanvas& canvas, ChartPoint at, const std::string& words, Lettering lettering,
                 double width);

}  // namespace crownwright::drawings
