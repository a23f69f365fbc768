#pragma once
// What the operating system said, as a fault that names the path.

#include <string>

#include "base/fault.h"

namespace crownwright::files {

/// "form.stl: cannot be written: No space left on device" with exit 4. `what` ends before the colon.
Fault system_fault(const std::string& path, const std::string& what, int error);

}  // namespace crownwright::files
