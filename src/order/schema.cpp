#include "order/schema.h"

#include <cstdint>
#include <nlohmann/json.hpp>

#include "order/keys.h"
#include "order/saver.h"

namespace crownwright::order {
namespace {

// Keys stay in the order of the table: same program, same bytes.
using Json = nlohmann::ordered_json;

// What parse_length accepts, a little wider: bounds and digits are left to the reader.
constexpr char length_pattern[] =
    "^\\s*[+-]?(\\d+(\\.\\d+)?|\\.\\d+|(\\d+[ -])?\\d+/\\d+|(\\d+ ?)?(½|⅓|⅔|¼|¾|⅕|⅖|⅗|⅘|⅙|⅚|⅐|⅛|⅜|⅝|⅞|⅑|⅒))"
    "\\s*(mm|cm|m|in|inch|inches|\"|”|″)\\s*$";

// ---- one key by its type ---------------------------------------------------------------------

Json length_schema() { return {{"type", "string"}, {"pattern", length_pattern}, {"x-unit", "mm"}}; }

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

Json readings_schema() {
  return {{"type", "array"},
          {"minItems", 2},
          {"maxItems", 1000},
          {"items", {{"type", "array"}, {"minItems", 2}, {"maxItems", 2}, {"items", length_schema()}}}};
}

Json solid_schema() {
  Json solid = {{"const", "solid"}};
  return {{"anyOf", Json::array({solid, length_schema()})}, {"x-unit", "mm"}};
}

Json type_schema(const Key& key) {
  switch (key.type) {
    case KeyType::text:
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
      return readings_schema();
  }
  throw std::logic_error("a key of no type: " + key.path());
}

// ---- values ----------------------------------------------------------------------------------

Json json(const Length& value) { return exact_text(value); }
Json json(const std::vector<Reading>& value) {
  Json list = Json::array();
  for (const Reading& one : value) list.push_back(Json::array({json(one.radius), json(one.height)}));
  return list;
}
template <class Plain>
Json json(const Plain& value) {
  return value;
}
Json json_of(const KeyValue& value) {
  return std::visit([](const auto& v) { return json(v); }, value);
}

Json key_schema(const Key& key) {
  Json schema = type_schema(key);
  schema["description"] = key.help;
  if (key.range) {
    const bool is_length = key.type == KeyType::length || key.type == KeyType::length_or_solid;
    if (is_length)
      schema["x-range"] = {{"minimum", bound(key.range->low)}, {"maximum", bound(key.range->high)}};
    schema["x-range-reasons"] = {{"minimum", key.range->why_low}, {"maximum", key.range->why_high}};
  }
  if (const auto value = key.default_for(FormKind::block)) schema["default"] = json_of(*value);
  if (key.pad_preset) schema["x-default-of-pad"] = json_of(*key.pad_preset);
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

void add_rules_within_tables(Json& tables) {
  tables["measure"]["required"] = {"crown_diameter"};
  tables["measure"]["not"] = required({"head_girth", "hat_size"});
  tables["panel_lengths"]["required"] = {"top", "under"};
  tables["dish"]["oneOf"] = Json::array({required({"readings"}), required({"file"})});
  Json needs = together("groove_width", "groove_depth");
  needs.update(together("flange_width", "flange_thickness"));
  needs["socket_depth"] = {"socket"};
  tables["form"]["dependentRequired"] = needs;
}

// The keys that the other kind of form takes, as schemas that nothing satisfies.
Json keys_refused_by(FormKind kind) {
  Json tables = Json::object();
  for (const Key& key : all_keys()) {
    if (key.is_taken_by(kind)) continue;
    tables[std::string(key.table)]["properties"][std::string(key.name)] = false;
  }
  return tables;
}

Json is_pad() {
  const Json kind = {{"properties", {{"kind", {{"const", "pad"}}}}}, {"required", {"kind"}}};
  return {{"properties", {{"form", kind}}}, {"required", {"form"}}};
}

Json needs_rise_or_lengths() {
  const Json with_rise = {{"properties", {{"measure", required({"rise"})}}}};
  return {{"anyOf", Json::array({with_rise, required({"panel_lengths"})})}};
}

Json block_rules() {
  Json tables = keys_refused_by(FormKind::block);
  tables["measure"]["anyOf"] = Json::array({required({"head_girth"}), required({"hat_size"})});
  return {{"properties", tables}};
}

}  // namespace

std::string order_schema() {
  Json tables = properties_of("");
  for (const std::string& table : table_names()) tables[table] = object_schema(properties_of(table));
  add_rules_within_tables(tables);
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", "An order for a beret block or a pressing pad"}};
  schema.update(object_schema(tables));
  schema["required"] = {"measure"};
  schema["allOf"] = Json::array({needs_rise_or_lengths()});
  schema["if"] = is_pad();
  schema["then"] = {{"properties", keys_refused_by(FormKind::pad)}};
  schema["else"] = block_rules();
  return schema.dump(2) + "\n";
}

}  // namespace crownwright::order
