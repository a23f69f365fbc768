#include "order/print_agreement.h"

namespace crownwright::order {
namespace {

bool has_posts(const Order& order) { return order.form.posts.value_or(0) > 0; }

MaybeClash too_few_posts(const WholeOrder& w) {
  const int posts = w.order.form.posts.value_or(0);
  if (posts < 1 || posts > 2) return std::nullopt;
  return Clash{w.find("form.posts"),
               posts == 1 ? "on one post a crown tips over" : "on two posts a crown tips over",
               "0 for none, or 3 to 12"};
}

MaybeClash posts_in_solid(const WholeOrder& w) {
  if (!has_posts(w.order) || w.order.form.wall) return std::nullopt;
  return Clash{w.find("form.posts"), "a solid block has no room for posts and no need of them",
               "leave posts out, or give a wall such as wall = \"4 mm\""};
}

MaybeClash posts_in_puzzle(const WholeOrder& w) {
  if (!has_posts(w.order) || !w.order.puzzle) return std::nullopt;
  return Clash{w.find("form.posts"),
               "posts stand in the way of a puzzle block's pieces, whose own walls carry the crown",
               "leave posts or [puzzle] out"};
}

MaybeClash ring_without_collar(const WholeOrder& w) {
  if (!w.order.puzzle || w.order.puzzle->pieces != 2 || w.order.form.collar.mm() > 0) return std::nullopt;
  return Clash{w.find("puzzle.pieces"), "two pieces are crown and collar ring, and this block has no collar",
               "a collar such as collar = \"15 mm\" under [form], or 5, 7 or 9 pieces"};
}

}  // namespace

std::vector<Clash> print_clashes(const WholeOrder& w) {
  std::vector<Clash> clashes;
  for (const MaybeClash& found : {
           both_written(w, "print.bed", "print.printer", "leave one of them out"),
           needs_other(w, "form.post_diameter", "form.posts"),
           too_few_posts(w),
           posts_in_solid(w),
           posts_in_puzzle(w),
           ring_without_collar(w),
       }) {
    if (found) clashes.push_back(*found);
  }
  return clashes;
}

std::vector<std::string> press_warnings(const Order& order) {
  std::vector<std::string> warnings;
  if (!order.press || order.press->heat == Heat::dry) return warnings;
  const std::string otherwise = " tells of a dry iron, and heat is not \"dry\": it changes nothing";
  if (order.press->iron) warnings.push_back("press.iron" + otherwise);
  if (order.press->press_cloth) warnings.push_back("press.press_cloth" + otherwise);
  return warnings;
}

}  // namespace crownwright::order
