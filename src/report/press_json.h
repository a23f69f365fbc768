#pragma once
// What steam, iron and press do to the form, as texts of JSON for the report.

#include <string>

#include "making/pressed.h"

namespace crownwright::report {

/// {"verdict": "fit"|"risk"|"no", "asked", "material", "job_c", "standing_c", "limit_c", "limit_measure",
/// "limit_source", "reason", "instead": [...], "cautions": [...]}; limits null where none is known.
std::string heat_json(const making::Pressed& pressed);

/// {"speed_m_s", "pressure_pa", "enough", "warnings"}; the figures null without vents.
std::string steam_json(const making::Pressed& pressed);

/// {"deflection_mm", "formula", "at_c", "grade", "plate_radius_mm", "least_wall_mm", "least_dome_mm",
/// "posts"}; "null" where the crown is not a wall or nothing is known of the material.
std::string stiffness_json(const making::Pressed& pressed);

}  // namespace crownwright::report
