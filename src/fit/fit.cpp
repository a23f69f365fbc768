// The verdict. What the numbers mean at the bench:
//   as sewn       the mean strains ask no more than the cloth gives under the hands: it may be drawn out as
//   far
//                 as it stretches, and anyone smooths away a hundredth;
//   after steam   it has to be eased in under steam and iron, within what the cloth takes up, what it shrinks
//                 by itself counted in;
//   no            more than that: folds, or harm to the cloth.
// Three strains count, each at every station: round the crown (hoop), along the seams and along the middle of
// the panels. Means are compared, because the cloth of a panel shares out what is local; where only a local
// strain is too great, the place is named for the iron.
#include "fit/fit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "fit/stations.h"

namespace crownwright::fit {
namespace {

constexpr std::array strains{Strain::hoop, Strain::seam, Strain::centre};

double mean_of(const FitStation& station, Strain strain) {
  if (strain == Strain::hoop) return station.hoop_mean;
  return strain == Strain::seam ? station.seam_mean : station.centre_mean;
}

double local_of(const FitStation& station, Strain strain) {
  if (strain == Strain::hoop) return station.hoop;
  return strain == Strain::seam ? station.seam : station.centre;
}

/// What the cloth takes: strains from low to high.
struct Allowed {
  double sewn_low, steam_low, high, taped_high;
  double high_of(Strain strain) const { return strain == Strain::seam ? taped_high : high; }
};

Allowed allowed_of(const FitQuestion& question) {
  const ClothLimits& cloth = question.limits;
  const double high = std::max(cloth.stretch, nothing_to_feel);
  // A seam that is taped gives no more than its tape.
  const bool is_held = question.tape && question.net;
  return {-small_ease, -std::max(small_ease, cloth.ease + cloth.heat_shrink), high,
          is_held ? std::min(high, taped_seam_stretch) : high};
}

/// How far a strain stays within; negative beyond.
double room(double value, double low, double high) { return std::min(high - value, value - low); }

Verdict verdict_of(const std::vector<FitStation>& stations, const Allowed& allowed) {
  double sewn = allowed.high, steam = allowed.high;
  for (const FitStation& station : stations) {
    for (const Strain strain : strains) {
      const double value = mean_of(station, strain), high = allowed.high_of(strain);
      sewn = std::min(sewn, room(value, allowed.sewn_low, high));
      steam = std::min(steam, room(value, allowed.steam_low, high));
    }
  }
  if (sewn >= 0) return Verdict::as_sewn;
  return steam >= 0 ? Verdict::after_steam : Verdict::no;
}

/// The mean strain that uses the largest share of what the cloth takes.
Worst worst_of(const std::vector<FitStation>& stations, const Allowed& allowed) {
  Worst worst;
  double greatest = -1;
  for (const FitStation& station : stations) {
    for (const Strain strain : strains) {
      const double value = mean_of(station, strain);
      const double limit = value > 0 ? allowed.high_of(strain) : allowed.steam_low;
      if (value / limit <= greatest) continue;
      greatest = value / limit;
      worst = {strain, station.s, value, limit};
    }
  }
  return worst;
}

/// The peak of every run of stations where the local strain is beyond, unless the mean is beyond in it too:
/// no iron mends that.
void add_peaks(const std::vector<FitStation>& stations, const Allowed& allowed, Strain strain,
               std::vector<double>& places) {
  const double high = allowed.high_of(strain);
  double peak = 0, at = 0;
  bool mean_passes = true;
  for (std::size_t i = 0; i <= stations.size(); ++i) {
    const double beyond =
        i < stations.size() ? -room(local_of(stations[i], strain), allowed.steam_low, high) : 0;
    if (beyond > 0) {
      mean_passes = mean_passes && room(mean_of(stations[i], strain), allowed.steam_low, high) >= 0;
      if (beyond > peak) at = stations[i].s;
      peak = std::max(peak, beyond);
      continue;
    }
    if (peak > 0 && mean_passes) places.push_back(at);
    peak = 0;
    mean_passes = true;
  }
}

std::vector<double> places_for_the_iron(const std::vector<FitStation>& stations, const Allowed& allowed) {
  std::vector<double> places;
  for (const Strain strain : strains) add_peaks(stations, allowed, strain, places);
  std::sort(places.begin(), places.end());
  const auto same = [](double one, double next) { return next - one < one_iron_place; };
  places.erase(std::unique(places.begin(), places.end(), same), places.end());
  return places;
}

}  // namespace

std::string verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::as_sewn:
      return "fits as sewn";
    case Verdict::after_steam:
      return "fits after steam";
    case Verdict::no:
      return "will not fit";
  }
  return {};
}

std::string in_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::as_sewn:
      return "as sewn";
    case Verdict::after_steam:
      return "after steam";
    case Verdict::no:
      return "no";
  }
  throw std::logic_error("a verdict that is none");
}

FitReport judge(const FitQuestion& question) {
  FitReport report;
  report.stations = stations_of(question);
  const Allowed allowed = allowed_of(question);
  report.verdict = verdict_of(report.stations, allowed);
  report.worst = worst_of(report.stations, allowed);
  report.work_here = places_for_the_iron(report.stations, allowed);
  const auto less = [](const FitStation& p, const FitStation& q) { return p.hoop_mean < q.hoop_mean; };
  const auto [least, greatest] = std::minmax_element(report.stations.begin(), report.stations.end(), less);
  report.hoop_min = least->hoop_mean;
  report.hoop_max = greatest->hoop_mean;
  const double length = question.form.length();
  report.length_stretch = length / question.cloth.length() - 1;
  report.seam_length = question.net ? length / question.net->seam_length - 1 : report.length_stretch;
  report.centre_length = question.net ? length / question.net->centre_length - 1 : report.length_stretch;
  return report;
}

}  // namespace crownwright::fit
