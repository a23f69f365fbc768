#pragma once
// Printers by the size of their bed: generic classes, no makes.

#include <string>
#include <vector>

#include "base/length.h"
#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

struct PrinterProfile {
  std::string name;
  std::string summary;
  Sourced<Length> width;   ///< of the bed, along x
  Sourced<Length> depth;   ///< of the bed, along y
  Sourced<Length> height;  ///< greatest height of a print
  Sourced<Length> nozzle;  ///< diameter of its opening: the width of a printed line
};

/// profiles/printers/<name>.toml. Faults as in find_shape.
Result<PrinterProfile> find_printer(const ProfileFolder& folder, const std::string& name);
Result<std::vector<PrinterProfile>> list_printers(const ProfileFolder& folder);

}  // namespace crownwright::workshop
