#include "order/mill_agreement.h"

#include <algorithm>

namespace crownwright::order {
namespace {

// The first of the keys that was written. With all of them at their defaults nothing clashes.
const Written* any_of(const WholeOrder& w, const std::vector<std::string_view>& paths) {
  for (const std::string_view path : paths) {
    if (const Written* at = w.find(path)) return at;
  }
  return nullptr;
}

const Cutter& rough_of(const Mill& mill) { return mill.rough_tool ? *mill.rough_tool : mill.tool; }

MaybeClash flute_above_holder(const WholeOrder& w, const Mill& mill) {
  if (mill.flute.mm() <= mill.stick_out.mm()) return std::nullopt;
  return Clash{
      any_of(w, {"mill.flute", "mill.stick_out"}),
      "a flute of " + to_text(mill.flute) + " does not fit into a stick-out of " + to_text(mill.stick_out),
      "a flute of at most the stick-out: cutting edges end below the holder"};
}

MaybeClash drill_flute_above_holder(const WholeOrder& w, const Mill& mill) {
  if (!mill.drill_flute || mill.drill_flute->mm() <= mill.stick_out.mm()) return std::nullopt;
  return Clash{w.find("mill.drill_flute"),
               "a drill's flute of " + to_text(*mill.drill_flute) + " does not fit into a stick-out of " +
                   to_text(mill.stick_out),
               "at most the stick-out: how deep the drill goes ends at the holder"};
}

MaybeClash flute_within_ball(const WholeOrder& w, const Mill& mill) {
  const bool rough_is_ball = rough_of(mill).shape == CutterShape::ball;
  const double radius =
      std::max(mill.tool.diameter.mm(), rough_is_ball ? rough_of(mill).diameter.mm() : 0) / 2;
  if (mill.flute.mm() >= radius) return std::nullopt;
  return Clash{any_of(w, {"mill.flute", "mill.rough_tool", "mill.tool"}),
               "a flute of " + to_text(mill.flute) + " ends within the ball of its tool",
               "at least the ball's radius, " + number_text(radius, 3) + " mm"};
}

MaybeClash holder_thinner_than_tool(const WholeOrder& w, const Mill& mill) {
  double widest = std::max(mill.tool.diameter.mm(), rough_of(mill).diameter.mm());
  if (mill.drill) widest = std::max(widest, mill.drill->mm());
  if (mill.holder.mm() >= widest) return std::nullopt;
  return Clash{any_of(w, {"mill.holder", "mill.rough_tool", "mill.tool", "mill.drill"}),
               "a holder of " + to_text(mill.holder) + " is thinner than the tool in it",
               "at least the widest tool's diameter, " + number_text(widest, 3) + " mm"};
}

MaybeClash scallop_beyond_ball(const WholeOrder& w, const Mill& mill) {
  const double radius = mill.tool.diameter.mm() / 2;
  if (mill.scallop.mm() < radius) return std::nullopt;
  return Clash{any_of(w, {"mill.scallop", "mill.tool"}),
               "a ball of " + to_text(mill.tool.diameter) + " leaves no scallop of " + to_text(mill.scallop),
               "less than the ball's radius, " + number_text(radius, 3) + " mm"};
}

MaybeClash step_down_beyond_flute(const WholeOrder& w, const Mill& mill) {
  if (!mill.step_down || mill.step_down->mm() <= mill.flute.mm()) return std::nullopt;
  return Clash{
      w.find("mill.step_down"),
      "a step down of " + to_text(*mill.step_down) + " is deeper than the flute of " + to_text(mill.flute),
      "at most the flute: above it the shank rubs"};
}

MaybeClash step_over_beyond_tool(const WholeOrder& w, const Mill& mill) {
  const Length& diameter = rough_of(mill).diameter;
  if (!mill.step_over || mill.step_over->mm() < diameter.mm()) return std::nullopt;
  return Clash{w.find("mill.step_over"),
               "a step over of " + to_text(*mill.step_over) + " leaves ridges between passes of a " +
                   to_text(diameter) + " tool",
               "less than the roughing tool's diameter"};
}

}  // namespace

std::vector<Clash> mill_clashes(const WholeOrder& w) {
  std::vector<Clash> clashes;
  if (!w.order.mill) return clashes;
  const Mill& mill = *w.order.mill;
  for (const MaybeClash& found : {
           needs_other(w, "mill.drill_flute", "mill.drill"),
           flute_above_holder(w, mill),
           drill_flute_above_holder(w, mill),
           flute_within_ball(w, mill),
           holder_thinner_than_tool(w, mill),
           scallop_beyond_ball(w, mill),
           step_down_beyond_flute(w, mill),
           step_over_beyond_tool(w, mill),
       }) {
    if (found) clashes.push_back(*found);
  }
  return clashes;
}

}  // namespace crownwright::order
