#include "page/workshop_json.h"

#include <cmath>
#include <filesystem>
#include <optional>

#include "base/length.h"
#include "base/table.h"
#include "meridian/beret.h"
#include "order/keys.h"
#include "order/optional_tables.h"
#include "order/saver.h"
#include "page/json_text.h"
#include "workshop/cloth.h"
#include "workshop/material.h"
#include "workshop/printer.h"
#include "workshop/shape_profile.h"

namespace crownwright::page {
namespace {

using order::FormKind;
using order::Key;
using order::KeyType;

// ---- keys ------------------------------------------------------------------------------------

std::string type_word(KeyType type) {
  switch (type) {
    case KeyType::text:
      return "text";
    case KeyType::profile:
      return "profile";
    case KeyType::length:
      return "length";
    case KeyType::length_or_solid:
      return "length_or_solid";
    case KeyType::fraction:
      return "fraction";
    case KeyType::count:
      return "count";
    case KeyType::choice:
      return "choice";
    case KeyType::choices:
      return "choices";
    case KeyType::boolean:
      return "boolean";
    case KeyType::readings:
      return "readings";
    case KeyType::file:
      return "file";
    case KeyType::stations:
      return "stations";
    case KeyType::size_rows:
      return "size_rows";
    case KeyType::hat_sizes:
      return "hat_sizes";
    case KeyType::bed:
      return "bed";
    case KeyType::flow:
      return "flow";
    case KeyType::force:
      return "force";
    case KeyType::count_or_word:
      return "count_or_word";
    case KeyType::cutter:
      return "cutter";
    case KeyType::drill:
      return "drill";
    case KeyType::sheet_size:
      return "sheet_size";
    case KeyType::travel:
      return "travel";
    case KeyType::feed:
      return "feed";
    case KeyType::turns:
      return "turns";
    case KeyType::accel:
      return "accel";
  }
  return {};
}

std::string kind_word(order::TakenBy taken_by) {
  switch (taken_by) {
    case order::TakenBy::block:
      return "block";
    case order::TakenBy::pad:
      return "pad";
    case order::TakenBy::both:
      break;
  }
  return "both";
}

// The example as one types it: without the quotes of an order file; lists stay as they are.
std::string typed_example(const Key& key) {
  const auto table = parse_table("v = " + std::string(key.example), "example");
  if (!table || table->root.entries.empty()) return std::string(key.example);
  const TableValue& value = table->root.entries[0].value;
  return value.kind == ValueKind::text ? value.text : std::string(key.example);
}

/// A default as one types it.
struct ToTyped {
  std::string operator()(const std::string& text) const { return text; }
  std::string operator()(const Length& length) const { return order::exact_text(length); }
  std::string operator()(double number) const {
    const std::string unit(order::unit_of(type));
    return number_text(number, 6) + (unit.empty() ? "" : " " + unit);
  }
  std::string operator()(int number) const { return std::to_string(number); }
  std::string operator()(bool yes) const { return yes ? "true" : "false"; }
  std::string operator()(const order::Bed& bed) const { return order::exact_text(bed); }
  std::string operator()(const order::SheetSize& size) const { return order::exact_text(size); }
  std::string operator()(const order::Cutter& cutter) const { return order::exact_text(cutter); }
  std::string operator()(const std::vector<std::string>& words) const {
    std::string text = "[";
    for (const std::string& word : words) text += (text.size() > 1 ? ", " : "") + quoted_toml(word);
    return text + "]";
  }
  template <class Item>
  std::string operator()(const std::vector<Item>&) const {
    return "[]";
  }
  KeyType type;
};

std::string typed_preset(const Key& key, FormKind kind) {
  const auto value = key.default_for(kind);
  return value ? json_text(std::visit(ToTyped{key.type}, *value)) : "null";
}

std::string key_json(const Key& key) {
  JsonFields fields = {{"path", json_text(key.path())},
                       {"table", json_text(std::string(key.table))},
                       {"name", json_text(std::string(key.name))},
                       {"type", json_text(type_word(key.type))},
                       {"for", json_text(kind_word(key.taken_by))}};
  if (const auto unit = order::unit_of(key.type); !unit.empty())
    fields.emplace_back("unit", json_text(std::string(unit)));
  if (key.range) {
    fields.emplace_back("least", json_number(key.range->low, 6));
    fields.emplace_back("most", json_number(key.range->high, 6));
  }
  std::vector<std::string> choices(key.choices.begin(), key.choices.end());
  if (!choices.empty()) fields.emplace_back("choices", json_texts(choices));
  const std::string preset = typed_preset(key, FormKind::block), pad = typed_preset(key, FormKind::pad);
  if (preset != "null") fields.emplace_back("preset", preset);
  if (pad != "null" && pad != preset) fields.emplace_back("pad_preset", pad);
  fields.emplace_back("example", json_text(typed_example(key)));
  fields.emplace_back("help", json_text(std::string(key.help)));
  return json_object(fields);
}

std::string keys_json() {
  std::vector<std::string> items;
  for (const Key& key : order::all_keys()) items.push_back(key_json(key));
  return json_list(items);
}

std::string optional_tables_json() {
  std::vector<std::string> names;
  for (const std::string& name : order::table_names())
    if (order::is_optional_table(name)) names.push_back(name);
  return json_texts(names);
}

// ---- shapes ----------------------------------------------------------------------------------

// The crown that shows a shape: an adult's, near the order in the README.
constexpr double shown_crown = 140, shown_head = 90.7;             // radii, mm
constexpr double least_rise = 75, most_rise = 200, rise_step = 5;  // mm

std::optional<meridian::Chain> shown_chain(const workshop::ShapeProfile& shape) {
  for (double rise = least_rise; rise <= most_rise; rise += rise_step) {
    const auto chain =
        meridian::crown_chain({shown_crown, shown_head, rise, shape.dome(shown_crown),
                               shape.edge_radius(shown_crown), shape.under_edge_radius(shown_crown)});
    if (chain) return *chain;
  }
  return std::nullopt;
}

// The chain as an SVG path, r to one side, z up.
std::string path_of(const meridian::Chain& chain, double top, int side) {
  const auto point = [&](const meridian::Point& p) {
    return number_text(side * p.r) + " " + number_text(top - p.z);
  };
  std::string path = std::string("M").append(point(chain.front().from()));
  for (const meridian::Segment& segment : chain) {
    if (!segment.is_arc()) {
      path.append("L").append(point(segment.to()));
      continue;
    }
    const std::string radius = number_text(segment.radius());
    const bool sweeps = (segment.turn() < 0) == (side > 0);
    const std::string large = std::abs(segment.turn()) > 3.141592653589793 ? "1" : "0";
    path += "A" + radius + " " + radius + " 0 " + large + " " + (sweeps ? "1 " : "0 ") + point(segment.to());
  }
  return path;
}

std::string shape_svg(const workshop::ShapeProfile& shape) {
  const auto chain = shown_chain(shape);
  if (!chain) return {};
  const double top = chain->front().from().z, edge = 4;
  const std::string box = number_text(-shown_crown - edge) + " " + number_text(-edge) + " " +
                          number_text(2 * (shown_crown + edge)) + " " + number_text(top + 2 * edge);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" + box +
         "\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"3\"><path d=\"" + path_of(*chain, top, -1) +
         path_of(*chain, top, 1) + "\"/></svg>";
}

std::string shape_item(const workshop::ShapeProfile& shape) {
  const std::string values =
      json_object({{"dome_of_radius", json_number(shape.dome_of_radius.value, 6)},
                   {"edge_of_radius", json_number(shape.edge_of_radius.value, 6)},
                   {"under_edge_of_radius", json_number(shape.under_edge_of_radius.value, 6)}});
  return json_object({{"name", json_text(shape.name)},
                      {"summary", json_text(shape.summary)},
                      {"values", values},
                      {"svg", json_text(shape_svg(shape))}});
}

// ---- cloths, materials, printers -------------------------------------------------------------

std::string cloth_item(const workshop::ClothProfile& cloth) {
  return json_object({{"name", json_text(cloth.name)},
                      {"summary", json_text(cloth.summary)},
                      {"thickness_mm", json_number(cloth.thickness.value.mm(), 4)},
                      {"heat_shrink", json_number(cloth.heat_shrink.value, 6)},
                      {"stretch", json_number(cloth.stretch.value, 6)},
                      {"ease", json_number(cloth.ease.value, 6)}});
}

bool is_printed(const workshop::MaterialProfile& material) {
  using workshop::MaterialKind;
  return !material.kind || *material.kind == MaterialKind::amorphous ||
         *material.kind == MaterialKind::semi_crystalline || *material.kind == MaterialKind::elastomer;
}

std::string material_item(const workshop::MaterialProfile& material) {
  return json_object({{"name", json_text(material.name)},
                      {"label", json_text(workshop::label_of(material))},
                      {"summary", json_text(material.summary)},
                      {"kind", material.kind ? json_text(workshop::to_text(*material.kind)) : "null"},
                      {"milled", material.cutting ? "true" : "false"},
                      {"printed", is_printed(material) ? "true" : "false"}});
}

std::string printer_item(const workshop::PrinterProfile& printer) {
  return json_object({{"name", json_text(printer.name)},
                      {"summary", json_text(printer.summary)},
                      {"bed_mm", json_list({json_number(printer.width.value.mm(), 3),
                                            json_number(printer.depth.value.mm(), 3),
                                            json_number(printer.height.value.mm(), 3)})}});
}

template <class Profile, class Item>
Result<std::string> listed_items(const Result<std::vector<Profile>>& profiles, Item item) {
  if (!profiles) return profiles.fault();
  std::vector<std::string> items;
  for (const Profile& profile : *profiles) items.push_back(item(profile));
  return json_list(items);
}

// A folder of one's own may have been made before there were printers.
Result<std::vector<workshop::PrinterProfile>> printers_in(const workshop::ProfileFolder& profiles) {
  if (!std::filesystem::exists(profiles.path + "/printers")) return std::vector<workshop::PrinterProfile>();
  return workshop::list_printers(profiles);
}

}  // namespace

Result<std::string> workshop_json(const workshop::ProfileFolder& profiles) {
  const auto shapes = listed_items(workshop::list_shapes(profiles), shape_item);
  if (!shapes) return shapes.fault();
  const auto cloths = listed_items(workshop::list_cloths(profiles), cloth_item);
  if (!cloths) return cloths.fault();
  const auto materials = listed_items(workshop::list_materials(profiles), material_item);
  if (!materials) return materials.fault();
  const auto printers = listed_items(printers_in(profiles), printer_item);
  if (!printers) return printers.fault();
  return json_object({{"version", json_text(CROWNWRIGHT_VERSION)},
                      {"keys", keys_json()},
                      {"optional_tables", optional_tables_json()},
                      {"shapes", *shapes},
                      {"cloths", *cloths},
                      {"materials", *materials},
                      {"printers", *printers},
                      {"samples", "[]"}}) +
         "\n";
}

}  // namespace crownwright::page
