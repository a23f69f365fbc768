#include "files/threemf_parts.h"

#include <algorithm>
#include <pugixml.hpp>
#include <set>

#include "base/ascii.h"
#include "files/read_file.h"
#include "files/threemf_names.h"
#include "files/xml_part.h"

namespace crownwright::files {
namespace {

constexpr XmlLimits small_part{1'000'000, 20'000, 100'000, 8};  // chosen: these parts have a few lines

struct Relationship {
  std::string id, type, target;  // target: name in the archive, without the first slash
  std::string place;
};

Result<XmlPart> read_small_part(const ZipReader& zip, std::string_view name, const std::string& where) {
  const std::optional<std::size_t> entry = zip.find(name);
  if (!entry)
    return file_fault(where, std::string("has no part ") + std::string(name), "it is no 3MF package");
  Result<std::string> bytes = zip.read(*entry);
  if (!bytes) return bytes.fault();
  return XmlPart::read(*std::move(bytes), where + ": " + zip.names()[*entry], small_part);
}

bool has_scheme(std::string_view target) {
  const std::size_t colon = target.find(':');
  return colon != std::string_view::npos && target.substr(0, colon).find('/') == std::string_view::npos;
}

// The name a target stands for, seen from the part in `folder` ("3D/"); none when it leads out of the
// package.
std::optional<std::string> resolved(std::string_view target, std::string folder) {
  if (target.empty() || has_scheme(target) || target.starts_with("//")) return std::nullopt;
  if (target.find('\\') != std::string_view::npos) return std::nullopt;
  if (target.front() == '/') {
    folder.clear();
    target.remove_prefix(1);
  }
  while (!target.empty()) {
    const std::size_t slash = std::min(target.find('/'), target.size());
    const std::string_view segment = target.substr(0, slash);
    const bool last = slash == target.size();
    target.remove_prefix(last ? slash : slash + 1);
    if (segment == "..") {
      if (folder.empty()) return std::nullopt;
      folder.pop_back();
      folder.erase(folder.rfind('/') + 1);  // npos + 1 is 0
    } else if (segment != ".") {
      folder += segment;
      if (!last) folder += '/';
    }
  }
  return folder;
}

class PackageReading {
 public:
  PackageReading(const ZipReader& zip, const std::string& where) : zip_(zip), where_(where) {}

  Result<ThreemfParts> read() {
    if (const Result<Done> done = read_types(); !done) return done.fault();
    const auto root = relationships("", std::string(threemf::root_relationships_part));
    if (!root) return root.fault();
    if (const Result<Done> done = judge_root(*root); !done) return done.fault();
    const std::size_t slash = parts_.model.rfind('/') + 1;
    const std::string folder = parts_.model.substr(0, slash);
    const std::string name = folder + "_rels/" + parts_.model.substr(slash) + ".rels";
    if (zip_.find(name)) {
      const auto of_model = relationships(folder, name);
      if (!of_model) return of_model.fault();
      if (const Result<Done> done = judge_model(*of_model); !done) return done.fault();
    }
    return std::move(parts_);
  }

 private:
  // ---- content types

  Result<Done> read_types() {
    const Result<XmlPart> part = read_small_part(zip_, threemf::types_part, where_);
    if (!part) return part.fault();
    const pugi::xml_node root = part->root();
    if (local_name_of(root.name()) != "Types" || !part->belongs_to(root, threemf::types_namespace))
      return file_fault(part->place_of(root), "is no list of content types");
    for (const pugi::xml_node& child : root.children()) {
      const std::string_view kind = local_name_of(child.name());
      if (kind != "Default" && kind != "Override")
        return file_fault(part->place_of(child), std::string("<") + child.name() + "> is not known here",
                          "Default or Override");
      std::string key =
          lower_case(std::string_view(child.attribute(kind == "Default" ? "Extension" : "PartName").value()));
      const std::string type = child.attribute("ContentType").value();
      if (key.empty() || type.empty()) return file_fault(part->place_of(child), "names no content type");
      auto& table = kind == "Default" ? by_ending_ : by_name_;
      if (!table.emplace(key, type).second)
        return file_fault(part->place_of(child), "gives a second content type to " + key, "one each");
    }
    return Done{};
  }

  std::string type_of(const std::string& name) const {
    std::string full = "/";
    full += lower_case(name);
    if (const auto own = by_name_.find(full); own != by_name_.end()) return own->second;
    const std::size_t dot = name.rfind('.');
    if (dot == std::string::npos || name.find('/', dot) != std::string::npos) return {};
    const auto common = by_ending_.find(lower_case(name.substr(dot + 1)));
    return common == by_ending_.end() ? std::string() : common->second;
  }

  // ---- relationships

  Result<std::vector<Relationship>> relationships(const std::string& folder, const std::string& name) const {
    const Result<XmlPart> part = read_small_part(zip_, name, where_);
    if (!part) return part.fault();
    const pugi::xml_node root = part->root();
    if (local_name_of(root.name()) != "Relationships" ||
        !part->belongs_to(root, threemf::relationships_namespace))
      return file_fault(part->place_of(root), "is no list of relationships");
    std::vector<Relationship> list;
    for (const pugi::xml_node& child : root.children()) {
      const Result<Relationship> one = relationship(*part, child, folder);
      if (!one) return one.fault();
      list.push_back(*one);
    }
    return list;
  }

  static Result<Relationship> relationship(const XmlPart& part, const pugi::xml_node& node,
                                           const std::string& folder) {
    Relationship one{node.attribute("Id").value(), node.attribute("Type").value(), {}, part.place_of(node)};
    const std::string target = node.attribute("Target").value();
    if (local_name_of(node.name()) != "Relationship" || one.id.empty() || one.type.empty() || target.empty())
      return file_fault(one.place, "is not a relationship with Id, Type and Target");
    const std::string mode = node.attribute("TargetMode").value();
    const std::optional<std::string> inside = resolved(target, folder);
    if (mode == "External" || !inside)
      return file_fault(one.place,
                        "the relationship " + one.id + " leads out of the package, to \"" + target + "\"",
                        "everything that is needed is in the package");
    one.target = *inside;
    return one;
  }

  static std::vector<const Relationship*> of_type(const std::vector<Relationship>& list,
                                                  std::string_view type) {
    std::vector<const Relationship*> found;
    for (const Relationship& one : list) {
      if (one.type == type) found.push_back(&one);
    }
    return found;
  }

  static Result<Done> judge_ids(const std::vector<Relationship>& list) {
    std::set<std::string> ids;
    std::set<std::pair<std::string, std::string>> links;
    for (const Relationship& one : list) {
      if (!ids.insert(one.id).second)
        return file_fault(one.place, "the relationship id " + one.id + " is used twice");
      if (!links.emplace(one.type, lower_case(one.target)).second)
        return file_fault(one.place, "relates to /" + one.target + " twice in the same way");
    }
    return Done{};
  }

  // The archive's own spelling of a target that must be there, or a fault.
  Result<std::string> target_of(const Relationship& one, const std::string& what) const {
    const std::optional<std::size_t> entry = zip_.find(one.target);
    if (!entry) return file_fault(one.place, "the " + what + " /" + one.target + " is not in the package");
    return zip_.names()[*entry];
  }

  Result<Done> judge_thumbnails(const std::vector<Relationship>& list) const {
    for (const Relationship* one : of_type(list, threemf::thumbnail_relationship)) {
      const Result<std::string> name = target_of(*one, "thumbnail");
      if (!name) return name.fault();
      const std::string type = type_of(*name);
      if (type != "image/png" && type != "image/jpeg")
        return file_fault(one->place, "the thumbnail /" + *name + " has the content type \"" + type + "\"",
                          "image/png or image/jpeg");
    }
    return Done{};
  }

  Result<Done> judge_root(const std::vector<Relationship>& list) {
    const auto models = of_type(list, threemf::model_relationship);
    if (models.empty())
      return file_fault(where_ + ": _rels/.rels", "the package relates to no 3D model", "exactly one");
    if (models.size() > 1)
      return file_fault(models[1]->place, "the package relates to more than one 3D model", "exactly one");
    const Result<std::string> model = target_of(*models[0], "3D model");
    if (!model) return model.fault();
    parts_.model = *model;
    if (const std::string type = type_of(*model); type != threemf::model_type)
      return file_fault(models[0]->place,
                        "the 3D model /" + *model + " has the content type \"" + type + "\"",
                        std::string(threemf::model_type));
    if (const auto tickets = of_type(list, threemf::ticket_relationship); !tickets.empty())
      return file_fault(tickets[0]->place, "a print ticket hangs on the package", "on its 3D model");
    if (const Result<Done> good = judge_thumbnails(list); !good) return good;
    const auto thumbnails = of_type(list, threemf::thumbnail_relationship);
    if (!thumbnails.empty()) parts_.thumbnail = thumbnails[0]->target;
    return judge_ids(list);
  }

  Result<Done> judge_model(const std::vector<Relationship>& list) const {
    const auto tickets = of_type(list, threemf::ticket_relationship);
    if (tickets.size() > 1)
      return file_fault(tickets[1]->place, "the 3D model has more than one print ticket", "one");
    if (!tickets.empty()) {
      if (const auto ticket = target_of(*tickets[0], "print ticket"); !ticket) return ticket.fault();
    }
    if (const Result<Done> good = judge_thumbnails(list); !good) return good;
    return judge_ids(list);
  }

  const ZipReader& zip_;
  const std::string& where_;
  std::map<std::string, std::string> by_ending_, by_name_;
  ThreemfParts parts_;
};

}  // namespace

Result<ThreemfParts> find_threemf_parts(const ZipReader& zip, const std::string& where) {
  return PackageReading(zip, where).read();
}

}  // namespace crownwright::files
