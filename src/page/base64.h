#pragma once
// Bytes as text in JSON: base64 (RFC 4648, section 4).

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace crownwright::page {

std::string base64(std::span<const std::byte> bytes);

/// Nothing for text that is no base64: a length that is no multiple of 4, other characters, bits set where
/// padding stands.
std::optional<std::string> from_base64(std::string_view text);

}  // namespace crownwright::page
