#include "press/steam.h"

#include <cmath>
#include <stdexcept>

#include "base/length.h"

namespace crownwright::press {
namespace {

double cubic_metres_a_second(double grams_a_minute) {
  return grams_a_minute / 1000 / 60 * steam_specific_volume;
}

double pressure_drop(double speed) {
  const double jet = speed / orifice_coefficient;
  return jet * jet / (2 * steam_specific_volume);
}

}  // namespace

double least_open_area(double flow) {
  const double speed = orifice_coefficient * std::sqrt(2 * steam_specific_volume * most_pressure);
  return cubic_metres_a_second(flow) / speed * 1e6;
}

SteamAnswer judge_steam(const SteamQuestion& question) {
  if (!(question.flow > 0) || !(question.open_area >= 0)) throw std::logic_error("no such flow of steam");
  SteamAnswer answer;
  if (question.open_area > 0) {
    answer.speed = cubic_metres_a_second(question.flow) / (question.open_area * 1e-6);
    answer.pressure = pressure_drop(*answer.speed);
  }
  const bool wide = answer.pressure && *answer.pressure <= most_pressure;
  if (!wide) {
    answer.warnings.push_back(
        (answer.pressure ? "the vents are too few for this steam: " + number_text(*answer.pressure, 1) +
                               " Pa would lift the cloth; "
                         : std::string("there are no vents for the steam; ")) +
        "an open area of " + number_text(std::ceil(least_open_area(question.flow)), 0) + " mm2 lets it pass");
  }
  if (!question.foot_open) {
    answer.warnings.push_back("the foot is closed: steam that enters the vents has no way out");
  }
  answer.enough = wide && question.foot_open;
  return answer;
}

}  // namespace crownwright::press
