#include "order/tool_value.h"

#include <algorithm>
#include <vector>

#include "base/exact_number.h"
#include "base/nearest_name.h"
#include "order/value_help.h"

namespace crownwright::order {
namespace {

using value::example;

const std::vector<std::string> shapes = {"ball", "flat"};  // in the order of CutterShape

/// "6 mm" and "ball" of "6 mm ball".
struct ToolText {
  std::string size, word;
};

ToolText parted(const std::string& text) {
  const std::size_t end = text.find_last_not_of(' ') + 1;
  const std::size_t blank = end == 0 ? std::string::npos : text.find_last_of(' ', end - 1);
  if (blank == std::string::npos) return {text.substr(0, end), ""};
  return {text.substr(0, blank), text.substr(blank + 1, end - blank - 1)};
}

std::string allowed_shapes(const Key& key) {
  std::string all;
  for (const std::string_view shape : key.choices) all.append(all.empty() ? "" : " or ").append(shape);
  return "a diameter with its unit and " + all + ", " + example(key);
}

Result<Length> diameter_of(const Written& w, const std::string& text) {
  TableValue size = w.value;
  size.text = text;
  const Result<Length> length = value::length_of(w, size);
  if (!length) return length.fault();
  if (auto fault = out_of_range(w, *w.key, *length)) return *fault;
  return length;
}

Fault no_shape(const Written& w, const ToolText& tool) {
  if (parse_length(w.value.text))
    return w.fault(crownwright::quoted(w.value.text) + " says no shape", allowed_shapes(*w.key));
  const auto nearest = nearest_name(tool.word, shapes);
  return w.fault(crownwright::quoted(w.value.text) + " is no cutter",
                 (nearest ? "did you mean \"" + *nearest + "\"? " : "") + allowed_shapes(*w.key));
}

}  // namespace

Result<KeyValue> cutter_value(const Written& w) {
  if (w.value.kind != ValueKind::text) return value::wrong_type(w, "a cutter in quotes");
  const ToolText tool = parted(w.value.text);
  const auto shape = std::find(shapes.begin(), shapes.end(), tool.word);
  if (shape == shapes.end()) return no_shape(w, tool);
  const auto& choices = w.key->choices;
  if (std::find(choices.begin(), choices.end(), tool.word) == choices.end()) {
    return w.fault("a cutter of shape \"" + tool.word + "\" cannot finish a round form",
                   allowed_shapes(*w.key) + "; a flat one may rough: rough_tool = \"6 mm flat\"");
  }
  const Result<Length> diameter = diameter_of(w, tool.size);
  if (!diameter) return diameter.fault();
  return KeyValue(Cutter{*diameter, static_cast<CutterShape>(shape - shapes.begin())});
}

Result<KeyValue> drill_value(const Written& w) {
  if (w.value.kind != ValueKind::text) return value::wrong_type(w, "a drill's diameter in quotes");
  const ToolText tool = parted(w.value.text);
  const Result<Length> diameter = diameter_of(w, tool.word == "drill" ? tool.size : w.value.text);
  if (!diameter) return diameter.fault();
  return KeyValue(*diameter);
}

}  // namespace crownwright::order
