#include "milling/ngc.h"

#include <array>
#include <stdexcept>

#include "base/length.h"
#include "milling/arcs.h"
#include "milling/ngc_grid.h"
#include "milling/ngc_note.h"

namespace crownwright::milling {
namespace {

// Always with a point: some controllers take a number without one for thousandths.
std::string word(char letter, Count value) {
  const Count size = value < 0 ? -value : value;
  const std::string part = std::to_string(size % 10000);
  std::string text{' ', letter};
  if (value < 0) text += '-';
  text += std::to_string(size / 10000);
  text += '.';
  text.append(4 - part.size(), '0');
  return text += part;
}

std::string plain_word(char letter, double value) {
  return std::string(1, letter).append(number_text(value, 3));
}

class ProgramText {
 public:
  ProgramText(const ProgramHead& head, Dialect dialect) : head_(head), dialect_(dialect) {}

  std::string of(const std::vector<GridMove>& moves) {
    for (const std::string& note : head_.notes) {
      for (const std::string& comment : ngc_comments(note)) line(comment);
    }
    line("G21 G17 G90 G94");
    line(std::string("G0").append(word('Z', moves.front().z)));
    at_ = moves.front();
    for (std::size_t i = 1; i < moves.size(); ++i) {
      move(moves[i], i == 1);
      if (i == 1) spindle_on();
    }
    if (moves.size() == 1) spindle_on();
    if (at_.z != moves.front().z) line(std::string("G0").append(word('Z', moves.front().z)));
    line("M5");
    line("M2");
    return std::move(text_);
  }

 private:
  void spindle_on() { line(std::string("M3 ").append(plain_word('S', head_.spindle))); }

  void move(const GridMove& to, bool placing) {
    constexpr std::array<const char*, 4> codes = {"G0", "G1", "G2", "G3"};  // in the order of MoveKind
    std::string words = codes[static_cast<std::size_t>(to.kind)];
    if (placing || to.x != at_.x || to.y != at_.y) words += word('X', to.x) + word('Y', to.y);
    if (to.z != at_.z) words += word('Z', to.z);
    if (is_arc(to.kind)) words += word('I', to.i) + word('J', to.j);
    if (to.kind != MoveKind::rapid) words += feed(to.feed);
    line(words);
    at_ = to;
  }

  std::string feed(double value) {
    const std::string words = std::string(" ").append(plain_word('F', value));
    if (words == feed_) return {};
    feed_ = words;
    return words;
  }

  void line(const std::string& words) {
    if (dialect_ == Dialect::plain && words.size() > longest_ngc_line)
      throw std::logic_error("a line too long for a plain program: " + words);
    text_ += words;
    text_ += '\n';
  }

  const ProgramHead& head_;
  Dialect dialect_;
  std::string text_, feed_;
  GridMove at_;
};

}  // namespace

std::string ngc_text(const ProgramHead& head, const Path& path, Dialect dialect) {
  return ProgramText(head, dialect).of(on_grid(path, dialect));
}

}  // namespace crownwright::milling
