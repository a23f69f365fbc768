#include "report/work_sheet.h"

#include "base/length.h"
#include "drawings/picture.h"
#include "making/marked.h"
#include "parts/stack.h"
#include "report/length_words.h"
#include "report/work_sheet_html.h"
#include "report/work_sheet_words.h"

namespace crownwright::report {
namespace {

using drawings::SheetSign;
using drawings::WorkSheet;

bool is_pad_sheet(const making::Form& form) { return form.order.form.kind == order::FormKind::pad; }

// ---- units -----------------------------------------------------------------------------------

class LengthCount {
 public:
  void add(const Length& length) {
    if (length.numerator() == 0) return;
    ++all_;
    if (length.numerator() % 127 == 0) ++inches_;
  }
  void add(const std::optional<Length>& length) {
    if (length) add(*length);
  }
  bool mostly_inches() const { return 2 * inches_ > all_; }

 private:
  int all_ = 0, inches_ = 0;
};

// ---- the head of the sheet ----------------------------------------------------------------------

std::string sheet_title(const order::Order& order, bool pad) {
  if (pad && order.name == "pad") return "Pressing pad";
  if (!pad && order.name == "block") return "Block";
  return order.name;
}

std::string comma_joined(std::string text, const std::string& more) {
  if (more.empty()) return text;
  if (!text.empty()) text += ", ";
  return text + more;
}

std::string sheet_subtitle(const making::Form& form, const SheetUnits& units) {
  const order::Order& order = form.order;
  std::string kind = is_pad_sheet(form)                                ? "pressing pad"
                     : form.released && !form.released->pieces.empty() ? "puzzle block"
                                                                       : "block";
  std::string text = "Work sheet, " + kind;
  text = comma_joined(text, order.shape.profile);
  if (!order.cloth.name.empty()) text = comma_joined(text, order.cloth.name);
  if (form.figures.moved_inward > 0)
    text = comma_joined(text, "form " + units.own(form.figures.moved_inward) + " further in for the cloth");
  return text;
}

std::string ordered_words(const std::optional<Length>& length, const SheetUnits& units) {
  return length ? ", ordered " + units.own(length->mm()) : std::string();
}

// Read back from the triangles: what a tape laid on the finished form must say.
std::vector<drawings::SheetFigure> main_figures(const making::Form& form, const SheetUnits& units) {
  const proof::Readings& readings = form.proven.readings();
  const order::Measure& measure = form.order.measure;
  const auto figure = [&](const std::string& name, double mm, const std::string& more) {
    return drawings::SheetFigure{name, units.own(mm), units.other(mm) + more};
  };
  std::vector<drawings::SheetFigure> figures;
  if (readings.head_girth)
    figures.push_back(
        figure("Head line, round", *readings.head_girth, ordered_words(measure.head_girth, units)));
  figures.push_back(
      figure("Crown, across", readings.crown_diameter, ordered_words(measure.crown_diameter, units)));
  figures.push_back(
      figure(is_pad_sheet(form) ? "Thickness" : "Rise", readings.rise, ordered_words(measure.rise, units)));
  if (!is_pad_sheet(form) && form.order.form.collar.mm() > 0)
    figures.push_back(figure("Collar", form.order.form.collar.mm(), ""));
  return figures;
}

drawings::SheetProfile sheet_profile(const making::Form& form, const SheetUnits& units) {
  const proof::Readings& readings = form.proven.readings();
  drawings::SheetProfile profile;
  profile.outer = parts::outer_face(form.solid);
  for (const solid::Shell& shell : form.solid.shells) profile.shells.push_back(shell.walk);
  if (form.solid.has_head_line) profile.head_line = form.solid.head_line.z;
  profile.edge_radius = form.figures.edge_radius;
  profile.under_edge_radius = form.figures.under_edge_radius;
  profile.dome = form.figures.dome;
  profile.crown = "crown " + units.own(readings.crown_diameter) + " across";
  if (readings.head_girth) profile.head = "head line " + units.own(*readings.head_girth) + " round";
  profile.rise = (is_pad_sheet(form) ? "thick " : "rise ") + units.own(readings.rise);
  if (!is_pad_sheet(form) && form.order.form.collar.mm() > 0)
    profile.collar = "collar " + units.own(form.order.form.collar.mm());
  profile.edge = "edge R " + units.own(form.figures.edge_radius);
  if (!is_pad_sheet(form) && std::abs(form.figures.under_edge_radius - form.figures.edge_radius) > 0.005)
    profile.under_edge = "below R " + units.own(form.figures.under_edge_radius);
  profile.dome_words = form.figures.dome > 0 ? "dome " + units.own(form.figures.dome) : "flat tip";
  return profile;
}

// ---- verdicts --------------------------------------------------------------------------------

drawings::SheetVerdict heat_verdict(const making::Form& form) {
  const making::Pressed& pressed = form.pressed;
  std::string reason = pressed.heat.reason;
  reason += pressed.asked ? "." : " (under open steam; the order does not say how it is pressed).";
  if (form.order.press && !form.order.press->accept_risk.empty())
    reason += " The order accepts the risk: \"" + form.order.press->accept_risk + "\".";
  switch (pressed.heat.verdict) {
    case press::Verdict::fit:
      return {SheetSign::good, "Heat", pressed.label + " stands it", reason};
    case press::Verdict::risk:
      return {SheetSign::mind, "Heat", pressed.label + " is a risk", reason};
    case press::Verdict::no:
      break;
  }
  return {SheetSign::bad, "Heat", pressed.label + " does not stand it", reason};
}

drawings::SheetVerdict fit_verdict(const making::CrownFit& crown, const SheetUnits& units) {
  const bool fits = crown.report.verdict != fit::Verdict::no;
  std::string reason = fit_reason(crown, units) + ".";
  if (!fits && !crown.nearest.empty()) reason += " Would fit: " + crown.nearest.front().says + ".";
  return {fits ? SheetSign::good : SheetSign::mind, "Fit", fit::verdict_words(crown.report.verdict), reason};
}

}  // namespace

bool is_written_in_inches(const order::Order& order) {
  LengthCount count;
  const order::Measure& measure = order.measure;
  if (measure.hat_size.empty()) count.add(measure.head_girth);
  count.add(measure.crown_diameter);
  count.add(measure.rise);
  if (order.panel_lengths) count.add(order.panel_lengths->top), count.add(order.panel_lengths->under);
  for (const auto& length :
       {order.shape.dome, order.shape.edge_radius, order.shape.under_edge_radius, order.pattern.top_diameter,
        order.pattern.ring_diameter, order.pattern.ring_opening})
    count.add(length);
  for (const order::PanelWidth& station : order.pattern.stations)
    count.add(station.down), count.add(station.width);
  if (order.dish)
    for (const order::Reading& reading : order.dish->readings)
      count.add(reading.radius), count.add(reading.height);
  return count.mostly_inches();
}

WorkSheet work_sheet(const making::Form& form, const std::string& stem, bool inches,
                     const std::string& picture_png) {
  const SheetUnits units(inches);
  WorkSheet sheet;
  sheet.title = sheet_title(form.order, is_pad_sheet(form));
  sheet.subtitle = sheet_subtitle(form, units);
  sheet.profile = sheet_profile(form, units);
  sheet.picture_png = picture_png;
  sheet.figures = main_figures(form, units);
  sheet.verdicts.push_back(heat_verdict(form));
  if (form.fit && form.fit->crown) {
    const making::CrownFit& crown = *form.fit->crown;
    sheet.verdicts.push_back(fit_verdict(crown, units));
    sheet.chart =
        drawings::SheetChart{crown.report, crown.limits, inches ? 25.4 : 10.0, inches ? "in" : "cm"};
  }
  sheet.steps = press_steps(form, units);
  sheet.chapters = sheet_chapters(form, units);
  sheet.cautions = sheet_cautions(form);
  sheet.report = stem + ".report.json";
  return sheet;
}

std::string form_picture(const making::Form& form) {
  std::vector<drawings::PicturedMesh> meshes;
  for (const making::PrintedPart& part : form.printed.parts) {
    if (!part.proven) continue;
    const bool other = meshes.size() % 2 == 1;
    meshes.push_back({&part.proven->mesh(), part.to_form, other ? 0.72 : 0.86});
  }
  if (meshes.empty()) meshes.push_back({&form.proven.mesh(), {}, 0.86});
  drawings::PictureRules rules;
  rules.width = 640, rules.height = 480;
  return drawings::picture_png(meshes, rules);
}

std::vector<making::ExtraFile> sheet_files(const making::Form& form, const std::string& stem) {
  const bool inches = is_written_in_inches(form.order);
  const std::string picture = form_picture(form);
  const WorkSheet sheet = work_sheet(form, stem, inches, picture);
  const auto paper = inches ? drawings::Paper::letter : drawings::Paper::a4;
  return {{inches ? ".sheet.letter.pdf" : ".sheet.a4.pdf",
           making::pdf_with_mark(drawings::work_sheet_pdf(sheet, paper), form.order)},
          {".sheet.html", making::svg_with_mark(work_sheet_html(sheet), form.order)},
          {".picture.png", making::png_with_mark(picture, form.order)}};
}

}  // namespace crownwright::report
