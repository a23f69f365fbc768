#include "parts/stack.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/length.h"
#include "base/numbers.h"
#include "parts/stack_bands.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using solid::Role;

constexpr double least_rim = 3;       // mm round the skewer's hole; chosen, less tears
constexpr double least_sheet = 1e-6;  // mm: what is left over by rounding is no sheet
constexpr int most_sheets = 1000;

// ---- the face --------------------------------------------------------------------------------

bool shows_outside(Role role) {
  return role != Role::inner && role != Role::socket && role != Role::floor && role != Role::pole_vent;
}

bool is_foot_plane(const Segment& segment) {
  constexpr double level = 1e-9;
  return std::abs(segment.from().z) <= level && std::abs(segment.to().z) <= level;
}

// ---- sheets ----------------------------------------------------------------------------------

StackSheet sheet_in(const Band& band, SheetEdge edge) {
  StackSheet sheet;
  switch (edge) {
    case SheetEdge::inside:
      sheet.radius = band.outer.least, sheet.inner = band.inner.greatest;
      break;
    case SheetEdge::outside:
      sheet.radius = band.outer.greatest, sheet.inner = band.inner.least;
      break;
    case SheetEdge::mean:
      sheet.radius = band.outer.mean, sheet.inner = band.inner.mean;
      break;
  }
  return sheet;
}

bool is_left(const StackSheet& sheet, const StackPlan& plan) {
  const double open = std::max(sheet.inner, plan.hole / 2);
  return sheet.radius >= open + (open > 0 ? least_rim : least_sheet);
}

double area_of(const StackSheet& sheet) {
  return pi * (sheet.radius * sheet.radius - sheet.inner * sheet.inner);
}

void look_at(Stack& stack, const Chain& face, Point corner) {
  const double off = meridian::distance_to(face, corner);
  if (off <= stack.worst_step) return;
  stack.worst_step = off;
  stack.worst_at = corner.z;
}

void find_worst_step(Stack& stack, const Chain& face) {
  for (const StackSheet& sheet : stack.sheets) {
    for (const double z : {sheet.from, sheet.to}) {
      look_at(stack, face, {sheet.radius, z});
      if (sheet.inner > 0) look_at(stack, face, {sheet.inner, z});
    }
  }
  // What is missing above and below.
  if (stack.sheets.back().inner == 0) look_at(stack, face, {0, stack.sheets.back().to});
  if (stack.sheets.front().inner == 0) look_at(stack, face, {0, stack.sheets.front().from});
}

}  // namespace

Chain outer_face(const solid::Solid& solid) {
  const solid::Shell& shell = solid.shells.front();
  Chain face;
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (!shows_outside(shell.roles[i]) || is_foot_plane(shell.walk[i])) continue;
    face.push_back(shell.walk[i]);
  }
  const Point top = face.front().from(), foot = face.back().to();
  if (top.r > 0) face.insert(face.begin(), Segment::line({0, top.z}, top));
  if (foot.r > 0) face.push_back(Segment::line(foot, {0, foot.z}));
  return face;
}

Result<Stack> stack_of(const Chain& face, const StackPlan& plan) {
  const StackBands bands(face);
  Stack stack;
  stack.height = bands.high() - bands.low();
  stack.form_volume = meridian::swept_volume(face);
  const double count = std::ceil((stack.height - least_sheet) / plan.sheet);
  if (count > most_sheets) {
    return impossible_fault(
        "sheets of " + number_text(plan.sheet, 3) + " mm would make a stack of " + number_text(count, 0),
        "sheets of at least " + number_text(std::ceil(stack.height) / most_sheets, 2) + " mm");
  }
  for (int i = 0; i < static_cast<int>(count); ++i) {
    const double from = bands.low() + i * plan.sheet,
                 to = std::min(bands.low() + (i + 1) * plan.sheet, bands.high());
    StackSheet sheet = sheet_in(bands.between(from, to), plan.edge);
    sheet.from = from, sheet.to = to;
    if (!is_left(sheet, plan)) continue;
    sheet.number = static_cast<int>(stack.sheets.size()) + 1;
    stack.sheets.push_back(sheet);
    stack.sheet_area += area_of(sheet);
    stack.volume += area_of(sheet) * (to - from);
  }
  if (stack.sheets.empty()) {
    return impossible_fault("no sheet of " + number_text(plan.sheet, 3) + " mm has room in the form",
                            "thinner sheets, or outline = \"mean\"");
  }
  stack.last_thickness = stack.sheets.back().to - stack.sheets.back().from;
  find_worst_step(stack, face);
  return stack;
}

std::optional<double> sheet_length(const Stack& stack, double width) {
  constexpr double apart = 5;
  std::vector<double> discs;
  for (const StackSheet& sheet : stack.sheets) discs.push_back(2 * sheet.radius);
  std::sort(discs.rbegin(), discs.rend());
  if (discs.front() + 2 * apart > width) return std::nullopt;
  double length = apart, used = width;
  for (const double disc : discs) {
    if (used + disc + apart > width) {
      length += disc + apart;  // a new row, as deep as its first
      used = apart;
    }
    used += disc + apart;
  }
  return length;
}

}  // namespace crownwright::parts
