#include "page/flat_order.h"

#include <gtest/gtest.h>

#include <map>

#include "base/table.h"
#include "order/keys.h"
#include "order/optional_tables.h"
#include "order/reader.h"
#include "page/asked.h"

namespace crownwright::page {
namespace {

using test::Json;

JsonValue flat_of(const Json& order) {
  auto read = read_request(order.dump());
  if (!read) throw std::runtime_error(read.fault().line());
  return *std::move(read);
}

Json saved(const Json& order) { return test::answer_of(test::bench().save(Json{{"order", order}}.dump())); }
Json opened(const std::string& toml) {
  return test::answer_of(test::bench().open(Json{{"toml", toml}}.dump()));
}

/// An order in which the key can stand with its example, by what other keys it needs.
Json order_around(const order::Key& key) {
  const std::string path = key.path();
  const std::string table(key.table);
  const bool pad = key.taken_by == order::TakenBy::pad;
  Json order = pad ? test::small_pad() : test::small_block();
  const Json stations = {
      {"pattern.kind", "stations"},
      {"pattern.panels", "8"},
      {"pattern.includes_allowance", "false"},
      {"pattern.stations",
       "[[\"0 mm\", \"0 mm\"], [\"60 mm\", \"47 mm\"], [\"135 mm\", \"106 mm\"], [\"205 mm\", \"71 mm\"]]"}};
  const Json outline = {{"pattern.kind", "outline"}, {"pattern.panels", "8"}, {"pattern.file", "panel.svg"}};
  const Json discs = {{"pattern.kind", "discs"},
                      {"pattern.top_diameter", "30 cm"},
                      {"pattern.ring_diameter", "30 cm"},
                      {"pattern.ring_opening", "16 cm"}};
  const std::map<std::string, Json> mates = {
      {"measure.hat_size", {{"measure.head_girth", ""}}},
      {"panel_lengths.top", {{"panel_lengths.under", "71.5 mm"}}},
      {"panel_lengths.under", {{"panel_lengths.top", "151.6 mm"}}},
      {"form.socket", {{"form.wall", "solid"}, {"form.socket_depth", "20 mm"}}},
      {"form.socket_depth", {{"form.wall", "solid"}, {"form.socket", "20 mm"}}},
      {"form.groove_width", {{"form.groove_depth", "2 mm"}}},
      {"form.groove_depth", {{"form.groove_width", "5 mm"}}},
      {"form.flange_width", {{"form.flange_thickness", "4 mm"}}},
      {"form.flange_thickness", {{"form.flange_width", "12 mm"}}},
      {"form.post_diameter", {{"form.posts", "4"}}},
      {"dish.file", {}},
      {"dish.gap",
       {{"dish.readings", "[[\"0 mm\", \"0 mm\"], [\"90 mm\", \"2 mm\"], [\"130 mm\", \"9 mm\"]]"}}},
      {"pattern.kind", stations},
      {"pattern.stations", stations},
      {"pattern.includes_allowance", test::with(stations, "pattern.seam_allowance", "10 mm")},
      {"pattern.file", outline},
      {"pattern.layer", outline},
      {"pattern.fold", outline},
      {"pattern.drawing_unit", outline},
      {"pattern.top_diameter", discs},
      {"pattern.ring_diameter", discs},
      {"pattern.ring_opening", discs},
      {"pattern.seam_tape", {{"pattern.panels", "8"}}},
      {"mill.drill_flute", {{"mill.drill", "3 mm"}}},
      {"sizes.smaller", {{"sizes.head_step", "1 cm"}}},
      {"sizes.larger", {{"sizes.head_step", "1 cm"}}},
      {"press.iron", {{"press.heat", "dry"}}},
      {"press.press_cloth", {{"press.heat", "dry"}}},
      {"band.elastic", {{"band.elastic_stretched", "20 cm"}}},
      {"band.elastic_stretched", {{"band.elastic", "8 cm"}}},
      {"pattern.seam_tape_thickness", {{"pattern.panels", "8"}, {"pattern.seam_tape", "10 mm"}}},
      {"sizes.list", {{"measure.head_girth", ""}, {"measure.crown_diameter", ""}}},
      {"sizes.hat_sizes", {{"sizes.head_step", "1 cm"}}},
      {"sizes.head_step", {{"sizes.larger", "1"}, {"sizes.smaller", "1"}}},
      {"sizes.crown_step", {{"sizes.head_step", "1 cm"}, {"sizes.larger", "1"}}},
      {"sizes.rise_step", {{"sizes.head_step", "1 cm"}, {"sizes.larger", "1"}}},
  };
  if (const auto found = mates.find(path); found != mates.end() && found->second.is_object())
    order.update(found->second);
  if (table == "draft" || table == "band") order["pattern.panels"] = "8", order["draft"] = true;
  if (table == "cover") order["draft"] = true;
  if (path == "mesh.chord_tolerance") order.erase(path);
  order[path] = "";
  return order;
}

std::string typed_example(const order::Key& key) {
  const auto table = parse_table("v = " + std::string(key.example), "example");
  const TableValue& value = table->root.entries[0].value;
  return value.kind == ValueKind::text ? value.text : std::string(key.example);
}

// The order files are read by the order's own reader, which knows nothing of the page: the value that it
// finds for the example typed on the page is the one it finds for the example in an order file of one's own.
TEST(FlatOrder, EveryKeyIsSavedAsTypedAndOpenedAgain) {
  int tried = 0;
  for (const order::Key& key : order::all_keys()) {
    const std::string path = key.path();
    SCOPED_TRACE(path);
    const std::string typed = typed_example(key);
    const auto written = written_order(flat_of(test::with(order_around(key), path, typed)));
    ASSERT_TRUE(written.ok()) << written.fault().line();
    const auto table = parse_table(written->toml, "order");
    ASSERT_TRUE(table.ok()) << written->toml;
    const auto example = parse_table("v = " + std::string(key.example), "example");
    const TableValue& wanted = example->root.entries[0].value;
    const TableValue* at = &table->root;
    if (!key.table.empty()) at = &find_entry(*at, key.table)->value;
    const TableEntry* entry = find_entry(*at, key.name);
    ASSERT_NE(entry, nullptr) << written->toml;
    EXPECT_EQ(entry->value.kind, wanted.kind) << written->toml;
    EXPECT_EQ(entry->value.text, wanted.text);
    EXPECT_EQ(entry->value.number, wanted.number);
    EXPECT_EQ(entry->value.boolean, wanted.boolean);
    EXPECT_EQ(entry->value.items.size(), wanted.items.size());
    ++tried;
  }
  EXPECT_GT(tried, 80);
}

TEST(FlatOrder, OpeningWhatWasSavedGivesBackWhatWasTyped) {
  int whole = 0;
  for (const order::Key& key : order::all_keys()) {
    const std::string path = key.path();
    SCOPED_TRACE(path);
    const Json order = test::with(order_around(key), path, typed_example(key));
    const Json answer = saved(order);
    if (!answer["ok"]) {
      ADD_FAILURE() << answer.dump();
      continue;
    }
    const std::string toml = answer["toml"];
    const Json back = opened(toml);
    ASSERT_TRUE(back["ok"]) << back.dump() << toml;
    for (const auto& [name, value] : order.items()) {
      if (value != "") {
        EXPECT_EQ(back["order"].value(name, Json()), value) << name << "\n" << toml;
      }
    }
    EXPECT_EQ(saved(back["order"])["toml"], toml);
    ++whole;
  }
  EXPECT_GT(whole, 80);
}

TEST(FlatOrder, EverySampleOpensAndSavesToTheSameOrder) {
  int samples = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(CW_SOURCE_DIR) + "/samples")) {
    if (entry.path().extension() != ".toml") continue;
    SCOPED_TRACE(entry.path().string());
    const std::string toml = test::contents_of(entry.path());
    const Json order = opened(toml);
    ASSERT_TRUE(order["ok"]) << order.dump();
    const Json answer = saved(order["order"]);
    ASSERT_TRUE(answer["ok"]) << answer.dump();
    const auto theirs = order::read_order_text(toml, "same.toml");
    const auto ours = order::read_order_text(answer["toml"].get<std::string>(), "same.toml");
    ASSERT_TRUE(theirs.ok() && ours.ok());
    EXPECT_EQ(*ours, *theirs);
    ++samples;
  }
  EXPECT_GT(samples, 15);
}

// Whatever is typed for one key, the file holds no other key for it.
TEST(FlatOrder, NothingTypedBecomesAnotherKey) {
  const std::vector<std::string> hostile = {"7.5 cm\"\n[form]\nwall = \"1 mm",
                                            "[]\n[form]\nwall = \"1 mm\"",
                                            "\"\"\"\n",
                                            "'''",
                                            "\\",
                                            "\\\"",
                                            "]",
                                            "[[[",
                                            "{a = 1}",
                                            "# comment",
                                            "[1] # x\ny = 2",
                                            "1979-05-27",
                                            "\xe2\x80\xa8",
                                            "true",
                                            "1e400",
                                            "nan",
                                            "-inf",
                                            std::string("a\0b", 3),
                                            "[\"a\"]\nmeasure = {}",
                                            "\r\n[dish]"};
  for (const order::Key& key : order::all_keys()) {
    for (const std::string& text : hostile) {
      const Json order = test::with(Json{{"measure.rise", "7 cm"}}, key.path(), text);
      const auto written = written_order(flat_of(order));
      if (!written) {
        EXPECT_EQ(written.fault().where, key.path()) << text;
        continue;
      }
      const auto table = parse_table(written->toml, "order");
      ASSERT_TRUE(table.ok()) << key.path() << ": " << text << "\n" << written->toml;
      std::size_t keys = 0;
      for (const TableEntry& entry : table->root.entries)
        keys += entry.value.kind == ValueKind::table ? entry.value.entries.size() : 1;
      EXPECT_LE(keys, key.path() == "measure.rise" ? 1u : 2u) << written->toml;
    }
  }
}

TEST(FlatOrder, FaultsNameTheKey) {
  const auto fault = [](const std::string& path, const Json& value) {
    return test::fault_of(saved(test::with(test::small_block(), path, value)));
  };
  for (const auto& [path, value] : std::map<std::string, Json>{{"measure.rise", "7.5"},
                                                               {"measure.head_girth", "57 parsecs"},
                                                               {"form.wall", "thick"},
                                                               {"pattern.panels", "eight"},
                                                               {"form.kind", "hat"},
                                                               {"measure.before_steam", "perhaps"},
                                                               {"mesh.formats", "stl"},
                                                               {"shape.dome", Json::array({1})},
                                                               {"cloth.heat_shrink", "2 %"}}) {
    EXPECT_EQ(fault(path, value)["where"], path) << fault(path, value).dump();
    EXPECT_EQ(fault(path, value)["exit"], 2);
  }
  EXPECT_EQ(fault("measure.ries", "7 cm")["allowed"], "did you mean measure.rise?");
  EXPECT_EQ(fault("vents", "perhaps")["where"], "vents");
  EXPECT_EQ(fault("measure.rise", std::string(300'000, '7'))["where"], "measure.rise");
  Json missing = test::small_block();
  missing.erase("measure.rise");
  EXPECT_EQ(test::fault_of(saved(missing))["where"], "measure.rise");
}

// A list is one list on one line, however it was typed: lines are what faults are found by.
TEST(FlatOrder, ListsAreWrittenOnOneLine) {
  const auto toml = [](const std::string& typed) {
    return saved(test::with(test::small_block(), "mesh.formats", typed)).value("toml", "");
  };
  EXPECT_NE(toml("[ \"stl\",\n  'ply' ] # both").find("formats = [\"stl\", \"ply\"]\n"), std::string::npos);
  EXPECT_EQ(toml("[\"stl\"]\nascii = true"), "") << "a second key behind the list";
}

TEST(FlatOrder, OpeningABrokenFileNamesItsLine) {
  const Json fault = test::fault_of(opened("[measure]\nhead_girth = \"57 cm\"\nrise = \"7.5\"\n"));
  EXPECT_EQ(fault["where"], "line 3: measure.rise");
  EXPECT_EQ(test::fault_of(opened("[measure\n"))["where"].get<std::string>().rfind("line 1", 0), 0u);
  EXPECT_EQ(test::answer_of(test::bench().open("{\"toml\": 7}"))["ok"], false);
}

TEST(FlatOrder, StemsAreSafeFileNames) {
  EXPECT_EQ(stem_for("Market beret, medium", "x"), "market-beret-medium");
  EXPECT_EQ(stem_for("  28 cm  ", "x"), "28-cm");
  EXPECT_EQ(stem_for("../../etc/passwd", "x"), "etc-passwd");
  EXPECT_EQ(stem_for("\xc3\x89t\xc3\xa9", "x"), "t");
  EXPECT_EQ(stem_for("...", "x"), "x");
  EXPECT_EQ(stem_for(std::string(500, 'a'), "x").size(), 60u);
}

TEST(FlatOrder, TheUnitIsTheOneMostWrittenIn) {
  const auto unit = [](const Json& order) { return unit_of(flat_of(order)); };
  EXPECT_EQ(unit(test::small_block()), "cm");
  EXPECT_EQ(unit({{"measure.rise", "3 in"},
                  {"measure.head_girth", "22 1/2\""},
                  {"measure.crown_diameter", "28 cm"}}),
            "in");
  EXPECT_EQ(unit({{"measure.rise", "75 mm"}, {"measure.head_girth", "570 mm"}}), "mm");
  EXPECT_EQ(unit({{"form.wall", "4 mm"}}), "cm");
}

}  // namespace
}  // namespace crownwright::page
