#include "order/pattern_keys.h"

#include "order/binding.h"

namespace crownwright::order {
namespace {

using binding::member;
using binding::text;
using binding::word;

const std::vector<std::string_view> pattern_words = {"stations", "outline", "discs"};
const std::vector<std::string_view> fold_words = {"left", "right"};
const std::vector<std::string_view> unit_words = {"mm", "cm", "in"};
const std::vector<std::string_view> along_words = {"seam", "centre", "shared"};
const std::vector<std::string_view> piece_words = {"panels", "discs"};

constexpr Range disc_range = {30, 900, "a smaller disc is no part of a crown",
                              "no crown takes a larger disc: mind the unit"};
constexpr Range elastic_range = {20, 900, "a shorter piece cannot be sewn in",
                                 "no head is that large: mind the unit"};
constexpr Range how_many_sizes = {0, 20, "a number of sizes cannot be negative",
                                  "more than 20 sizes to one side leave the heads there are"};

std::vector<Key> drawn_keys() {
  return {
      {.table = "pattern",
       .name = "kind",
       .type = KeyType::choice,
       .choices = pattern_words,
       .example = "\"stations\"",
       .help =
           "A pattern that is drawn already; the form follows from it. \"stations\": widths of one panel at "
           "distances from its tip. \"outline\": a drawing of one panel. \"discs\": a round top and a ring.",
       .at = word(&Order::pattern, &Pattern::kind, pattern_words)},
      {.table = "pattern",
       .name = "panels",
       .type = KeyType::count,
       .range = Range{3, 48, "two panels make a bag, not a crown",
                      "more than 48 panels are narrower than their seam allowances"},
       .example = "8",
       .help = "How many panels the crown is sewn from. Vents then keep clear of the seams.",
       .at = member(&Order::pattern, &Pattern::panels)},
      {.table = "pattern",
       .name = "seam_allowance",
       .type = KeyType::length,
       .range = Range{0, 50, "an allowance cannot be negative",
                      "no seam takes more than 50 mm of cloth: mind the unit"},
       .example = "\"3/8 in\"",
       .help = "Cloth beyond the sew line, the same all round: taken off a drawn pattern that includes it, "
               "added to a drafted one.",
       .at = member(&Order::pattern, &Pattern::seam_allowance)},
      {.table = "pattern",
       .name = "includes_allowance",
       .type = KeyType::boolean,
       .example = "true",
       .help = "true when the drawn pattern is the cut line, seam allowance included; false when it is the "
               "sew line.",
       .at = member(&Order::pattern, &Pattern::includes_allowance)},
      {.table = "pattern",
       .name = "stations",
       .type = KeyType::stations,
       .example = "[[\"0 mm\", \"0 mm\"], [\"60 mm\", \"47 mm\"], [\"135 mm\", \"106 mm\"], [\"205 mm\", "
                  "\"71 mm\"]]",
       .help = "One panel as pairs of distance and width. Lay a ruler down the panel's centre line from the "
               "tip; every 20 mm write the distance and the full width square to the line.",
       .at = member(&Order::pattern, &Pattern::stations)},
      {.table = "pattern",
       .name = "file",
       .type = KeyType::file,
       .range = Range{1, 1000, "an empty name names no file", "no path is that long"},
       .example = "\"panel.svg\"",
       .help = "A drawing of one panel, SVG or DXF. The path starts from the order's folder.",
       .at = member(&Order::pattern, &Pattern::file)},
      {.table = "pattern",
       .name = "layer",
       .range = Range{1, 200, "an empty name names no layer", "no layer's name is that long"},
       .example = "\"14\"",
       .help = "The DXF layer or the SVG id of the line that is meant. Without it everything drawn counts.",
       .at = member(&Order::pattern, &Pattern::layer)},
  };
}

std::vector<Key> more_drawn_keys() {
  return {
      {.table = "pattern",
       .name = "fold",
       .type = KeyType::choice,
       .choices = fold_words,
       .example = "\"left\"",
       .help = "Half a panel is drawn, to be cut on a fold: the side of the drawing that lies on the fold.",
       .at = word(&Order::pattern, &Pattern::fold, fold_words)},
      {.table = "pattern",
       .name = "drawing_unit",
       .type = KeyType::choice,
       .choices = unit_words,
       .example = "\"mm\"",
       .help = "The unit of a drawing that does not say its own.",
       .at = word(&Order::pattern, &Pattern::drawing_unit, unit_words)},
      {.table = "pattern",
       .name = "top_diameter",
       .type = KeyType::length,
       .range = disc_range,
       .example = "\"30 cm\"",
       .help = "Diameter of the round top, as cut unless includes_allowance is false.",
       .at = member(&Order::pattern, &Pattern::top_diameter)},
      {.table = "pattern",
       .name = "ring_diameter",
       .type = KeyType::length,
       .range = disc_range,
       .example = "\"30 cm\"",
       .help = "Outer diameter of the ring that is sewn to the top's edge.",
       .at = member(&Order::pattern, &Pattern::ring_diameter)},
      {.table = "pattern",
       .name = "ring_opening",
       .type = KeyType::length,
       .range = disc_range,
       .example = "\"16 cm\"",
       .help = "Diameter of the ring's opening, where the band is sewn on.",
       .at = member(&Order::pattern, &Pattern::ring_opening)},
      {.table = "pattern",
       .name = "length_along",
       .type = KeyType::choice,
       .choices = along_words,
       .preset = text("shared"),
       .example = "\"shared\"",
       .help =
           "Where a panel keeps the crown's own length: along its \"seam\", along its \"centre\" line, or "
           "\"shared\" between them.",
       .at = word(&Order::pattern, &Pattern::length_along, along_words)},
      {.table = "pattern",
       .name = "seam_tape",
       .type = KeyType::length,
       .range = Range{3, 60, "a narrower tape covers no seam", "a wider tape is a lining"},
       .example = "\"12 mm\"",
       .help = "Width of a tape sewn over every seam. A taped seam does not stretch.",
       .at = member(&Order::pattern, &Pattern::seam_tape)},
      {.table = "pattern",
       .name = "seam_tape_thickness",
       .type = KeyType::length,
       .range =
           Range{0.05, 5, "no tape is thinner than paper", "no tape is thicker than 5 mm: mind the unit"},
       .preset = KeyValue(Length(1, 2)),  // common practice, no source
       .example = "\"0.5 mm\"",
       .help = "Thickness of that tape.",
       .at = member(&Order::pattern, &Pattern::seam_tape_thickness)},
  };
}

std::vector<Key> band_keys() {
  return {
      {.table = "band",
       .name = "depth",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = Range{5, 120, "a narrower band cannot be folded", "a deeper band is a cuff"},
       .preset = KeyValue(Length(35, 1)),
       .example = "\"35 mm\"",
       .help = "Depth of the finished band, folded.",
       .at = member(&Order::band, &Band::depth)},
      {.table = "band",
       .name = "strips",
       .type = KeyType::count,
       .taken_by = TakenBy::block,
       .range = Range{1, 4, "a band is at least one strip", "more than four strips are all seams"},
       .preset = KeyValue(1),
       .example = "2",
       .help = "From how many strips the band is joined.",
       .at = member(&Order::band, &Band::strips)},
      {.table = "band",
       .name = "elastic",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = elastic_range,
       .example = "\"10 cm\"",
       .help = "Length of an elastic section at rest.",
       .at = member(&Order::band, &Band::elastic)},
      {.table = "band",
       .name = "elastic_stretched",
       .type = KeyType::length,
       .taken_by = TakenBy::block,
       .range = elastic_range,
       .example = "\"15 cm\"",
       .help = "The length of band that the elastic gathers: its own length stretched.",
       .at = member(&Order::band, &Band::elastic_stretched)},
      {.table = "band",
       .name = "stretch",
       .type = KeyType::fraction,
       .taken_by = TakenBy::block,
       .range = Range{0, 1, "a band cannot stretch by less than nothing",
                      "no band doubles its length; 5 % is written 0.05"},
       .preset = KeyValue(0.0),
       .example = "0.05",
       .help = "What the sewn band itself gives, as a fraction: 0.05 for 5 %.",
       .at = member(&Order::band, &Band::stretch)},
  };
}

std::vector<Key> cover_keys() {
  return {
      {.table = "cover",
       .name = "tuck",
       .type = KeyType::length,
       .taken_by = TakenBy::pad,
       .range = Range{5, 150, "a shorter tuck does not reach round the pad's edge",
                      "a longer tuck bunches up under the pad"},
       .preset = KeyValue(Length(40, 1)),
       .example = "\"40 mm\"",
       .help = "How far the cover is drawn in under the pad.",
       .at = member(&Order::cover, &Cover::tuck)},
      {.table = "cover",
       .name = "casing",
       .type = KeyType::length,
       .taken_by = TakenBy::pad,
       .range = Range{5, 60, "no cord runs in a narrower casing", "a wider casing holds no cord in place"},
       .preset = KeyValue(Length(15, 1)),
       .example = "\"15 mm\"",
       .help = "Cloth turned over at the cover's edge for the draw-cord.",
       .at = member(&Order::cover, &Cover::casing)},
  };
}

void append(std::vector<Key>& keys, const std::vector<Key>& more) {
  keys.insert(keys.end(), more.begin(), more.end());
}

}  // namespace

std::vector<Key> pattern_keys() {
  std::vector<Key> keys = drawn_keys();
  append(keys, more_drawn_keys());
  return keys;
}

std::vector<Key> piece_keys() {
  std::vector<Key> keys = {
      {.table = "draft",
       .name = "pieces",
       .type = KeyType::choice,
       .choices = piece_words,
       .preset = text("panels"),
       .example = "\"panels\"",
       .help = "Which pattern pieces are drafted for the form: \"panels\", as many as [pattern] says, or "
               "\"discs\", a round top and a ring. The table alone asks for panels.",
       .at = word(&Order::draft, &Draft::pieces, piece_words)}};
  append(keys, band_keys());
  append(keys, cover_keys());
  return keys;
}

std::vector<Key> size_keys() {
  return {
      {.table = "sizes",
       .name = "list",
       .type = KeyType::size_rows,
       .example = "[[\"S\", \"55 cm\", \"27 cm\", \"7.3 cm\"], [\"M\", \"57 cm\", \"28 cm\", \"7.5 cm\"]]",
       .help = "A run of sizes row by row: name, head girth, crown diameter, rise. Without a rise the one of "
               "[measure] holds.",
       .at = member(&Order::sizes, &Sizes::list)},
      {.table = "sizes",
       .name = "hat_sizes",
       .type = KeyType::hat_sizes,
       .example = "[\"EU 55\", \"EU 57\", \"EU 59\"]",
       .help = "A run of sizes by hat size. Crown and rise follow from those of [measure].",
       .at = member(&Order::sizes, &Sizes::hat_sizes)},
      {.table = "sizes",
       .name = "smaller",
       .type = KeyType::count,
       .range = how_many_sizes,
       .example = "2",
       .help = "How many sizes below the one of [measure].",
       .at = member(&Order::sizes, &Sizes::smaller)},
      {.table = "sizes",
       .name = "larger",
       .type = KeyType::count,
       .range = how_many_sizes,
       .example = "2",
       .help = "How many sizes above the one of [measure].",
       .at = member(&Order::sizes, &Sizes::larger)},
      {.table = "sizes",
       .name = "head_step",
       .type = KeyType::length,
       .range = Range{1, 60, "a head is not measured closer than 1 mm", "no two sizes lie 60 mm apart"},
       .example = "\"1 cm\"",
       .help = "Head girth from one size to the next.",
       .at = member(&Order::sizes, &Sizes::head_step)},
      {.table = "sizes",
       .name = "crown_step",
       .type = KeyType::length,
       .range = Range{0, 60, "a larger head has no smaller crown", "no two sizes lie 60 mm apart"},
       .example = "\"5 mm\"",
       .help = "Crown diameter for every head_step. Without it the crown keeps its overhang beyond the head "
               "line.",
       .at = member(&Order::sizes, &Sizes::crown_step)},
      {.table = "sizes",
       .name = "rise_step",
       .type = KeyType::length,
       .range = Range{0, 30, "a larger head has no lower crown", "no two sizes lie 30 mm apart"},
       .example = "\"1 mm\"",
       .help = "Rise for every head_step. Without it all sizes have the same rise.",
       .at = member(&Order::sizes, &Sizes::rise_step)},
  };
}

}  // namespace crownwright::order
