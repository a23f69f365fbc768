#pragma once
// The form's parts, how they print and how they come out of the beret, as texts of JSON for the report.

#include <string>
#include <vector>

#include "making/form.h"

namespace crownwright::report {

/// [{"name", "file", "size_mm": [x, y, z], "volume_mm3", "mass_g", "place": 12 numbers from the part's file
/// to the form in 3MF's order, "way_up", "bed", "overhang_area_mm2", "first_layer_mm2", "stands",
/// "centre_mm", "printed_mass_g", "filament_m"}]. "file" is taken from `files` by its ending; null when it is
/// not among them.
std::string parts_json(const making::Form& form, const std::vector<std::string>& files);

/// {"overhang_area_mm2", "wall_min", "fits_bed", "bed_mm", "beds", "nozzle_mm", "infill", "vents", "joints":
/// {...} or null}.
std::string print_json(const making::Form& form);

/// {"order": [{"piece", "direction", "exit", "needed_girth", "opening_girth"}], "turning_swept": false};
/// "null" for pads.
std::string release_json(const making::Form& form);

/// {"sheets", "sheet_mm", "height_mm", "last_mm", "worst_step_mm", "worst_at_mm", "sheet_area_mm2",
/// "radii_mm": [...]}; "null" without a stack.
std::string stack_json(const making::Form& form);

}  // namespace crownwright::report
