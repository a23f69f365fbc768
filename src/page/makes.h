#pragma once
// Which files an order will give, told before they are made.

#include <string>
#include <vector>

#include "making/preview.h"

namespace crownwright::page {

struct MadeKind {
  std::string ending;  ///< ".stl"
  std::string what;    ///< "form for a printer"
};

/// In the order in which they are best offered. Parts, beds and drilling templates that only the making
/// counts are not listed.
std::vector<MadeKind> kinds_made(const making::Preview& preview);

}  // namespace crownwright::page
