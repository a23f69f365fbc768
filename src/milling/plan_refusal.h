#pragma once
// Why a form cannot be milled as asked, and the nearest way that can: every other sheet, tool, rise or set-up
// named is tried first.

#include <optional>
#include <vector>

#include "base/fault.h"
#include "milling/plan_attempt.h"

namespace crownwright::milling {

struct Asked {
  const Outline& outline;
  const solid::Solid& solid;
  const Job& job;
  Way way = Way::one;
};

/// No ball to finish with, or a tool bigger than the form.
std::optional<Fault> refuse_tools(const Asked& asked);

/// A form with an underside in one set-up; a pad turned over, or a form that would not stand on its foot
/// then.
std::optional<Fault> refuse_way(const Asked& asked);

/// Precondition: lacks is not empty.
Fault refuse_lacks(const Asked& asked, const std::vector<Lack>& lacks);

}  // namespace crownwright::milling
