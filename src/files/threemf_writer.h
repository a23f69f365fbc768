#pragma once
// Proven meshes to a 3MF package. A mesh without its proof cannot be written: a part is made from a
// proof::Proven and from nothing else.

#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "files/threemf_bytes.h"
#include "files/whole_file.h"
#include "proof/proven.h"

namespace crownwright::files {

class ThreemfPart {
 public:
  /// Keeps a reference: `proven` must outlive the part.
  ThreemfPart(std::string name, const proof::Proven& proven);
  ThreemfPart(std::string name, proof::Proven&& proven) = delete;

  const ThreemfMesh& named_mesh() const { return mesh_; }

 private:
  ThreemfMesh mesh_;
};

struct ThreemfPackage {
  std::vector<ThreemfPart> parts;
  std::vector<ThreemfPlace> items;
  ThreemfNotes notes;
  std::string thumbnail_png;
};

/// Whole or not at all. Preconditions as threemf_bytes. When `rules.is_ours` is empty a file that bears the
/// same mark is ours. Faults as WholeFile's.
Result<Done> write_threemf(const ThreemfPackage& package, const std::string& path, WriteRules rules = {});

}  // namespace crownwright::files
