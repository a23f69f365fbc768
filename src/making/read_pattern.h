#pragma once
// The pattern someone has: stations, a drawing, or disc and ring; and the beret it sews up to.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "meridian/beret.h"
#include "order/order.h"
#include "pattern/drawn_panel.h"
#include "pattern/parallels.h"
#include "pattern/read.h"
#include "pattern/solve.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct ReadPattern {
  meridian::BeretValues values;              ///< of the cloth's middle, as the pattern says, before any steam
  pattern::Parallels cloth;                  ///< the cloth's own girth at every distance from the tip
  std::optional<pattern::PanelNet> net;      ///< of panels
  std::optional<pattern::DrawnPanel> drawn;  ///< of panels
  std::optional<pattern::PanelFit> fit;      ///< of panels: residuals, one sigma, the three length laws
  std::vector<std::string> warnings;
};

/// Nothing when the order has no pattern of its own ([pattern] kind). Faults: order (unknown profile, the
/// drawing or stations are wrong, with the place), file (the drawing cannot be read), impossible (no beret is
/// near it, saying why and where).
Result<std::optional<ReadPattern>> read_pattern(const order::Order& order,
                                                const workshop::ProfileFolder& profiles);

pattern::LengthAlong length_along(const order::Order& order);

/// "the drawing" in messages: the file's name, or "pattern.stations".
std::string pattern_place(const order::Order& order);

}  // namespace crownwright::making
