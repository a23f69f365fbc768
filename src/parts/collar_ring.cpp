#include "parts/collar_ring.h"

#include <algorithm>

#include "meridian/refusal.h"
#include "parts/anatomy.h"
#include "parts/sectors.h"

namespace crownwright::parts {
namespace {

using meridian::mm_text;

// Of the walk's segments with one of these roles.
template <class IsRole, class Better>
double extreme_height(const solid::Solid& solid, IsRole is_role, Better better, double start) {
  for (const solid::Shell& shell : solid.shells) {
    for (std::size_t i = 0; i < shell.walk.size(); ++i) {
      if (!is_role(shell.roles[i])) continue;
      start = better(start, better(shell.walk[i].from().z, shell.walk[i].to().z));
    }
  }
  return start;
}

double lower(double a, double b) { return std::min(a, b); }
double higher(double a, double b) { return std::max(a, b); }

bool is_groove(solid::Role role) { return role == solid::Role::groove; }
bool is_foot(solid::Role role) { return role == solid::Role::foot || role == solid::Role::flange; }

}  // namespace

Result<double> collar_ring_cut(const solid::Solid& solid) {
  const double head = solid.head_line.z;
  if (!solid.has_head_line || head <= 0) {
    return impossible_fault("only a block with a collar has a collar ring", "a collar of at least 8 mm");
  }
  const double groove = extreme_height(solid, is_groove, lower, 1e9);
  const double cut = groove < 1e9 ? groove - ring_below_groove : head - ring_below_head_line;
  const double least = extreme_height(solid, is_foot, higher, 0.0) + least_ring;
  if (cut < least) {
    return impossible_fault(
        "the collar of " + mm_text(head) + " leaves no loose ring of " + mm_text(least_ring),
        "a collar of at least " + meridian::least_text(head + least - cut));
  }
  if (boss_top(solid) > cut) {
    return impossible_fault(
        "the socket's boss, " + mm_text(boss_top(solid)) + " high, stands through the collar ring's cut",
        "a socket_depth of at most " + meridian::most_text(cut - 1) + ", or no socket");
  }
  return cut;
}

Result<CollarRing> loose_collar_ring(const solid::Solid& solid, double clearance, double tolerance) {
  if (!(clearance >= 0) || clearance > 1)
    return impossible_fault("a clearance of " + mm_text(clearance) + " under the block is no fit",
                            "a clearance from 0 to 1 mm");
  const auto cut = collar_ring_cut(solid);
  if (!cut) return cut.fault();
  auto parts = cut_level(solid, {*cut}, clearance, tolerance);
  if (!parts) return parts.fault();
  CollarRing made{std::move((*parts)[0].part), std::move((*parts)[1].part), *cut};
  made.ring.name = "ring";
  made.block.name = "block";
  return made;
}

}  // namespace crownwright::parts
