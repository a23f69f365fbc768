#include "report/report_text.h"

#include <cmath>
#include <numbers>

#include "base/length.h"
#include "report/fit_text.h"
#include "report/length_words.h"
#include "report/matter.h"
#include "report/mill_text.h"
#include "report/page.h"
#include "report/parts_text.h"
#include "report/press_text.h"

namespace crownwright::report {
namespace {

bool is_pad(const order::Order& order) { return order.form.kind == order::FormKind::pad; }

// A form without a name of its own is called after its kind.
std::string title(const order::Order& order) {
  const std::string kind = is_pad(order) ? "pressing pad" : "block";
  return order.name == kind || order.name == "pad" ? kind : order.name + " (" + kind + ")";
}

// Joins what is there with commas.
class Sentence {
 public:
  Sentence& add(const std::string& part) {
    if (!part.empty()) text_ += (text_.empty() ? "" : ", ") + part;
    return *this;
  }
  Sentence& add(const char* what, const std::optional<Length>& length) {
    return length ? add(std::string(what) + " " + length_words(length->mm())) : *this;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

std::string taken_words(const order::Measure& measure) {
  switch (measure.taken_at) {
    case order::TakenAt::outside:
      return "taken on the outside of the beret";
    case order::TakenAt::cloth_middle:
      return "taken at the cloth's middle (a pattern's seam lines)";
    case order::TakenAt::form:
      return "figures of the form itself";
  }
  return {};
}

void add_ordered(Page& page, const order::Order& order) {
  const order::Measure& measure = order.measure;
  Sentence lengths;
  lengths.add(measure.hat_size.empty() ? "" : "hat size " + measure.hat_size);
  lengths.add("head girth", measure.head_girth).add("crown diameter", measure.crown_diameter);
  lengths.add(is_pad(order) ? "thickness" : "rise", measure.rise);
  if (order.panel_lengths) {
    lengths.add("panel from tip to crown edge", order.panel_lengths->top);
    lengths.add("on to the head line", order.panel_lengths->under);
  }
  page.line("Ordered", lengths.add(taken_words(measure)).text());
}

void add_allowance(Page& page, const making::Form& form) {
  const making::FormFigures& figures = form.figures;
  Sentence off;
  if (figures.moved_inward > 0) {
    const std::string cloth = form.order.cloth.name.empty() ? "the cloth" : form.order.cloth.name;
    off.add("the face lies " + length_words(figures.moved_inward) + " further in, for " + cloth + " " +
            length_words(figures.cloth_thickness) + " thick");
  }
  if (figures.heat_shrink > 0) {
    off.add(percent_text(figures.heat_shrink) + " off every length, for what steam takes from the cloth");
  }
  if (!off.text().empty()) page.line("Taken off", off.text());
}

void add_shape(Page& page, const making::Form& form) {
  const making::FormFigures& figures = form.figures;
  Sentence shape;
  shape.add(form.order.shape.profile);
  shape.add(figures.dome == 0 ? "flat tip" : "dome " + length_words(figures.dome));
  shape.add("edge radius " + length_words(figures.edge_radius));
  if (!is_pad(form.order) && figures.under_edge_radius != figures.edge_radius) {
    shape.add("below " + length_words(figures.under_edge_radius));
  }
  page.line("Shape", shape.text());
}

// Read back from the triangles, except the lengths over the curve, which no triangle has.
void add_measured(Page& page, const making::Form& form) {
  const proof::Readings& readings = form.proven.readings();
  if (readings.head_girth) page.line("Head line", length_words(*readings.head_girth) + " round");
  page.line("Crown", length_words(readings.crown_diameter) + " across, " +
                         length_words(std::numbers::pi * readings.crown_diameter) + " round");
  page.line(is_pad(form.order) ? "Thickness" : "Rise", length_words(readings.rise));
  const std::string to = is_pad(form.order) ? "the foot of the side" : "the head line";
  page.line("Curve", length_words(form.figures.meridian_length) + " over the surface from the tip to " + to);
  page.line("Wall", readings.wall_min ? length_words(*readings.wall_min) + " where it is thinnest" : "solid");
  if (!is_pad(form.order)) {
    const double collar = form.order.form.collar.mm();
    page.line("Collar", collar == 0 ? "none" : length_words(collar) + " below the head line");
  }
}

void add_matter(Page& page, const making::Form& form) {
  const Matter matter = matter_of(form);
  std::string words = number_text(matter.volume / 1000, 0) + " cm3; in " + form.pressed.label + " " +
                      number_text(matter.mass, 0) + " g when massive";
  if (form.printed.parts.size() == 1)
    words += "; surface inside and out " + number_text(form.proven.readings().area / 100, 0) + " cm2";
  page.line("Material", words);
  if (matter.vents > 0) {
    page.line("Vents", counted(matter.vents, "steam vent", "steam vents") + " of " +
                           length_words(form.order.vents->diameter.mm()) + ", open " +
                           number_text(matter.open_area / 100, 1) + " cm2 in all");
  } else {
    page.line("Vents", "none");
  }
}

void add_proof(Page& page, const making::Form& form) {
  const proof::Proven& proven = form.proven;
  const auto checks = static_cast<long long>(proven.verdict().checks.size());
  page.line("Proved",
            "closed and sound, " + counted(checks, "check", "checks") + " passed; " +
                counted(static_cast<long long>(proven.mesh().triangles.size()), "triangle", "triangles") +
                ", none further than " + number_text(proven.readings().chord_error_max, 4) +
                " mm from the true surface",
            Tone::good);
}

constexpr char kCare[] =
    "steam and hot irons scald, and they soften printed plastics (PLA first) and foams, which may sag, "
    "shrink or "
    "fume. Go by the data sheet of your material's maker, try a corner first, and never leave an iron lying "
    "on a form.";

}  // namespace

std::string report_text(const making::Form& form, const std::vector<std::string>& files, Paint paint) {
  Page page(paint);
  page.heading(title(form.order));
  add_ordered(page, form.order);
  add_allowance(page, form);
  add_shape(page, form);
  page.gap();
  add_measured(page, form);
  page.gap();
  add_matter(page, form);
  add_pressed(page, form.pressed);
  add_proof(page, form);
  page.gap();
  add_parts(page, form);
  add_mill(page, form);
  add_fit(page, form);
  if (!form.warnings.empty()) page.gap();
  for (const std::string& warning : form.warnings) page.line("Mind", warning, Tone::mind);
  page.gap();
  std::string label = "Files";
  for (const std::string& file : files) {
    page.whole(label, file);
    label.clear();
  }
  return page.text();
}

std::string care_text(Paint paint) { return Page(paint).line("Care", kCare).text(); }

}  // namespace crownwright::report
