#include "making/stack_files.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/write_pieces.h"
#include "making/draft.h"
#include "making/marked.h"

namespace crownwright::making {
namespace {

using order::Order;
using pattern::Outline;
using pattern::Vec2;

constexpr double line_within = 0.0005;  // mm, chords of a circle drawn
constexpr double cross_reach = 8;       // mm beyond the skewer's hole
constexpr double tick_length = 4;       // mm in from the edge
constexpr double same_size = 1e-6;      // mm
constexpr double common_width = 1000;   // mm, of a sheet as sold; common practice, no source

Outline disc_line(double radius) {
  const double step = std::acos(std::max(0.0, 1 - line_within / radius));
  const int count = 8 * std::max(3, static_cast<int>(std::ceil(pi / step / 8)));
  Outline points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * pi * i / count;
    points.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return points;
}

pattern::Polyline closed_disc(Outline outline) {
  outline.push_back(outline.front());
  return outline;
}

bool same_disc(const parts::StackSheet& a, const parts::StackSheet& b) {
  return std::abs(a.radius - b.radius) <= same_size && std::abs(a.inner - b.inner) <= same_size &&
         std::abs(a.to - a.from - b.to + b.from) <= same_size;
}

// Sheets alike, in the order of the first of each.
std::vector<std::vector<parts::StackSheet>> alike_sheets(const std::vector<parts::StackSheet>& sheets) {
  std::vector<std::vector<parts::StackSheet>> groups;
  for (const parts::StackSheet& sheet : sheets) {
    const auto found = std::find_if(groups.begin(), groups.end(),
                                    [&](const auto& group) { return same_disc(group.front(), sheet); });
    if (found == groups.end())
      groups.push_back({sheet});
    else
      found->push_back(sheet);
  }
  return groups;
}

std::string sheet_numbers(const std::vector<parts::StackSheet>& sheets) {
  std::string text;
  for (const parts::StackSheet& sheet : sheets)
    text.append(text.empty() ? "" : ", ").append(std::to_string(sheet.number));
  return text;
}

std::string in_mm(double value) { return number_text(value, 1) + " mm"; }

// ---- lines -----------------------------------------------------------------------------------

void add_cross(pattern::Piece& piece, double hole) {
  const double from = hole / 2, to = hole / 2 + cross_reach;
  for (const Vec2 out : {Vec2{0, -1}, Vec2{1, 0}, Vec2{0, 1}, Vec2{-1, 0}})
    piece.marks.push_back({{from * out, to * out}, ""});
}

// Front is at the foot of the page.
void add_ticks(pattern::Piece& piece, double radius) {
  for (const Vec2 out : {Vec2{0, 1}, Vec2{1, 0}, Vec2{0, -1}, Vec2{-1, 0}})
    piece.notches.push_back({radius * out, -tick_length * out, out.y > 0 ? "centre front" : ""});
}

// Where the sheet above comes to lie, if it is smaller.
void add_next(pattern::Piece& piece, const parts::StackSheet& sheet, const parts::Stack& stack) {
  const auto at = static_cast<std::size_t>(sheet.number);
  if (at >= stack.sheets.size()) return;
  const double radius = stack.sheets[at].radius;
  if (radius < sheet.radius - 2 && radius > sheet.inner + 2)
    piece.marks.push_back({closed_disc(disc_line(radius)), "next sheet"});
}

// ---- words -----------------------------------------------------------------------------------

std::vector<std::string> sheet_notes(const std::vector<parts::StackSheet>& sheets, const parts::Stack& stack,
                                     double thickness) {
  const parts::StackSheet& first = sheets.front();
  std::vector<std::string> notes = {std::string(sheets.size() == 1 ? "Sheet " : "Sheets ")
                                        .append(sheet_numbers(sheets))
                                        .append(" of ")
                                        .append(std::to_string(stack.sheets.size()))
                                        .append(", ")
                                        .append(in_mm(thickness))};
  notes.push_back(std::string("diameter ").append(in_mm(2 * first.radius)));
  if (first.inner > 0) notes.back().append(", opening ").append(in_mm(2 * first.inner));
  const double left = first.to - first.from;
  if (left < thickness - same_size) notes.push_back(std::string("thin it to ").append(in_mm(left)));
  return notes;
}

std::string material_note(const parts::Stack& stack) {
  std::string note =
      std::string("in all ").append(number_text(stack.sheet_area / 1e6, 3)).append(" m2 of sheet");
  if (const auto length = parts::sheet_length(stack, common_width))
    note.append("; ").append(in_mm(std::ceil(*length))).append(" of one 1000 mm wide");
  return note;
}

std::string steps_note(const parts::Stack& stack) {
  return std::string("steps reach ")
      .append(in_mm(stack.worst_step))
      .append(" off the form, at a height of ")
      .append(in_mm(stack.worst_at));
}

// Short lines, so that they stand large.
std::vector<std::string> wrapped_note(const std::string& text) {
  constexpr std::size_t most = 46;
  std::vector<std::string> lines(1);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t blank = std::min(text.find(' ', from), text.size());
    const std::string word = text.substr(from, blank - from);
    if (!lines.back().empty() && lines.back().size() + 1 + word.size() > most) lines.emplace_back();
    if (!lines.back().empty()) lines.back() += ' ';
    lines.back() += word;
    from = blank + 1;
  }
  return lines;
}

pattern::Piece sheet_piece(const std::vector<parts::StackSheet>& sheets, const parts::Stack& stack,
                           const order::Stack& wanted) {
  const parts::StackSheet& sheet = sheets.front();
  const double hole = wanted.hole.mm();
  pattern::Piece piece;
  piece.name = std::string(sheets.size() == 1 ? "Sheet " : "Sheets ").append(sheet_numbers(sheets));
  piece.count = static_cast<int>(sheets.size());
  piece.cut = disc_line(sheet.radius);
  const double open = sheet.inner > 0 ? sheet.inner : hole / 2;
  if (open > 0) piece.cut_holes = {disc_line(open)};
  if (sheet.inner <= 0) add_cross(piece, hole);
  add_ticks(piece, sheet.radius);
  if (sheets.size() == 1) add_next(piece, sheet, stack);
  piece.notes = sheet_notes(sheets, stack, wanted.sheet.mm());
  piece.text_at = {0, sheet.inner > 0 ? sheet.inner + 8 : hole / 2 + cross_reach + 6};
  return piece;
}

Result<std::vector<pattern::Piece>> stack_cover(const Order& order, const workshop::ProfileFolder& profiles) {
  if (order.form.kind != order::FormKind::pad || !order.cover) return std::vector<pattern::Piece>();
  return draft_order(order, profiles);
}

}  // namespace

Result<parts::Stack> plan_stack(const Order& order, const solid::Solid& solid) {
  const order::Stack& wanted = order.stack.value();
  parts::StackPlan plan;
  plan.sheet = wanted.sheet.mm();
  plan.hole = wanted.hole.mm();
  plan.edge = wanted.outline == order::StackOutline::inside    ? parts::SheetEdge::inside
              : wanted.outline == order::StackOutline::outside ? parts::SheetEdge::outside
                                                               : parts::SheetEdge::mean;
  auto stack = parts::stack_of(parts::outer_face(solid), plan);
  return stack ? stack : stack.fault().within("stack");
}

std::vector<pattern::Piece> stack_pieces(const Order& order, const parts::Stack& stack) {
  std::vector<pattern::Piece> pieces;
  for (const auto& sheets : alike_sheets(stack.sheets))
    pieces.push_back(sheet_piece(sheets, stack, *order.stack));
  std::vector<std::string>& notes = pieces.front().notes;
  notes.push_back(material_note(stack));
  notes.push_back(steps_note(stack));
  for (const std::string& caution : stack_cautions()) {
    for (const std::string& line : wrapped_note(caution)) notes.push_back(line);
  }
  return pieces;
}

Result<std::vector<ExtraFile>> stack_files(const Order& order, const solid::Solid& solid,
                                           const workshop::ProfileFolder& profiles) {
  using drawings::Paper;
  if (!order.stack) return std::vector<ExtraFile>();
  const auto stack = plan_stack(order, solid);
  if (!stack) return stack.fault();
  std::vector<pattern::Piece> pieces = stack_pieces(order, *stack);
  const auto cover = stack_cover(order, profiles);
  if (!cover) return cover.fault();
  pieces.insert(pieces.end(), cover->begin(), cover->end());
  const std::string title =
      std::string(order.name).append(": sheets of ").append(in_mm(order.stack->sheet.mm()));
  return std::vector<ExtraFile>{
      {".stack.svg", svg_with_mark(drawings::svg_of(pieces, title), order)},
      {".stack.a4.pdf", pdf_with_mark(drawings::tiled_pdf(pieces, title, Paper::a4), order)},
      {".stack.letter.pdf", pdf_with_mark(drawings::tiled_pdf(pieces, title, Paper::letter), order)}};
}

std::vector<std::string> stack_cautions() {
  return {"Knife: cut away from yourself, on a mat; keep the other hand behind the blade.",
          "Hot wire: its fumes are harmful and foam can catch fire; only with strong extraction.",
          "Sanding: wear a mask against dust. For heat, glue and fumes go by the maker's data sheet."};
}

}  // namespace crownwright::making
