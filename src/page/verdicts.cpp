#include "page/verdicts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/length.h"
#include "press/stiffen.h"
#include "report/fit_text.h"
#include "report/length_words.h"
#include "report/work_sheet_words.h"

namespace crownwright::page {
namespace {

using making::Preview;
using report::counted;
using report::SheetUnits;

bool is_pad_preview(const Preview& preview) { return preview.order.form.kind == order::FormKind::pad; }

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words = capital(std::move(words));
  const char last = words.back();
  if (last != '.' && last != '?' && last != '!') words += '.';
  return words;
}

// ---- heat, steam, press ----------------------------------------------------------------------

Verdict heat_verdict(const Preview& preview) {
  const making::Pressed& pressed = preview.pressed;
  Verdict verdict{"heat", Tone::good, ""};
  std::string start = pressed.label + " stands it: ";
  if (pressed.heat.verdict == press::Verdict::risk) {
    verdict.tone = Tone::mind;
    start = pressed.label + " is a risk: ";
  } else if (pressed.heat.verdict == press::Verdict::no) {
    verdict.tone = Tone::bad;
    start = pressed.label + " does not stand it: ";
  }
  verdict.words = sentence(start + pressed.heat.reason);
  if (verdict.tone == Tone::bad && pressed.asked)
    verdict.words += " It is made all the same, as the order accepts the risk.";
  for (const std::string& caution : pressed.heat.cautions)
    if (pressed.asked) verdict.words.append(" ").append(sentence(caution));
  const std::string key = preview.order.mill ? "mill.material" : "print.material";
  constexpr std::size_t most_tries = 3;
  for (std::size_t i = 0; i < std::min(pressed.instead.size(), most_tries); ++i)
    verdict.tries.push_back(
        {std::string("Make it of ").append(pressed.instead_labels[i]), {{key, pressed.instead[i]}}});
  return verdict;
}

// The least usual diameter whose vents together are open enough.
std::vector<Try> wider_vents(const Preview& preview, const SheetUnits& units) {
  constexpr double step = 0.5, most = 8;  // mm
  if (preview.vents.count == 0) return {{"Give it steam vents", {{"vents", "true"}}}};
  const double flow = preview.order.press ? preview.order.press->steam_flow : 30;
  const double each = press::least_open_area(flow) / preview.vents.count;
  const double diameter = std::ceil(2 * std::sqrt(each / std::numbers::pi) / step) * step;
  if (diameter > most) return {};
  return {{"Vents of " + units.both(diameter), {{"vents.diameter", typed_mm(diameter)}}}};
}

std::optional<Verdict> steam_verdict(const Preview& preview, const SheetUnits& units) {
  const press::SteamAnswer& steam = preview.pressed.steam;
  const bool hollow = is_pad_preview(preview) || preview.order.form.wall;
  if (!hollow || preview.pressed.job.kind != press::HeatKind::steam) return std::nullopt;
  Verdict verdict{"steam", steam.enough ? Tone::good : Tone::mind, ""};
  if (steam.speed) {
    verdict.words = "Steam leaves at " + number_text(*steam.speed) + " m/s through the vents, " +
                    number_text(*steam.pressure, 1) + " Pa: it " +
                    (steam.enough ? "gets away." : "does not get away well.");
  } else {
    verdict.words = "There are no vents: steam has no way through the form.";
  }
  if (!steam.enough) verdict.tries = wider_vents(preview, units);
  return verdict;
}

std::optional<Verdict> press_verdict(const Preview& preview, const SheetUnits& units) {
  const making::Pressed& pressed = preview.pressed;
  if (!pressed.stiffness) return std::nullopt;
  const press::StiffnessAnswer& answer = *pressed.stiffness;
  Verdict verdict{"press", Tone::good, ""};
  if (answer.grade == press::StiffnessGrade::note) verdict.tone = Tone::mind;
  if (answer.grade == press::StiffnessGrade::weak) verdict.tone = pressed.asked ? Tone::bad : Tone::mind;
  verdict.words = "The crown gives way by " + units.both(answer.deflection) + " under the press, at " +
                  number_text(*pressed.stiffness_celsius, 0) + " C.";
  if (verdict.tone == Tone::good) return verdict;
  const auto offer = [&](const char* what, const char* key, double least) {
    const double mm = std::ceil(least * 10) / 10;
    verdict.tries.push_back({std::string(what) + units.both(mm), {{key, typed_mm(mm)}}});
  };
  if (answer.least_wall) offer("A wall of ", "form.wall", *answer.least_wall);
  if (answer.least_dome) offer("A dome of ", "shape.dome", *answer.least_dome);
  if (answer.posts) {
    constexpr int fewest = 3, most = 12;
    const int count = std::max(fewest, answer.posts->on_ring + (answer.posts->in_middle ? 1 : 0));
    if (count <= most)
      verdict.tries.push_back(
          {counted(count, "post", "posts") + " under the crown", {{"form.posts", std::to_string(count)}}});
  }
  return verdict;
}

// ---- print -----------------------------------------------------------------------------------

// Beds are told in millimetres all over the world.
std::string bed_size(const printing::Bed& bed, const SheetUnits& units) {
  const std::string mm = number_text(bed.width) + " by " + number_text(bed.depth) + " mm, " +
                         number_text(bed.height) + " mm high";
  if (!units.inches()) return mm;
  return mm + " (" + units.own(bed.width) + " by " + units.own(bed.depth) + ", " + units.own(bed.height) +
         " high)";
}

std::string cut_words(const parts::BedPlan& plan) {
  std::string words;
  if (plan.sectors > 1) words = counted(plan.sectors, "sector", "sectors");
  if (plan.tiers > 1) words += (words.empty() ? "" : " in each of ") + counted(plan.tiers, "tier", "tiers");
  return words;
}

std::optional<Verdict> print_verdict(const Preview& preview, const SheetUnits& units) {
  if (!preview.material.printable) return std::nullopt;
  const std::string mass =
      number_text(preview.material.mass, 0) + " g of " + preview.pressed.label + " when massive";
  Verdict verdict{"print", Tone::good, ""};
  if (preview.released && !preview.released->pieces.empty()) {
    verdict.words = "It is printed in " +
                    counted(static_cast<long long>(preview.released->pieces.size()), "piece", "pieces") +
                    "; " + mass + ".";
    return verdict;
  }
  if (!preview.bed) {
    verdict.words =
        "It is printed in one piece; no bed is named, so whether it fits is not known; " + mass + ".";
    return verdict;
  }
  if (preview.bed_plan.sectors * preview.bed_plan.tiers > 1) {
    verdict.tone = Tone::mind;
    verdict.words = "For a bed of " + bed_size(*preview.bed, units) + " it is cut into " +
                    cut_words(preview.bed_plan) + ", doweled and glued; " + mass + ".";
    return verdict;
  }
  if (preview.fits_bed) {
    verdict.words = "It fits in one piece on a bed of " + bed_size(*preview.bed, units) + "; " + mass + ".";
    return verdict;
  }
  verdict.tone = Tone::bad;
  verdict.words = "It does not fit on a bed of " + bed_size(*preview.bed, units) + " in one piece.";
  if (preview.order.print.split == order::Split::none)
    verdict.tries.push_back({"Let it be cut to fit", {{"print.split", "auto"}}});
  return verdict;
}

// ---- release ---------------------------------------------------------------------------------

// A form in pieces: the piece that asks most of the opening.
Verdict pieces_verdict(const Preview& preview, const SheetUnits& units) {
  const auto& steps = preview.released->steps;
  const auto share = [](const parts::Step& step) { return step.needed_girth / step.opening_girth; };
  const auto worst = std::max_element(steps.begin(), steps.end(),
                                      [&](const auto& a, const auto& b) { return share(a) < share(b); });
  const double stretch = std::max(0.0, share(*worst) - 1);
  Verdict verdict{"release", Tone::good, ""};
  verdict.words = "It comes out in " + counted(static_cast<long long>(steps.size()), "step", "steps") + "; " +
                  worst->piece + " asks most of the opening: " + units.both(worst->needed_girth) + " of " +
                  units.both(worst->opening_girth);
  verdict.words += stretch > 0 ? ", a stretch of " + percent_text(stretch) + "." : ".";
  if (stretch > 0 && !preview.released->warnings.empty()) verdict.tone = Tone::mind;
  return verdict;
}

std::vector<Try> easier_release(const Preview& preview) {
  std::vector<Try> tries;
  const double collar = preview.order.form.collar.mm();
  if (collar > 5 && !preview.order.form.groove_width)
    tries.push_back({"A collar of half the depth", {{"form.collar", typed_mm(std::floor(collar / 2))}}});
  if (collar > 5 && !preview.order.form.floor && !preview.order.form.socket)
    tries.push_back({"A loose collar ring", {{"puzzle.pieces", "2"}}});
  tries.push_back({"A puzzle block that comes out in pieces", {{"puzzle", "true"}}});
  return tries;
}

std::optional<Verdict> release_verdict(const Preview& preview, const SheetUnits& units) {
  if (!preview.fit || !preview.released) return std::nullopt;
  if (!preview.released->pieces.empty()) return pieces_verdict(preview, units);
  const fit::Opening& opening = preview.fit->opening;
  const bool known = !preview.order.cloth.name.empty();
  const bool edge_first = opening.needed.edge_first < opening.needed.straight;
  Verdict verdict{"release", !known || opening.passes ? Tone::good : Tone::bad, ""};
  verdict.words = "To take the beret off " + std::string(edge_first ? "edge first" : "straight up") +
                  " its opening of " + units.both(opening.girth) + " must come to " +
                  units.both(opening.needed.least()) + ", a stretch of " +
                  percent_text(opening.stretch_needed);
  if (known) verdict.words += opening.passes ? ", which the cloth gives" : ", more than the cloth gives";
  verdict.words += ".";
  if (opening.passes && opening.passes_with_band && !*opening.passes_with_band) {
    verdict.tone = Tone::mind;
    verdict.words += " With the band sewn on it does not: press the crown before you sew on the band.";
  }
  if (verdict.tone == Tone::bad) verdict.tries = easier_release(preview);
  return verdict;
}

// ---- router and sheets -----------------------------------------------------------------------

std::optional<Verdict> mill_verdict(const Preview& preview, const SheetUnits& units) {
  if (!preview.mill) return std::nullopt;
  const milling::Plan& plan = preview.mill->plan;
  Verdict verdict{"mill", Tone::good, ""};
  verdict.words = "It is milled in " +
                  counted(static_cast<long long>(plan.setups.size()), "set-up", "set-ups") + " from " +
                  counted(plan.stock.sheets, "piece", "pieces") + " of " + preview.mill->job.material + ", " +
                  units.both(plan.stock.side_x) + " by " + units.both(plan.stock.side_y) + ", " +
                  units.both(plan.stock.sheet) + " thick.";
  for (const milling::Unreached& place : plan.unreached) {
    verdict.tone = Tone::mind;
    verdict.words += " Left for the hand: " + place.what + ", " + units.both(place.rest) + ".";
  }
  return verdict;
}

std::optional<Verdict> stack_verdict(const Preview& preview, const SheetUnits& units) {
  if (!preview.stack) return std::nullopt;
  const parts::Stack& stack = *preview.stack;
  return Verdict{
      "stack", Tone::good,
      "It is stacked from " + counted(static_cast<long long>(stack.sheets.size()), "sheet", "sheets") +
          " of " + units.both(preview.order.stack->sheet.mm()) + ", the last " +
          units.both(stack.last_thickness) + " thick; steps of up to " + units.both(stack.worst_step) + "."};
}

// ---- fit -------------------------------------------------------------------------------------

// Only what is a key of the order; the law of lengths goes by its number.
std::optional<Try> try_of(const fit::Change& change, const SheetUnits& units) {
  static const char* const laws[] = {"seam", "centre", "shared"};
  const std::string inches = units.inches() ? " (" + units.own(change.to) + ")" : std::string();
  if (change.what == "edge radius")
    return Try{capital(change.says) + inches, {{"shape.edge_radius", typed_mm(change.to)}}};
  if (change.what == "dome") return Try{capital(change.says) + inches, {{"shape.dome", typed_mm(change.to)}}};
  if (change.what == "panels")
    return Try{capital(change.says), {{"pattern.panels", number_text(change.to, 0)}}};
  const auto law = static_cast<std::size_t>(change.to);
  if (change.what == "length along" && change.to >= 0 && law < std::size(laws))
    return Try{capital(change.says), {{"pattern.length_along", laws[law]}}};
  return std::nullopt;
}

FitWords unknown_fit(const Preview& preview) {
  if (preview.order.cloth.name.empty())
    return {std::nullopt, "No cloth is named, so how the crown lies on the form is not known.", {}};
  if (!preview.order.pattern.panels && !preview.order.pattern.kind)
    return {
        std::nullopt, "No number of panels is given, so how the crown lies on the form is not known.", {}};
  return {std::nullopt, "How the crown lies on the form is not known.", {}};
}

}  // namespace

std::string tone_word(Tone tone) {
  switch (tone) {
    case Tone::good:
      return "good";
    case Tone::mind:
      return "mind";
    case Tone::bad:
      return "bad";
  }
  return {};
}

std::string typed_mm(double mm) { return number_text(mm, 3) + " mm"; }

std::vector<Verdict> verdicts_of(const Preview& preview, bool inches) {
  const SheetUnits units(inches);
  std::vector<Verdict> all = {heat_verdict(preview)};
  for (auto& one :
       {steam_verdict(preview, units), press_verdict(preview, units), print_verdict(preview, units),
        release_verdict(preview, units), mill_verdict(preview, units), stack_verdict(preview, units)})
    if (one) all.push_back(*one);
  return all;
}

FitWords fit_words(const Preview& preview, bool inches) {
  const SheetUnits units(inches);
  if (!preview.fit->crown) return unknown_fit(preview);
  const making::CrownFit& crown = *preview.fit->crown;
  FitWords words;
  words.tone = crown.report.verdict == fit::Verdict::as_sewn       ? Tone::good
               : crown.report.verdict == fit::Verdict::after_steam ? Tone::mind
                                                                   : Tone::bad;
  words.words = "It " + fit::verdict_words(crown.report.verdict) +
                (crown.drafted ? " (as drafted here): " : ": ") +
                report::strain_words(crown.report.worst, units.both(crown.report.worst.at)) + ".";
  if (*words.tone != Tone::bad) return words;
  for (const fit::Change& change : crown.nearest)
    if (auto one = try_of(change, units)) words.tries.push_back(*std::move(one));
  if (crown.nearest.empty())
    words.words +=
        " No single change of edge, dome or panels makes it fit: a cloth that eases in more would, or "
        "other measures.";
  return words;
}

}  // namespace crownwright::page
