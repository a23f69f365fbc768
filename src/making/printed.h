#pragma once
// The form as it is printed: whole or in parts, each the way up it prints best, and where they lie on the
// bed.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/released.h"
#include "order/order.h"
#include "parts/bed.h"
#include "parts/sectors.h"
#include "printing/plates.h"
#include "printing/print.h"
#include "proof/proven.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct PrintedPart {
  std::string name;
  /// As its file holds it: standing on z = 0 as it is printed, near the axes. Nothing: the form's own mesh,
  /// as its own file holds it.
  std::optional<proof::Proven> proven;
  mesh::Placement to_form;  ///< from its file to its place in the form
  std::string way_up;       ///< "foot down", "joint 1 down", ...
  mesh::Placement on_bed;   ///< from its file to the printer's bed, the way up it prints best
  std::size_t plate = 0;    ///< 0, 1, ...
  bool fits = true;
  printing::PrintJudgement figures;  ///< as it lies on the bed
};

/// How sectors and tiers are joined; nothing for forms that are not cut to fit.
struct JointFigures {
  int sectors = 1, tiers = 1;
  std::size_t dowels = 0;  ///< in each joint
  std::size_t keys = 0;    ///< loose, in the floor's part of each joint
  double dowel = 0, dowel_length = 0, glue_gap = 0;
  int vents_left_out = 0;
};

struct Printed {
  std::optional<printing::Bed> bed;  ///< nothing: none is known, every part fits
  std::vector<PrintedPart> parts;    ///< at least one
  std::size_t plates = 1;
  std::optional<JointFigures> joints;
  int vents = 0;  ///< of all parts together
  bool fits_bed = true;
  std::vector<std::string> warnings;
};

/// Into how many parts the form is cut to fit its bed; one where no bed is known, split = "none" or the form
/// is a puzzle. Faults: order (unknown printer), impossible (no way of cutting fits).
Result<parts::BedPlan> bed_plan_of(const order::Order& order, const solid::Solid& solid,
                                   const workshop::ProfileFolder& profiles);

/// What is needed of the form beside its order.
struct PrintedQuestion {
  const solid::Solid& solid;
  const proof::Proven& whole;
  double density = 0;   ///< g/cm3
  double wall_min = 0;  ///< as measured; 0: solid
};

/// `released` may hold the pieces of a puzzle: they are printed as they are. Faults: order (unknown printer),
/// impossible (no way of cutting fits the bed, no room for dowels), proof.
Result<Printed> print_of(const order::Order& order, const PrintedQuestion& question, const Released& released,
                         const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
