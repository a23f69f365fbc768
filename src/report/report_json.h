#pragma once
// The report of a form for other programs: <stem>.report.json.

#include <string>
#include <vector>

#include "making/form.h"

namespace crownwright::report {

/// A JSON object with two spaces of indent, ending in a line end. Lengths mm, areas mm2, volumes mm3, angles
/// degrees, mass g. Keys, in this order: name, kind, units, made_by, ordered, form, measured, mesh, proof,
/// vents, material, parts, print, release, stack, heat, steam, stiffness, pattern, fit, warnings, files.
/// `ordered` is what was written and what was taken by default, each table of the order an object, [measure]
/// itself above them; `form` the closed-form figures; `measured` what was read back from the triangles, never
/// a copy of `form`. What does not apply to a form (a pad's head girth, a solid's wall) is null. Same form
/// and files, same bytes. Texts that are not UTF-8 (file names) come out with U+FFFD.
std::string report_json(const making::Form& form, const std::vector<std::string>& files);

}  // namespace crownwright::report
