#include "milling/finish_curve.h"

#include <algorithm>

namespace crownwright::milling {

using meridian::Chain;
using meridian::Segment;

Chain carried_down(const Chain& target, double depth) {
  Chain chain = target;
  const auto end = chain.back().to();
  chain.push_back(Segment::line(end, {end.r, end.z - depth}));
  return chain;
}

FinishCurve finish_curve(const Setup& setup, double radius) {
  // All that is added lies beside the last piece of the curve, upright and as long as what was added.
  CutterCurve curve(carried_down(setup.target, radius), radius);
  const double end = std::min(curve.end_above(setup.lowest), curve.length() - radius);
  return {std::move(curve), end};
}

}  // namespace crownwright::milling
