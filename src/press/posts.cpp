#include "press/posts.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <stdexcept>
#include <tuple>

#include "base/numbers.h"

namespace crownwright::press {
namespace {

// The free radius about a point is the least of its distances to the rim and to the posts. It changes by no
// more than the point moves, so a square cell holds nothing better than its middle plus half its diagonal.
// Cells are halved, most promising first, until none can better the best by the tolerance.
constexpr double kTolerance = 1e-4;
constexpr std::size_t kMostPosts = 1000;

double square_of(double x, double y) { return x * x + y * y; }

double free_radius(const std::vector<Spot>& posts, double radius, const Spot& p) {
  double nearest = square_of(p.x - posts[0].x, p.y - posts[0].y);
  for (const Spot& post : posts) nearest = std::min(nearest, square_of(p.x - post.x, p.y - post.y));
  return std::min(radius - std::sqrt(square_of(p.x, p.y)), std::sqrt(nearest));
}

struct SearchCell {
  Spot middle;
  double half = 0, best_hope = 0;

  // A total order, so that equal hopes are taken in the same order everywhere.
  bool operator<(const SearchCell& other) const {
    return std::tie(best_hope, middle.x, middle.y) <
           std::tie(other.best_hope, other.middle.x, other.middle.y);
  }
};

class FreeCircleSearch {
 public:
  FreeCircleSearch(const std::vector<Spot>& posts, double radius) : posts_(posts), radius_(radius) {}

  FreeCircle run() {
    look({{0, 0}, radius_, 0});
    while (!open_.empty()) {
      const SearchCell cell = open_.top();
      open_.pop();
      if (!worth_while(cell)) break;
      const double half = cell.half / 2;
      for (const double dx : {-half, half}) {
        for (const double dy : {-half, half}) look({{cell.middle.x + dx, cell.middle.y + dy}, half, 0});
      }
    }
    return best_;
  }

 private:
  bool worth_while(const SearchCell& cell) const {
    return cell.best_hope > best_.radius + kTolerance * radius_;
  }
  void look(SearchCell cell) {
    const double free = free_radius(posts_, radius_, cell.middle);
    if (free > best_.radius) best_ = {cell.middle, free};
    cell.best_hope = free + cell.half * std::sqrt(2.0);
    if (worth_while(cell)) open_.push(cell);
  }

  const std::vector<Spot>& posts_;
  double radius_;
  FreeCircle best_;
  std::priority_queue<SearchCell> open_;
};

}  // namespace

FreeCircle largest_free_circle(const std::vector<Spot>& posts, double radius) {
  if (!(radius > 0)) throw std::logic_error("posts under a crown without radius");
  if (posts.size() > kMostPosts) throw std::logic_error("more posts than a crown holds");
  if (posts.empty()) return {{0, 0}, radius};
  return FreeCircleSearch(posts, radius).run();
}

std::vector<Spot> ring_of_posts(int on_ring, double ring_radius, bool in_middle) {
  std::vector<Spot> posts;
  if (in_middle) posts.push_back({0, 0});
  for (int k = 0; k < on_ring; ++k) {
    const double angle = 2 * pi * k / on_ring;
    posts.push_back({ring_radius * std::cos(angle), ring_radius * std::sin(angle)});
  }
  return posts;
}

}  // namespace crownwright::press
