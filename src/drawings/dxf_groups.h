#pragma once
// A DXF file as its pairs of lines, group code and value, and the drawing's sections found in them. This is
// the guard before dxflib: what it cannot read safely is refused here, with the line.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright::drawings {

struct DxfGroup {
  int code = 0;
  std::string_view value;  ///< part of the file's bytes, blanks at both ends left out
  int line = 0;            ///< of the value, from 1
};

struct DxfEntity {
  std::string_view kind;         ///< "LINE", "POLYLINE" (its vertices are among the groups), ...
  std::string_view layer;        ///< "0" when none is named
  std::size_t from = 0, to = 0;  ///< its groups, the one with its kind first; from < to
  bool on_paper = false;         ///< drawn on a layout, not in the model
};

struct DxfFile {
  std::vector<DxfGroup> groups;
  std::vector<DxfEntity> entities;
  std::optional<int> units;                     ///< $INSUNITS
  std::vector<std::string_view> hidden_layers;  ///< off or frozen
};

/// Faults (`order`): binary DXF, no DXF at all, a line that is no group code, cut short (no EOF), lines out
/// of order (a VERTEX outside a POLYLINE).
Result<DxfFile> dxf_file(std::string_view bytes, const std::string& name);

/// A whole decimal number, nothing else beside it: "12.5", "-3e-4"; nothing for text, nan and inf.
std::optional<double> dxf_number(std::string_view text);
std::optional<int> dxf_integer(std::string_view text);

}  // namespace crownwright::drawings
