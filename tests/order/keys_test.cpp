#include "order/keys.h"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "order/reader.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

const std::string wide_measure = "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\n";
const std::string discs =
    "kind = \"discs\"\ntop_diameter = \"30 cm\"\nring_diameter = \"30 cm\"\nring_opening = \"16 cm\"\n";
const std::string stations =
    "kind = \"stations\"\npanels = 8\nstations = [[\"0 mm\", \"0 mm\"], [\"60 mm\", \"47 mm\"], [\"135 mm\", "
    "\"106 mm\"], [\"205 mm\", \"71 mm\"]]\n";
const std::string outline = "kind = \"outline\"\nfile = \"panel.svg\"\npanels = 8\n";
const std::string steps = "smaller = 1\nlarger = 1\nhead_step = \"1 cm\"\n";

/// What has to stand beside a key; lines that write the key itself are left out.
const std::map<std::string, std::string> beside = {
    {"panel_lengths.top", "under = \"71.5 mm\"\n"},
    {"panel_lengths.under", "top = \"151.6 mm\"\n"},
    {"pattern.kind", stations},
    {"pattern.includes_allowance", stations + "seam_allowance = \"5 mm\"\n"},
    {"pattern.stations", stations},
    {"pattern.file", outline},
    {"pattern.layer", outline},
    {"pattern.fold", outline},
    {"pattern.drawing_unit", outline},
    {"pattern.top_diameter", discs},
    {"pattern.ring_diameter", discs},
    {"pattern.ring_opening", discs},
    {"pattern.seam_tape", "panels = 8\n"},
    {"pattern.seam_tape_thickness", "panels = 8\nseam_tape = \"12 mm\"\n"},
    {"draft.pieces", "[pattern]\npanels = 8\n"},
    {"band.elastic", "elastic_stretched = \"15 cm\"\n"},
    {"band.elastic_stretched", "elastic = \"10 cm\"\n"},
    {"sizes.smaller", steps},
    {"sizes.larger", steps},
    {"sizes.head_step", steps},
    {"sizes.crown_step", steps},
    {"sizes.rise_step", steps},
    {"form.socket", "floor = \"5 mm\"\n"},
    {"form.socket_depth", "floor = \"5 mm\"\nsocket = \"25 mm\"\n"},
    {"form.groove_width", "groove_depth = \"2 mm\"\n"},
    {"form.groove_depth", "groove_width = \"5 mm\"\n"},
    {"form.flange_width", "flange_thickness = \"4 mm\"\n"},
    {"form.flange_thickness", "flange_width = \"12 mm\"\n"},
    {"form.post_diameter", "posts = 4\n"},
    {"mill.drill_flute", "drill = \"3 mm\"\n"},
    {"dish.gap", "file = \"dish.stl\"\n"},
};

std::string without(const std::string& lines, const std::string& name) {
  std::istringstream in(lines);
  std::string text, line;
  while (std::getline(in, line)) {
    if (line.rfind(name + " = ", 0) != 0) text += line + "\n";
  }
  return text;
}

// An order of the right kind with one more key in it, as the table's own example writes it.
std::string order_with(const Key& key) {
  const bool pad = key.taken_by == TakenBy::pad;
  const std::string name(key.name), table(key.table);
  const std::string line = name + " = " + std::string(key.example) + "\n";
  const auto at = beside.find(key.path());
  const std::string other = at == beside.end() ? "" : without(at->second, name);
  std::string measure = wide_measure;
  if (key.name == "hat_size" || pad) measure = without(measure, "head_girth");
  if (table != "panel_lengths") measure += "rise = \"7.5 cm\"\n";
  const std::string kind = pad ? "[form]\nkind = \"pad\"\n" : "";
  if (table.empty()) return line + measure;
  if (table == "measure") return without(measure, name) + line;
  return measure + "[" + table + "]\n" + line + other + kind;
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
                                             "pattern.kind",
                                             "pattern.panels",
                                             "pattern.seam_allowance",
                                             "pattern.includes_allowance",
                                             "pattern.stations",
                                             "pattern.file",
                                             "pattern.layer",
                                             "pattern.fold",
                                             "pattern.drawing_unit",
                                             "pattern.top_diameter",
                                             "pattern.ring_diameter",
                                             "pattern.ring_opening",
                                             "pattern.length_along",
                                             "pattern.seam_tape",
                                             "pattern.seam_tape_thickness",
                                             "draft.pieces",
                                             "band.depth",
                                             "band.strips",
                                             "band.elastic",
                                             "band.elastic_stretched",
                                             "band.stretch",
                                             "cover.tuck",
                                             "cover.casing",
                                             "sizes.list",
                                             "sizes.hat_sizes",
                                             "sizes.smaller",
                                             "sizes.larger",
                                             "sizes.head_step",
                                             "sizes.crown_step",
                                             "sizes.rise_step",
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
                                             "form.posts",
                                             "form.post_diameter",
                                             "dish.readings",
                                             "dish.file",
                                             "dish.gap",
                                             "vents.diameter",
                                             "vents.spacing",
                                             "vents.margin",
                                             "vents.rim",
                                             "vents.rim_style",
                                             "print.material",
                                             "print.bed",
                                             "print.printer",
                                             "print.nozzle",
                                             "print.infill",
                                             "print.licence",
                                             "print.split",
                                             "print.dowel",
                                             "print.dowel_clearance",
                                             "print.glue_gap",
                                             "puzzle.pieces",
                                             "puzzle.cap",
                                             "puzzle.clearance",
                                             "stack.sheet",
                                             "stack.outline",
                                             "stack.hole",
                                             "marks.text",
                                             "marks.depth",
                                             "press.heat",
                                             "press.iron",
                                             "press.press_cloth",
                                             "press.steam_flow",
                                             "press.load",
                                             "press.accept_risk",
                                             "mill.material",
                                             "mill.tool",
                                             "mill.rough_tool",
                                             "mill.drill",
                                             "mill.flute",
                                             "mill.stick_out",
                                             "mill.holder",
                                             "mill.drill_flute",
                                             "mill.edges",
                                             "mill.stock_sheets",
                                             "mill.stock_size",
                                             "mill.setup",
                                             "mill.scallop",
                                             "mill.step_down",
                                             "mill.step_over",
                                             "mill.feed",
                                             "mill.spindle",
                                             "mill.accel",
                                             "mill.travel",
                                             "mill.spoilboard",
                                             "mill.dialect",
                                             "mill.cell",
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
    const bool chosen = key.type == KeyType::choice || key.type == KeyType::choices ||
                        key.type == KeyType::count_or_word || key.type == KeyType::cutter;
    EXPECT_EQ(chosen, !key.choices.empty());
    const bool measured = !unit_of(key.type).empty() || key.type == KeyType::fraction ||
                          key.type == KeyType::count || key.type == KeyType::text ||
                          key.type == KeyType::file;
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
