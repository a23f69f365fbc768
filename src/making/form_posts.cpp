#include "making/form_posts.h"

#include <algorithm>
#include <cmath>

#include "press/stiffen.h"

namespace crownwright::making {
namespace {

double crown_radius(const solid::Solid& solid) {
  double radius = 0;
  for (const solid::Shell& shell : solid.shells)
    for (std::size_t i = 0; i < shell.walk.size(); ++i)
      if (shell.roles[i] == solid::Role::crown)
        radius = std::max({radius, shell.walk[i].from().r, shell.walk[i].to().r});
  return radius;
}

}  // namespace

std::vector<parts::Post> form_posts(const order::Order& order, const solid::Solid& solid) {
  if (!order.form.posts || *order.form.posts == 0) return {};
  const double radius = order.form.post_diameter.mm() / 2;
  const double reach = std::max(0.0, parts::most_post_reach(solid) - radius - 1e-6);
  std::vector<parts::Post> posts;
  for (const press::Spot& spot : press::best_spots(*order.form.posts, crown_radius(solid))) {
    const double out = std::hypot(spot.x, spot.y), share = out > reach ? reach / out : 1;
    posts.push_back({share * spot.x, share * spot.y, radius});
  }
  return posts;
}

std::vector<press::Spot> post_spots(const std::vector<parts::Post>& posts) {
  std::vector<press::Spot> spots;
  for (const parts::Post& post : posts) spots.push_back({post.x, post.y});
  return spots;
}

}  // namespace crownwright::making
