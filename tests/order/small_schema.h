#pragma once
// A small check of JSON values against the part of JSON Schema (draft 2020-12) that the order's schema uses.
// A keyword it does not know is reported, so that the schema cannot quietly use more.

#include <nlohmann/json.hpp>
#include <optional>
#include <regex>
#include <set>
#include <string>

namespace crownwright::test {

using Json = nlohmann::ordered_json;

class SmallSchema {
 public:
  /// What is wrong with `value`, with its path, or nothing.
  static std::optional<std::string> fault(const Json& schema, const Json& value,
                                          const std::string& path = "order") {
    if (schema.is_boolean())
      return schema.get<bool>() ? std::nullopt : std::optional(path + " is not wanted");
    for (const auto& [keyword, content] : schema.items()) {
      if (auto found = keyword_fault(schema, keyword, content, value, path)) return found;
    }
    return std::nullopt;
  }

 private:
  using Maybe = std::optional<std::string>;

  static bool is_type(const std::string& type, const Json& value) {
    if (type == "string") return value.is_string();
    if (type == "integer") return value.is_number_integer();
    if (type == "number") return value.is_number();
    if (type == "boolean") return value.is_boolean();
    if (type == "array") return value.is_array();
    return type == "object" && value.is_object();
  }

  static std::size_t characters(const std::string& text) {
    std::size_t n = 0;
    for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
    return n;
  }

  static Maybe keyword_fault(const Json& schema, const std::string& keyword, const Json& content,
                             const Json& value, const std::string& path) {
    static const std::set<std::string> notes = {"$schema", "title", "description", "default", "then", "else"};
    const auto wrong = [&](bool is_wrong) {
      return is_wrong ? Maybe(path + " fails " + keyword) : std::nullopt;
    };
    if (notes.count(keyword) > 0 || keyword.rfind("x-", 0) == 0) return std::nullopt;
    if (keyword == "type") return wrong(!is_type(content, value));
    if (keyword == "const") return wrong(value != content);
    if (keyword == "enum") return wrong(std::find(content.begin(), content.end(), value) == content.end());
    if (keyword == "allOf") return all_of(content, value, path);
    if (keyword == "anyOf") return wrong(count_matching(content, value) < 1);
    if (keyword == "oneOf") return wrong(count_matching(content, value) != 1);
    if (keyword == "not") return wrong(!fault(content, value));
    if (keyword == "if") return either(schema, value, path);
    if (value.is_string()) return string_fault(keyword, content, value, path);
    if (value.is_number()) return number_fault(keyword, content, value, path);
    if (value.is_array()) return array_fault(keyword, content, value, path);
    if (value.is_object()) return object_fault(schema, keyword, content, value, path);
    return std::nullopt;
  }

  static Maybe all_of(const Json& schemas, const Json& value, const std::string& path) {
    for (const Json& one : schemas) {
      if (auto found = fault(one, value, path)) return found;
    }
    return std::nullopt;
  }

  static int count_matching(const Json& schemas, const Json& value) {
    return static_cast<int>(
        std::count_if(schemas.begin(), schemas.end(), [&](const Json& one) { return !fault(one, value); }));
  }

  static Maybe either(const Json& schema, const Json& value, const std::string& path) {
    const char* branch = fault(schema["if"], value) ? "else" : "then";
    return schema.contains(branch) ? fault(schema[branch], value, path) : std::nullopt;
  }

  static Maybe string_fault(const std::string& keyword, const Json& content, const std::string& text,
                            const std::string& path) {
    bool good = false;
    if (keyword == "pattern") {
      good = std::regex_search(text, std::regex(content.get<std::string>()));
    } else if (keyword == "minLength") {
      good = characters(text) >= content.get<std::size_t>();
    } else if (keyword == "maxLength") {
      good = characters(text) <= content.get<std::size_t>();
    }
    return good ? std::nullopt : Maybe(path + " \"" + text + "\" fails " + keyword);
  }

  static Maybe number_fault(const std::string& keyword, const Json& content, const Json& value,
                            const std::string& path) {
    const bool good = (keyword == "minimum" && value.get<double>() >= content.get<double>()) ||
                      (keyword == "maximum" && value.get<double>() <= content.get<double>());
    return good ? std::nullopt : Maybe(path + " fails " + keyword);
  }

  static Maybe array_fault(const std::string& keyword, const Json& content, const Json& value,
                           const std::string& path) {
    if (keyword == "items") {
      for (std::size_t i = 0; i < value.size(); ++i) {
        if (auto found = fault(content, value[i], path + "[" + std::to_string(i) + "]")) return found;
      }
      return std::nullopt;
    }
    if (keyword == "prefixItems") {
      for (std::size_t i = 0; i < std::min(content.size(), value.size()); ++i) {
        if (auto found = fault(content[i], value[i], path + "[" + std::to_string(i) + "]")) return found;
      }
      return std::nullopt;
    }
    bool good = false;
    if (keyword == "minItems") good = value.size() >= content.get<std::size_t>();
    if (keyword == "maxItems") good = value.size() <= content.get<std::size_t>();
    if (keyword == "uniqueItems") good = std::set<Json>(value.begin(), value.end()).size() == value.size();
    return good ? std::nullopt : Maybe(path + " fails " + keyword);
  }

  static Maybe object_fault(const Json& schema, const std::string& keyword, const Json& content,
                            const Json& value, const std::string& path) {
    if (keyword == "properties") return properties_fault(content, value, path);
    if (keyword == "required") return missing(content, value, path);
    if (keyword == "dependentRequired") {
      for (const auto& [name, needed] : content.items()) {
        if (!value.contains(name)) continue;
        if (auto found = missing(needed, value, path)) return found;
      }
      return std::nullopt;
    }
    if (keyword != "additionalProperties" || content != Json(false))
      return path + " has unknown keyword " + keyword;
    for (const auto& [name, item] : value.items()) {
      if (!schema["properties"].contains(name)) return path + "." + name + " is no property";
    }
    return std::nullopt;
  }

  static Maybe properties_fault(const Json& properties, const Json& value, const std::string& path) {
    for (const auto& [name, one] : properties.items()) {
      if (!value.contains(name)) continue;
      if (auto found = fault(one, value[name], path + "." + name)) return found;
    }
    return std::nullopt;
  }

  static Maybe missing(const Json& names, const Json& value, const std::string& path) {
    for (const Json& name : names) {
      if (!value.contains(name.get<std::string>())) return path + " lacks " + name.get<std::string>();
    }
    return std::nullopt;
  }
};

}  // namespace crownwright::test
