#pragma once
// Ties a key of the table to a member of the Order. A part of an order (struct Vents, struct Form, ...) is
// either always there or optional; an optional part comes into being with the first of its keys.

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "order/keys.h"

namespace crownwright::order::binding {

// ---- one member as a KeyValue and back -------------------------------------------------------

template <class T>
void assign(T& member, const KeyValue& value) {
  member = std::get<T>(value);
}
template <class T>
void assign(std::optional<T>& member, const KeyValue& value) {
  member = std::get<T>(value);
}

template <class T>
std::optional<KeyValue> fetch(const T& member) {
  return KeyValue(member);
}
template <class T>
std::optional<KeyValue> fetch(const std::optional<T>& member) {
  if (!member) return std::nullopt;
  return KeyValue(*member);
}
/// An empty text or list means "not written".
inline std::optional<KeyValue> fetch(const std::string& member) {
  if (member.empty()) return std::nullopt;
  return KeyValue(member);
}
template <class Item>
std::optional<KeyValue> fetch(const std::vector<Item>& member) {
  if (member.empty()) return std::nullopt;
  return KeyValue(member);
}

// ---- parts -----------------------------------------------------------------------------------

template <class Part>
Part& part_of(Order& order, Part Order::*part) {
  return order.*part;
}
template <class Part>
Part& part_of(Order& order, std::optional<Part> Order::*part) {
  if (!(order.*part)) (order.*part).emplace();
  return *(order.*part);
}
template <class Part>
const Part* part_in(const Order& order, Part Order::*part) {
  return &(order.*part);
}
template <class Part>
const Part* part_in(const Order& order, std::optional<Part> Order::*part) {
  return order.*part ? &*(order.*part) : nullptr;
}

/// `held` is how the part is held in the Order: Part or std::optional<Part>.
template <class Held, class Part, class Member>
Binding member(Held Order::*held, Member Part::*which) {
  return {[=](Order& order, const KeyValue& value) { assign(part_of(order, held).*which, value); },
          [=](const Order& order) -> std::optional<KeyValue> {
            const Part* part = part_in(order, held);
            if (part == nullptr) return std::nullopt;
            return fetch(part->*which);
          }};
}

/// A member of the Order itself.
template <class Member>
Binding own(Member Order::*which) {
  return {[=](Order& order, const KeyValue& value) { assign(order.*which, value); },
          [=](const Order& order) { return fetch(order.*which); }};
}

// ---- words for enums -------------------------------------------------------------------------

inline KeyValue text(std::string_view value) { return KeyValue(std::string(value)); }

/// Precondition: `words` stand in the order of the enum, which counts from 0.
template <class Enum>
Enum from_word(const std::vector<std::string_view>& words, const std::string& word) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return static_cast<Enum>(i);
  }
  throw std::logic_error("a word that is no choice of its key: " + word);
}
template <class Enum>
std::string to_word(const std::vector<std::string_view>& words, Enum value) {
  return std::string(words.at(static_cast<std::size_t>(value)));
}

template <class Held, class Part, class Enum>
Binding word(Held Order::*held, Enum Part::*which, const std::vector<std::string_view>& words) {
  return {[=](Order& order, const KeyValue& value) {
            part_of(order, held).*which = from_word<Enum>(words, std::get<std::string>(value));
          },
          [=](const Order& order) -> std::optional<KeyValue> {
            const Part* part = part_in(order, held);
            if (part == nullptr) return std::nullopt;
            return KeyValue(to_word(words, part->*which));
          }};
}
template <class Held, class Part, class Enum>
Binding word(Held Order::*held, std::optional<Enum> Part::*which,
             const std::vector<std::string_view>& words) {
  return {[=](Order& order, const KeyValue& value) {
            part_of(order, held).*which = from_word<Enum>(words, std::get<std::string>(value));
          },
          [=](const Order& order) -> std::optional<KeyValue> {
            const Part* part = part_in(order, held);
            if (part == nullptr || !(part->*which)) return std::nullopt;
            return KeyValue(to_word(words, *(part->*which)));
          }};
}

}  // namespace crownwright::order::binding
