#pragma once
// A form's files, whole or not at all.

#include <functional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/extra_files.h"
#include "making/form.h"

namespace crownwright::making {

struct WriteOptions {
  std::string into = "out";         ///< the folder that holds one folder per order
  std::string stem;                 ///< file stem of the order
  bool force = false;               ///< replace files that this order did not make
  std::vector<ExtraFile> extras{};  ///< written beside the meshes
};

/// Short hash of the order's saved text, put into the files made from it. A file at <into>/<stem>/ that bears
/// any such mark is this order's own, made before or after a change to it, and may be replaced; any other
/// file only with `force`.
std::string order_mark(const order::Order& order);

/// A report or size table of this program, by the line "made_by" in its first 64 kB.
bool bears_report_mark(const std::string& path);

/// ".stl", ".obj", ".ply".
std::string mesh_ending(order::MeshFormat format);

/// The extra files alone: what `draft` makes. Paths in their order.
Result<std::vector<std::string>> write_extras(const WriteOptions& options);

/// Writes <into>/<stem>/<stem>.stl (.obj, .ply as ordered), the parts (making/part_files.h), the extra files
/// and <stem>.report.json with the text that `report` makes from the list of files. Returns all paths
/// written, meshes first. On a fault no half-written file remains; of several meshes those before the fault
/// are there, whole.
Result<std::vector<std::string>> write_form(
    const Form& form, const WriteOptions& options,
    const std::function<std::string(const std::vector<std::string>&)>& report);

}  // namespace crownwright::making
