#include "making/released.h"

#include <algorithm>
#include <optional>

#include "base/length.h"
#include "making/keyed.h"
#include "meridian/refusal.h"
#include "parts/puzzle_bodies.h"
#include "parts/puzzle_form.h"
#include "parts/release_ring.h"
#include "parts/replay.h"

namespace crownwright::making {
namespace {

using order::Order;

// Nothing where no ring can be cut off: no collar, or a floor or socket that stands in its place.
std::optional<double> without_ring(const solid::Solid& solid) {
  const double cut = parts::ring_cut(solid);
  if (cut < parts::least_ring) return std::nullopt;
  const auto form = parts::cut_form(solid, cut);
  if (!form) return std::nullopt;
  return fit::needed_girth(form->outer).least();
}

parts::Proposal proposal(const solid::Solid& solid, const ReleasedQuestion& question, double stretch) {
  const double whole = question.opening.needed.least();
  return parts::propose(whole, without_ring(solid).value_or(whole), question.opening.girth, stretch);
}

parts::Step whole_out(const fit::Opening& opening) {
  parts::Step step;
  step.piece = "form";
  step.direction = opening.needed.edge_first < opening.needed.straight ? "edge first" : "straight up";
  step.needed_girth = opening.needed.least();
  step.opening_girth = opening.girth;
  return step;
}

// ---- proposals -------------------------------------------------------------------------------

std::string stretch_words(double needed, double opening) {
  return percent_text(std::max(0.0, needed / opening - 1));
}

void propose_parts(const solid::Solid& solid, const ReleasedQuestion& question, Released& released) {
  if (!question.cloth_known) return;
  const double girth = question.opening.girth;
  switch (proposal(solid, question, question.stretch)) {
    case parts::Proposal::whole:
      return;
    case parts::Proposal::loose_ring: {
      const double rest = without_ring(solid).value();
      released.warnings.push_back(
          "to take the form out more easily: with a loose collar ring ([puzzle] pieces = 2) "
          "it needs " +
          meridian::mm_text(rest) + " round, a stretch of " + stretch_words(rest, girth));
      return;
    }
    case parts::Proposal::puzzle:
      released.warnings.push_back(
          "to take the form out: even without its collar it needs more than the opening gives; a puzzle "
          "block "
          "([puzzle]) comes out in pieces");
      return;
  }
}

// ---- making it -------------------------------------------------------------------------------

Result<Released> loose_ring(const Order& order, const solid::Solid& solid, const ReleasedQuestion& question) {
  const auto cut = parts::cut_loose_ring(solid, order.puzzle->clearance.mm());
  if (!cut) return at_key(cut.fault(), "form.collar");
  auto pieces = parts::build_loose_ring(*cut, question.tolerance);
  if (!pieces) return pieces.fault();
  Released released;
  released.pieces = *std::move(pieces);
  const double girth = question.opening.girth;
  for (const parts::Part& piece : released.pieces) {
    released.steps.push_back(piece.name == "ring" ? parts::ring_off(solid.head_line.r, girth)
                                                  : parts::block_out(without_ring(solid).value(), girth));
  }
  std::stable_partition(released.steps.begin(), released.steps.end(),
                        [](const parts::Step& step) { return step.piece == "ring"; });
  released.vents = cut->block.vent_count();
  return released;
}

parts::Cap cap_of(const Order& order) {
  return order.puzzle->cap == order::Cap::stiff ? parts::Cap::stiff : parts::Cap::soft;
}

Result<Released> puzzle(const Order& order, const SolvedValues& solved, const solid::Solid& solid,
                        const ReleasedQuestion& question) {
  const auto crown = meridian::crown_chain(solved.form);
  if (!crown) return crown.fault();
  const auto plan = parts::plan_puzzle_in(
      {solved.form.a, solved.form.b, order.puzzle->clearance.mm(), cap_of(order), order.puzzle->pieces},
      *crown);
  if (!plan) return at_key(plan.fault(), "puzzle.pieces");
  auto built = parts::build_puzzle(solid, *plan, question.opening.girth, question.tolerance);
  if (!built) return at_key(built.fault(), "form.collar");
  Released released;
  released.pieces = std::move(built->parts);
  released.steps = std::move(built->steps);
  released.vents = built->vents;
  for (const std::string& piece : built->unpinned)
    released.warnings.push_back("the foot of " + piece +
                                " has no room for a pin: it is held by its neighbours");
  return released;
}

bool wants_ring(const Order& order, const solid::Solid& solid, const ReleasedQuestion& question) {
  if (order.puzzle->pieces) return *order.puzzle->pieces == 2;
  if (!without_ring(solid)) return false;
  const double stretch = cap_of(order) == parts::Cap::stiff ? 0 : question.stretch;
  return proposal(solid, question, stretch) != parts::Proposal::puzzle;
}

// A piece that the opening does not let by would be found out with the beret on the form.
void warn_of_exits(const ReleasedQuestion& question, Released& released) {
  if (!question.cloth_known) return;
  for (const parts::Step& step : released.steps) {
    if (step.needed_girth <= step.opening_girth * (1 + question.stretch) * (1 + 1e-9)) continue;
    released.warnings.push_back("to take out " + step.piece + " the opening must stretch " +
                                stretch_words(step.needed_girth, step.opening_girth) + ", and it gives " +
                                percent_text(question.stretch));
  }
}

}  // namespace

Result<Released> release_of(const Order& order, const SolvedValues& solved, const solid::Solid& solid,
                            const ReleasedQuestion& question) {
  if (!order.puzzle) {
    Released released;
    released.steps.push_back(whole_out(question.opening));
    released.vents = solid.vent_count();
    propose_parts(solid, question, released);
    return released;
  }
  auto released = wants_ring(order, solid, question) ? loose_ring(order, solid, question)
                                                     : puzzle(order, solved, solid, question);
  if (!released) return released.fault();
  released->joint_clearance = order.puzzle->clearance.mm();
  warn_of_exits(question, *released);
  return released;
}

}  // namespace crownwright::making
