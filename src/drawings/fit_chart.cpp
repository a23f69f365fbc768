// The sheet, 190 x 150 mm: title and verdict; strains; girths; one axis for both, from the tip on the left to
// the head line on the right. Every line has its own dash, and grey shades go from white (no trouble) over
// light (steam needed) to mid grey (beyond the cloth), so a grey print says all.
#include "drawings/fit_chart.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "base/length.h"
#include "drawings/chart_canvas.h"
#include "drawings/chart_frame.h"

namespace crownwright::drawings {
namespace {

using fit::FitReport;
using fit::FitStation;

constexpr double sheet_width = 190, sheet_height = 150;
constexpr double frame_left = 16, frame_right = 146;
constexpr double strain_top = 24, strain_bottom = 86, girth_top = 99, girth_bottom = 136;
constexpr double percent = 100, mm_per_cm = 10;
const Ink beyond = grey(0.82), under_steam = grey(0.94);
const Lettering words_in_shade{2.4, false, Anchor::start, grey(0.25)},
    words_on_grid{2.4, false, Anchor::start, grey(0.25), true};
const ChartStroke limit_stroke{0.2, {}, grey(0.45)}, crown_edge_stroke{0.2, {0.3, 1.2}, grey(0.3)};

double strain_low(const fit::ClothLimits& limits) {
  return -std::max(fit::small_ease, limits.ease + limits.heat_shrink);
}

std::string percent_text(double strain) {
  const std::string text = number_text(std::abs(strain) * percent, 1);
  return (strain < 0 && text != "0" ? "\u2212" + text : text) + " %";
}

/// "57.0": girths one under another are read more easily with the same decimals.
std::string with_a_decimal(double value) {
  const std::string text = number_text(value, 1);
  return text.find('.') == std::string::npos ? text + ".0" : text;
}

// ---- curves -------------------------------------------------------------------------------------

using Value = double (*)(const FitStation&);

std::vector<ChartPoint> values_of(const FitReport& report, Value value) {
  std::vector<ChartPoint> points;
  for (const FitStation& station : report.stations) points.push_back({station.s / mm_per_cm, value(station)});
  return points;
}

bool differ(const std::vector<ChartPoint>& one, const std::vector<ChartPoint>& two) {
  for (std::size_t i = 0; i < one.size(); ++i)
    if (std::abs(one[i].y - two[i].y) > 1e-9) return true;
  return false;
}

/// Lines that say the same are drawn once.
std::vector<Curve> strain_curves(const FitReport& report) {
  const auto mean = values_of(report, [](const FitStation& s) { return s.hoop_mean * percent; });
  const auto local = values_of(report, [](const FitStation& s) { return s.hoop * percent; });
  const auto seam = values_of(report, [](const FitStation& s) { return s.seam_mean * percent; });
  const auto centre = values_of(report, [](const FitStation& s) { return s.centre_mean * percent; });
  const ChartStroke seam_stroke{0.5, {2.6, 1.0}, {0.08, 0.22, 0.45}};
  std::vector<Curve> curves;
  if (differ(local, mean)) curves.push_back({"round, local", local, {0.22, {4, 0.6, 0.6, 0.6}, grey(0.25)}});
  if (differ(seam, centre)) {
    curves.push_back({"along the seams", seam, seam_stroke});
    curves.push_back({"down the middle", centre, {0.6, {0.6, 0.9}, {0.5, 0.14, 0.08}}});
  } else {
    curves.push_back({"lengthwise", seam, seam_stroke});
  }
  curves.push_back({"round the crown", mean, {0.8, {}, grey(0)}});
  return curves;
}

std::vector<Curve> girth_curves(const FitReport& report) {
  constexpr double girth_cm = 2 * std::numbers::pi / mm_per_cm;
  const auto form = values_of(report, [](const FitStation& s) { return s.r_form * girth_cm; });
  const auto cloth = values_of(report, [](const FitStation& s) { return s.r_cloth * girth_cm; });
  const auto named = [](const std::string& name, const std::vector<ChartPoint>& values) {
    return name + ", " + with_a_decimal(values.back().y) + " cm";
  };
  return {{named("form", form), form, {1.3, {}, grey(0.6)}},
          {named("cloth", cloth), cloth, {0.45, {1.8, 1.2}, grey(0)}}};
}

double widest_place(const FitReport& report) {
  const auto less = [](const FitStation& one, const FitStation& two) { return one.r_form < two.r_form; };
  return std::max_element(report.stations.begin(), report.stations.end(), less)->s / mm_per_cm;
}

void mark_crown_edge(ChartCanvas& canvas, const Frame& frame, double place) {
  const double x = frame.x.at(place);
  canvas.line({{x, frame.top()}, {x, frame.bottom()}}, crown_edge_stroke);
}

// ---- strains ------------------------------------------------------------------------------------

/// All that is drawn, and the cloth's limits where they are not far off.
Scale strain_scale(const std::vector<Curve>& curves, const fit::ClothLimits& limits) {
  double low = -1.5, high = 1.5;  // percent: less is not worth a taller picture
  for (const Curve& curve : curves) {
    for (const ChartPoint& p : curve.values) {
      low = std::min(low, 1.15 * p.y);
      high = std::max(high, 1.15 * p.y);
    }
  }
  const double stretch = limits.stretch * percent, ease = strain_low(limits) * percent;
  const double far = 1.5 * std::max({high, -low, 4.0});
  if (stretch < far) high = std::max(high, 1.2 * stretch);
  if (-ease < far) low = std::min(low, 1.2 * ease);
  // Room for words in the shaded ends.
  const double room = 0.07 * (high - low);
  if (stretch < high) high = std::max(high, stretch + room);
  if (ease > low) low = std::min(low, ease - room);
  return {low, high, strain_bottom, strain_top};
}

void limit_words(ChartCanvas& canvas, const Frame& frame, double edge, double limit,
                 const std::string& words) {
  const double place = frame.y.at(limit), height = std::abs(edge - place);
  const bool is_above = limit > 0;
  if (height < 3.2) return;
  canvas.text({frame.left() + 2, is_above ? edge + 3 : edge - 1.4}, words, words_in_shade);
}

void draw_limits(ChartCanvas& canvas, const Frame& frame, const fit::ClothLimits& limits) {
  const double stretch = limits.stretch * percent, ease = strain_low(limits) * percent;
  const double sewn = -fit::small_ease * percent;
  shade(canvas, frame, stretch, std::max(stretch, frame.y.value_to), beyond);
  shade(canvas, frame, std::min(ease, frame.y.value_from), ease, beyond);
  shade(canvas, frame, ease, sewn, under_steam);
  for (const double limit : {stretch, ease})
    if (limit > frame.y.value_from && limit < frame.y.value_to)
      canvas.line({{frame.left(), frame.y.at(limit)}, {frame.right(), frame.y.at(limit)}}, limit_stroke);
}

void write_limits(ChartCanvas& canvas, const Frame& frame, const fit::ClothLimits& limits) {
  const double stretch = limits.stretch * percent, ease = strain_low(limits) * percent;
  const std::string takes = percent_text(limits.stretch), eases = percent_text(-strain_low(limits));
  if (stretch < frame.y.value_to)
    limit_words(canvas, frame, frame.top(), stretch, "beyond what the cloth stretches, " + takes);
  else
    canvas.text({frame.left() + 2, frame.top() + 3}, "the cloth stretches " + takes + ", above this chart",
                words_on_grid);
  if (ease > frame.y.value_from)
    limit_words(canvas, frame, frame.bottom(), ease, "beyond what it takes up under steam, " + eases);
  else
    canvas.text({frame.left() + 2, frame.bottom() - 1.4},
                "it takes up " + eases + " under steam, below this chart", words_on_grid);
  const double steam = frame.y.at(-fit::small_ease * percent);
  const double steam_end = std::min(frame.bottom(), frame.y.at(ease));
  if (steam_end - steam > 5)
    canvas.text({frame.left() + 2, steam + 3.2}, "eased in under steam", words_in_shade);
}

void draw_worst(ChartCanvas& canvas, const Frame& frame, const fit::Worst& worst) {
  const double x = frame.x.at(worst.at / mm_per_cm), y = frame.y.at(worst.value * percent);
  canvas.ring({x, y}, 1.3, {0.3, {}, grey(0)});
  const std::string says = "worst " + percent_text(worst.value);
  const Lettering lettering{2.6, true, Anchor::middle, {}, true};
  const double half = canvas.text_width(says, lettering) / 2 + 1;
  const double place = worst.value < 0 ? y + 4.6 : y - 2.4;
  canvas.text({std::clamp(x, frame.left() + half, frame.right() - half),
               std::clamp(place, frame.top() + 3, frame.bottom() - 1)},
              says, lettering);
}

/// Small irons: a mark under the frame at every place.
void draw_iron_places(ChartCanvas& canvas, const Frame& frame, const std::vector<double>& places) {
  const double top = frame.bottom() + 0.8;
  for (const double place : places) {
    const double x = frame.x.at(place / mm_per_cm);
    canvas.fill({{x, top}, {x + 1.3, top + 2.2}, {x - 1.3, top + 2.2}}, grey(0));
  }
  if (!places.empty())
    canvas.text({frame.right() + 2, top + 2.2}, "\u25B2 work here with the iron",
                {2.4, false, Anchor::start, {}});
}

void draw_strains(ChartCanvas& canvas, const Frame& frame, const FitReport& report,
                  const fit::ClothLimits& limits, const std::vector<Curve>& curves) {
  draw_limits(canvas, frame, limits);
  draw_grid(canvas, frame, 8);
  mark_crown_edge(canvas, frame, widest_place(report));
  write_limits(canvas, frame, limits);
  draw_curves(canvas, frame, curves);
  draw_worst(canvas, frame, report.worst);
  draw_iron_places(canvas, frame, report.work_here);
  canvas.text({frame_left - 12, strain_top - 2},
              "Strain, %: above 0 the cloth must stretch, below 0 it is eased in",
              {2.7, false, Anchor::start, {}});
}

// ---- girths -------------------------------------------------------------------------------------

void draw_girths(ChartCanvas& canvas, const Frame& frame, double crown_edge,
                 const std::vector<Curve>& curves) {
  draw_grid(canvas, frame, 5);
  mark_crown_edge(canvas, frame, crown_edge);
  draw_curves(canvas, frame, curves);
  draw_x_axis(canvas, frame, "from the tip along the form to the head line, cm");
  canvas.text({frame.x.at(crown_edge), girth_top - 2}, "crown edge", {2.4, false, Anchor::middle, {}});
  canvas.text({frame_left - 12, girth_top - 2}, "Girth, cm", {2.7, false, Anchor::start, {}});
}

std::string chart(ChartCanvas::Kind kind, const FitReport& report, const fit::ClothLimits& limits,
                  const ChartTitles& titles) {
  if (report.stations.size() < 2) throw std::logic_error("a chart was asked of a fit without stations");
  ChartCanvas canvas(kind, sheet_width, sheet_height);
  fitted_text(canvas, {frame_left - 12, 9}, titles.title, {4.4, true, Anchor::start, {}}, sheet_width - 8);
  fitted_text(canvas, {frame_left - 12, 15}, titles.subtitle, {3.2, false, Anchor::start, {}},
              sheet_width - 8);

  const Scale along{0, report.stations.back().s / mm_per_cm, frame_left, frame_right};
  const std::vector<Curve> strains = strain_curves(report), girths = girth_curves(report);
  const Frame strain_frame{along, strain_scale(strains, limits)};
  double widest = 0;
  for (const Curve& curve : girths)
    for (const ChartPoint& p : curve.values) widest = std::max(widest, p.y);
  const Frame girth_frame{along, {0, widest * 1.1, girth_bottom, girth_top}};

  draw_strains(canvas, strain_frame, report, limits, strains);
  draw_girths(canvas, girth_frame, widest_place(report), girths);
  return canvas.finish();
}

}  // namespace

std::string fit_chart_svg(const FitReport& report, const fit::ClothLimits& limits,
                          const ChartTitles& titles) {
  return chart(ChartCanvas::Kind::svg, report, limits, titles);
}

std::string fit_chart_png(const FitReport& report, const fit::ClothLimits& limits,
                          const ChartTitles& titles) {
  return chart(ChartCanvas::Kind::png, report, limits, titles);
}

}  // namespace crownwright::drawings
