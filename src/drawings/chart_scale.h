#pragma once
// Numbers to places on paper: scales, round ticks, labels pushed apart.

#include <vector>

namespace crownwright::drawings {

/// Straight from values to millimetres on the sheet.
struct Scale {
  double value_from = 0, value_to = 1;
  double paper_from = 0, paper_to = 1;
  double at(double value) const {
    return paper_from + (value - value_from) / (value_to - value_from) * (paper_to - paper_from);
  }
};

/// The round step (1, 2 or 5 times a power of ten) that divides a range into at most `most` parts.
/// Precondition: range > 0, most >= 1.
double round_step(double range, int most);

/// The multiples of step within [from, to], rising; what rounding leaves of zero is zero.
std::vector<double> ticks(double from, double to, double step);

/// Places for labels that want to stand at `wanted`, none nearer to another than `gap`, all within
/// [low, high] as far as there is room, in the order of `wanted` (equal ones in the order given).
std::vector<double> spread(const std::vector<double>& wanted, double gap, double low, double high);

}  // namespace crownwright::drawings
