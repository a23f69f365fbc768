#pragma once
// What a reader's child process says to its parent: one mesh or one fault, as bytes.
// The parent believes none of it: sizes, indices and coordinates are checked again.

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "files/read_file.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

std::vector<std::byte> child_message(const Result<mesh::TriangleMesh>& outcome);

/// The longest message that can carry a mesh within the limits.
std::size_t longest_message(const ReadLimits& limits);

/// Fault (exit 4, naming `path`) when the child sent one, or when the message is not whole and right.
Result<mesh::TriangleMesh> understand_message(std::span<const std::byte> message, const std::string& path);

}  // namespace crownwright::files
