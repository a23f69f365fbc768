#include "order/schema.h"

#include <cstdint>
#include <nlohmann/json.hpp>

#include "order/keys.h"
#include "order/list_value.h"
#include "order/quantity_value.h"
#include "order/saver.h"

namespace crownwright::order {
namespace {

// Keys stay in the order of the table: same program, same bytes.
using Json = nlohmann::ordered_json;

// What parse_length accepts, a little wider: bounds and digits are left to the reader.
constexpr char one_length[] =
    "^\\s*[+-]?(\\d+(\\.\\d+)?|\\.\\d+|(\\d+[ -])?\\d+/\\d+|(\\d+ ?)?(½|⅓|⅔|¼|¾|⅕|⅖|⅗|⅘|⅙|⅚|⅐|⅛|⅜|⅝|⅞|⅑|⅒))"
    "\\s*(mm|cm|m|in|inch|inches|\"|”|″)";

// ---- one key by its type ---------------------------------------------------------------------

// A length and what may stand behind it.
Json length_schema(const std::string& behind = "\\s*$") {
  return {{"type", "string"}, {"pattern", one_length + behind}, {"x-unit", "mm"}};
}

Json cutter_schema(const Key& key) {
  std::string shapes;
  for (const std::string_view shape : key.choices) {
    if (!shapes.empty()) shapes += '|';
    shapes += shape;
  }
  return length_schema("\\s+(" + shapes + ")\\s*$");
}

// A whole number without a point: JSON Schema wants counts so.
Json bound(double value) {
  const auto whole = static_cast<std::int64_t>(value);
  if (static_cast<double>(whole) == value) return whole;
  return value;
}

Json text_schema(const Key& key) {
  return {{"type", "string"}, {"minLength", bound(key.range->low)}, {"maxLength", bound(key.range->high)}};
}

Json enum_schema(const Key& key) { return {{"type", "string"}, {"enum", key.choices}}; }

Json number_schema(const Key& key, const char* type) {
  return {{"type", type}, {"minimum", bound(key.range->low)}, {"maximum", bound(key.range->high)}};
}

Json list_schema(std::size_t fewest, std::size_t most, const Json& item) {
  return {{"type", "array"}, {"minItems", fewest}, {"maxItems", most}, {"items", item}};
}

Json pairs_schema(std::size_t fewest, std::size_t most) {
  return list_schema(fewest, most, list_schema(2, 2, length_schema()));
}

Json size_rows_schema() {
  const Json name = {{"type", "string"},
                     {"minLength", 1},
                     {"maxLength", longest_size_name},
                     {"pattern", "^[A-Za-z0-9_]([A-Za-z0-9_ -]*[A-Za-z0-9_-])?$"}};
  const Json length = length_schema();
  const Json row = {{"type", "array"},
                    {"minItems", 3},
                    {"maxItems", 4},
                    {"prefixItems", Json::array({name, length, length, length})}};
  return list_schema(1, most_sizes, row);
}

Json hat_sizes_schema() {
  Json list = list_schema(1, most_sizes, {{"type", "string"}, {"minLength", 1}});
  list["uniqueItems"] = true;
  return list;
}

Json solid_schema() {
  Json solid = {{"const", "solid"}};
  return {{"anyOf", Json::array({solid, length_schema()})}, {"x-unit", "mm"}};
}

// "220x220x250 mm": numbers as in a length, bounds and digits left to the reader.
Json sides_schema(int sides) {
  std::string pattern = "^\\s*[+-]?[0-9.][^a-zA-Z]*";
  for (int i = 1; i < sides; ++i) pattern += "(x|X|×|\\*)[^a-zA-Z]+";
  return {
      {"type", "string"}, {"pattern", pattern + "(mm|cm|m|in|inch|inches|\"|”|″)\\s*$"}, {"x-unit", "mm"}};
}

// With the other ways to write that unit.
std::string unit_pattern(KeyType type) {
  if (type == KeyType::turns) return "(\\s*rpm|\\s1/min)";
  if (type == KeyType::accel) return "\\s*mm/s(2|²|\\^2)";
  return std::string("\\s*").append(unit_of(type));
}

Json quantity_schema(const Key& key) {
  return {{"type", "string"},
          {"pattern", "^\\s*[+-]?[0-9. /-]*[0-9]" + unit_pattern(key.type) + "\\s*$"},
          {"x-unit", unit_of(key.type)}};
}

// The numbers among the choices stand without quotes.
Json count_or_word_schema(const Key& key) {
  Json all = Json::array();
  for (const std::string_view choice : key.choices) {
    if (const auto count = as_count(choice))
      all.push_back(*count);
    else
      all.push_back(choice);
  }
  return {{"enum", all}};
}

Json type_schema(const Key& key) {
  switch (key.type) {
    case KeyType::text:
    case KeyType::file:
      return text_schema(key);
    case KeyType::profile:
      return {{"type", "string"}, {"pattern", "^[a-z0-9_][a-z0-9_-]{0,63}$"}};
    case KeyType::length:
      return length_schema();
    case KeyType::length_or_solid:
      return solid_schema();
    case KeyType::fraction:
      return number_schema(key, "number");
    case KeyType::count:
      return number_schema(key, "integer");
    case KeyType::choice:
      return enum_schema(key);
    case KeyType::choices:
      return {{"type", "array"}, {"minItems", 1}, {"uniqueItems", true}, {"items", enum_schema(key)}};
    case KeyType::boolean:
      return {{"type", "boolean"}};
    case KeyType::readings:
      return pairs_schema(fewest_readings, most_readings);
    case KeyType::stations:
      return pairs_schema(fewest_stations, most_stations);
    case KeyType::size_rows:
      return size_rows_schema();
    case KeyType::hat_sizes:
      return hat_sizes_schema();
    case KeyType::bed:
    case KeyType::travel:
      return sides_schema(3);
    case KeyType::sheet_size:
      return sides_schema(2);
    case KeyType::cutter:
      return cutter_schema(key);
    case KeyType::drill:
      return length_schema("\\s*(drill)?\\s*$");
    case KeyType::flow:
    case KeyType::force:
    case KeyType::feed:
    case KeyType::turns:
    case KeyType::accel:
      return quantity_schema(key);
    case KeyType::count_or_word:
      return count_or_word_schema(key);
  }
  throw std::logic_error("a key of no type: " + key.path());
}

// ---- values ----------------------------------------------------------------------------------

Json json(const Length& value) { return exact_text(value); }
// No key that is a list of rows has a default.
template <class Row>
Json rows_json(const std::vector<Row>&) {
  throw std::logic_error("a default that is a list of rows");
}
Json json(const std::vector<Reading>& value) { return rows_json(value); }
Json json(const std::vector<PanelWidth>& value) { return rows_json(value); }
Json json(const std::vector<SizeRow>& value) { return rows_json(value); }
Json json(const Bed& value) { return exact_text(value); }
Json json(const SheetSize& value) { return exact_text(value); }
Json json(const Cutter& value) { return exact_text(value); }
template <class Plain>
Json json(const Plain& value) {
  return value;
}
Json json_of(const Key& key, const KeyValue& value) {
  if (is_quantity(key.type)) return quantity_text(key, std::get<double>(value));
  return std::visit([](const auto& v) { return json(v); }, value);
}

Json key_schema(const Key& key) {
  Json schema = type_schema(key);
  schema["description"] = key.help;
  if (key.range) {
    if (!unit_of(key.type).empty())
      schema["x-range"] = {{"minimum", bound(key.range->low)}, {"maximum", bound(key.range->high)}};
    schema["x-range-reasons"] = {{"minimum", key.range->why_low}, {"maximum", key.range->why_high}};
  }
  if (const auto value = key.default_for(FormKind::block)) schema["default"] = json_of(key, *value);
  if (key.pad_preset) schema["x-default-of-pad"] = json_of(key, *key.pad_preset);
  schema["x-example-toml"] = key.example;
  return schema;
}

Json object_schema(const Json& properties) {
  return {{"type", "object"}, {"additionalProperties", false}, {"properties", properties}};
}

Json properties_of(std::string_view table) {
  Json properties = Json::object();
  for (const Key& key : all_keys()) {
    if (key.table == table) properties[std::string(key.name)] = key_schema(key);
  }
  return properties;
}

// ---- what goes together ----------------------------------------------------------------------

Json required(const std::vector<std::string>& names) { return {{"required", names}}; }

Json together(const std::string& one, const std::string& other) {
  return {{one, Json::array({other})}, {other, Json::array({one})}};
}

void add_rules_of_pattern(Json& pattern) {
  pattern["dependentRequired"] = {
      {"seam_tape", {"panels"}}, {"seam_tape_thickness", {"seam_tape"}}, {"includes_allowance", {"kind"}}};
}

void add_rules_of_sizes(Json& sizes) {
  const Json steps = {{"anyOf", Json::array({required({"smaller"}), required({"larger"})})}};
  sizes["oneOf"] = Json::array({required({"list"}), required({"hat_sizes"}), steps});
  sizes["dependentRequired"] = {{"smaller", {"head_step"}},
                                {"larger", {"head_step"}},
                                {"crown_step", {"head_step"}},
                                {"rise_step", {"head_step"}}};
  sizes["not"] = required({"list", "head_step"});
}

void add_rules_within_tables(Json& tables) {
  tables["measure"]["not"] = required({"head_girth", "hat_size"});
  tables["panel_lengths"]["required"] = {"top", "under"};
  add_rules_of_pattern(tables["pattern"]);
  tables["band"]["dependentRequired"] = together("elastic", "elastic_stretched");
  add_rules_of_sizes(tables["sizes"]);
  tables["dish"]["oneOf"] = Json::array({required({"readings"}), required({"file"})});
  Json needs = together("groove_width", "groove_depth");
  needs.update(together("flange_width", "flange_thickness"));
  needs["socket_depth"] = {"socket"};
  needs["post_diameter"] = {"posts"};
  tables["form"]["dependentRequired"] = needs;
  tables["form"]["properties"]["posts"]["not"] = {{"enum", {1, 2}}};
  tables["print"]["not"] = required({"bed", "printer"});
  tables["mill"]["dependentRequired"] = {{"drill_flute", {"drill"}}};
}

// A table that must stand and hold what `content` says.
Json has(const std::string& table, const Json& content) {
  return {{"properties", {{table, content}}}, {"required", {table}}};
}

Json when(const Json& condition, const Json& then, const Json& otherwise) {
  return {{"if", condition}, {"then", then}, {"else", otherwise}};
}

// The keys that the other kind of form takes, and its tables, as schemas that nothing satisfies.
Json refused_by(FormKind kind) {
  Json tables = Json::object();
  for (const std::string& table : table_names()) {
    Json refused = Json::object();
    bool takes_any = false;
    for (const Key& key : all_keys()) {
      if (key.table != table) continue;
      takes_any = takes_any || key.is_taken_by(kind);
      if (!key.is_taken_by(kind)) refused[std::string(key.name)] = false;
    }
    if (!takes_any) {
      tables[table] = false;
    } else if (!refused.empty()) {
      tables[table]["properties"] = refused;
    }
  }
  return {{"properties", tables}};
}

Json is_pad() {
  const Json kind = {{"properties", {{"kind", {{"const", "pad"}}}}}, {"required", {"kind"}}};
  return has("form", kind);
}

// ---- what is needed, with and without a drawn pattern ----------------------------------------

Json is_kind(const std::string& kind) {
  const Json drawn = {{"properties", {{"kind", {{"const", kind}}}}}, {"required", {"kind"}}};
  return has("pattern", drawn);
}

// Without kind "outline" these keys are refused, and so on.
Json only_with_kind(const std::string& kind, const std::vector<std::string>& needed,
                    const std::vector<std::string>& keys) {
  Json refused = Json::object();
  for (const std::string& key : keys) refused[key] = false;
  return when(is_kind(kind), has("pattern", required(needed)),
              {{"properties", {{"pattern", {{"properties", refused}}}}}});
}

// One panel that is drawn tells the edge, and what it tells is one size.
Json beside_drawn() {
  const Json no_edges = {{"edge_radius", false}, {"under_edge_radius", false}};
  const Json middle = {{"taken_at", {{"const", "cloth middle"}}}};
  const Json rules = {
      {"properties", {{"panel_lengths", false}, {"sizes", false}, {"measure", {{"properties", middle}}}}}};
  const Json panel = {{"properties", {{"shape", {{"properties", no_edges}}}}}};
  return {{"allOf", Json::array({rules, when(is_kind("discs"), true, panel),
                                 when(is_pad(), has("measure", required({"rise"})), true)})}};
}

// A pad needs no head, unless sizes are counted from it.
Json figures_in_measure() {
  const Json girth = {{"anyOf", Json::array({required({"head_girth"}), required({"hat_size"})})}};
  const Json rise_or_lengths = {
      {"anyOf", Json::array({has("measure", required({"rise"})), required({"panel_lengths"})})}};
  const Json one_pad = {{"allOf", Json::array({is_pad(), {{"not", required({"sizes"})}}})}};
  return {{"allOf", Json::array({has("measure", required({"crown_diameter"})), rise_or_lengths,
                                 when(one_pad, true, has("measure", girth))})}};
}

// Every row has its rise, or there is one for all.
Json beside_list() {
  const Json full_row = {{"minItems", 4}};
  const Json full_list = {{"properties", {{"list", {{"items", full_row}}}}}};
  return {{"anyOf", Json::array({has("measure", required({"rise"})), has("sizes", full_list)})}};
}

Json needed_figures() {
  const Json with_list = has("sizes", required({"list"}));
  return when(has("pattern", required({"kind"})), beside_drawn(),
              when(with_list, beside_list(), figures_in_measure()));
}

// A pad's pattern is its cover; a block's are discs, or as many panels as are asked for.
Json needed_for_draft() {
  const Json discs = {{"properties", {{"pieces", {{"const", "discs"}}}}}, {"required", {"pieces"}}};
  const Json cover = {{"dependentRequired", {{"draft", {"cover"}}}}};
  const Json panels = {{"properties", {{"panels", {{"minimum", 4}, {"maximum", 24}}}}},
                       {"required", {"panels"}}};
  const Json asks_for_panels = has("draft", {{"not", discs}});
  return when(is_pad(), cover, when(asks_for_panels, has("pattern", panels), true));
}

Json rules() {
  return Json::array(
      {needed_figures(), needed_for_draft(),
       when(is_pad(), refused_by(FormKind::pad), refused_by(FormKind::block)),
       only_with_kind("stations", {"stations", "panels"}, {"stations"}),
       only_with_kind("outline", {"file", "panels"}, {"file", "layer", "fold", "drawing_unit"}),
       only_with_kind("discs", {"top_diameter", "ring_diameter", "ring_opening"},
                      {"top_diameter", "ring_diameter", "ring_opening"})});
}

}  // namespace

std::string order_schema() {
  Json tables = properties_of("");
  for (const std::string& table : table_names()) tables[table] = object_schema(properties_of(table));
  add_rules_within_tables(tables);
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", "An order for a beret block or a pressing pad"}};
  schema.update(object_schema(tables));
  schema["allOf"] = rules();
  return schema.dump(2) + "\n";
}

}  // namespace crownwright::order
