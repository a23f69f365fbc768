#pragma once
// Names that 3MF fixes (3MF core specification 1.3, appendix C; Open Packaging Conventions, ECMA-376 part 2).

#include <string_view>

namespace crownwright::files::threemf {

inline constexpr std::string_view core_namespace =
    "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
inline constexpr std::string_view material_namespace =
    "http://schemas.microsoft.com/3dmanufacturing/material/2015/02";
inline constexpr std::string_view types_namespace =
    "http://schemas.openxmlformats.org/package/2006/content-types";
inline constexpr std::string_view relationships_namespace =
    "http://schemas.openxmlformats.org/package/2006/relationships";

inline constexpr std::string_view model_relationship =
    "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";
inline constexpr std::string_view ticket_relationship =
    "http://schemas.microsoft.com/3dmanufacturing/2013/01/printticket";
inline constexpr std::string_view thumbnail_relationship =
    "http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail";

inline constexpr std::string_view model_type = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml";
inline constexpr std::string_view relationships_type =
    "application/vnd.openxmlformats-package.relationships+xml";

inline constexpr std::string_view types_part = "[Content_Types].xml";
inline constexpr std::string_view root_relationships_part = "_rels/.rels";

/// Ours: the namespace of the metadata that names the order a package was made from.
inline constexpr std::string_view order_namespace = "urn:crownwright:order";

}  // namespace crownwright::files::threemf
