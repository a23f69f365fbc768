#pragma once
// What is planned of a form before any triangle is laid: its values, its solid, and what follows from both in
// closed form. Shared by the form that is made and by its preview.

#include <string>
#include <vector>

#include "base/result.h"
#include "making/form.h"
#include "making/values.h"
#include "order/order.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct PlannedForm {
  SolvedValues solved;
  solid::Solid solid;
};

/// Faults: order (unknown profile), impossible (with the nearest), file (dish mesh).
Result<PlannedForm> planned_form(const order::Order& order, const workshop::ProfileFolder& profiles);

/// The block as it looks from outside: massive, without vents. Precondition: a block that was planned. Faults
/// as planned_form.
Result<solid::Solid> massive_block(const order::Order& order, const PlannedForm& planned);

/// Lengths along the pressing face, from the walk as it was before a vent at the pole was cut.
FormFigures planned_figures(const order::Order& order, const PlannedForm& planned);

VentFigures planned_vents(const solid::Solid& solid);

/// The mass of `volume` mm3. Fault (order): unknown material.
Result<MaterialFigures> planned_material(const order::Order& order, double volume,
                                         const workshop::ProfileFolder& profiles);

/// What the order leaves open about cloth and vents.
std::vector<std::string> planned_warnings(const order::Order& order, const PlannedForm& planned);

}  // namespace crownwright::making
