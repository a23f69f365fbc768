// r(s) is sought with which the draft law gives the drawing back. Drafting a first r tells at which s each
// drawn place lies and how much wider or narrower the draft is there; r moved by that, n/pi for one, is
// smoothed again, and so on. The law's own corrections (sin(theta)/theta, the bow, the seam's slope) change
// little with r, so the steps shrink by some factor of three at eight panels; where they do not (few panels)
// they are halved. Where that runs away - four panels along the seam, close to those the law cannot draft: a
// first guess taken from the drawing is far from the crown, and full steps leave even the right one - it is
// begun again at the beret nearest to the drawing, with small steps.
// The drawing's noise is kept out by the bending the curve is allowed: as stiff as leaves residuals of just
// the noise stated (Morozov's rule). Slopes of the drawing are never taken.
#include "pattern/read.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/length.h"
#include "meridian/beret.h"
#include "meridian/underside.h"
#include "pattern/drawn_places.h"
#include "pattern/seam.h"
#include "pattern/smoother.h"
#include "pattern/solve.h"
#include "pattern/too_much.h"

namespace crownwright::pattern {
namespace {

constexpr double pi = std::numbers::pi;
/// Places an outline is looked at, mm apart; the curve's knots are no nearer.
constexpr double closest = 0.5;
/// Drawings are at least this rough, mm: half of what the chords of a drafted panel leave out on the average.
constexpr double least_roughness = 0.0003;
/// Bending weights between which the stated noise is looked for, mm^3.
constexpr double softest = 1e-5, stiffest = 1e7;
constexpr int tuned_rounds = 6;
constexpr double settled = 1e-6;  ///< mm that r still moves
constexpr double walking_step = 1;
/// A curve that did not settle is not good enough when it is this far off, by the drawing's noise and mm.
constexpr double noises_off = 4, least_off = 0.02;

/// How a reading goes on: the share taken of every correction, at first and at least.
struct Pace {
  double share, least_share;
  int most_rounds;
  double runs_away;  ///< given up when r moves by more than this, mm
};
constexpr Pace brisk{1, 0.2, 80, INFINITY}, careful{0.2, 0.02, 120, 30};

Seam seam_drafted(const Parallels& cloth, const DrawnPanel& drawn, LengthAlong along) {
  return Seam(walk_seam(DraftLaw(cloth, drawn.panels, along), {walking_step, walking_step}));
}

class Reader {
 public:
  Reader(const DrawnPanel& drawn, LengthAlong along)
      : drawn_(drawn), along_(along), places_(places_of(drawn, place_count(drawn))) {}

  struct Answer {
    Parallels cloth;
    bool at_rest = false;
  };
  Answer from_the_drawing();
  Answer from(const Parallels& near);
  const std::vector<Station>& places() const { return places_; }
  double spacing() const { return drawn_.stations.back().y / static_cast<double>(places_.size()); }

 private:
  static int place_count(const DrawnPanel& drawn) {
    return std::max(20, static_cast<int>(drawn.stations.back().y / closest));
  }
  double per_width() const { return drawn_.panels / pi; }
  double noise() const { return per_width() * std::max(least_roughness, drawn_.noise); }

  void begin();
  void begin_at(const Parallels& near);
  Answer settle(const Pace& pace);
  double step(double share, bool tune);
  double tuned_weight(Smoother& curve) const;
  Parallels curve() const { return Parallels::through(knots_.s, knots_.r); }

  const DrawnPanel& drawn_;
  LengthAlong along_;
  std::vector<Station> places_;
  Readings readings_, knots_;
  double length_ = 0, weight_ = softest;
};

/// Along the drawn seam, every half width taken for the arc's.
void Reader::begin() {
  Station before;
  for (const Station& place : places_) {
    length_ += std::hypot(place.y - before.y, place.half_width - before.half_width);
    readings_.s.push_back(length_);
    readings_.r.push_back(per_width() * place.half_width);
    before = place;
  }
  // Noise makes the drawn line longer than the seam; the end is set right in the first rounds.
  const double longest = 1.3 * drawn_.stations.back().y;
  if (length_ <= longest) return;
  for (double& s : readings_.s) s *= longest / length_;
  length_ = longest;
}

/// Where the near crown's own draft passes the drawn places.
void Reader::begin_at(const Parallels& near) {
  readings_ = {};
  const Seam seam = seam_drafted(near, drawn_, along_);
  for (const Station& place : places_) {
    const double s = seam.at_height(place.y).s;
    readings_.s.push_back(s);
    readings_.r.push_back(near.r(s));
  }
  length_ = readings_.s.back();
}

/// The stiffest curve that leaves no more than the noise.
double Reader::tuned_weight(Smoother& curve) const {
  double low = std::log(softest), high = std::log(stiffest);
  for (int i = 0; i < 20; ++i) {
    const double middle = low + (high - low) / 2;
    curve.fit(std::exp(middle));
    (curve.rms() < noise() ? low : high) = middle;
  }
  return std::exp(low);
}

/// One round; how far r moved at most.
double Reader::step(double share, bool tune) {
  Smoother smoother(length_, std::max(closest, spacing() / 2), readings_);
  if (tune) weight_ = tuned_weight(smoother);
  smoother.fit(weight_);
  knots_ = smoother.at_knots();
  const Parallels cloth = curve();
  const Seam seam = seam_drafted(cloth, drawn_, along_);
  double moved = 0;
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const SeamPlace place = seam.at_height(places_[i].y);
    const double r = cloth.r(place.s) + per_width() * (places_[i].half_width - place.x);
    const double by = r - readings_.r[i];
    moved = std::max({moved, std::abs(by), std::abs(place.s - readings_.s[i])});
    readings_.r[i] += share * by;
    readings_.s[i] += share * (place.s - readings_.s[i]);
  }
  // What has no crown may run away; it is refused in the end by its misfit.
  length_ = std::clamp(readings_.s.back(), 0.3 * drawn_.stations.back().y, 4 * drawn_.stations.back().y);
  return moved;
}

Reader::Answer Reader::settle(const Pace& pace) {
  double share = pace.share, last = INFINITY;
  for (int round = 0; round < pace.most_rounds; ++round) {
    const double moved = step(share, round < tuned_rounds);
    if (moved < settled) return {curve(), true};
    if (!(moved <= pace.runs_away)) break;
    if (round > tuned_rounds && moved > 0.9 * last) share = std::max(pace.least_share, share / 2);
    last = moved;
  }
  return {curve(), false};
}

Reader::Answer Reader::from_the_drawing() {
  begin();
  return settle(brisk);
}

Reader::Answer Reader::from(const Parallels& near) {
  begin_at(near);
  return settle(careful);
}

struct Misfit {
  double y = 0, distance = 0;
};
Misfit misfit(const Parallels& cloth, const DrawnPanel& drawn, LengthAlong along,
              const std::vector<Station>& places) {
  const Seam seam = seam_drafted(cloth, drawn, along);
  Misfit worst;
  for (const Station& place : places) {
    const double here = std::abs(distance(seam, place));
    if (!(here <= worst.distance)) worst = {place.y, here};
  }
  return worst;
}

Parallels nearest_crown(const DrawnPanel& drawn, LengthAlong along) {
  return Parallels::of(meridian::crown_chain(nearest_beret(drawn, along)).value());
}

}  // namespace

Result<ClothReading> read_cloth(const DrawnPanel& drawn, LengthAlong along) {
  if (const auto fault = unreadable(drawn)) return *fault;
  Reader reader(drawn, along);
  auto [cloth, at_rest] = reader.from_the_drawing();
  Misfit worst = misfit(cloth, drawn, along, reader.places());
  if (!at_rest && !(worst.distance <= least_off + noises_off * drawn.noise)) {
    const Parallels again = reader.from(nearest_crown(drawn, along)).cloth;
    const Misfit then = misfit(again, drawn, along, reader.places());
    if (!(worst.distance <= then.distance)) {
      cloth = again;
      worst = then;
    }
  }
  if (!(worst.distance <= far_off))
    return impossible_fault("no round crown sews up from this panel: the nearest is " +
                                number_text(worst.distance, 1) + " mm off at " + number_text(worst.y, 0) +
                                " mm from the tip",
                            "a panel whose seam turns gently");
  return ClothReading{cloth, draft_unasked(cloth, {drawn.panels, along, 0.001}), worst.distance,
                      too_much_cloth(cloth, drawn.panels, drawn.noise, reader.spacing())};
}

}  // namespace crownwright::pattern
