#pragma once
// Posts: round pillars inside a hollow form, from floor or foot plane up to the crown, for a crown that gives
// too much under the press. By construction: a post's top edge is its cut with the inner face, a hole there;
// its lower end stands on the floor (a hole there too) or ends in the foot plane.

#include <vector>

#include "base/result.h"
#include "parts/marks.h"
#include "parts/part.h"
#include "solid/solid.h"

namespace crownwright::parts {

struct Post {
  double x = 0, y = 0;  ///< of its axis, mm
  double radius = 4;
};

constexpr double least_post_radius = 2;
constexpr double post_margin = 1;  ///< mm kept between a post and everything else inside

/// mm from the axis within which all of a post must lie; 0 for a solid form.
double most_post_reach(const solid::Solid& solid);

/// Faults (impossible): a solid form; a post thinner than least_post_radius; one that does not stand clear
/// under the gently sloping middle of the crown (with the radius within which it must), clear of pole vent,
/// boss and other posts.
Result<Done> check_posts(const solid::Solid& solid, const std::vector<Post>& posts);

/// The whole form with its vents, posts and marks: "form". Vents that would come out in a post are left out.
Result<Part> form_with_posts(const solid::Solid& solid, const std::vector<Post>& posts, double tolerance,
                             const Marks& marks = {});

}  // namespace crownwright::parts
