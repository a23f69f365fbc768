#pragma once
// A mesh file of any known kind. STL and 3MF go through our own readers; every other kind through Assimp,
// whose readers may crash on damaged files and therefore run in a child process with limits of time and
// memory.
//
// Kinds: stl, obj, ply, off, 3mf, glb, gltf; by the file name's ending, or by content for an STL or 3MF of
// another name. All of a file's meshes are read as one, each moved by its place in the file's scene. Lines
// and points are left out; facets of more corners are cut into triangles. Units: glTF is metres with Y up
// (glTF 2.0, 3.4) and becomes millimetres with Z up; 3MF says its unit; every other kind is taken as
// millimetres.

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

#include "base/result.h"
#include "files/read_file.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

struct MeshReadRules {
  ReadLimits limits;
  std::chrono::milliseconds time{30'000};  ///< by the clock on the wall, chosen
  std::uint32_t cpu_seconds = 20;          ///< chosen
  std::uint64_t memory = 2'000'000'000;    ///< bytes of address space, chosen; not under AddressSanitizer
  std::string reader_program = "/proc/self/exe";  ///< a program whose main calls run_as_reader_child first
};

/// Faults (exit 4) name the file: unreadable, unknown kind, damaged, without triangles, beyond a limit, or
/// its reader died. Triangles without area are kept; corners are joined as by the STL reader.
Result<mesh::TriangleMesh> read_mesh(const std::string& path, const MeshReadRules& rules = {});

/// To be called first in main: when the program was started as a reader's child, does that work and gives the
/// exit code to end with; else nothing.
std::optional<int> run_as_reader_child(int argc, const char* const* argv);

}  // namespace crownwright::files
