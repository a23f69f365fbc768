#include "files/threemf_bytes.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "files/byte_sink.h"
#include "files/maker_mark.h"
#include "files/mesh_checks.h"
#include "files/text_out.h"
#include "files/threemf_names.h"
#include "base/xml_text.h"
#include "files/zip_writer.h"

// The mark stands in a comment at the start of the first entry, which is stored and not deflated: so the
// first bytes of a package tell whose it is, like those of every other file of ours.

namespace crownwright::files {
namespace {

using mesh::Box;
using mesh::Placement;
using mesh::Point3;

constexpr double nothing = 1e-6;  // mm: what sines and sums leave over

// ---- promises

[[noreturn]] void broken_promise(const std::string& what) {
  throw std::logic_error("a 3MF package to be written: " + what);
}

void require_turn_and_move(const Placement& place) {
  const auto row = [&](std::size_t i, std::size_t k) { return place.m[3 * i + k]; };
  for (const double number : place.m) {
    if (!std::isfinite(number)) broken_promise("a placement is not finite");
  }
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = i; j < 3; ++j) {
      const double dot = row(i, 0) * row(j, 0) + row(i, 1) * row(j, 1) + row(i, 2) * row(j, 2);
      if (std::abs(dot - (i == j ? 1 : 0)) > 1e-9) broken_promise("a placement stretches or shears");
    }
  }
  const double turn = row(0, 0) * (row(1, 1) * row(2, 2) - row(1, 2) * row(2, 1)) -
                      row(0, 1) * (row(1, 0) * row(2, 2) - row(1, 2) * row(2, 0)) +
                      row(0, 2) * (row(1, 0) * row(2, 1) - row(1, 1) * row(2, 0));
  if (turn < 0) broken_promise("a placement mirrors");
}

void require_parts(const ThreemfContents& contents) {
  if (contents.parts.empty() || contents.items.empty()) broken_promise("nothing to print");
  std::set<std::string> names;
  for (const ThreemfMesh& part : contents.parts) {
    if (part.name.empty() || !names.insert(part.name).second)
      broken_promise("a name is missing or given twice");
    if (part.mesh == nullptr || part.mesh->triangles.empty()) broken_promise("a part without a mesh");
    require_writable(*part.mesh);
  }
  for (const ThreemfPlace& item : contents.items) {
    if (item.part >= contents.parts.size()) broken_promise("an item names a part that is not there");
    require_turn_and_move(item.place);
  }
}

void require_notes(const ThreemfContents& contents) {
  const std::string& mark = contents.notes.mark;
  if (!is_mark(mark) || mark.find("--") != std::string::npos || mark.back() == '-')
    broken_promise("not a mark: " + mark);
  if (!contents.thumbnail_png.empty() && !contents.thumbnail_png.starts_with("\x89PNG\r\n\x1a\n"))
    broken_promise("the thumbnail is no PNG picture");
}

// ---- places

Box placed_box(const mesh::TriangleMesh& mesh, const Placement& place) {
  Box box{{1e300, 1e300, 1e300}, {-1e300, -1e300, -1e300}};
  for (const mesh::Vertex& v : mesh.vertices) {
    const Point3 p = place({v.x, v.y, v.z});
    box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y), std::min(box.low.z, p.z)};
    box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y), std::max(box.high.z, p.z)};
  }
  return box;
}

bool overlap(const Box& a, const Box& b) {
  const auto along = [](double low, double high, double other_low, double other_high) {
    return std::min(high, other_high) - std::max(low, other_low) > nothing;
  };
  return along(a.low.x, a.high.x, b.low.x, b.high.x) && along(a.low.y, a.high.y, b.low.y, b.high.y) &&
         along(a.low.z, a.high.z, b.low.z, b.high.z);
}

// Lifts what rounding left below zero; a sum may round below zero again, so it is looked at again.
Placement lifted(Placement place, const mesh::TriangleMesh& mesh, Box& box) {
  for (int attempt = 0; attempt < 8; ++attempt) {
    box = placed_box(mesh, place);
    const double low[3] = {box.low.x, box.low.y, box.low.z};
    if (low[0] >= 0 && low[1] >= 0 && low[2] >= 0) return place;
    for (std::size_t k = 0; k < 3; ++k) {
      if (low[k] < -nothing) broken_promise("an item stands outside the positive octant");
      if (low[k] < 0) place.m[9 + k] -= 2 * low[k];
    }
  }
  broken_promise("an item cannot be lifted into the positive octant");
}

std::vector<Placement> settled_places(const ThreemfContents& contents) {
  std::vector<Placement> places;
  std::vector<Box> boxes;
  for (const ThreemfPlace& item : contents.items) {
    Box box;
    places.push_back(lifted(item.place, *contents.parts[item.part].mesh, box));
    for (const Box& other : boxes) {
      if (overlap(box, other)) broken_promise("two items overlap");
    }
    boxes.push_back(box);
  }
  return places;
}

// ---- parts of the package

constexpr std::string_view xml_head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

std::string content_types(const ThreemfContents& contents) {
  const std::string end = "\"/>\n";
  std::string text(xml_head);
  text += "<!--crownwright " + contents.notes.mark + "-->\n";
  text += std::string("<Types xmlns=\"") + std::string(threemf::types_namespace) + "\">\n";
  text += std::string(" <Default Extension=\"rels\" ContentType=\"") +
          std::string(threemf::relationships_type) + end;
  text +=
      std::string(" <Default Extension=\"model\" ContentType=\"") + std::string(threemf::model_type) + end;
  if (!contents.thumbnail_png.empty()) text += " <Default Extension=\"png\" ContentType=\"image/png" + end;
  return text + "</Types>\n";
}

std::string related(const std::string& id, std::string_view type, const std::string& target) {
  std::string text = " <Relationship Id=\"";
  text += id + "\" Type=\"";
  text += type;
  return text + "\" Target=\"/" + target + "\"/>\n";
}

constexpr char model_part[] = "3D/3dmodel.model", thumbnail_part[] = "Metadata/thumbnail.png";

std::string root_relationships(const ThreemfContents& contents) {
  std::string text(xml_head);
  text += std::string("<Relationships xmlns=\"") + std::string(threemf::relationships_namespace) + "\">\n";
  text += related("rel1", threemf::model_relationship, model_part);
  if (!contents.thumbnail_png.empty())
    text += related("rel2", threemf::thumbnail_relationship, thumbnail_part);
  return text + "</Relationships>\n";
}

void put_metadata(std::string_view name, std::string_view value, TextOut& out) {
  out << " <metadata name=\"" << name << "\">" << xml_text(value) << "</metadata>\n";
}

void put_object(std::uint64_t id, const ThreemfMesh& part, TextOut& out) {
  out << "  <object id=\"" << id << "\" type=\"model\" name=\"" << xml_text(part.name)
      << "\">\n   <mesh>\n    <vertices>\n";
  for (const mesh::Vertex& v : part.mesh->vertices)
    out << "     <vertex x=\"" << v.x << "\" y=\"" << v.y << "\" z=\"" << v.z << "\"/>\n";
  out << "    </vertices>\n    <triangles>\n";
  for (const mesh::Triangle& t : part.mesh->triangles)
    out << "     <triangle v1=\"" << std::uint64_t{t[0]} << "\" v2=\"" << std::uint64_t{t[1]} << "\" v3=\""
        << std::uint64_t{t[2]} << "\"/>\n";
  out << "    </triangles>\n   </mesh>\n  </object>\n";
}

void put_item(std::uint64_t id, const std::string& name, const Placement& place, TextOut& out) {
  out << "  <item objectid=\"" << id << "\" transform=\"";
  for (std::size_t k = 0; k < 12; ++k) out << (k == 0 ? "" : " ") << place.m[k] + 0.0;  // -0 + 0 = 0
  out << "\" partnumber=\"" << xml_text(name) << "\"/>\n";
}

void put_model(const ThreemfContents& contents, const std::vector<Placement>& places, ByteSink& sink) {
  TextOut out(sink);
  out << xml_head << "<model unit=\"millimeter\" xmlns=\"" << threemf::core_namespace << "\" xmlns:cw=\""
      << threemf::order_namespace << "\">\n";
  const ThreemfNotes& notes = contents.notes;
  put_metadata("Title", notes.title, out);
  put_metadata("Application", "crownwright " + notes.program_version, out);
  if (notes.licence) put_metadata("LicenseTerms", *notes.licence, out);
  put_metadata("cw:Order", notes.mark, out);
  out << " <resources>\n";
  for (std::size_t k = 0; k < contents.parts.size(); ++k) put_object(k + 1, contents.parts[k], out);
  out << " </resources>\n <build>\n";
  for (std::size_t k = 0; k < contents.items.size(); ++k) {
    const std::size_t part = contents.items[k].part;
    put_item(part + 1, contents.parts[part].name, places[k], out);
  }
  out << " </build>\n</model>\n";
}

}  // namespace

std::vector<std::byte> threemf_bytes(const ThreemfContents& contents) {
  require_notes(contents);
  require_parts(contents);
  const std::vector<Placement> places = settled_places(contents);
  MemorySink sink;
  put_model(contents, places, sink);
  const std::vector<std::byte> model = sink.take();
  const std::string types = content_types(contents), relationships = root_relationships(contents);
  const auto bytes = [](const std::string& text) { return std::as_bytes(std::span(text)); };
  std::vector<ZipEntry> entries{{std::string(threemf::types_part), bytes(types), false},
                                {std::string(threemf::root_relationships_part), bytes(relationships), true},
                                {model_part, model, true}};
  if (!contents.thumbnail_png.empty())
    entries.push_back({thumbnail_part, bytes(contents.thumbnail_png), false});
  return zipped(entries);
}

}  // namespace crownwright::files
