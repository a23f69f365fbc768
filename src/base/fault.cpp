#include "base/fault.h"

#include "base/printable.h"

namespace crownwright {

std::string Fault::line() const {
  std::string text;
  if (!where.empty()) text += where + ": ";
  text += what;
  if (!allowed.empty()) text += "; " + allowed;
  return printable(text);
}

Fault Fault::within(const std::string& context) const {
  Fault outer = *this;
  outer.where = where.empty() ? context : context + ": " + where;
  return outer;
}

Fault order_fault(std::string where, std::string what, std::string allowed) {
  return {ExitCode::order, std::move(where), std::move(what), std::move(allowed)};
}

Fault impossible_fault(std::string what, std::string nearest) {
  return {ExitCode::impossible, {}, std::move(what), std::move(nearest)};
}

Fault file_fault(std::string where, std::string what, std::string allowed) {
  return {ExitCode::file, std::move(where), std::move(what), std::move(allowed)};
}

}  // namespace crownwright
