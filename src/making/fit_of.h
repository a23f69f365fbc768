#pragma once
// Does the beret of the order fit its form, and does the form come out again?

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "fit/fit.h"
#include "fit/nearest.h"
#include "fit/opening.h"
#include "making/values.h"
#include "order/order.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// How the crown's cloth lies on the form.
struct CrownFit {
  fit::FitReport report;
  fit::ClothLimits limits;
  std::optional<pattern::PanelNet> net;  ///< the panel: as read, or drafted from the form
  bool drafted = false;                  ///< no pattern was given: it is judged as this program drafts it
  std::vector<fit::Change> nearest;      ///< when it does not fit: what would
};

struct FormFit {
  std::optional<CrownFit> crown;  ///< needs a cloth and a pattern or a number of panels; blocks only
  fit::Opening opening;
  /// The trade's rule for ring patterns (common practice, no source): an opening is no wider than the head.
  std::optional<bool> opening_within_head;
  std::vector<std::string> warnings;
};

/// Nothing for pads: they have no head line. Faults: order (unknown cloth).
Result<std::optional<FormFit>> fit_of(const order::Order& order, const SolvedValues& solved,
                                      const solid::Solid& solid, const workshop::ProfileFolder& profiles);

/// What the named cloth takes; nothing when none is named.
Result<std::optional<fit::ClothLimits>> cloth_limits(const order::Order& order,
                                                     const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
