#pragma once
// The turner's template of a form: half profile at true size with dimensions.

#include <vector>

#include "making/extra_files.h"
#include "order/order.h"
#include "solid/solid.h"

namespace crownwright::making {

/// .profile.svg and .profile.dxf of the form's outside.
std::vector<ExtraFile> profile_files(const order::Order& order, const solid::Solid& solid);

}  // namespace crownwright::making
