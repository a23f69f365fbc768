#include "report/parts_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "making/part_files.h"
#include "report/json_number.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

double length_of(double value) { return rounded(value, kLengthDecimals); }
double area_of(double value) { return rounded(value, 1); }

Json point_json(const mesh::Point3& p) { return {length_of(p.x), length_of(p.y), length_of(p.z)}; }

Json place_json(const mesh::Placement& place) {
  Json numbers = Json::array();
  for (std::size_t i = 0; i < 9; ++i) numbers.push_back(rounded(place.m[i], 9));
  for (std::size_t i = 9; i < 12; ++i) numbers.push_back(rounded(place.m[i], 6));
  return numbers;
}

Json file_with(const std::string& ending, const std::vector<std::string>& files) {
  const auto found = std::find_if(files.begin(), files.end(),
                                  [&](const std::string& file) { return file.ends_with(ending); });
  return found == files.end() ? Json(nullptr) : Json(*found);
}

Json part_json(const making::Form& form, std::size_t at, const std::vector<std::string>& files) {
  const making::PrintedPart& part = form.printed.parts[at];
  const printing::PrintJudgement& figures = part.figures;
  return {{"name", part.name},
          {"file", file_with(making::part_ending(form, at), files)},
          {"size_mm", point_json(figures.size)},
          {"volume_mm3", rounded(figures.body.volume, kVolumeDecimals)},
          {"mass_g", rounded(figures.amount.massive_mass, 1)},
          {"place", place_json(part.to_form)},
          {"way_up", part.way_up},
          {"bed", part.plate + 1},
          {"fits_bed", part.fits},
          {"overhang_area_mm2", area_of(figures.overhang.area)},
          {"first_layer_mm2", area_of(figures.first_layer_area)},
          {"stands", figures.stand.stands},
          {"centre_mm", point_json(figures.body.centre)},
          {"printed_mass_g", rounded(figures.amount.printed_mass, 1)},
          {"printed_volume_mm3", rounded(figures.amount.printed_volume, 1)},
          {"filament_m", rounded(figures.amount.filament_length, 2)}};
}

Json bed_json(const std::optional<printing::Bed>& bed) {
  if (!bed) return nullptr;
  return {length_of(bed->width), length_of(bed->depth), length_of(bed->height)};
}

Json joints_json(const std::optional<making::JointFigures>& joints) {
  if (!joints) return nullptr;
  return {{"sectors", joints->sectors},
          {"tiers", joints->tiers},
          {"dowels_each", joints->dowels},
          {"keys_each", joints->keys},
          {"dowel_mm", length_of(joints->dowel)},
          {"dowel_length_mm", length_of(joints->dowel_length)},
          {"glue_gap_mm", length_of(joints->glue_gap)},
          {"vents_left_out", joints->vents_left_out}};
}

Json step_json(const parts::Step& step) {
  return {{"piece", step.piece},
          {"direction", step.direction},
          {"exit", parts::exit_name(step.exit)},
          {"needed_girth", length_of(step.needed_girth)},
          {"opening_girth", length_of(step.opening_girth)}};
}

}  // namespace

std::string parts_json(const making::Form& form, const std::vector<std::string>& files) {
  Json all = Json::array();
  for (std::size_t at = 0; at < form.printed.parts.size(); ++at) all.push_back(part_json(form, at, files));
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string print_json(const making::Form& form) {
  const making::Printed& printed = form.printed;
  double overhang = 0;
  for (const making::PrintedPart& part : printed.parts) overhang += part.figures.overhang.area;
  const auto& wall = form.proven.readings().wall_min;
  const Json json = {{"overhang_area_mm2", area_of(overhang)},
                     {"wall_min", wall ? Json(length_of(*wall)) : Json(nullptr)},
                     {"fits_bed", printed.fits_bed},
                     {"bed_mm", bed_json(printed.bed)},
                     {"beds", printed.plates},
                     {"nozzle_mm", length_of(form.order.print.nozzle.mm())},
                     {"infill", rounded(form.order.print.infill, 4)},
                     {"vents", printed.vents},
                     {"joints", joints_json(printed.joints)}};
  return json.dump();
}

std::string release_json(const making::Form& form) {
  if (!form.released) return "null";
  Json order = Json::array();
  for (const parts::Step& step : form.released->steps) order.push_back(step_json(step));
  // How a side is turned on end within the beret is not worked out.
  const Json json = {{"order", order}, {"turning_swept", false}};
  return json.dump();
}

std::string stack_json(const making::Form& form) {
  if (!form.stack) return "null";
  const parts::Stack& stack = *form.stack;
  Json radii = Json::array();
  for (const parts::StackSheet& sheet : stack.sheets) radii.push_back(length_of(sheet.radius));
  const Json json = {{"sheets", stack.sheets.size()},
                     {"sheet_mm", length_of(form.order.stack->sheet.mm())},
                     {"height_mm", length_of(stack.height)},
                     {"last_mm", length_of(stack.last_thickness)},
                     {"worst_step_mm", length_of(stack.worst_step)},
                     {"worst_at_mm", length_of(stack.worst_at)},
                     {"sheet_area_mm2", area_of(stack.sheet_area)},
                     {"radii_mm", radii}};
  return json.dump();
}

}  // namespace crownwright::report
