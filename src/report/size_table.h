#pragma once
// A run of sizes in one table: finished dimensions, strains and verdicts.

#include <optional>
#include <string>
#include <vector>

#include "making/form.h"

namespace crownwright::report {

/// One size, made or refused.
struct SizeLine {
  std::string size;
  std::optional<Fault> fault;
  making::FormFigures figures;
  proof::Readings readings;
  std::optional<making::FormFit> fit;
  std::vector<std::string> files;
};

/// What is kept of a form that was made and written.
SizeLine size_line(const std::string& size, const making::Form& form, std::vector<std::string> files);

/// RFC 4180, a header line, lengths in mm, strains as fractions; a refused size has its fault in the last
/// column.
std::string size_table_csv(const std::vector<SizeLine>& lines);
/// {"name", "made_by", "units", "sizes": [{"size", "made", "form", "measured", "fit", "files"} or {...,
/// "fault"}], "files"}.
std::string size_table_json(const std::string& name, const std::vector<SizeLine>& lines,
                            const std::vector<std::string>& files);
/// For the eye, at most 80 columns; centimetres. Strains: of the whole seam and centre line, and the worst
/// mean strain with the limit it is held against.
std::string size_table_text(const std::string& name, const std::vector<SizeLine>& lines);

}  // namespace crownwright::report
