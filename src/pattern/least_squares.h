#pragma once
// Sums of squares made small, and what is known of the unknowns afterwards. Eigen stays behind this door.

#include <cstddef>
#include <functional>
#include <vector>

namespace crownwright::pattern {

/// Fills the residuals, each divided by its sigma, at these unknowns. Must be continuous and finite
/// everywhere.
using Residuals = std::function<void(const std::vector<double>& unknowns, std::vector<double>& residuals)>;

/// By how much each unknown is moved to see what it does, with its sign: away from a bound it rests on.
using Steps = std::function<std::vector<double>(const std::vector<double>& unknowns)>;

/// Levenberg-Marquardt (More's MINPACK in Eigen's unsupported NonLinearOptimization), derivatives by
/// one-sided differences. Precondition: rows >= start.size() >= 1.
std::vector<double> least_squares(const Residuals& residuals, const Steps& steps, std::size_t rows,
                                  std::vector<double> start);

/// One sigma of each unknown: the square roots of the diagonal of (J'J)^-1, derivatives as above. Of what the
/// residuals do not tell, 1000.
std::vector<double> one_sigma(const Residuals& residuals, const Steps& steps, std::size_t rows,
                              const std::vector<double>& at);

}  // namespace crownwright::pattern
