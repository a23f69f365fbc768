#pragma once
// From an order in memory to a proven form in memory.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/fit_of.h"
#include "making/milled.h"
#include "making/pressed.h"
#include "making/printed.h"
#include "making/released.h"
#include "order/order.h"
#include "parts/stack.h"
#include "pattern/pieces.h"
#include "proof/proven.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// Figures of the form itself, closed form, mm. Pads have no head girth, under length; their rise is the
/// thickness.
struct FormFigures {
  double crown_diameter = 0;
  std::optional<double> head_girth;
  double rise = 0;
  double dome = 0, edge_radius = 0, under_edge_radius = 0;
  double top_length = 0;               ///< pole to the crown's widest circle
  std::optional<double> under_length;  ///< from there to the head line
  double meridian_length = 0;          ///< pole to head line (pad: pole to the foot of its side)
  double cloth_thickness = 0;          ///< taken off: T outside, T/2 at the cloth's middle, 0 at the form
  double moved_inward = 0;
  double heat_shrink = 0;       ///< taken off all lengths first; 0 unless before_steam
  double volume = 0, area = 0;  ///< of the whole solid; area without the vents' walls
};

struct VentFigures {
  int count = 0;
  double open_area = 0;  ///< mm2, sum of the bores
};

struct MaterialFigures {
  std::string name;
  double density = 0;     ///< g/cm3
  double mass = 0;        ///< g, of the solid as drawn (a print with sparse infill weighs less)
  bool printable = true;  ///< a plastic, or of no known kind
};

struct Form {
  order::Order order;
  FormFigures figures;
  VentFigures vents;
  MaterialFigures material;
  solid::Solid solid;
  proof::Proven proven;
  Pressed pressed;
  std::optional<Released> released;    ///< blocks: how the form comes out of the beret
  Printed printed;                     ///< in parts, or whole, on the printer
  std::optional<parts::Stack> stack;   ///< of sheets, when the order has a [stack]
  std::optional<Milled> milled;        ///< on the router, when the order has a [mill]
  std::optional<FormFit> fit;          ///< blocks: the crown's fit where it is known, and the opening
  std::optional<ReadPattern> pattern;  ///< the order's own, as it was read
  std::vector<pattern::Piece> pieces;  ///< to cut, when the order has a [draft]
  std::vector<std::string> warnings;   ///< the order's own first
};

/// Faults: order (unknown profile), impossible (with the nearest), file (dish mesh), proof (of the mesh, or of
/// programs in their trial cut).
/// Same order and profiles, same form to the last bit.
Result<Form> make_form(const order::Order& order, const workshop::ProfileFolder& profiles);

/// The steps apart, for the benchmark and for previews: nothing is proved or written here.
Result<solid::Solid> plan_solid(const order::Order& order, const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
