#pragma once
// Proven meshes to a GLB file, for looking at.

#include <string>
#include <vector>

#include "base/result.h"
#include "files/glb_bytes.h"
#include "files/whole_file.h"
#include "mesh/placement.h"
#include "proof/proven.h"

namespace crownwright::files {

class GlbPart {
 public:
  /// Keeps a reference: `proven` must outlive the part.
  GlbPart(std::string name, const proof::Proven& proven, const mesh::Placement& place = {});
  GlbPart(std::string name, proof::Proven&& proven, const mesh::Placement& place = {}) = delete;

  const GlbMesh& placed_mesh() const { return mesh_; }

 private:
  GlbMesh mesh_;
};

/// Whole or not at all. Preconditions as glb_bytes. When `rules.is_ours` is empty a file that bears the same
/// mark is ours. Faults as WholeFile's.
Result<Done> write_glb(const std::vector<GlbPart>& parts, const std::string& path, const std::string& mark,
                       WriteRules rules = {});

}  // namespace crownwright::files
