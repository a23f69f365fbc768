#include "report/mill_text.h"

#include <nlohmann/json.hpp>

#include "base/length.h"
#include "report/json_number.h"
#include "report/length_words.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

std::string fine_mm(double value) { return number_text(value, 3) + " mm"; }

std::string minutes_words(double minutes) {
  if (minutes < 90) return number_text(minutes, 0) + " minutes";
  return number_text(minutes / 60, 1) + " hours";
}

std::string lies_words(const milling::Setup& setup) {
  return setup.flipped ? "upside down, wide face down" : "as it stands, wide face down";
}

void add_stock(Page& page, const making::Milled& milled) {
  const milling::StockPlan& stock = milled.plan.stock;
  std::string words = counted(stock.sheets, "piece", "pieces") + " of " + milled.job.material + ", " +
                      length_words(stock.side_x) + " by " + length_words(stock.side_y) + ", " +
                      length_words(stock.sheet) + " thick";
  if (stock.layers > 1) words += ", glued into one lump first";
  page.line("Mill", words);
  if (!stock.dowels.empty())
    page.line("", counted(static_cast<long long>(stock.dowels.size()), "dowel", "dowels") + " of " +
                      length_words(stock.dowel) + " through the tiers, " + length_words(stock.dowel_length) +
                      " long");
}

void add_setups(Page& page, const making::Milled& milled) {
  for (const making::MilledSetup& made : milled.setups) {
    std::string words = made.setup.name.empty() ? "In one set-up" : made.setup.name;
    words += ", " + lies_words(made.setup) + ":";
    for (const making::MilledProgram& program : made.programs)
      words += std::string(&program == &made.programs.front() ? " " : ", ") +
               making::pass_word(program.pass) + " with a " + program.tool + " " +
               minutes_words(program.duration.seconds / 60);
    page.line("", words);
  }
}

void add_unreached(Page& page, const making::Milled& milled) {
  for (const milling::Unreached& place : milled.plan.unreached)
    page.line("", "Left for the hand: " + place.what + ", " + fine_mm(place.rest) + " at a radius of " +
                      length_words(place.r) + ", " + length_words(place.z) + " above the foot");
}

Tone trial_tone(const making::Trial& trial) { return trial.broken.empty() ? Tone::good : Tone::bad; }

void add_findings(Page& page, const making::Trial& trial) {
  const simulation::Findings& found = trial.findings;
  page.line("Cut", "deepest into the form " + fine_mm(found.gouge_max) + ", most left standing " +
                       fine_mm(found.rest_max) + " (99.9 % below " + fine_mm(found.rest_999) + ")" +
                       (trial.finished ? "" : ", not judged: no finishing program"));
  page.line("Rapids", found.rapids_in_stock == 0
                          ? std::string("all in the air")
                          : counted(found.rapids_in_stock, "rapid", "rapids") + " in the stock");
  page.line("Reach", "holder " +
                         (found.holder_contact > 0 ? fine_mm(found.holder_contact) + " into the stock"
                                                   : std::string("clear")) +
                         ", above the flute " + fine_mm(found.above_flute) + ", deepest plunge " +
                         fine_mm(found.deepest_plunge));
  page.line("Extent", number_text(found.high[0] - found.low[0]) + " x " +
                          number_text(found.high[1] - found.low[1]) + " x " +
                          number_text(found.high[2] - found.low[2]) + " mm, lowest tip " +
                          number_text(found.low[2]) + " mm");
  page.line("Way", number_text(found.cutting_mm / 1000, 1) + " m cutting, " +
                       number_text(found.air_mm / 1000, 1) + " m in the air");
  for (const simulation::Spot& spot : found.unreached)
    page.line("Unreached", fine_mm(spot.mm) + " at a radius of " + number_text(spot.r) + " mm, " +
                               number_text(spot.z) + " mm above the piece's lower face");
}

Json spot_json(const simulation::Spot& spot) {
  return {rounded(spot.r, kLengthDecimals), rounded(spot.z, kLengthDecimals)};
}

Json three(const double (&values)[3]) {
  return {rounded(values[0], kLengthDecimals), rounded(values[1], kLengthDecimals),
          rounded(values[2], kLengthDecimals)};
}

Json spots_json(const std::vector<simulation::Spot>& spots) {
  Json list = Json::array();
  for (const simulation::Spot& spot : spots)
    list.push_back({{"r", rounded(spot.r, kLengthDecimals)},
                    {"z", rounded(spot.z, kLengthDecimals)},
                    {"mm", rounded(spot.mm, kLengthDecimals)}});
  return list;
}

}  // namespace

void add_mill(Page& page, const making::Form& form) {
  if (!form.milled) return;
  const making::Milled& milled = *form.milled;
  add_stock(page, milled);
  add_setups(page, milled);
  page.line("", "In all " + minutes_words(milled.minutes) + " of cutting, " +
                    number_text(milled.path_mm / 1000, 0) + " m of path, " +
                    number_text(milled.air_mm / 1000, 0) + " m of it in the air");
  page.line("Trial cut",
            "sampled every " + number_text(form.order.mill->cell.mm()) + " mm: deepest into the form " +
                fine_mm(milled.gouge_max) + ", most left standing " + fine_mm(milled.rest_max) +
                ", no rapid in the stock",
            Tone::good);
  add_unreached(page, milled);
  for (const std::string& caution : making::mill_cautions()) page.line("", caution);
}

std::string trial_text(const making::Trial& trial, Paint paint) {
  Page page(paint);
  page.heading("Trial cut of set-up " + trial.setup);
  for (std::size_t i = 0; i < trial.files.size(); ++i)
    page.whole(i == 0 ? "Programs" : "", trial.files[i] + " (" + trial.tools[i] + ")");
  add_findings(page, trial);
  page.line("Sampled",
            "every " + number_text(trial.findings.cell) + " mm: between two samples nothing is looked at");
  page.line("Limits", trial.broken.empty() ? "all kept" : trial.broken.front(), trial_tone(trial));
  for (std::size_t i = 1; i < trial.broken.size(); ++i) page.line("", trial.broken[i]);
  return page.text();
}

std::string trial_json(const making::Trial& trial) {
  const simulation::Findings& found = trial.findings;
  const Json json = {{"setup", trial.setup},
                     {"files", trial.files},
                     {"tools", trial.tools},
                     {"cell_mm", rounded(found.cell, kLengthDecimals)},
                     {"sampled", true},
                     {"gouge_max_mm", rounded(found.gouge_max, kLengthDecimals)},
                     {"gouge_at_mm", spot_json(found.gouge_at)},
                     {"rest_max_mm", rounded(found.rest_max, kLengthDecimals)},
                     {"rest_999_mm", rounded(found.rest_999, kLengthDecimals)},
                     {"rest_at_mm", spot_json(found.rest_at)},
                     {"rest_judged", trial.finished},
                     {"unreached", spots_json(found.unreached)},
                     {"rapids_in_stock", found.rapids_in_stock},
                     {"holder_contact_mm", rounded(found.holder_contact, kLengthDecimals)},
                     {"above_flute_mm", rounded(found.above_flute, kLengthDecimals)},
                     {"deepest_plunge_mm", rounded(found.deepest_plunge, kLengthDecimals)},
                     {"bore_strays_mm", rounded(found.bore_strays, kLengthDecimals)},
                     {"low_mm", three(found.low)},
                     {"high_mm", three(found.high)},
                     {"cutting_mm", rounded(found.cutting_mm, 1)},
                     {"air_mm", rounded(found.air_mm, 1)},
                     {"within_limits", trial.broken.empty()},
                     {"out_of_limits", trial.broken}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace crownwright::report
