#pragma once
// The bytes of a 3MF package (3MF core specification 1.3): an Open Packaging archive with one model part, its
// relationships and, when given, a thumbnail. Every mesh stands once under its name and is placed as often as
// wanted. Millimetres. Same contents, same bytes.

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

struct ThreemfMesh {
  std::string name;
  std::shared_ptr<const mesh::TriangleMesh> mesh;
};

/// One thing to be printed: a mesh by its number, and where it stands on the bed.
struct ThreemfPlace {
  std::size_t part = 0;
  mesh::Placement place;
};

/// What is said about the package. Its designer never is: that is nobody's business but the user's.
struct ThreemfNotes {
  std::string title;
  std::string mark;                    ///< of the order, as in every other mesh file (maker_mark.h)
  std::string program_version;         ///< "1.2.0"
  std::optional<std::string> licence;  ///< of the design, as the user chose it
};

struct ThreemfContents {
  std::vector<ThreemfMesh> parts;
  std::vector<ThreemfPlace> items;
  ThreemfNotes notes;
  std::string thumbnail_png;  ///< the bytes of a PNG picture; empty: none
};

/// Preconditions (std::logic_error): is_mark(notes.mark) without "--"; at least one part and one item; names
/// given, once each; meshes writable (mesh_checks.h); every placement a turn and a move; every placed vertex
/// in the positive octant; no two placed boxes overlapping (they may touch). What rounding left less than a
/// nanometre below zero is lifted to zero.
std::vector<std::byte> threemf_bytes(const ThreemfContents& contents);

}  // namespace crownwright::files
