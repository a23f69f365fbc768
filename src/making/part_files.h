#pragma once
// The form's parts as files: each as it is printed, all together for the printer, all together to look at.

#include <string>
#include <vector>

#include "base/result.h"
#include "files/whole_file.h"
#include "making/form.h"

namespace crownwright::making {

/// In this order: ".part-1.stl" and so on where the form is in parts, ".3mf" with all of them on their beds
/// side by side, ".plate-1.3mf" and so on where they need several beds, ".glb" with all in their places.
std::vector<std::string> part_endings(const Form& form);

/// Ending of the file that holds this part (from 0): ".part-1.stl", or the form's own.
std::string part_ending(const Form& form, std::size_t part);

/// Writes them to `base` and ending. Faults as files::write_mesh; files before the fault are there, whole.
Result<Done> write_part_files(const Form& form, const std::string& base, const files::WriteRules& rules);

}  // namespace crownwright::making
