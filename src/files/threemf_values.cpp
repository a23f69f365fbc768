#include "files/threemf_values.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace crownwright::files {
namespace {

constexpr std::string_view xml_white = " \t\r\n";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(xml_white);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(xml_white) - first + 1);
}

bool is_figure(char c) { return c >= '0' && c <= '9'; }

// Takes digits off the front and tells how many there were.
std::size_t take_figures(std::string_view& text) {
  const auto end = std::find_if_not(text.begin(), text.end(), is_figure);
  const auto count = static_cast<std::size_t>(end - text.begin());
  text.remove_prefix(count);
  return count;
}

bool take_sign(std::string_view& text) {
  if (text.empty() || (text.front() != '+' && text.front() != '-')) return false;
  text.remove_prefix(1);
  return true;
}

// The pattern of ST_Number.
bool is_number(std::string_view text) {
  take_sign(text);
  const std::size_t whole = take_figures(text);
  if (!text.empty() && text.front() == '.') {
    text.remove_prefix(1);
    if (take_figures(text) == 0) return false;
  } else if (whole == 0) {
    return false;
  }
  if (text.empty()) return true;
  if (text.front() != 'e' && text.front() != 'E') return false;
  text.remove_prefix(1);
  take_sign(text);
  return take_figures(text) > 0 && text.empty();
}

std::optional<std::uint32_t> whole_number(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('+')) text.remove_prefix(1);
  std::uint32_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value > 0x7FFFFFFF) return std::nullopt;
  return value;
}

}  // namespace

std::optional<double> threemf_number(std::string_view text) {
  text = trimmed(text);
  if (!is_number(text)) return std::nullopt;
  if (text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<std::uint32_t> threemf_id(std::string_view text) {
  const std::optional<std::uint32_t> value = whole_number(text);
  return value && *value > 0 ? value : std::nullopt;
}

std::optional<std::uint32_t> threemf_index(std::string_view text) { return whole_number(text); }

std::vector<std::string_view> threemf_words(std::string_view text) {
  std::vector<std::string_view> words;
  for (;;) {
    const std::size_t first = text.find_first_not_of(xml_white);
    if (first == std::string_view::npos) return words;
    text.remove_prefix(first);
    const std::size_t end = std::min(text.find_first_of(xml_white), text.size());
    words.push_back(text.substr(0, end));
    text.remove_prefix(end);
  }
}

std::optional<std::array<double, 12>> threemf_matrix(std::string_view text) {
  const std::vector<std::string_view> words = threemf_words(text);
  std::array<double, 12> matrix{};
  if (words.size() != matrix.size()) return std::nullopt;
  for (std::size_t k = 0; k < matrix.size(); ++k) {
    const std::optional<double> number = threemf_number(words[k]);
    if (!number) return std::nullopt;
    matrix[k] = *number;
  }
  return matrix;
}

bool is_threemf_colour(std::string_view text) {
  const auto is_hex = [](char c) { return is_figure(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); };
  return (text.size() == 7 || text.size() == 9) && text.front() == '#' &&
         std::all_of(text.begin() + 1, text.end(), is_hex);
}

}  // namespace crownwright::files
