#include "files/mesh_writer.h"

#include <stdexcept>

#include "files/maker_mark.h"
#include "files/obj_ply_bytes.h"
#include "files/stl_bytes.h"

namespace crownwright::files {

void put_mesh(const mesh::TriangleMesh& mesh, MeshKind kind, std::string_view mark, ByteSink& sink) {
  switch (kind) {
    case MeshKind::stl:
      return put_stl(mesh, mark, sink);
    case MeshKind::stl_ascii:
      return put_stl_ascii(mesh, mark, sink);
    case MeshKind::obj:
      return put_obj(mesh, mark, sink);
    case MeshKind::ply:
      return put_ply(mesh, mark, sink);
    case MeshKind::ply_ascii:
      return put_ply_ascii(mesh, mark, sink);
  }
  throw std::logic_error("a kind of mesh file that does not exist");
}

Result<Done> write_mesh(const proof::Proven& proven, const std::string& path, MeshKind kind,
                        const std::string& mark, WriteRules rules) {
  if (!rules.is_ours) rules.is_ours = [&mark](const std::string& there) { return mark_of(there) == mark; };
  Result<std::unique_ptr<WholeFile>> file = WholeFile::create(path, std::move(rules));
  if (!file) return file.fault();
  put_mesh(proven.mesh(), kind, mark, **file);
  return (*file)->finish();
}

}  // namespace crownwright::files
