#pragma once
// A form planned one way, with what is short for it.

#include <vector>

#include "base/result.h"
#include "milling/plan.h"
#include "milling/reach.h"

namespace crownwright::milling {

enum class Way { one, tiers, turn_over };

struct Attempt {
  Plan plan;
  std::vector<Lack> lacks;  ///< empty: the plan can be cut
};

/// Fault (impossible): no such plan, whatever the tools are. Precondition: a form with a head line is not
/// tried in one set-up.
Result<Attempt> attempt(const Outline& outline, const solid::Solid& solid, const Job& job, Way way);

/// Whether it can be cut that way.
bool can_be_cut(const Outline& outline, const solid::Solid& solid, const Job& job, Way way);

}  // namespace crownwright::milling
