#include "milling/plan.h"

#include "milling/plan_attempt.h"
#include "milling/plan_refusal.h"

namespace crownwright::milling {
namespace {

Way way_for(const Outline& outline, SetupWish wish) {
  switch (wish) {
    case SetupWish::one:
      return Way::one;
    case SetupWish::tiers:
      return Way::tiers;
    case SetupWish::turn_over:
      return Way::turn_over;
    case SetupWish::automatic:
      break;
  }
  return outline.pad ? Way::one : Way::tiers;
}

}  // namespace

Result<Plan> plan_milling(const solid::Solid& solid, const Job& job) {
  const Result<Outline> outline = outline_of(solid);
  if (!outline) return outline.fault();
  const Asked asked{*outline, solid, job, way_for(*outline, job.setup)};
  if (const auto fault = refuse_tools(asked)) return *fault;
  if (const auto fault = refuse_way(asked)) return *fault;
  Result<Attempt> tried = attempt(*outline, solid, job, asked.way);
  if (!tried) return tried.fault();
  if (!tried->lacks.empty()) return refuse_lacks(asked, tried->lacks);
  return std::move(tried->plan);
}

}  // namespace crownwright::milling
