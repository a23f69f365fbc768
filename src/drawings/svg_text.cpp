#include "drawings/svg_text.h"

#include <charconv>
#include <limits>
#include <numbers>

namespace crownwright::drawings {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

Affine rotation(double degrees) {
  const double angle = std::fmod(degrees, 360.0) * std::numbers::pi / 180;
  return {std::cos(angle), std::sin(angle), -std::sin(angle), std::cos(angle), 0, 0};
}

double tangent(double degrees) { return std::tan(std::fmod(degrees, 360.0) * std::numbers::pi / 180); }

std::optional<Affine> one_transform(std::string_view name, const std::vector<double>& v) {
  const std::size_t n = v.size();
  if (name == "matrix" && n == 6) return Affine{v[0], v[1], v[2], v[3], v[4], v[5]};
  if (name == "translate" && (n == 1 || n == 2)) return Affine{1, 0, 0, 1, v[0], n == 2 ? v[1] : 0};
  if (name == "scale" && (n == 1 || n == 2)) return Affine{v[0], 0, 0, n == 2 ? v[1] : v[0], 0, 0};
  if (name == "rotate" && n == 1) return rotation(v[0]);
  if (name == "rotate" && n == 3) {
    return Affine{1, 0, 0, 1, v[1], v[2]} * rotation(v[0]) * Affine{1, 0, 0, 1, -v[1], -v[2]};
  }
  if (name == "skewX" && n == 1) return Affine{1, 0, tangent(v[0]), 1, 0, 0};
  if (name == "skewY" && n == 1) return Affine{1, tangent(v[0]), 0, 1, 0, 0};
  return std::nullopt;
}

}  // namespace

void NumberScanner::skip_separators() {
  bool comma = false;
  for (; at_ < text_.size(); ++at_) {
    const char c = text_[at_];
    if (c == ',' && !comma) {
      comma = true;
    } else if (!is_blank(c)) {
      break;
    }
  }
}

std::optional<double> NumberScanner::number() {
  skip_separators();
  std::size_t from = at_;
  if (from < text_.size() && text_[from] == '+') ++from;
  std::size_t first = from;
  if (first == at_ && first < text_.size() && text_[first] == '-') ++first;
  if (first >= text_.size() || !(is_digit(text_[first]) || text_[first] == '.')) return std::nullopt;
  double value = 0;
  const auto [end, error] = std::from_chars(text_.data() + from, text_.data() + text_.size(), value);
  if (error == std::errc::invalid_argument) return std::nullopt;
  at_ = static_cast<std::size_t>(end - text_.data());
  if (error == std::errc::result_out_of_range) return std::numeric_limits<double>::infinity();
  return value;
}

std::optional<bool> NumberScanner::flag() {
  skip_separators();
  if (at_ >= text_.size() || (text_[at_] != '0' && text_[at_] != '1')) return std::nullopt;
  return text_[at_++] == '1';
}

char NumberScanner::peek() {
  skip_separators();
  return at_ < text_.size() ? text_[at_] : '\0';
}

std::optional<SvgLength> svg_length(std::string_view text) {
  text = trimmed(text);
  NumberScanner scanner(text);
  const auto number = scanner.number();
  if (!number) return std::nullopt;
  const std::string_view unit = trimmed(text.substr(scanner.position()));
  if (unit.empty()) return SvgLength{*number, false};
  constexpr std::pair<std::string_view, double> units[] = {
      {"px", 1}, {"in", 96}, {"cm", 96 / 2.54}, {"mm", 96 / 25.4}, {"pt", 96.0 / 72}, {"pc", 16}};
  for (const auto& [name, pixels] : units) {
    if (unit == name) return SvgLength{*number * pixels, true};
  }
  return std::nullopt;
}

std::optional<Affine> svg_transform(std::string_view text) {
  Affine all;
  while (true) {
    while (!text.empty() && (is_blank(text.front()) || text.front() == ',')) text.remove_prefix(1);
    if (text.empty()) return all;
    std::size_t letters = 0;
    while (letters < text.size() && is_letter(text[letters])) ++letters;
    const std::size_t open = text.find('('), shut = text.find(')');
    if (letters == 0 || open == std::string_view::npos || shut == std::string_view::npos || shut < open) {
      return std::nullopt;
    }
    if (!trimmed(text.substr(letters, open - letters)).empty()) return std::nullopt;
    const auto values = svg_numbers(text.substr(open + 1, shut - open - 1));
    if (!values) return std::nullopt;
    const auto one = one_transform(text.substr(0, letters), *values);
    if (!one) return std::nullopt;
    all = all * *one;
    text.remove_prefix(shut + 1);
  }
}

std::optional<std::vector<double>> svg_numbers(std::string_view text) {
  NumberScanner scanner(text);
  std::vector<double> values;
  while (scanner.peek() != '\0') {
    const auto value = scanner.number();
    if (!value) return std::nullopt;
    values.push_back(*value);
  }
  return values;
}

}  // namespace crownwright::drawings
