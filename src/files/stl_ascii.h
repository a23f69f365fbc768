#pragma once
// The ASCII form of STL, read strictly.

#include <string>
#include <string_view>

#include "base/result.h"
#include "files/read_file.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Grammar (words in either case, blanks and line ends between them):
///   { "solid" rest-of-line { "facet" "normal" n n n "outer" "loop" 3 x { "vertex" n n n } "endloop"
///   "endfacet" }
///     "endsolid" rest-of-line } at least once.
/// Faults (exit 4) name the file and the line, what was expected and what stands there.
Result<mesh::TriangleMesh> parse_stl_ascii(std::string_view text, const std::string& name,
                                           const ReadLimits& limits);

}  // namespace crownwright::files
