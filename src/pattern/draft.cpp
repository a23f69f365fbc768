// The points are laid where the chord stays near the seam: between the end tangents a smooth piece strays
// from its chord by no more than a quarter of chord x the larger angle, and by just that where it is an arc.
// Whether a panel can be drafted at all is asked on one fixed set of places, the same for every use, so that
// a count said to work does work.
#include "pattern/draft.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>

#include "base/length.h"
#include "pattern/seam.h"

namespace crownwright::pattern {
namespace {

constexpr int most_panels = 48, least_number_of_panels = 3;
/// Meridian between two places asked about, mm (chosen: a tenth of the least edge a cloth shows).
constexpr double ask_every = 0.25;
constexpr double longest_piece = 4;

struct Hindrance {
  double s;
  Obstacle obstacle;
};

/// Places of which only the first and the last are asked where there is no hindrance far and wide.
constexpr int asked_together = 8;
/// Pieces of fewer places are asked through: a small edge turns the law quickly.
constexpr int fewest_to_skip = 48;

/// Clear by far at both ends of a short, smooth run, and alike: then it is so in between.
bool is_clear_between(double from, double to) { return std::min(from, to) > 0.1 + 4 * std::abs(to - from); }

std::optional<Hindrance> first_hindrance(const DraftLaw& law) {
  const std::vector<double> breaks = law.breaks();
  // A curve through readings does not name the jumps at each of them: it is smooth nowhere for long.
  const bool is_smooth = !law.crown().joints().empty();
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    const double low = breaks[i], high = breaks[i + 1];
    const int count = std::max(4, static_cast<int>(std::ceil((high - low) / ask_every)));
    const auto place = [&](int k) { return low + (high - low) * (k + 0.5) / count; };
    double before = -1;
    for (int k = 0; k < count; ++k) {
      const int last = std::min(k + asked_together, count) - 1;
      if (is_smooth && count >= fewest_to_skip && k % asked_together == 0 && last > k) {
        const double first_clear = k == 0 ? law.clearance(place(0)) : before;
        before = law.clearance(place(last));
        if (is_clear_between(first_clear, before)) {
          k = last;
          continue;
        }
      }
      if (const Obstacle obstacle = law.obstacle(place(k)); obstacle != Obstacle::none)
        return Hindrance{place(k), obstacle};
    }
  }
  return std::nullopt;
}

std::string in_words(Obstacle obstacle) {
  switch (obstacle) {
    case Obstacle::seam_backwards:
      return "the seam would have to run back towards the tip";
    case Obstacle::arcs_cross_at_seam:
      return "lines square to the seams would cross at the seam";
    default:
      return "lines square to the seams would cross on the centre line";
  }
}

Fault no_panel(const Parallels& crown, const DraftRules& rules, const Hindrance& hindrance) {
  const int least = least_panels(crown, rules.along);
  return impossible_fault("with " + std::to_string(rules.panels) +
                              " panels this crown cannot be drafted: at " + number_text(hindrance.s, 0) +
                              " mm from the tip " + in_words(hindrance.obstacle),
                          least > 0 ? "the least panel count that works is " + std::to_string(least)
                                    : "no panel count up to 48 works; a rounder edge may");
}

void check(const DraftRules& rules) {
  if (rules.panels < least_number_of_panels || rules.panels > most_panels || !(rules.tolerance > 0))
    throw std::logic_error("a draft needs 3 to 48 panels and a tolerance above zero");
}

/// How far the seam strays from its chord.
double stray(const SeamPiece& piece) {
  const double dx = piece.to.x - piece.from.x, dy = piece.y_to - piece.y_from, chord = std::hypot(dx, dy);
  const auto angle = [&](const CrossArc& arc) {
    return std::abs(std::atan2(arc.dx * dy - arc.dy * dx, arc.dx * dx + arc.dy * dy));
  };
  return chord * std::max(angle(piece.from), angle(piece.to)) / 4;
}

PanelPoint point_of(const CrossArc& arc, double y, double along) {
  return {arc.s, arc.x, y, arc.bow, arc.theta, along};
}

PanelNet net_of(const std::vector<SeamPiece>& pieces, const DraftRules& rules) {
  PanelNet net;
  net.panels = rules.panels;
  net.along = rules.along;
  net.points.push_back(point_of(pieces.front().from, 0, 0));
  for (const SeamPiece& piece : pieces) net.points.push_back(point_of(piece.to, piece.y_to, piece.along_to));
  net.points.front().x = net.points.front().bow = 0;
  net.seam_length = net.points.back().along;
  net.centre_length = net.points.back().y + net.points.back().bow;
  return net;
}

}  // namespace

Result<PanelNet> draft_panel(const Parallels& crown, const DraftRules& rules) {
  check(rules);
  const DraftLaw law(crown, rules.panels, rules.along);
  if (const auto hindrance = first_hindrance(law)) return no_panel(crown, rules, *hindrance);
  return draft_unasked(crown, rules);
}

PanelNet draft_unasked(const Parallels& crown, const DraftRules& rules) {
  check(rules);
  const DraftLaw law(crown, rules.panels, rules.along);
  // A tenth is kept back for what the estimate leaves out.
  const auto fine = [&](const SeamPiece& piece) { return stray(piece) <= 0.9 * rules.tolerance; };
  return net_of(walk_seam(law, {longest_piece, longest_piece}, fine), rules);
}

int least_panels(const Parallels& crown, LengthAlong along, int from) {
  for (int panels = std::max(from, least_number_of_panels); panels <= most_panels; ++panels)
    if (!first_hindrance(DraftLaw(crown, panels, along))) return panels;
  return 0;
}

NetLengths lengths_to(const PanelNet& net, double s) {
  const auto& points = net.points;
  const auto after = std::lower_bound(points.begin() + 1, points.end() - 1, s,
                                      [](const PanelPoint& p, double place) { return p.s < place; });
  const PanelPoint &p = *(after - 1), &q = *after;
  const double share = q.s > p.s ? std::clamp((s - p.s) / (q.s - p.s), 0.0, 1.0) : 0;
  const double centre_p = p.y + p.bow, centre_q = q.y + q.bow;
  return {p.along + share * (q.along - p.along), centre_p + share * (centre_q - centre_p)};
}

}  // namespace crownwright::pattern
