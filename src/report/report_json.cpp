#include "report/report_json.h"

#include <nlohmann/json.hpp>

#include "order/keys.h"
#include "report/fit_json.h"
#include "report/json_number.h"
#include "report/mill_json.h"
#include "report/parts_json.h"
#include "report/press_json.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

double mm(double value) { return rounded(value, kLengthDecimals); }
double mm3(double value) { return rounded(value, kVolumeDecimals); }
Json mm(const std::optional<double>& value) { return value ? Json(mm(*value)) : Json(nullptr); }

// One written value, whatever its type.
struct ToJson {
  Json operator()(const std::string& text) const { return text; }
  Json operator()(const Length& length) const { return mm(length.mm()); }
  Json operator()(double number) const { return rounded(number, 9); }
  Json operator()(int number) const { return number; }
  Json operator()(bool yes) const { return yes; }
  Json operator()(const std::vector<std::string>& words) const { return words; }
  Json operator()(const std::vector<order::Reading>& readings) const {
    Json pairs = Json::array();
    for (const auto& reading : readings) pairs.push_back({mm(reading.radius.mm()), mm(reading.height.mm())});
    return pairs;
  }
  Json operator()(const std::vector<order::PanelWidth>& stations) const {
    Json pairs = Json::array();
    for (const auto& station : stations) pairs.push_back({mm(station.down.mm()), mm(station.width.mm())});
    return pairs;
  }
  Json operator()(const std::vector<order::SizeRow>& sizes) const {
    Json rows = Json::array();
    for (const auto& size : sizes) {
      rows.push_back({size.name, mm(size.head_girth.mm()), mm(size.crown_diameter.mm())});
      if (size.rise) rows.back().push_back(mm(size.rise->mm()));
    }
    return rows;
  }
  Json operator()(const order::Bed& bed) const {
    return {mm(bed.width.mm()), mm(bed.depth.mm()), mm(bed.height.mm())};
  }
  Json operator()(const order::Cutter& cutter) const {
    const char* shape = cutter.shape == order::CutterShape::ball ? "ball" : "flat";
    return {{"diameter", mm(cutter.diameter.mm())}, {"shape", shape}};
  }
  Json operator()(const order::SheetSize& size) const {
    return {mm(size.width.mm()), mm(size.depth.mm())};
  }
};

// The name stands above already, and [measure] is what an order is about: its keys need no table.
Json ordered_json(const order::Order& order) {
  Json ordered = Json::object();
  if (order.measure.head_girth) ordered["head_girth"] = mm(order.measure.head_girth->mm());
  for (const order::Key& key : order::all_keys()) {
    if (key.table.empty() || !key.is_taken_by(order.form.kind)) continue;
    const auto value = key.at.get(order);
    if (!value) continue;
    const std::string name(key.name);
    Json& place = key.table == "measure" ? ordered[name] : ordered[std::string(key.table)][name];
    place = std::visit(ToJson{}, *value);
  }
  return ordered;
}

Json form_json(const making::FormFigures& figures) {
  return {{"crown_diameter", mm(figures.crown_diameter)},
          {"head_girth", mm(figures.head_girth)},
          {"rise", mm(figures.rise)},
          {"meridian_length", mm(figures.meridian_length)},
          {"top_length", mm(figures.top_length)},
          {"under_length", mm(figures.under_length)},
          {"dome", mm(figures.dome)},
          {"edge_radius", mm(figures.edge_radius)},
          {"under_edge_radius", mm(figures.under_edge_radius)},
          {"cloth_thickness", mm(figures.cloth_thickness)},
          {"moved_inward", mm(figures.moved_inward)},
          {"heat_shrink", rounded(figures.heat_shrink, 9)},
          {"volume_mm3", mm3(figures.volume)},
          {"area_mm2", mm3(figures.area)}};
}

Json measured_json(const proof::Readings& readings) {
  return {{"crown_diameter", mm(readings.crown_diameter)},
          {"head_girth", mm(readings.head_girth)},
          {"rise", mm(readings.rise)},
          {"wall_min", mm(readings.wall_min)},
          {"volume_mm3", mm3(readings.volume)},
          {"area_mm2", mm3(readings.area)}};
}

Json mesh_json(const proof::Proven& proven) {
  return {{"triangles", proven.mesh().triangles.size()},
          {"vertices", proven.mesh().vertices.size()},
          {"shells", proven.verdict().shells},
          {"genus", proven.verdict().genus},
          {"chord_error_max", rounded(proven.readings().chord_error_max, kErrorDecimals)},
          {"smallest_angle_deg", rounded(proven.readings().smallest_angle, 2)}};
}

Json proof_json(const proof::Verdict& verdict) {
  Json checks = Json::array();
  for (const proof::Check& check : verdict.checks) {
    checks.push_back({{"name", check.name}, {"passed", check.passed}, {"detail", check.detail}});
  }
  return {{"passed", verdict.passed()}, {"checks", checks}};
}

Json material_json(const making::MaterialFigures& material) {
  return {{"name", material.name},
          {"density_g_cm3", rounded(material.density, 4)},
          {"mass_g", rounded(material.mass, 1)}};
}

}  // namespace

std::string report_json(const making::Form& form, const std::vector<std::string>& files) {
  const Json report = {{"name", form.order.name},
                       {"kind", form.order.form.kind == order::FormKind::pad ? "pad" : "block"},
                       {"units", "mm"},
                       {"made_by", "crownwright"},  // by which the file is known again (making/write.cpp)
                       {"ordered", ordered_json(form.order)},
                       {"form", form_json(form.figures)},
                       {"measured", measured_json(form.proven.readings())},
                       {"mesh", mesh_json(form.proven)},
                       {"proof", proof_json(form.proven.verdict())},
                       {"vents", {{"count", form.vents.count}, {"open_area_mm2", mm3(form.vents.open_area)}}},
                       {"material", material_json(form.material)},
                       {"parts", Json::parse(parts_json(form, files))},
                       {"print", Json::parse(print_json(form))},
                       {"release", Json::parse(release_json(form))},
                       {"stack", Json::parse(stack_json(form))},
                       {"mill", Json::parse(mill_json(form, files))},
                       {"heat", Json::parse(heat_json(form.pressed))},
                       {"steam", Json::parse(steam_json(form.pressed))},
                       {"stiffness", Json::parse(stiffness_json(form.pressed))},
                       {"pattern", Json::parse(pattern_json(form))},
                       {"fit", Json::parse(fit_json(form))},
                       {"warnings", form.warnings},
                       {"files", files}};
  return report.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace crownwright::report
