// One fit is a least-squares problem in millimetres of the drawing:
//   the drafted seam's distance from every drawn point, by sigma of the drawing;
//   the drafted panel's end against the drawn one, by a hundredth of that: it is this row that holds the
//   meridian's total length, whichever of the values are free (eliminating one of them by hand would need
//   another for every choice of stated values);
//   the dome against the shape's, by 3 mm; the edges against each other, by 10 mm, when they are apart;
//   how far each value had to be brought back inside the family, by sigma.
// The dome's prior is worth as much as sigma is right, so the fit is done again with the sigma its residuals
// show until that no longer changes. The bow of the head line's edge is not used: many draw it straight.
#include "pattern/solve.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "base/length.h"
#include "meridian/refusal.h"
#include "meridian/root.h"
#include "meridian/underside.h"
#include "pattern/drawn_places.h"
#include "pattern/least_squares.h"
#include "pattern/read.h"
#include "pattern/seam.h"
#include "pattern/unknowns.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;

constexpr double dome_sigma = 3, apart_sigma = 10;
/// No drawing is finer than this, mm: half the curve tolerance of a drafted panel.
constexpr double least_noise = 0.0005;
/// Sigma to begin with where the drawing does not say, mm.
constexpr double first_noise = 0.05;
constexpr double near_enough = 2;  ///< sigmas: a first fit this near is on the right way
constexpr double least_dome_to_start = 1;
constexpr double end_share = 0.01;     ///< sigma of the panel's end / sigma of the drawing
constexpr std::size_t other_rows = 3;  ///< end, dome, edges
constexpr int most_rounds = 6;
/// Meridian between two places of the seam as it is drafted inside the fit, mm: cubics between them err less
/// than 1e-4 mm.
constexpr PieceLength fitting_pieces{2.5, 10};
/// An outline is looked at in this many places.
constexpr int outline_places = 100;

/// What is fitted: the tip is left out, it is always met.
struct Drawing {
  int panels = 0;
  double noise = 0;
  std::vector<Station> points;
  Station widest, end;
};

Drawing drawing_of(const DrawnPanel& drawn) {
  Drawing drawing{drawn.panels, drawn.noise, places_of(drawn, outline_places), {}, drawn.stations.back()};
  drawing.widest =
      *std::max_element(drawn.stations.begin(), drawn.stations.end(),
                        [](const Station& p, const Station& q) { return p.half_width < q.half_width; });
  return drawing;
}

std::optional<Fault> stated_refusal(const FitQuestion& q) {
  if (q.rise && !(*q.rise > 0)) return impossible_fault("a rise must be above 0 mm", "");
  if (q.crown_radius && q.head_radius) return meridian::plan_refusal(*q.crown_radius, *q.head_radius, 0);
  return std::nullopt;
}

Seam drafted(const BeretValues& values, int panels, LengthAlong along) {
  const auto chain = meridian::crown_chain(values);
  return Seam(walk_seam(DraftLaw(Parallels::of(chain.value()), panels, along), fitting_pieces));
}

Steps steps_of(const Unknowns& which) {
  return [&which](const std::vector<double>& unknowns) { return which.inward_steps(unknowns); };
}

/// What one fit knows.
class Problem {
 public:
  Problem(const Drawing& drawing, const FitQuestion& question, LengthAlong along)
      : drawing_(drawing), question_(question), along_(along), unknowns_(question, RiseBy::length) {}

  BeretValues solve();
  BeretValues solve_with_dome_held(const std::vector<BeretValues>& from);
  Sigma sigma(const BeretValues& at) const;
  std::vector<Residual> residuals(const BeretValues& at) const;
  double rms(const BeretValues& at) const;

 private:
  double dome_middle(double a) const { return question_.dome.value_or(question_.dome_share * a); }
  Residuals rows_of(const Unknowns& which) const;
  void fill(const Unknowns& which, const std::vector<double>& unknowns, std::vector<double>& rows) const;
  std::vector<BeretValues> starts() const;
  BeretValues nearest_from(const Unknowns& which, const BeretValues& start) const;
  double shown_noise(const BeretValues& at) const;
  BeretValues with_edge(double e) const;

  const Drawing& drawing_;
  const FitQuestion& question_;
  LengthAlong along_;
  Unknowns unknowns_;
  double noise_ = first_noise;
};

Residuals Problem::rows_of(const Unknowns& which) const {
  return [this, &which](const std::vector<double>& u, std::vector<double>& r) { fill(which, u, r); };
}

void Problem::fill(const Unknowns& which, const std::vector<double>& unknowns,
                   std::vector<double>& rows) const {
  const BeretValues values = which.nearest(unknowns);
  const std::vector<double> inside = which.of(values);
  const Seam seam = drafted(values, drawing_.panels, along_);
  auto row = rows.begin();
  for (const Station& point : drawing_.points) *row++ = distance(seam, point) / noise_;
  *row++ = (seam.end().y - drawing_.end.y) / (end_share * noise_);
  *row++ = (values.t - dome_middle(values.a)) / dome_sigma;
  *row++ = (values.e_l - values.e_u) / apart_sigma;
  for (std::size_t i = 0; i < inside.size(); ++i) *row++ = (unknowns[i] - inside[i]) / noise_;
}

/// Crown and head as wide as the panel is, edges given, as high as the panel is long.
BeretValues Problem::with_edge(double e) const {
  const double per_width = drawing_.panels / std::numbers::pi;
  BeretValues v;
  v.a = question_.crown_radius.value_or(per_width * drawing_.widest.half_width);
  v.b = question_.head_radius.value_or(std::min(per_width * drawing_.end.half_width, 0.98 * v.a));
  v.t = dome_middle(v.a);
  v.e_u = v.e_l = e;
  v.R = question_.rise.value_or(drawing_.end.y);
  const Unknowns plain(question_, RiseBy::rise);
  v = plain.nearest(plain.of(v));
  if (question_.rise) return v;
  std::vector<double> unknowns = unknowns_.of(v);
  double& length = unknowns[unknowns_.place_of(&BeretValues::R)];
  length = drawing_.end.y;
  const SeamPlace end = drafted(unknowns_.nearest(unknowns), drawing_.panels, along_).end();
  length = end.s * drawing_.end.y / std::max(end.y, 1.0);
  return unknowns_.nearest(unknowns);
}

/// From crisp edges to a ball's (shares of the crown radius), the nearest to the drawing first.
std::vector<BeretValues> Problem::starts() const {
  const double a = drawing_.panels * drawing_.widest.half_width / std::numbers::pi;
  std::vector<std::pair<double, BeretValues>> tried;
  for (const double share : {0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4}) {
    const BeretValues values = with_edge(share * a);
    tried.emplace_back(rms(values), values);
  }
  std::stable_sort(tried.begin(), tried.end(),
                   [](const auto& p, const auto& q) { return p.first < q.first; });
  std::vector<BeretValues> starts;
  for (const auto& [off, values] : tried) starts.push_back(values);
  return starts;
}

BeretValues Problem::nearest_from(const Unknowns& which, const BeretValues& start) const {
  const std::size_t rows = drawing_.points.size() + other_rows + which.size();
  return which.nearest(least_squares(rows_of(which), steps_of(which), rows, which.of(start)));
}

/// Sigma of the drawing as these residuals show it.
double Problem::shown_noise(const BeretValues& at) const {
  const auto points = static_cast<double>(drawing_.points.size());
  // The end's row takes one unknown's freedom, the dome's prior another.
  const double spare = std::max(1.0, points - static_cast<double>(unknowns_.size()) + 2);
  return std::max({least_noise, drawing_.noise, rms(at) * std::sqrt(points / spare)});
}

/// The first start whose nearest beret comes near; the best of all when none does. (Where cross arcs begin to
/// cross, a search can stay behind in a corner.)
BeretValues Problem::solve_with_dome_held(const std::vector<BeretValues>& from) {
  noise_ = std::max(first_noise, drawing_.noise);
  BeretValues best;
  double least = INFINITY;
  for (const BeretValues& start : from) {
    const BeretValues at = nearest_from(Unknowns(question_, RiseBy::length, start.t), start);
    const double off = rms(at);
    if (off < least) {
      least = off;
      best = at;
    }
    if (least < near_enough * noise_) break;
  }
  noise_ = shown_noise(best);
  return best;
}

/// The dome is let go last: it is so weakly told that a first long step would throw it far off. It sets out
/// from above zero: the drawing goes with its square, so a flat tip does not know which way to go.
BeretValues Problem::solve() {
  BeretValues at = solve_with_dome_held(starts());
  at.t = std::max(at.t, std::min(least_dome_to_start, at.R / 10));
  for (int round = 0; round < most_rounds; ++round) {
    at = nearest_from(unknowns_, at);
    const double before = std::exchange(noise_, shown_noise(at));
    if (std::abs(noise_ / before - 1) < 0.2) break;
  }
  return at;
}

Sigma Problem::sigma(const BeretValues& at) const {
  const Unknowns plain(question_, RiseBy::rise);
  const std::vector<double> unknowns = plain.of(at);
  const std::size_t rows = drawing_.points.size() + other_rows + plain.size();
  return plain.named(one_sigma(rows_of(plain), steps_of(plain), rows, unknowns));
}

std::vector<Residual> Problem::residuals(const BeretValues& at) const {
  const Seam seam = drafted(at, drawing_.panels, along_);
  std::vector<Residual> residuals;
  for (const Station& point : drawing_.points)
    residuals.push_back({point.y, point.half_width, distance(seam, point)});
  return residuals;
}

double Problem::rms(const BeretValues& at) const {
  double sum = 0;
  const auto all = residuals(at);
  for (const Residual& residual : all) sum += residual.distance * residual.distance;
  return std::sqrt(sum / static_cast<double>(all.size()));
}

const Residual& worst_of(const std::vector<Residual>& residuals) {
  return *std::max_element(residuals.begin(), residuals.end(), [](const Residual& p, const Residual& q) {
    return std::abs(p.distance) < std::abs(q.distance);
  });
}

std::string too_much_text(const DrawnPanel& drawn, LengthAlong along) {
  const auto reading = read_cloth(drawn, along);
  if (!reading || !reading->too_much) return {};
  return ", and the panel has " + number_text(reading->too_much->girth, 0) + " mm too much cloth at " +
         number_text(reading->too_much->at, 0) + " mm from the tip";
}

Fault far_off_fault(const DrawnPanel& drawn, LengthAlong along, const PanelFit& fit) {
  const Residual& worst = worst_of(fit.residuals);
  return impossible_fault("no beret comes near this panel: the nearest is " +
                              number_text(std::abs(worst.distance), 1) + " mm too " +
                              (worst.distance > 0 ? "wide" : "narrow") + " at " + number_text(worst.y, 0) +
                              " mm from the tip" + too_much_text(drawn, along),
                          "a fit may be " + number_text(far_off, 0) + " mm off on the average");
}

/// The other laws' answers beside this one, with the same dome: what the laws tell apart is the rise, and the
/// drawing hardly tells the dome.
void compare_laws(const Drawing& drawing, const FitQuestion& question, PanelFit& fit) {
  double low = fit.values.R, high = low;
  for (const LengthAlong along : {LengthAlong::seam, LengthAlong::centre, LengthAlong::shared}) {
    BeretValues values = fit.values;
    double rms = fit.rms;
    if (along != question.along) {
      Problem problem(drawing, question, along);
      values = problem.solve_with_dome_held({fit.values});
      rms = problem.rms(values);
      if (rms > far_off) continue;
    }
    fit.by_law[static_cast<std::size_t>(along)] = PanelFit::ByLaw{along, values.R, values.e_u, rms};
    low = std::min(low, values.R);
    high = std::max(high, values.R);
  }
  fit.rise_spread = high - low;
}

}  // namespace

meridian::BeretValues nearest_beret(const DrawnPanel& drawn, LengthAlong along) {
  const Drawing drawing = drawing_of(drawn);
  FitQuestion question;
  question.along = along;
  return Problem(drawing, question, along).solve();
}

Result<PanelFit> fit_panel(const DrawnPanel& drawn, const FitQuestion& question) {
  if (const auto fault = unreadable(drawn)) return *fault;
  if (const auto fault = stated_refusal(question)) return *fault;
  const Drawing drawing = drawing_of(drawn);
  Problem problem(drawing, question, question.along);
  PanelFit fit;
  fit.values = problem.solve();
  fit.residuals = problem.residuals(fit.values);
  fit.rms = problem.rms(fit.values);
  fit.worst = std::abs(worst_of(fit.residuals).distance);
  if (fit.rms > far_off) return far_off_fault(drawn, question.along, fit);
  fit.sigma = problem.sigma(fit.values);
  compare_laws(drawing, question, fit);
  return fit;
}

}  // namespace crownwright::pattern
