#pragma once
// A value or the fault that stood in its way. C++20 has no std::expected.

#include <stdexcept>
#include <utility>
#include <variant>

#include "base/fault.h"

namespace crownwright {

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Fault fault) : state_(std::in_place_index<1>, std::move(fault)) {}

  bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  /// Precondition: ok().
  const T& value() const& { return checked(), std::get<0>(state_); }
  T& value() & { return checked(), std::get<0>(state_); }
  T&& value() && { return checked(), std::get<0>(std::move(state_)); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  /// Precondition: !ok().
  const Fault& fault() const {
    if (ok()) throw std::logic_error("a Result that holds a value was asked for its fault");
    return std::get<1>(state_);
  }

 private:
  void checked() const {
    if (!ok()) throw std::logic_error("a Result that holds a fault was read: " + fault().line());
  }
  std::variant<T, Fault> state_;
};

/// For steps that either succeed or not.
struct Done {};

}  // namespace crownwright
