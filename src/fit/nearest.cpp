// Lengths are tried in whole tenths of a millimetre, so what is offered is exactly what was judged. Whether a
// form passes need not change only once along the way: a given pattern fits within a band, and the band may
// be narrow (a round top's seam has to come to lie on the crown edge). The search steps away from the present
// value, finely at first and more coarsely further off. Between steps it watches how far beyond the limits
// the worst strain is, and looks into the first dip of that. Once something passes, the last step is halved
// until what lies next to the offer, on the present value's side, does not pass.
#include "fit/nearest.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <initializer_list>

#include "base/length.h"

namespace crownwright::fit {
namespace {

using meridian::BeretValues;
using pattern::LengthAlong;

constexpr int most_panels = 24;
constexpr double tenths = 10;  // a millimetre

/// Of one form: the verdict when it passes, and the share of what the cloth takes that is used at its worst.
struct Outcome {
  std::optional<Verdict> passed;
  double used = INFINITY;
};
struct Trial {
  int at = 0;  ///< tenths of a millimetre
  Outcome outcome;
};
using Try = std::function<Outcome(int)>;

Trial try_at(int at, const Try& outcome_of) { return {at, outcome_of(at)}; }

Trial halved(int failing, Trial passing, const Try& outcome_of) {
  while (std::abs(passing.at - failing) > 1) {
    const Trial middle = try_at(failing + (passing.at - failing) / 2, outcome_of);
    if (middle.outcome.passed)
      passing = middle;
    else
      failing = middle.at;
  }
  return passing;
}

/// Between two trials the middle one is the least beyond the limits; closes in on the least there is.
std::optional<Trial> in_dip(Trial near, Trial best, Trial far, const Try& outcome_of) {
  while (std::abs(far.at - near.at) > 2) {
    const bool is_far = std::abs(far.at - best.at) > std::abs(best.at - near.at);
    Trial& end = is_far ? far : near;
    const Trial middle = try_at(best.at + (end.at - best.at) / 2, outcome_of);
    if (middle.outcome.passed) return halved(is_far ? best.at : near.at, middle, outcome_of);
    if (middle.outcome.used < best.outcome.used) {
      (is_far ? near : far) = best;
      best = middle;
    } else {
      end = middle;
    }
  }
  return std::nullopt;
}

/// The passing value nearest to `start`, which fails as `present` says, on the way to `end`.
std::optional<Trial> nearest_on_the_way(int start, int end, const Outcome& present, const Try& outcome_of) {
  const int way = end < start ? -1 : 1, reach = std::abs(end - start);
  Trial before{start, present}, last = before;
  bool has_dipped = false;
  for (int steps = 1; std::abs(last.at - start) < reach; steps += steps / 4 + 2) {
    const Trial next = try_at(start + way * std::min(steps, reach), outcome_of);
    if (next.outcome.passed) return halved(last.at, next, outcome_of);
    const double used = last.outcome.used;
    if (!has_dipped && used < before.outcome.used && used <= next.outcome.used) {
      has_dipped = true;
      if (const auto found = in_dip(before, last, next, outcome_of)) return found;
    }
    before = last;
    last = next;
  }
  return std::nullopt;
}

/// The tenth at or just beyond a value, rounding forgiven.
int tenth_above(double mm) { return static_cast<int>(std::ceil(mm * tenths - 1e-6)); }
int tenth_below(double mm) { return static_cast<int>(std::floor(mm * tenths + 1e-6)); }

BeretValues with_edge(BeretValues v, double e) {
  v.e_l = v.e_l == v.e_u ? e : std::max(0.0, v.e_l + (e - v.e_u));
  v.e_u = e;
  return v;
}

BeretValues with_dome(BeretValues v, double t) {
  v.t = t;
  return v;
}

class Search {
 public:
  explicit Search(const NearestQuestion& question) : question_(question) {}

  std::vector<Change> changes() {
    present_ = outcome(question_.values, question_.panels, question_.along);
    if (present_.passed) return {};
    edge();
    dome();
    if (question_.drafted && question_.panels > 0) {
      panels();
      laws();
    }
    return std::move(changes_);
  }

 private:
  Outcome outcome(const BeretValues& values, int count, LengthAlong along) const {
    const auto report = question_.judge(values, count, along);
    if (!report) return {};
    const Worst& worst = report->worst;
    const double used = worst.limit == 0 ? INFINITY : worst.value / worst.limit;
    if (report->verdict == Verdict::no) return {std::nullopt, used};
    return {report->verdict, used};
  }

  Try of_tenths(BeretValues (*changed)(BeretValues, double)) const {
    return [this, changed](int at) {
      return outcome(changed(question_.values, at / tenths), question_.panels, question_.along);
    };
  }

  std::optional<Trial> smaller(double value, const Try& outcome_of) const {
    return nearest_on_the_way(tenth_above(value), 0, present_, outcome_of);
  }
  std::optional<Trial> larger(double value, const Try& outcome_of) const {
    return nearest_on_the_way(tenth_below(value), tenth_below(question_.values.a), present_, outcome_of);
  }

  void offer(const std::string& what, double from, double to, const std::string& says, Verdict passed) {
    changes_.push_back({what, from, to, says, passed, question_.drafted});
  }

  void offer_length(const std::string& what, double from, const Trial& found) {
    const double to = found.at / tenths;
    const std::string article = what == "dome" ? "a " : "an ", bound = to < from ? "at most" : "at least";
    offer(what, from, to, article + what + " of " + number_text(to, 1) + " mm " + bound,
          *found.outcome.passed);
  }

  void edge() {
    const double e = question_.values.e_u;
    const Try outcome_of = of_tenths(with_edge);
    if (const auto found = smaller(e, outcome_of)) offer_length("edge radius", e, *found);
    if (const auto found = larger(e, outcome_of)) offer_length("edge radius", e, *found);
  }

  void dome() {
    const double t = question_.values.t;
    const Try outcome_of = of_tenths(with_dome);
    auto best = smaller(t, outcome_of);
    const auto more = larger(t, outcome_of);
    if (more && (!best || more->at / tenths - t < t - best->at / tenths)) best = more;
    if (best) offer_length("dome", t, *best);
  }

  void panels() {
    for (int count = question_.panels + 1; count <= most_panels; ++count) {
      const auto passed = outcome(question_.values, count, question_.along).passed;
      if (!passed) continue;
      offer("panels", question_.panels, count, std::to_string(count) + " panels", *passed);
      return;
    }
  }

  void laws() {
    const std::array<std::string, 3> words{"the seams", "the middle of the panels", "both seams and middle"};
    for (const LengthAlong along : {LengthAlong::seam, LengthAlong::centre, LengthAlong::shared}) {
      if (along == question_.along) continue;
      const auto passed = outcome(question_.values, question_.panels, along).passed;
      if (passed)
        offer("length along", static_cast<double>(question_.along), static_cast<double>(along),
              "panels that keep the crown's length along " + words[static_cast<std::size_t>(along)], *passed);
    }
  }

  const NearestQuestion& question_;
  Outcome present_;
  std::vector<Change> changes_;
};

}  // namespace

std::vector<Change> nearest_changes(const NearestQuestion& question) { return Search(question).changes(); }

}  // namespace crownwright::fit
