#include "order/mill_keys.h"

#include "order/binding.h"

namespace crownwright::order {
namespace {

using binding::member;
using binding::text;
using binding::word;

const std::vector<std::string_view> ball_alone = {"ball"};
const std::vector<std::string_view> ball_or_flat = {"ball", "flat"};
const std::vector<std::string_view> setup_words = {"auto", "one", "tiers", "turn-over"};
const std::vector<std::string_view> dialect_words = {"rs274", "plain"};

constexpr Range cutter_range = {1, 32, "a thinner cutter breaks before a form is done",
                                "no small router holds a thicker cutter: mind the unit"};

// Defaults where no source is named: common practice of small routers, no source.

std::vector<Key> tool_keys() {
  return {
      {.table = "mill",
       .name = "material",
       .type = KeyType::profile,
       .preset = text("pu-board-200"),
       .example = "\"pu-board-200\"",
       .help = "What is milled, a file in profiles/materials that tells chip load, steps and cautions. The "
               "table alone asks for programs for a small three-axis router.",
       .at = member(&Order::mill, &Mill::material)},
      {.table = "mill",
       .name = "tool",
       .type = KeyType::cutter,
       .range = cutter_range,
       .choices = ball_alone,
       .preset = KeyValue(Cutter{Length(6, 1), CutterShape::ball}),
       .example = "\"6 mm ball\"",
       .help = "The tool that finishes the form: a ball, with the diameter of its cutting edges.",
       .at = member(&Order::mill, &Mill::tool)},
      {.table = "mill",
       .name = "rough_tool",
       .type = KeyType::cutter,
       .range = cutter_range,
       .choices = ball_or_flat,
       .example = "\"6 mm flat\"",
       .help = "The tool that takes the bulk away before: \"ball\", or \"flat\" for a square end. Without it "
               "the finishing tool does both.",
       .at = member(&Order::mill, &Mill::rough_tool)},
      {.table = "mill",
       .name = "drill",
       .type = KeyType::drill,
       .range = Range{1, 13, "a thinner drill wanders and breaks",
                      "no vent or dowel of a form is that wide: mind the unit"},
       .example = "\"3 mm\"",
       .help = "Diameter of a drill for upright vents and dowel holes. Without it they are left to hand and "
               "a printed template.",
       .at = member(&Order::mill, &Mill::drill)},
      {.table = "mill",
       .name = "flute",
       .type = KeyType::length,
       .range = Range{1, 200, "shorter edges cut nothing", "no small router's tool is that long"},
       .preset = KeyValue(Length(25, 1)),
       .example = "\"25 mm\"",
       .help = "Length of the tools' cutting edges, from the tip up.",
       .at = member(&Order::mill, &Mill::flute)},
      {.table = "mill",
       .name = "stick_out",
       .type = KeyType::length,
       .range = Range{3, 250, "a tool that hardly leaves its holder reaches nothing",
                      "a tool that stands out further bends and chatters: mind the unit"},
       .preset = KeyValue(Length(60, 1)),
       .example = "\"60 mm\"",
       .help = "How far the tools stand out of their holder, from the tip up. Measure the tool as it is "
               "clamped.",
       .at = member(&Order::mill, &Mill::stick_out)},
      {.table = "mill",
       .name = "holder",
       .type = KeyType::length,
       .range = Range{3, 150, "a thinner holder is a tool's own shank", "no small router's nut is that wide"},
       .preset = KeyValue(Length(25, 1)),
       .example = "\"25 mm\"",
       .help = "Greatest diameter of what holds the tool: collet nut or chuck.",
       .at = member(&Order::mill, &Mill::holder)},
      {.table = "mill",
       .name = "drill_flute",
       .type = KeyType::length,
       .range = Range{1, 200, "a shorter flute drills nothing", "no small router's drill is that long"},
       .example = "\"40 mm\"",
       .help = "Length of the drill's flute, which is how deep it may go. Without it as flute.",
       .at = member(&Order::mill, &Mill::drill_flute)},
      {.table = "mill",
       .name = "edges",
       .type = KeyType::count,
       .range = Range{1, 8, "a tool without an edge cuts nothing",
                      "more edges than 8 leave no room for the chips"},
       .preset = KeyValue(2),
       .example = "2",
       .help = "How many cutting edges the tools have.",
       .at = member(&Order::mill, &Mill::edges)},
  };
}

std::vector<Key> stock_keys() {
  return {
      {.table = "mill",
       .name = "stock_sheets",
       .type = KeyType::length,
       .range = Range{3, 200, "from thinner sheets a form has too many glue lines",
                      "no sheet is that thick: mind the unit"},
       .preset = KeyValue(Length(25, 1)),
       .example = "\"25 mm\"",
       .help = "Thickness of one sheet of the stock, measured with a caliper: boards are seldom what their "
               "label says.",
       .at = member(&Order::mill, &Mill::stock_sheets)},
      {.table = "mill",
       .name = "stock_size",
       .type = KeyType::sheet_size,
       .range = Range{20, 3000, "from a smaller sheet no form can be cut",
                      "no sheet that fits a small router is that large: mind the unit"},
       .example = "\"300x300 mm\"",
       .help = "Size of the sheets as they are cut: width x depth. Without it the smallest that serves.",
       .at = member(&Order::mill, &Mill::stock_size)},
      {.table = "mill",
       .name = "setup",
       .type = KeyType::choice,
       .choices = setup_words,
       .preset = text("auto"),
       .example = "\"auto\"",
       .help = "How the form lies while it is cut. \"one\": all from above. \"tiers\": in slabs, each cut by "
               "itself and glued afterwards. \"turn-over\": from below, then from above. \"auto\": a pad in "
               "one, a block in tiers.",
       .at = word(&Order::mill, &Mill::setup, setup_words)},
  };
}

std::vector<Key> cut_keys() {
  return {
      {.table = "mill",
       .name = "scallop",
       .type = KeyType::length,
       .range = Range{0.005, 1, "finer than 0.005 mm no program on a small router is",
                      "over 1 mm the steps show through every cloth"},
       .preset = KeyValue(Length(1, 20)),
       .example = "\"0.05 mm\"",
       .help = "Greatest height of the ridges that the ball leaves between two passes, square to the "
               "surface. Half of it takes 1.4 times as long.",
       .at = member(&Order::mill, &Mill::scallop)},
      {.table = "mill",
       .name = "step_down",
       .type = KeyType::length,
       .range = Range{0.05, 100, "a smaller step down only rubs",
                      "no small router cuts that deep at once: mind the unit"},
       .example = "\"6 mm\"",
       .help = "How deep roughing goes at once. Without it as the material's profile says.",
       .at = member(&Order::mill, &Mill::step_down)},
      {.table = "mill",
       .name = "step_over",
       .type = KeyType::length,
       .range = Range{0.05, 30, "a smaller step over only rubs",
                      "no small router cuts that wide at once: mind the unit"},
       .example = "\"2.4 mm\"",
       .help = "Distance between two passes of roughing. Without it as the material's profile says.",
       .at = member(&Order::mill, &Mill::step_over)},
      {.table = "mill",
       .name = "feed",
       .type = KeyType::feed,
       .range = Range{10, 20000, "a tool that hardly moves rubs and burns; with no feed it never arrives",
                      "no small router feeds that fast: mind the unit"},
       .example = "\"1200 mm/min\"",
       .help = "Speed of the cut. Without it edges x chip load x turns a minute, by the material's profile.",
       .at = member(&Order::mill, &Mill::feed)},
      {.table = "mill",
       .name = "spindle",
       .type = KeyType::turns,
       .range = Range{500, 60000, "a router's spindle does not turn more slowly",
                      "no router's spindle turns faster: mind the unit"},
       .example = "\"18000 rpm\"",
       .help = "Turns of the spindle a minute, in rpm or 1/min. Without it as the material's profile says.",
       .at = member(&Order::mill, &Mill::spindle)},
  };
}

std::vector<Key> machine_keys() {
  return {
      {.table = "mill",
       .name = "accel",
       .type = KeyType::accel,
       .range = Range{10, 10000, "a machine that slow to start is at a standstill",
                      "no small router starts that fast: mind the unit"},
       .preset = KeyValue(200.0),
       .example = "\"200 mm/s2\"",
       .help = "How fast the machine gains speed, from its settings; for the time that a program takes.",
       .at = member(&Order::mill, &Mill::accel)},
      {.table = "mill",
       .name = "travel",
       .type = KeyType::travel,
       .range = Range{20, 3000, "with less travel no form is cut",
                      "no small router travels that far: mind the unit"},
       .preset = KeyValue(Bed{Length(300, 1), Length(300, 1), Length(80, 1)}),
       .example = "\"300x300x80 mm\"",
       .help = "How far the machine moves in x, y and z.",
       .at = member(&Order::mill, &Mill::travel)},
      {.table = "mill",
       .name = "spoilboard",
       .type = KeyType::length,
       .range = Range{0, 100, "a board cannot be thinner than nothing",
                      "no spoilboard is that thick: mind the unit"},
       .preset = KeyValue(Length(18, 1)),
       .example = "\"18 mm\"",
       .help = "Thickness of the board under the stock. The ball cuts into it by its radius, and at least 3 "
               "mm of it stay whole.",
       .at = member(&Order::mill, &Mill::spoilboard)},
      {.table = "mill",
       .name = "dialect",
       .type = KeyType::choice,
       .choices = dialect_words,
       .preset = text("rs274"),
       .example = "\"rs274\"",
       .help = "\"rs274\": G-code as NISTIR 6556 has it. \"plain\": with as few words as possible, for small "
               "controllers: no arc over half a turn, helices as short lines.",
       .at = word(&Order::mill, &Mill::dialect, dialect_words)},
      {.table = "mill",
       .name = "cell",
       .type = KeyType::length,
       .range = Range{0.05, 1, "finer cells take more memory and time than they tell",
                      "wider cells look past a small fault"},
       .preset = KeyValue(Length(1, 4)),
       .example = "\"0.25 mm\"",
       .help = "Width of the cells in which the programs are tried before they are written. It says where is "
               "looked, not how closely.",
       .at = member(&Order::mill, &Mill::cell)},
  };
}

}  // namespace

std::vector<Key> mill_keys() {
  std::vector<Key> keys = tool_keys();
  for (const auto& part : {stock_keys(), cut_keys(), machine_keys()})
    keys.insert(keys.end(), part.begin(), part.end());
  return keys;
}

}  // namespace crownwright::order
