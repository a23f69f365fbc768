#include "page/json_text.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/length.h"

namespace crownwright::page {

std::string json_text(const std::string& text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string json_object(const JsonFields& fields) {
  std::string text = "{";
  for (const auto& [name, value] : fields) {
    if (text.size() > 1) text += ',';
    text += json_text(name);
    text += ':';
    text += value;
  }
  return text + "}";
}

std::string json_list(const std::vector<std::string>& items) {
  std::string text = "[";
  for (const std::string& item : items) {
    if (text.size() > 1) text += ',';
    text += item;
  }
  return text + "]";
}

std::string json_texts(const std::vector<std::string>& texts) {
  std::vector<std::string> items;
  for (const std::string& text : texts) items.push_back(json_text(text));
  return json_list(items);
}

std::string json_number(double value, int decimals) {
  return std::isfinite(value) ? number_text(value, decimals) : std::string("null");
}

std::string json_of(const JsonValue& value) {
  switch (value.kind) {
    case JsonKind::nothing:
      return "null";
    case JsonKind::boolean:
      return value.boolean ? "true" : "false";
    case JsonKind::number:
      return value.text;
    case JsonKind::text:
      return json_text(value.text);
    case JsonKind::list: {
      std::vector<std::string> items;
      for (const JsonValue& item : value.items) items.push_back(json_of(item));
      return json_list(items);
    }
    case JsonKind::object: {
      JsonFields fields;
      for (const auto& [name, field] : value.fields) fields.emplace_back(name, json_of(field));
      return json_object(fields);
    }
  }
  return "null";
}

std::string fault_json(const Fault& fault) {
  const std::string said = json_object({{"exit", std::to_string(static_cast<int>(fault.exit))},
                                        {"where", json_text(fault.where)},
                                        {"what", json_text(fault.what)},
                                        {"allowed", json_text(fault.allowed)}});
  return json_object({{"ok", "false"}, {"fault", said}}) + "\n";
}

}  // namespace crownwright::page
