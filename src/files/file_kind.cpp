#include "files/file_kind.h"

#include <algorithm>

namespace crownwright::files {

std::string kind_of_name(const std::string& path) {
  const std::string name = path.substr(path.rfind('/') + 1);  // npos + 1 is 0
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos || dot == 0) return {};
  std::string kind = name.substr(dot + 1);
  std::transform(kind.begin(), kind.end(), kind.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return kind;
}

}  // namespace crownwright::files
