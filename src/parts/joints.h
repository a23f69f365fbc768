#pragma once
// Where a split form's joints have their flange, dowels and slots: decided once for all its parts.

#include <optional>
#include <vector>

#include "base/result.h"
#include "parts/anatomy.h"
#include "parts/sectors.h"

namespace crownwright::parts {

struct Joints {
  Anatomy anatomy;
  std::optional<meridian::Chain> thick;  ///< the inner face at the joints, where it is thickened
  double flange = 0;                     ///< its wall; 0: solid, or thick enough as ordered
  double step = 0;                       ///< distance of the step planes from the joint; 0: none
  double hole_radius = 0;
  std::vector<DowelPlace> dowels;
  std::vector<UprightDowel> uprights;
  std::vector<KeySlot> slots;

  /// The chains round the material at a joint (level ground stretch left out).
  std::vector<const meridian::Chain*> section() const;
};

/// The first of these heights at which a level cut leaves room for upright dowels.
std::optional<double> first_with_uprights(const solid::Solid& solid, const SplitPlan& plan,
                                          const std::vector<double>& heights);

/// Faults (impossible): no flange, or fewer than two dowels in a joint, with the thickest dowel that fits.
Result<Joints> plan_joints(const solid::Solid& solid, const SplitPlan& plan);

}  // namespace crownwright::parts
