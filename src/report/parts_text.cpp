#include "report/parts_text.h"

#include <algorithm>

#include "base/length.h"
#include "making/stack_files.h"
#include "report/length_words.h"

namespace crownwright::report {
namespace {

std::string count_of(std::size_t count, const std::string& one, const std::string& many) {
  return count_text(count) + " " + (count == 1 ? one : many);
}

std::string size_words(const mesh::Point3& size) {
  return length_words(size.x) + " by " + length_words(size.y) + ", " + length_words(size.z) + " high";
}

double filament(const making::Printed& printed) {
  double sum = 0;
  for (const making::PrintedPart& part : printed.parts) sum += part.figures.amount.filament_length;
  return sum;
}

std::string beds_words(const making::Printed& printed) {
  if (!printed.bed) return {};
  if (!printed.fits_bed) return ", too large for the bed";
  return printed.plates == 1 ? ", on one bed" : ", on " + count_text(printed.plates) + " beds";
}

void add_joints(Page& page, const making::Form& form) {
  const auto& joints = form.printed.joints;
  if (!joints) return;
  std::string words = count_of(joints->dowels, "dowel", "dowels") + " of " + length_words(joints->dowel) +
                      ", " + length_words(joints->dowel_length) + " long, in each joint";
  if (joints->keys > 0) words += ", and a loose key in the floor";
  if (joints->glue_gap > 0) words += "; room for " + length_words(joints->glue_gap) + " of glue";
  page.line("Joints", words);
}

void add_print(Page& page, const making::Form& form) {
  const making::Printed& printed = form.printed;
  const bool whole = printed.parts.size() == 1;
  if (whole && !form.material.printable) return;
  const std::string what = whole ? "in one piece, " + printed.parts.front().way_up
                                 : "in " + count_of(printed.parts.size(), "part", "parts");
  page.line("Print", what + beds_words(printed) + "; about " + number_text(filament(printed), 0) +
                         " m of 1.75 mm filament without supports");
  if (!whole) {
    for (const making::PrintedPart& part : printed.parts)
      page.line("", part.name + ": " + size_words(part.figures.size) + ", " + part.way_up);
  }
  add_joints(page, form);
}

void add_take_out(Page& page, const making::Form& form) {
  if (!form.released || form.released->steps.size() < 2) return;
  std::string label = "Take out";
  for (const parts::Step& step : form.released->steps) {
    page.line(label, step.piece + ": " + step.direction + ", needs " + length_words(step.needed_girth) +
                         " of the opening's " + length_words(step.opening_girth));
    label.clear();
  }
}

void add_stack(Page& page, const making::Form& form) {
  if (!form.stack) return;
  const parts::Stack& stack = *form.stack;
  page.line("Stack", count_of(stack.sheets.size(), "sheet", "sheets") + " of " +
                         length_words(form.order.stack->sheet.mm()) + ", the last " +
                         length_words(stack.last_thickness) + "; steps of up to " +
                         length_words(stack.worst_step));
  for (const std::string& caution : making::stack_cautions()) page.line("", caution);
}

}  // namespace

void add_parts(Page& page, const making::Form& form) {
  add_print(page, form);
  add_take_out(page, form);
  add_stack(page, form);
}

}  // namespace crownwright::report
