#include "making/form_posts.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/numbers.h"
#include "parts/sectors.h"
#include "press/stiffen.h"
#include "solid/faces.h"

namespace crownwright::making {
namespace {

// Posts at 2 pi k / count and joints at 2 pi j / sectors lie apart by multiples of 2 pi / lcm: half of that
// is the farthest that all can keep.
double turn_from_joints(int count, int sectors) { return pi / std::lcm(count, sectors); }

}  // namespace

bool axis_is_taken(const order::Order& order, const solid::Solid& solid, int sectors) {
  return sectors > 1 || solid.pole_vent || order.form.socket;
}

std::vector<parts::Post> form_posts(const order::Order& order, const solid::Solid& solid, int sectors) {
  if (!order.form.posts || *order.form.posts == 0) return {};
  const int count = *order.form.posts;
  const double crown = meridian::extent_of(solid::with_roles(solid, {solid::Role::crown})).outer,
               radius = order.form.post_diameter.mm() / 2;
  const double reach = std::max(0.0, parts::most_post_reach(solid) - radius - 1e-6);
  const auto spots = axis_is_taken(order, solid, sectors) ? press::best_ring_spots(count, crown)
                                                          : press::best_spots(count, crown);
  const double turn = sectors > 1 ? turn_from_joints(count, sectors) : 0;
  // Far enough out to stand clear of the joints' flanges.
  const double clear =
      turn > 0 ? (parts::flange_width + radius + 2 * parts::post_margin) / std::sin(turn) : 0;
  std::vector<parts::Post> posts;
  for (const press::Spot& spot : spots) {
    const double out = std::hypot(spot.x, spot.y), at = std::atan2(spot.y, spot.x) + turn;
    const double from_axis = std::min(std::max(out, clear), reach);
    posts.push_back({from_axis * std::cos(at), from_axis * std::sin(at), radius});
  }
  return posts;
}

std::vector<press::Spot> post_spots(const std::vector<parts::Post>& posts) {
  std::vector<press::Spot> spots;
  for (const parts::Post& post : posts) spots.push_back({post.x, post.y});
  return spots;
}

}  // namespace crownwright::making
