#include "pattern/smoother.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>

namespace crownwright::pattern {
namespace {

/// One row of a linear form in c_1, c_2, ...: four neighbouring coefficients beginning at c_first.
struct Row {
  int first;
  std::array<double, 4> weights;
};

/// The uniform cubic B-spline: in stretch j at 0 <= u <= 1 the coefficients c_(j-1) ... c_(j+2).
Row value_row(double s, double spacing, int stretches) {
  const int j = std::clamp(static_cast<int>(s / spacing), 0, stretches - 1);
  const double u = s / spacing - j, v = 1 - u;
  return {j - 1,
          {v * v * v / 6, (3 * u * u * u - 6 * u * u + 4) / 6, (3 * v * v * v - 6 * v * v + 4) / 6,
           u * u * u / 6}};
}

/// Folds c_0 = 0 and c_-1 = -c_1 into the coefficients that are free; calls each with index from 0 (c_1).
template <class Use>
void each_free(const Row& row, Use use) {
  for (int k = 0; k < 4; ++k) {
    const int i = row.first + k;
    const double weight = row.weights[static_cast<std::size_t>(k)];
    if (weight == 0) continue;
    if (i > 0)
      use(i - 1, weight);
    else if (i < 0)
      use(-i - 1, -weight);
  }
}

class NormalEquations {
 public:
  explicit NormalEquations(int unknowns) : size_(unknowns), right_(Eigen::VectorXd::Zero(unknowns)) {}

  void add(const Row& row, double value, double weight) {
    each_free(row, [&](int i, double wi) {
      right_(i) += weight * wi * value;
      each_free(row, [&](int j, double wj) { entries_.emplace_back(i, j, weight * wi * wj); });
    });
  }

  std::vector<double> solved() {
    Eigen::SparseMatrix<double> matrix(size_, size_);
    matrix.setFromTriplets(entries_.begin(), entries_.end());
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factors(matrix);
    const Eigen::VectorXd x = factors.solve(right_);
    return {x.data(), x.data() + x.size()};
  }

 private:
  int size_;
  Eigen::VectorXd right_;
  std::vector<Eigen::Triplet<double>> entries_;
};

}  // namespace

Smoother::Smoother(double length, double spacing) : length_(length) {
  const int stretches = std::max(4, static_cast<int>(std::ceil(length / spacing)));
  spacing_ = length / stretches;
  coefficients_.assign(static_cast<std::size_t>(stretches) + 1, 0.0);
}

void Smoother::fit(const Readings& readings, double weight) {
  const int unknowns = static_cast<int>(coefficients_.size()), stretches = unknowns - 1;
  NormalEquations equations(unknowns);
  for (std::size_t i = 0; i < readings.s.size(); ++i)
    equations.add(value_row(readings.s[i], spacing_, stretches), readings.r[i], 1);
  const double bending = weight / (spacing_ * spacing_ * spacing_);
  for (int j = 0; j + 2 <= unknowns; ++j) equations.add({j, {1, -2, 1, 0}}, 0, bending);
  coefficients_ = equations.solved();
}

double Smoother::r(double s) const {
  double sum = 0;
  each_free(value_row(s, spacing_, static_cast<int>(coefficients_.size()) - 1),
            [&](int i, double w) { sum += w * coefficients_[static_cast<std::size_t>(i)]; });
  return sum;
}

double Smoother::rms(const Readings& readings) const {
  double sum = 0;
  for (std::size_t i = 0; i < readings.s.size(); ++i) {
    const double off = r(readings.s[i]) - readings.r[i];
    sum += off * off;
  }
  return std::sqrt(sum / static_cast<double>(readings.s.size()));
}

Readings Smoother::at_knots() const {
  Readings knots;
  for (std::size_t i = 0; i < coefficients_.size(); ++i) {
    const double s = i + 1 == coefficients_.size() ? length_ : static_cast<double>(i) * spacing_;
    knots.s.push_back(s);
    knots.r.push_back(i == 0 ? 0 : std::max(0.0, r(s)));
  }
  return knots;
}

}  // namespace crownwright::pattern
