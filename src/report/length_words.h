#pragma once
// Lengths as a milliner says them: centimetres with the inch beside them.

#include <string>

namespace crownwright::report {

/// "22 7/16 in": the nearest multiple of 1/`parts` inch in lowest terms. Precondition: parts is 1 to 64, mm
/// finite.
std::string inch_text(double mm, int parts);

/// "57.0 cm (22 7/16 in)" from 2 cm up; below that "4.0 mm (5/32 in)", or "0.25 mm" where 1/32 in says
/// nothing.
std::string length_words(double mm);

/// "12,345,678" would be read as a decimal in half the world: "12 345 678". Counts below 10 000 stay whole.
std::string count_words(long long count);

/// "1 vent", "12 vents".
std::string counted(long long count, const std::string& one, const std::string& many);

}  // namespace crownwright::report
