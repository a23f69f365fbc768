#pragma once
// Forms drafted into files and read back as somebody else's drawing.

#include <cmath>
#include <string>

#include "base/length.h"
#include "files/temp_folder.h"
#include "making/draft.h"
#include "making/extra_files.h"
#include "making/orders.h"

namespace crownwright::test {

/// Round the numbers of a form to what an order's text holds, so that both speak of the same form.
inline meridian::BeretValues as_written(meridian::BeretValues v) {
  for (double* length : {&v.a, &v.b, &v.R, &v.t, &v.e_u, &v.e_l}) *length = std::round(*length * 1000) / 1000;
  return v;
}

inline std::string in_mm(double length) { return "\"" + number_text(length, 6) + " mm\""; }

struct Way {
  int panels = 8;
  pattern::LengthAlong along = pattern::LengthAlong::shared;
  double allowance = 10;
};

/// An order that drafts this form, all figures those of the cloth's middle.
inline std::string drafting_order(const meridian::BeretValues& v, const Way& way) {
  return "[measure]\nhead_girth = " + in_mm(2 * std::numbers::pi * v.b) +
         "\ncrown_diameter = " + in_mm(2 * v.a) + "\nrise = " + in_mm(v.R) +
         "\ntaken_at = \"cloth middle\"\n[shape]\ndome = " + in_mm(v.t) + "\nedge_radius = " + in_mm(v.e_u) +
         "\n[pattern]\npanels = " + std::to_string(way.panels) +
         "\nseam_allowance = " + in_mm(way.allowance) + "\nlength_along = \"" + pattern::in_words(way.along) +
         "\"\n[draft]\n";
}

/// An order that reads a drawing of that panel: its sew line, or its cut line with the allowance.
inline std::string reading_order(const std::string& file, const std::string& layer, bool cut_line,
                                 const Way& way, double dome, const std::string& more = {}) {
  return "[shape]\ndome = " + in_mm(dome) + "\n" + more +
         "[pattern]\nkind = \"outline\"\npanels = " + std::to_string(way.panels) + "\nfile = \"" + file +
         "\"\nlayer = \"" + layer + "\"\nseam_allowance = " + in_mm(way.allowance) +
         "\nincludes_allowance = " + (cut_line ? "true" : "false") + "\nlength_along = \"" +
         pattern::in_words(way.along) + "\"\n";
}

/// The drawings of an order's pieces as files in a folder: "p.panel.svg", "p.panel.dxf", ...
inline void put_drawings(const order::Order& order, const std::vector<pattern::Piece>& pieces,
                         const TempFolder& folder) {
  for (const making::ExtraFile& file : making::pattern_files(order, pieces))
    folder.put("p" + file.ending, file.bytes);
}

}  // namespace crownwright::test
