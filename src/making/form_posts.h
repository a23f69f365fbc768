#pragma once

#include <vector>

#include "order/order.h"
#include "parts/posts.h"
#include "press/posts.h"
#include "solid/solid.h"

namespace crownwright::making {

/// By a vent, a socket or joints: no post may stand there.
bool axis_is_taken(const order::Order& order, const solid::Solid& solid, int sectors);

/// The posts of the order's [form]: where they leave the crown least to span (press::best_spots), or as far
/// out as the crown's edge lets them stand; on one ring where the axis is taken, and in a form of several
/// sectors turned so that they stay as far from the joints as they can. Empty: none.
std::vector<parts::Post> form_posts(const order::Order& order, const solid::Solid& solid, int sectors);

/// The same, as the crown's stiffness is judged by them.
std::vector<press::Spot> post_spots(const std::vector<parts::Post>& posts);

}  // namespace crownwright::making
