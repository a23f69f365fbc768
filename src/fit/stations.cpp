// Matching: the cloth's meridian is laid along the form's from tip to head line, stretched evenly when their
// lengths differ, so the form's station s meets the cloth's s k, k = cloth length / form length. Letting the
// cloth slide along the form instead moves the extremes by no more than 0.003 on berets.
//
// Means. A panel of n has a width: its cross arcs lie askew to the parallels, so the cloth at a parallel
// comes from a stretch of the pattern half a panel's width, h = pi r / n, up and down. Strains are therefore
// averaged over [s - h, s + h] before they are compared with what the cloth takes. A disc or ring has no
// such width: the cloth of a parallel is one circle of the pattern, and nothing is averaged.
//
// Lengths are measured on pieces: the form's piece over the net's piece of the same s, so that the strain of
// a longer piece is its mean.
#include "fit/stations.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/numbers.h"
#include "fit/tape.h"

namespace crownwright::fit {
namespace {

constexpr double spacing = 2.5;  // mm, chosen: smooth to the eye on a chart
constexpr int fewest = 60, most = 120;
/// The tip's ratio of girths is taken this far from it; r is odd there, so it is the limit but for (s / R)^2.
constexpr double near_tip = 1e-3;  // mm
/// No strain is told beyond this: a form ten times as wide as its cloth is wrong in some other way.
constexpr double greatest_told = 10;

/// A line known at rising places, straight in between.
class Table {
 public:
  Table(std::vector<double> x, std::vector<double> y) : x_(std::move(x)), y_(std::move(y)) {}
  double at(double x) const {
    const auto after = std::upper_bound(x_.begin() + 1, x_.end() - 1, x);
    const auto i = static_cast<std::size_t>(after - x_.begin());
    return y_[i - 1] + (y_[i] - y_[i - 1]) * (x - x_[i - 1]) / (x_[i] - x_[i - 1]);
  }

 private:
  std::vector<double> x_, y_;
};

/// Lengths on the net from the tip, along seam and centre line.
struct Rulers {
  Table seam, centre;
  double length;  ///< the net's s at the head line
};

Rulers rulers_of(const pattern::PanelNet& net) {
  std::vector<double> s, seam, centre;
  for (std::size_t i = 0; i < net.points.size(); ++i) {
    const auto& p = net.points[i];
    const auto& last = net.points[i > 0 ? i - 1 : 0];
    s.push_back(p.s);
    seam.push_back((i > 0 ? seam.back() : 0) + std::hypot(p.x - last.x, p.y - last.y));
    centre.push_back((i > 0 ? centre.back() : 0) + (p.y + p.bow) - (last.y + last.bow));
  }
  const double length = s.back();
  return {{s, std::move(seam)}, {s, std::move(centre)}, length};
}

/// Where the crown is widest: the first place where its radius no longer grows.
double crown_edge(const pattern::Parallels& crown) {
  double low = 0, high = crown.length();
  while (high - low > 1e-9 * crown.length()) {
    const double middle = low + (high - low) / 2;
    (crown.slope(middle) > 0 ? low : high) = middle;
  }
  return high;
}

class Measurer {
 public:
  explicit Measurer(const FitQuestion& question)
      : question_(question), length_(question.form.length()), match_(question.cloth.length() / length_) {
    if (!(length_ > 0) || !(match_ > 0)) throw std::logic_error("a fit was asked of a crown without length");
    if (question.net && (question.net->points.size() < 2 || question.net->panels < 3))
      throw std::logic_error("a fit was asked of a net that is no panel");
    if (question.net) rulers_ = rulers_of(*question.net);
  }

  std::vector<FitStation> measure() const {
    std::vector<FitStation> stations;
    for (const double s : places()) stations.push_back(local_at(s));
    average_hoop(stations);
    return stations;
  }

 private:
  double step() const {
    return length_ / std::clamp(static_cast<int>(std::ceil(length_ / spacing)), fewest, most);
  }

  std::vector<double> places() const {
    const int count = static_cast<int>(std::lround(length_ / step()));
    std::vector<double> places;
    for (int k = 0; k <= count; ++k) places.push_back(length_ * k / count);
    for (const double edge : {crown_edge(question_.form), crown_edge(question_.cloth) / match_}) {
      const auto at = std::lower_bound(places.begin(), places.end(), edge - 1e-6);
      if (at != places.end() && *at > edge + 1e-6) places.insert(at, edge);
    }
    return places;
  }

  double form_radius(double s) const {
    const double r = question_.form.r(s);
    if (!question_.tape || !question_.net) return r;
    return r + taped_growth(r, question_.form.slope(s), question_.net->panels, *question_.tape);
  }

  double hoop(double s) const {
    const double at = std::max(s, near_tip), form = form_radius(at), cloth = question_.cloth.r(at * match_);
    if (form <= 0 && cloth <= 0) return 0;
    if (!(form < (1 + greatest_told) * cloth)) return greatest_told;
    return form / cloth - 1;
  }

  double half_width(double s) const {
    return question_.net ? pi * question_.form.r(s) / question_.net->panels : 0;
  }

  FitStation local_at(double s) const {
    FitStation station;
    station.s = s;
    station.r_form = form_radius(s);
    station.r_cloth = question_.cloth.r(s * match_);
    station.hoop = station.hoop_mean = hoop(s);
    const double piece = step() / 2, wide = std::max(piece, half_width(s));
    station.seam = length_strain(rulers_ ? &rulers_->seam : nullptr, s, piece);
    station.centre = length_strain(rulers_ ? &rulers_->centre : nullptr, s, piece);
    station.seam_mean = length_strain(rulers_ ? &rulers_->seam : nullptr, s, wide);
    station.centre_mean = length_strain(rulers_ ? &rulers_->centre : nullptr, s, wide);
    return station;
  }

  /// Of the piece from s - reach to s + reach, as far as the crown goes. Without a net: the even stretch.
  double length_strain(const Table* ruler, double s, double reach) const {
    const double from = std::max(0.0, s - reach), to = std::min(length_, s + reach);
    const double to_net = rulers_ ? rulers_->length / length_ : match_;
    const double cloth =
        ruler != nullptr ? ruler->at(to * to_net) - ruler->at(from * to_net) : (to - from) * to_net;
    if (!(to - from < (1 + greatest_told) * cloth)) return greatest_told;
    return (to - from) / cloth - 1;
  }

  void average_hoop(std::vector<FitStation>& stations) const {
    if (!question_.net) return;
    std::vector<double> s, sum;
    for (std::size_t i = 0; i < stations.size(); ++i) {
      s.push_back(stations[i].s);
      sum.push_back(i == 0 ? 0
                           : sum.back() + (stations[i].s - stations[i - 1].s) *
                                              (stations[i].hoop + stations[i - 1].hoop) / 2);
    }
    const Table integral(s, sum);
    for (FitStation& station : stations) {
      const double reach = half_width(station.s);
      const double from = std::max(0.0, station.s - reach), to = std::min(length_, station.s + reach);
      // Narrower than a station's share there is nothing to average: the local value stands.
      if (to - from > step()) station.hoop_mean = (integral.at(to) - integral.at(from)) / (to - from);
    }
  }

  const FitQuestion& question_;
  double length_, match_;
  std::optional<Rulers> rulers_;
};

}  // namespace

std::vector<FitStation> stations_of(const FitQuestion& question) { return Measurer(question).measure(); }

}  // namespace crownwright::fit
