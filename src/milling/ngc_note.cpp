#include "milling/ngc_note.h"

#include <algorithm>
#include <array>

namespace crownwright::milling {
namespace {

// ---- plain letters ---------------------------------------------------------------------------

// U+00C0 to U+017F, the accented letters of Latin scripts; "x" and "/" stand for the signs among them.
constexpr std::array<std::string_view, 192> plain_letters = {
    "A",  "A", "A",  "A",  "Ae", "A", "AE", "C",  "E",  "E", "E",  "E", "I",  "I",  "I", "I", "D", "N",
    "O",  "O", "O",  "O",  "Oe", "x", "O",  "U",  "U",  "U", "Ue", "Y", "Th", "ss", "a", "a", "a", "a",
    "ae", "a", "ae", "c",  "e",  "e", "e",  "e",  "i",  "i", "i",  "i", "d",  "n",  "o", "o", "o", "o",
    "oe", "/", "o",  "u",  "u",  "u", "ue", "y",  "th", "y", "A",  "a", "A",  "a",  "A", "a", "C", "c",
    "C",  "c", "C",  "c",  "C",  "c", "D",  "d",  "D",  "d", "E",  "e", "E",  "e",  "E", "e", "E", "e",
    "E",  "e", "G",  "g",  "G",  "g", "G",  "g",  "G",  "g", "H",  "h", "H",  "h",  "I", "i", "I", "i",
    "I",  "i", "I",  "i",  "I",  "i", "IJ", "ij", "J",  "j", "K",  "k", "k",  "L",  "l", "L", "l", "L",
    "l",  "L", "l",  "L",  "l",  "N", "n",  "N",  "n",  "N", "n",  "n", "N",  "n",  "O", "o", "O", "o",
    "O",  "o", "OE", "oe", "R",  "r", "R",  "r",  "R",  "r", "S",  "s", "S",  "s",  "S", "s", "S", "s",
    "T",  "t", "T",  "t",  "T",  "t", "U",  "u",  "U",  "u", "U",  "u", "U",  "u",  "U", "u", "U", "u",
    "W",  "w", "Y",  "y",  "Y",  "Z", "z",  "Z",  "z",  "Z", "z",  "s"};

struct Sign {
  char32_t code;
  std::string_view plain;
};
constexpr Sign signs[] = {{0xA0, " "},   {0xB0, " deg"}, {0xB1, "+-"},   {0xB2, "2"},   {0xB3, "3"},
                          {0xB5, "u"},   {0xBC, "1/4"},  {0xBD, "1/2"},  {0xBE, "3/4"}, {0x2010, "-"},
                          {0x2011, "-"}, {0x2012, "-"},  {0x2013, "-"},  {0x2014, "-"}, {0x2018, "'"},
                          {0x2019, "'"}, {0x201C, "'"},  {0x201D, "'"},  {0x201E, "'"}, {0x2026, "..."},
                          {0x2032, "'"}, {0x2033, "''"}, {0x20AC, "EUR"}};

std::string plain_letter(char32_t code) {
  if (code >= 0xC0 && code < 0xC0 + plain_letters.size()) return std::string(plain_letters[code - 0xC0]);
  for (const Sign& sign : signs) {
    if (sign.code == code) return std::string(sign.plain);
  }
  return "?";
}

std::string plain_byte(char c) {
  if (std::string_view("()[]{}").find(c) != std::string_view::npos) return "-";
  if (c == '\t' || c == '\n' || c == '\r') return " ";
  return c >= ' ' && c <= '~' ? std::string(1, c) : "?";
}

// How many bytes the character that begins with `c` has; 1 for what begins none.
std::size_t bytes_of(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
}

bool goes_on(char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; }

std::string in_ascii(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t bytes = bytes_of(text[i]);
    std::size_t n = 1;
    while (n < bytes && i + n < text.size() && goes_on(text[i + n])) ++n;
    if (bytes == 1) {
      plain += plain_byte(text[i]);
    } else if (n < bytes) {
      plain += '?';
    } else {
      char32_t code = static_cast<unsigned char>(text[i]) & (0xFFu >> (bytes + 1));
      for (std::size_t k = 1; k < n; ++k)
        code = code << 6 | (static_cast<unsigned char>(text[i + k]) & 0x3Fu);
      plain += plain_letter(code);
    }
    i += n;
  }
  return plain;
}

// ---- lines -----------------------------------------------------------------------------------

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (std::size_t start = text.find_first_not_of(' '); start != std::string::npos;) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    words.push_back(text.substr(start, end - start));
    start = text.find_first_not_of(' ', end);
  }
  return words;
}

constexpr std::string_view goes_on_mark = ".. ";
// Within the brackets, beside that mark or what a comma that becomes a dash adds.
constexpr std::size_t room = longest_ngc_line - 2 - goes_on_mark.size();

std::vector<std::string> lines_of(const std::vector<std::string>& words) {
  std::vector<std::string> lines;
  std::string line;
  const auto end_line = [&] {
    if (!line.empty()) lines.push_back(line);
    line.clear();
  };
  for (std::string word : words) {
    if (!line.empty() && line.size() + 1 + word.size() > room) end_line();
    for (; word.size() > room; word.erase(0, room)) lines.push_back(word.substr(0, room));
    if (word.empty()) continue;
    if (!line.empty()) line += ' ';
    line += word;
  }
  end_line();
  return lines;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// NISTIR 6556 section 3.3.4 knows "MSG,", blanks between its letters allowed; controllers know more such
// words, which write files.
std::string said_only(const std::string& line) {
  constexpr std::size_t longest_word_of_action = 14;  // chosen: above every one known
  const std::size_t comma = line.find(',');
  if (comma == std::string::npos) return line;
  std::size_t letters = 0;
  for (std::size_t i = 0; i < comma; ++i) {
    if (line[i] != ' ' && !is_letter(line[i])) return line;
    letters += line[i] != ' ';
  }
  if (letters > longest_word_of_action) return line;
  return line.substr(0, comma) + " -" + line.substr(comma + 1);
}

}  // namespace

std::vector<std::string> ngc_comments(std::string_view note) {
  std::vector<std::string> comments;
  for (const std::string& line : lines_of(words_of(in_ascii(note)))) {
    std::string comment("(");
    comment += comments.empty() ? said_only(line) : std::string(goes_on_mark) + line;
    comments.push_back(comment += ')');
  }
  return comments;
}

}  // namespace crownwright::milling
