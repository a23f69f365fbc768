#pragma once

#include "solid/solid.h"

namespace crownwright::making {

/// The outer face of a form, pole to foot: what must pass the opening, and what a turner makes.
meridian::Chain outer_face(const solid::Solid& solid);

}  // namespace crownwright::making
