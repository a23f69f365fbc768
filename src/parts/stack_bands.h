#pragma once
// How wide a meridian is within a band of height: least, greatest and mean radius, in closed form.

#include <vector>

#include "meridian/chain.h"

namespace crownwright::parts {

/// A radius over a band of height.
struct BandRadius {
  double least = 0, greatest = 0, mean = 0;
};

struct Band {
  BandRadius outer;
  BandRadius inner;  ///< of what is hollow about the axis; all 0 where nothing is
};

class StackBands {
 public:
  /// A meridian from axis to axis round a massive form.
  explicit StackBands(const meridian::Chain& face);

  double low() const { return low_; }
  double high() const { return high_; }
  /// Between two heights within low() and high(), from < to. Level parts of the meridian count for neither
  /// side of them.
  Band between(double from, double to) const;

 private:
  /// A part of the meridian that rises or falls all the way, and in radius too.
  struct Rise {
    double low, high;        // z
    double at_low, at_high;  // r, of a line
    meridian::Point centre;  // of an arc
    double radius = 0, side = 1;
    double r(double z) const;
    double integral(double from, double to) const;  // of r dz
  };
  void add(const meridian::Segment& segment);
  void add_arc(const meridian::Segment& segment);

  std::vector<Rise> rises_;
  double low_ = 0, high_ = 0;
};

}  // namespace crownwright::parts
