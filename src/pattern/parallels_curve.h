#pragma once
// The part of a crown's parallels that differs from kind to kind: between tip and head line.

#include <vector>

#include "pattern/parallels.h"

namespace crownwright::pattern {

class Parallels::Curve {
 public:
  virtual ~Curve() = default;
  double length() const { return length_; }
  const std::vector<double>& joints() const { return joints_; }
  /// Precondition: 0 <= s <= length(). The slope is that of the side towards the head line at a corner (at
  /// the head line itself: of the side towards the tip).
  virtual Reading at(double s) const = 0;

 protected:
  Curve(double length, std::vector<double> joints) : length_(length), joints_(std::move(joints)) {}

 private:
  double length_;
  std::vector<double> joints_;
};

}  // namespace crownwright::pattern
