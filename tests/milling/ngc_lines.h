#pragma once
// Programs read word by word by the rules of RS274/NGC (NISTIR 6556) and of the program's own promises
// (milling/ngc.h), with nothing of the code that writes them.

#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace crownwright::test {

/// One line that moves the tool.
struct SaidMove {
  int code = 0;  ///< 0 to 3
  double x = 0, y = 0, z = 0, i = 0, j = 0, feed = 0;
  double from_x = 0, from_y = 0, from_z = 0;
};

struct SaidProgram {
  std::vector<SaidMove> moves;
  std::vector<std::string> comments, lines;
  std::string fault;  ///< the first, with its line; empty: none
};

class NgcLines {
 public:
  static SaidProgram read(const std::string& text, bool plain) {
    NgcLines reader(plain);
    reader.read_all(text);
    return reader.program_;
  }

 private:
  explicit NgcLines(bool plain) : plain_(plain) {}

  void read_all(const std::string& text) {
    expect(!text.empty() && text.back() == '\n', "the last line is open");
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
      program_.lines.push_back(line);
      read_line(line);
    }
    expect(ended_, "it does not end with M2");
    expect(spindle_stopped_, "the spindle is left on");
  }

  void expect(bool good, const std::string& what) {
    if (good || !program_.fault.empty()) return;
    program_.fault = "line " + std::to_string(program_.lines.size()) + ": " + what;
    if (!program_.lines.empty()) program_.fault += ": " + program_.lines.back();
  }

  void read_line(const std::string& line) {
    expect(!ended_, "something stands behind M2");
    // 3.3.1: at most 256 characters with the line's end. The plain dialect: 70.
    expect(line.size() <= (plain_ ? 70u : 255u), "too long");
    for (const char c : line) expect(c >= ' ' && c <= '~', "a byte that is not printable ASCII");
    expect(!line.empty(), "an empty line");
    if (line.find_first_of("()") != std::string::npos) return read_comment(line);
    read_words(line);
  }

  // 3.3.4: no nesting, closed on its line. Here: alone on its line, and no message (3.3.4) or other action.
  void read_comment(const std::string& line) {
    expect(line.front() == '(' && line.find(')') == line.size() - 1 && line.rfind('(') == 0,
           "a comment that is not alone, or open, or nested");
    std::string start;
    for (const char c : line.substr(1)) {
      if (c != ' ') start += static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    }
    for (const char* action :
         {"MSG,", "DEBUG,", "PRINT,", "LOG,", "LOGOPEN,", "LOGAPPEND,", "LOGCLOSE,", "PROBEOPEN,", "PY,"})
      expect(start.rfind(action, 0) != 0, "a comment that acts");
    program_.comments.push_back(line.substr(1, line.size() - 2));
  }

  // 3.3.2: a letter and a number; blanks between words alone, which is what all readers take.
  void read_words(const std::string& line) {
    std::vector<std::pair<char, double>> words;
    std::istringstream in(line);
    for (std::string word; in >> word;) {
      expect(word.front() >= 'A' && word.front() <= 'Z', "a word without a letter");
      const auto number = number_of(word.substr(1));
      expect(number.has_value(), "a word without a number");
      words.emplace_back(word.front(), number.value_or(0));
      const auto point = word.find('.');
      expect(point == std::string::npos || word.size() - point - 1 <= 4, "more than four decimals");
      const std::string axes = "XYZIJ";
      expect(axes.find(word.front()) == std::string::npos || word.size() - point - 1 == 4,
             "an axis without four decimals");
    }
    check_groups(words);
    execute(words);
  }

  // 3.3.2.1: sign, digits, at most one point, at least one digit.
  static std::optional<double> number_of(const std::string& text) {
    std::size_t at = 0, digits = 0, points = 0;
    if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
    for (; at < text.size(); ++at) {
      if (text[at] >= '0' && text[at] <= '9')
        ++digits;
      else if (text[at] == '.')
        ++points;
      else
        return std::nullopt;
    }
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (digits == 0 || points > 1 || read.ptr != text.data() + text.size()) return std::nullopt;
    return value;
  }

  // Table 4: one word of each modal group; any other letter once.
  void check_groups(const std::vector<std::pair<char, double>>& words) {
    static const std::map<std::string, int> groups = {{"G0", 1},   {"G1", 1},   {"G2", 1},  {"G3", 1},
                                                      {"G17", 2},  {"G90", 3},  {"G94", 5}, {"G21", 6},
                                                      {"M2", 104}, {"M3", 107}, {"M5", 107}};
    std::set<int> seen;
    std::set<char> letters;
    for (const auto& [letter, value] : words) {
      if (letter != 'G' && letter != 'M') {
        expect(std::string("FSXYZIJ").find(letter) != std::string::npos, "a letter of no use here");
        expect(letters.insert(letter).second, "a letter twice");
        continue;
      }
      std::string code(1, letter);
      code += std::to_string(static_cast<int>(value));
      const auto group = groups.find(code);
      expect(group != groups.end() && value == std::floor(value), "a code of no use here");
      if (group != groups.end()) expect(seen.insert(group->second).second, "two codes of one group");
    }
  }

  void execute(const std::vector<std::pair<char, double>>& words) {
    std::map<char, double> said;
    int motion = -1;
    for (const auto& [letter, value] : words) {
      if (letter == 'G' && value <= 3) motion = static_cast<int>(value);
      if (letter == 'G' && value == 21) in_mm_ = true;
      if (letter == 'G' && value == 17) in_xy_ = true;
      if (letter == 'G' && value == 90) absolute_ = true;
      if (letter == 'G' && value == 94) by_minute_ = true;
      if (letter == 'M' && value == 3) spindle_on(words);
      if (letter == 'M' && value == 5) spindle_stopped_ = true;
      if (letter == 'M' && value == 2) ended_ = true;
      if (letter != 'G' && letter != 'M') said[letter] = value;
    }
    if (motion >= 0) {
      expect(words.front().first == 'G' && words.front().second == motion,
             "a motion line that begins otherwise");
      move(motion, said);
    } else {
      for (const char axis : std::string("XYZIJF")) expect(said.count(axis) == 0, "an axis without a motion");
    }
  }

  void spindle_on(const std::vector<std::pair<char, double>>& words) {
    expect(words.size() == 2 && words.back().first == 'S' && words.back().second > 0, "M3 without S");
    expect(program_.moves.size() == 2 || program_.moves.size() == 1, "the spindle starts elsewhere");
    spindle_on_ = true;
  }

  void move(int code, const std::map<char, double>& said) {
    const auto has = [&](char letter) { return said.count(letter) > 0; };
    expect(in_mm_ && in_xy_ && absolute_ && by_minute_, "a motion before the modes are set");
    expect(has('X') || has('Y') || has('Z'), "a motion without an axis");
    expect(has('X') == has('Y'), "X or Y alone");
    expect(!spindle_stopped_, "a motion after M5");
    SaidMove next = at_;
    next.from_x = at_.x, next.from_y = at_.y, next.from_z = at_.z;
    next.code = code;
    next.i = next.j = 0;
    for (const auto& [letter, member] : std::map<char, double SaidMove::*>{{'X', &SaidMove::x},
                                                                           {'Y', &SaidMove::y},
                                                                           {'Z', &SaidMove::z},
                                                                           {'I', &SaidMove::i},
                                                                           {'J', &SaidMove::j},
                                                                           {'F', &SaidMove::feed}}) {
      if (has(letter)) next.*member = said.at(letter);
    }
    if (program_.moves.empty()) expect(code == 0 && has('Z') && !has('X'), "the first motion is not Z alone");
    if (code == 0) expect(!(has('Z') && has('X')), "a rapid in Z and in X or Y");
    if (code == 0) expect(!has('F'), "a rapid with a feed");
    if (code > 0) expect(next.feed > 0, "a cut without a feed");
    if (code > 0) expect(spindle_on_, "a cut without the spindle");
    if (code > 0) expect(placed_, "a cut before X and Y are known");
    if (code < 2) expect(!has('I') && !has('J'), "a centre without an arc");
    if (code >= 2) check_arc(next, has('I') && has('J') && has('X'), has('Z'));
    placed_ = placed_ || has('X');
    program_.moves.push_back(next);
    at_ = next;
  }

  // 3.5.3.2; a chord under 0.01 mm may be a whole turn to some.
  void check_arc(const SaidMove& arc, bool complete, bool helix) {
    expect(complete, "an arc without X Y I J");
    if (plain_) expect(!helix, "a helix");
    const double cx = arc.from_x + arc.i, cy = arc.from_y + arc.j;
    const double start = std::hypot(arc.i, arc.j), end = std::hypot(arc.x - cx, arc.y - cy);
    expect(std::abs(start - end) <= 0.002, "radii that differ by more than 0.002 mm");
    expect(std::hypot(arc.x - arc.from_x, arc.y - arc.from_y) >= 0.01 - 1e-9, "a chord under 0.01 mm");
    expect(std::abs(turn_of(arc)) <= 3.14159265358980, "more than half a turn");
  }

 public:
  /// Counterclockwise positive.
  static double turn_of(const SaidMove& arc) {
    // In whole ten-thousandths, so that exactly half a turn is seen as such.
    const auto whole = [](double mm) { return std::round(mm * 1e4); };
    const double ax = -whole(arc.i), ay = -whole(arc.j);
    const double bx = whole(arc.x) - whole(arc.from_x) + ax, by = whole(arc.y) - whole(arc.from_y) + ay;
    const double tau = 2 * std::acos(-1.0);
    double turn = std::atan2(ax * by - ay * bx, ax * bx + ay * by);
    if (arc.code == 3 && turn <= 0) turn += tau;
    if (arc.code == 2 && turn > 0) turn -= tau;
    return turn;
  }

 private:
  bool plain_;
  bool in_mm_ = false, in_xy_ = false, absolute_ = false, by_minute_ = false;
  bool spindle_on_ = false, spindle_stopped_ = false, ended_ = false, placed_ = false;
  SaidMove at_;
  SaidProgram program_;
};

}  // namespace crownwright::test
