#include "report/press_text.h"

#include "base/length.h"

namespace crownwright::report {
namespace {

Tone tone_of(press::Verdict verdict) {
  switch (verdict) {
    case press::Verdict::fit:
      return Tone::good;
    case press::Verdict::risk:
      return Tone::mind;
    case press::Verdict::no:
      break;
  }
  return Tone::bad;
}

std::string verdict_sentence(press::Verdict verdict) {
  switch (verdict) {
    case press::Verdict::fit:
      return "stands it";
    case press::Verdict::risk:
      return "a risk";
    case press::Verdict::no:
      break;
  }
  return "does not stand it";
}

}  // namespace

void add_pressed(Page& page, const making::Pressed& pressed) {
  const press::HeatVerdict& heat = pressed.heat;
  page.line("Heat", verdict_sentence(heat.verdict) + ": " + heat.reason, tone_of(heat.verdict));
  if (pressed.asked) {
    for (const std::string& caution : heat.cautions) page.line("", caution);
  }
  if (pressed.steam.speed) {
    page.line("Steam", number_text(*pressed.steam.speed) + " m/s through the vents, " +
                           number_text(*pressed.steam.pressure, 1) +
                           " Pa: " + (pressed.steam.enough ? "it gets away" : "it does not get away well"));
  }
  if (pressed.stiffness) {
    page.line("Press", "the crown gives way by " + number_text(pressed.stiffness->deflection) + " mm at " +
                           number_text(*pressed.stiffness_celsius, 0) + " C");
  }
}

}  // namespace crownwright::report
