#pragma once
// Text on its way into an XML file.

#include <string>
#include <string_view>

namespace crownwright {

/// As it may stand between two tags and between double quotes. Control characters and bytes that are not
/// UTF-8, which XML 1.0 cannot hold, become \xNN.
std::string xml_text(std::string_view text);

}  // namespace crownwright
