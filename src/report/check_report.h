#pragma once
// What `crownwright check` found in a mesh file.

#include <string>

#include "mesh/triangle_mesh.h"
#include "proof/any_mesh.h"
#include "report/paint.h"

namespace crownwright::report {

struct CheckedFile {
  std::string file;
  std::size_t triangles = 0, vertices = 0;
  proof::Verdict verdict;
  proof::Extent extent;
};

/// JSON object with the keys file, units, passed, checks, triangles, vertices, shells, genus, size,
/// volume_mm3, area_mm2.
std::string check_json(const CheckedFile& checked);

/// The same for a person: one line a check.
std::string check_text(const CheckedFile& checked, Paint paint);

/// "faces do not cross: 3 pairs ...": the first check that failed, or nothing.
std::string first_failure(const proof::Verdict& verdict);

}  // namespace crownwright::report
