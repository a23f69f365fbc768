// The state of the machine as lines go by. On a line: F, S and T first, then units, then motion, then the end
// (NISTIR 6556 section 3.8).
#include "simulation/ngc_reader.h"

#include <cmath>
#include <optional>

#include "base/length.h"
#include "simulation/ngc_arc.h"
#include "simulation/ngc_line.h"
#include "simulation/ngc_modes.h"

namespace crownwright::simulation {
namespace {

constexpr double arc_tolerance_mm = 0.002, arc_tolerance_inch = 0.0002;  // 3.5.3.2
constexpr std::size_t most_comments = 10'000;  // kept; a program of nothing else must not fill the memory

bool is_arc(Motion motion) { return motion == Motion::clockwise || motion == Motion::counterclockwise; }

class Controller {
 public:
  Result<Done> run(const Line& line, int number);
  bool ended() const { return ended_; }
  std::vector<Stroke>& strokes() { return strokes_; }

 private:
  Result<Done> take_figures(const Line& line);
  Result<Done> take_unit(const Codes& codes);
  Result<Done> move(const Line& line, int number);
  Result<Done> bend(const Line& line, Stroke& stroke) const;
  Result<Arc> arc_of(const Line& line, const Stroke& stroke) const;
  void go_to(const Line& line);

  std::optional<Motion> motion_;  // none: nothing said yet, or G80
  double unit_ = 1;
  bool has_moved_ = false, ended_ = false;
  double feed_ = 0;
  Stroke at_{Motion::rapid, 0, 0, 0, 0, 0, 0, 0, 0, false, false, false};
  std::vector<Stroke> strokes_;
};

Result<Done> Controller::take_figures(const Line& line) {
  for (const char letter : {'F', 'S', 'T'}) {
    const Word* word = line.find(letter);
    if (word != nullptr && word->value < 0)
      return order_fault({}, std::string(1, letter) + " is negative", "0 or more");
  }
  const Word* tool = line.find('T');
  if (tool != nullptr && std::abs(tool->value - std::round(tool->value)) > 1e-4)
    return order_fault({}, "the tool's number is not whole", "such as T1");
  return Done{};
}

Result<Done> Controller::take_unit(const Codes& codes) {
  if (!codes.unit) return Done{};
  if (has_moved_ && *codes.unit != unit_)
    return order_fault({}, "the unit changes after the first move", "G20 or G21 once, before any axis word");
  unit_ = *codes.unit;
  return Done{};
}

void Controller::go_to(const Line& line) {
  const auto take = [&](char letter, double& place, bool& known) {
    const Word* word = line.find(letter);
    if (word == nullptr) return;
    place = unit_ * word->value;
    known = true;
  };
  take('X', at_.x, at_.known_x);
  take('Y', at_.y, at_.known_y);
  take('Z', at_.z, at_.known_z);
}

Result<Arc> Controller::arc_of(const Line& line, const Stroke& stroke) const {
  const Word *i = line.find('I'), *j = line.find('J'), *r = line.find('R');
  const bool clockwise = stroke.motion == Motion::clockwise;
  const double tolerance = unit_ == 1 ? arc_tolerance_mm : arc_tolerance_inch * unit_;
  const PlanePoint from{at_.x, at_.y}, to{stroke.x, stroke.y};
  if (r != nullptr) return arc_by_radius(from, to, unit_ * r->value, clockwise, tolerance);
  const PlanePoint centre{from.x + (i ? unit_ * i->value : 0), from.y + (j ? unit_ * j->value : 0)};
  return arc_by_centre(from, to, centre, clockwise, tolerance);
}

/// `at_` is still where the arc starts.
Result<Done> Controller::bend(const Line& line, Stroke& stroke) const {
  const bool centre = line.find('I') != nullptr || line.find('J') != nullptr,
             radius = line.find('R') != nullptr;
  if (line.find('X') == nullptr && line.find('Y') == nullptr)
    return order_fault({}, "an arc has neither X nor Y", "at least one of them");
  if (!centre && !radius) return order_fault({}, "an arc has neither I nor J", "at least one of them, or R");
  if (centre && radius) return order_fault({}, "an arc has R beside I or J", "one way of the two");
  if (!at_.known_x || !at_.known_y)
    return order_fault({}, "an arc starts where x or y is not yet known", "go to X and Y before it");
  const auto arc = arc_of(line, stroke);
  if (!arc) return arc.fault();
  stroke.cx = arc->centre.x;
  stroke.cy = arc->centre.y;
  stroke.turn = arc->turn;
  return Done{};
}

Result<Done> Controller::move(const Line& line, int number) {
  if (!motion_)
    return order_fault({}, "the line goes somewhere but no motion is in force", "one of G0 to G3");
  if (*motion_ != Motion::rapid && !(feed_ > 0))
    return order_fault({}, "a feed move has no feed", "F greater than 0 before it or on its line");
  const Stroke before = at_;
  go_to(line);
  Stroke stroke = at_;
  at_ = before;
  stroke.motion = *motion_;
  stroke.feed = *motion_ == Motion::rapid ? 0 : feed_;
  stroke.line = number;
  if (is_arc(*motion_)) {
    if (const auto bent = bend(line, stroke); !bent) return bent;
  }
  go_to(line);
  has_moved_ = true;
  strokes_.push_back(stroke);
  return Done{};
}

Result<Done> Controller::run(const Line& line, int number) {
  const auto codes = codes_of(line);
  if (!codes) return codes.fault();
  if (const auto taken = take_figures(line); !taken) return taken;
  if (const auto taken = take_unit(*codes); !taken) return taken;
  if (const Word* feed = line.find('F')) feed_ = unit_ * feed->value;
  if (codes->cancels_motion) motion_.reset();
  if (codes->motion) motion_ = codes->motion;
  const bool goes = line.find('X') != nullptr || line.find('Y') != nullptr || line.find('Z') != nullptr;
  const bool offsets = line.find('I') != nullptr || line.find('J') != nullptr || line.find('R') != nullptr;
  if (offsets && !(motion_ && is_arc(*motion_)))
    return order_fault({}, "I, J or R stand on a line without an arc", "with G2 or G3 alone");
  if (!goes && (codes->motion || offsets))
    return order_fault({}, "a move has no axis word", "at least one of X, Y and Z");
  if (goes) {
    if (const auto moved = move(line, number); !moved) return moved;
  }
  ended_ = codes->ends;
  return Done{};
}

/// The text's lines one by one; ends are \n, \r\n or \r.
class Lines {
 public:
  explicit Lines(std::string_view text) : rest_(text) {}
  std::optional<std::string_view> next() {
    if (rest_.empty()) return std::nullopt;
    const std::size_t end = rest_.find_first_of("\r\n");
    const std::string_view line = rest_.substr(0, end);
    if (end == std::string_view::npos) {
      rest_ = {};
    } else {
      rest_.remove_prefix(end + (rest_.substr(end, 2) == "\r\n" ? 2 : 1));
    }
    return line;
  }

 private:
  std::string_view rest_;
};

/// Lines from the first % (if there is one) to the end.
class ProgramReader {
 public:
  Result<Done> take(std::string_view text, int number);
  bool complete() const { return closed_ || controller_.ended(); }
  Program program();

 private:
  Result<Done> percent();

  Controller controller_;
  std::vector<std::string> comments_;
  bool begun_ = false, wrapped_ = false, closed_ = false;
};

Result<Done> ProgramReader::percent() {
  if (begun_ && !wrapped_)
    return order_fault({}, "a % stands in the middle of the program", "% before and after it");
  closed_ = wrapped_;
  wrapped_ = begun_ = true;
  return Done{};
}

Result<Done> ProgramReader::take(std::string_view text, int number) {
  auto line = parse_ngc_line(text);
  if (!line) return line.fault();
  if (line->percent) return percent();
  const bool blank = line->words.empty() && line->comments.empty();
  begun_ = begun_ || !blank;
  for (std::string& comment : line->comments) {
    if (comments_.size() < most_comments) comments_.push_back(std::move(comment));
  }
  return controller_.run(*line, number);
}

Program ProgramReader::program() { return {std::move(controller_.strokes()), std::move(comments_)}; }

}  // namespace

Result<Program> read_program(std::string_view text, const std::string& name) {
  ProgramReader reader;
  Lines lines(text);
  std::size_t number = 0;
  for (auto line = lines.next(); line && !reader.complete(); line = lines.next()) {
    const std::string where = name + ":" + count_text(++number);
    if (number > most_lines)
      return order_fault(where, "the program is too long",
                         std::string("at most ") + count_text(most_lines) + " lines");
    if (const auto taken = reader.take(*line, static_cast<int>(number)); !taken)
      return taken.fault().within(where);
  }
  if (!reader.complete())
    return order_fault(name + ":" + count_text(number), "the program does not end",
                       "with M2 or M30, or with a % line as it began");
  return reader.program();
}

}  // namespace crownwright::simulation
