#include "files/assimp_scene.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <assimp/Importer.hpp>
#include <cmath>

#include "files/file_kind.h"
#include "files/vertex_joiner.h"

namespace crownwright::files {
namespace {

constexpr int deepest_scene = 256;  // chosen; a scene of parts within parts has a handful

// glTF's metres with Y up to millimetres with Z up.
aiMatrix4x4 unit_of(const std::string& path) {
  if (const std::string kind = kind_of_name(path); kind != "glb" && kind != "gltf") return {};
  return {1000, 0, 0, 0, 0, 0, -1000, 0, 0, 1000, 0, 0, 0, 0, 0, 1};
}

class SceneReader {
 public:
  SceneReader(const aiScene& scene, const std::string& path, const ReadLimits& limits)
      : scene_(scene), path_(path), limits_(limits), joiner_(1024) {}

  Result<mesh::TriangleMesh> read() {
    if (scene_.mRootNode == nullptr) return file_fault(path_, "holds no mesh");
    if (const Result<Done> r = add_node(*scene_.mRootNode, unit_of(path_), 0); !r) return r.fault();
    if (mesh_.triangles.empty()) return file_fault(path_, "holds no triangles");
    mesh_.vertices = joiner_.take_vertices();
    return std::move(mesh_);
  }

 private:
  Result<Done> add_node(const aiNode& node, const aiMatrix4x4& above, int depth) {
    if (depth > deepest_scene) return file_fault(path_, "has parts nested too deeply", "at most 256");
    const aiMatrix4x4 place = above * node.mTransformation;
    for (unsigned i = 0; i < node.mNumMeshes; ++i) {
      if (const Result<Done> r = add_mesh(*scene_.mMeshes[node.mMeshes[i]], place); !r) return r;
    }
    for (unsigned i = 0; i < node.mNumChildren; ++i) {
      if (const Result<Done> r = add_node(*node.mChildren[i], place, depth + 1); !r) return r;
    }
    return Done{};
  }

  Result<Done> add_mesh(const aiMesh& part, const aiMatrix4x4& place) {
    for (unsigned i = 0; i < part.mNumFaces; ++i) {
      const aiFace& face = part.mFaces[i];
      if (face.mNumIndices != 3) continue;
      if (mesh_.triangles.size() == limits_.facets)
        return file_fault(path_, "has too many triangles",
                          "at most " + std::to_string(limits_.facets) + " are read");
      mesh::Triangle triangle{};
      for (unsigned k = 0; k < 3; ++k) {
        if (const Result<Done> r = add_corner(part, face.mIndices[k], place, triangle[k]); !r) return r;
      }
      mesh_.triangles.push_back(triangle);
    }
    return Done{};
  }

  Result<Done> add_corner(const aiMesh& part, unsigned index, const aiMatrix4x4& place,
                          std::uint32_t& corner) {
    const std::string facet = "facet " + std::to_string(mesh_.triangles.size() + 1);
    if (index >= part.mNumVertices) return file_fault(path_, facet + " names a vertex that is not there");
    const aiVector3D at = place * part.mVertices[index];
    if (!std::isfinite(at.x) || !std::isfinite(at.y) || !std::isfinite(at.z))
      return file_fault(path_, "a coordinate of " + facet + " is not a finite number");
    corner = joiner_.index_of({at.x, at.y, at.z});
    return Done{};
  }

  const aiScene& scene_;
  const std::string& path_;
  const ReadLimits& limits_;
  VertexJoiner joiner_;
  mesh::TriangleMesh mesh_;
};

}  // namespace

Result<mesh::TriangleMesh> read_with_assimp(const std::string& path, const ReadLimits& limits) {
  Assimp::Importer importer;
  const aiScene* const scene = importer.ReadFile(path, aiProcess_Triangulate);
  if (scene == nullptr)
    return file_fault(path, std::string("cannot be understood: ") + importer.GetErrorString());
  return SceneReader(*scene, path, limits).read();
}

}  // namespace crownwright::files
