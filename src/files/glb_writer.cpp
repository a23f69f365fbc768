#include "files/glb_writer.h"

#include "files/maker_mark.h"

namespace crownwright::files {

// The empty owner makes a pointer that owns nothing.
GlbPart::GlbPart(std::string name, const proof::Proven& proven, const mesh::Placement& place)
    : mesh_{std::move(name),
            std::shared_ptr<const mesh::TriangleMesh>(std::shared_ptr<void>(), &proven.mesh()), place} {}

Result<Done> write_glb(const std::vector<GlbPart>& parts, const std::string& path, const std::string& mark,
                       WriteRules rules) {
  if (!rules.is_ours) rules.is_ours = [&mark](const std::string& there) { return mark_of(there) == mark; };
  std::vector<GlbMesh> meshes;
  for (const GlbPart& part : parts) meshes.push_back(part.placed_mesh());
  const std::vector<std::byte> bytes = glb_bytes(meshes, mark);
  Result<std::unique_ptr<WholeFile>> file = WholeFile::create(path, std::move(rules));
  if (!file) return file.fault();
  (*file)->append(bytes);
  return (*file)->finish();
}

}  // namespace crownwright::files
