#include "pattern/drawn_places.h"

#include <algorithm>
#include <cmath>

namespace crownwright::pattern {
namespace {

constexpr int least_panels_drawn = 3, most_panels_drawn = 48;
/// Less than this, mm, is no panel.
constexpr double least_half_width = 0.1, least_panel_length = 1;

/// A drafted panel's corners are no more than twice this apart, mm: none of its places need lie between two.
constexpr double corner_reach = 2;

/// A corner of the outline within `reach` of this height, else the place on the line between two: corners of
/// a drawn curve lie on it, the lines between them a little inside.
Station place_near(const std::vector<Station>& stations, double y, double reach) {
  const auto after = std::lower_bound(stations.begin() + 1, stations.end() - 1, y,
                                      [](const Station& s, double height) { return s.y < height; });
  const Station &p = *(after - 1), &q = *after;
  const Station& nearer = y - p.y < q.y - y ? p : q;
  if (std::abs(nearer.y - y) < reach) return nearer;
  return {y, p.half_width + (q.half_width - p.half_width) * (y - p.y) / (q.y - p.y)};
}

bool rises_from_the_tip(const std::vector<Station>& stations) {
  if (stations.size() < 4) return false;
  for (std::size_t i = 0; i < stations.size(); ++i) {
    if (!std::isfinite(stations[i].y) || !std::isfinite(stations[i].half_width)) return false;
    if (stations[i].half_width < 0 || (i > 0 && !(stations[i].y > stations[i - 1].y))) return false;
  }
  return std::abs(stations.front().y) < 1e-6;
}

}  // namespace

std::optional<Fault> unreadable(const DrawnPanel& drawn) {
  const auto is_wide = [](const Station& s) { return s.half_width > least_half_width; };
  const auto& stations = drawn.stations;
  if (rises_from_the_tip(stations) && stations.back().y > least_panel_length &&
      stations.back().half_width > 0 && std::any_of(stations.begin(), stations.end(), is_wide) &&
      drawn.panels >= least_panels_drawn && drawn.panels <= most_panels_drawn && drawn.noise >= 0)
    return std::nullopt;
  return order_fault(
      "", "the panel cannot be read",
      "3 to 48 panels; four stations or more, rising from the tip to a head line that is open");
}

std::vector<Station> places_of(const DrawnPanel& drawn, int count) {
  const auto& stations = drawn.stations;
  if (!drawn.bow) return {stations.begin() + 1, stations.end()};
  std::vector<Station> places;
  const double end = stations.back().y;
  const double reach = std::max(end / count / 2, corner_reach);
  for (int i = 1; i < count; ++i) {
    const Station place = place_near(stations, end * i / count, reach);
    const double last = places.empty() ? 0 : places.back().y;
    if (place.y > last && place.y < end) places.push_back(place);
  }
  places.push_back(stations.back());
  return places;
}

double distance(const Seam& seam, const Station& drawn) {
  const SeamPlace place = seam.at_height(drawn.y);
  const double run = std::sqrt(place.dx * place.dx + place.dy * place.dy);
  return (place.x - drawn.half_width) * (run > 0 ? place.dy / run : 1);
}

}  // namespace crownwright::pattern
