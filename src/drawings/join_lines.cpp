#include "drawings/join_lines.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <tuple>

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

// End 2 i is the first point of line i, end 2 i + 1 its last.
class Ends {
 public:
  explicit Ends(const std::vector<Polyline>& lines) : lines_(lines), partner_(2 * lines.size()) {
    for (std::size_t end = 0; end < partner_.size(); ++end) cells_[cell(at(end))].push_back(end);
    pair_up();
  }

  std::optional<std::size_t> partner(std::size_t end) const { return partner_[end]; }

 private:
  using Cell = std::pair<std::int64_t, std::int64_t>;

  Vec2 at(std::size_t end) const {
    const Polyline& line = lines_[end / 2];
    return end % 2 == 0 ? line.front() : line.back();
  }
  static Cell cell(Vec2 p) { return {std::llround(p.x / ends_meet), std::llround(p.y / ends_meet)}; }

  // Only a handful of neighbours is looked at, so that thousands of lines through one point cost no square.
  void pair_up() {
    constexpr std::size_t most = 16;
    std::vector<std::tuple<double, std::size_t, std::size_t>> pairs;
    for (std::size_t end = 0; end < partner_.size(); ++end) {
      const Cell here = cell(at(end));
      for (std::int64_t dx = -1; dx <= 1; ++dx) {
        for (std::int64_t dy = -1; dy <= 1; ++dy) {
          const auto found = cells_.find({here.first + dx, here.second + dy});
          if (found == cells_.end()) continue;
          const auto& ends = found->second;
          auto other = std::upper_bound(ends.begin(), ends.end(), end);
          for (std::size_t k = 0; k < most && other != ends.end(); ++k, ++other) {
            const double away = norm(at(end) - at(*other));
            if (away <= ends_meet) pairs.emplace_back(away, end, *other);
          }
        }
      }
    }
    std::sort(pairs.begin(), pairs.end());
    for (const auto& [away, a, b] : pairs) {
      if (!partner_[a] && !partner_[b]) partner_[a] = b, partner_[b] = a;
    }
  }

  const std::vector<Polyline>& lines_;
  std::vector<std::optional<std::size_t>> partner_;
  std::map<Cell, std::vector<std::size_t>> cells_;
};

void append(Polyline& chain, const Polyline& line, bool backwards) {
  // The end that meets the chain's is the same point.
  const std::size_t skip = chain.empty() ? 0 : 1;
  if (backwards) {
    chain.insert(chain.end(), line.rbegin() + static_cast<std::ptrdiff_t>(skip), line.rend());
  } else {
    chain.insert(chain.end(), line.begin() + static_cast<std::ptrdiff_t>(skip), line.end());
  }
}

class Chains {
 public:
  explicit Chains(std::vector<Polyline> lines)
      : lines_(std::move(lines)), ends_(lines_), used_(lines_.size()) {}

  void into(Lines& out) {
    // Chains with loose ends first; what is left goes round.
    for (std::size_t end = 0; end < 2 * lines_.size(); ++end) {
      if (!used_[end / 2] && !ends_.partner(end)) out.open.push_back(follow(end));
    }
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (used_[i]) continue;
      Polyline loop = follow(2 * i);
      loop.pop_back();
      if (loop.size() >= 3) out.closed.push_back(std::move(loop));
    }
  }

 private:
  Polyline follow(std::size_t end) {
    Polyline chain;
    while (true) {
      used_[end / 2] = true;
      append(chain, lines_[end / 2], end % 2 == 1);
      const auto next = ends_.partner(end ^ 1U);
      if (!next || used_[*next / 2]) return chain;
      end = *next;
    }
  }

  std::vector<Polyline> lines_;
  Ends ends_;
  std::vector<bool> used_;
};

}  // namespace

void join_lines(Lines& lines) {
  std::vector<Polyline> open = std::move(lines.open);
  lines.open.clear();
  Chains(std::move(open)).into(lines);
}

}  // namespace crownwright::drawings
