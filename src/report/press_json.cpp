#include "report/press_json.h"

#include <nlohmann/json.hpp>

#include "report/json_number.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

Json figure(const std::optional<double>& value, int decimals) {
  return value ? Json(rounded(*value, decimals)) : Json(nullptr);
}

const char* grade_word(press::StiffnessGrade grade) {
  switch (grade) {
    case press::StiffnessGrade::good:
      return "good";
    case press::StiffnessGrade::note:
      return "note";
    case press::StiffnessGrade::weak:
      break;
  }
  return "weak";
}

Json posts_json(const std::optional<press::PostPlan>& posts) {
  if (!posts) return nullptr;
  return {{"on_ring", posts->on_ring},
          {"ring_radius_mm", rounded(posts->ring_radius, 1)},
          {"in_middle", posts->in_middle},
          {"deflection_mm", rounded(posts->deflection, 3)}};
}

constexpr char stiffness_formula[] =
    "w = (wp^-2 + ws^-2)^-1/2; wp = P/(64 pi D) (4 a^2 - 4 c^2 ln(a/c) - 3 c^2), clamped plate (Roark); "
    "ws = P R sqrt(3 (1 - nu^2))/(4 E t^2), shallow sphere (Reissner)";

}  // namespace

std::string heat_json(const making::Pressed& pressed) {
  const press::HeatVerdict& heat = pressed.heat;
  const auto& limit = heat.limit;
  const Json json = {{"verdict", press::to_text(heat.verdict)},
                     {"asked", pressed.asked},
                     {"material", pressed.material},
                     {"job_c", rounded(heat.job.celsius, 1)},
                     {"standing_c", rounded(heat.job.standing, 1)},
                     {"limit_c", limit ? Json(rounded(limit->celsius, 1)) : Json(nullptr)},
                     {"limit_measure", limit ? Json(limit->measure) : Json(nullptr)},
                     {"limit_source", limit ? Json(limit->source) : Json(nullptr)},
                     {"reason", heat.reason},
                     {"instead", pressed.instead},
                     {"cautions", heat.cautions}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string steam_json(const making::Pressed& pressed) {
  const press::SteamAnswer& steam = pressed.steam;
  const Json json = {{"speed_m_s", figure(steam.speed, 3)},
                     {"pressure_pa", figure(steam.pressure, 3)},
                     {"enough", steam.enough},
                     {"warnings", steam.warnings}};
  return json.dump();
}

std::string stiffness_json(const making::Pressed& pressed) {
  if (!pressed.stiffness) return "null";
  const press::StiffnessAnswer& answer = *pressed.stiffness;
  const Json json = {
      {"deflection_mm", rounded(answer.deflection, 3)},     {"formula", stiffness_formula},
      {"at_c", figure(pressed.stiffness_celsius, 1)},       {"grade", grade_word(answer.grade)},
      {"plate_radius_mm", rounded(answer.plate_radius, 1)}, {"least_wall_mm", figure(answer.least_wall, 2)},
      {"least_dome_mm", figure(answer.least_dome, 2)},      {"posts", posts_json(answer.posts)}};
  return json.dump();
}

}  // namespace crownwright::report
