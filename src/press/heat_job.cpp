#include "press/heat_job.h"

#include <stdexcept>

#include "base/length.h"

namespace crownwright::press {
namespace {

// The contract's own figures: m2 K/W of the form's face with and without the contact to the iron, W/(m K) of
// cloth, what an iron presses cloth to, and how much of the standing rise moving work reaches.
constexpr double kFormResistance = 0.12, kFormAndContact = 0.124;
constexpr double kClothConductivity = 0.05;
constexpr double kPressedShare = 0.6;
constexpr double kMovingShare = 0.67, kMovingShareThin = 0.75;
constexpr double kThinCloth = 1.5;  // mm, pressed

double pressed_cloth(const HeatJob& job) {
  if (job.cloth < 0 || job.press_cloth < 0) throw std::logic_error("cloth thinner than nothing");
  return kPressedShare * (job.cloth + job.press_cloth);
}

JobHeat dry_heat(const HeatJob& job) {
  const double s = pressed_cloth(job);
  const double rest = kFormResistance / (kFormAndContact + s / 1000 / kClothConductivity);
  const double rise = rest * (job.iron - room_celsius);
  const double moving = s < kThinCloth ? kMovingShareThin : kMovingShare;
  return {room_celsius + moving * rise, room_celsius + rise};
}

}  // namespace

JobHeat heat_of(const HeatJob& job) {
  switch (job.kind) {
    case HeatKind::steam:
      return {steam_celsius, steam_celsius};
    case HeatKind::dry:
      return dry_heat(job);
    case HeatKind::cold:
      break;
  }
  return {cold_celsius, cold_celsius};
}

std::string in_words(const HeatJob& job) {
  switch (job.kind) {
    case HeatKind::steam:
      return "open steam, " + number_text(steam_celsius, 0) + " C";
    case HeatKind::dry:
      return "a dry iron at " + number_text(job.iron, 0) + " C through " +
             number_text(pressed_cloth(job), 1) + " mm of pressed cloth";
    case HeatKind::cold:
      break;
  }
  return "drying cold, " + number_text(cold_celsius, 0) + " C";
}

}  // namespace crownwright::press
