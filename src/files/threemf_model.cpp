#include "files/threemf_model.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <set>

#include "base/length.h"
#include "files/read_file.h"
#include "files/threemf_names.h"
#include "files/threemf_values.h"

// Every step returns false when it has found a fault; the first one stays. Objects may refer only to what
// stands before them (section 3.4), so their totals are known when they are read and nothing can go in
// circles or grow beyond the limits unseen.

namespace crownwright::files {
namespace {

using pugi::xml_node;

enum class ObjectKind { model, solidsupport, support, surface, other };

constexpr std::array<std::pair<std::string_view, ObjectKind>, 5> object_kinds{
    {{"model", ObjectKind::model},
     {"solidsupport", ObjectKind::solidsupport},
     {"support", ObjectKind::support},
     {"surface", ObjectKind::surface},
     {"other", ObjectKind::other}}};

constexpr std::array<std::pair<std::string_view, double>, 6> units_in_mm{{{"micron", 0.001},
                                                                          {"millimeter", 1},
                                                                          {"centimeter", 10},
                                                                          {"inch", 25.4},
                                                                          {"foot", 304.8},
                                                                          {"meter", 1000}}};

constexpr ThreemfTransform in_place{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};

struct Component {
  std::size_t object = 0;
  ThreemfTransform place = in_place;
};

struct ObjectRead {
  std::uint32_t id = 0;
  ObjectKind kind = ObjectKind::model;
  std::string name;
  mesh::TriangleMesh mesh;               // in the model's unit
  std::vector<Component> components;     // instead of a mesh
  std::size_t facets = 0, vertices = 0;  // with all its components
  bool holds_other = false;
  int depth = 1;
};

struct PropertyGroup {
  std::optional<std::size_t> count;  // not known of groups of other namespaces
};

mesh::Point3 transformed(const ThreemfTransform& m, const mesh::Point3& p) {
  return {p.x * m[0] + p.y * m[3] + p.z * m[6] + m[9], p.x * m[1] + p.y * m[4] + p.z * m[7] + m[10],
          p.x * m[2] + p.y * m[5] + p.z * m[8] + m[11]};
}

// First `a`, then `b`.
ThreemfTransform chained(const ThreemfTransform& a, const ThreemfTransform& b) {
  ThreemfTransform both{};
  for (std::size_t row = 0; row < 4; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      double sum = row == 3 ? b[9 + column] : 0;
      for (std::size_t k = 0; k < 3; ++k) sum += a[3 * row + k] * b[3 * k + column];
      both[3 * row + column] = sum;
    }
  }
  return both;
}

// The determinant over the product of the lengths of the rows: 1 for a turn, 0 when flat, below when
// mirrored.
double handedness(const ThreemfTransform& m) {
  const double determinant = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
                             m[2] * (m[3] * m[7] - m[4] * m[6]);
  const double lengths =
      std::hypot(m[0], m[1], m[2]) * std::hypot(m[3], m[4], m[5]) * std::hypot(m[6], m[7], m[8]);
  return lengths > 0 && std::isfinite(determinant / lengths) ? determinant / lengths : 0;
}

constexpr double flat = 1e-9;
constexpr double farthest = 1e6;        // of any number in the file, in its unit; chosen
constexpr double farthest_in_mm = 1e9;  // after components; chosen, so that items stay within float32

class ModelReading {
 public:
  ModelReading(const XmlPart& part, const std::function<bool(const std::string&)>& has_part,
               const ThreemfModelLimits& limits)
      : part_(part), has_part_(has_part), limits_(limits) {}

  Result<ThreemfModel> read() {
    if (!read_model(part_.root()) || !make_bodies()) return *fault_;
    return std::move(model_);
  }

 private:
  // ---- faults

  bool refuse(const xml_node& node, const std::string& what, const std::string& allowed = {}) {
    if (!fault_) fault_ = file_fault(part_.place_of(node), what, allowed);
    return false;
  }
  bool refuse_value(const xml_node& node, const char* name, const std::string& allowed) {
    return refuse(
        node,
        std::string(name) + "=\"" + node.attribute(name).value() + "\" of <" + node.name() + "> is not valid",
        allowed);
  }
  // Every facet may have its own corners.
  std::size_t most_vertices() const { return limits_.facets * 3; }
  bool too_many(const xml_node& node, const char* things, std::size_t most) {
    return refuse(node, std::string("holds too many ") + things,
                  std::string("at most ") + count_text(most) + " are read");
  }

  // ---- what the schema allows

  bool is_core(const xml_node& node) const { return part_.belongs_to(node, threemf::core_namespace); }

  // No attribute but the known ones, each at most once; those of other namespaces are passed over.
  bool attributes(const xml_node& node, std::initializer_list<std::string_view> known) {
    std::uint32_t seen = 0;
    for (const pugi::xml_attribute& attribute : node.attributes()) {
      const std::string_view name = attribute.name();
      if (name == "xmlns" || name.find(':') != std::string_view::npos) continue;
      const auto found = std::find(known.begin(), known.end(), name);
      if (found == known.end())
        return refuse(node,
                      std::string("<") + node.name() + "> has the unknown attribute " + std::string(name));
      const std::uint32_t bit = 1u << (found - known.begin());
      if ((seen & bit) != 0)
        return refuse(node,
                      std::string("<") + node.name() + "> has the attribute " + std::string(name) + " twice");
      seen |= bit;
    }
    return true;
  }

  bool required(const xml_node& node, const char* name) {
    if (node.attribute(name)) return true;
    return refuse(node, std::string("<") + node.name() + "> lacks the attribute " + name);
  }

  bool unexpected(const xml_node& child, const xml_node& parent) {
    if (child.type() != pugi::node_element)
      return refuse(child.type() == pugi::node_pcdata ? parent : child,
                    std::string("<") + parent.name() + "> holds text", "3MF has text in <metadata> alone");
    return refuse(child,
                  std::string("<") + child.name() + "> may not stand in <" + parent.name() + "> or not here");
  }

  // True for an element of another namespace, which is passed over.
  bool is_foreign(const xml_node& node) const { return node.type() == pugi::node_element && !is_core(node); }
  bool is(const xml_node& node, std::string_view name) const {
    return node.type() == pugi::node_element && local_name_of(node.name()) == name && is_core(node);
  }

  // ---- model

  bool read_model(const xml_node& root) {
    if (local_name_of(root.name()) != "model" || !is_core(root))
      return refuse(root, "the outermost element is no <model> of 3MF's core namespace",
                    std::string(threemf::core_namespace));
    if (!attributes(root, {"unit", "requiredextensions", "recommendedextensions", "thumbnail"})) return false;
    if (!read_unit(root) || !read_extensions(root)) return false;
    int stage = 0;  // metadata, resources, build: in this order
    for (const xml_node& child : root.children()) {
      const int its = is(child, "metadata") ? 0 : is(child, "resources") ? 1 : is(child, "build") ? 2 : -1;
      if (its < 0 && is_foreign(child)) continue;
      if (its < 0 || its < stage || (its == stage && its > 0)) return unexpected(child, root);
      if (its == 2 && stage == 0) return refuse(child, "the model has no <resources> before its <build>");
      if (!(its == 0   ? read_metadata(child, model_.metadata)
            : its == 1 ? read_resources(child)
                       : read_build(child)))
        return false;
      stage = its;
      if (its > 0) ++sections_;
    }
    if (sections_ == 2) return true;
    return refuse(root, stage == 1 ? "the model has no <build>" : "the model has no <resources>",
                  "one of each");
  }

  bool read_unit(const xml_node& root) {
    model_.unit = root.attribute("unit").as_string("millimeter");
    for (const auto& [name, mm] : units_in_mm) {
      if (model_.unit == name) scale_ = mm;
    }
    if (scale_ > 0) return true;
    return refuse_value(root, "unit", "micron, millimeter, centimeter, inch, foot or meter");
  }

  // Only the materials extension may be required: it changes colours and materials, never a shape.
  bool read_extensions(const xml_node& root) {
    const pugi::xml_attribute must_understand = find_must_understand(root);
    for (const char* list : {root.attribute("requiredextensions").value(), must_understand.value()}) {
      for (const std::string_view prefix : threemf_words(list)) {
        const std::string_view space = part_.namespace_of(root, prefix);
        if (space.empty())
          return refuse(
              root, std::string("the extension ") + std::string(prefix) + " is required but not declared");
        if (space != threemf::core_namespace && space != threemf::material_namespace)
          return refuse(
              root, std::string("needs the extension ") + std::string(space) + ", which is not known here",
              "the core specification and materials");
      }
    }
    return true;
  }

  // Markup compatibility (ECMA-376 part 3): MustUnderstand lists what may not be passed over.
  pugi::xml_attribute find_must_understand(const xml_node& root) const {
    for (const pugi::xml_attribute& attribute : root.attributes()) {
      const std::string_view name = attribute.name();
      if (local_name_of(name) == "MustUnderstand" &&
          part_.namespace_of(root, prefix_of(name)) ==
              "http://schemas.openxmlformats.org/markup-compatibility/2006")
        return attribute;
    }
    return {};
  }

  // ---- metadata

  bool read_metadata(const xml_node& node, std::vector<std::pair<std::string, std::string>>& list) {
    if (!attributes(node, {"name", "preserve", "type"}) || !required(node, "name")) return false;
    const std::string name = node.attribute("name").value();
    const std::string_view prefix = prefix_of(name);
    if (name.empty() || local_name_of(name).empty()) return refuse_value(node, "name", "a name");
    if (!prefix.empty() && part_.namespace_of(node, prefix).empty())
      return refuse(node, "the metadata " + name + " uses a prefix for which no namespace is declared");
    if (!metadata_names_.insert(name).second)
      return refuse(node, "the metadata " + name + " is given twice", "once each");
    std::string value;
    for (const xml_node& child : node.children()) {
      if (child.type() != pugi::node_pcdata && child.type() != pugi::node_cdata)
        return unexpected(child, node);
      value += child.value();
    }
    list.emplace_back(name, value);
    return true;
  }

  bool read_group(const xml_node& node) {
    if (!attributes(node, {})) return false;
    std::set<std::string> of_model;
    std::swap(of_model, metadata_names_);
    std::vector<std::pair<std::string, std::string>> ignored;
    bool good = true;
    for (const xml_node& child : node.children()) {
      good = good && (is(child, "metadata") ? read_metadata(child, ignored) : unexpected(child, node));
    }
    std::swap(of_model, metadata_names_);
    return good;
  }

  // ---- resources

  bool read_resources(const xml_node& node) {
    if (!attributes(node, {})) return false;
    for (const xml_node& child : node.children()) {
      if (is(child, "basematerials")) {
        if (!read_materials(child)) return false;
      } else if (is(child, "object")) {
        if (!read_object(child)) return false;
      } else if (is_foreign(child)) {
        if (!read_foreign_group(child)) return false;
      } else {
        return unexpected(child, node);
      }
    }
    return true;
  }

  bool read_id(const xml_node& node, std::uint32_t& id) {
    if (!required(node, "id")) return false;
    const auto value = threemf_id(node.attribute("id").value());
    if (!value) return refuse_value(node, "id", "1 to 2147483647");
    id = *value;
    if (ids_.insert(id).second) return true;
    return refuse(node, std::string("the resource id ") + std::to_string(id) + " is given twice",
                  "once each");
  }

  bool read_foreign_group(const xml_node& node) {
    if (!threemf_id(node.attribute("id").value())) return true;  // no resource that something could refer to
    std::uint32_t id = 0;
    if (!read_id(node, id)) return false;
    groups_[id] = {};
    return true;
  }

  bool read_materials(const xml_node& node) {
    std::uint32_t id = 0;
    if (!attributes(node, {"id"}) || !read_id(node, id)) return false;
    std::size_t count = 0;
    for (const xml_node& child : node.children()) {
      if (!is(child, "base")) return unexpected(child, node);
      if (!attributes(child, {"name", "displaycolor"}) || !required(child, "name") ||
          !required(child, "displaycolor"))
        return false;
      if (!is_threemf_colour(child.attribute("displaycolor").value()))
        return refuse_value(child, "displaycolor", "#RRGGBB or #RRGGBBAA");
      ++count;
    }
    if (count == 0) return refuse(node, "<basematerials> holds no material");
    groups_[id] = {count};
    return true;
  }

  // ---- properties

  struct Property {
    std::optional<std::uint32_t> group, index;
  };

  bool read_reference(const xml_node& node, const char* name, std::optional<std::uint32_t>& value) {
    const pugi::xml_attribute attribute = node.attribute(name);
    if (!attribute) return true;
    value = threemf_index(attribute.value());
    return value.has_value() || refuse_value(node, name, "0 to 2147483647");
  }

  bool judge_property(const xml_node& node, const Property& property, const char* name) {
    if (!property.group) {
      if (!property.index) return true;
      return refuse(node,
                    std::string(name) + " of <" + node.name() + "> is given without the pid it counts in");
    }
    const auto group = groups_.find(*property.group);
    if (group == groups_.end())
      return refuse(node, std::string("<") + node.name() + "> refers to the property group " +
                              std::to_string(*property.group) + ", which is not defined before it");
    if (property.index && group->second.count && *property.index >= *group->second.count)
      return refuse(node, std::string(name) + "=\"" + std::to_string(*property.index) +
                              "\" is beyond the property group " + std::to_string(*property.group));
    return true;
  }

  // ---- objects

  bool read_object(const xml_node& node) {
    if (!attributes(node, {"id", "type", "thumbnail", "partnumber", "name", "pid", "pindex"})) return false;
    ObjectRead object;
    if (!read_id(node, object.id) || !read_kind(node, object.kind) || !read_thumbnail(node)) return false;
    if (objects_.size() == limits_.objects) return too_many(node, "objects", limits_.objects);
    object.name = node.attribute("name").value();
    if (object.name.empty()) object.name = std::string("object ") + std::to_string(object.id);
    object.holds_other = object.kind == ObjectKind::other;
    Property property;
    if (!read_reference(node, "pid", property.group) || !read_reference(node, "pindex", property.index))
      return false;
    if (!judge_property(node, property, "pindex")) return false;
    if (!read_content(node, object, property)) return false;
    by_id_[object.id] = objects_.size();
    objects_.push_back(std::move(object));
    return true;
  }

  bool read_kind(const xml_node& node, ObjectKind& kind) {
    const std::string_view type = node.attribute("type").as_string("model");
    for (const auto& [name, value] : object_kinds) {
      if (type != name) continue;
      kind = value;
      return true;
    }
    return refuse_value(node, "type", "model, solidsupport, support, surface or other");
  }

  bool read_thumbnail(const xml_node& node) {
    const std::string name = node.attribute("thumbnail").value();
    if (name.empty()) return true;
    if (name.front() != '/') return refuse_value(node, "thumbnail", "a part's name, which begins with /");
    return has_part_(name) || refuse(node, "the thumbnail " + name + " is not in the package");
  }

  bool read_content(const xml_node& node, ObjectRead& object, const Property& property) {
    bool has_group = false, has_content = false;
    for (const xml_node& child : node.children()) {
      if (is(child, "metadatagroup") && !has_group && !has_content) {
        has_group = true;
        if (!read_group(child)) return false;
      } else if ((is(child, "mesh") || is(child, "components")) && !has_content) {
        has_content = true;
        if (!(is(child, "mesh") ? read_mesh_of(child, object, property)
                                : read_components(child, object, property)))
          return false;
      } else if (!is_foreign(child)) {
        return unexpected(child, node);
      }
    }
    return has_content || refuse(node, std::string("object ") + std::to_string(object.id) +
                                           " has neither a mesh nor components");
  }

  // ---- meshes

  bool read_mesh_of(const xml_node& node, ObjectRead& object, const Property& property) {
    if (!attributes(node, {})) return false;
    int stage = 0;
    for (const xml_node& child : node.children()) {
      if (stage == 0 && is(child, "vertices")) {
        if (!read_vertices(child, object.mesh)) return false;
        stage = 1;
      } else if (stage == 1 && is(child, "triangles")) {
        if (!read_triangles(child, object, property)) return false;
        stage = 2;
      } else if (!is_foreign(child)) {
        return unexpected(child, node);
      }
    }
    object.facets = object.mesh.triangles.size();
    object.vertices = object.mesh.vertices.size();
    return stage == 2 || refuse(node, "<mesh> lacks its <vertices> or its <triangles>");
  }

  bool read_vertices(const xml_node& node, mesh::TriangleMesh& mesh) {
    if (!attributes(node, {})) return false;
    for (const xml_node& child : node.children()) {
      if (!is(child, "vertex")) return unexpected(child, node);
      mesh::Vertex vertex;
      if (!attributes(child, {"x", "y", "z"}) || !read_coordinate(child, "x", vertex.x) ||
          !read_coordinate(child, "y", vertex.y) || !read_coordinate(child, "z", vertex.z))
        return false;
      if (++vertices_ > most_vertices()) return too_many(child, "vertices", most_vertices());
      mesh.vertices.push_back(vertex);
    }
    return mesh.vertices.size() >= 3 || refuse(node, "<vertices> holds fewer than three");
  }

  bool read_coordinate(const xml_node& node, const char* name, float& coordinate) {
    if (!required(node, name)) return false;
    const std::optional<double> number = threemf_number(node.attribute(name).value());
    if (!number || std::abs(*number) > farthest)
      return refuse_value(node, name, "a decimal number from -1000000 to 1000000");
    coordinate = static_cast<float>(*number) + 0.0f;  // -0 + 0 = 0
    return true;
  }

  bool read_triangles(const xml_node& node, ObjectRead& object, const Property& property) {
    if (!attributes(node, {})) return false;
    for (const xml_node& child : node.children()) {
      if (!is(child, "triangle")) return unexpected(child, node);
      if (!attributes(child, {"v1", "v2", "v3", "p1", "p2", "p3", "pid"})) return false;
      mesh::Triangle triangle{};
      if (!read_corners(child, object.mesh.vertices.size(), triangle)) return false;
      if (!judge_triangle_property(child, property)) return false;
      if (++facets_ > limits_.facets) return too_many(child, "triangles", limits_.facets);
      object.mesh.triangles.push_back(triangle);
    }
    const std::size_t least = object.kind == ObjectKind::model ? 4 : 1;
    return object.mesh.triangles.size() >= least ||
           refuse(node, std::string("<triangles> holds only ") + count_text(object.mesh.triangles.size()),
                  std::string("at least ") + count_text(least));
  }

  bool read_corners(const xml_node& node, std::size_t vertices, mesh::Triangle& triangle) {
    constexpr std::array<const char*, 3> names{"v1", "v2", "v3"};
    for (std::size_t k = 0; k < 3; ++k) {
      if (!required(node, names[k])) return false;
      const auto corner = threemf_index(node.attribute(names[k]).value());
      if (!corner) return refuse_value(node, names[k], "0 to 2147483647");
      if (*corner >= vertices)
        return refuse(
            node,
            std::string(names[k]) + "=\"" + std::to_string(*corner) + "\" names a vertex that is not there",
            std::string("0 to ") + std::to_string(vertices - 1));
      triangle[k] = *corner;
    }
    if (triangle[0] != triangle[1] && triangle[1] != triangle[2] && triangle[2] != triangle[0]) return true;
    return refuse(node, "a triangle names the same vertex twice", "three distinct ones");
  }

  bool judge_triangle_property(const xml_node& node, const Property& of_object) {
    Property property;
    std::optional<std::uint32_t> second, third;
    if (!read_reference(node, "pid", property.group) || !read_reference(node, "p1", property.index) ||
        !read_reference(node, "p2", second) || !read_reference(node, "p3", third))
      return false;
    if (!property.group && !property.index && !second && !third) return true;
    if (!property.group) property.group = of_object.group;
    if (!judge_property(node, property, "p1")) return false;
    if (!of_object.group || !of_object.index)
      return refuse(node, "a triangle has properties, but its object has no pid and pindex for the others");
    const auto group = groups_.find(property.group.value_or(0));
    if (group == groups_.end() || !group->second.count) return true;
    if ((second && second != property.index) || (third && third != property.index))
      return refuse(node, "a triangle blends base materials", "p1, p2 and p3 alike");
    return true;
  }

  // ---- components

  bool read_components(const xml_node& node, ObjectRead& object, const Property& property) {
    if (!attributes(node, {})) return false;
    if (property.group || property.index)
      return refuse(node.parent(), "an object of components has properties of its own",
                    "they belong to its components");
    for (const xml_node& child : node.children()) {
      if (!is(child, "component")) return unexpected(child, node);
      if (!attributes(child, {"objectid", "transform"})) return false;
      for (const xml_node& inner : child.children()) {
        if (!is_foreign(inner)) return unexpected(inner, child);
      }
      Component component;
      if (!read_target(child, component.object) || !read_transform(child, component.place)) return false;
      if (++components_ > limits_.components) return too_many(child, "components", limits_.components);
      object.components.push_back(component);
      if (!add_up(child, object, objects_[component.object])) return false;
    }
    return !object.components.empty() || refuse(node, "<components> holds none");
  }

  // What holds its parts' totals is within the limits as soon as they are.
  bool add_up(const xml_node& node, ObjectRead& object, const ObjectRead& inner) {
    object.facets += inner.facets;
    object.vertices += inner.vertices;
    object.holds_other = object.holds_other || inner.holds_other;
    object.depth = std::max(object.depth, inner.depth + 1);
    if (object.facets > limits_.facets)
      return too_many(node, "triangles, components counted", limits_.facets);
    if (object.vertices > most_vertices())
      return too_many(node, "vertices, components counted", most_vertices());
    if (object.depth <= limits_.depth) return true;
    return refuse(node, "components are nested too deeply",
                  std::string("at most ") + std::to_string(limits_.depth));
  }

  bool read_target(const xml_node& node, std::size_t& object) {
    if (!required(node, "objectid")) return false;
    const auto id = threemf_id(node.attribute("objectid").value());
    if (!id) return refuse_value(node, "objectid", "1 to 2147483647");
    const auto found = by_id_.find(*id);
    if (found == by_id_.end())
      return refuse(node, std::string("<") + node.name() + "> refers to object " + std::to_string(*id) +
                              ", which is not defined before it");
    object = found->second;
    return true;
  }

  bool read_transform(const xml_node& node, ThreemfTransform& place) {
    const pugi::xml_attribute attribute = node.attribute("transform");
    if (!attribute) return true;
    const auto matrix = threemf_matrix(attribute.value());
    const auto is_far = [](double number) { return std::abs(number) > farthest; };
    if (!matrix || std::any_of(matrix->begin(), matrix->end(), is_far))
      return refuse_value(node, "transform", "twelve decimal numbers from -1000000 to 1000000");
    place = *matrix;
    const double hand = handedness(place);
    const std::string what = std::string("the transform of <") + node.name() + "> ";
    if (std::abs(hand) < flat) return refuse(node, what + "flattens what it places");
    if (hand < 0) return refuse(node, what + "mirrors what it places", "a determinant above 0");
    return true;
  }

  // ---- build

  bool read_build(const xml_node& node) {
    if (!attributes(node, {})) return false;
    for (const xml_node& child : node.children()) {
      if (!is(child, "item")) return unexpected(child, node);
      if (!read_item(child)) return false;
    }
    return !model_.items.empty() || refuse(node, "the build holds no item", "at least one");
  }

  bool read_item(const xml_node& node) {
    if (!attributes(node, {"objectid", "transform", "partnumber"})) return false;
    for (const xml_node& child : node.children()) {
      if (is_foreign(child)) continue;
      if (!is(child, "metadatagroup")) return unexpected(child, node);
      if (!read_group(child)) return false;
    }
    ThreemfItem item;
    std::size_t object = 0;
    if (!read_target(node, object) || !read_transform(node, item.place)) return false;
    if (objects_[object].holds_other)
      return refuse(node, std::string("<item> builds object ") + std::to_string(objects_[object].id) +
                              ", which is or holds one of type other");
    built_facets_ += objects_[object].facets;
    built_vertices_ += objects_[object].vertices;
    if (built_facets_ > limits_.facets)
      return too_many(node, "triangles, every item counted", limits_.facets);
    if (built_vertices_ > most_vertices())
      return too_many(node, "vertices, every item counted", most_vertices());
    if (model_.items.size() == limits_.items) return too_many(node, "items", limits_.items);
    item.body = body_of(object);
    item.part_number = node.attribute("partnumber").value();
    for (std::size_t k = 9; k < 12; ++k) item.place[k] *= scale_;
    model_.items.push_back(std::move(item));
    return true;
  }

  std::size_t body_of(std::size_t object) {
    const auto [found, is_new] = bodies_.emplace(object, bodies_.size());
    if (is_new) body_objects_.push_back(object);
    return found->second;
  }

  // ---- bodies

  bool make_bodies() {
    std::size_t solid = 0;
    for (const std::size_t index : body_objects_) {
      const ObjectRead& object = objects_[index];
      ThreemfBody body{object.name, object.id, {}, 0};
      if (!add_object(object, in_place, body))
        return refuse(part_.root(),
                      std::string("object ") + std::to_string(object.id) + " reaches too far out");
      solid += body.mesh.triangles.size();
      model_.bodies.push_back(std::move(body));
    }
    return solid > 0 || refuse(part_.root(), "nothing in the build is a solid", "an item of type model");
  }

  bool add_object(const ObjectRead& object, const ThreemfTransform& place, ThreemfBody& body) const {
    for (const Component& component : object.components) {
      if (!add_object(objects_[component.object], chained(component.place, place), body)) return false;
    }
    if (!object.components.empty()) return true;
    if (object.kind != ObjectKind::model && object.kind != ObjectKind::solidsupport) {
      body.loose += object.mesh.triangles.size();
      return true;
    }
    const auto first = static_cast<std::uint32_t>(body.mesh.vertices.size());
    for (const mesh::Vertex& v : object.mesh.vertices) {
      const mesh::Point3 p = transformed(place, {v.x, v.y, v.z});
      const auto mm = [this](double value) { return static_cast<float>(value * scale_) + 0.0f; };
      body.mesh.vertices.push_back({mm(p.x), mm(p.y), mm(p.z)});
      if (!is_near(body.mesh.vertices.back())) return false;
    }
    for (const mesh::Triangle& t : object.mesh.triangles)
      body.mesh.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
    return true;
  }

  static bool is_near(const mesh::Vertex& v) {
    const auto near = [](float value) { return std::abs(value) <= farthest_in_mm; };  // false for NaN
    return near(v.x) && near(v.y) && near(v.z);
  }

  const XmlPart& part_;
  const std::function<bool(const std::string&)>& has_part_;
  const ThreemfModelLimits& limits_;
  std::optional<Fault> fault_;
  ThreemfModel model_;
  double scale_ = 0;
  int sections_ = 0;
  std::set<std::string> metadata_names_;
  std::set<std::uint32_t> ids_;
  std::map<std::uint32_t, PropertyGroup> groups_;
  std::map<std::uint32_t, std::size_t> by_id_;
  std::vector<ObjectRead> objects_;
  std::size_t vertices_ = 0, facets_ = 0, components_ = 0, built_facets_ = 0, built_vertices_ = 0;
  std::map<std::size_t, std::size_t> bodies_;
  std::vector<std::size_t> body_objects_;
};

}  // namespace

Result<ThreemfModel> read_threemf_model(const XmlPart& part,
                                        const std::function<bool(const std::string&)>& has_part,
                                        const ThreemfModelLimits& limits) {
  return ModelReading(part, has_part, limits).read();
}

mesh::TriangleMesh placed_body(const ThreemfModel& model, const ThreemfItem& item) {
  mesh::TriangleMesh placed = model.bodies.at(item.body).mesh;
  for (mesh::Vertex& v : placed.vertices) {
    const mesh::Point3 p = transformed(item.place, {v.x, v.y, v.z});
    v = {static_cast<float>(p.x) + 0.0f, static_cast<float>(p.y) + 0.0f, static_cast<float>(p.z) + 0.0f};
  }
  return placed;
}

}  // namespace crownwright::files
