#include "order/schema.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "base/table.h"
#include "order/keys.h"
#include "order/order_support.h"
#include "order/reader.h"
#include "order/saver.h"
#include "order/small_schema.h"
#include "support/seed.h"

using namespace crownwright;
using namespace crownwright::order;
using test::Json;
using test::SmallSchema;

namespace {

Json schema() { return Json::parse(order_schema()); }

// TOML and JSON hold the same kinds of values, dates apart, which no order takes.
Json json_of(const TableValue& value) {
  switch (value.kind) {
    case ValueKind::text:
      return value.text;
    case ValueKind::integer:
      return value.integer;
    case ValueKind::number:
      return value.number;
    case ValueKind::boolean:
      return value.boolean;
    case ValueKind::date:
      return nullptr;
    case ValueKind::list: {
      Json list = Json::array();
      for (const TableValue& item : value.items) list.push_back(json_of(item));
      return list;
    }
    case ValueKind::table:
      break;
  }
  Json object = Json::object();
  for (const TableEntry& entry : value.entries) object[entry.key] = json_of(entry.value);
  return object;
}

Json json_of_toml(const std::string& text) {
  const auto table = parse_table(text, "test.toml");
  EXPECT_TRUE(table.ok()) << (table.ok() ? "" : table.fault().line());
  return table.ok() ? json_of(table->root) : Json();
}

std::string fault_of(const Json& order) { return SmallSchema::fault(schema(), order).value_or("none"); }

}  // namespace

TEST(Schema, HoldsExactlyTheKeysOfTheTable) {
  const Json all = schema();
  EXPECT_EQ(all["$schema"], "https://json-schema.org/draft/2020-12/schema");
  std::vector<std::string> in_schema, in_table;
  for (const auto& [name, one] : all["properties"].items()) {
    if (!one.contains("properties")) in_schema.push_back(name);
    if (!one.contains("properties")) continue;
    EXPECT_EQ(one.value("additionalProperties", Json()), Json(false)) << name;
    for (const auto& [key, content] : one["properties"].items()) in_schema.push_back(name + "." + key);
  }
  for (const Key& key : all_keys()) in_table.push_back(key.path());
  EXPECT_EQ(in_schema, in_table);
}

TEST(Schema, SaysOfEveryKeyWhatItIsAndItsDefaultFits) {
  for (const Key& key : all_keys()) {
    SCOPED_TRACE(key.path());
    Json one = schema()["properties"];
    one = key.table.empty() ? one["name"] : one[std::string(key.table)]["properties"][std::string(key.name)];
    EXPECT_EQ(one["description"], std::string(key.help));
    if (key.type == KeyType::length) {
      EXPECT_EQ(one["x-unit"], "mm");
      EXPECT_EQ(one["x-range"]["maximum"], key.range->high);
    }
    ASSERT_EQ(one.contains("default"), key.default_for(FormKind::block).has_value());
    if (one.contains("default")) {
      EXPECT_EQ(SmallSchema::fault(one, one["default"]).value_or("none"), "none");
    }
    const Json example = json_of_toml("x = " + std::string(key.example))["x"];
    EXPECT_EQ(SmallSchema::fault(one, example).value_or("none"), "none") << example;
  }
}

TEST(Schema, TakesEverySample) {
  for (const auto& file : test::files_in(std::filesystem::path(CW_SOURCE_DIR) / "samples")) {
    EXPECT_EQ(fault_of(json_of_toml(test::bytes_of(file))), "none") << file;
  }
}

TEST(Schema, TakesEveryOrderThatTheReaderTakes) {
  SCOPED_TRACE(test::seed_note());
  test::OrderWriter writer(test::seed() + 1);
  const Json all = schema();
  int taken = 0;
  for (int i = 0; i < 400; ++i) {
    const std::string text = writer.next();
    const auto order = read_order_text(text, "random.toml");
    if (!order.ok()) continue;
    ++taken;
    ASSERT_EQ(SmallSchema::fault(all, json_of_toml(text)).value_or("none"), "none") << text;
    ASSERT_EQ(SmallSchema::fault(all, json_of_toml(order_text(*order))).value_or("none"), "none") << text;
  }
  EXPECT_GT(taken, 40);
}

// Wrong keys, wrong types, missing keys and keys that do not go together are all known to the schema.
TEST(Schema, RefusesBrokenOrders) {
  int refused = 0;
  for (const auto& file : test::files_in(std::filesystem::path(CW_TEST_DIR) / "cases" / "orders")) {
    const std::string name = file.filename().string();
    const bool known = name.rfind("unknown_", 0) == 0 || name.rfind("type_", 0) == 0 ||
                       name.rfind("missing_", 0) == 0 || name.rfind("number_p", 0) == 0;
    if (!known) continue;
    EXPECT_NE(fault_of(json_of_toml(test::bytes_of(file))), "none") << name;
    ++refused;
  }
  EXPECT_GT(refused, 25);
}

TEST(Schema, KnowsWhatDoesNotGoTogether) {
  for (const char* name : {"together_girth_and_size",
                           "together_collar_of_pad",
                           "together_groove_of_pad",
                           "together_dish_of_block",
                           "together_lengths_of_pad",
                           "together_socket_depth_alone",
                           "together_groove_half",
                           "together_flange_half",
                           "together_readings_and_file",
                           "together_empty_dish_of_block",
                           "pattern_file_without_kind",
                           "pattern_stations_without_kind",
                           "pattern_includes_without_kind",
                           "pattern_file_of_stations",
                           "pattern_stations_of_discs",
                           "pattern_discs_of_outline",
                           "pattern_taken_outside",
                           "pattern_panel_lengths",
                           "pattern_panel_lengths_empty",
                           "pattern_edge_radius",
                           "pattern_under_edge_radius",
                           "pattern_tape_without_panels",
                           "pattern_tape_thickness_alone",
                           "draft_without_panels",
                           "draft_three_panels",
                           "draft_many_panels",
                           "draft_of_pad_without_cover",
                           "band_of_pad",
                           "band_empty_of_pad",
                           "band_elastic_alone",
                           "cover_of_block",
                           "cover_empty_of_block",
                           "print_bed_and_printer",
                           "print_bed_two_sides",
                           "print_bed_no_unit",
                           "posts_two",
                           "posts_of_pad",
                           "posts_diameter_alone",
                           "puzzle_of_pad",
                           "puzzle_empty_of_pad",
                           "puzzle_pieces_six",
                           "puzzle_pieces_quoted",
                           "puzzle_pieces_float",
                           "press_flow_bare",
                           "press_flow_unit",
                           "press_load_kg",
                           "press_iron_number",
                           "press_risk_short",
                           "mill_drill_flute_alone",
                           "mill_tool_flat",
                           "mill_tool_no_shape",
                           "mill_feed_unit",
                           "mill_feed_bare",
                           "mill_stock_size_three",
                           "mill_travel_two",
                           "mill_dialect_word",
                           "mill_setup_word",
                           "mill_edges_zero",
                           "mill_edges_text",
                           "mill_spindle_hz",
                           "sizes_list_and_hats",
                           "sizes_list_and_head_step",
                           "sizes_hats_and_steps",
                           "sizes_without_head_step",
                           "sizes_crown_step_alone",
                           "sizes_of_drawn_panel",
                           "sizes_of_drawn_discs",
                           "sizes_name_path",
                           "sizes_name_dash",
                           "sizes_name_blank",
                           "sizes_name_long",
                           "sizes_row_short",
                           "sizes_list_empty",
                           "sizes_list_sixty_one"}) {
    const auto file = std::filesystem::path(CW_TEST_DIR) / "cases" / "orders" / (std::string(name) + ".toml");
    EXPECT_NE(fault_of(json_of_toml(test::bytes_of(file))), "none") << name;
  }
}

// The pattern of a length takes all that the reader takes.
TEST(Schema, LengthPatternTakesEveryWayToWriteALength) {
  const Json length = schema()["properties"]["measure"]["properties"]["rise"];
  for (const char* text :
       {"280 mm", "28 cm", "0.28 m", "11 in", "10 1/2 in", "3/8 in", "7/8\"", "10½ in", "10½″", "10-1/2 in",
        "28cm", ".5 in", "11 inches", "1 inch", "-3 mm", "+3 mm", " 3 mm "}) {
    ASSERT_TRUE(parse_length(text).ok()) << text;
    EXPECT_EQ(SmallSchema::fault(length, text).value_or("none"), "none");
  }
  for (const char* text : {"280", "28,5 cm", "1 ft", "nan mm", "", "mm", "1e3 mm", "3/ in", "0x10 mm"}) {
    ASSERT_FALSE(parse_length(text).ok()) << text;
    EXPECT_NE(SmallSchema::fault(length, text).value_or("none"), "none") << text;
  }
}
