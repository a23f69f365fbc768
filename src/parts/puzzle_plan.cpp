#include "parts/puzzle_plan.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "meridian/refusal.h"
#include "meridian/root.h"

namespace crownwright::parts {
namespace {

using meridian::least_text;
using meridian::mm_text;
using meridian::most_text;

/// Of a chord at distance x from the axis, half its length; 0 beyond the circle.
double half_chord(double radius, double x) { return std::sqrt(std::max(0.0, radius * radius - x * x)); }

/// What a piece at distance x from the axis has to move to come from within the crown to within the opening.
double way_in(const PuzzlePlan& plan, double x) {
  return half_chord(plan.a, x) - half_chord(plan.b - plan.c, x);
}

struct Least {
  double u = 0;
  std::string why;  ///< the condition that asks for it
};

Least least_u(const PuzzlePlan& plan) {
  Least least{least_half_key, "room for a screw"};
  const auto ask = [&](double u, const char* why) {
    if (u > least.u) least = {u, why};
  };
  ask((plan.a - plan.b + plan.c) / 2, "the way the sides slide across");
  if (plan.pieces == 7) {
    const double inside = plan.b - plan.c;
    ask((plan.a + plan.c) / 3, "room for half a side to pass along the slab");
    ask(plan.a - 2 * inside * inside / plan.a, "half a side passing the opening");
  }
  return least;
}

/// u = k for nine pieces: from the least that lets an end in to the greatest key. Empty: low > high.
Window square_window(const PuzzlePlan& plan) {
  const double most = (plan.b - plan.c) / std::sqrt(2.0);
  const auto spare = [&](double t) { return 2 * t - way_in(plan, t) - plan.c; };
  if (most < least_half_key || spare(most) < 0) return {most + 1, most};
  double low = least_half_key;
  // The spare room changes sign once at most below `most`, where it is positive: it is rising or concave.
  if (spare(low) < 0) low = meridian::rising_root(spare, low, most);
  return {low, most};
}

/// u and k; nothing when the conditions cannot be met.
std::optional<PuzzlePlan> cut(PuzzlePlan plan) {
  if (plan.b <= plan.c) return std::nullopt;
  if (plan.pieces == 9) {
    const Window window = square_window(plan);
    if (window.low > window.high) return std::nullopt;
    plan.u = plan.k = (window.low + window.high) / 2;
    return plan;
  }
  plan.u = least_u(plan).u;
  const Window window = key_window(plan, plan.u);
  if (plan.u >= plan.b - plan.c || window.low > window.high) return std::nullopt;
  plan.k = (window.low + window.high) / 2;
  return plan;
}

/// The crown diameter and the head girth that would do.
std::string nearest(const PuzzlePlan& plan) {
  const auto with_crown = [&](double a) { return PuzzlePlan{a, plan.b, plan.c, plan.cap, plan.pieces}; };
  const auto with_head = [&](double b) { return PuzzlePlan{plan.a, b, plan.c, plan.cap, plan.pieces}; };
  std::string text;
  if (cut(with_crown(plan.b))) {
    const double a =
        meridian::largest_that([&](double x) { return cut(with_crown(x)).has_value(); }, plan.b, plan.a);
    text = "a crown diameter of at most " + most_text(2 * a);
  }
  if (cut(with_head(plan.a))) {
    const double less =
        meridian::largest_that([&](double x) { return cut(with_head(-x)).has_value(); }, -plan.a, -plan.b);
    text +=
        (text.empty() ? "" : ", or ") + std::string("a head girth of at least ") + least_text(-less * 2 * pi);
  }
  return text.empty() ? "a larger form" : text;
}

std::string why_not(const PuzzlePlan& plan) {
  const std::string count = std::to_string(plan.pieces) + " pieces: ";
  const double inside = plan.b - plan.c;
  if (plan.pieces == 9) {
    const double most = std::max(0.0, inside / std::sqrt(2.0));
    return count + "ends slid in until they clear the opening would meet: they need a key " +
           least_text(way_in(plan, most) + plan.c) + " wide, and the opening lets a square one of " +
           most_text(2 * most) + " through";
  }
  const Least least = least_u(plan);
  if (least.u >= inside) {
    return count + least.why + " needs a key " + least_text(2 * least.u) +
           " wide, and the opening lets none wider than " + most_text(2 * std::max(0.0, inside)) + " through";
  }
  const Window window = key_window(plan, least.u);
  return count + "ends slid in until they clear the opening would meet: they need a key " +
         least_text(2 * window.low) + " long, and the opening lets one " + least_text(2 * least.u) +
         " wide (" + least.why + ") through only up to " + most_text(2 * window.high);
}

std::optional<Fault> refuse_question(const PuzzleQuestion& question) {
  if (!(question.clearance > 0)) {
    return order_fault("puzzle.clearance", "pieces without clearance do not come apart",
                       "more than 0 mm, as 0.4 mm");
  }
  if (!(question.head_radius > 0) || !(question.crown_radius >= question.head_radius))
    throw std::logic_error("a puzzle block was asked of a crown narrower than its head");
  if (!question.pieces) return std::nullopt;
  if (*question.pieces != 5 && *question.pieces != 7 && *question.pieces != 9) {
    return order_fault("puzzle.pieces",
                       "a puzzle block has no " + std::to_string(*question.pieces) + " pieces",
                       "5, 7, 9 or \"auto\"");
  }
  if (*question.pieces == 5 && question.cap == Cap::stiff) {
    return order_fault("puzzle.pieces",
                       "the sides of a block of 5 pieces are turned on end, and a stiff cap does not give",
                       "7, 9 or \"auto\", or cap = \"soft\"");
  }
  return std::nullopt;
}

}  // namespace

Window key_window(const PuzzlePlan& plan, double u) {
  Window window{std::max(least_half_key, (way_in(plan, u) + plan.c) / 2), half_chord(plan.b - plan.c, u)};
  if (u > plan.b - plan.c) window.high = 0;
  // The middle sides want 2u >= way_in(k) + c; the way grows with k.
  if (plan.pieces == 9 && window.low <= window.high) {
    const auto fits = [&](double k) { return 2 * u >= way_in(plan, k) + plan.c; };
    window.high = fits(window.low) ? meridian::largest_that(fits, window.low, window.high) : 0;
  }
  return window;
}

double end_slide(const PuzzlePlan& plan) { return way_in(plan, plan.u); }

double side_slide(const PuzzlePlan& plan) {
  return plan.pieces == 9 ? way_in(plan, plan.k) : plan.a - plan.b + plan.c;
}

Result<PuzzlePlan> plan_puzzle(const PuzzleQuestion& question) {
  if (const auto fault = refuse_question(question)) return *fault;
  PuzzlePlan plan{question.crown_radius, question.head_radius, question.clearance, question.cap};
  std::vector<int> counts = {5};
  if (question.cap == Cap::stiff) counts = {7, 9};
  if (question.pieces) counts = {*question.pieces};
  for (const int count : counts) {
    plan.pieces = count;
    if (const auto made = cut(plan)) return *made;
  }
  return impossible_fault("no puzzle block of " + why_not(plan), nearest(plan));
}

std::vector<std::string> piece_names(int pieces) {
  std::vector<std::string> names{"key", "end-n", "end-s"};
  const std::vector<std::string> rest =
      pieces == 5 ? std::vector<std::string>{"side-e", "side-w"}
      : pieces == 7
          ? std::vector<std::string>{"side-ne", "side-se", "side-nw", "side-sw"}
          : std::vector<std::string>{"side-e", "side-w", "corner-ne", "corner-se", "corner-nw", "corner-sw"};
  names.insert(names.end(), rest.begin(), rest.end());
  return names;
}

}  // namespace crownwright::parts
