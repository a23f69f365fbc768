#pragma once
// One XML part of a package, read as strictly as 3MF asks (3MF core specification 1.3, section 2.3): UTF-8
// alone (or UTF-16 with its byte order mark, which version 1.0 allowed), well-formed, no document type, every
// prefix declared, nothing from the "xsi" namespace, xml:lang on the root alone and xml:space nowhere.

#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"

namespace pugi {
class xml_node;
}

namespace crownwright::files {

/// Chosen so that the worst a part can cost in memory is about a gigabyte; a mesh of a million facets has 80
/// MB, 1.5 million elements and 4.5 million attributes.
struct XmlLimits {
  std::size_t bytes = 160'000'000;
  std::size_t elements = 3'000'000;
  std::size_t attributes = 9'000'000;
  int depth = 64;
};

class XmlPart {
 public:
  /// `where` names the part in faults ("a.3mf: 3D/3dmodel.model"). Faults: exit 4.
  static Result<XmlPart> read(std::string bytes, const std::string& where, const XmlLimits& limits = {});
  ~XmlPart();
  XmlPart(XmlPart&&) noexcept;
  XmlPart& operator=(XmlPart&&) noexcept;

  /// The one element all others stand in.
  pugi::xml_node root() const;

  /// "a.3mf: 3D/3dmodel.model:12".
  std::string place_of(const pugi::xml_node& node) const;

  /// The namespace a prefix ("" for none) stands for at an element; empty when it is not declared there.
  std::string_view namespace_of(const pugi::xml_node& element, std::string_view prefix) const;

  /// True when the element's own name belongs to that namespace.
  bool belongs_to(const pugi::xml_node& element, std::string_view wanted) const;

 private:
  struct Content;
  explicit XmlPart(std::unique_ptr<Content> content);
  std::unique_ptr<Content> content_;
};

/// "m:color" -> "m" and "color"; "color" -> "" and "color".
std::string_view prefix_of(std::string_view name);
std::string_view local_name_of(std::string_view name);

}  // namespace crownwright::files
