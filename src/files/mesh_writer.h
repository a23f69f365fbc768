#pragma once
// A proven mesh to a file. A mesh without its proof cannot be written: proof::Proven is only made by the
// prover.

#include <string>

#include "base/result.h"
#include "files/byte_sink.h"
#include "files/whole_file.h"
#include "proof/proven.h"

namespace crownwright::files {

enum class MeshKind { stl, stl_ascii, obj, ply, ply_ascii };

/// The bytes of the file; the same for the same mesh, kind and mark. Preconditions: see stl_bytes.h.
void put_mesh(const mesh::TriangleMesh& mesh, MeshKind kind, std::string_view mark, ByteSink& sink);

/// Writes the proven mesh with the mark (maker_mark.h) in its header. When `rules.is_ours` is empty a file
/// that bears the same mark is ours. Faults as WholeFile's.
Result<Done> write_mesh(const proof::Proven& proven, const std::string& path, MeshKind kind,
                        const std::string& mark, WriteRules rules = {});

}  // namespace crownwright::files
