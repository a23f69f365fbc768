#pragma once
// The work sheet: what the wall of the workroom shows of one form, on one or two pages, its main figures to
// be read from two metres. It takes figures, words and drawings ready made and lays them out; nothing is
// computed about the form but its outline on paper.
//
// All in greys, told apart by weight, dashes, tone and words. Same sheet, same bytes. Texts may hold
// anything: control characters and broken UTF-8 are written as \xNN, what is too long is wrapped or cut
// short. Figures must be finite.

#include <optional>
#include <string>
#include <vector>

#include "drawings/paper.h"
#include "fit/fit.h"
#include "meridian/chain.h"

namespace crownwright::drawings {

/// The form cut through its axis, left half in section, with its dimensions in words as they are to be
/// written.
struct SheetProfile {
  meridian::Chain outer;                ///< pole to foot or to the axis at the foot (z = 0)
  std::vector<meridian::Chain> shells;  ///< the first is the body, what follows are cavities in it
  std::optional<double> head_line;      ///< its height; a pad has none
  double edge_radius = 0, under_edge_radius = 0;
  double dome = 0;  ///< 0: flat
  /// Each may be empty: it is left out.
  std::string crown, head, rise, collar, edge, under_edge, dome_words;
};

struct SheetChart {
  fit::FitReport report;
  fit::ClothLimits limits;
  double unit = 10;       ///< mm in one unit of the lower axis
  std::string unit_name;  ///< "cm"
};

struct SheetFigure {
  std::string name, value, beside;  ///< "Crown", "27.7 cm", "10 7/8 in across"
};

/// Told by its sign and its words: a disc, a triangle, a cross.
enum class SheetSign { good, mind, bad };
struct SheetVerdict {
  SheetSign sign = SheetSign::good;
  std::string name, verdict, reason;  ///< "Heat", "stands it", "PC keeps its shape ..."
};

/// A line with its label in bold in front; without a label it goes on under the one above.
struct SheetLineOfWords {
  std::string label, words;
};
struct SheetChapter {
  std::string heading;
  std::vector<SheetLineOfWords> lines;
};

struct WorkSheet {
  std::string title, subtitle;
  SheetProfile profile;
  std::string picture_png;
  std::vector<SheetFigure> figures;  ///< at most four are drawn
  std::vector<SheetVerdict> verdicts;
  std::vector<SheetLineOfWords> steps;  ///< numbered as they stand
  std::optional<SheetChart> chart;
  std::vector<SheetChapter> chapters;  ///< the most important first: the last may be cut short
  std::vector<std::string> cautions;   ///< written whole; they fill half a page at most
  std::string report;                  ///< the file that tells the rest
};

/// One or two pages.
std::string work_sheet_pdf(const WorkSheet& sheet, Paper paper);

/// Drawings by themselves, SVG with words as text; groups "section", "outline", "dimensions" / "chart".
std::string sheet_profile_svg(const SheetProfile& profile, const std::string& title);
std::string sheet_chart_svg(const SheetChart& chart, const std::string& title);

}  // namespace crownwright::drawings
