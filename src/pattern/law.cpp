#include "pattern/law.h"

#include <stdexcept>

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

const char* in_words(LengthAlong along) {
  switch (along) {
    case LengthAlong::seam:
      return "seam";
    case LengthAlong::centre:
      return "centre";
    case LengthAlong::shared:
      return "shared";
  }
  throw std::logic_error("a length law without words");
}

}  // namespace crownwright::pattern
