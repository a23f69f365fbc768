#pragma once
// The fit drawn: strains along the meridian with the cloth's limits shaded, and below it the girth of form
// and cloth. Readable in grey print: lines differ in their strokes, not in their colours alone.

#include <string>
#include <vector>

#include "base/result.h"
#include "fit/fit.h"
#include "pattern/pieces.h"

namespace crownwright::drawings {

struct ChartTitles {
  std::string title;     ///< the order's name
  std::string subtitle;  ///< "8 panels, fleece: fits after steam"
};

std::string fit_chart_svg(const fit::FitReport& report, const fit::ClothLimits& limits,
                          const ChartTitles& titles);
/// PNG, 1600 pixels wide.
std::string fit_chart_png(const fit::FitReport& report, const fit::ClothLimits& limits,
                          const ChartTitles& titles);

/// All panels of a run of sizes over one another, tip on tip, true shape, with a scale.
struct NestedPanel {
  std::string size;
  pattern::PanelNet net;
};
std::string nested_chart_svg(const std::vector<NestedPanel>& panels, const std::string& title);

}  // namespace crownwright::drawings
