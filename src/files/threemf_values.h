#pragma once
// Values as they stand in the attributes of a 3MF model (3MF core specification 1.3, appendix B.1). White
// space round them is passed over, as the schema says.

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace crownwright::files {

/// ST_Number: "-1.5", "+.5", "1e-3"; nothing else, so neither "1," nor "nan" nor "1.". None as well when it
/// is not finite as a double.
std::optional<double> threemf_number(std::string_view text);

/// ST_ResourceID: 1 to 2^31 - 1.
std::optional<std::uint32_t> threemf_id(std::string_view text);

/// ST_ResourceIndex: 0 to 2^31 - 1.
std::optional<std::uint32_t> threemf_index(std::string_view text);

/// ST_Matrix3D: twelve numbers.
std::optional<std::array<double, 12>> threemf_matrix(std::string_view text);

/// ST_ColorValue: "#RRGGBB" or "#RRGGBBAA".
bool is_threemf_colour(std::string_view text);

/// Words between white space.
std::vector<std::string_view> threemf_words(std::string_view text);

}  // namespace crownwright::files
