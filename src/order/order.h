#pragma once
// An order as read and checked: what the person wrote, in exact lengths, with profiles not yet looked up.
// Optional means "not written"; defaults live in the key table (order/keys.h) and are filled by the reader
// where the table has one. Anything here is syntactically right and within its key's range; whether
// such a form exists is found out later.

#include <optional>
#include <string>
#include <vector>

#include "base/length.h"

namespace crownwright::order {

/// Where the tape was held (`[measure] taken_at`).
enum class TakenAt { outside, cloth_middle, form };
enum class FormKind { block, pad };
enum class FootEdge { chamfer, round };
enum class RimStyle { chamfer, round };
enum class MeshFormat { stl, obj, ply };
enum class Split { automatic, none };
enum class Cap { soft, stiff };
enum class StackOutline { inside, outside, mean };
enum class Heat { steam, dry, cold };
/// The soles of ISO 3758's one, two and three dots.
enum class Iron { at_110, at_150, at_200 };

struct Measure {
  std::optional<Length> head_girth;  ///< from head_girth, or converted from hat_size
  std::string hat_size;              ///< as written, "US 7 1/8"; empty when head_girth was given
  std::optional<Length> crown_diameter;
  std::optional<Length> rise;  ///< for a pad: thickness from flat foot to tip
  TakenAt taken_at = TakenAt::outside;
  bool before_steam = false;  ///< the figures still have to shrink by the cloth's heat shrink
  friend bool operator==(const Measure&, const Measure&) = default;
};

/// Way 2 of the solver: lengths along the panel, tip to crown edge (the equator) and crown edge to head line.
struct PanelLengths {
  Length top, under;
  friend bool operator==(const PanelLengths&, const PanelLengths&) = default;
};

enum class PatternKind { stations, outline, discs };
enum class FoldSide { left, right };
enum class DrawingUnit { mm, cm, in };
/// Along which line of a panel the meridian keeps its length.
enum class LengthAlong { seam, centre, shared };

/// Full width of a panel, square to its centre line, at a straight distance down that line from the tip.
struct PanelWidth {
  Length down, width;
  friend bool operator==(const PanelWidth&, const PanelWidth&) = default;
};

/// The pattern the beret is sewn from: a drawn one (`kind` written: the form follows from it) or the one to
/// be drafted for the form.
struct Pattern {
  std::optional<PatternKind> kind;
  std::optional<int> panels;
  std::optional<Length> seam_allowance;
  std::optional<bool>
      includes_allowance;  ///< of stations and outlines: whether they are those of the cut line
  std::vector<PanelWidth> stations;
  std::string file;   ///< SVG or DXF, resolved against the order's folder
  std::string layer;  ///< DXF layer or SVG id of the line meant; empty: all that is drawn
  std::optional<FoldSide> fold;
  std::optional<DrawingUnit> drawing_unit;                          ///< for files that do not say
  std::optional<Length> top_diameter, ring_diameter, ring_opening;  ///< of discs, as cut, allowances included
  LengthAlong length_along = LengthAlong::shared;
  std::optional<Length> seam_tape;  ///< width of a tape sewn over every seam
  Length seam_tape_thickness;
  friend bool operator==(const Pattern&, const Pattern&) = default;
};

enum class DraftPieces { panels, discs };

/// [draft]: pattern pieces are drawn beside the form.
struct Draft {
  DraftPieces pieces = DraftPieces::panels;
  friend bool operator==(const Draft&, const Draft&) = default;
};

struct Band {
  Length depth;  ///< finished, folded
  int strips = 1;
  std::optional<Length> elastic;            ///< relaxed length of an elastic section
  std::optional<Length> elastic_stretched;  ///< the length of band it gathers
  double stretch = 0;                       ///< fraction the sewn band itself gives
  friend bool operator==(const Band&, const Band&) = default;
};

/// Cloth cover of a pad.
struct Cover {
  Length tuck, casing;
  friend bool operator==(const Cover&, const Cover&) = default;
};

struct SizeRow {
  std::string name;
  Length head_girth, crown_diameter;
  std::optional<Length> rise;
  friend bool operator==(const SizeRow&, const SizeRow&) = default;
};

/// A run of sizes: exactly one of a list, hat sizes, or steps from [measure].
struct Sizes {
  std::vector<SizeRow> list;
  std::vector<std::string> hat_sizes;  ///< "EU 57", ...: crown and rise follow from [measure] by the steps
  std::optional<int> smaller, larger;  ///< how many sizes below and above [measure]
  std::optional<Length> head_step;     ///< girth from one size to the next
  std::optional<Length> crown_step;    ///< crown diameter for every head_step of girth
  std::optional<Length> rise_step;     ///< rise for every head_step of girth
  friend bool operator==(const Sizes&, const Sizes&) = default;
};

struct Shape {
  std::string profile = "soft-dome";
  std::optional<Length> dome;               ///< sagitta of the tip arc; overrides the profile
  std::optional<Length> edge_radius;        ///< both edge arcs, unless under_edge_radius is given
  std::optional<Length> under_edge_radius;  ///< lower edge arc alone
  friend bool operator==(const Shape&, const Shape&) = default;
};

struct Cloth {
  std::string name;  ///< empty when no [cloth] was given
  std::optional<Length> thickness;
  std::optional<double> heat_shrink;  ///< fraction
  friend bool operator==(const Cloth&, const Cloth&) = default;
};

struct Form {
  FormKind kind = FormKind::block;
  std::optional<Length> wall;  ///< empty means solid
  Length collar;               ///< blocks only; may be 0
  std::optional<Length> floor, socket, socket_depth;
  std::optional<Length> groove_width, groove_depth;      ///< cord groove just below the head line
  std::optional<Length> flange_width, flange_thickness;  ///< ring round the foot, outside
  FootEdge foot_edge = FootEdge::chamfer;
  Length foot_edge_size;     ///< 0: sharp
  std::optional<int> posts;  ///< under the crown of a hollow block, 3 to 12; empty or 0: none
  Length post_diameter;
  friend bool operator==(const Form&, const Form&) = default;
};

struct Reading {
  Length radius, height;
  friend bool operator==(const Reading&, const Reading&) = default;
};

struct Dish {
  std::vector<Reading> readings;  ///< radius rising; height above the dish's lowest point
  std::string file;               ///< resolved against the order's folder; empty when readings were given
  std::optional<Length> gap;      ///< default: cover cloth + crown's cloth, see making
  friend bool operator==(const Dish&, const Dish&) = default;
};

struct Vents {
  Length diameter, spacing;
  std::optional<Length> margin;  ///< free distance from head line, foot and other edges to a vent's rim
  Length rim;                    ///< depth of the rim's chamfer or round; 0: sharp
  RimStyle rim_style = RimStyle::round;
  friend bool operator==(const Vents&, const Vents&) = default;
};

struct Mesh {
  Length chord_tolerance;
  std::vector<MeshFormat> formats;  ///< at least stl
  bool ascii = false;               ///< ASCII STL and PLY
  friend bool operator==(const Mesh&, const Mesh&) = default;
};

/// The room a printer has: what stands on its bed lies within width x depth x height.
struct Bed {
  Length width, depth, height;
  friend bool operator==(const Bed&, const Bed&) = default;
};

struct Print {
  std::string material = "petg";
  std::optional<Bed> bed;  ///< without bed and printer nothing is cut to fit
  std::string printer;     ///< a file in profiles/printers that tells the bed instead; empty: none
  Length nozzle;
  Length dowel, dowel_clearance;  ///< diameter of the pins in a joint; the hole is wider by the clearance
  Length glue_gap;                ///< between two joint faces
  Split split = Split::automatic;
  double infill = 0;    ///< fraction of the inside that is printed
  std::string licence;  ///< of the design, for the files' own notes; empty: not said
  friend bool operator==(const Print&, const Print&) = default;
};

/// [puzzle]: the form comes apart inside the beret.
struct Puzzle {
  std::optional<int> pieces;  ///< without the ring: 2, 5, 7 or 9; empty: "auto"
  Cap cap = Cap::soft;        ///< whether the pressed beret may bend while the pieces come out
  Length clearance;           ///< between the faces of two pieces
  friend bool operator==(const Puzzle&, const Puzzle&) = default;
};

/// [stack]: templates for cutting the form from sheets.
struct Stack {
  Length sheet;  ///< thickness of one
  StackOutline outline = StackOutline::mean;
  Length hole;  ///< diameter in the middle of every sheet, for a skewer; 0: none
  friend bool operator==(const Stack&, const Stack&) = default;
};

/// [marks]: what is engraved, never on a pressing face.
struct Marks {
  std::string text = "auto";  ///< "auto": size, girth, crown diameter and name
  Length depth;
  friend bool operator==(const Marks&, const Marks&) = default;
};

/// [press]: the work the form has to stand.
struct Press {
  Heat heat = Heat::steam;
  std::optional<Iron> iron;           ///< of heat "dry"
  std::optional<Length> press_cloth;  ///< thickness of what lies between iron and beret
  double steam_flow = 0;              ///< g/min
  double load = 0;                    ///< N
  std::string accept_risk;  ///< why a form that heat may ruin is made all the same; empty: it is not
  friend bool operator==(const Press&, const Press&) = default;
};

enum class CutterShape { ball, flat };
/// "6 mm ball".
struct Cutter {
  Length diameter;
  CutterShape shape = CutterShape::ball;
  friend bool operator==(const Cutter&, const Cutter&) = default;
};
enum class MillSetup { automatic, one, tiers, turn_over };
enum class NgcDialect { rs274, plain };
/// "300x300 mm".
struct SheetSize {
  Length width, depth;
  friend bool operator==(const SheetSize&, const SheetSize&) = default;
};

/// [mill]: programs for a small three-axis router are asked for.
struct Mill {
  std::string material = "pu-board-200";
  Cutter tool;                        ///< finishes; a ball
  std::optional<Cutter> rough_tool;   ///< empty: `tool`
  std::optional<Length> drill;        ///< diameter
  Length flute, stick_out, holder;    ///< of all tools: cutting edges, height out of the holder, its diameter
  std::optional<Length> drill_flute;  ///< empty: `flute`
  int edges = 2;                      ///< cutting edges of a tool
  Length stock_sheets;                ///< measured thickness of one sheet
  std::optional<SheetSize> stock_size;
  MillSetup setup = MillSetup::automatic;
  Length scallop;
  std::optional<Length> step_down, step_over;  ///< empty: the material's
  std::optional<double> feed;                  ///< mm/min; empty: from the material's chip load
  std::optional<double> spindle;               ///< turns a minute; empty: the material's
  double accel = 0;                            ///< mm/s2
  Bed travel;                                  ///< of the machine: x, y, z
  Length spoilboard;                           ///< thickness of the board under the stock
  NgcDialect dialect = NgcDialect::rs274;
  Length cell;  ///< of the map on which the programs are tried
  friend bool operator==(const Mill&, const Mill&) = default;
};

struct Order {
  std::string name;
  Measure measure;
  std::optional<PanelLengths> panel_lengths;
  Shape shape;
  Cloth cloth;
  Pattern pattern;
  std::optional<Draft> draft;
  std::optional<Band> band;
  std::optional<Cover> cover;
  std::optional<Sizes> sizes;
  Form form;
  std::optional<Dish> dish;
  std::optional<Vents> vents;  ///< absent: no vents
  Print print;
  std::optional<Puzzle> puzzle;
  std::optional<Stack> stack;
  std::optional<Marks> marks;
  std::optional<Press> press;
  std::optional<Mill> mill;
  Mesh mesh;
  std::vector<std::string> warnings;  ///< from reading: heads outside what people have, and the like
  friend bool operator==(const Order&, const Order&) = default;
};

}  // namespace crownwright::order
