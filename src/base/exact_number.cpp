#include "base/exact_number.h"

#include <algorithm>
#include <optional>
#include <string>

#include "base/ascii.h"
#include "base/int128.h"
#include "base/printable.h"

namespace crownwright {
namespace {

constexpr char kPointHint[] = "decimals take a point and thousands take nothing between them";
constexpr char kNumberHint[] = "write a number such as 28, 28.5, 3/8 or 10 1/2";

/// Walks the tokens; asking past the end is allowed and finds nothing.
class Reader {
 public:
  Reader(const std::vector<Token>& tokens, std::string_view text) : tokens_(tokens), text_(text) {}

  Result<NumberRead> read();

 private:
  const Token* at(std::size_t ahead) const {
    return next_ + ahead < tokens_.size() ? &tokens_[next_ + ahead] : nullptr;
  }
  bool is(std::size_t ahead, Mark mark) const { return at(ahead) != nullptr && at(ahead)->mark == mark; }
  Fault refuse(const std::string& what, std::string allowed = kNumberHint) const {
    return order_fault({}, quoted(text_) + " " + what, std::move(allowed));
  }

  bool take_sign();
  std::optional<Fault> foreign_notation() const;
  Fault comma_fault() const;
  Result<ExactNumber> whole_digits(std::string_view numeral) const;
  Result<ExactNumber> decimal(std::string_view numeral) const;
  Result<ExactNumber> fraction();
  Result<ExactNumber> unsigned_number();
  Result<ExactNumber> mixed(const ExactNumber& whole);
  Result<ExactNumber> bounded(Int128 numerator, Int128 denominator) const;
  bool fraction_ahead(std::size_t ahead) const;

  const std::vector<Token>& tokens_;
  std::string_view text_;
  std::size_t next_ = 0;
};

bool Reader::take_sign() {
  const bool negative = is(0, Mark::dash);
  if (negative || is(0, Mark::plus)) ++next_;
  return negative;
}

// Notations that other programs write and people at a work table do not.
std::optional<Fault> Reader::foreign_notation() const {
  if (is(0, Mark::word)) {
    const std::string word = lower_case(at(0)->text);
    if (word.starts_with("nan") || word.starts_with("inf")) return refuse("is not a finite number");
    return std::nullopt;
  }
  if (!is(0, Mark::numeral) || !is(1, Mark::word)) return std::nullopt;
  const std::string word = lower_case(at(1)->text);
  if (at(0)->text == "0" && word.starts_with("x")) {
    return refuse("is a hexadecimal number", "write it in decimal digits");
  }
  const std::size_t exponent = is(2, Mark::dash) || is(2, Mark::plus) ? 3 : 2;
  if (word == "e" && is(exponent, Mark::numeral)) {
    return refuse("has an exponent", "write the number out, as in 1000 for 1e3");
  }
  return std::nullopt;
}

bool is_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// "28,5 cm" is one slip, and the same text with a point mends it; "1,000 mm" may mean either.
Fault Reader::comma_fault() const {
  const auto is_comma = [](const Token& t) { return t.mark == Mark::comma; };
  const bool single = std::count_if(tokens_.begin(), tokens_.end(), is_comma) == 1;
  if (!single || !is(0, Mark::numeral) || !is(1, Mark::comma) || !is(2, Mark::numeral) ||
      !is_digits(at(0)->text) || !is_digits(at(2)->text)) {
    return refuse("has a comma", kPointHint);
  }
  const auto before = static_cast<std::size_t>(at(1)->text.data() - text_.data());
  const std::string head(text_.substr(0, before));
  const std::string tail(text_.substr(before + 1));
  std::string hint = "write " + quoted(head + "." + tail);
  const bool thousands = at(2)->text.size() == 3 && at(0)->text.size() <= 3 && at(0)->text[0] != '0';
  if (thousands) hint += ", or " + quoted(head + tail) + " if thousands are meant";
  return refuse("has a decimal comma", hint);
}

Result<ExactNumber> Reader::bounded(Int128 numerator, Int128 denominator) const {
  const Int128 common = greatest_common_divisor(numerator, denominator);
  numerator /= common;
  denominator /= common;
  if (denominator > kLargestDenominator) {
    return refuse("is written too finely", "a denominator is at most 1000000000, and decimals are at most 9");
  }
  if (magnitude(numerator) > Int128{kLargestNumber} * denominator) {
    return refuse("is far too large", "a number is at most 1000000000");
  }
  return ExactNumber{static_cast<std::int64_t>(numerator), static_cast<std::int64_t>(denominator)};
}

// Precondition: only digits. Returned unbounded in value (up to 15 digits), denominator 1.
Result<ExactNumber> Reader::whole_digits(std::string_view numeral) const {
  numeral.remove_prefix(std::min(numeral.find_first_not_of('0'), numeral.size()));
  if (numeral.size() > kMostDigits) return refuse("has too many digits", "a number has at most 15");
  std::int64_t value = 0;
  for (const char c : numeral) value = 10 * value + (c - '0');
  return ExactNumber{value, 1};
}

Result<ExactNumber> Reader::decimal(std::string_view numeral) const {
  const std::size_t point = numeral.find('.');
  if (point == std::string_view::npos) return whole_digits(numeral);
  const std::string_view decimals = numeral.substr(point + 1);
  if (decimals.find('.') != std::string_view::npos) return refuse("has more than one point");
  if (decimals.empty()) return refuse("has a point with no digit after it");
  if (decimals.size() > kMostDigits) return refuse("has too many digits", "a number has at most 15");
  const auto digits = whole_digits(std::string(numeral.substr(0, point)).append(decimals));
  if (!digits) return digits;
  Int128 denominator = 1;
  for (std::size_t i = 0; i < decimals.size(); ++i) denominator *= 10;
  return bounded(digits->numerator, denominator);
}

bool Reader::fraction_ahead(std::size_t ahead) const {
  return is(ahead, Mark::vulgar) || (is(ahead, Mark::numeral) && is(ahead + 1, Mark::slash));
}

// Precondition: fraction_ahead(0).
Result<ExactNumber> Reader::fraction() {
  if (is(0, Mark::vulgar)) {
    const Token& token = tokens_[next_++];
    return ExactNumber{token.numerator, token.denominator};
  }
  if (!is_digits(at(0)->text) || !is(2, Mark::numeral) || !is_digits(at(2)->text)) {
    return refuse("has a fraction that is not of two whole numbers", "write it as in 3/8");
  }
  const auto numerator = whole_digits(at(0)->text);
  if (!numerator) return numerator;
  const auto denominator = whole_digits(at(2)->text);
  if (!denominator) return denominator;
  if (denominator->numerator == 0) return refuse("divides by zero");
  next_ += 3;
  return bounded(numerator->numerator, denominator->numerator);
}

Result<ExactNumber> Reader::mixed(const ExactNumber& whole) {
  const auto part = fraction();
  if (!part) return part;
  if (part->numerator >= part->denominator) {
    return refuse("has a fraction of 1 or more beside a whole number", "write it as in 10 1/2");
  }
  return bounded(Int128{whole.numerator} * part->denominator + part->numerator, part->denominator);
}

Result<ExactNumber> Reader::unsigned_number() {
  if (fraction_ahead(0)) return fraction();
  if (!is(0, Mark::numeral)) return refuse("does not start with a number");
  const std::string_view numeral = at(0)->text;
  const auto first = decimal(numeral);
  if (!first) return first;
  ++next_;
  const bool joined = is(0, Mark::blank) || is(0, Mark::dash);
  if (!fraction_ahead(joined ? 1 : 0)) return bounded(first->numerator, first->denominator);
  if (!is_digits(numeral)) return refuse("has a fraction beside a decimal number", "use one or the other");
  if (joined) ++next_;
  return mixed(*first);
}

Result<NumberRead> Reader::read() {
  const bool negative = take_sign();
  if (const auto fault = foreign_notation()) return *fault;
  const auto is_comma = [](const Token& t) { return t.mark == Mark::comma; };
  if (std::any_of(tokens_.begin(), tokens_.end(), is_comma)) return comma_fault();
  const auto size = unsigned_number();
  if (!size) return size.fault();
  ExactNumber number = *size;
  if (negative) number.numerator = -number.numerator;
  return NumberRead{number, next_};
}

}  // namespace

std::string quoted(std::string_view text) { return '"' + printable(text, 60) + '"'; }

Result<NumberRead> read_number(const std::vector<Token>& tokens, std::string_view text) {
  return Reader(tokens, text).read();
}

}  // namespace crownwright
