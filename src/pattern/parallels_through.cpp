// The smooth curve through readings, in a source of its own since the interpolator's headers are heavy.
// Akima, J. ACM 17 (1970), in the modified form of Boost.Math. The readings are given to it with two of their
// mirror images past the tip, so that the curve leaves the tip as an odd one does.
#include <algorithm>
#include <boost/math/interpolators/makima.hpp>
#include <stdexcept>

#include "pattern/parallels_curve.h"

namespace crownwright::pattern {
namespace {

using Akima = boost::math::interpolators::makima<std::vector<double>>;

class Through : public Parallels::Curve {
 public:
  Through(double length, Akima akima) : Curve(length, {}), akima_(std::move(akima)) {}
  Parallels::Reading at(double s) const override { return {akima_(s), akima_.prime(s)}; }

 private:
  Akima akima_;
};

std::vector<double> with_mirror_images(const std::vector<double>& values) {
  std::vector<double> all{-values[2], -values[1]};
  all.insert(all.end(), values.begin(), values.end());
  return all;
}

bool is_rising(const std::vector<double>& s) {
  return std::adjacent_find(s.begin(), s.end(), [](double a, double b) { return !(a < b); }) == s.end();
}

}  // namespace

Parallels Parallels::through(std::vector<double> s, std::vector<double> r) {
  if (s.size() < 3 || s.size() != r.size() || s.front() != 0 || !is_rising(s))
    throw std::logic_error("a curve needs three readings or more, rising from the tip");
  const double length = s.back();
  return Parallels(std::make_shared<Through>(length, Akima(with_mirror_images(s), with_mirror_images(r))));
}

}  // namespace crownwright::pattern
