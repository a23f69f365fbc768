#include "simulation/ngc_line.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/ascii.h"
#include "base/exact_number.h"
#include "base/length.h"
#include "base/printable.h"
#include "simulation/ngc_reader.h"

namespace crownwright::simulation {
namespace {

constexpr std::string_view taken_letters = "FGIJMNRSTXYZ";

bool is_ngc_blank(char c) { return c == ' ' || c == '\t'; }
bool is_ngc_digit(char c) { return c >= '0' && c <= '9'; }
bool is_control(char c) { return (static_cast<unsigned char>(c) < 32 && c != '\t') || c == 127; }

Fault line_fault(std::string what, std::string allowed = {}) {
  return order_fault({}, std::move(what), std::move(allowed));
}

/// Goes through a line from left to right.
class LineReader {
 public:
  explicit LineReader(std::string_view text) : text_(text) {}
  Result<Line> read();

 private:
  void skip_blanks() {
    while (at_ < text_.size() && is_ngc_blank(text_[at_])) ++at_;
  }
  bool ended() const { return at_ >= text_.size(); }
  Result<Done> item();
  Result<Done> comment();
  Result<Done> line_number();
  Result<Done> word();
  Result<double> number(char letter);
  Fault stranger(char c) const;

  std::string_view text_;
  std::size_t at_ = 0;
  bool begun_ = false;  // a word was read: the place of a line number is past
  Line line_;
};

Fault LineReader::stranger(char c) const {
  if (c == '#' || c == '[' || c == ']' || c == '=')
    return line_fault("parameters and expressions (# [ ] =) are not taken", "write plain numbers");
  if (c == ';') return line_fault("a comment begins with ;", "the standard's comments stand in ( )");
  if (c == ')') return line_fault("a ) closes no comment", "a comment is written ( ... )");
  if (c == '%')
    return line_fault("a % does not stand alone on its line", "% alone before and after the program");
  if (is_ngc_digit(c) || c == '.' || c == '+' || c == '-')
    return line_fault("a number has no letter before it", "each number follows a letter, such as X12.5");
  return line_fault(std::string("unexpected ") + quoted(std::string_view(&c, 1)),
                    "words are a letter and a number");
}

Result<Done> LineReader::comment() {
  const std::size_t from = ++at_;
  while (!ended() && text_[at_] != ')') {
    if (text_[at_] == '(')
      return line_fault("a comment stands inside another", "close each ( before the next");
    ++at_;
  }
  if (ended()) return line_fault("a comment is not closed", "each ( needs its ) on the same line");
  line_.comments.emplace_back(text_.substr(from, at_ - from));
  ++at_;
  return Done{};
}

// 3.3.1: "an integer (with no sign) between 0 and 99999 written with no more than five digits".
Result<Done> LineReader::line_number() {
  const auto wrong = [] {
    return line_fault("a line number is wrong", "N and up to five digits, before any word");
  };
  if (begun_) return wrong();
  int digits = 0;
  for (skip_blanks(); !ended() && (is_ngc_digit(text_[at_]) || is_ngc_blank(text_[at_])); ++at_)
    digits += is_ngc_digit(text_[at_]);
  const bool goes_on = !ended() && (text_[at_] == '.' || text_[at_] == '+' || text_[at_] == '-');
  if (digits < 1 || digits > 5 || goes_on) return wrong();
  begun_ = true;
  return Done{};
}

// 3.3.2.1; blanks inside a number mean nothing (3.3).
Result<double> LineReader::number(char letter) {
  char buffer[longest_line + 2];
  std::size_t size = 0;
  int digits = 0, points = 0;
  bool negative = false;
  skip_blanks();
  if (!ended() && (text_[at_] == '+' || text_[at_] == '-')) negative = text_[at_++] == '-';
  for (; !ended(); ++at_) {
    const char c = text_[at_];
    if (is_ngc_blank(c)) continue;
    if (c != '.' && !is_ngc_digit(c)) break;
    points += c == '.';
    digits += is_ngc_digit(c);
    buffer[size++] = c;
  }
  const std::string name(1, letter);
  if (!ended() && std::string_view("#[]=").find(text_[at_]) != std::string_view::npos)
    return stranger(text_[at_]);
  if (digits == 0)
    return line_fault("the letter " + name + " has no number after it", "such as " + name + "1.5");
  if (points > 1)
    return line_fault("the number after " + name + " has two points", "such as " + name + "1.5");
  double value = 0;
  // A point in front is not understood by from_chars without a digit after it, which is there: digits > 0.
  const auto read = std::from_chars(buffer, buffer + size, value, std::chars_format::fixed);
  if (read.ec != std::errc() || !(value <= largest_ngc_number))
    return line_fault("the number after " + name + " is too large",
                      std::string("at most ") + number_text(largest_ngc_number) + " in size");
  return negative ? -value : value;
}

Result<Done> LineReader::word() {
  const char letter = static_cast<char>(lower_case(text_[at_]) - 'a' + 'A');
  ++at_;
  if (letter == 'N') return line_number();
  if (taken_letters.find(letter) == std::string_view::npos) {
    const bool axis = std::string_view("ABCUVW").find(letter) != std::string_view::npos;
    return line_fault(axis ? std::string("the axis ") + std::string(1, letter) + " is not taken"
                           : std::string("the letter ") + std::string(1, letter) + " is not taken",
                      axis ? "the axes are X, Y and Z" : "letters taken are F G I J M N R S T X Y Z");
  }
  const auto value = number(letter);
  if (!value) return value.fault();
  if (letter != 'G' && letter != 'M' && line_.find(letter) != nullptr)
    return line_fault(std::string("the letter ") + std::string(1, letter) + " stands twice on the line",
                      "once, but for G and M");
  line_.words.push_back({letter, *value});
  begun_ = true;
  return Done{};
}

Result<Done> LineReader::item() {
  const char c = text_[at_];
  if (c == '(') return comment();
  const char low = lower_case(c);
  if (low >= 'a' && low <= 'z') return word();
  return stranger(c);
}

Result<Line> LineReader::read() {
  if (text_.size() > longest_line)
    return line_fault(std::string("the line has ") + count_text(text_.size()) + " characters",
                      std::string("at most ") + count_text(longest_line));
  if (std::any_of(text_.begin(), text_.end(), is_control) || !is_utf8(text_))
    return line_fault("the line holds bytes that are no text", "programs are plain text");
  skip_blanks();
  if (!ended() && text_[at_] == '%') {
    ++at_;
    skip_blanks();
    if (!ended()) return stranger('%');
    line_.percent = true;
    return line_;
  }
  if (!ended() && text_[at_] == '/') ++at_;
  for (skip_blanks(); !ended(); skip_blanks()) {
    if (const auto taken = item(); !taken) return taken.fault();
  }
  return line_;
}

}  // namespace

const Word* Line::find(char letter) const {
  const auto found =
      std::find_if(words.begin(), words.end(), [&](const Word& word) { return word.letter == letter; });
  return found == words.end() ? nullptr : &*found;
}

Result<Line> parse_ngc_line(std::string_view text) { return LineReader(text).read(); }

}  // namespace crownwright::simulation
