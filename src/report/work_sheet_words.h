#pragma once
// What a work sheet says: lengths in the order's units, the steps of pressing, and chapters on making, taking
// apart, fit, vents. Every figure is the form's.

#include <string>
#include <vector>

#include "drawings/work_sheet.h"
#include "making/form.h"

namespace crownwright::report {

/// Lengths of a form whose order is written in centimetres and millimetres, or in inches.
class SheetUnits {
 public:
  explicit SheetUnits(bool inches) : inches_(inches) {}
  bool inches() const { return inches_; }
  /// "57.0 cm", "4.0 mm" under 2 cm; "22 7/16 in", "5/32 in".
  std::string own(double mm) const;
  /// The same length in the other units.
  std::string other(double mm) const;
  /// "57.0 cm (22 7/16 in)", "22 7/16 in (57.0 cm)".
  std::string both(double mm) const;

 private:
  bool inches_;
};

/// Dampen, put on, press cloth, heat, hold, cool, take off: in this order.
std::vector<drawings::SheetLineOfWords> press_steps(const making::Form& form, const SheetUnits& units);

/// The strain at the worst place, as the report says it.
std::string fit_reason(const making::CrownFit& crown, const SheetUnits& units);

/// Making, taking apart, warnings, fit, vents, parts: the most important first. Without those that have
/// nothing to say.
std::vector<drawings::SheetChapter> sheet_chapters(const making::Form& form, const SheetUnits& units);

/// What to mind with every form, then what goes with the way this one is made.
std::vector<std::string> sheet_cautions(const making::Form& form);

}  // namespace crownwright::report
