#pragma once
// A second opinion on STL files: admesh (A. D. Martin, 1995; Debian package admesh), which printing programs
// were built on. Its exit code is 0 even for broken meshes, so its table of findings is read.

#include <map>
#include <stdexcept>
#include <string>

#include "support/outside_program.h"

namespace crownwright::test {

struct AdmeshFindings {
  std::string text;                    ///< all that it printed
  std::map<std::string, long> counts;  ///< "Degenerate facets" -> 0
};

/// Corners are joined where they are equal; then normals and their directions are looked at. Nothing is
/// written.
inline AdmeshFindings admesh_findings(const std::string& path) {
  AdmeshFindings findings;
  const OutsideAnswer answer =
      answer_of("admesh --exact --normal-directions --normal-values '" + path + "' 2>&1");
  findings.text = answer.text;
  if (answer.exit == 127) throw std::runtime_error("admesh is not installed: apt-get install admesh");
  if (answer.exit != 0) throw std::runtime_error("admesh cannot read the file: " + findings.text);
  // "Degenerate facets           :     0"; some lines hold a second pair further right.
  std::size_t at = 0;
  while (at < findings.text.size()) {
    const std::size_t end = std::min(findings.text.find('\n', at), findings.text.size());
    const std::string line = findings.text.substr(at, end - at);
    at = end + 1;
    const std::size_t colon = line.find(':');
    if (colon == std::string::npos || line.find_first_of("0123456789", colon) == std::string::npos) continue;
    const std::string name = line.substr(0, line.find_last_not_of(" ", colon - 1) + 1);
    const std::string rest = line.substr(colon + 1);
    char* stop = nullptr;
    const long value = std::strtol(rest.c_str(), &stop, 10);
    if (stop != rest.c_str()) findings.counts[name.substr(name.find_first_not_of(' '))] = value;
  }
  return findings;
}

}  // namespace crownwright::test
