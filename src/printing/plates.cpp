#include "printing/plates.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>
#include <optional>

#include "base/length.h"
#include "base/numbers.h"

namespace crownwright::printing {
namespace {

constexpr double kSlack = 1e-6;        // mm, rounding
constexpr double kBetweenPlates = 20;  // mm between two beds shown in a row

struct Candidate {
  std::vector<PlanPoint> hull;
  std::vector<BedTurn> turns;  // that fit the bed
};

struct Row {
  std::size_t plate;
  double y, depth, used;
};

bool fits(const BedTurn& turn, const Bed& bed) {
  return turn.width <= bed.free_width() + kSlack && turn.depth <= bed.free_depth() + kSlack;
}

BedTurn quarter_on(const std::vector<PlanPoint>& hull, const BedTurn& turn) {
  return turned_box(hull, turn.angle < pi / 2 ? turn.angle + pi / 2 : turn.angle - pi / 2);
}

Candidate candidate_of(const PartOnBed& part, const Bed& bed) {
  Candidate candidate{convex_hull(part.outline), {}};
  const auto add = [&](const BedTurn& turn) {
    if (fits(turn, bed)) candidate.turns.push_back(turn);
  };
  for (const BedTurn& turn : {turned_box(candidate.hull, 0), tightest_turn(candidate.hull),
                              best_turn(candidate.hull, bed.free_width(), bed.free_depth())}) {
    add(turn);
    add(quarter_on(candidate.hull, turn));
  }
  return candidate;
}

Fault does_not_fit(const PartOnBed& part, const Bed& bed) {
  const std::string what = std::string("part ") + part.name + " does not fit a bed of " +
                           number_text(bed.width, 1) + " x " + number_text(bed.depth, 1) + " x " +
                           number_text(bed.height, 1) + " mm";
  if (part.high - part.low > bed.height + kSlack) {
    return impossible_fault(
        what, "it is " + number_text(std::ceil((part.high - part.low) * 10) / 10, 1) + " mm high");
  }
  const double side = smallest_square(convex_hull(part.outline)) + 2 * bed.margin;
  return impossible_fault(what, "the smallest square bed for it is " +
                                    number_text(std::ceil(side * 10) / 10, 1) + " mm, " +
                                    number_text(bed.margin, 1) + " mm at each side included");
}

// The beds being filled: rows from near to far, each as deep as its first part, filled from left to right.
class Filling {
 public:
  explicit Filling(const Bed& bed) : bed_(bed) {}

  PlateSpot take(const Candidate& candidate) {
    if (auto spot = in_old_row(candidate)) return *spot;
    return in_new_row(candidate);
  }
  std::size_t plates() const { return depth_used_.size(); }
  /// Of the last bed: the less the better, of two fillings with as many beds.
  double last_depth() const { return depth_used_.empty() ? 0 : depth_used_.back(); }

 private:
  std::optional<PlateSpot> in_old_row(const Candidate& candidate) {
    for (Row& row : rows_) {
      const BedTurn* best = nullptr;
      for (const BedTurn& turn : candidate.turns) {
        const bool room = turn.depth <= row.depth + kSlack &&
                          row.used + part_gap + turn.width <= bed_.free_width() + kSlack;
        if (room && (best == nullptr || turn.width < best->width)) best = &turn;
      }
      if (best != nullptr) return put(row, row.used + part_gap, *best);
    }
    return std::nullopt;
  }

  PlateSpot in_new_row(const Candidate& candidate) {
    const auto flattest = std::min_element(
        candidate.turns.begin(), candidate.turns.end(), [](const BedTurn& one, const BedTurn& other) {
          return one.depth < other.depth - kSlack ||
                 (one.depth < other.depth + kSlack && one.width < other.width);
        });
    std::size_t plate = 0;
    while (plate < depth_used_.size() &&
           depth_used_[plate] + part_gap + flattest->depth > bed_.free_depth() + kSlack) {
      ++plate;
    }
    if (plate == depth_used_.size()) depth_used_.push_back(-part_gap);
    Row row{plate, depth_used_[plate] + part_gap, flattest->depth, 0};
    depth_used_[plate] = row.y + row.depth;
    rows_.push_back(row);
    return put(rows_.back(), 0, *flattest);
  }

  PlateSpot put(Row& row, double x, const BedTurn& turn) {
    row.used = x + turn.width;
    PlateSpot spot;
    spot.plate = row.plate;
    spot.x = bed_.margin + x;
    spot.y = bed_.margin + row.y;
    spot.width = turn.width;
    spot.depth = turn.depth;
    spot.placement = mesh::turned_z(turn.angle);
    return spot;
  }

  const Bed& bed_;
  std::vector<Row> rows_;
  std::vector<double> depth_used_;  // of each bed, the last row's far side
};

struct Trial {
  std::vector<PlateSpot> spots;
  std::size_t plates = 0;
  double last_depth = 0;

  bool better_than(const Trial& other) const {
    return plates < other.plates || (plates == other.plates && last_depth < other.last_depth - kSlack);
  }
};

Trial fill_in_order(const std::vector<Candidate>& candidates, const std::vector<std::size_t>& order,
                    const Bed& bed) {
  Filling filling(bed);
  Trial trial;
  trial.spots.resize(candidates.size());
  for (const std::size_t k : order) trial.spots[k] = filling.take(candidates[k]);
  trial.plates = filling.plates();
  trial.last_depth = filling.last_depth();
  return trial;
}

using Size = std::function<double(const BedTurn&)>;

// The parts by falling size, each by its least; equal ones stay in their order.
std::vector<std::size_t> by_size(const std::vector<Candidate>& candidates, const Size& size) {
  std::vector<double> least;
  for (const Candidate& candidate : candidates) {
    double one = std::numeric_limits<double>::infinity();
    for (const BedTurn& turn : candidate.turns) one = std::min(one, size(turn));
    least.push_back(one);
  }
  std::vector<std::size_t> order(candidates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t one, std::size_t other) { return least[one] > least[other]; });
  return order;
}

Trial best_trial(const std::vector<Candidate>& candidates, const Bed& bed) {
  const std::vector<Size> sizes = {
      [](const BedTurn& turn) { return turn.depth; },
      [](const BedTurn& turn) { return turn.width * turn.depth; },
      [](const BedTurn& turn) { return std::max(turn.width, turn.depth); },
      [](const BedTurn& turn) { return turn.width; },
  };
  std::optional<Trial> best;
  for (const Size& size : sizes) {
    Trial trial = fill_in_order(candidates, by_size(candidates, size), bed);
    if (!best || trial.better_than(*best)) best = std::move(trial);
  }
  return *best;
}

// Near left corner of the turned outline.
PlanPoint corner_of(const std::vector<PlanPoint>& hull, const mesh::Placement& turn) {
  PlanPoint corner{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  for (const PlanPoint& p : hull) {
    const mesh::Point3 q = turn({p.x, p.y, 0});
    corner = {std::min(corner.x, q.x), std::min(corner.y, q.y)};
  }
  return corner;
}

}  // namespace

PartOnBed part_on_bed(const std::string& name, const mesh::TriangleMesh& mesh,
                      const mesh::Placement& placement) {
  PartOnBed part{name, plan_outline(mesh, placement), std::numeric_limits<double>::infinity(),
                 -std::numeric_limits<double>::infinity()};
  for (const mesh::Point3& p : placed_points(mesh, placement)) {
    part.low = std::min(part.low, p.z);
    part.high = std::max(part.high, p.z);
  }
  return part;
}

Result<Plates> lay_on_plates(const std::vector<PartOnBed>& parts, const Bed& bed) {
  std::vector<Candidate> candidates;
  for (const PartOnBed& part : parts) {
    candidates.push_back(candidate_of(part, bed));
    if (candidates.back().turns.empty() || part.high - part.low > bed.height + kSlack) {
      return does_not_fit(part, bed);
    }
  }
  Trial trial = best_trial(candidates, bed);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    PlateSpot& spot = trial.spots[k];
    const PlanPoint corner = corner_of(candidates[k].hull, spot.placement);
    spot.placement =
        spot.placement.then(mesh::moved(spot.x - corner.x, spot.y - corner.y, 0.0 - parts[k].low));
  }
  return Plates{std::move(trial.spots), trial.plates};
}

mesh::Placement in_a_row(const PlateSpot& spot, const Bed& bed) {
  return spot.placement.then(
      mesh::moved(static_cast<double>(spot.plate) * (bed.width + kBetweenPlates), 0, 0));
}

}  // namespace crownwright::printing
