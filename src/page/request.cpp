#include "page/request.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>

#include "base/exact_number.h"
#include "base/length.h"
#include "base/printable.h"

namespace crownwright::page {
namespace {

Fault bad_request(const std::string& what, const std::string& allowed) {
  return order_fault("request", what, allowed);
}

// Fills our own tree while the text is read, so that bounds hold before anything has been built.
class Reader {
 public:
  using number_integer_t = nlohmann::json::number_integer_t;
  using number_unsigned_t = nlohmann::json::number_unsigned_t;
  using number_float_t = nlohmann::json::number_float_t;
  using string_t = std::string;
  using binary_t = nlohmann::json::binary_t;

  bool null() { return put({}); }
  bool boolean(bool value) {
    JsonValue one;
    one.kind = JsonKind::boolean;
    one.boolean = value;
    return put(std::move(one));
  }
  bool number_integer(number_integer_t value) { return put(number(std::to_string(value))); }
  bool number_unsigned(number_unsigned_t value) { return put(number(std::to_string(value))); }
  bool number_float(number_float_t, const string_t& written) { return put(number(written)); }
  bool string(string_t& text) {
    JsonValue one;
    one.kind = JsonKind::text;
    one.text = std::move(text);
    return put(std::move(one));
  }
  bool binary(binary_t&) { return false; }

  bool start_object(std::size_t) { return open(JsonKind::object); }
  bool start_array(std::size_t) { return open(JsonKind::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool key(string_t& name) {
    const auto& fields = open_.back()->fields;
    if (std::any_of(fields.begin(), fields.end(), [&](const auto& field) { return field.first == name; })) {
      return refuse(crownwright::quoted(name) + " stands twice in one object", "each name once");
    }
    if (fields.size() >= most_fields)
      return refuse("an object has more than " + count_text(most_fields) + " fields", "fewer");
    open_.back()->fields.emplace_back(std::move(name), JsonValue());
    return true;
  }
  template <class Error>
  bool parse_error(std::size_t position, const std::string&, const Error& error) {
    const bool is_number = error.id == 406;  // out of range, as 1e999
    return refuse(is_number ? std::string("a number is too large to work with")
                            : "this is not JSON from byte " + count_text(position) + " on",
                  "JSON in UTF-8, as the page sends it");
  }

  JsonValue root;
  std::optional<Fault> fault;

 private:
  static constexpr std::size_t most_fields = 1000;
  static constexpr std::size_t most_items = 10000;

  static JsonValue number(std::string written) {
    JsonValue one;
    one.kind = JsonKind::number;
    one.text = std::move(written);
    return one;
  }

  bool refuse(std::string what, std::string allowed) {
    if (!fault) fault = bad_request(std::move(what), std::move(allowed));
    return false;
  }

  // Where the next value belongs; nothing when the list is full.
  JsonValue* place() {
    if (open_.empty()) return &root;
    JsonValue& around = *open_.back();
    if (around.kind == JsonKind::object) return &around.fields.back().second;
    if (around.items.size() >= most_items) return nullptr;
    return &around.items.emplace_back();
  }

  bool put(JsonValue value) {
    JsonValue* at = place();
    if (at == nullptr) return refuse("a list has more than " + count_text(most_items) + " items", "fewer");
    *at = std::move(value);
    return true;
  }

  bool open(JsonKind kind) {
    if (open_.size() >= deepest_request)
      return refuse("objects and lists lie too deep within one another", "at most 8 deep");
    JsonValue* at = place();
    if (at == nullptr) return refuse("a list has more than " + count_text(most_items) + " items", "fewer");
    at->kind = kind;
    open_.push_back(at);
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  std::vector<JsonValue*> open_;  ///< a value stays where it is while values within it are read
};

}  // namespace

const JsonValue* JsonValue::field(std::string_view name) const {
  const auto found =
      std::find_if(fields.begin(), fields.end(), [&](const auto& field) { return field.first == name; });
  return found == fields.end() ? nullptr : &found->second;
}

std::string in_words(JsonKind kind) {
  switch (kind) {
    case JsonKind::nothing:
      return "null";
    case JsonKind::boolean:
      return "true or false";
    case JsonKind::number:
      return "a number";
    case JsonKind::text:
      return "a text";
    case JsonKind::list:
      return "a list";
    case JsonKind::object:
      return "an object";
  }
  return {};
}

Result<JsonValue> read_request(std::string_view text) {
  if (text.size() > most_request_bytes)
    return bad_request("the request is too long", "at most 4 000 000 bytes");
  if (!is_utf8(text)) return bad_request("a byte that is not UTF-8", "JSON in UTF-8");
  Reader reader;
  const bool read = nlohmann::json::sax_parse(text.begin(), text.end(), &reader);
  if (reader.fault) return *reader.fault;
  if (!read) return bad_request("this is not JSON", "JSON in UTF-8, as the page sends it");
  if (reader.root.kind != JsonKind::object)
    return bad_request(in_words(reader.root.kind) + " stands where an object belongs", "{\"order\": {...}}");
  return std::move(reader.root);
}

}  // namespace crownwright::page
