#include "report/fit_json.h"

#include <nlohmann/json.hpp>
#include <numbers>

#include "report/json_number.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kStrainDecimals = 6;

double length(double value) { return rounded(value, kLengthDecimals); }
double strain(double value) { return rounded(value, kStrainDecimals); }

const char* word(fit::Strain which) {
  switch (which) {
    case fit::Strain::hoop:
      return "hoop";
    case fit::Strain::seam:
      return "seam";
    case fit::Strain::centre:
      return "centre";
  }
  return "";
}

// ---- the crown -------------------------------------------------------------------------------

Json station_json(const fit::FitStation& one) {
  return {{"s", length(one.s)},
          {"girth_form", length(2 * std::numbers::pi * one.r_form)},
          {"girth_cloth", length(2 * std::numbers::pi * one.r_cloth)},
          {"hoop", strain(one.hoop)},
          {"hoop_mean", strain(one.hoop_mean)},
          {"seam", strain(one.seam)},
          {"seam_mean", strain(one.seam_mean)},
          {"centre", strain(one.centre)},
          {"centre_mean", strain(one.centre_mean)}};
}

Json change_json(const fit::Change& change) {
  const bool is_law = change.what == "length along";
  return {
      {"change", change.what},
      {"from", is_law
                   ? Json(pattern::in_words(static_cast<pattern::LengthAlong>(static_cast<int>(change.from))))
                   : Json(length(change.from))},
      {"to", is_law ? Json(pattern::in_words(static_cast<pattern::LengthAlong>(static_cast<int>(change.to))))
                    : Json(length(change.to))},
      {"says", change.says},
      {"verdict", fit::in_words(change.verdict)},
      {"new_pattern", change.new_pattern}};
}

Json worst_json(const fit::Worst& worst) {
  return {{"strain", word(worst.strain)},
          {"at_mm", length(worst.at)},
          {"value", strain(worst.value)},
          {"limit", strain(worst.limit)}};
}

Json limits_json(const fit::ClothLimits& limits) {
  return {{"stretch", strain(limits.stretch)},
          {"ease", strain(limits.ease)},
          {"heat_shrink", strain(limits.heat_shrink)}};
}

void add_crown(Json& json, const making::CrownFit& crown) {
  const fit::FitReport& report = crown.report;
  json["verdict"] = fit::in_words(report.verdict);
  json["hoop_strain_max"] = strain(report.hoop_max);
  json["hoop_strain_min"] = strain(report.hoop_min);
  json["length_strain_seam"] = strain(report.seam_length);
  json["length_strain_centre"] = strain(report.centre_length);
  json["worst_at_mm"] = length(report.worst.at);
  json["worst"] = worst_json(report.worst);
  json["drafted"] = crown.drafted;
  json["limits"] = limits_json(crown.limits);
  json["stations"] = Json::array();
  for (const fit::FitStation& one : report.stations) json["stations"].push_back(station_json(one));
  json["work_here_mm"] = Json::array();
  for (const double at : report.work_here) json["work_here_mm"].push_back(length(at));
  json["nearest"] = crown.nearest.empty() ? Json(nullptr) : change_json(crown.nearest.front());
  json["also"] = Json::array();
  for (std::size_t i = 1; i < crown.nearest.size(); ++i)
    json["also"].push_back(change_json(crown.nearest[i]));
}

// Every key is there whether or not the crown could be judged.
void add_no_crown(Json& json) {
  for (const char* key : {"verdict", "hoop_strain_max", "hoop_strain_min", "length_strain_seam",
                          "length_strain_centre", "worst_at_mm", "worst", "drafted", "limits"})
    json[key] = nullptr;
  json["stations"] = Json::array();
  json["work_here_mm"] = Json::array();
  json["nearest"] = nullptr;
  json["also"] = Json::array();
}

Json opening_json(const making::FormFit& fit) {
  const fit::Opening& opening = fit.opening;
  Json json = {{"girth", length(opening.girth)},
               {"needed_straight", length(opening.needed.straight)},
               {"needed_edge_first", length(opening.needed.edge_first)},
               {"stretch_needed", strain(opening.stretch_needed)},
               {"passes", opening.passes},
               {"stretch_needed_with_band", nullptr},
               {"passes_with_band", nullptr},
               {"within_head_girth", nullptr}};
  if (opening.band_stretch_needed) json["stretch_needed_with_band"] = strain(*opening.band_stretch_needed);
  if (opening.passes_with_band) json["passes_with_band"] = *opening.passes_with_band;
  if (fit.opening_within_head) json["within_head_girth"] = *fit.opening_within_head;
  return json;
}

// ---- the pattern -----------------------------------------------------------------------------

Json value_json(double value, double sigma) { return {{"mm", length(value)}, {"sigma", length(sigma)}}; }

Json values_json(const meridian::BeretValues& v, const pattern::Sigma& sigma) {
  return {{"crown_radius", value_json(v.a, sigma.a)},
          {"head_radius", value_json(v.b, sigma.b)},
          {"rise", value_json(v.R, sigma.R)},
          {"dome", value_json(v.t, sigma.t)},
          {"edge_radius", value_json(v.e_u, sigma.e_u)},
          {"under_edge_radius", value_json(v.e_l, sigma.e_l)}};
}

Json residuals_json(const std::vector<pattern::Residual>& residuals) {
  Json json = Json::array();
  for (const pattern::Residual& one : residuals)
    json.push_back(
        {{"down", length(one.y)}, {"half_width", length(one.drawn)}, {"off", length(one.distance)}});
  return json;
}

Json laws_json(const pattern::PanelFit& fit) {
  Json json = Json::object();
  for (const auto& by : fit.by_law) {
    if (!by) continue;
    json[pattern::in_words(by->along)] = {{"rise", length(by->rise)},
                                          {"edge_radius", length(by->edge_radius)},
                                          {"residual_rms", length(by->rms)}};
  }
  return json;
}

}  // namespace

std::string fit_json(const making::Form& form) {
  if (!form.fit) return "null";
  Json json = Json::object();
  if (form.fit->crown) {
    add_crown(json, *form.fit->crown);
  } else {
    add_no_crown(json);
  }
  json["opening"] = opening_json(*form.fit);
  return json.dump();
}

std::string pattern_json(const making::Form& form) {
  if (!form.pattern) return "null";
  const making::ReadPattern& read = *form.pattern;
  Json json = {{"of", "the cloth's middle, as drawn"},
               {"values", values_json(read.values, read.fit ? read.fit->sigma : pattern::Sigma{})},
               {"meridian_length", length(read.cloth.length())},
               {"opening_girth", length(2 * std::numbers::pi * read.cloth.r(read.cloth.length()))}};
  if (read.net) {
    json["seam_length"] = length(read.net->seam_length);
    json["centre_length"] = length(read.net->centre_length);
  }
  if (read.fit) {
    json["residual_rms"] = length(read.fit->rms);
    json["residual_worst"] = length(read.fit->worst);
    json["by_length_law"] = laws_json(*read.fit);
    json["residuals"] = residuals_json(read.fit->residuals);
  }
  return json.dump();
}

}  // namespace crownwright::report
