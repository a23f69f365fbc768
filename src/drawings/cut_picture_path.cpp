#include "drawings/cut_picture_path.h"

#include <algorithm>
#include <cmath>

// Leaving out single places that are too near would fray a spiral: each turn ends where it comes near its own
// beginning, and the next begins later. So a pass is judged as a whole.

namespace crownwright::drawings {
namespace {

constexpr double walk_step = 0.25;   // mm of paper
constexpr double least_pass = 0.6;   // mm: less is a speck
constexpr double clear_share = 0.6;  // of a pass, to draw it whole
constexpr double clear_stretch = 5;  // mm, to draw it alone

// The part of a straight line within a box as two fractions; from > to when there is none (Liang and Barsky
// 1984).
struct LinePart {
  double from = 0, to = 1;
};
LinePart part_within(const PaperBox& box, ChartPoint a, ChartPoint b) {
  LinePart part;
  const auto edge = [&](double way, double room) {
    if (way == 0) {
      if (room < 0) part.to = -1;
    } else if (way < 0) {
      part.from = std::max(part.from, room / way);
    } else {
      part.to = std::min(part.to, room / way);
    }
  };
  edge(a.x - b.x, a.x - box.left);
  edge(b.x - a.x, box.right - a.x);
  edge(a.y - b.y, a.y - box.top);
  edge(b.y - a.y, box.bottom - a.y);
  return part;
}

bool is_finite(ChartPoint p) { return std::isfinite(p.x) && std::isfinite(p.y); }
double apart(ChartPoint a, ChartPoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

double length_of_run(const std::vector<ChartPoint>& run) {
  double length = 0;
  for (std::size_t i = 1; i < run.size(); ++i) length += apart(run[i - 1], run[i]);
  return length;
}

}  // namespace

PathThinner::PathThinner(const PaperBox& box, double gap)
    : box_(box),
      gap_(gap),
      columns_(1 + static_cast<int>((box.right - box.left) / gap)),
      rows_(1 + static_cast<int>((box.bottom - box.top) / gap)),
      cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

bool PathThinner::is_clear(ChartPoint p) const {
  const int column = static_cast<int>((p.x - box_.left) / gap_),
            row = static_cast<int>((p.y - box_.top) / gap_);
  for (int r = std::max(0, row - 1); r <= std::min(rows_ - 1, row + 1); ++r) {
    for (int c = std::max(0, column - 1); c <= std::min(columns_ - 1, column + 1); ++c) {
      for (const ChartPoint& other : cells_[static_cast<std::size_t>(r * columns_ + c)])
        if (apart(other, p) < gap_) return false;
    }
  }
  return true;
}

void PathThinner::take(const Run& run) {
  for (const ChartPoint& p : run) {
    const int column = std::clamp(static_cast<int>((p.x - box_.left) / gap_), 0, columns_ - 1);
    const int row = std::clamp(static_cast<int>((p.y - box_.top) / gap_), 0, rows_ - 1);
    cells_[static_cast<std::size_t>(row * columns_ + column)].push_back(p);
  }
}

bool PathThinner::take_place(ChartPoint p) {
  if (!is_finite(p) || p.x < box_.left || p.x > box_.right || p.y < box_.top || p.y > box_.bottom)
    return false;
  if (!is_clear(p)) return false;
  take({p});
  return true;
}

// In even steps, broken where it leaves the box.
std::vector<PathThinner::Run> PathThinner::runs_of(const std::vector<ChartPoint>& pass) const {
  std::vector<Run> runs(1);
  const auto lift = [&] {
    if (!runs.back().empty()) runs.emplace_back();
  };
  const ChartPoint* last = nullptr;
  for (const ChartPoint& p : pass) {
    if (!is_finite(p)) {
      lift();
      last = nullptr;
      continue;
    }
    const ChartPoint* from = last;
    if (from && apart(*from, p) < walk_step && &p != &pass.back()) continue;
    last = &p;
    if (!from) continue;
    const LinePart part = part_within(box_, *from, p);
    if (part.from > part.to || part.from > 0) lift();
    if (part.from > part.to) continue;
    const double length = (part.to - part.from) * apart(*from, p);
    const int steps = 1 + static_cast<int>(length / walk_step);
    for (int k = runs.back().empty() ? 0 : 1; k <= steps; ++k) {
      const double t = part.from + (part.to - part.from) * k / steps;
      runs.back().push_back({from->x + t * (p.x - from->x), from->y + t * (p.y - from->y)});
    }
    if (part.to < 1) lift();
  }
  return runs;
}

void PathThinner::draw_run(const Run& run) {
  if (length_of_run(run) < least_pass) return;
  std::vector<bool> clear;
  for (const ChartPoint& p : run) clear.push_back(is_clear(p));
  const auto count = static_cast<double>(std::count(clear.begin(), clear.end(), true));
  std::vector<Run> kept;
  if (count >= clear_share * static_cast<double>(run.size())) {
    kept.push_back(run);
  } else {
    Run stretch;
    for (std::size_t i = 0; i <= run.size(); ++i) {
      if (i < run.size() && clear[i]) {
        stretch.push_back(run[i]);
        continue;
      }
      if (length_of_run(stretch) >= clear_stretch) kept.push_back(stretch);
      stretch.clear();
    }
  }
  for (Run& one : kept) {
    take(one);
    drawn_.push_back(std::move(one));
  }
}

void PathThinner::add(const std::vector<ChartPoint>& pass) {
  for (const Run& run : runs_of(pass)) draw_run(run);
}

}  // namespace crownwright::drawings
