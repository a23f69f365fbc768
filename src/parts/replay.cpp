// Sliding level, two pieces are nearest where the form is widest: sections at other heights lie within those.
// Dropping, a piece's heights pass all others', so again its widest section counts against theirs. The crown
// is met height by height: a section at height z, after the piece has gone down by d, stands in the crown's
// circle at z - d, until it is below the head line. There the opening is a circle of the head's radius.
#include "parts/replay.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "base/length.h"
#include "parts/puzzle_cells.h"

namespace crownwright::parts {
namespace {

constexpr double free_of_all = std::numeric_limits<double>::infinity();
constexpr double slide_step = 1;      // mm
constexpr double drop_step = 4;       // mm
constexpr double level_step = 4;      // mm along the meridian between two heights
constexpr double rounding = 1e-9;     // mm
constexpr double chord_slack = 0.02;  // mm: the crown's circle between two heights is read off a chord

struct Level {
  double z = 0, radius = 0;
};

/// The crown's radius at growing heights, from the head line to the pole.
std::vector<Level> levels_of(const meridian::Chain& crown) {
  std::vector<Level> levels;
  for (const meridian::Segment& s : crown) {
    const int parts = 1 + static_cast<int>(s.length() / level_step);
    for (int k = 0; k < parts; ++k) {
      const meridian::Point p = s.at(s.length() * k / parts);
      levels.push_back({p.z, p.r});
    }
  }
  levels.push_back({crown.back().to().z, crown.back().to().r});
  std::stable_sort(levels.begin(), levels.end(), [](const Level& a, const Level& b) { return a.z < b.z; });
  return levels;
}

/// Between heights by a chord, which lies within the crown where that is convex.
double radius_at(const std::vector<Level>& levels, double z) {
  if (z < levels.front().z) return free_of_all;
  const auto above =
      std::lower_bound(levels.begin(), levels.end(), z, [](const Level& l, double h) { return l.z < h; });
  if (above == levels.end()) return levels.back().radius;
  if (above == levels.begin() || above->z == z) return above->radius;
  const Level &low = *(above - 1), &high = *above;
  return low.radius + (high.radius - low.radius) * (z - low.z) / (high.z - low.z);
}

class Sweeper {
 public:
  explicit Sweeper(const ReplayQuestion& question)
      : question_(question), levels_(levels_of(question.crown)), opening_(question.crown.back().to().r) {
    for (const Level& level : levels_) widest_ = std::max(widest_, level.radius);
    for (const ReplayPiece& piece : question.pieces)
      in_place_.push_back(section_within(piece.outline, widest_));
    taken_.resize(question.pieces.size(), false);
  }

  Replay run() {
    Replay replay;
    replay.passed = true;
    for (const Step& step : question_.steps) {
      replay.steps.push_back(sweep(step));
      replay.passed = replay.passed && replay.steps.back().passed;
    }
    return replay;
  }

 private:
  /// Where a piece stands on its way.
  struct Place {
    double x = 0, y = 0, down = 0;
  };
  /// A piece's sections at the crown's heights, those that it has.
  struct Heights {
    std::vector<Level> levels;
    std::vector<PlanSection> sections;
  };

  SweptStep sweep(const Step& step);
  void make(const Move& move, Place from, std::size_t piece, const Heights& heights, SweptStep& swept) const;
  Heights heights_of(std::size_t piece) const;
  double to_others(const PlanSection& section, std::size_t piece) const;
  double in_crown(const Heights& heights, Place at) const;
  void judge(SweptStep& swept) const;

  const ReplayQuestion& question_;
  std::vector<Level> levels_;
  double opening_, widest_ = 0;
  std::vector<PlanSection> in_place_;
  std::vector<bool> taken_;
};

double Sweeper::to_others(const PlanSection& section, std::size_t piece) const {
  double least = free_of_all;
  for (std::size_t i = 0; i < in_place_.size(); ++i)
    if (i != piece && !taken_[i]) least = std::min(least, free_distance(section, in_place_[i]));
  return least;
}

Sweeper::Heights Sweeper::heights_of(std::size_t piece) const {
  Heights heights;
  for (const Level& level : levels_) {
    PlanSection section = section_within(question_.pieces[piece].outline, level.radius);
    if (section.empty()) continue;
    heights.levels.push_back(level);
    heights.sections.push_back(std::move(section));
  }
  return heights;
}

double Sweeper::in_crown(const Heights& heights, Place at) const {
  double least = free_of_all;
  for (std::size_t i = 0; i < heights.levels.size(); ++i) {
    const double radius = radius_at(levels_, heights.levels[i].z - at.down);
    if (radius == free_of_all) continue;
    least = std::min(least, radius - reach(heights.sections[i], at.x, at.y));
  }
  return least;
}

// A slide is looked at every millimetre against the pieces, every eight against the crown; a drop
// keeps its place in plan, so that it meets the pieces as it did before it.
void Sweeper::make(const Move& move, Place from, std::size_t piece, const Heights& heights,
                   SweptStep& swept) const {
  const double way = std::hypot(move.x, move.y);
  const int steps = 1 + static_cast<int>(way > 0 ? way / slide_step : move.down / drop_step);
  for (int k = 0; k <= steps; ++k) {
    const double share = double(k) / steps;
    const Place at{from.x + share * move.x, from.y + share * move.y, from.down + share * move.down};
    if (way > 0 || k == 0)
      swept.to_pieces = std::min(swept.to_pieces, to_others(moved(in_place_[piece], at.x, at.y), piece));
    if (way == 0 || k % 8 == 0 || k == steps)
      swept.in_crown = std::min(swept.in_crown, in_crown(heights, at));
  }
}

void Sweeper::judge(SweptStep& swept) const {
  const double least = question_.clearance / 2 - rounding;
  const auto complain = [&](const std::string& what, double free) {
    if (swept.detail.empty())
      swept.detail = swept.piece + " comes within " + number_text(std::max(0.0, free), 3) + " mm of " + what;
  };
  if (swept.to_pieces < least) complain("a piece still in place", swept.to_pieces);
  if (swept.to_opening < least) complain("the opening's edge", swept.to_opening);
  if (swept.in_crown < -chord_slack) complain("the crown, and bends it", 0);
  swept.passed = swept.detail.empty();
}

SweptStep Sweeper::sweep(const Step& step) {
  std::size_t piece = 0;
  while (piece < in_place_.size() && question_.pieces[piece].name != step.piece) ++piece;
  if (piece == in_place_.size()) throw std::logic_error("a step takes out a piece that is not there");
  SweptStep swept{step.piece, free_of_all, free_of_all, free_of_all, false, {}};
  const Heights heights = heights_of(piece);
  Place at;
  for (const Move& move : step.moves) {
    make(move, at, piece, heights, swept);
    at = {at.x + move.x, at.y + move.y, at.down + move.down};
  }
  // A side stops with its back over the opening: the middle of it must have come clear.
  swept.to_opening = step.exit == Exit::lengthwise ? opening_ - (widest_ - std::hypot(at.x, at.y))
                                                   : opening_ - reach(in_place_[piece], at.x, at.y);
  judge(swept);
  taken_[piece] = true;
  return swept;
}

}  // namespace

Replay replay(const ReplayQuestion& question) { return Sweeper(question).run(); }

Result<PuzzlePlan> plan_puzzle_in(const PuzzleQuestion& question, const meridian::Chain& crown) {
  std::vector<int> counts = {5};
  if (question.cap == Cap::stiff) counts = {7, 9};
  if (question.pieces) counts = {*question.pieces};
  std::string stuck;
  for (const int count : counts) {
    PuzzleQuestion one = question;
    one.pieces = count;
    const auto plan = plan_puzzle(one);
    if (!plan && count == counts.back() && stuck.empty()) return plan_puzzle(question).fault();
    if (!plan) continue;
    const Replay tried = replay({replay_pieces(*plan), taking_out(*plan, crown, 0), crown, plan->c});
    if (tried.passed) return *plan;
    for (const SweptStep& step : tried.steps)
      if (stuck.empty()) stuck = step.detail;
  }
  return impossible_fault("no puzzle block comes out of this crown without bending it: " + stuck,
                          "a flatter dome, a lower crown diameter, or cap = \"soft\"");
}

std::vector<ReplayPiece> replay_pieces(const PuzzlePlan& plan) {
  std::vector<ReplayPiece> pieces;
  for (const Cell& cell : puzzle_cells(plan)) pieces.push_back({cell.name, outline(cell)});
  return pieces;
}

}  // namespace crownwright::parts
