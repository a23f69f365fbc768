#pragma once
// A 3MF package, read strictly and without risk: everything in memory, every size known and limited before
// room is made for it, nothing followed that leads out of the package.

#include <span>
#include <string>

#include "base/result.h"
#include "files/read_file.h"
#include "files/threemf_model.h"
#include "files/xml_part.h"
#include "files/zip_reader.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

struct ThreemfLimits {
  std::uint64_t bytes = ReadLimits{}.bytes;  ///< of the package
  ZipLimits zip;
  XmlLimits xml;
  ThreemfModelLimits model;
};

/// By its name's ending, or by content: a ZIP archive. False when it cannot be read.
bool is_threemf(const std::string& path);

/// Faults (exit 4): as read_whole, ZipReader, XmlPart, find_threemf_parts and read_threemf_model; every
/// entry's checksum is compared. They name the file, and within it the part and line. Whether the meshes
/// bound solids is the proof's business (proof/any_mesh.h), body by body: an item's place neither mirrors nor
/// flattens, so an item is a solid when its body is one.
Result<ThreemfModel> read_threemf(const std::string& path, const ThreemfLimits& limits = {});

/// The same of the bytes of a package.
Result<ThreemfModel> parse_threemf(std::span<const std::byte> bytes, const std::string& where,
                                   const ThreemfLimits& limits = {});

/// All items where they stand, as one mesh; corners at the same place become one vertex, as by every other
/// reader of meshes.
mesh::TriangleMesh joined_items(const ThreemfModel& model);

}  // namespace crownwright::files
