#pragma once
// What of a solid's walks plays a given part, and how far the whole reaches.

#include <initializer_list>

#include "meridian/extent.h"
#include "solid/solid.h"

namespace crownwright::solid {

/// The segments of these roles, shell by shell along the walk; empty where there are none.
meridian::Chain with_roles(const Solid& solid, std::initializer_list<Role> roles);

/// Radius and height of the whole form: all shells. Precondition: it has a shell (else std::logic_error).
meridian::Extent extent_of(const Solid& solid);

}  // namespace crownwright::solid
