#pragma once
// What the form is made of as it leaves the machine. A form that comes in parts weighs and breathes as its
// parts do, not as the whole form they were cut from: joints take vents away, and walls along joints, ribs
// and flanges add to it.

#include "making/form.h"

namespace crownwright::report {

struct Matter {
  double volume = 0;     ///< mm3, of all parts together
  double mass = 0;       ///< g, filled throughout
  int vents = 0;         ///< of all parts together
  double open_area = 0;  ///< mm2, of those vents
};

Matter matter_of(const making::Form& form);

}  // namespace crownwright::report
