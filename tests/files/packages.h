#pragma once
// 3MF packages made by hand, for the tests of their reader.

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "files/shapes.h"
#include "files/zip_writer.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::test {

using Entries = std::vector<std::pair<std::string, std::string>>;

inline std::string archive(const Entries& entries, bool deflated = true) {
  std::vector<files::ZipEntry> list;
  for (const auto& [name, content] : entries) list.push_back({name, as_bytes(content), deflated});
  const std::vector<std::byte> bytes = files::zipped(list);
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

/// Every occurrence of `from` becomes `to`.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

inline const std::string content_types =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
<Default Extension="png" ContentType="image/png"/>
</Types>)";

inline const std::string root_relationships =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="r1" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" Target="/3D/a.model"/>
</Relationships>)";

/// <vertices> and <triangles> of a mesh.
inline std::string mesh_markup(const mesh::TriangleMesh& mesh) {
  std::string text = "<mesh><vertices>";
  for (const mesh::Vertex& v : mesh.vertices)
    text += "\n<vertex x=\"" + std::to_string(v.x) + "\" y=\"" + std::to_string(v.y) + "\" z=\"" +
            std::to_string(v.z) + "\"/>";
  text += "</vertices><triangles>";
  for (const mesh::Triangle& t : mesh.triangles)
    text += "\n<triangle v1=\"" + std::to_string(t[0]) + "\" v2=\"" + std::to_string(t[1]) + "\" v3=\"" +
            std::to_string(t[2]) + "\"/>";
  return text + "</triangles></mesh>";
}

/// A tetrahedron of 1000 mm3, a component of it and two items; every line is there to be broken.
inline std::string good_model(const mesh::TriangleMesh& mesh = tetrahedron()) {
  return R"(<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" xmlns:v="urn:vendor">
<metadata name="Title">Corner</metadata>
<metadata name="v:Own">yes</metadata>
<resources>
<basematerials id="1"><base name="PA12" displaycolor="#C0C0C0"/><base name="PC" displaycolor="#FFFFFFFF"/></basematerials>
<object id="2" type="model" name="corner" pid="1" pindex="1">)" +
         mesh_markup(mesh) + R"(</object>
<object id="3" type="other" pid="1" pindex="0">)" +
         mesh_markup(mesh) + R"(</object>
<object id="4" name="pair"><components><component objectid="2"/><component objectid="2" transform="1 0 0 0 1 0 0 0 1 50 0 0"/></components></object>
</resources>
<build>
<item objectid="2" transform="1 0 0 0 1 0 0 0 1 5 6 7"/>
<item objectid="4" partnumber="p"/>
</build>
</model>)";
}

inline Entries package_of(const std::string& model) {
  return {{"[Content_Types].xml", content_types}, {"_rels/.rels", root_relationships}, {"3D/a.model", model}};
}

}  // namespace crownwright::test
