#include "pattern/least_squares.h"

#include <Eigen/Dense>
#include <cmath>
#include <unsupported/Eigen/NonLinearOptimization>

namespace crownwright::pattern {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Steps are lengths, not shares: a value that rests on its bound at 0 would not be moved by a share of it.
constexpr double difference = 1e-4;
/// A last step that changes the sum of squares by less than this share moves no unknown by a hundredth of its
/// sigma.
constexpr double close_enough = 1e-6;
constexpr int most_trials = 100;
constexpr double nothing_known = 1000;

/// What Eigen's templates want to see.
struct Functor {
  using Scalar = double;
  using InputType = VectorXd;
  using ValueType = VectorXd;
  using JacobianType = MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  Functor(const Residuals& function, int inputs, int values)
      : function_(&function), inputs_(inputs), values_(values) {}
  int inputs() const { return inputs_; }
  int values() const { return values_; }
  int operator()(const VectorXd& x, VectorXd& f) const {
    const std::vector<double> unknowns(x.data(), x.data() + x.size());
    std::vector<double> residuals(static_cast<std::size_t>(values_));
    (*function_)(unknowns, residuals);
    f = Eigen::Map<const VectorXd>(residuals.data(), values_);
    return 0;
  }
  int df(const VectorXd& x, MatrixXd& jacobian) const {
    VectorXd here(values_), there(values_), moved = x;
    (*this)(x, here);
    for (Eigen::Index i = 0; i < x.size(); ++i) {
      moved(i) = x(i) + difference;
      (*this)(moved, there);
      jacobian.col(i) = (there - here) / (moved(i) - x(i));
      moved(i) = x(i);
    }
    return 0;
  }

 private:
  const Residuals* function_;
  int inputs_, values_;
};

VectorXd residuals_at(const Residuals& residuals, std::size_t rows, const std::vector<double>& unknowns) {
  std::vector<double> f(rows);
  residuals(unknowns, f);
  return Eigen::Map<const VectorXd>(f.data(), static_cast<Eigen::Index>(rows));
}

}  // namespace

std::vector<double> least_squares(const Residuals& residuals, std::size_t rows, std::vector<double> start) {
  Functor functor(residuals, static_cast<int>(start.size()), static_cast<int>(rows));
  Eigen::LevenbergMarquardt<Functor> search(functor);
  search.parameters.ftol = close_enough;
  search.parameters.xtol = close_enough / 10;
  search.parameters.factor = 1;
  search.parameters.maxfev = most_trials;
  VectorXd x = Eigen::Map<const VectorXd>(start.data(), static_cast<Eigen::Index>(start.size()));
  search.minimize(x);
  return {x.data(), x.data() + x.size()};
}

std::vector<double> one_sigma(const Residuals& residuals, std::size_t rows, const std::vector<double>& at,
                              const std::vector<double>& steps) {
  const auto n = static_cast<Eigen::Index>(at.size()), m = static_cast<Eigen::Index>(rows);
  MatrixXd jacobian = MatrixXd::Zero(m + n, n);
  const VectorXd here = residuals_at(residuals, rows, at);
  for (Eigen::Index i = 0; i < n; ++i) {
    std::vector<double> moved = at;
    const double step = steps[static_cast<std::size_t>(i)];
    moved[static_cast<std::size_t>(i)] += step;
    jacobian.col(i).head(m) = (residuals_at(residuals, rows, moved) - here) / step;
    jacobian(m + i, i) = 1 / nothing_known;
  }
  const MatrixXd upper = Eigen::HouseholderQR<MatrixXd>(jacobian).matrixQR().topRows(n);
  const MatrixXd inverse = upper.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(n, n));
  const VectorXd sigma = inverse.rowwise().norm();
  return {sigma.data(), sigma.data() + sigma.size()};
}

}  // namespace crownwright::pattern
