#include "report/mill_json.h"

#include <nlohmann/json.hpp>

#include "report/json_number.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

double mill_mm(double value) { return rounded(value, kLengthDecimals); }

Json file_with(const std::vector<std::string>& files, const std::string& ending) {
  for (const std::string& file : files)
    if (file.ends_with(ending)) return file;
  return nullptr;
}

Json programs_json(const making::MilledSetup& made, const std::vector<std::string>& files) {
  Json programs = Json::array();
  for (const making::MilledProgram& program : made.programs)
    programs.push_back({{"file", file_with(files, program.ending)},
                        {"pass", making::pass_word(program.pass)},
                        {"tool", program.tool},
                        {"minutes", rounded(program.duration.seconds / 60, 2)}});
  return programs;
}

Json names_of(const Json& programs) {
  Json names = Json::array();
  for (const Json& program : programs)
    if (program["file"].is_string()) names.push_back(program["file"]);
  return names;
}

Json setup_json(const making::MilledSetup& made, const making::Milled& milled,
                const std::vector<std::string>& files) {
  const milling::Box& box = made.setup.stock;
  const simulation::Findings& found = made.findings;
  const Json programs = programs_json(made, files);
  return {{"name", making::setup_name(made.setup)},
          {"files", names_of(programs)},
          {"tool", making::tool_words(milled.job, making::Pass::finish)},
          {"programs", programs},
          {"stock_min_mm", {mill_mm(box.x0), mill_mm(box.y0), mill_mm(box.z0)}},
          {"stock_max_mm", {mill_mm(box.x1), mill_mm(box.y1), mill_mm(box.z1)}},
          {"face_down_z_mm", mill_mm(made.setup.face_down_z)},
          {"flipped", made.setup.flipped},
          {"extent_mm",
           {mill_mm(found.high[0] - found.low[0]), mill_mm(found.high[1] - found.low[1]),
            mill_mm(found.high[2] - found.low[2])}},
          {"lowest_mm", mill_mm(found.low[2])},
          {"minutes", rounded(made.minutes(), 2)}};
}

Json setups_json(const making::Milled& milled, const std::vector<std::string>& files) {
  Json setups = Json::array();
  for (const making::MilledSetup& made : milled.setups) setups.push_back(setup_json(made, milled, files));
  return setups;
}

Json glue_json(const milling::StockPlan& stock) {
  Json lines = Json::array();
  for (const milling::GlueLine& line : stock.glue_lines)
    lines.push_back({{"z", mill_mm(line.z)}, {"r", mill_mm(line.r)}, {"cutter_meets", line.cutter_meets}});
  return lines;
}

Json unreached_json(const milling::Plan& plan) {
  Json places = Json::array();
  for (const milling::Unreached& place : plan.unreached)
    places.push_back({{"r", mill_mm(place.r)},
                      {"z", mill_mm(place.z)},
                      {"mm", mill_mm(place.rest)},
                      {"what", place.what}});
  return places;
}

}  // namespace

std::string mill_json(const making::Form& form, const std::vector<std::string>& files) {
  if (!form.milled) return "null";
  const making::Milled& milled = *form.milled;
  const milling::StockPlan& stock = milled.plan.stock;
  const Json json = {{"gouge_max_mm", mill_mm(milled.gouge_max)},
                     {"scallop_max_mm", mill_mm(milled.rest_max)},
                     {"scallop_999_mm", mill_mm(milled.rest_999)},
                     {"rapids_in_stock", milled.rapids_in_stock},
                     {"cell_mm", mill_mm(form.order.mill->cell.mm())},
                     {"sampled", true},
                     {"minutes", rounded(milled.minutes, 2)},
                     {"material", milled.job.material},
                     {"sheets", stock.sheets},
                     {"sheet_mm", mill_mm(stock.sheet)},
                     {"sheet_size_mm", {mill_mm(stock.side_x), mill_mm(stock.side_y)}},
                     {"layers", stock.layers},
                     {"dowel_mm", mill_mm(stock.dowel)},
                     {"dowels", stock.dowels.size()},
                     {"vents_drilled", milled.plan.vents.drilled},
                     {"vents_by_hand", milled.plan.vents.by_hand},
                     {"setups", setups_json(milled, files)},
                     {"glue_lines", glue_json(stock)},
                     {"unreached", unreached_json(milled.plan)},
                     {"path_mm", rounded(milled.path_mm, 1)},
                     {"air_mm", rounded(milled.air_mm, 1)},
                     {"cautions", making::mill_cautions()}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace crownwright::report
