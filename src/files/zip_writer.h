#pragma once
// A ZIP archive made in memory (libzip): same entries, same bytes. Every entry bears the date 1980-01-01, the
// first that ZIP can hold, and is deflated at one fixed level or stored as it is.

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace crownwright::files {

struct ZipEntry {
  std::string name;
  std::span<const std::byte> content;
  bool deflated = true;
};

/// The entries in their order. Precondition: names are given once each and are relative paths. Throws
/// std::bad_alloc when there is no memory for it.
std::vector<std::byte> zipped(const std::vector<ZipEntry>& entries);

}  // namespace crownwright::files
