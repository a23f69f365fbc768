#pragma once
// The parts of a 3MF package and how they hang together (3MF core specification 1.3, chapter 2, and Open
// Packaging Conventions): content types, relationships, the one model.

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "files/zip_reader.h"

namespace crownwright::files {

struct ThreemfParts {
  std::string model;      ///< name of the model part, without the first slash
  std::string thumbnail;  ///< of the package; empty: none
};

/// Faults (exit 4): no or doubled content types, no relationships, not exactly one model, a model, thumbnail
/// or print ticket that is not there or of another content type, more than one print ticket, a print ticket
/// of the package, relationships without or with doubled ids, doubled or leading out of the package.
Result<ThreemfParts> find_threemf_parts(const ZipReader& zip, const std::string& where);

}  // namespace crownwright::files
