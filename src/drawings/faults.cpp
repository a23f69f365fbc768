#include "drawings/faults.h"

#include "base/length.h"
#include "base/nearest_name.h"

namespace crownwright::drawings {

std::string quoted(std::string_view text, std::size_t most) {
  std::string out(1, '"');
  out.append(text.substr(0, most));
  if (text.size() > most) out += "...";
  return out += '"';
}

Fault trouble_fault(const std::string& where, Trouble trouble) {
  switch (trouble) {
    case Trouble::not_finite:
      return order_fault(where, "a number is not finite", "ordinary numbers");
    case Trouble::too_far:
      return order_fault(where, "a place lies more than a kilometre from the drawing's origin",
                         "a drawing of one panel at true size");
    default:
      return order_fault(
          where, "the drawing has too many points",
          "at most " + std::to_string(most_points) + ", curves counted within their tolerance");
  }
}

Fault unknown_layer(const std::string& where, const std::string& layer, const std::vector<std::string>& names,
                    const std::string& kind) {
  constexpr std::size_t most_shown = 12;
  std::string allowed = names.empty() ? "the drawing names none" : "there are ";
  for (std::size_t i = 0; i < names.size() && i < most_shown; ++i) {
    allowed.append(i > 0 ? ", " : "").append(quoted(names[i]));
  }
  if (names.size() > most_shown) allowed += " and " + std::to_string(names.size() - most_shown) + " more";
  if (const auto near = nearest_name(layer, names)) {
    allowed = "did you mean " + quoted(*near) + "? " + allowed;
  }
  return order_fault(where, "there is no " + kind + " " + quoted(layer) + " in the drawing", allowed);
}

}  // namespace crownwright::drawings
