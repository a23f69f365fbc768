#pragma once
// Which key of the order a refusal speaks of. The stages know figures, not keys; here it is known what was
// ordered.

#include <string>

#include "base/result.h"

namespace crownwright::making {

/// An impossible fault that names no place yet gets the key; every other is handed on.
inline Fault at_key(const Fault& fault, const std::string& key) {
  const bool open = fault.exit == ExitCode::impossible && fault.where.empty() && !key.empty();
  return open ? fault.within(key) : fault;
}

}  // namespace crownwright::making
