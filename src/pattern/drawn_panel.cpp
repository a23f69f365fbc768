#include "pattern/drawn_panel.h"

#include <algorithm>

#include "base/length.h"

namespace crownwright::pattern {
namespace {

constexpr double measured_noise = 0.2;  // mm, one sigma of a width taken with a ruler; common practice

std::string at_distance(double y) { return number_text(y, 1) + " mm from the tip"; }

Result<Done> check_tip(const std::vector<Station>& widths, double allowance) {
  const double widest_tip = 4 * allowance;
  if (widths[0].half_width > widest_tip) {
    return order_fault(
        {},
        "the first width is " + number_text(widths[0].half_width, 2) + " mm: there is no tip at the start",
        allowance > 0 ? "at most four allowances, " + number_text(widest_tip, 2) + " mm"
                      : "a first width of 0 at the tip");
  }
  if (widths[1].half_width <= widths[0].half_width) {
    return order_fault({},
                       "the panel does not widen from its tip: " + number_text(widths[1].half_width, 2) +
                           " mm " + at_distance(widths[1].y),
                       "widths that grow from the tip");
  }
  return Done{};
}

Result<Done> check_allowance(const std::vector<Station>& widths, double allowance) {
  if (allowance < 0) {
    return order_fault({}, "the allowance of " + number_text(allowance, 3) + " mm is negative", "0 or more");
  }
  double most = 0;
  for (const Station& s : widths) most = std::max(most, s.half_width);
  if (allowance > 0 && most <= 2 * allowance) {
    return order_fault({},
                       "the allowance of " + number_text(allowance, 3) +
                           " mm is wider than the panel, whose greatest width is " + number_text(most, 2) +
                           " mm",
                       "less than half of that width");
  }
  return Done{};
}

Result<Done> check_stations(const std::vector<Station>& widths) {
  if (widths.size() < 4) {
    return order_fault({}, "there are " + std::to_string(widths.size()) + " stations", "at least four");
  }
  for (std::size_t i = 0; i < widths.size(); ++i) {
    if (!std::isfinite(widths[i].y) || !std::isfinite(widths[i].half_width)) {
      return order_fault({}, "station " + std::to_string(i + 1) + " is not a number", "distance and width");
    }
    if (widths[i].half_width < 0) {
      return order_fault({}, "the width " + at_distance(widths[i].y) + " is negative", "widths of 0 or more");
    }
    if (i > 0 && widths[i].y <= widths[i - 1].y) {
      return order_fault({},
                         "the station " + at_distance(widths[i].y) + " comes after the one at " +
                             number_text(widths[i - 1].y, 1) + " mm",
                         "distances that rise from the tip");
    }
  }
  return Done{};
}

std::vector<Station> halved(std::vector<Station> widths) {
  for (Station& s : widths) s.half_width /= 2;
  return widths;
}

std::vector<Station> from_the_tip(std::vector<Station> stations) {
  const double tip = stations.front().y;
  for (Station& s : stations) s.y -= tip;
  return stations;
}

// Slope dx/dy of the smooth curve through the stations: of the parabola through three neighbours.
double slope_at(const std::vector<Station>& cut, std::size_t i) {
  const auto chord = [&](std::size_t a, std::size_t b) {
    return (cut[b].half_width - cut[a].half_width) / (cut[b].y - cut[a].y);
  };
  const std::size_t last = cut.size() - 1;
  if (i == 0) return chord(0, 1);
  const std::size_t mid = std::min(i, last - 1);
  const double before = chord(mid - 1, mid);
  const double after = chord(mid, mid + 1);
  const double h0 = cut[mid].y - cut[mid - 1].y;
  const double h1 = cut[mid + 1].y - cut[mid].y;
  const double bend = (after - before) / (h0 + h1);
  return i == last ? after + bend * h1 : before + bend * h0;
}

double between(const Station& a, const Station& b, double y) {
  return a.half_width + (b.half_width - a.half_width) * (y - a.y) / (b.y - a.y);
}

// The seam is the curve through the stations moved inward along its normals: the chords between coarse
// stations must not be mitred, or every station at a bend would lose a little width.
std::vector<Station> moved_inward(const std::vector<Station>& cut, double d) {
  std::vector<Station> sew;
  for (std::size_t i = 0; i < cut.size(); ++i) {
    const double slope = slope_at(cut, i);
    const double stretch = std::hypot(1, slope);
    sew.push_back({cut[i].y + d * slope / stretch, cut[i].half_width - d / stretch});
  }
  return sew;
}

// The seams run straight on from the first step to where they meet. (Cut tips are trimmed in every fashion.)
double sewn_tip(const std::vector<Station>& cut, double d) {
  const double slope = slope_at(cut, 0);
  return cut[0].y - cut[0].half_width / slope + d * std::hypot(1, slope) / slope;
}

Result<std::vector<Station>> sewn_stations(const std::vector<Station>& cut, double d) {
  const double tip = sewn_tip(cut, d);
  const double end = cut.back().y - d;
  const std::vector<Station> moved = moved_inward(cut, d);
  std::vector<Station> sew = {{tip, 0}};
  for (std::size_t i = 0; i < moved.size(); ++i) {
    const Station& s = moved[i];
    const bool in_the_tip = s.y <= tip || cut[i].y <= tip;
    if (s.half_width <= 0 && !in_the_tip) {
      return order_fault(
          {},
          "the allowance of " + number_text(d, 3) + " mm is wider than the panel " + at_distance(cut[i].y),
          "widths of more than two allowances past the tip");
    }
    if (s.half_width <= 0 || in_the_tip) continue;
    if (s.y <= sew.back().y) {
      return order_fault({},
                         "the seam cannot be found " + at_distance(cut[i].y) +
                             ": the cut edge bends too sharply for its allowance",
                         "a smoother edge, or sewn widths");
    }
    if (s.y >= end) {
      if (end > sew.back().y) sew.push_back({end, between(sew.back(), s, end)});
      return from_the_tip(std::move(sew));
    }
    sew.push_back(s);
  }
  // The seam leans outward at the head line: carry its last stretch on.
  const Station last = sew.back();
  if (sew.size() >= 2 && end > last.y) sew.push_back({end, between(sew[sew.size() - 2], last, end)});
  return from_the_tip(std::move(sew));
}

}  // namespace

Result<DrawnPanel> panel_from_stations(int panels, const std::vector<Station>& full_widths,
                                       double allowance) {
  if (const auto checked = check_stations(full_widths); !checked) return checked.fault();
  if (const auto checked = check_allowance(full_widths, allowance); !checked) return checked.fault();
  if (const auto checked = check_tip(full_widths, allowance); !checked) return checked.fault();
  const std::vector<Station> cut = halved(full_widths);
  DrawnPanel panel{panels, from_the_tip(cut), std::nullopt, measured_noise};
  if (allowance <= 0) return panel;
  auto sewn = sewn_stations(cut, allowance);
  if (!sewn) return sewn.fault();
  if (sewn->size() < 4) {
    return order_fault({},
                       "fewer than four stations are left when the allowance of " +
                           number_text(allowance, 3) + " mm is taken off",
                       "more stations, or a smaller allowance");
  }
  panel.stations = std::move(*sewn);
  return panel;
}

Station widest(const DrawnPanel& panel) {
  return *std::max_element(panel.stations.begin(), panel.stations.end(),
                           [](const Station& a, const Station& b) { return a.half_width < b.half_width; });
}

}  // namespace crownwright::pattern
