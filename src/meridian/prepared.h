#pragma once
// Segments and chains of which many points are asked: what does not depend on the place is worked out once.
// The answers are those of chain.h, bit by bit.

#include <vector>

#include "meridian/chain.h"

namespace crownwright::meridian {

class PreparedSegment {
 public:
  explicit PreparedSegment(const Segment& segment);

  const Segment& segment() const { return segment_; }
  double length() const { return length_; }
  Point at(double s) const;
  Point tangent_at(double s) const;
  double distance_to(Point p) const;

 private:
  Segment segment_;
  double length_ = 0;
  Point tangent_;   ///< unit, at the start
  Point mismatch_;  ///< of an arc's far end
};

class PreparedChain {
 public:
  explicit PreparedChain(const Chain& chain) : segments_(chain.begin(), chain.end()) {}

  std::size_t size() const { return segments_.size(); }
  const PreparedSegment& operator[](std::size_t i) const { return segments_[i]; }
  /// Precondition: the chain is not empty.
  Point at(double s) const;

 private:
  std::vector<PreparedSegment> segments_;
};

}  // namespace crownwright::meridian
