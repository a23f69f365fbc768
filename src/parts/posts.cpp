#include "parts/posts.h"

#include <algorithm>
#include <cmath>

#include "meridian/refusal.h"
#include "parts/anatomy.h"
#include "parts/sectors.h"

namespace crownwright::parts {
namespace {

using meridian::mm_text;

constexpr double least_facing_down = 0.5;

// Within this radius everything on the inner face is ceiling and slopes gently.
double free_radius(const meridian::Chain& inner) {
  double least = inner.front().from().r;
  for (const meridian::Segment& segment : inner) {
    constexpr int looks = 128;
    for (int i = 0; i <= looks; ++i) {
      const double s = segment.length() * i / looks;
      if (segment.normal_at(s).z > -least_facing_down) least = std::min(least, segment.at(s).r);
    }
  }
  return least - post_margin;
}

}  // namespace

double most_post_reach(const solid::Solid& solid) {
  const Anatomy anatomy = take_apart(without_pole_vent(solid));
  return anatomy.inner ? std::max(0.0, free_radius(*anatomy.inner)) : 0;
}

Result<Done> check_posts(const solid::Solid& solid, const std::vector<Post>& posts) {
  if (posts.empty()) return Done{};
  const Anatomy anatomy = take_apart(without_pole_vent(solid));
  if (!anatomy.inner) return impossible_fault("a solid form has no room for posts", "no posts, or a wall");
  const double most = free_radius(*anatomy.inner);
  const double boss = anatomy.ground.facing > 0 ? anatomy.ground.from_r : 0;
  for (std::size_t i = 0; i < posts.size(); ++i) {
    const Post& post = posts[i];
    const double from_axis = std::hypot(post.x, post.y);
    if (!(post.radius >= least_post_radius)) {
      return impossible_fault("a post of " + mm_text(2 * post.radius) + " is too thin",
                              "posts at least " + mm_text(2 * least_post_radius) + " thick");
    }
    if (!(from_axis + post.radius <= most)) {
      return impossible_fault("a post reaches " + mm_text(from_axis + post.radius) + " from the axis",
                              "posts within " + meridian::most_text(std::max(0.0, most)) + " of it");
    }
    const double middle =
        std::max(solid.pole_vent ? solid.vent.mouth() + post_margin : 0, boss > 0 ? boss + post_margin : 0);
    if (middle > 0 && from_axis - post.radius < middle) {
      return impossible_fault("a post stands in the way of the vent or socket on the axis",
                              "posts at least " + meridian::least_text(middle) + " from it");
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (std::hypot(post.x - posts[j].x, post.y - posts[j].y) < post.radius + posts[j].radius + post_margin)
        return impossible_fault("two posts stand in each other", "posts at least 1 mm apart");
    }
  }
  return Done{};
}

Result<Part> form_with_posts(const solid::Solid& solid, const std::vector<Post>& posts, double tolerance,
                             const Marks& marks) {
  const auto fits = check_posts(solid, posts);
  if (!fits) return fits.fault();
  const auto checked = check_marks(solid, marks);
  if (!checked) return checked.fault();
  auto parts = cut_level(solid, {}, 0, tolerance, {marks, posts});
  if (!parts) return parts.fault();
  Part part = std::move(parts->front().part);
  part.name = "form";
  return part;
}

}  // namespace crownwright::parts
