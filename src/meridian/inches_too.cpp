#include "meridian/inches_too.h"

#include <utility>

namespace crownwright::meridian {
namespace {

thread_local bool inches_too_wanted = false;

}  // namespace

InchesToo::InchesToo(bool wanted) : before_(std::exchange(inches_too_wanted, wanted)) {}

InchesToo::~InchesToo() { inches_too_wanted = before_; }

bool InchesToo::are_wanted() { return inches_too_wanted; }

}  // namespace crownwright::meridian
