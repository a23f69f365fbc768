#include "order/keys.h"

#include <gtest/gtest.h>

#include <set>

#include "order/reader.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

// An order of the right kind with one more key in it, as the table's own example writes it.
std::string order_with(const Key& key) {
  const bool pad = key.taken_by == TakenBy::pad;
  std::string measure = "crown_diameter = \"28 cm\"\n";
  if (!pad && key.name != "hat_size") measure += "head_girth = \"57 cm\"\n";
  if (key.table != "panel_lengths") measure += "rise = \"7.5 cm\"\n";
  const std::string line = std::string(key.name) + " = " + std::string(key.example) + "\n";
  if (key.table == "measure" && measure.find(std::string(key.name) + " = ") != std::string::npos)
    return "[measure]\n" + measure;
  if (key.table.empty()) return line + "[measure]\n" + measure;
  if (key.table == "measure") return "[measure]\n" + measure + line;
  std::string text = "[measure]\n" + measure + "[" + std::string(key.table) + "]\n" + line;
  const std::string other = [&]() -> std::string {
    if (key.name == "top") return "under = \"71.5 mm\"\n";
    if (key.name == "under") return "top = \"151.6 mm\"\n";
    if (key.name == "socket") return "floor = \"5 mm\"\n";
    if (key.name == "socket_depth") return "floor = \"5 mm\"\nsocket = \"25 mm\"\n";
    if (key.name == "groove_width") return "groove_depth = \"2 mm\"\n";
    if (key.name == "groove_depth") return "groove_width = \"5 mm\"\n";
    if (key.name == "flange_width") return "flange_thickness = \"4 mm\"\n";
    if (key.name == "flange_thickness") return "flange_width = \"12 mm\"\n";
    if (key.name == "gap") return "file = \"dish.stl\"\n";
    return "";
  }();
  return text + other + (pad ? "[form]\nkind = \"pad\"\n" : "");
}

}  // namespace

// The keys that the command's contract names, typed out here so that none gets lost.
TEST(Keys, HoldEveryKeyOfTheContract) {
  const std::vector<std::string> contract = {"name",
                                             "measure.head_girth",
                                             "measure.hat_size",
                                             "measure.crown_diameter",
                                             "measure.rise",
                                             "measure.taken_at",
                                             "measure.before_steam",
                                             "panel_lengths.top",
                                             "panel_lengths.under",
                                             "shape.profile",
                                             "shape.dome",
                                             "shape.edge_radius",
                                             "shape.under_edge_radius",
                                             "cloth.name",
                                             "cloth.thickness",
                                             "cloth.heat_shrink",
                                             "pattern.panels",
                                             "form.kind",
                                             "form.wall",
                                             "form.collar",
                                             "form.floor",
                                             "form.socket",
                                             "form.socket_depth",
                                             "form.groove_width",
                                             "form.groove_depth",
                                             "form.flange_width",
                                             "form.flange_thickness",
                                             "form.foot_edge",
                                             "form.foot_edge_size",
                                             "dish.readings",
                                             "dish.file",
                                             "dish.gap",
                                             "vents.diameter",
                                             "vents.spacing",
                                             "vents.margin",
                                             "vents.rim",
                                             "vents.rim_style",
                                             "print.material",
                                             "mesh.chord_tolerance",
                                             "mesh.formats",
                                             "mesh.ascii"};
  std::vector<std::string> keys;
  for (const Key& key : all_keys()) keys.push_back(key.path());
  EXPECT_EQ(keys, contract);
}

TEST(Keys, StandOnceAndSayWhatTheyAre) {
  std::set<std::string> seen;
  for (const Key& key : all_keys()) {
    SCOPED_TRACE(key.path());
    EXPECT_TRUE(seen.insert(key.path()).second);
    EXPECT_FALSE(key.example.empty());
    EXPECT_EQ(key.help.empty() ? ' ' : key.help.back(), '.') << "help is made of sentences";
    const bool chosen = key.type == KeyType::choice || key.type == KeyType::choices;
    EXPECT_EQ(chosen, !key.choices.empty());
    const bool measured = key.type == KeyType::length || key.type == KeyType::length_or_solid ||
                          key.type == KeyType::fraction || key.type == KeyType::count ||
                          key.type == KeyType::text;
    ASSERT_EQ(measured, key.range.has_value());
    if (!measured) continue;
    EXPECT_LT(key.range->low, key.range->high);
    EXPECT_FALSE(key.range->why_low.empty());
    EXPECT_FALSE(key.range->why_high.empty());
  }
}

TEST(Keys, TablesStandTogether) {
  const std::set<std::string> once(table_names().begin(), table_names().end());
  EXPECT_EQ(once.size(), table_names().size());
}

// A key that the reader did not take would leave the order as it was.
TEST(Keys, AreAllTakenByTheReaderAsTheirExampleWritesThem) {
  for (const Key& key : all_keys()) {
    SCOPED_TRACE(key.path());
    const auto order = read_order_text(order_with(key), "test.toml");
    ASSERT_TRUE(order.ok()) << order.fault().line() << "\n" << order_with(key);
    EXPECT_TRUE(key.at.get(*order)) << order_with(key);
  }
}

TEST(Keys, GiveBackWhatWasSet) {
  for (const Key& key : all_keys()) {
    SCOPED_TRACE(key.path());
    for (const FormKind kind : {FormKind::block, FormKind::pad}) {
      const auto value = key.default_for(kind);
      if (!value) continue;
      Order order;
      key.at.set(order, *value);
      EXPECT_EQ(key.at.get(order), value);
    }
  }
}
