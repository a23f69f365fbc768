#pragma once
// Faults that both formats share.

#include <string>
#include <string_view>
#include <vector>

#include "drawings/pen.h"

namespace crownwright::drawings {

/// In double quotes, a long text cut off.
std::string quoted(std::string_view text, std::size_t most = 40);

/// Precondition: there is trouble.
Fault trouble_fault(const std::string& where, Trouble trouble);

/// `names`: all layers or ids there are, in order of appearance.
Fault unknown_layer(const std::string& where, const std::string& layer, const std::vector<std::string>& names,
                    const std::string& kind);

}  // namespace crownwright::drawings
