#include "order/print_keys.h"

#include "order/binding.h"

namespace crownwright::order {
namespace {

using binding::member;
using binding::text;
using binding::word;

const std::vector<std::string_view> split_words = {"auto", "none"};
const std::vector<std::string_view> piece_counts = {"auto", "2", "5", "7", "9"};
const std::vector<std::string_view> cap_words = {"soft", "stiff"};
const std::vector<std::string_view> outline_words = {"inside", "outside", "mean"};
const std::vector<std::string_view> heat_words = {"steam", "dry", "cold"};
const std::vector<std::string_view> iron_words = {"110", "150", "200"};

// A count, or "auto" where the order holds none.
Binding puzzle_pieces() {
  return {[](Order& order, const KeyValue& value) {
            const int* count = std::get_if<int>(&value);
            binding::part_of(order, &Order::puzzle).pieces =
                count ? std::optional<int>(*count) : std::nullopt;
          },
          [](const Order& order) -> std::optional<KeyValue> {
            if (!order.puzzle) return std::nullopt;
            if (!order.puzzle->pieces) return text("auto");
            return KeyValue(*order.puzzle->pieces);
          }};
}

std::vector<Key> printer_keys() {
  return {
      {.table = "print",
       .name = "material",
       .type = KeyType::profile,
       .preset = text("petg"),
       .example = "\"petg\"",
       .help = "What the form is made of, a file in profiles/materials; for its mass and the heat it stands.",
       .at = member(&Order::print, &Print::material)},
      {.table = "print",
       .name = "bed",
       .type = KeyType::bed,
       .range = Range{60, 2000, "on a smaller bed no part of a form has room",
                      "no printer for a workshop has a larger bed: mind the unit"},
       .example = "\"220x220x250 mm\"",
       .help = "The room that the printer has: width x depth x height. A form that does not fit is made in "
               "parts. Without it, and without printer, nothing is cut.",
       .at = member(&Order::print, &Print::bed)},
      {.table = "print",
       .name = "printer",
       .type = KeyType::profile,
       .example = "\"bed-220\"",
       .help = "Instead of bed: a file in profiles/printers that tells it.",
       .at = member(&Order::print, &Print::printer)},
      {.table = "print",
       .name = "nozzle",
       .type = KeyType::length,
       .range =
           Range{0.1, 2, "no nozzle is finer than 0.1 mm", "no nozzle is wider than 2 mm: mind the unit"},
       .preset = KeyValue(Length(2, 5)),
       .example = "\"0.4 mm\"",
       .help = "Width of the printer's nozzle. A wall wants at least two lines of it.",
       .at = member(&Order::print, &Print::nozzle)},
      {.table = "print",
       .name = "infill",
       .type = KeyType::fraction,
       .range = Range{0, 1, "an infill cannot be less than none",
                      "an infill cannot be more than all; 20 % is written 0.2"},
       .preset = KeyValue(0.2),
       .example = "0.2",
       .help =
           "How much of the form's inside is printed, as a fraction: 0.2 for 20 %. For mass and filament.",
       .at = member(&Order::print, &Print::infill)},
      {.table = "print",
       .name = "licence",
       .range = Range{1, 200, "an empty licence says nothing", "no licence's name is that long"},
       .example = "\"CC BY-SA 4.0\"",
       .help =
           "The licence you give your design; it is written into the 3MF file. Without it nothing is said.",
       .at = member(&Order::print, &Print::licence)},
  };
}

std::vector<Key> joint_keys() {
  return {
      {.table = "print",
       .name = "split",
       .type = KeyType::choice,
       .choices = split_words,
       .preset = text("auto"),
       .example = "\"auto\"",
       .help = "\"auto\": a form larger than the bed is cut into parts that fit. \"none\": it is made whole "
               "all the same.",
       .at = word(&Order::print, &Print::split, split_words)},
      {.table = "print",
       .name = "dowel",
       .type = KeyType::length,
       .range =
           Range{2, 20, "a thinner dowel breaks before the glue has set", "a thicker dowel fits no flange"},
       .preset = KeyValue(Length(6, 1)),
       .example = "\"6 mm\"",
       .help = "Diameter of the wooden dowels that hold two parts in place while the glue sets.",
       .at = member(&Order::print, &Print::dowel)},
      {.table = "print",
       .name = "dowel_clearance",
       .type = KeyType::length,
       .range = Range{0.02, 1, "without clearance a dowel does not go into a printed hole",
                      "with more clearance a dowel holds nothing in place"},
       .preset = KeyValue(Length(1, 5)),
       .example = "\"0.2 mm\"",
       .help = "By how much a dowel's hole is wider than the dowel.",
       .at = member(&Order::print, &Print::dowel_clearance)},
      {.table = "print",
       .name = "glue_gap",
       .type = KeyType::length,
       .range = Range{0, 1, "parts cannot overlap: a gap cannot be negative",
                      "a wider gap is no joint: glue does not fill it"},
       .preset = KeyValue(Length(1, 10)),
       .example = "\"0.1 mm\"",
       .help = "Room for the glue between two parts. Their faces are trimmed by it, so that the joined girth "
               "stays.",
       .at = member(&Order::print, &Print::glue_gap)},
  };
}

std::vector<Key> puzzle_keys() {
  return {
      {.table = "puzzle",
       .name = "pieces",
       .type = KeyType::count_or_word,
       .taken_by = TakenBy::block,
       .choices = piece_counts,
       .preset = text("auto"),
       .example = "5",
       .help =
           "The block comes apart inside the beret, for openings that do not stretch over the crown. 2: "
           "crown and a loose collar ring. 5: key, two ends, two sides. 7 or 9: sides, or sides and ends, "
           "cut once more, for caps that may not bend. \"auto\": as few as serve. The table alone asks for "
           "it.",
       .at = puzzle_pieces()},
      {.table = "puzzle",
       .name = "cap",
       .type = KeyType::choice,
       .taken_by = TakenBy::block,
       .choices = cap_words,
       .preset = text("soft"),
       .example = "\"soft\"",
       .help = "\"soft\": the pressed beret may bend while the pieces are taken out. \"stiff\": it may not.",
       .at = word(&Order::puzzle, &Puzzle::cap, cap_words)},
      {.table = "puzzle",
       .name = "clearance",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{0.05, 3, "pieces without clearance do not slide past each other",
                      "a wider joint shows through the cloth"},
       .preset = KeyValue(Length(2, 5)),
       .example = "\"0.4 mm\"",
       .help = "Room between the faces of two pieces.",
       .at = member(&Order::puzzle, &Puzzle::clearance)},
  };
}

std::vector<Key> stack_keys() {
  return {
      {.table = "stack",
       .name = "sheet",
       .type = KeyType::length,
       .range = Range{0.5, 100, "from thinner sheets a form has hundreds of layers",
                      "a thicker sheet is a block: no scissors or knife cuts it"},
       .preset = KeyValue(Length(10, 1)),
       .example = "\"10 mm\"",
       .help = "Thickness of the foam, felt, cork or board that the form is cut from, sheet by sheet. "
               "Templates in true size are drawn for it. The table alone asks for them.",
       .at = member(&Order::stack, &Stack::sheet)},
      {.table = "stack",
       .name = "outline",
       .type = KeyType::choice,
       .choices = outline_words,
       .preset = text("mean"),
       .example = "\"mean\"",
       .help = "Where a sheet's edge lies. \"inside\": nowhere beyond the form, to be covered or filled. "
               "\"outside\": nowhere within it, to be sanded down. \"mean\": between them.",
       .at = word(&Order::stack, &Stack::outline, outline_words)},
      {.table = "stack",
       .name = "hole",
       .type = KeyType::length,
       .range = Range{0, 30, "a hole cannot be less than none", "no skewer is that thick: mind the unit"},
       .preset = KeyValue(Length(4, 1)),
       .example = "\"4 mm\"",
       .help = "Diameter of the hole in the middle of every sheet, for a skewer that lines them up; 0 mm for "
               "none.",
       .at = member(&Order::stack, &Stack::hole)},
  };
}

std::vector<Key> mark_keys() {
  return {
      {.table = "marks",
       .name = "text",
       .range = Range{1, 120, "an empty text marks nothing; \"auto\" writes size, girth and name",
                      "a longer text fits no ring"},
       .preset = text("auto"),
       .example = "\"auto\"",
       .help = "What is engraved on the foot, beside the lines of centre front, quarters and seams: \"auto\" "
               "for size, girth, crown diameter and the order's name, or a text of your own. Never on a "
               "pressing face. The table alone asks for it.",
       .at = member(&Order::marks, &Marks::text)},
      {.table = "marks",
       .name = "depth",
       .type = KeyType::length,
       .range = Range{0.2, 3, "a shallower mark is lost in one printed layer",
                      "a deeper mark cuts into common walls"},
       .preset = KeyValue(Length(3, 5)),
       .example = "\"0.6 mm\"",
       .help = "How deep marks are engraved.",
       .at = member(&Order::marks, &Marks::depth)},
  };
}

void add(std::vector<Key>& keys, const std::vector<Key>& more) {
  keys.insert(keys.end(), more.begin(), more.end());
}

}  // namespace

std::vector<Key> print_keys() {
  std::vector<Key> keys = printer_keys();
  add(keys, joint_keys());
  add(keys, puzzle_keys());
  add(keys, stack_keys());
  add(keys, mark_keys());
  return keys;
}

std::vector<Key> press_keys() {
  return {
      {.table = "press",
       .name = "heat",
       .type = KeyType::choice,
       .choices = heat_words,
       .preset = text("steam"),
       .example = "\"steam\"",
       .help =
           "How the beret is pressed on the form: \"steam\", a \"dry\" iron through a cloth, or \"cold\". "
           "The material is judged by it. The table alone asks for that.",
       .at = word(&Order::press, &Press::heat, heat_words)},
      {.table = "press",
       .name = "iron",
       .type = KeyType::choice,
       .choices = iron_words,
       .example = "\"150\"",
       .help =
           "Hottest the dry iron's sole gets, in degrees Celsius: one, two or three dots of the care label "
           "(ISO 3758). Without it 150.",
       .at = word(&Order::press, &Press::iron, iron_words)},
      {.table = "press",
       .name = "press_cloth",
       .type = KeyType::length,
       .range = Range{0, 15, "a cloth cannot be thinner than nothing",
                      "no press cloth is thicker than 15 mm: mind the unit"},
       .example = "\"1 mm\"",
       .help = "Thickness of the press cloth between dry iron and beret, as it lies there, not pressed. "
               "Without it there is none.",
       .at = member(&Order::press, &Press::press_cloth)},
      {.table = "press",
       .name = "steam_flow",
       .type = KeyType::flow,
       .range = Range{0.1, 2000, "less steam than that presses nothing",
                      "no steamer of a workshop gives more than 2 kg a minute: mind the unit"},
       .preset = KeyValue(30.0),  // common practice of household steamers, no source
       .example = "\"30 g/min\"",
       .help = "How much water the steamer turns into steam. Weigh it before and after five minutes.",
       .at = member(&Order::press, &Press::steam_flow)},
      {.table = "press",
       .name = "load",
       .type = KeyType::force,
       .range = Range{0.1, 20000, "a press without load presses nothing",
                      "no hand or bench press for berets is that strong: mind the unit"},
       .preset = KeyValue(150.0),
       .example = "\"150 N\"",
       .help = "The force on the tip of the crown; 10 N is the weight of about 1 kg.",
       .at = member(&Order::press, &Press::load)},
      {.table = "press",
       .name = "accept_risk",
       .range = Range{10, 400, "say in a few words why the form is made although heat may ruin it",
                      "a few words will do"},
       .example = "\"For one trial; I keep the iron at 90 C.\"",
       .help =
           "A material that the heat may soften is refused, unless you say here in words why you want the "
           "form all the same. The verdict stays.",
       .at = member(&Order::press, &Press::accept_risk)},
  };
}

}  // namespace crownwright::order
