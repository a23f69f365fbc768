#pragma once
// The router's part of a report as a text of JSON.

#include <string>
#include <vector>

#include "making/form.h"

namespace crownwright::report {

/// {"gouge_max_mm", "scallop_max_mm", "scallop_999_mm", "rapids_in_stock", "cell_mm", "sampled": true,
/// "minutes", "material", "sheets", "sheet_mm", "sheet_size_mm": [x, y], "layers", "dowel_mm", "dowels",
/// "vents_drilled", "vents_by_hand", "setups": [{"name", "files", "tool", "programs": [{"file", "pass",
/// "tool", "minutes"}], "stock_min_mm": [x, y, z], "stock_max_mm", "face_down_z_mm", "flipped", "extent_mm",
/// "lowest_mm", "minutes"}], "glue_lines": [{"z", "r", "cutter_meets"}], "unreached": [{"r", "z", "mm",
/// "what"}], "path_mm", "air_mm", "cautions"}; "null" without [mill]. "files" are named as in `files`, by
/// their endings.
std::string mill_json(const making::Form& form, const std::vector<std::string>& files);

}  // namespace crownwright::report
