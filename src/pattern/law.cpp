#include "pattern/law.h"

namespace crownwright::pattern {

double seam_share(LengthAlong along) {
  switch (along) {
    case LengthAlong::seam:
      return 1;
    case LengthAlong::centre:
      return 0;
    case LengthAlong::shared:
      break;
  }
  return 0.5;
}

}  // namespace crownwright::pattern
