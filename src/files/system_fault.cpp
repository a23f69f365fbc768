#include "files/system_fault.h"

#include <cstring>

namespace crownwright::files {

Fault system_fault(const std::string& path, const std::string& what, int error) {
  // glibc's own description: one language whatever the locale.
  const char* text = ::strerrordesc_np(error);
  return file_fault(path, what + ": " + (text ? text : "error " + std::to_string(error)));
}

}  // namespace crownwright::files
