#include "order/keys.h"

#include <algorithm>

#include "order/binding.h"
#include "order/mill_keys.h"
#include "order/optional_tables.h"
#include "order/pattern_keys.h"
#include "order/print_keys.h"

namespace crownwright::order {
namespace {

using binding::member;
using binding::own;
using binding::text;
using binding::word;
using Keys = std::vector<Key>;
using Words = std::vector<std::string_view>;

const Words taken_at_words = {"outside", "cloth middle", "form"};
const Words kind_words = {"block", "pad"};
const Words edge_words = {"chamfer", "round"};
const Words format_words = {"stl", "obj", "ply"};

// ---- bindings that are more than one member --------------------------------------------------

// A girth that came from a hat size is saved as the hat size.
Binding head_girth() {
  Binding plain = member(&Order::measure, &Measure::head_girth);
  return {plain.set, [plain](const Order& order) {
            return order.measure.hat_size.empty() ? plain.get(order) : std::nullopt;
          }};
}

Binding wall() {
  return {[](Order& order, const KeyValue& value) {
            const Length* thickness = std::get_if<Length>(&value);
            order.form.wall = thickness ? std::optional<Length>(*thickness) : std::nullopt;
          },
          [](const Order& order) -> std::optional<KeyValue> {
            if (!order.form.wall) return text("solid");
            return KeyValue(*order.form.wall);
          }};
}

// The STL is always made, so it is put in where only others were asked for.
Binding formats() {
  return {[](Order& order, const KeyValue& value) {
            auto& formats = order.mesh.formats;
            formats.clear();
            for (const std::string& one : std::get<std::vector<std::string>>(value)) {
              formats.push_back(binding::from_word<MeshFormat>(format_words, one));
            }
            if (std::find(formats.begin(), formats.end(), MeshFormat::stl) == formats.end()) {
              formats.insert(formats.begin(), MeshFormat::stl);
            }
          },
          [](const Order& order) -> std::optional<KeyValue> {
            std::vector<std::string> words;
            for (const MeshFormat one : order.mesh.formats)
              words.push_back(binding::to_word(format_words, one));
            return KeyValue(words);
          }};
}

// ---- the table -------------------------------------------------------------------------------
// Ranges are wide: they keep out slips of unit and figures no form can be made with. What fits together is
// found out when the meridian is solved.

Keys name_keys() {
  return {
      {.name = "name",
       .range = Range{1, 120, "an empty name names nothing", "a longer name fits no label"},
       .example = "\"Market beret, medium\"",
       .help =
           "What the form is called, in the report and on the work sheet. Without it the order file's name.",
       .at = own(&Order::name)}};
}

Keys measure_keys() {
  return {
      {.table = "measure",
       .name = "head_girth",
       .type = KeyType::length,
       .range = Range{200, 900, "even a newborn's head is some 320 mm round; below 200 mm it is a doll's",
                      "the largest of some 6,000 adult heads measured in 2012 was 635 mm round; above 900 mm "
                      "there is no head"},
       .example = "\"57 cm\"",
       .help =
           "Girth of the finished head opening. Lay the tape level round the head, above the ears and over "
           "the "
           "widest part of the back of the head, snug but not tight; or measure the inside of a band that "
           "fits. A block needs it, or hat_size; a pad and a drawn pattern can do without.",
       .at = head_girth()},
      {.table = "measure",
       .name = "hat_size",
       .range = Range{1, 40, "an empty size says nothing", "no hat size is that long"},
       .example = "\"US 7 1/8\"",
       .help = "The head girth as a hat size: \"US 7 1/8\", \"UK 7\", \"EU 57\". Instead of head_girth, not "
               "beside it.",
       .at = member(&Order::measure, &Measure::hat_size)},
      {.table = "measure",
       .name = "crown_diameter",
       .type = KeyType::length,
       .range = Range{80, 500, "a crown under 80 mm has no room for a head line",
                      "a crown over 500 mm does not stand out by itself and fits no home printer"},
       .example = "\"28 cm\"",
       .help =
           "Greatest width of the crown. Lay the beret flat, smooth it without pulling, and measure straight "
           "across the tip from edge to edge, twice at right angles; take the mean.",
       .at = member(&Order::measure, &Measure::crown_diameter)},
      {.table = "measure",
       .name = "rise",
       .type = KeyType::length,
       .range = Range{5, 250, "a rise under 5 mm leaves no room for an edge",
                      "a crown that rises over 250 mm is no beret: mind the unit"},
       .example = "\"7.5 cm\"",
       .help =
           "Height from the head line (where crown meets band) to the tip, as the beret is to stand on the "
           "form. Stand a ruler upright beside the worn or stuffed beret and lay a second one level across "
           "the tip. For a pad: its thickness from flat foot to tip. Can be left out when panel lengths are "
           "given.",
       .at = member(&Order::measure, &Measure::rise)},
      {.table = "measure",
       .name = "taken_at",
       .type = KeyType::choice,
       .choices = taken_at_words,
       .preset = text("outside"),
       .example = "\"outside\"",
       .help =
           "Where the tape was held: \"outside\" on the finished beret, \"cloth middle\" for the seam lines "
           "of a drafted pattern, \"form\" when the figures are the form's own. From the first two the "
           "cloth's "
           "thickness is taken off. Beside a drawn pattern it is always \"cloth middle\".",
       .at = word(&Order::measure, &Measure::taken_at, taken_at_words)},
      {.table = "measure",
       .name = "before_steam",
       .type = KeyType::boolean,
       .preset = KeyValue(false),
       .example = "false",
       .help = "true when the figures are those of the sewn beret before steaming, so that the cloth's heat "
               "shrink "
               "still has to be taken off.",
       .at = member(&Order::measure, &Measure::before_steam)},
  };
}

Keys panel_length_keys() {
  return {
      {.table = "panel_lengths",
       .name = "top",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range =
           Range{20, 400, "under 20 mm there is no crown", "over 400 mm no crown reaches: mind the unit"},
       .example = "\"151.6 mm\"",
       .help =
           "Length along the middle of one panel from the tip to the crown edge, where the crown is widest. "
           "Measure on the drafted pattern, seam allowance left out. With it the edge radius follows from "
           "the "
           "pattern instead of the shape.",
       .at = member(&Order::panel_lengths, &PanelLengths::top)},
      {.table = "panel_lengths",
       .name = "under",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range =
           Range{1, 300, "under 1 mm nothing can be sewn", "over 300 mm no underside reaches: mind the unit"},
       .example = "\"71.5 mm\"",
       .help =
           "Length along the middle of one panel from the crown edge to the head line, measured as top is.",
       .at = member(&Order::panel_lengths, &PanelLengths::under)},
  };
}

Keys shape_keys() {
  return {
      {.table = "shape",
       .name = "profile",
       .type = KeyType::profile,
       .preset = text("soft-dome"),
       .example = "\"soft-dome\"",
       .help = "The crown's shape, a file in profiles/shapes. It gives dome and edges as parts of the crown "
               "radius; "
               "the keys below override it.",
       .at = member(&Order::shape, &Shape::profile)},
      {.table = "shape",
       .name = "dome",
       .type = KeyType::length,
       .range = Range{0, 250, "a hollow tip cannot be pressed", "no crown is that high: mind the unit"},
       .example = "\"6 mm\"",
       .help = "How far the tip stands above the beginning of the edge; 0 mm is flat. Lay a ruler across the "
               "crown's "
               "flat part and measure what is missing under its ends.",
       .at = member(&Order::shape, &Shape::dome)},
      {.table = "shape",
       .name = "edge_radius",
       .type = KeyType::length,
       .range = Range{0, 250, "a radius cannot be negative; 0 mm is a sharp edge",
                      "an edge cannot be rounder than the largest crown"},
       .example = "\"20 mm\"",
       .help = "Radius of the roundness where the crown turns down; also of its underside unless "
               "under_edge_radius is given. Hold coins or cups against the edge until one fits; half its "
               "width is "
               "the radius.",
       .at = member(&Order::shape, &Shape::edge_radius)},
      {.table = "shape",
       .name = "under_edge_radius",
       .type = KeyType::length,
       .range = Range{0, 250, "a radius cannot be negative; 0 mm is a sharp edge",
                      "an edge cannot be rounder than the largest crown"},
       .example = "\"20 mm\"",
       .help = "Radius of the roundness below the widest part alone.",
       .at = member(&Order::shape, &Shape::under_edge_radius)},
  };
}

Keys cloth_keys() {
  return {
      {.table = "cloth",
       .name = "name",
       .type = KeyType::profile,
       .example = "\"fleece\"",
       .help = "The cloth, a file in profiles/cloth with its thickness, heat shrink, stretch and ease.",
       .at = member(&Order::cloth, &Cloth::name)},
      {.table = "cloth",
       .name = "thickness",
       .type = KeyType::length,
       .range = Range{0, 15, "cloth cannot be thinner than nothing",
                      "no cloth for a beret is thicker than 15 mm with its lining: mind the unit"},
       .example = "\"3 mm\"",
       .help = "Thickness of everything that lies over the form: cloth, interlining and lining. Lay ten "
               "layers under a "
               "light book, measure and divide by ten. Overrides the profile.",
       .at = member(&Order::cloth, &Cloth::thickness)},
      {.table = "cloth",
       .name = "heat_shrink",
       .type = KeyType::fraction,
       .range =
           Range{0, 0.25, "cloth that grows under steam cannot be pressed to a form",
                 "cloth that loses more than a quarter is being felted, not pressed; 2 % is written 0.02"},
       .example = "0.02",
       .help = "What hot steam takes from every length, as a fraction: 0.02 for 2 %. Mark a 20 cm square on "
               "a scrap, "
               "steam it as the beret will be, and measure again. Overrides the profile.",
       .at = member(&Order::cloth, &Cloth::heat_shrink)},
  };
}

Keys form_keys() {
  return {
      {.table = "form",
       .name = "kind",
       .type = KeyType::choice,
       .choices = kind_words,
       .preset = text("block"),
       .example = "\"block\"",
       .help = "\"block\": the whole crown down to the head line, with a collar, to pull the beret over. "
               "\"pad\": the "
               "top of the crown alone, which lies in a dish or on the table.",
       .at = word(&Order::form, &Form::kind, kind_words)},
      {.table = "form",
       .name = "wall",
       .type = KeyType::length_or_solid,
       .range =
           Range{0.8, 40, "below 0.8 mm, two lines of a common 0.4 mm nozzle, a home printer leaves gaps",
                 "above 40 mm it is quicker to order it \"solid\""},
       .preset = KeyValue(Length(4, 1)),
       .pad_preset = text("solid"),
       .example = "\"4 mm\"",
       .help = "Thickness of the form's wall, measured square to its surface, or \"solid\". A pad is always "
               "solid.",
       .at = wall()},
      {.table = "form",
       .name = "collar",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{0, 120, "a collar cannot be less than nothing",
                      "from a deeper collar the beret can no longer be taken off"},
       .preset = KeyValue(Length(15, 1)),
       .example = "\"15 mm\"",
       .help = "Depth of the straight part below the head line. The deeper it is, the further the head "
               "opening must "
               "stretch to come off the block.",
       .at = member(&Order::form, &Form::collar)},
      {.table = "form",
       .name = "floor",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{0.8, 60, "below 0.8 mm a home printer leaves gaps",
                      "a thicker floor reaches into the crown"},
       .example = "\"5 mm\"",
       .help = "Thickness of a floor that closes a hollow block's foot. Without it the foot is open.",
       .at = member(&Order::form, &Form::floor)},
      {.table = "form",
       .name = "socket",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{5, 120, "no stand is thinner than 5 mm", "no stand is thicker than 120 mm"},
       .example = "\"25 mm\"",
       .help =
           "Diameter of the hole for a stand, in the middle of the foot. Measure the peg and add 0.4 mm so "
           "that it slides.",
       .at = member(&Order::form, &Form::socket)},
      {.table = "form",
       .name = "socket_depth",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{3, 200, "a stand does not hold in less than 3 mm", "no block is deeper than 200 mm"},
       .example = "\"40 mm\"",
       .help = "How far the stand's peg goes in, measured from the foot.",
       .at = member(&Order::form, &Form::socket_depth)},
      {.table = "form",
       .name = "groove_width",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{1, 20, "no cord lies in less than 1 mm", "a wider groove holds no cord in place"},
       .example = "\"5 mm\"",
       .help = "Width of the cord groove just below the head line, where the cloth is tied down. The cord's "
               "width and "
               "twice the cloth's thickness.",
       .at = member(&Order::form, &Form::groove_width)},
      {.table = "form",
       .name = "groove_depth",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range =
           Range{0.5, 10, "a shallower groove holds no cord", "a deeper groove cuts through common walls"},
       .example = "\"2 mm\"",
       .help = "Depth of the cord groove; its bottom is round.",
       .at = member(&Order::form, &Form::groove_depth)},
      {.table = "form",
       .name = "flange_width",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{2, 100, "a narrower flange holds no clamp", "a wider flange fits no home printer"},
       .example = "\"12 mm\"",
       .help = "How far a ring round the foot stands out, to screw or clamp the block down.",
       .at = member(&Order::form, &Form::flange_width)},
      {.table = "form",
       .name = "flange_thickness",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{0.8, 40, "below 0.8 mm a home printer leaves gaps", "a thicker flange is a collar"},
       .example = "\"4 mm\"",
       .help = "Thickness of that ring.",
       .at = member(&Order::form, &Form::flange_thickness)},
      {.table = "form",
       .name = "foot_edge",
       .type = KeyType::choice,
       .choices = edge_words,
       .preset = text("chamfer"),
       .example = "\"chamfer\"",
       .help = "How the outer edge is broken where the foot meets the bed.",
       .at = word(&Order::form, &Form::foot_edge, edge_words)},
      {.table = "form",
       .name = "foot_edge_size",
       .type = KeyType::length,
       .range = Range{0, 10, "an edge cannot be less than sharp",
                      "a larger one leaves too little foot to stand on"},
       .preset = KeyValue(Length(1, 2)),
       .example = "\"0.5 mm\"",
       .help = "Size of that chamfer or round; 0 mm leaves the edge sharp. 0.5 mm takes away the bulge of a "
               "first "
               "printed layer.",
       .at = member(&Order::form, &Form::foot_edge_size)},
      {.table = "form",
       .name = "posts",
       .type = KeyType::count,
       .taken_by = TakenBy::block,
       .range = Range{0, 12, "a number of posts cannot be negative", "more than 12 posts are a solid block"},
       .example = "4",
       .help =
           "Posts inside a hollow block, from its floor or the foot's plane up to the crown, that keep it "
           "from giving way under the press: 0 for none, or 3 to 12 on a circle.",
       .at = member(&Order::form, &Form::posts)},
      {.table = "form",
       .name = "post_diameter",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{4, 60, "a thinner post bends before it carries", "a thicker post is a wall"},
       .preset = KeyValue(Length(12, 1)),  // chosen: three walls of 4 mm; carries any hand
       .example = "\"12 mm\"",
       .help = "Diameter of those posts.",
       .at = member(&Order::form, &Form::post_diameter)},
  };
}

Keys dish_keys() {
  return {
      {.table = "dish",
       .name = "readings",
       .type = KeyType::readings,
       .taken_by = TakenBy::pad,
       .example = "[[\"0 mm\", \"0 mm\"], [\"90 mm\", \"2 mm\"], [\"130 mm\", \"9 mm\"]]",
       .help = "The dish the pad lies in, as pairs of radius and height above its lowest point. Lay a ruler "
               "across the "
               "rim, measure down to the dish every 20 mm from the middle out, and take each depth from the "
               "greatest.",
       .at = member(&Order::dish, &Dish::readings)},
      {.table = "dish",
       .name = "file",
       .type = KeyType::file,
       .taken_by = TakenBy::pad,
       .range = Range{1, 1000, "an empty name names no file", "no path is that long"},
       .example = "\"dish.stl\"",
       .help =
           "A mesh of the dish, in mm, its axis upright. The path starts from the order's folder. Instead of "
           "readings, not beside them.",
       .at = member(&Order::dish, &Dish::file)},
      {.table = "dish",
       .name = "gap",
       .type = KeyType::length,
       .taken_by = TakenBy::pad,
       .range = Range{0, 50, "a pad cannot reach into its dish",
                      "with a wider gap the dish no longer shapes anything"},
       .example = "\"3 mm\"",
       .help = "Room left between pad and dish for the cover cloth and the crown's cloth.",
       .at = member(&Order::dish, &Dish::gap)},
  };
}

Keys vent_keys() {
  return {
      {.table = "vents",
       .name = "diameter",
       .type = KeyType::length,
       .range = Range{1, 8, "printed holes under 1 mm close up",
                      "holes over 8 mm press their rims into every cloth"},
       .preset = KeyValue(Length(3, 1)),
       .example = "\"3 mm\"",
       .help = "Diameter of the steam vents. Up to 4 mm they leave no mark on common cloth.",
       .at = member(&Order::vents, &Vents::diameter)},
      {.table = "vents",
       .name = "spacing",
       .type = KeyType::length,
       .range = Range{2, 200, "closer vents leave no wall between them",
                      "no crown has room for two at that distance"},
       .preset = KeyValue(Length(25, 1)),
       .example = "\"25 mm\"",
       .help = "Distance from the middle of one vent to the next; more than the diameter.",
       .at = member(&Order::vents, &Vents::spacing)},
      {.table = "vents",
       .name = "margin",
       .type = KeyType::length,
       .range = Range{0, 100, "a vent cannot lie over an edge", "no crown has that much room"},
       .example = "\"8 mm\"",
       .help = "Free distance from a vent's rim to the head line, the foot and other edges.",
       .at = member(&Order::vents, &Vents::margin)},
      {.table = "vents",
       .name = "rim",
       .type = KeyType::length,
       .range = Range{0, 3, "a rim cannot be less than sharp", "a larger rim is a dent the cloth sinks into"},
       .preset = KeyValue(Length(1, 2)),
       .example = "\"0.5 mm\"",
       .help = "How far a vent's rim is broken, so that it does not mark the cloth; 0 mm leaves it sharp.",
       .at = member(&Order::vents, &Vents::rim)},
      {.table = "vents",
       .name = "rim_style",
       .type = KeyType::choice,
       .choices = edge_words,
       .preset = text("round"),
       .example = "\"round\"",
       .help = "How it is broken.",
       .at = word(&Order::vents, &Vents::rim_style, edge_words)},
  };
}

Keys mesh_keys() {
  return {
      {.table = "mesh",
       .name = "chord_tolerance",
       .type = KeyType::length,
       .range = Range{0.002, 0.5, "finer than 0.002 mm is finer than the files' own rounding allows to prove",
                      "coarser than 0.5 mm the facets show through the cloth"},
       .preset = KeyValue(Length(1, 50)),
       .example = "\"0.02 mm\"",
       .help = "How far the flat facets may lie from the true surface, everywhere.",
       .at = member(&Order::mesh, &Mesh::chord_tolerance)},
      {.table = "mesh",
       .name = "formats",
       .type = KeyType::choices,
       .choices = format_words,
       .preset = KeyValue(std::vector<std::string>{"stl"}),
       .example = "[\"stl\", \"ply\"]",
       .help = "Mesh files to write. The STL is always written.",
       .at = formats()},
      {.table = "mesh",
       .name = "ascii",
       .type = KeyType::boolean,
       .preset = KeyValue(false),
       .example = "false",
       .help = "true for STL and PLY as readable text, five times as large.",
       .at = member(&Order::mesh, &Mesh::ascii)},
  };
}

Keys make_all_keys() {
  Keys all;
  for (const auto& part : {name_keys(), measure_keys(), panel_length_keys(), shape_keys(), cloth_keys(),
                           pattern_keys(), piece_keys(), size_keys(), form_keys(), dish_keys(), vent_keys(),
                           print_keys(), press_keys(), mill_keys(), mesh_keys()}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

}  // namespace

std::string Key::path() const {
  return table.empty() ? std::string(name) : std::string(table) + "." + std::string(name);
}

bool Key::is_taken_by(FormKind kind) const {
  return taken_by == TakenBy::both || (taken_by == TakenBy::block) == (kind == FormKind::block);
}

std::optional<KeyValue> Key::default_for(FormKind kind) const {
  if (!is_taken_by(kind)) return std::nullopt;
  return kind == FormKind::pad && pad_preset ? pad_preset : preset;
}

const std::vector<Key>& all_keys() {
  static const Keys keys = make_all_keys();
  return keys;
}

const Key* find_key(std::string_view path) {
  const auto& keys = all_keys();
  const auto found =
      std::find_if(keys.begin(), keys.end(), [&](const Key& key) { return key.path() == path; });
  return found == keys.end() ? nullptr : &*found;
}

const std::vector<std::string>& table_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Key& key : all_keys()) {
      if (!key.table.empty() && (all.empty() || all.back() != key.table)) all.emplace_back(key.table);
    }
    return all;
  }();
  return names;
}

Order default_order(FormKind kind, const std::vector<std::string>& written) {
  Order order;
  for (const std::string& table : written) bring_table(order, table);
  for (const Key& key : all_keys()) {
    if (is_optional_table(key.table) && !has_table(order, key.table)) continue;
    if (const auto value = key.default_for(kind)) key.at.set(order, *value);
  }
  order.form.kind = kind;
  return order;
}

std::string_view unit_of(KeyType type) {
  switch (type) {
    case KeyType::length:
    case KeyType::length_or_solid:
    case KeyType::bed:
    case KeyType::cutter:
    case KeyType::drill:
    case KeyType::sheet_size:
    case KeyType::travel:
      return "mm";
    case KeyType::flow:
      return "g/min";
    case KeyType::force:
      return "N";
    case KeyType::feed:
      return "mm/min";
    case KeyType::turns:
      return "rpm";
    case KeyType::accel:
      return "mm/s2";
    default:
      return {};
  }
}

std::string range_text(const Key& key) {
  if (!key.range) return {};
  const std::string_view name = unit_of(key.type);
  std::string unit(name.empty() ? "" : " ");
  unit += name;
  return number_text(key.range->low, 6) + unit + " to " + number_text(key.range->high, 6) + unit;
}

}  // namespace crownwright::order
