#include "pattern/too_much.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace crownwright::pattern {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double step = 1;            ///< mm of meridian
constexpr double most_samples = 100;  ///< of one average
constexpr double least_shown = 1;  ///< mm of girth: no drawing is so true that less means anything (chosen)
/// Sigmas of the difference of two averages below which noise may have made it, being the greatest of all
/// pairs along the panel (chosen; tested on drawings of noise alone).
constexpr double sigmas = 4;

/// Nine tenths and more of the excess lie between the places told (chosen).
constexpr double in_earnest_share = 0.95;

struct Averages {
  std::vector<double> r;  ///< at 0, step, 2 step ...
  double window = 0;      ///< the least that was averaged over
};

Averages averaged(const Parallels& cloth, int panels) {
  const int count = static_cast<int>(cloth.length() / step);
  double widest = 0;
  for (int i = 0; i <= count; ++i) widest = std::max(widest, cloth.r(i * step));
  Averages averages;
  averages.window = std::max(step, pi / panels * widest / 2);
  for (int i = 0; i <= count; ++i) {
    const double s = i * step, window = std::max(averages.window, pi / panels * cloth.r(s));
    const int samples = static_cast<int>(std::clamp(std::ceil(window / step), 2.0, most_samples));
    double sum = 0;
    for (int k = 0; k < samples; ++k) sum += cloth.r(s + window * ((k + 0.5) / samples - 0.5));
    averages.r.push_back(sum / samples);
  }
  return averages;
}

/// The greatest r(s) - r(s0) - (s - s0), s after s0; `r` may be walked from either end.
struct Excess {
  double over = 0;
  std::size_t at = 0, from = 0;
};

/// Drawn together to where it begins and ends in earnest: what lies along a slope of just 1 adds nothing.
Excess in_earnest(const std::vector<double>& against_slope, Excess excess) {
  const auto over = [&] { return against_slope[excess.at] - against_slope[excess.from]; };
  const double least = in_earnest_share * excess.over;
  while (over() >= least) --excess.at;
  ++excess.at;
  while (over() >= in_earnest_share * least) ++excess.from;
  --excess.from;
  return excess;
}

Excess greatest_excess(const std::vector<double>& r) {
  std::vector<double> against_slope;
  for (std::size_t i = 0; i < r.size(); ++i) against_slope.push_back(r[i] - step * static_cast<double>(i));
  Excess greatest;
  std::size_t lowest = 0;
  for (std::size_t i = 1; i < r.size(); ++i) {
    const double over = against_slope[i] - against_slope[lowest];
    if (over > greatest.over) greatest = {over, i, lowest};
    if (over < 0) lowest = i;
  }
  return greatest.over > 0 ? in_earnest(against_slope, greatest) : greatest;
}

}  // namespace

std::optional<TooMuchCloth> too_much_cloth(const Parallels& cloth, int panels, double noise, double spacing) {
  Averages averages = averaged(cloth, panels);
  const std::size_t last = averages.r.size() - 1;
  Excess greatest = greatest_excess(averages.r);
  std::reverse(averages.r.begin(), averages.r.end());
  if (const Excess back = greatest_excess(averages.r); back.over > greatest.over)
    greatest = {back.over, last - back.at, last - back.from};
  const double sigma_of_r = panels / pi * noise, averaged_over = std::max(1.0, averages.window / spacing);
  const double floor = 2 * pi * sigmas * sigma_of_r * std::sqrt(2 / averaged_over);
  const double girth = 2 * pi * greatest.over;
  if (girth < std::max(least_shown, floor)) return std::nullopt;
  return TooMuchCloth{step * static_cast<double>(greatest.at), step * static_cast<double>(greatest.from),
                      girth};
}

}  // namespace crownwright::pattern
