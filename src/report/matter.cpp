#include "report/matter.h"

namespace crownwright::report {

Matter matter_of(const making::Form& form) {
  Matter matter{form.proven.readings().volume, form.material.mass, form.vents.count, form.vents.open_area};
  if (form.printed.parts.size() < 2) return matter;
  matter.volume = matter.mass = 0;
  for (const making::PrintedPart& part : form.printed.parts) {
    matter.volume += part.figures.body.volume;
    matter.mass += part.figures.amount.massive_mass;
  }
  matter.vents = form.printed.vents;
  if (form.vents.count > 0) matter.open_area = form.vents.open_area * matter.vents / form.vents.count;
  return matter;
}

}  // namespace crownwright::report
