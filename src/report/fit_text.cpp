#include "report/fit_text.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "report/length_words.h"

namespace crownwright::report {
namespace {

std::string law_words(pattern::LengthAlong along) {
  switch (along) {
    case pattern::LengthAlong::seam:
      return "along the seam";
    case pattern::LengthAlong::centre:
      return "along the centre";
    case pattern::LengthAlong::shared:
      return "shared by seam and centre";
  }
  return {};
}

// ---- the pattern -----------------------------------------------------------------------------

std::string with_sigma(double value, double sigma) {
  return length_words(value) + (sigma >= 0.05 ? " (+-" + number_text(sigma, 1) + " mm)" : "");
}

void add_pattern(Page& page, const making::Form& form) {
  if (!form.pattern) return;
  const making::ReadPattern& read = *form.pattern;
  const meridian::BeretValues& v = read.values;
  if (!read.fit) {
    page.line("Pattern",
              "disc and ring, " + length_words(read.cloth.length()) + " from the tip to the opening");
    return;
  }
  const pattern::Sigma& sigma = read.fit->sigma;
  page.line("Pattern", std::to_string(read.drawn->panels) + " panels sew up to a crown " +
                           with_sigma(2 * v.a, 2 * sigma.a) + " across, rise " + with_sigma(v.R, sigma.R) +
                           ", edge radius " + with_sigma(v.e_u, sigma.e_u) + ", lengths " +
                           law_words(read.net->along) + "; the drawing is met within " +
                           number_text(std::max(0.1, read.fit->worst), 1) + " mm");
}

// ---- the crown -------------------------------------------------------------------------------

std::string work_words(const std::vector<double>& places) {
  std::string text;
  for (const double at : places) text += (text.empty() ? "" : ", ") + length_words(at);
  return "work with the iron at " + text + " from the tip";
}

void add_crown(Page& page, const making::CrownFit& crown) {
  const fit::FitReport& report = crown.report;
  const bool fits = report.verdict != fit::Verdict::no;
  const std::string of = crown.drafted ? " (as drafted here)" : "";
  page.line("Fit",
            fit::verdict_words(report.verdict) + of + ": " +
                strain_words(report.worst, length_words(report.worst.at)),
            fits ? Tone::good : Tone::mind);
  if (!report.work_here.empty()) page.line("", work_words(report.work_here));
  if (fits) return;
  std::string label = "Would fit";
  for (const fit::Change& change : crown.nearest) {
    page.line(label, change.says + (change.new_pattern ? " (with the pattern drafted anew)" : "") + ": " +
                         fit::verdict_words(change.verdict));
    label.clear();
  }
  if (crown.nearest.empty())
    page.line(label,
              "no single change of edge, dome or panels: a cloth that eases in more, or other measures");
}

void add_opening(Page& page, const making::FormFit& fit) {
  const fit::Opening& opening = fit.opening;
  const std::string way = opening.needed.edge_first < opening.needed.straight ? "edge first" : "straight off";
  std::string text = "the opening of " + length_words(opening.girth) + " must come to " +
                     length_words(opening.needed.least()) + " (" + way + "), a stretch of " +
                     percent_text(opening.stretch_needed);
  if (fit.crown) text += opening.passes ? ", which the cloth gives" : ", more than the cloth gives";
  if (opening.passes_with_band)
    text += *opening.passes_with_band
                ? "; with the band sewn on it still does"
                : "; with the band sewn on it does not: press the crown before you sew on the band";
  page.line("Taking off", text);
}

}  // namespace

std::string strain_words(const fit::Worst& worst, const std::string& at) {
  const std::string what = worst.strain == fit::Strain::hoop   ? "round the crown"
                           : worst.strain == fit::Strain::seam ? "along the seams"
                                                               : "along the panels' middle";
  const std::string does = worst.value >= 0 ? "it must stretch " : "it must be eased in by ";
  return does + percent_text(std::abs(worst.value)) + " " + what + " at " + at + " from the tip, and takes " +
         percent_text(std::abs(worst.limit));
}

void add_fit(Page& page, const making::Form& form) {
  if (!form.fit) return;
  page.gap();
  add_pattern(page, form);
  if (form.fit->crown) add_crown(page, *form.fit->crown);
  // Of a form that comes apart each piece is told by itself (report/parts_text.h).
  if (!form.released || form.released->pieces.empty()) add_opening(page, *form.fit);
}

}  // namespace crownwright::report
