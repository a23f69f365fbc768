#include "pattern/smoother.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

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

/// What one row adds to the normal equations: half a band of the matrix, and the right side.
void add_row(const Row& row, double value, std::vector<std::array<double, 4>>& band,
             std::vector<double>& right) {
  each_free(row, [&](int i, double wi) {
    right[static_cast<std::size_t>(i)] += wi * value;
    each_free(row, [&](int j, double wj) {
      if (i >= j) band[static_cast<std::size_t>(j)][static_cast<std::size_t>(i - j)] += wi * wj;
    });
  });
}

}  // namespace

Smoother::Smoother(double length, double spacing, Readings readings)
    : length_(length), readings_(std::move(readings)) {
  const int stretches = std::max(4, static_cast<int>(std::ceil(length / spacing)));
  spacing_ = length / stretches;
  const auto unknowns = static_cast<std::size_t>(stretches) + 1;
  coefficients_.assign(unknowns, 0.0);
  near_.assign(unknowns, {});
  bent_.assign(unknowns, {});
  right_.assign(unknowns, 0.0);
  for (std::size_t i = 0; i < readings_.s.size(); ++i)
    add_row(value_row(readings_.s[i], spacing_, stretches), readings_.r[i], near_, right_);
  for (int j = 0; j + 1 <= stretches; ++j) add_row({j, {1, -2, 1, 0}}, 0, bent_, right_);
}

// The natural order of the unknowns fills nothing outside the band. The pattern is that of the band, whether
// a place of it is zero or not.
void Smoother::fit(double weight) {
  using Matrix = Eigen::SparseMatrix<double>;
  const auto size = static_cast<Eigen::Index>(coefficients_.size());
  const double bending = weight / (spacing_ * spacing_ * spacing_);
  Matrix lower(size, size);
  lower.reserve(Eigen::VectorXi::Constant(size, 4));
  for (Eigen::Index j = 0; j < size; ++j) {
    const auto at = static_cast<std::size_t>(j);
    for (Eigen::Index k = 0; k < std::min<Eigen::Index>(4, size - j); ++k)
      lower.insert(j + k, j) =
          near_[at][static_cast<std::size_t>(k)] + bending * bent_[at][static_cast<std::size_t>(k)];
  }
  const Eigen::SimplicialLDLT<Matrix, Eigen::Lower, Eigen::NaturalOrdering<int>> factors(lower);
  Eigen::Map<Eigen::VectorXd>(coefficients_.data(), size) =
      factors.solve(Eigen::Map<const Eigen::VectorXd>(right_.data(), size));
}

double Smoother::r(double s) const {
  double sum = 0;
  each_free(value_row(s, spacing_, static_cast<int>(coefficients_.size()) - 1),
            [&](int i, double w) { sum += w * coefficients_[static_cast<std::size_t>(i)]; });
  return sum;
}

double Smoother::rms() const {
  double sum = 0;
  for (std::size_t i = 0; i < readings_.s.size(); ++i) {
    const double off = r(readings_.s[i]) - readings_.r[i];
    sum += off * off;
  }
  return std::sqrt(sum / static_cast<double>(readings_.s.size()));
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
