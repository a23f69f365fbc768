#pragma once
// What the page offers to choose from: every key of an order, shapes, cloths, materials, printers.

#include <string>

#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::page {

/// Faults: a profile that cannot be read.
Result<std::string> workshop_json(const workshop::ProfileFolder& profiles);

}  // namespace crownwright::page
