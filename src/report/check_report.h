#pragma once
// What `crownwright check` found in a mesh file.

#include <string>
#include <vector>

#include "mesh/triangle_mesh.h"
#include "proof/any_mesh.h"
#include "report/paint.h"

namespace crownwright::report {

/// One of the things a package places on the bed.
struct CheckedItem {
  std::string name;
  std::size_t triangles = 0, vertices = 0;
  proof::Verdict verdict;
  proof::Extent extent;
};

struct CheckedFile {
  std::string file;
  std::size_t triangles = 0, vertices = 0;
  proof::Verdict verdict;
  proof::Extent extent;
  std::vector<CheckedItem> items{};  ///< of a package; empty for a file of one mesh
};

/// A package as a whole: passed when every item is. Its verdict has every check once, with what the first
/// item that failed it found. `extent` is that of all items where they stand.
CheckedFile checked_package(const std::string& file, std::vector<CheckedItem> items,
                            const proof::Extent& extent);

/// JSON object with the keys file, units, passed, checks, triangles, vertices, shells, genus, size,
/// volume_mm3, area_mm2; for a package also items, a list of objects with the key name and the same others
/// but file and units.
std::string check_json(const CheckedFile& checked);

/// The same for a person: one line a check.
std::string check_text(const CheckedFile& checked, Paint paint);

/// "faces do not cross: 3 pairs ...": the first check that failed, or nothing.
std::string first_failure(const proof::Verdict& verdict);

}  // namespace crownwright::report
