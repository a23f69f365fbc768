#pragma once
// Which values of a beret a fit may change, and the bounds of the family: whatever the fit tries, what is
// drafted is a beret that can be made.

#include <optional>
#include <vector>

#include "meridian/beret.h"
#include "pattern/solve.h"

namespace crownwright::pattern {

/// What stands for a free rise among the unknowns. The meridian's length is nearly told by the drawing's end
/// alone, so a search that moves it moves little else; the sigma asked for is the rise's.
enum class RiseBy { length, rise };

class Unknowns {
 public:
  /// Precondition: the stated values of the question do not exclude each other.
  /// `dome`: held at this value when given.
  Unknowns(const FitQuestion& question, RiseBy rise_by, std::optional<double> dome = {});

  /// The free values in the order a, b, R (or length), t, e_u, e_l; what is stated, and e_l unless apart, is
  /// left out.
  std::vector<double> of(const meridian::BeretValues& values) const;

  /// A beret near these unknowns: they themselves when they make one; else each is brought to its bound.
  meridian::BeretValues nearest(const std::vector<double>& unknowns) const;

  /// For each unknown a small step that stays inside the family.
  std::vector<double> inward_steps(const std::vector<double>& unknowns) const;

  /// The sigmas of the unknowns told apart; 0 for what is stated.
  Sigma named(const std::vector<double>& one_sigma) const;

  std::size_t size() const { return free_.size(); }
  /// Precondition: this value is free.
  std::size_t place_of(double meridian::BeretValues::*value) const;

 private:
  void bring_inside(meridian::BeretValues& values) const;
  bool has_length() const { return rise_by_ == RiseBy::length && !holds_rise_; }

  std::vector<double meridian::BeretValues::*> free_;
  meridian::BeretValues stated_;
  RiseBy rise_by_;
  bool apart_, holds_crown_, holds_head_, holds_rise_;
};

/// Tip to head line along the meridian. Precondition: the values make a beret.
double meridian_length(const meridian::BeretValues& values);

}  // namespace crownwright::pattern
