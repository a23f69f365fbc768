// A shell's walk is first cut into pieces: strips of vents, and the stretches between them, cut again at the
// walk's joints (the curvature jumps there). Each stretch gets its rows from the budget along the meridian;
// then each row gets its count from the budget across, as a step of the ladder, except that
//  - a row bounding a strip carries a whole number of vertices per cell,
//  - towards the axis the step grows by half from row to row, whatever the ladder says.
// Where neighbouring rows carry different counts, the coarser polygon's sagitta must stay well below the
// distance between the rows, or the facets between them would fold over.

#include "mesh/rows.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "mesh/density.h"

namespace crownwright::mesh {
namespace {

using meridian::Point;
using solid::Shell;
using solid::Span;

constexpr double greatest_aspect = 8;  // height of a facet to its step along the parallel
constexpr double sag_share = 0.2;      // of the distance to the next row
constexpr double infinite = std::numeric_limits<double>::infinity();

struct Piece {
  Span span;
  int strip = -1;
};

class Planner {
 public:
  Planner(const solid::Solid& solid, std::size_t shell, double budget)
      : solid_(solid), index_(shell), shell_(solid.shells[shell]), budget_(budget) {}

  RowPlan run();

 private:
  std::vector<Piece> pieces();
  std::vector<double> breakpoints(Span span) const;
  void add_row(double s) { plan_.rows.push_back(row_at(s)), plan_.strip_after.push_back(-1); }
  Row row_at(double s) const;
  void divide(Span span);
  std::vector<double> towards_axis(double from, double to) const;
  void set_counts();
  double step_between(std::size_t i) const;
  double wish_across(std::size_t i) const;
  int ladder(int wanted) const;
  void raise_where_folding();
  bool is_corner(std::size_t before, std::size_t after) const;
  bool on_corner(double s) const;
  bool touches_axis(double s) const { return meridian::at(shell_.walk, s).r < 1e-9; }
  std::size_t following(std::size_t i) const { return i + 1 < plan_.rows.size() ? i + 1 : 0; }
  bool has_following(std::size_t i) const { return shell_.closed || i + 1 < plan_.rows.size(); }

  const solid::Solid& solid_;
  std::size_t index_;
  const Shell& shell_;
  double budget_;
  RowPlan plan_;
  int base_ = 0;
};

Row Planner::row_at(double s) const {
  // Joints are looked up, not computed: their points are exact.
  Point p = meridian::at(shell_.walk, s);
  for (std::size_t i = 0; i < shell_.walk.size(); ++i) {
    if (s == shell_.starts[i]) p = shell_.walk[i].from();
    if (s == shell_.starts[i + 1]) p = shell_.walk[i].to();
  }
  return {s, p.r, p.z, 0, 0, 0};
}

std::vector<Piece> Planner::pieces() {
  std::vector<Piece> strips;
  for (std::size_t k = 0; k < solid_.rings.size(); ++k) {
    for (const bool outer : {true, false}) {
      const solid::Opening& opening = outer ? solid_.rings[k].outer : solid_.rings[k].inner;
      if (opening.shell != index_) continue;
      strips.push_back({opening.strip, static_cast<int>(plan_.strips.size())});
      plan_.strips.push_back({k, outer});
    }
  }
  std::sort(strips.begin(), strips.end(),
            [](const Piece& a, const Piece& b) { return a.span.from < b.span.from; });
  std::vector<Piece> all;
  double s = 0;
  for (const Piece& strip : strips) {
    all.push_back({{s, strip.span.from}, -1});
    all.push_back(strip);
    s = strip.span.to;
  }
  all.push_back({{s, shell_.length()}, -1});
  return all;
}

bool Planner::is_corner(std::size_t before, std::size_t after) const {
  const Point t = shell_.walk[before].tangent_at(shell_.walk[before].length()),
              u = shell_.walk[after].tangent_at(0);
  return std::abs(t.r * u.z - t.z * u.r) > 1e-6;
}

// Joints are looked up: a row stands on one exactly or not at all.
bool Planner::on_corner(double s) const {
  const std::size_t n = shell_.walk.size();
  for (std::size_t i = 1; i < n; ++i) {
    if (s == shell_.starts[i]) return is_corner(i - 1, i);
  }
  return shell_.closed && (s == 0 || s == shell_.length()) && is_corner(n - 1, 0);
}

// Joints inside the span. A smooth joint too close to the last cut is left out: its curvature is met by the
// density of the merged stretch, and what the facets then miss of the surface is shorter than a tenth of the
// budget, or within reach of the finer steps of a strip.
std::vector<double> Planner::breakpoints(Span span) const {
  std::vector<double> cuts{span.from};
  for (std::size_t i = 1; i < shell_.walk.size(); ++i) {
    const double s = shell_.starts[i];
    if (s <= span.from || s >= span.to) continue;
    const bool corner = is_corner(i - 1, i);
    const double near = std::max(budget_ / 10, 0.002);
    const bool by_strip = span.from > 0 || span.to < shell_.length();
    const double reach = by_strip ? std::max(near, 0.05) : near;
    if (!corner && (s - cuts.back() < (cuts.size() == 1 ? reach : near) || span.to - s < reach)) continue;
    cuts.push_back(s);
  }
  cuts.push_back(span.to);
  return cuts;
}

// Rows between a row away from the axis (at `from`) and the axis (at `to`), the ends left out: the step along
// the parallel may grow by half from row to row, the step along the meridian keeps pace.
std::vector<double> Planner::towards_axis(double from, double to) const {
  std::vector<double> rows;
  const double way = to > from ? 1 : -1;
  const Steps first = steps_within(shell_, {std::min(from, to), std::max(from, to)}, budget_);
  double s = from;
  double r = meridian::at(shell_.walk, from).r;
  double step = 2 * std::numbers::pi * r / base_;
  while (true) {
    const double along = std::min(first.along, 1.3 * step);
    const double rest = std::abs(to - s);
    // Close enough for a fan; an overlong last step is shared between two.
    if (rest <= std::max(1.2 * step, 0.0) && rest <= first.along) break;
    s += way * (rest < 1.6 * along ? rest / 2 : along);
    rows.push_back(s);
    r = meridian::at(shell_.walk, s).r;
    step = std::min(1.5 * step, first.across);
    step = std::min(step, 2 * std::numbers::pi * r / 6);
  }
  return rows;
}

// Rows strictly inside a stretch without joints (but merged ones).
void Planner::divide(Span span) {
  if (touches_axis(span.from) || touches_axis(span.to)) {
    const bool starts = touches_axis(span.from);
    std::vector<double> rows = starts ? towards_axis(span.to, span.from) : towards_axis(span.from, span.to);
    if (starts) std::reverse(rows.begin(), rows.end());
    for (const double s : rows) add_row(s);
    return;
  }
  const double length = span.to - span.from;
  const Steps steps = steps_within(shell_, span, budget_);
  const double r = std::max(meridian::at(shell_.walk, span.from).r, meridian::at(shell_.walk, span.to).r);
  const double across = std::min(steps.across, 2 * std::numbers::pi * r / 12);
  const int parts =
      static_cast<int>(std::ceil(std::max(length / steps.along, length / (greatest_aspect * across)) - 1e-9));
  for (int k = 1; k < parts; ++k) add_row(span.from + length * k / parts);
}

double Planner::step_between(std::size_t i) const {
  const double to = i + 1 < plan_.rows.size() ? plan_.rows[i + 1].s : shell_.length() + plan_.rows[0].s;
  return to - plan_.rows[i].s;
}

// Greatest step along the parallel that both neighbouring stretches allow.
double Planner::wish_across(std::size_t i) const {
  double across = infinite;
  const auto take = [&](std::size_t k) {
    const double from = plan_.rows[k].s;
    across = std::min(across, steps_within(shell_, {from, from + step_between(k)}, budget_).across);
  };
  if (has_following(i)) take(i);
  if (i > 0) take(i - 1);
  if (i == 0 && shell_.closed) take(plan_.rows.size() - 1);
  return across;
}

int Planner::ladder(int wanted) const {
  int count = std::max(base_, wanted);
  if (count > base_) return count;
  while (count % 2 == 0 && count / 2 >= wanted && count / 2 >= 12) count /= 2;
  return count;
}

// Sagitta, along the walk, of a row's polygon at its middle.
double sag_along(const Row& row, double lean) {
  return row.r * lean * (1 - std::cos(std::numbers::pi / row.count));
}

void Planner::set_counts() {
  const std::size_t n = plan_.rows.size();
  // Near the axis the step grows from the ladder's last row inwards; `slack` is the step allowed so far.
  std::vector<double> allowed(n);
  for (std::size_t i = 0; i < n; ++i) allowed[i] = wish_across(i);
  for (std::size_t i = 0; i < n; ++i) {
    Row& row = plan_.rows[i];
    if (row.r < 1e-9) row.count = 1;
  }
  const auto strip_row = [&](std::size_t i, const solid::VentRing& ring, Span strip, double lean) {
    Row& row = plan_.rows[i];
    const double room = std::min(strip.to - strip.from, 4.0) / 8;
    const double sag = lean > 1e-9 ? sag_share * room / lean : infinite;
    const int least = chords_round(row.r, allowed[i], sag);
    row.cells_each = std::max(row.cells_each, std::max(1, (least + ring.cells() - 1) / ring.cells()));
    row.count = row.cells_each * ring.cells();
    row.phase = ring.phase - std::numbers::pi / ring.cells();
  };
  for (std::size_t i = 0; i < n; ++i) {
    if (plan_.strip_after[i] < 0) continue;
    const StripPlace place = plan_.strips[static_cast<std::size_t>(plan_.strip_after[i])];
    const solid::VentRing& ring = solid_.rings[place.ring];
    const Span strip = place.outer ? ring.outer.strip : ring.inner.strip;
    const Point t = meridian::normal_at(shell_.walk, (strip.from + strip.to) / 2);
    strip_row(i, ring, strip, std::abs(t.z));
    strip_row(i + 1, ring, strip, std::abs(t.z));
  }
  for (std::size_t i = 0; i < n; ++i) {
    Row& row = plan_.rows[i];
    // Beyond an edge of the form there is no face that a chord could follow: there the whole sagitta counts.
    const double sag = on_corner(row.s) ? budget_ : infinite;
    if (row.count == 0) row.count = ladder(chords_round(row.r, allowed[i], sag));
  }
  // Thin out towards the axis: from the last joint or strip inwards.
  const auto thin = [&](std::size_t outer, std::size_t axis) {
    const int way = axis > outer ? 1 : -1;
    double step = 2 * std::numbers::pi * plan_.rows[outer].r / plan_.rows[outer].count;
    for (auto i = static_cast<long>(outer) + way; i != static_cast<long>(axis); i += way) {
      Row& row = plan_.rows[static_cast<std::size_t>(i)];
      step = std::min(1.5 * step, allowed[static_cast<std::size_t>(i)]);
      row.count = chords_round(row.r, step, infinite);
    }
  };
  const auto is_mark = [&](std::size_t i) {
    if (plan_.rows[i].cells_each > 0) return true;
    return std::any_of(shell_.starts.begin(), shell_.starts.end(),
                       [&](double s) { return s == plan_.rows[i].s; });
  };
  if (plan_.rows.front().count == 1) {
    std::size_t mark = 1;
    while (mark + 1 < n && !is_mark(mark)) ++mark;
    thin(mark, 0);
  }
  if (plan_.rows.back().count == 1) {
    std::size_t mark = n - 2;
    while (mark > 0 && !is_mark(mark)) --mark;
    thin(mark, n - 1);
  }
}

// Raises counts until no polygon's sagitta reaches more than a share of the way to a neighbour of another
// count.
void Planner::raise_where_folding() {
  const std::size_t n = plan_.rows.size();
  for (int pass = 0; pass < 64; ++pass) {
    bool changed = false;
    for (std::size_t i = 0; i < n; ++i) {
      if (!has_following(i) || plan_.strip_after[i] >= 0) continue;
      const std::size_t j = following(i);
      Row& a = plan_.rows[i];
      Row& b = plan_.rows[j];
      if (a.count == 1 || b.count == 1 || (a.count == b.count && a.phase == b.phase)) continue;
      const double height = step_between(i);
      const double lean =
          std::max(std::abs(meridian::normal_at(shell_.walk, a.s).z),
                   std::abs(meridian::normal_at(shell_.walk, std::min(b.s, shell_.length())).z));
      for (Row* row : {&a, &b}) {
        const double r = row->r;
        if (sag_along(*row, std::max(lean, 0.05)) <= sag_share * height) continue;
        const int wanted = chords_round(r, infinite, sag_share * height / std::max(lean, 0.05));
        const int count = row->cells_each > 0
                              ? (wanted + row->count / row->cells_each - 1) / (row->count / row->cells_each) *
                                    (row->count / row->cells_each)
                              : std::max(wanted, row->count + 1);
        if (count <= row->count) continue;
        if (row->cells_each > 0) row->cells_each = count / (row->count / row->cells_each);
        row->count = count;
        changed = true;
      }
    }
    if (!changed) return;
  }
}

RowPlan Planner::run() {
  const std::vector<Piece> all = pieces();
  double wanted = 24;
  for (std::size_t i = 0; i < shell_.walk.size(); ++i) {
    const meridian::Segment& segment = shell_.walk[i];
    for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
      const double at = share * segment.length(), r = segment.at(at).r;
      if (r > 1)
        wanted = std::max(wanted, double(chords_round(r, steps_at(segment, at, budget_).across, infinite)));
    }
  }
  base_ = static_cast<int>(std::ceil(wanted / 16)) * 16;
  for (const Piece& piece : all) {
    if (piece.strip >= 0) {
      plan_.strip_after.back() = piece.strip;
      continue;
    }
    const std::vector<double> cuts = breakpoints(piece.span);
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      add_row(cuts[k]);
      divide({cuts[k], cuts[k + 1]});
    }
    if (!(shell_.closed && piece.span.to == shell_.length())) add_row(piece.span.to);
  }
  set_counts();
  raise_where_folding();
  return plan_;
}

}  // namespace

RowPlan plan_rows(const solid::Solid& solid, std::size_t shell, double budget) {
  return Planner(solid, shell, budget).run();
}

}  // namespace crownwright::mesh
