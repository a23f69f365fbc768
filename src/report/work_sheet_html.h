#pragma once
// The work sheet as one page of HTML that needs nothing beside it: drawings as inline SVG, the picture as a
// data URI, no script. Well-formed XML besides.

#include <string>

#include "drawings/work_sheet.h"

namespace crownwright::report {

std::string work_sheet_html(const drawings::WorkSheet& sheet);

}  // namespace crownwright::report
