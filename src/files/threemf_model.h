#pragma once
// The model part of a 3MF package: its build, its objects and their meshes, judged by the 3MF core
// specification 1.3, chapters 3 to 5. Markup of other namespaces is passed over unless it is required.

#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "files/xml_part.h"
#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Chosen: twenty times what a large package of ours holds.
struct ThreemfModelLimits {
  std::size_t facets = 2'000'000;  ///< of all meshes together, and of all items as placed
  std::size_t objects = 10'000;
  std::size_t items = 10'000;
  std::size_t components = 100'000;
  int depth = 32;  ///< of components within components
};

/// Twelve numbers in 3MF's order, see mesh/placement.h; unlike a Placement it may stretch. Millimetres.
using ThreemfTransform = std::array<double, 12>;

/// An object of the build, with all its components, in its own place.
struct ThreemfBody {
  std::string name;          ///< "object 3" when it has none
  std::uint32_t object = 0;  ///< its id
  mesh::TriangleMesh mesh;   ///< mm; meshes of type model and solidsupport
  std::size_t loose = 0;     ///< facets of type support and surface, which need not be closed, left out
};

struct ThreemfItem {
  std::size_t body = 0;
  ThreemfTransform place{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};
  std::string part_number;
};

struct ThreemfModel {
  std::vector<ThreemfBody> bodies;  ///< every object that is built, once
  std::vector<ThreemfItem> items;   ///< at least one
  std::vector<std::pair<std::string, std::string>> metadata;
  std::string unit;
};

/// The body as it stands on the bed.
mesh::TriangleMesh placed_body(const ThreemfModel& model, const ThreemfItem& item);

/// `has_part` is asked whether a part ("/3D/a.png") is in the package. Faults (exit 4) name the line: what
/// the schema does not allow or misses, unknown unit or object type, required extensions that are not known,
/// metadata or ids given twice, references to what is not there or comes later (so there are no circles),
/// items of type other, properties without their group, corners that are no vertex or not distinct, numbers
/// that are none or not finite, a transform that mirrors or flattens, a build without items or without a
/// solid, beyond a limit.
Result<ThreemfModel> read_threemf_model(const XmlPart& part,
                                        const std::function<bool(const std::string&)>& has_part,
                                        const ThreemfModelLimits& limits = {});

}  // namespace crownwright::files
