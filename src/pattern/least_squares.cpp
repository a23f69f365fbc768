#include "pattern/least_squares.h"

#include <Eigen/Dense>
#include <cmath>
#include <unsupported/Eigen/NonLinearOptimization>

namespace crownwright::pattern {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A last step that changes the sum of squares by less than this share moves no unknown by a hundredth of its
/// sigma.
constexpr double close_enough = 1e-6;
/// Against all unknowns, each weighed by what it does: rows that hold something hard weigh a million times
/// more than weak ones.
constexpr double least_step = 1e-12;
constexpr int most_trials = 100;
constexpr double nothing_known = 1000;

/// What Eigen's templates want to see.
struct Functor {
  using Scalar = double;
  using InputType = VectorXd;
  using ValueType = VectorXd;
  using JacobianType = MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  Functor(const Residuals& function, const Steps& steps, std::size_t inputs, std::size_t values)
      : function_(&function),
        steps_(&steps),
        inputs_(static_cast<int>(inputs)),
        values_(static_cast<int>(values)) {}
  int inputs() const { return inputs_; }
  int values() const { return values_; }
  int operator()(const VectorXd& x, VectorXd& f) const {
    const std::vector<double> unknowns(x.data(), x.data() + x.size());
    std::vector<double> residuals(static_cast<std::size_t>(values_));
    (*function_)(unknowns, residuals);
    f = Eigen::Map<const VectorXd>(residuals.data(), values_);
    last_x_ = x;
    last_f_ = f;
    return 0;
  }
  int df(const VectorXd& x, MatrixXd& jacobian) const {
    VectorXd here(values_), there(values_), moved = x;
    if (last_x_.size() == x.size() && last_x_ == x)
      here = last_f_;
    else
      (*this)(x, here);
    const std::vector<double> steps = (*steps_)({x.data(), x.data() + x.size()});
    for (Eigen::Index i = 0; i < x.size(); ++i) {
      moved(i) = x(i) + steps[static_cast<std::size_t>(i)];
      (*this)(moved, there);
      jacobian.col(i) = (there - here) / (moved(i) - x(i));
      moved(i) = x(i);
    }
    return 0;
  }

 private:
  const Residuals* function_;
  const Steps* steps_;
  int inputs_, values_;
  /// Slopes are mostly asked for where the residuals were seen last.
  mutable VectorXd last_x_, last_f_;
};

}  // namespace

std::vector<double> least_squares(const Residuals& residuals, const Steps& steps, std::size_t rows,
                                  std::vector<double> start) {
  Functor functor(residuals, steps, start.size(), rows);
  Eigen::LevenbergMarquardt<Functor> search(functor);
  search.parameters.ftol = close_enough;
  search.parameters.xtol = least_step;
  search.parameters.factor = 1;
  search.parameters.maxfev = most_trials;
  VectorXd x = Eigen::Map<const VectorXd>(start.data(), static_cast<Eigen::Index>(start.size()));
  search.minimize(x);
  return {x.data(), x.data() + x.size()};
}

std::vector<double> one_sigma(const Residuals& residuals, const Steps& steps, std::size_t rows,
                              const std::vector<double>& at) {
  const auto n = static_cast<Eigen::Index>(at.size()), m = static_cast<Eigen::Index>(rows);
  MatrixXd slopes(m, n), jacobian(m + n, n);
  Functor(residuals, steps, at.size(), rows).df(Eigen::Map<const VectorXd>(at.data(), n), slopes);
  jacobian << slopes, MatrixXd::Identity(n, n) / nothing_known;
  const MatrixXd upper = Eigen::HouseholderQR<MatrixXd>(jacobian).matrixQR().topRows(n);
  const MatrixXd inverse = upper.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(n, n));
  const VectorXd sigma = inverse.rowwise().norm();
  return {sigma.data(), sigma.data() + sigma.size()};
}

}  // namespace crownwright::pattern
