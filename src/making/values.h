#pragma once
// From the order's tape-measure figures to the figures of the form itself.

#include <optional>

#include "base/result.h"
#include "making/read_pattern.h"
#include "meridian/beret.h"
#include "order/order.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// How the figures were brought from the cloth to the form.
struct Allowances {
  double cloth_thickness = 0;  ///< T, mm; 0 when no cloth is named
  double moved_inward = 0;     ///< T outside, T/2 at the cloth's middle, 0 at the form
  double heat_shrink = 0;      ///< taken off every length first, only when the order says before_steam
};

struct SolvedValues {
  meridian::BeretValues form;
  Allowances allowances;
  meridian::BeretValues middle;   ///< of the cloth's middle where it lies on the form (pads: a, t, e_u alone)
  meridian::BeretValues ordered;  ///< as the order says, where its tape was held, before any steam (blocks)
  std::optional<ReadPattern> pattern;  ///< what the order's own pattern says
};

/// A block from figures as an order says them: shrunk, and moved inward from where the tape was held. What
/// the surface that `taken_at` names measures becomes the form's and the cloth's middle's.
struct MovedValues {
  meridian::BeretValues form, middle;
};
Result<MovedValues> moved_values(const meridian::BeretValues& ordered, const Allowances& allowances,
                                 order::TakenAt taken_at);

/// Thickness, shrink and direction from [measure] and [cloth].
Result<Allowances> find_allowances(const order::Order& order, const workshop::ProfileFolder& profiles);

/// A block's values: way 1 (head girth, crown diameter, rise and a shape), way 2 (panel lengths) or from the
/// order's own pattern; shrunk, then moved inward as a true offset. Faults: order (unknown profile),
/// impossible.
Result<SolvedValues> solve_block(const order::Order& order, const workshop::ProfileFolder& profiles);

/// A pad's values: crown radius, dome and upper edge radius are moved inward; R is the pad's own thickness.
/// b, e_l do not apply.
Result<SolvedValues> solve_pad(const order::Order& order, const workshop::ProfileFolder& profiles);

/// The pressing face of a pad: pole (0, R) to its widest circle.
Result<meridian::Chain> pad_top(const meridian::BeretValues& values);

}  // namespace crownwright::making
