#include "making/marks_of.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/text_outline.h"
#include "meridian/refusal.h"

namespace crownwright::making {
namespace {

using order::Order;

/// Letters: mm of capitals. Chosen: smaller ones run together under a 0.4 mm nozzle, larger ones shout.
constexpr double largest_letters = 6, smallest_letters = 3;
/// Accents above and tails below a line of text, in capitals' heights (DejaVu Sans, rounded up).
constexpr double above_capitals = 0.3, below_line = 0.3;
constexpr double lines_share = 0.35;  ///< of the collar, from above, for the lines
constexpr double text_gap = 0.8;      ///< mm between lines and text
constexpr double sector_edge = 16;    ///< mm kept from a joint: its flange and a little more

std::string centimetres(const Length& length) { return number_text(length.mm() / 10, 1) + " cm"; }

// From all there is to say down to the least.
std::vector<std::string> texts_of(const Order& order) {
  if (order.marks->text != "auto") return {order.marks->text};
  std::string figures = order.measure.hat_size;
  const auto add = [&](const std::string& part) { figures += (figures.empty() ? "" : ", ") + part; };
  if (order.measure.head_girth) add(centimetres(*order.measure.head_girth));
  std::vector<std::string> texts;
  const std::string girth = figures;
  if (order.measure.crown_diameter) add(std::string("crown ") + centimetres(*order.measure.crown_diameter));
  if (figures.empty()) return {order.name};
  return {figures + ", " + order.name, figures, girth.empty() ? figures : girth};
}

parts::MarkLoop loop_of(const pattern::Outline& outline, double du, double dv) {
  parts::MarkLoop loop;
  for (const pattern::Vec2& p : outline) loop.push_back({p.x + du, p.y + dv});
  return loop;
}

std::vector<parts::MarkShape> shapes_of(const drawings::TextOutline& text, double du, double dv) {
  std::vector<parts::MarkShape> shapes;
  for (const drawings::LetterPiece& piece : text.pieces) {
    parts::MarkShape shape{{loop_of(piece.outer, du, dv)}};
    for (const pattern::Outline& hole : piece.holes) shape.loops.push_back(loop_of(hole, du, dv));
    shapes.push_back(std::move(shape));
  }
  return shapes;
}

/// Room for one line of text.
struct TextRoom {
  double width = 0, height = 0;
};

Fault no_room(const std::string& where, const TextRoom& room) {
  return impossible_fault("the text of [marks] has no room on the " + where,
                          "letters of " + meridian::mm_text(smallest_letters) +
                              " and a text that fits: there is room for " + meridian::mm_text(room.width) +
                              " by " + meridian::mm_text(room.height));
}

struct SetText {
  drawings::TextOutline outline;
  double letters = 0;
};

// Half a millimetre less each time, and last of all the smallest.
double next_smaller(double letters) {
  return letters > smallest_letters ? std::max(letters - 0.5, smallest_letters) : 0;
}

// The longest text in the largest letters that fit.
Result<SetText> set_text(const Order& order, const TextRoom& room, const std::string& where) {
  const double most = std::min(largest_letters, room.height / (1 + above_capitals + below_line));
  for (const std::string& text : texts_of(order)) {
    for (double letters = most; letters >= smallest_letters; letters = next_smaller(letters)) {
      drawings::TextStyle style;
      style.cap_height = letters;
      auto outline = drawings::text_outline(text, style);
      if (!outline) return outline.fault().within("marks.text");
      if (outline->width <= room.width) return SetText{*std::move(outline), letters};
    }
  }
  return no_room(where, room);
}

std::vector<double> line_angles(const Order& order) {
  std::set<double> angles = {0, pi / 2, pi, 3 * pi / 2};
  for (int k = 0; k < order.pattern.panels.value_or(0); ++k) {
    const double at = 2 * pi * k / *order.pattern.panels;
    // A seam at a quarter is the quarter's line.
    const bool known =
        std::any_of(angles.begin(), angles.end(), [&](double other) { return std::abs(other - at) < 1e-6; });
    if (!known) angles.insert(at);
  }
  return {angles.begin(), angles.end()};
}

Result<parts::Marks> on_collar(const Order& order, const parts::CollarRoom& room,
                               const MarksQuestion& question) {
  parts::Marks marks;
  marks.line_depth = order.marks->depth.mm();
  marks.collar_lines = line_angles(order);
  const double height = room.high - room.low;
  marks.lines_from = room.high - lines_share * height;
  const double around =
      2 * pi * room.radius / question.sectors - (question.sectors > 1 ? 2 * sector_edge : 10);
  const TextRoom for_text{around, *marks.lines_from - text_gap - room.low};
  const auto text = set_text(order, for_text, "collar");
  if (!text) return text.fault();
  const double middle = question.sectors > 1 ? question.phase + pi / question.sectors : pi;
  marks.collar = shapes_of(text->outline, middle * room.radius - text->outline.width / 2,
                           room.low + below_line * text->letters);
  return marks;
}

Result<parts::Marks> on_foot(const Order& order, const solid::Solid& solid) {
  const parts::FootRoom room = parts::foot_room(solid);
  parts::Marks marks;
  marks.foot_depth = order.marks->depth.mm();
  if (room.inner > 0) {
    return no_room("foot, a ring without a collar above it",
                   {2 * pi * room.inner, std::max(0.0, room.outer - room.inner)});
  }
  // Straight across the middle of a full disc.
  const double half_height = largest_letters;
  const TextRoom across{2 * std::sqrt(std::max(0.0, room.outer * room.outer - half_height * half_height)),
                        2 * half_height};
  const auto text = set_text(order, across, "foot");
  if (!text) return text.fault();
  marks.foot = shapes_of(text->outline, -text->outline.width / 2, -text->letters / 2);
  return marks;
}

}  // namespace

Result<std::optional<parts::Marks>> marks_of(const Order& order, const solid::Solid& solid,
                                             const MarksQuestion& question) {
  if (!order.marks) return std::optional<parts::Marks>();
  const auto room = parts::collar_room(solid);
  auto marks = room ? on_collar(order, *room, question) : on_foot(order, solid);
  if (!marks) return marks.fault();
  if (const auto checked = parts::check_marks(solid, *marks); !checked) return checked.fault();
  return std::optional(*std::move(marks));
}

}  // namespace crownwright::making
