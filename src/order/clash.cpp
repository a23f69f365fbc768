#include "order/clash.h"

#include <algorithm>

namespace crownwright::order {

MaybeClash both_written(const WholeOrder& w, std::string_view first, std::string_view second,
                        const std::string& allowed) {
  const Written* a = w.find(first);
  const Written* b = w.find(second);
  if (a == nullptr || b == nullptr) return std::nullopt;
  const bool a_is_later =
      b->place.line < a->place.line || (b->place.line == a->place.line && b->place.column < a->place.column);
  const Written* later = a_is_later ? a : b;
  const Written* earlier = a_is_later ? b : a;
  return Clash{later, later->key->path() + " stands beside " + earlier->key->path(), allowed};
}

MaybeClash needs_other(const WholeOrder& w, std::string_view key, std::string_view other) {
  const Written* at = w.find(key);
  if (at == nullptr || w.has(other)) return std::nullopt;
  const Key& needed = *find_key(other);
  return Clash{at, std::string(key) + " needs " + std::string(other) + " beside it",
               "add " + std::string(needed.name) + " = " + std::string(needed.example)};
}

const Written* first_of_table(const WholeOrder& w, std::string_view table) {
  const auto first = std::find_if(w.written.begin(), w.written.end(),
                                  [&](const Written& one) { return one.key->table == table; });
  return first == w.written.end() ? nullptr : &*first;
}

std::optional<Fault> missing(const WholeOrder& w, std::string_view path, const std::string& or_else) {
  if (w.has(path)) return std::nullopt;
  const Key& key = *find_key(path);
  return order_fault(w.name + ": " + key.path(), "this key is missing",
                     "write " + std::string(key.name) + " = " + std::string(key.example) + " under [" +
                         std::string(key.table) + "]" + or_else);
}

}  // namespace crownwright::order
