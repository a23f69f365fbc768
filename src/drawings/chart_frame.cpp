#include "drawings/chart_frame.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "drawings/fit_words.h"

namespace crownwright::drawings {
namespace {

constexpr double label_gap = 4.0;      // mm between the base lines of names
constexpr double leader_length = 4.0;  // mm from the frame to the samples
constexpr double sample_length = 9.0;  // mm, so that every dash shows twice
constexpr double half_height = 0.9;    // mm from a line's middle down to the base line of its name
const ChartStroke grid_stroke{0.12, {}, grey(0.72)}, zero_stroke{0.25, {}, grey(0.2)},
    frame_stroke{0.25, {}, grey(0.2)}, leader_stroke{0.12, {}, grey(0.5)};

int decimals_of(double step) { return std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9))); }

/// With a true minus sign.
std::string tick_text(double value, double step) {
  const std::string text = number_text(std::abs(value), decimals_of(step));
  return value < 0 && text != "0" ? "\u2212" + text : text;
}

double held_within(const Frame& frame, double y) { return std::clamp(y, frame.top(), frame.bottom()); }

}  // namespace

void shade(ChartCanvas& canvas, const Frame& frame, double from, double to, Ink ink) {
  const double low = held_within(frame, frame.y.at(from)), high = held_within(frame, frame.y.at(to));
  if (low == high) return;
  canvas.fill({{frame.left(), low}, {frame.right(), low}, {frame.right(), high}, {frame.left(), high}}, ink);
}

void draw_grid(ChartCanvas& canvas, const Frame& frame, int most_ticks) {
  const double step = round_step(frame.y.value_to - frame.y.value_from, most_ticks);
  for (const double value : ticks(frame.y.value_from, frame.y.value_to, step)) {
    const double y = frame.y.at(value);
    canvas.line({{frame.left(), y}, {frame.right(), y}}, value == 0 ? zero_stroke : grid_stroke);
    canvas.text({frame.left() - 1.5, y + half_height}, tick_text(value, step), {2.5, false, Anchor::end, {}});
  }
  canvas.line({{frame.left(), frame.top()},
               {frame.right(), frame.top()},
               {frame.right(), frame.bottom()},
               {frame.left(), frame.bottom()},
               {frame.left(), frame.top()}},
              frame_stroke);
}

void draw_x_axis(ChartCanvas& canvas, const Frame& frame, const std::string& title) {
  const double step = round_step(frame.x.value_to - frame.x.value_from, 12);
  for (const double value : ticks(frame.x.value_from, frame.x.value_to, step)) {
    const double x = frame.x.at(value);
    canvas.line({{x, frame.bottom()}, {x, frame.bottom() + 1}}, frame_stroke);
    canvas.text({x, frame.bottom() + 4}, tick_text(value, step), {2.5, false, Anchor::middle, {}});
  }
  canvas.text({(frame.left() + frame.right()) / 2, frame.bottom() + 8.2}, title,
              {2.7, false, Anchor::middle, {}});
}

void draw_curves(ChartCanvas& canvas, const Frame& frame, const std::vector<Curve>& curves) {
  std::vector<double> ends;
  for (const Curve& curve : curves) {
    std::vector<ChartPoint> points;
    for (const ChartPoint& p : curve.values) points.push_back({frame.x.at(p.x), frame.y.at(p.y)});
    ends.push_back(points.back().y);
    canvas.line(points, curve.stroke);
  }
  const std::vector<double> places = spread(ends, label_gap, frame.top() + 1.5, frame.bottom() - 1.5);
  const double sample = frame.right() + leader_length;
  for (std::size_t i = 0; i < curves.size(); ++i) {
    canvas.line({{frame.right() + 0.3, ends[i]}, {sample - 0.5, places[i]}}, leader_stroke);
    canvas.line({{sample, places[i]}, {sample + sample_length, places[i]}}, curves[i].stroke);
    canvas.text({sample + sample_length + 1.2, places[i] + half_height}, curves[i].name, {});
  }
}

void fitted_text(ChartCanvas& canvas, ChartPoint at, const std::string& words, Lettering lettering,
                 double width) {
  const FittedWords fitted =
      fit_words(words, lettering.size, width, [&](const std::string& shown, double size) {
        Lettering look = lettering;
        look.size = size;
        return canvas.text_width(shown, look);
      });
  lettering.size = fitted.size;
  canvas.text(at, fitted.words, lettering);
}

}  // namespace crownwright::drawings
