#include "pattern/parallels.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "pattern/parallels_curve.h"

namespace crownwright::pattern {
namespace {

std::vector<double> joints_of(const meridian::Chain& crown) {
  std::vector<double> joints;
  double s = 0;
  for (std::size_t i = 0; i + 1 < crown.size(); ++i) joints.push_back(s += crown[i].length());
  return joints;
}

/// Lines and arcs in closed form, by chord and half turn, so that an arc of any radius keeps its digits.
class OfChain : public Parallels::Curve {
 public:
  explicit OfChain(const meridian::Chain& crown) : Curve(meridian::length(crown), joints_of(crown)) {
    double s = 0;
    for (const meridian::Segment& segment : crown) {
      const meridian::Point tangent = segment.tangent_at(0);
      parts_.push_back({s, segment.from().r, tangent.r, tangent.z, segment.curvature()});
      s += segment.length();
    }
  }

  Parallels::Reading at(double s) const override {
    std::size_t i = parts_.size() - 1;
    while (i > 0 && s < parts_[i].s) --i;
    const Part& part = parts_[i];
    const double u = s - part.s;
    if (part.curvature == 0) return {part.r + u * part.cosine, part.cosine};
    const double half_turn = part.curvature * u / 2;
    const double sine = std::sin(half_turn), cosine = std::cos(half_turn);
    const double chord =
        std::abs(half_turn) < 1e-4 ? u * (1 - half_turn * half_turn / 6) : u * sine / half_turn;
    return {part.r + chord * (part.cosine * cosine - part.sine * sine),
            part.cosine - 2 * sine * (part.cosine * sine + part.sine * cosine)};
  }

 private:
  struct Part {
    double s, r, cosine, sine, curvature;
  };
  std::vector<Part> parts_;
};

class OfDiscs : public Parallels::Curve {
 public:
  OfDiscs(double top, double outer, double inner)
      : Curve(top + outer - inner, {top}), top_(top), outer_(outer) {}

  Parallels::Reading at(double s) const override {
    if (s < top_) return {s, 1};
    return {outer_ - (s - top_), -1};
  }

 private:
  double top_, outer_;
};

}  // namespace

Parallels::Parallels(std::shared_ptr<const Curve> curve) : curve_(std::move(curve)) {}

Parallels Parallels::of(const meridian::Chain& crown) {
  if (crown.empty()) throw std::logic_error("a crown without a meridian has no parallels");
  return Parallels(std::make_shared<OfChain>(crown));
}

Parallels Parallels::of_discs(double top, double ring_outer, double ring_inner) {
  if (!(top > 0 && ring_outer > ring_inner && ring_inner > 0))
    throw std::logic_error("a top and a ring need radii above zero and an opening in the ring");
  return Parallels(std::make_shared<OfDiscs>(top, ring_outer, ring_inner));
}

double Parallels::length() const { return curve_->length(); }

const std::vector<double>& Parallels::joints() const { return curve_->joints(); }

Parallels::Reading Parallels::at(double s) const {
  if (s < 0) {
    const Reading mirrored = at(-s);
    return {-mirrored.r, mirrored.slope};
  }
  const double length = curve_->length();
  if (s <= length) return curve_->at(s);
  const Reading end = curve_->at(length);
  return {end.r + end.slope * (s - length), end.slope};
}

double Parallels::r(double s) const { return at(s).r; }
double Parallels::slope(double s) const { return at(s).slope; }

}  // namespace crownwright::pattern
