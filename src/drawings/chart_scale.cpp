#include "drawings/chart_scale.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace crownwright::drawings {

double round_step(double range, int most) {
  const double least = range / most, power = std::pow(10, std::floor(std::log10(least)));
  for (const double times : {1, 2, 5})
    if (times * power >= least * (1 - 1e-12)) return times * power;
  return 10 * power;
}

std::vector<double> ticks(double from, double to, double step) {
  const double slack = 1e-9;
  std::vector<double> values;
  for (double k = std::ceil(from / step - slack); k <= to / step + slack; ++k)
    values.push_back(k * step + 0.0);
  return values;
}

std::vector<double> spread(const std::vector<double>& wanted, double gap, double low, double high) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto i, auto j) { return wanted[i] < wanted[j]; });
  std::vector<double> places(wanted.size());
  double least = low;
  for (const std::size_t i : order) {
    places[i] = std::max(wanted[i], least);
    least = places[i] + gap;
  }
  double most = high;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    places[*i] = std::min(places[*i], most);
    most = places[*i] - gap;
  }
  return places;
}

}  // namespace crownwright::drawings
