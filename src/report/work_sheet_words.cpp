#include "report/work_sheet_words.h"

#include <cmath>

#include "base/length.h"
#include "making/mill_job.h"
#include "making/stack_files.h"
#include "report/fit_text.h"
#include "report/length_words.h"
#include "report/matter.h"

namespace crownwright::report {
namespace {

using drawings::SheetChapter;
using drawings::SheetLineOfWords;
using Lines = std::vector<SheetLineOfWords>;

constexpr double small_mm = 20;       // below it millimetres, as in the report
constexpr double least_inches = 0.4;  // half of 1/32 in: below it inches say nothing

bool is_pad_form(const making::Form& form) { return form.order.form.kind == order::FormKind::pad; }

std::string metric_text(double mm) {
  if (std::abs(mm) < small_mm) return number_text(mm, std::abs(mm) < 1 ? 2 : 1) + " mm";
  std::string text = number_text(mm / 10, 1);
  if (text.find('.') == std::string::npos) text += ".0";
  return text + " cm";
}

std::string inches_text(double mm) { return inch_text(mm, std::abs(mm) < small_mm ? 32 : 16); }

std::string sentence(const std::string& words) {
  return words.empty() || words.back() == '.' ? words : words + ".";
}

bool in_pieces(const making::Form& form) { return form.released && !form.released->pieces.empty(); }

std::string numbered_count(std::size_t count, const std::string& one, const std::string& many) {
  return counted(static_cast<long long>(count), one, many);
}

// ---- steps -----------------------------------------------------------------------------------

std::string seat_words(const making::Form& form, const SheetUnits& units) {
  const double collar = form.order.form.collar.mm();
  if (collar > 0)
    return "The head line, where crown and band meet, comes to the collar's upper edge, " +
           units.both(collar) + " above the foot, all round.";
  return "The head line, where crown and band meet, comes to the foot of the form, all round.";
}

std::string put_on_words(const making::Form& form, const SheetUnits& units) {
  if (is_pad_form(form)) {
    const std::string where = form.order.dish ? "in its dish" : "on the table";
    return "Lay the pad " + where + ", tip up" + (form.order.cover ? ", in its cover" : "") +
           ". Lay the crown over it, tip on tip, and smooth it from the tip outwards down to the edge.";
  }
  std::string words;
  if (in_pieces(form))
    words =
        "Where the opening does not stretch over the form, build it up inside the beret: the pieces go in "
        "in the reverse order of taking out. ";
  words += "Tip on tip, seams straight down. " + seat_words(form, units);
  if (form.order.form.groove_width) words += " A cord in the groove holds it there.";
  return words;
}

std::string press_cloth_words(const making::Form& form, const SheetUnits& units) {
  const auto& press = form.order.press;
  if (press && press->heat == order::Heat::cold)
    return "No heat is ordered: a dry cloth over it, where hands or weights lie, keeps it clean.";
  if (press && press->press_cloth && press->press_cloth->mm() > 0)
    return "A cloth of " + units.both(press->press_cloth->mm()) +
           " between iron and beret, always: the heat was judged with it.";
  return "Lay a press cloth between the beret and all that is hot.";
}

std::string dots(double celsius) {
  return celsius <= 110 ? "one dot" : celsius <= 150 ? "two dots" : "three dots";
}

SheetLineOfWords heat_step(const making::Form& form) {
  const making::Pressed& pressed = form.pressed;
  if (!pressed.asked) {
    const std::string steam = pressed.heat.verdict == press::Verdict::fit ? "which its material stands"
                              : pressed.heat.verdict == press::Verdict::risk
                                  ? "which is a risk for its material"
                                  : "which its material does not stand: no steam";
    return {"Steam or iron.", "The order does not say which. Open steam brings the form to " +
                                  number_text(pressed.heat.job.celsius, 0) + " C, " + steam +
                                  ". An iron is hotter: only where cloth and material both stand it, through "
                                  "the press cloth, never left standing. Try a corner first."};
  }
  switch (pressed.job.kind) {
    case press::HeatKind::steam:
      return {"Steam", "from all sides (reckoned with " + number_text(form.order.press->steam_flow, 0) +
                           " g a minute), until the cloth is damp through and lies without a fold."};
    case press::HeatKind::dry:
      return {"Iron", "dry, at most " + number_text(pressed.job.iron, 0) + " C (" + dots(pressed.job.iron) +
                          "), always moving, until the cloth lies without a fold. Never leave it standing."};
    case press::HeatKind::cold:
      break;
  }
  return {"No steam, no iron.", "The form is ordered for drying cold: smooth the damp cloth by hand."};
}

std::string hold_words(const making::Form& form, const SheetUnits& units) {
  std::string words = "Smooth from the tip outwards and hold it down evenly";
  if (form.pressed.asked && form.order.press->load > 0 && form.pressed.stiffness)
    words += " (the crown was reckoned under " + number_text(form.order.press->load, 0) + " N)";
  words += " until it lies without a fold.";
  if (!form.fit || !form.fit->crown || form.fit->crown->report.work_here.empty()) return words;
  words += " Work with the iron or steam at ";
  std::string places;
  for (const double at : form.fit->crown->report.work_here)
    places += (places.empty() ? "" : ", ") + units.own(at);
  return words + places + " from the tip.";
}

std::string opening_words(const fit::Opening& opening, bool cloth_known, const SheetUnits& units) {
  std::string words = "The opening of " + units.own(opening.girth) + " must come to " +
                      units.own(opening.needed.least()) + ", a stretch of " +
                      percent_text(opening.stretch_needed);
  if (cloth_known) words += opening.passes ? ", which the cloth gives" : ", more than the cloth gives";
  if (opening.passes_with_band && !*opening.passes_with_band)
    words += "; with the band on it does not: press before the band is sewn on";
  return words + ".";
}

std::string take_off_words(const making::Form& form, const SheetUnits& units) {
  if (is_pad_form(form)) return "Lift the beret off the pad.";
  if (in_pieces(form)) {
    std::string order;
    for (const parts::Step& step : form.released->steps) order += (order.empty() ? "" : ", ") + step.piece;
    return "Take the form out of the beret piece by piece: " + order + ". How each one goes: see the list.";
  }
  if (!form.fit) return "Lift the beret off.";
  const fit::Opening& opening = form.fit->opening;
  const bool edge_first = opening.needed.edge_first < opening.needed.straight;
  return std::string(edge_first ? "Edge first, tilted. " : "Straight off. ") +
         opening_words(opening, form.fit->crown.has_value(), units);
}

// ---- how it is made --------------------------------------------------------------------------

std::string hours_words(double minutes) {
  if (minutes < 90) return number_text(minutes, 0) + " minutes";
  return number_text(minutes / 60, 1) + " hours";
}

void add_print_lines(const making::Form& form, const SheetUnits& units, Lines& lines) {
  const making::Printed& printed = form.printed;
  const bool whole = printed.parts.size() == 1;
  if (whole && !form.material.printable) return;
  double filament = 0, mass = 0;
  for (const making::PrintedPart& part : printed.parts) {
    filament += part.figures.amount.filament_length;
    mass += part.figures.amount.printed_mass;
  }
  std::string words = whole ? "In one piece, " + printed.parts.front().way_up
                            : "In " + numbered_count(printed.parts.size(), "part", "parts");
  if (printed.bed)
    words += !printed.fits_bed ? ", too large for the bed of " + units.own(printed.bed->width) + " by " +
                                     units.own(printed.bed->depth)
                               : ", on " + numbered_count(printed.plates, "bed", "beds");
  words += ". " + form.pressed.label + ", about " + number_text(filament, 0) + " m of 1.75 mm filament, " +
           number_text(mass, 0) + " g, without supports; infill " + percent_text(form.order.print.infill) +
           ", nozzle " + number_text(form.order.print.nozzle.mm()) + " mm.";
  lines.push_back({"Print.", words});
  if (const auto& joints = printed.joints) {
    words = numbered_count(joints->dowels, "dowel", "dowels") + " of " + units.own(joints->dowel) + ", " +
            units.own(joints->dowel_length) + " long, in each joint";
    if (joints->keys > 0) words += ", and a loose key in the floor";
    if (joints->glue_gap > 0) words += "; room for " + units.own(joints->glue_gap) + " of glue";
    lines.push_back({"Join.", words + "."});
  }
}

void add_mill_lines(const making::Form& form, const SheetUnits& units, Lines& lines) {
  if (!form.milled) return;
  const making::Milled& milled = *form.milled;
  const milling::StockPlan& stock = milled.plan.stock;
  std::string words = counted(stock.sheets, "sheet", "sheets") + " of " + milled.job.material + ", " +
                      units.own(stock.side_x) + " by " + units.own(stock.side_y) + ", " +
                      units.own(stock.sheet) + " thick";
  if (stock.layers > 1) words += ", glued into one lump first";
  if (!stock.dowels.empty())
    words += "; " + numbered_count(stock.dowels.size(), "dowel", "dowels") + " of " + units.own(stock.dowel) +
             ", " + units.own(stock.dowel_length) + " long";
  lines.push_back({"Mill.", words + "; " + numbered_count(milled.setups.size(), "set-up", "set-ups") +
                                ", about " + hours_words(milled.minutes) + " of cutting."});
  for (const making::MilledSetup& made : milled.setups) {
    words = made.setup.flipped ? "upside down, wide face down:" : "as it stands, wide face down:";
    for (const making::MilledProgram& program : made.programs)
      words += std::string(&program == &made.programs.front() ? " " : ", ") +
               making::pass_word(program.pass) + " with a " + program.tool;
    words += "; " + hours_words(made.minutes());
    lines.push_back({made.setup.name.empty() ? "One set-up," : made.setup.name + ",", words + "."});
  }
}

void add_stack_lines(const making::Form& form, const SheetUnits& units, Lines& lines) {
  if (!form.stack) return;
  const parts::Stack& stack = *form.stack;
  lines.push_back({"Stack.", numbered_count(stack.sheets.size(), "sheet", "sheets") + " of " +
                                 units.both(form.order.stack->sheet.mm()) + ", the last " +
                                 units.own(stack.last_thickness) +
                                 "; from the foot up, on a skewer; steps of up to " +
                                 units.own(stack.worst_step) + "."});
}

SheetChapter making_chapter(const making::Form& form, const SheetUnits& units) {
  SheetChapter chapter{"How it is made", {}};
  add_print_lines(form, units, chapter.lines);
  add_mill_lines(form, units, chapter.lines);
  add_stack_lines(form, units, chapter.lines);
  const Matter matter = matter_of(form);
  std::string words = form.pressed.label + ", " + number_text(matter.volume / 1000, 0) + " cm3, " +
                      number_text(matter.mass, 0) + " g when massive; ";
  const auto& wall = form.proven.readings().wall_min;
  words += wall ? "wall " + units.both(*wall) + " where it is thinnest" : "solid";
  chapter.lines.push_back({"Material.", words + "."});
  return chapter;
}

// ---- taking apart, fit, vents, parts ------------------------------------------------------------

SheetChapter taking_chapter(const making::Form& form, const SheetUnits& units) {
  SheetChapter chapter{"Take the form out in this order", {}};
  if (!in_pieces(form)) return chapter;
  for (const parts::Step& step : form.released->steps) {
    chapter.lines.push_back({count_text(chapter.lines.size() + 1) + "  " + step.piece + ":",
                             step.direction + "; needs " + units.own(step.needed_girth) +
                                 " of the opening's " + units.own(step.opening_girth)});
  }
  return chapter;
}

SheetChapter mind_chapter(const making::Form& form) {
  SheetChapter chapter{"Mind", {}};
  for (const std::string& warning : form.warnings) chapter.lines.push_back({"\u25B3", sentence(warning)});
  return chapter;
}

SheetChapter fit_chapter(const making::Form& form, const SheetUnits& units) {
  SheetChapter chapter{"Fit", {}};
  if (!form.fit) return chapter;
  if (const auto& crown = form.fit->crown) {
    chapter.lines.push_back(
        {fit::verdict_words(crown->report.verdict) + (crown->drafted ? " (as drafted here):" : ":"),
         fit_reason(*crown, units) + "."});
    if (crown->report.verdict == fit::Verdict::no) {
      for (const fit::Change& change : crown->nearest)
        chapter.lines.push_back(
            {"Change:", change.says + (change.new_pattern ? " (with the pattern drafted anew)" : "") + ": " +
                            fit::verdict_words(change.verdict) + "."});
      if (crown->nearest.empty())
        chapter.lines.push_back({"Change:",
                                 "no single change of edge, dome or panels helps: a cloth that "
                                 "eases in more, or other measures."});
    }
  }
  return chapter;
}

SheetChapter vent_chapter(const making::Form& form, const SheetUnits& units) {
  SheetChapter chapter{"Vents and press", {}};
  std::string words = "none.";
  if (const Matter matter = matter_of(form); matter.vents > 0) {
    words = counted(matter.vents, "steam vent", "steam vents") + " of " +
            units.both(form.order.vents->diameter.mm()) + ", open " + number_text(matter.open_area / 100, 1) +
            " cm2 in all.";
    if (form.milled && form.milled->plan.vents.by_hand > 0)
      words += " " + counted(form.milled->plan.vents.by_hand, "is", "are") +
               " drilled by hand, with the template.";
  }
  chapter.lines.push_back({"Vents:", words});
  if (form.pressed.asked && form.pressed.job.kind == press::HeatKind::steam && form.pressed.steam.speed)
    chapter.lines.push_back(
        {"Steam:", number_text(*form.pressed.steam.speed) + " m/s through the vents: " +
                       (form.pressed.steam.enough ? "it gets away." : "it does not get away well.")});
  if (form.pressed.stiffness)
    chapter.lines.push_back({"Crown:", "gives way by " + number_text(form.pressed.stiffness->deflection) +
                                           " mm under the press, at " +
                                           number_text(*form.pressed.stiffness_celsius, 0) + " C."});
  return chapter;
}

SheetChapter parts_chapter(const making::Form& form, const SheetUnits& units) {
  SheetChapter chapter{"Parts", {}};
  if (form.printed.parts.size() < 2) return chapter;
  for (const making::PrintedPart& part : form.printed.parts) {
    const mesh::Point3& size = part.figures.size;
    std::string words =
        units.own(size.x) + " by " + units.own(size.y) + ", " + units.own(size.z) + " high; " + part.way_up;
    if (form.printed.plates > 1) words += "; bed " + count_text(part.plate + 1);
    chapter.lines.push_back({part.name + ":", words});
  }
  return chapter;
}

}  // namespace

std::string SheetUnits::own(double mm) const {
  return inches_ && std::abs(mm) >= least_inches ? inches_text(mm) : metric_text(mm);
}
std::string SheetUnits::other(double mm) const { return inches_ ? metric_text(mm) : inches_text(mm); }
std::string SheetUnits::both(double mm) const {
  return std::abs(mm) < least_inches ? metric_text(mm) : own(mm) + " (" + other(mm) + ")";
}

Lines press_steps(const making::Form& form, const SheetUnits& units) {
  Lines steps;
  steps.push_back({"Dampen", "the beret evenly, until the cloth is damp through; not dripping."});
  steps.push_back(
      {is_pad_form(form) ? "Put it on the pad." : "Put it on the form.", put_on_words(form, units)});
  steps.push_back({"Press cloth.", press_cloth_words(form, units)});
  steps.push_back(heat_step(form));
  steps.push_back({"Hold.", hold_words(form, units)});
  const bool cold = form.pressed.asked && form.pressed.job.kind == press::HeatKind::cold;
  steps.push_back(
      {"Let it cool on the form", cold ? "and dry: until it is dry through."
                                       : "until it is dry and cool. The form holds heat longer than "
                                         "the cloth."});
  steps.push_back({"Take it off.", take_off_words(form, units)});
  return steps;
}

std::string fit_reason(const making::CrownFit& crown, const SheetUnits& units) {
  std::string words = strain_words(crown.report.worst, units.own(crown.report.worst.at));
  words.front() = 'I';
  return words;
}

std::vector<SheetChapter> sheet_chapters(const making::Form& form, const SheetUnits& units) {
  std::vector<SheetChapter> chapters;
  for (SheetChapter& chapter : std::vector<SheetChapter>{
           making_chapter(form, units), taking_chapter(form, units), mind_chapter(form),
           fit_chapter(form, units), vent_chapter(form, units), parts_chapter(form, units)})
    if (!chapter.lines.empty()) chapters.push_back(std::move(chapter));
  return chapters;
}

std::vector<std::string> sheet_cautions(const making::Form& form) {
  std::vector<std::string> cautions = {
      "Steam and hot irons scald. A form holds heat long after the iron is gone.",
      "Heat softens printed plastics (PLA first) and foams, which may sag, shrink or fume: try a corner "
      "first, "
      "and never leave an iron lying on a form."};
  if (form.pressed.asked)
    for (const std::string& caution : form.pressed.heat.cautions) cautions.push_back(caution);
  if (form.milled) {
    for (const std::string& caution : making::mill_cautions()) cautions.push_back(caution);
  } else if (form.stack) {
    for (const std::string& caution : making::stack_cautions()) cautions.push_back(caution);
  } else {
    cautions.push_back(
        "Sanding and sawing make fine dust: mask, glasses, extraction. Keep hands from cutters and blades.");
  }
  if (!form.milled)  // whose own cautions say so
    cautions.push_back(
        "The data sheet of your material's maker, the machine's manual and the local rules stand above this "
        "sheet.");
  return cautions;
}

}  // namespace crownwright::report
