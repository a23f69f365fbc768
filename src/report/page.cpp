#include "report/page.h"

#include <algorithm>
#include <vector>

#include "base/printable.h"

namespace crownwright::report {
namespace {

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

// A number stays with its unit: "57.0 cm" is not broken. The bracket's inches may go to the next line.
bool is_unit(const std::string& word) {
  static const std::vector<std::string> units = {"mm", "cm", "in", "cm2", "cm3", "g", "%"};
  std::string bare = word;
  while (!bare.empty() && (bare.back() == ',' || bare.back() == ')' || bare.back() == '.')) bare.pop_back();
  return std::find(units.begin(), units.end(), bare) != units.end();
}

std::vector<std::string> wrapped(const std::string& text, int width) {
  std::vector<std::string> lines(1);
  const std::vector<std::string> words = words_of(text);
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string piece = words[i];
    while (i + 1 < words.size() && is_unit(words[i + 1])) piece += " " + words[++i];
    const bool fits = columns(lines.back()) + 1 + columns(piece) <= width;
    if (lines.back().empty()) {
      lines.back() = piece;
    } else if (fits) {
      lines.back() += " " + piece;
    } else {
      lines.push_back(piece);
    }
  }
  return lines;
}

}  // namespace

int columns(const std::string& text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;  // not a continuation byte
  }));
}

Page& Page::heading(const std::string& text) {
  text_ += paint_.heading(printable(text)) + "\n";
  return *this;
}

std::string Page::painted(const std::string& label, Tone tone) const {
  const auto fill = static_cast<std::size_t>(std::max(1, label_width - columns(label)));
  const std::string blanks(fill, ' ');
  switch (tone) {
    case Tone::good:
      return paint_.good(label) + blanks;
    case Tone::bad:
      return paint_.bad(label) + blanks;
    case Tone::mind:
      return paint_.mind(label) + blanks;
    case Tone::plain:
      return label + blanks;
  }
  return label + blanks;
}

Page& Page::line(const std::string& label, const std::string& text, Tone tone) {
  std::string left = painted(label, tone);
  for (const std::string& line : wrapped(printable(text), width - label_width)) {
    text_ += left + line + "\n";
    left.assign(label_width, ' ');
  }
  return *this;
}

Page& Page::whole(const std::string& label, const std::string& text) {
  text_ += painted(label, Tone::plain) + printable(text, 8000) + "\n";
  return *this;
}

Page& Page::gap() {
  text_ += "\n";
  return *this;
}

}  // namespace crownwright::report
