// The work sheet's pages. On the first what is read from afar: title, form, main figures, verdicts, steps.
// On the second what is read with the sheet in hand, in two columns, and the cautions. Words are as large as
// the page lets them be.
#include "drawings/work_sheet.h"

#include <algorithm>

#include "base/length.h"
#include "base/printable.h"
#include "drawings/work_drawing.h"
#include "drawings/work_sheet_views.h"

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

constexpr double sheet_margin = 12,
                 sheet_foot = 13;   // mm; home printers leave 3 to 7 blank (common practice)
constexpr double line_step = 1.42;  // of the font
constexpr double column_gap = 8;
constexpr double most_step_size = 5.4, most_chapter_size = 4.6, least_chapter_size = 2.8, caution_size = 3.2;
constexpr double heading_share = 1.18;
constexpr double chart_height = 84;

/// One line of words where it is to stand, from the top of its block.
struct SetLine {
  double top = 0, y = 0, end = 0;  ///< its ground, its middle
  double indent = 0;
  std::string label{}, words{};
  double label_width = 0;
  bool heading = false;
  bool starts = true;  ///< an entry or a heading
};

/// A block of words, set for a width and a size.
struct SetBlock {
  std::vector<SetLine> lines;
  double height = 0;
};

// A number stays with its unit: whether the word behind this blank is one.
bool is_unit_next(const std::string& words, std::size_t blank) {
  if (blank >= words.size()) return false;
  std::string word = words.substr(blank + 1, words.find(' ', blank + 1) - blank - 1);
  while (!word.empty() && std::string(",.;:)").find(word.back()) != std::string::npos) word.pop_back();
  for (const char* unit : {"cm", "mm", "in", "%", "C", "N", "g", "m", "cm2", "cm3", "m/s"})
    if (word == unit) return true;
  return false;
}

class SheetPages {
 public:
  SheetPages(const WorkSheet& sheet, Paper paper)
      : sheet_(sheet), paper_(sides_of(paper).width, sides_of(paper).height) {}

  std::string pdf() {
    first_page();
    if (!sheet_.chapters.empty() || !sheet_.cautions.empty()) second_page();
    feet();
    return paper_.pdf(sheet_.title);
  }

 private:
  double inner() const { return paper_.width() - 2 * sheet_margin; }
  double end() const { return paper_.width() - sheet_margin; }
  double floor() const { return paper_.height() - sheet_foot; }

  void rule(double y, double width = 0.4) { paper_.line({{sheet_margin, y}, {end(), y}}, {width, 0, {}}); }

  // ---- the first page

  void first_page() {
    paper_.fitted({sheet_margin, sheet_margin + 4}, sheet_.title, {9, true}, inner());
    paper_.fitted({sheet_margin, sheet_margin + 12}, sheet_.subtitle, {4}, inner());
    double y = sheet_margin + 16;
    rule(y, 0.7);
    y += 4;
    constexpr double most_drawn = 84, pictured = 56;
    const double wide = inner() - pictured - 4;
    const double drawn = std::max(
        44.0, draw_sheet_profile(paper_, sheet_.profile, {{sheet_margin, y}, wide, most_drawn}, true));
    if (!sheet_.picture_png.empty())
      paper_.picture(sheet_.picture_png, {end() - pictured, y}, pictured, drawn);
    y += drawn + 3;
    y = figures(y);
    steps(verdicts(y));
  }

  double figures(double y) {
    rule(y, 0.7);
    const std::size_t count = std::min<std::size_t>(4, sheet_.figures.size());
    if (count == 0) return y;
    const double width = inner() / static_cast<double>(count);
    double size = 9.6;
    for (std::size_t i = 0; i < count; ++i) {
      const double wide = paper_.width_of(sheet_.figures[i].value, size, true);
      if (wide > width - 4) size *= std::max(2.0 / 3, (width - 4) / wide);
    }
    for (std::size_t i = 0; i < count; ++i) {
      const SheetFigure& figure = sheet_.figures[i];
      const double x = sheet_margin + width * static_cast<double>(i);
      if (i > 0) paper_.line({{x - 2, y + 2}, {x - 2, y + 24}}, {0.2, 0.4, {}});
      paper_.fitted({x, y + 4.5}, figure.name, {4.2}, width - 4);
      paper_.fitted({x, y + 13.5}, figure.value, {size, true}, width - 4);
      paper_.fitted({x, y + 22}, figure.beside, {3.4}, width - 4);
    }
    y += 26;
    rule(y, 0.7);
    return y;
  }

  void sign(SheetSign sign, Vec2 at) {
    constexpr double r = 2;
    if (sign == SheetSign::good) {
      paper_.line({at + Vec2{-r, 0}, at + Vec2{-0.5, 1.6}, at + Vec2{r, -1.7}}, {0.9, 0, {}});
    } else if (sign == SheetSign::mind) {
      paper_.line({at + Vec2{0, -r}, at + Vec2{r + 0.2, r - 0.3}, at + Vec2{-r - 0.2, r - 0.3}}, {0.6, 0, {}},
                  true);
      paper_.line({at + Vec2{0, -0.8}, at + Vec2{0, 0.6}}, {0.6, 0, {}});
    } else {
      paper_.line({at + Vec2{-r, -r}, at + Vec2{r, r}}, {0.9, 0, {}});
      paper_.line({at + Vec2{-r, r}, at + Vec2{r, -r}}, {0.9, 0, {}});
    }
  }

  double verdicts(double y) {
    if (sheet_.verdicts.empty()) return y + 3;
    constexpr double size = 3.3, most_lines = 3;
    y += 3;
    for (const SheetVerdict& verdict : sheet_.verdicts) {
      const double middle = y + 3;
      sign(verdict.sign, {sheet_margin + 2.6, middle});
      const std::string head = std::string(verdict.name).append(": ").append(verdict.verdict);
      paper_.fitted({sheet_margin + 8, middle}, head, {5, true}, inner() - 8);
      y += 6.6;
      auto lines = paper_.wrapped(verdict.reason, size, false, inner() - 8);
      if (static_cast<double>(lines.size()) > most_lines) {
        lines.resize(static_cast<std::size_t>(most_lines));
        lines.back() = shortened(lines.back(), size, inner() - 8);
      }
      for (const std::string& line : lines) {
        paper_.text({sheet_margin + 8, y + 2}, line, {size});
        y += size * line_step;
      }
      y += 1.6;
    }
    rule(y, 0.7);
    return y;
  }

  // The last line that has room, with the sign that more was said.
  std::string shortened(std::string line, double size, double width) const {
    while (!line.empty() && paper_.width_of(line + " \u2026", size) > width) {
      const std::size_t blank = line.rfind(' ');
      if (blank == std::string::npos) return "\u2026";
      line.resize(blank);
    }
    return line + " \u2026";
  }

  void steps(double y) {
    paper_.text({sheet_margin, y + 6.5}, "Press, in this order", {5, true});
    y += 12.5;
    double size = most_step_size;
    SetBlock block;
    for (; size > 2.6; size -= 0.1) {
      block = set({{"", numbered_steps()}}, inner(), size);
      if (y + block.height <= floor()) break;
    }
    draw(block, {sheet_margin, y}, size, 0, block.lines.size(), floor());
  }

  std::vector<SheetLineOfWords> numbered_steps() const {
    std::vector<SheetLineOfWords> numbered = sheet_.steps;
    for (std::size_t i = 0; i < numbered.size(); ++i)
      numbered[i].label = count_text(i + 1) + "  " + numbered[i].label;
    return numbered;
  }

  SetBlock cautions(double size) const {
    std::vector<SheetLineOfWords> dashed;
    for (const std::string& caution : sheet_.cautions) dashed.push_back({"\u2013", caution});
    return set({{"Take care", dashed}}, inner(), size);
  }

  // ---- the second page

  void second_page() {
    paper_.next_page();
    paper_.fitted({sheet_margin, sheet_margin + 2}, sheet_.title, {5.5, true}, inner());
    const double top = sheet_margin + 7;
    rule(top, 0.7);
    double size = caution_size;
    SetBlock care = cautions(size);
    while (care.height > paper_.height() / 2 && size > 1.8) care = cautions(size -= 0.2);
    const double low = std::max(floor() - care.height - 4, paper_.height() / 3);
    rule(low, 0.7);
    draw(care, {sheet_margin, low + 3}, size, 0, care.lines.size(), floor());
    chapters(top + 4, low - 3);
  }

  // One wide column, or two where they are needed; the chart heads the second. The largest words that find
  // room, else the last are left out and the report is named.
  void chapters(double top, double low) {
    double size = most_chapter_size;
    SetBlock block = set(sheet_.chapters, inner(), size);
    if (!sheet_.chart && block.height <= low - top)
      return draw(block, {sheet_margin, top}, size, 0, block.lines.size(), low);
    const double width = (inner() - column_gap) / 2, right = sheet_margin + width + column_gap;
    paper_.line({{right - column_gap / 2, top}, {right - column_gap / 2, low}}, {0.2, 0.4, {}});
    double second = top;
    if (sheet_.chart) {
      draw_sheet_chart(paper_, *sheet_.chart, {{right, top}, width, chart_height});
      second = top + chart_height + 4;
    }
    std::size_t middle = 0, last = 0;
    for (;; size -= 0.1) {
      block = set(sheet_.chapters, width, size);
      middle = fitting(block, 0, low - top);
      last = fitting(block, middle, low - second);
      if (last == block.lines.size() || size < least_chapter_size) break;
    }
    const double from = start_of(block, middle);
    if (last < block.lines.size()) last = fitting(block, middle, low - second - line_step * size);
    draw(block, {sheet_margin, top}, size, 0, middle, low);
    draw(block, {right, second - from}, size, middle, last, low);
    if (last == block.lines.size()) return;
    paper_.fitted({right, low - line_step * size / 2},
                  std::string("\u2026 more in the report, ").append(sheet_.report), {size, true}, width);
  }

  // Where a line's own ground begins.
  static double start_of(const SetBlock& block, std::size_t line) {
    return line < block.lines.size() ? block.lines[line].top : block.height;
  }

  // The line behind the last that finds room when `from` is the first: entries stay whole where they are
  // short, and no heading stands alone at the end.
  static std::size_t fitting(const SetBlock& block, std::size_t from, double height) {
    constexpr std::size_t short_entry = 8;
    const double start = start_of(block, from);
    std::size_t k = from;
    while (k < block.lines.size() && block.lines[k].end - start <= height) ++k;
    if (k == block.lines.size()) return k;
    std::size_t whole = k;
    while (whole > from && !block.lines[whole].starts) --whole;
    if (k - whole < short_entry) k = whole;
    // A chapter that has hardly begun goes over as a whole.
    constexpr std::size_t hardly_begun = 4;
    std::size_t head = k;
    while (head > from && !block.lines[head].heading) --head;
    if (head > from && k - head <= hardly_begun) k = head;
    while (k > from && block.lines[k - 1].heading) --k;
    return k;
  }

  // ---- words

  SetBlock set(const std::vector<SheetChapter>& all, double width, double size) const {
    SetBlock block;
    const double step = line_step * size;
    for (const SheetChapter& chapter : all) {
      if (!chapter.heading.empty()) {
        if (!block.lines.empty()) block.height += 0.6 * step;
        for (const std::string& line : paper_.wrapped(chapter.heading, heading_share * size, true, width)) {
          SetLine& set = next_line(block, 1.25 * step, 0);
          set.label = line, set.heading = true;
        }
      }
      for (const SheetLineOfWords& entry : chapter.lines) add(entry, width, size, block);
    }
    return block;
  }

  static SetLine& next_line(SetBlock& block, double step, double indent) {
    SetLine line;
    line.top = block.height, line.y = block.height + step / 2, line.end = block.height + step;
    line.indent = indent;
    block.height = line.end;
    block.lines.push_back(std::move(line));
    return block.lines.back();
  }

  // The label stands in bold before the words, which run on below it.
  void add(const SheetLineOfWords& entry, double width, double size, SetBlock& block) const {
    const double step = line_step * size, indent = 1.2 * size;
    const std::size_t first = block.lines.size();
    const auto labels = paper_.wrapped(entry.label, size, true, width - indent);
    for (std::size_t i = 0; i + 1 < labels.size(); ++i)
      next_line(block, step, i == 0 ? 0 : indent).label = labels[i];
    std::string rest = printable(entry.words, 6000);
    for (bool labelled = !labels.empty(), more = true; more; labelled = false) {
      SetLine& line = next_line(block, step, block.lines.size() == first ? 0 : indent);
      if (labelled) {
        line.label = labels.back();
        line.label_width = paper_.width_of(line.label, size, true) + 0.7 * size;
      }
      line.words = first_line(rest, size, width - line.indent - line.label_width, labelled);
      rest.erase(0, line.words.size());
      rest.erase(0, std::min(rest.find_first_not_of(' '), rest.size()));
      more = !rest.empty();
    }
    for (std::size_t i = first; i < block.lines.size(); ++i) block.lines[i].starts = i == first;
    block.height += 0.35 * step;
  }

  // As much of the words as one line holds; nothing where a label leaves no room for a word.
  std::string first_line(const std::string& words, double size, double room, bool may_be_empty) const {
    std::size_t kept = 0;
    for (std::size_t at = 0; at < words.size();) {
      const std::size_t stop = std::min(words.find(' ', at + 1), words.size());
      if (paper_.width_of(words.substr(0, stop), size) > room) break;
      at = stop;
      if (!is_unit_next(words, stop)) kept = stop;
    }
    if (kept > 0 || may_be_empty || words.empty()) return words.substr(0, kept);
    const auto pieces = paper_.wrapped(words.substr(0, words.find(' ')), size, false, room);
    return pieces.empty() ? words : pieces.front();
  }

  void draw(const SetBlock& block, Vec2 corner, double size, std::size_t from, std::size_t to, double low) {
    for (std::size_t i = from; i < to; ++i) {
      const SetLine& line = block.lines[i];
      const Vec2 at = corner + Vec2{line.indent, line.y};
      if (at.y > low) return;
      paper_.text(at, line.label, {line.heading ? heading_share * size : size, true});
      paper_.text(at + Vec2{line.label_width, 0}, line.words, {size});
    }
  }

  void feet() {
    const double y = paper_.height() - 8;
    for (std::size_t k = 0; k < paper_.pages(); ++k) {
      paper_.turn_to(k);
      const std::string page = "page " + count_text(k + 1) + " of " + count_text(paper_.pages());
      paper_.fitted({sheet_margin, y}, std::string(sheet_.title).append(": work sheet"), {2.8}, inner() - 30);
      paper_.text({end(), y}, page, {2.8, false, Anchor::end});
    }
  }

  const WorkSheet& sheet_;
  WorkDrawing paper_;
};

}  // namespace

std::string work_sheet_pdf(const WorkSheet& sheet, Paper paper) { return SheetPages(sheet, paper).pdf(); }

}  // namespace crownwright::drawings
